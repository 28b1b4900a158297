#include "base/text.h"
#include "outcome/comparison.h"
#include "outcome/day_words.h"
#include "outcome/dearer_chart.h"
#include "outcome/plan_report.h"
#include "outcome/weighed_words.h"
#include <math.h>

static const Future *future_at(const Comparison *comparison, int place) {
    return &comparison->futures[place];
}

static bool is_balanced(const Future *future) {
    return future->plan && future->plan->verdict == PLAN_BALANCED;
}

/* ---- the verdict ---- */

static const char *certain_words(Arena *arena, const CostDifference *of) {
    const char *standard = money_words(arena, of->standard, 0);
    if (of->is == DIFFERENCE_BEYOND_ERROR)
        return arena_print(arena,
                           "That is more than twice what the tests and weights of the stacks "
                           "leave open (%s).",
                           standard);
    return arena_print(
        arena,
        "That is within twice what the tests and weights of the stacks leave open "
        "(%s): weigh and test before you choose by it.",
        standard);
}

/* Of the cheapest of the what-ifs; "" where none can be compared. */
static const char *next_words(Arena *arena, const Comparison *comparison) {
    const int place = comparison_cheapest(comparison, 1);
    if (place < 0)
        return "";
    const Future *next = future_at(comparison, place);
    const CostDifference of = comparison_difference(future_at(comparison, 0), next);
    if (of.is == DIFFERENCE_NONE)
        return arena_print(arena, " '%s' costs the same.", next->name);
    return arena_print(arena, " '%s' costs %s more. %s", next->name,
                       money_words(arena, of.more, 0), certain_words(arena, &of));
}

static void add_verdict(Report *report, const Comparison *comparison) {
    Arena *arena = report->arena;
    const int place = comparison_cheapest(comparison, 0);
    if (place < 0) {
        report_headline(report, "No future feeds every group in balance.");
        report_verdict(report, SEVERITY_DANGER,
                       "No future that could be planned feeds every group in balance, so none "
                       "is called the cheapest.");
        return;
    }
    const Future *cheapest = future_at(comparison, place);
    const Future *as_it_is = future_at(comparison, 0);
    const char *total = arena_print(arena, "%s%s", money_words(arena, future_cost(cheapest), 0),
                                    weighed_part_words(arena, cheapest->least.cautions));
    if (place == 0) {
        report_headline(report, "Nothing compared is cheaper than the farm as it is.");
        report_verdict(report, SEVERITY_NOTE,
                       "Nothing compared here is cheaper than the farm as it is: %s in all.%s",
                       total, next_words(arena, comparison));
        return;
    }
    report_headline(report, "'%s' is the cheapest.", cheapest->name);
    if (!is_balanced(as_it_is)) {
        report_verdict(report, SEVERITY_CAUTION,
                       "'%s' is the cheapest that feeds every group: %s in all. As it is, the "
                       "farm cannot feed them in balance.",
                       cheapest->name, total);
        return;
    }
    const CostDifference of = comparison_difference(as_it_is, cheapest);
    if (of.is == DIFFERENCE_NONE) {
        report_headline(report, "'%s' costs the same as the farm as it is.", cheapest->name);
        report_verdict(
            report, SEVERITY_NOTE,
            "'%s' and the farm as it is cost the same, %s in all, and nothing compared "
            "here is cheaper.",
            cheapest->name, total);
        return;
    }
    report_verdict(report, SEVERITY_NOTE,
                   "'%s' is the cheapest: %s in all, %s less than the farm as it is. %s",
                   cheapest->name, total, money_words(arena, -of.more, 0),
                   certain_words(arena, &of));
}

/* ---- side by side ---- */

/* A row's label and what stands in it of one future. */
typedef struct {
    const char *label;
    Cell (*cell)(const Comparison *comparison, const Future *future);
    bool is_total;
} SideRow;

static Cell balanced_cell(const Comparison *comparison, const Future *future) {
    (void)comparison;
    return text_cell(is_balanced(future) ? "yes" : "SHORT");
}

static Cell money_cell(double dollars) { return number_cell(dollars, 0); }

static Cell feeding_cell(const Comparison *comparison, const Future *future) {
    (void)comparison;
    return is_balanced(future) ? money_cell(future->least.money) : empty_cell();
}

static Cell yardage_cell(const Comparison *comparison, const Future *future) {
    (void)comparison;
    return is_balanced(future) ? money_cell(future->plan->cost.yardage) : empty_cell();
}

static Cell own_cost_cell(const Comparison *comparison, const Future *future) {
    (void)comparison;
    return future->own_cost != 0.0 ? money_cell(future->own_cost) : empty_cell();
}

static Cell weighed_cell(const Comparison *comparison, const Future *future) {
    (void)comparison;
    return is_balanced(future) ? money_cell(future->least.cautions) : empty_cell();
}

static Cell total_cell(const Comparison *comparison, const Future *future) {
    (void)comparison;
    return money_cell(future_cost(future));
}

static Cell more_cell(const Comparison *comparison, const Future *future) {
    const Future *as_it_is = future_at(comparison, 0);
    return future == as_it_is ? empty_cell()
                              : money_cell(future_cost(future) - future_cost(as_it_is));
}

static Cell error_cell(const Comparison *comparison, const Future *future) {
    const Future *as_it_is = future_at(comparison, 0);
    if (future == as_it_is || !is_balanced(future) || !is_balanced(as_it_is))
        return empty_cell();
    return money_cell(comparison_difference(as_it_is, future).standard);
}

static Cell head_day_cell(const Comparison *comparison, const Future *future) {
    (void)comparison;
    return number_cell(future_cost(future) / future->head_days, 2);
}

static Cell pocket_cell(const Comparison *comparison, const Future *future) {
    (void)comparison;
    return money_cell(future->plan->cost.bought + future->own_cost);
}

static Cell on_hand_cell(const Comparison *comparison, const Future *future) {
    (void)comparison;
    return money_cell(future->on_hand_value);
}

static Cell left_cell(const Comparison *comparison, const Future *future) {
    return measure_cell(comparison->units, MEASURE_TONNAGE, future->left_kg);
}

static Cell days_cell(const Comparison *comparison, const Future *future) {
    (void)comparison;
    return number_cell(future->days.balanced_days, 0);
}

static Cell dangers_cell(const Comparison *comparison, const Future *future) {
    (void)comparison;
    return number_cell(future->danger_topics, 0);
}

static Cell cautions_cell(const Comparison *comparison, const Future *future) {
    (void)comparison;
    return number_cell(future->caution_topics, 0);
}

static Cell chance_cell(const Comparison *comparison, const Future *future) {
    (void)comparison;
    return number_cell(future->chance_of_turnout * 100.0, 0);
}

static bool any_own_cost(const Comparison *comparison) {
    for (int i = 0; i < comparison->count; i++) {
        if (future_at(comparison, i)->own_cost != 0.0)
            return true;
    }
    return false;
}

static bool any_weighed(const Comparison *comparison) {
    for (int i = 0; i < comparison->count; i++) {
        if (is_balanced(future_at(comparison, i)) &&
            future_at(comparison, i)->least.cautions >= WORTH_WEIGHING)
            return true;
    }
    return false;
}

static bool any_chance(const Comparison *comparison) {
    for (int i = 0; i < comparison->count; i++) {
        if (!isnan(future_at(comparison, i)->chance_of_turnout))
            return true;
    }
    return false;
}

static void add_side_row(ReportTable *table, const Comparison *comparison, SideRow row) {
    Cell *cells = ARENA_ARRAY(table->arena, Cell, comparison->count + 1);
    cells[0] = text_cell(row.label);
    for (int i = 0; i < comparison->count; i++)
        cells[i + 1] = row.cell(comparison, future_at(comparison, i));
    if (row.is_total)
        report_total_row(table, cells);
    else
        report_row(table, cells);
}

static void add_shortages(Report *report, const Comparison *comparison) {
    for (int i = 0; i < comparison->count; i++) {
        const Future *future = future_at(comparison, i);
        if (is_balanced(future))
            continue;
        const PlanFindings findings = {
            .plan = future->plan, .units = comparison->units, .is_brief = true};
        report_remark(report, SEVERITY_DANGER, "short",
                      arena_print(report->arena, "'%s': %s", future->name,
                                  shortfall_words(report->arena, &findings)),
                      "");
    }
}

/* Of those that feed the same cattle for as long. */
static void add_chart(Report *report, const Comparison *comparison) {
    PricedFuture *futures = ARENA_ARRAY(report->arena, PricedFuture, comparison->count);
    for (int i = 0; i < comparison->count; i++) {
        const Future *future = future_at(comparison, i);
        const bool is_ranked = is_balanced(future) && comparison_is_ranked(comparison, future);
        futures[i] =
            (PricedFuture){future->name, is_ranked ? future_cost(future) : (double)NAN};
    }
    dearer_chart(report, futures, comparison->count);
}

static const char *totals_weighed_words(Arena *arena, const Comparison *comparison) {
    double least = HUGE_VAL;
    double most = 0.0;
    for (int i = 0; i < comparison->count; i++) {
        if (!is_balanced(future_at(comparison, i)))
            continue;
        least = fmin(least, future_at(comparison, i)->least.cautions);
        most = fmax(most, future_at(comparison, i)->least.cautions);
    }
    return weighed_words(arena, least, most);
}

/* What evening out may cost, of the future where it may cost most. */
static double most_steady_share(const Comparison *comparison) {
    double most = 0.0;
    for (int i = 0; i < comparison->count; i++) {
        const WinterPlan *plan = future_at(comparison, i)->plan;
        if (plan)
            most = fmax(most, plan->question->farm->winter.steady_cost_share);
    }
    return most;
}

static void add_side_by_side(Report *report, const Comparison *comparison) {
    Arena *arena = report->arena;
    const char *tonnes = measure_unit(comparison->units, MEASURE_TONNAGE);
    report_section(report, "side_by_side", "Side by side");
    ReportTable *table = report_table(report, "side_by_side", "",
                                      comparison_columns(arena, comparison, "figure", "", ""),
                                      comparison->count + 1);
    const SideRow rows[] = {
        {"Every group balanced", balanced_cell, false},
        {"Feed and hauling, $", feeding_cell, false},
        {"Yardage, $", yardage_cell, false},
        {any_own_cost(comparison) ? "What else it costs, $" : NULL, own_cost_cell, false},
        {any_weighed(comparison) ? "Caution lines passed weigh, $" : NULL, weighed_cell, false},
        {"In all, $", total_cell, true},
        {"More than as it is, $", more_cell, false},
        {"  left open by tests, weights, $", error_cell, false},
        {"A head and day, $", head_day_cell, false},
        {"Money out of pocket, $", pocket_cell, true},
        {"Own feed on hand would fetch, $", on_hand_cell, false},
        {arena_print(arena, "Own feed left, %s", tonnes), left_cell, false},
        {"Days own feed would last", days_cell, false},
        {any_chance(comparison) ? "Chance to last to turnout, %" : NULL, chance_cell, false},
        {"Dangers", dangers_cell, false},
        {"Cautions", cautions_cell, false},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        if (rows[i].label)
            add_side_row(table, comparison, rows[i]);
    }
    add_chart(report, comparison);
    add_shortages(report, comparison);
    comparison_add_remarks(report, comparison);
    report_paragraph(
        report,
        "Less than 0 is cheaper than as it is. Feed and hauling are the least they can cost; "
        "the "
        "rations, the money out of pocket and the purchases are of plans evened out within "
        "%.3g %% of that, as `winterstack plan` prints them. Own feed is reckoned at what it "
        "would fetch, not at what it cost to grow: where a future begins with more of it, put "
        "what growing it costs into the what-if. A future that is short has no cost to "
        "compare.%s",
        most_steady_share(comparison) * 100.0, totals_weighed_words(arena, comparison));
}

/* ---- what each changes ---- */

static void add_changes(Report *report, const Comparison *comparison) {
    report_section(report, "changes", "What each of them changes");
    for (int i = 1; i < comparison->count; i++) {
        const Future *future = future_at(comparison, i);
        Text words = text_new(report->arena);
        for (int k = 0; k < future->word_count; k++)
            text_print(&words, "%s%s", k > 0 ? "; " : "", future->words[k]);
        if (future->own_cost != 0.0)
            text_print(&words, "%s%s %s besides: %s", words.length > 0 ? "; " : "",
                       future->own_cost > 0.0 ? "it costs" : "it brings in",
                       money_words(report->arena, fabs(future->own_cost), 0),
                       future->cost_words);
        if (words.length == 0)
            text_add(&words, "nothing");
        report_paragraph(report, "%s: %s.%s", future->name, words.bytes,
                         future->plan ? "" : " It has faults, and was not planned.");
    }
}

static const char *title(Arena *arena, const Winter *winter) {
    return arena_print(arena, "Futures compared%s%s, %s to %s",
                       winter->farm[0] != '\0' ? ": " : "", winter->farm,
                       day_words(arena, winter->first_day), day_words(arena, winter->last_day));
}

/* Those that could be planned: the tables are of them. */
static Comparison planned_of(Arena *arena, const Comparison *comparison) {
    Future *futures = ARENA_ARRAY(arena, Future, comparison->count);
    Comparison planned = {futures, 0, comparison->units};
    for (int i = 0; i < comparison->count; i++) {
        if (future_at(comparison, i)->plan)
            futures[planned.count++] = *future_at(comparison, i);
    }
    return planned;
}

Report *comparison_report(Arena *arena, const Comparison *comparison) {
    const Winter *winter = &future_at(comparison, 0)->plan->question->farm->winter;
    Report *report = report_new(arena, title(arena, winter));
    const Comparison planned = planned_of(arena, comparison);
    if (planned.count > 1) {
        add_verdict(report, &planned);
        add_side_by_side(report, &planned);
        comparison_add_pairs(report, &planned);
    }
    if (comparison->count > 1)
        add_changes(report, comparison);
    if (planned.count > 1) {
        comparison_add_purchases(report, &planned);
        comparison_add_rations(report, &planned);
        comparison_add_cautions(report, &planned);
    }
    comparison_figures(report->figures, comparison);
    return report;
}
