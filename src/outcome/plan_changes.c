/* The rest of a winter held against the last plan that was kept: what ran faster, what the rest
 * costs now, and what is bought of it now. */
#include "base/text.h"
#include "outcome/day_words.h"
#include "outcome/plan_report.h"
#include "planner/kept_plan.h"
#include <math.h>

typedef struct {
    Day from, last; /* of the rest */
    Day before;     /* the day before the first */
    double cost_then, cost_now;
} Rest;

static Rest rest_of(const PlanFindings *findings) {
    const WinterPlan *plan = findings->plan;
    const Farm *farm = plan->question->farm;
    const Winter *winter = &farm->winter;
    return (Rest){.from = winter->first_day,
                  .last = winter->last_day,
                  .before = calendar_add(winter->first_day, -1),
                  .cost_then = kept_plan_cost(&farm->kept, winter->first_day, winter->last_day),
                  .cost_now = plan->cost.total - plan->cost.yardage};
}

/* The kept plan is one to feed by: what is not, as the cheapest as it is found, is not held
 * against it. */
static bool has_changes(const PlanFindings *findings) {
    const Farm *farm = findings->plan->question->farm;
    return farm->is_rest_of_winter && farm->kept.count > 0 && !findings->is_as_found;
}

/* One stack since the last plan began. */
typedef struct {
    double planned_kg, fed_kg;
    double missing_kg; /* by recounts since */
} SoFar;

static SoFar so_far(const Farm *farm, const Rest *rest, int stack) {
    const Inventory *counted = &farm->as_counted;
    const Day first = farm->kept.first_day;
    SoFar of = {
        .planned_kg =
            kept_plan_kg(&farm->kept, counted->stacks.names[stack], first, rest->before),
        .fed_kg = feedings_kg(counted, &farm->record, stack, NULL, first, rest->before)};
    const StackBook now =
        stack_book(counted, &farm->record, stack, rest->from, BOOK_IN_THE_MORNING);
    const StackBook then =
        stack_book(counted, &farm->record, stack, first, BOOK_IN_THE_MORNING);
    of.missing_kg = now.missing_kg - then.missing_kg;
    return of;
}

/* The last day the kept plan feeds any of it; false when it feeds none from a day on. */
static bool planned_end(const KeptPlan *kept, const char *feed, Day from, Day *end) {
    bool found = false;
    for (int i = 0; i < kept->count; i++) {
        const KeptRation *ration = &kept->rations[i];
        if (!text_same_letters(ration->feed, feed) ||
            calendar_days_between(from, ration->to) < 0)
            continue;
        if (!found || calendar_days_between(*end, ration->to) > 0)
            *end = ration->to;
        found = true;
    }
    return found;
}

static const char *end_now_words(Arena *arena, const StackRunout *runout) {
    return runout->is_used ? day_short(arena, runout->last_fed) : "not fed";
}

#define SEEN_KG 50.0

static void add_stacks(Report *report, const PlanFindings *findings, const Rest *rest) {
    Arena *arena = report->arena;
    const Farm *farm = findings->plan->question->farm;
    const char *tons = measure_unit(findings->units, MEASURE_TONNAGE);
    ReportColumn *columns = ARENA_ARRAY(arena, ReportColumn, 6);
    columns[0] = (ReportColumn){"stack", "Stack", "", 0};
    columns[1] = (ReportColumn){"planned", "Planned", tons, 1};
    columns[2] = (ReportColumn){"fed", "Fed", tons, 1};
    columns[3] = (ReportColumn){"faster", "Faster by", tons, 1};
    columns[4] = (ReportColumn){"end_then", "Last fed, then", "", 0};
    columns[5] = (ReportColumn){"end_now", "Now", "", 0};
    ReportTable *table = report_table(
        report, "since_last_plan",
        arena_print(arena,
                    "Fed from %s to %s, as fed; what a count found missing is in Faster by",
                    day_short(arena, farm->kept.first_day), day_short(arena, rest->before)),
        columns, 6);
    for (int i = 0; i < farm->as_counted.stacks.count; i++) {
        const SoFar of = so_far(farm, rest, i);
        const char *name = farm->as_counted.stacks.names[i];
        Day end = {0};
        const bool was_planned = planned_end(&farm->kept, name, rest->from, &end);
        if (fabs(of.planned_kg) + fabs(of.fed_kg) + fabs(of.missing_kg) < SEEN_KG &&
            !was_planned)
            continue;
        report_row(table,
                   (Cell[]){text_cell(name),
                            measure_cell(findings->units, MEASURE_TONNAGE, of.planned_kg),
                            measure_cell(findings->units, MEASURE_TONNAGE, of.fed_kg),
                            measure_cell(findings->units, MEASURE_TONNAGE,
                                         of.fed_kg + of.missing_kg - of.planned_kg),
                            text_cell(was_planned ? day_short(arena, end) : "not fed"),
                            text_cell(end_now_words(arena, &findings->runouts[i]))});
    }
}

static void add_cost(Report *report, const PlanFindings *findings, const Rest *rest) {
    Arena *arena = report->arena;
    const double more = rest->cost_now - rest->cost_then;
    report_paragraph(
        report,
        "Feed and hauling of the rest of winter, %s to %s: %s by the last plan, %s "
        "now, %s %s.%s",
        day_short(arena, rest->from), day_words(arena, rest->last),
        money_words(arena, rest->cost_then, 0), money_words(arena, rest->cost_now, 0),
        money_words(arena, fabs(more), 0), more >= 0.0 ? "more" : "less",
        findings->plan->verdict == PLAN_SHORT
            ? " That does not feed them enough: see above what is short."
            : "");
}

static double taken_then(const PlanFindings *findings, const Rest *rest, int feed) {
    const Farm *farm = findings->plan->question->farm;
    return kept_plan_kg(&farm->kept, findings->plan->question->feeds[feed].name, rest->from,
                        rest->last);
}

static void add_purchases(Report *report, const PlanFindings *findings, const Rest *rest) {
    const PlanQuestion *question = findings->plan->question;
    Text text = text_new(report->arena);
    for (int f = question->own_count; f < question->feed_count; f++) {
        const double then = taken_then(findings, rest, f);
        const double now = findings->plan->taken_kg[f];
        if (fabs(now - then) >= SEEN_KG)
            text_print(&text, "%s%s %s of %s", text.length > 0 ? "; " : "",
                       weight_words(text.arena, findings->units, fabs(now - then)),
                       now > then ? "more" : "less", question->feeds[f].name);
    }
    report_paragraph(report,
                     "Of bought feed this plan feeds in those days to come, beside the last "
                     "plan: %s. What is in the yard of it already need not be bought again: "
                     "give it a row in stacks.csv.",
                     text.length > 0 ? text.bytes : "the same");
}

void plan_report_changes(Report *report, const PlanFindings *findings) {
    if (!has_changes(findings))
        return;
    const Rest rest = rest_of(findings);
    report_section(report, "changes", "Since the last plan");
    add_stacks(report, findings, &rest);
    add_cost(report, findings, &rest);
    add_purchases(report, findings, &rest);
}

void plan_change_figures(Figure *root, const PlanFindings *findings) {
    const PlanQuestion *question = findings->plan->question;
    const Farm *farm = question->farm;
    figure_truth(root, "rest_of_winter", farm->is_rest_of_winter);
    if (!has_changes(findings)) {
        figure_nothing(root, "since_last_plan");
        return;
    }
    const Rest rest = rest_of(findings);
    Figure *changes = figure_child(root, "since_last_plan");
    figure_text(changes, "from", day_iso(root->arena, farm->kept.first_day));
    figure_text(changes, "to", day_iso(root->arena, rest.before));
    figure_number(changes, "cost_of_rest_then", rest.cost_then);
    figure_number(changes, "cost_of_rest_now", rest.cost_now);
    Figure *stacks = figure_list(changes, "stacks");
    for (int i = 0; i < farm->as_counted.stacks.count; i++) {
        const SoFar of = so_far(farm, &rest, i);
        Figure *stack = figure_list_object(stacks);
        figure_text(stack, "stack", farm->as_counted.stacks.names[i]);
        figure_number(stack, "planned_kg", of.planned_kg);
        figure_number(stack, "fed_kg", of.fed_kg);
        figure_number(stack, "missing_kg", of.missing_kg);
    }
    Figure *bought = figure_list(changes, "bought");
    for (int f = question->own_count; f < question->feed_count; f++) {
        Figure *feed = figure_list_object(bought);
        figure_text(feed, "feed", question->feeds[f].name);
        figure_number(feed, "fed_then_kg", taken_then(findings, &rest, f));
        figure_number(feed, "fed_now_kg", findings->plan->taken_kg[f]);
    }
}
