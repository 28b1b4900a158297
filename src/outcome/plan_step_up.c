/* Feeds brought in day by day, as they are put out (planner/step_up.h): one table a group, with
 * every feed that changes on any of its days, so that a day's line is all there is to look at.
 */
#include "base/text.h"
#include "outcome/day_words.h"
#include "outcome/plan_report.h"
#include <math.h>

/* A column whose largest number is less as shown has a decimal more, and below a tenth of it
 * another: a quarter of a ration's urea is not to be read as none. */
#define LITTLE 0.5

static const char *feed_name(const PlanFindings *findings, int feed) {
    return findings->plan->question->feeds[feed].name;
}

static const char *group_name(const PlanFindings *findings, const StepUp *of) {
    return findings->plan->question->farm->herd.names[of->group];
}

/* The schedules of one group. */
typedef struct {
    const PlanFindings *findings;
    const StepUp *list;
    int count;
    const bool *is_shown; /* [feeds] it is stepped, or stands in, in any of them */
} GroupSteps;

static GroupSteps group_steps(Arena *arena, const PlanFindings *findings, int first) {
    const StepUp *list = &findings->step_ups[first];
    bool *is_shown = ARENA_ARRAY(arena, bool, findings->plan->question->feed_count);
    int count = 0;
    while (first + count < findings->step_up_count && list[count].group == list->group) {
        const StepUp *of = &list[count++];
        for (int f = 0; f < of->feed_count; f++)
            is_shown[of->feeds[f].feed] = true;
        if (of->in_place >= 0)
            is_shown[of->in_place] = true;
    }
    return (GroupSteps){findings, list, count, is_shown};
}

/* kg as fed a head on a day of a schedule: of a feed that it does not touch what the ration
 * has.
 */
static double on_day_kg(const GroupSteps *steps, const StepUp *of, int day, int feed) {
    for (int f = 0; f < of->feed_count; f++) {
        if (of->feeds[f].feed == feed)
            return of->put_out_kg[day * of->feed_count + f];
    }
    if (of->in_place == feed)
        return of->in_place_kg[day];
    return put_out_kg(steps->findings->plan, of->block, feed);
}

/* Urea in what the ration has it in. */
static Measure measure_of(const GroupSteps *steps, int feed) {
    return ration_feed_fills(&steps->findings->plan->question->feeds[feed])
               ? MEASURE_FEED
               : MEASURE_SMALL_FEED;
}

static int decimals_of(const GroupSteps *steps, int feed) {
    const Units units = steps->findings->units;
    const Measure measure = measure_of(steps, feed);
    double most_kg = 0.0;
    for (int i = 0; i < steps->count; i++) {
        for (int day = 0; day < steps->list[i].days; day++)
            most_kg = fmax(most_kg, on_day_kg(steps, &steps->list[i], day, feed));
    }
    const double most = measure_shown(units, measure, most_kg);
    return measure_decimals(units, measure) + (most < LITTLE) + (most < 0.1 * LITTLE);
}

static int columns_of(Report *report, const GroupSteps *steps, const ReportColumn **columns,
                      const int **feeds) {
    Arena *arena = report->arena;
    const int feed_count = steps->findings->plan->question->feed_count;
    ReportColumn *made = ARENA_ARRAY(arena, ReportColumn, feed_count + 1);
    int *shown = ARENA_ARRAY(arena, int, feed_count);
    int count = 0;
    made[0] = (ReportColumn){"day", "Day", "", 0};
    for (int f = 0; f < feed_count; f++) {
        if (!steps->is_shown[f])
            continue;
        shown[count++] = f;
        made[count] =
            (ReportColumn){arena_print(arena, "feed_%d", count), feed_name(steps->findings, f),
                           measure_unit(steps->findings->units, measure_of(steps, f)), 1};
    }
    *columns = made;
    *feeds = shown;
    return count;
}

static void add_days_of(ReportTable *table, const GroupSteps *steps, const StepUp *of,
                        const int *feeds, int count) {
    const Units units = steps->findings->units;
    for (int day = 0; day < of->days; day++) {
        Cell *cells = ARENA_ARRAY(table->arena, Cell, count + 1);
        cells[0] = text_cell(day_short(table->arena, calendar_add(of->from, day)));
        for (int column = 0; column < count; column++)
            cells[column + 1] =
                number_cell(measure_shown(units, measure_of(steps, feeds[column]),
                                          on_day_kg(steps, of, day, feeds[column])),
                            decimals_of(steps, feeds[column]));
        report_row(table, cells);
    }
}

static void add_table(Report *report, const GroupSteps *steps) {
    const ReportColumn *columns;
    const int *feeds;
    const int count = columns_of(report, steps, &columns, &feeds);
    ReportTable *table =
        report_table(report, "step_up", "As fed, a head and day", columns, count + 1);
    for (int i = 0; i < steps->count; i++)
        add_days_of(table, steps, &steps->list[i], feeds, count);
}

#define WORTH_TELLING_KG 0.5 /* of all that stands in: less reads as none */

static bool is_bought(const GroupSteps *steps, int feed) {
    return !steps->findings->plan->question->feeds[feed].is_own;
}

/* "from 15 Nov Pit, 1.2 t in all beyond the plan; from 1 Jan the same, 0.4 t; ..."; "" */
static const char *stand_in_words(Arena *arena, const GroupSteps *steps) {
    Text text = text_new(arena);
    int told = -1; /* the schedule told of last */
    for (int i = 0; i < steps->count; i++) {
        const StepUp *of = &steps->list[i];
        if (of->in_place >= 0 && of->more_kg < WORTH_TELLING_KG &&
            of->missing_kg < WORTH_TELLING_KG)
            continue;
        text_print(&text, "%sfrom %s ", told >= 0 ? "; " : "", day_short(arena, of->from));
        const bool is_same = told >= 0 && of->in_place == steps->list[told].in_place;
        told = i;
        if (of->in_place < 0)
            text_add(&text, "hay low in nitrate, for no forage of the ration is fit for it");
        else
            text_print(&text, "%s, %s%s%s",
                       is_same ? "the same" : feed_name(steps->findings, of->in_place),
                       weight_words(arena, steps->findings->units, of->more_kg),
                       is_same ? "" : " in all beyond the plan",
                       !is_same && is_bought(steps, of->in_place) ? " and what it buys" : "");
        if (of->missing_kg >= WORTH_TELLING_KG)
            text_print(
                &text,
                " (no more straw than they digest; on the worst day %s of dry matter a "
                "head is missing: find other forage for these days)",
                measure_words(arena, steps->findings->units, MEASURE_FEED, of->missing_kg));
    }
    return text.bytes;
}

/* Where the first schedule begins. */
static const char *begin_words(Arena *arena, const GroupSteps *steps) {
    const char *day = day_short(arena, steps->list->from);
    if (!steps->list->is_first)
        return "";
    if (!steps->list->is_used_to_some)
        return arena_print(arena, " Where they had some before %s, begin at what they had.",
                           day);
    return arena_print(
        arena,
        " On %s it begins at what they are used to: the least that the last plan gave them "
        "in four weeks, or of own feed what fed.csv has for the poorer of two, where that is "
        "less. Where they got less, begin at what they got.",
        day);
}

/* Cattle that come where the group had gone, after its first schedule. */
static const char *come_words(Arena *arena, const GroupSteps *steps) {
    Text text = text_new(arena);
    for (int i = 1; i < steps->count; i++) {
        if (steps->list[i].is_first)
            text_print(&text,
                       " The cattle that come on %s begin anew; where they had some before, at "
                       "what they had.",
                       day_short(arena, steps->list[i].from));
    }
    return text.bytes;
}

static void add_group(Report *report, const GroupSteps *steps) {
    Arena *arena = report->arena;
    report_part(report, "step_up", group_name(steps->findings, steps->list));
    add_table(report, steps);
    const char *stands_in = stand_in_words(arena, steps);
    report_paragraph(
        report,
        "%s%s%sFeeds that are not here, and days that are not here, go by the ration.%s%s",
        stands_in[0] != '\0' ? "In place of what is still held back: " : "", stands_in,
        stands_in[0] != '\0' ? ". " : "", begin_words(arena, steps), come_words(arena, steps));
}

static bool brings_in_nitrate(const PlanFindings *findings, bool to_mixed) {
    const Herd *herd = &findings->plan->question->farm->herd;
    for (int i = 0; i < findings->step_up_count; i++) {
        const StepUp *of = &findings->step_ups[i];
        if ((herd->groups[of->group].delivery == DELIVERY_MIXED) != to_mixed)
            continue;
        for (int f = 0; f < of->feed_count; f++) {
            if (of->feeds[f].reason == STEP_NITRATE)
                return true;
        }
    }
    return false;
}

/* Nobody mixes what cattle are fed free choice or in layers. */
static const char *mixing_words(const PlanFindings *findings) {
    if (!brings_in_nitrate(findings, false))
        return "fully mixed";
    return brings_in_nitrate(findings, true)
               ? "fully mixed, or after other feed where it is not mixed"
               : "after other feed";
}

/* The usual cautions, once, for what is in the tables. */
static const char *caution_words(Arena *arena, const PlanFindings *findings, const bool *has) {
    return arena_print(
        arena,
        "%s%s%s%sA day missed is not caught up: go back to where they were%s. Hungry cattle "
        "first get forage low in nitrate. If any go off feed, scour, bloat or stagger, "
        "stop and phone your veterinarian.",
        has[STEP_GRAIN] || has[STEP_MEAL]
            ? arena_print(arena, "%s up by one pound (0.45 kg) a head every second day%s. ",
                          has[STEP_GRAIN] && has[STEP_MEAL] ? "Grain, screenings and meals go"
                          : has[STEP_GRAIN]                 ? "Grain and screenings go"
                                                            : "Meals and pellets go",
                          has[STEP_GRAIN] && has[STEP_MEAL] ? ", all of it together" : "")
            : "",
        has[STEP_NITRATE]
            ? arena_print(arena,
                          "Feed above the caution line for nitrate comes in by quarters, four "
                          "days each, %s, in two feedings a day or more. ",
                          mixing_words(findings))
            : "",
        has[STEP_BRASSICA] ? "Brassicas come in by quarters, four days each, with other forage "
                             "before them. "
                           : "",
        has[STEP_UREA] ? "Urea comes in by quarters, four days each, mixed evenly through the "
                         "feed; after a day without it begin at the first quarter. "
                       : "",
        has[STEP_NITRATE] ? ", and after some days without it begin anew" : "");
}

static const char *source_words(Arena *arena, const bool *has) {
    Text text = text_new(arena);
    bool is_told[SOURCE_COUNT] = {false};
    for (int reason = 0; reason < STEP_REASON_COUNT; reason++) {
        const SourceKey source = step_up_source((StepUpReason)reason);
        if (!has[reason] || is_told[source])
            continue;
        is_told[source] = true;
        text_print(&text, "%s%s", text.length > 0 ? " " : "", source_key(source));
    }
    return text.bytes;
}

/* The days themselves are of the whole plan. */
static void add_in_brief(Report *report, const GroupSteps *steps) {
    Text feeds = text_new(report->arena);
    Text days = text_new(report->arena);
    for (int f = 0; f < steps->findings->plan->question->feed_count; f++) {
        bool is_stepped = false;
        for (int i = 0; i < steps->count; i++) {
            for (int j = 0; j < steps->list[i].feed_count; j++)
                is_stepped |= steps->list[i].feeds[j].feed == f;
        }
        if (is_stepped)
            text_print(&feeds, "%s%s", feeds.length > 0 ? "; " : "",
                       feed_name(steps->findings, f));
    }
    for (int i = 0; i < steps->count; i++) {
        const Day from = steps->list[i].from;
        Day last = calendar_add(from, steps->list[i].days - 1);
        while (i + 1 < steps->count &&
               calendar_days_between(last, steps->list[i + 1].from) == 1) {
            i++; /* what a short period cuts off goes on in the next */
            last = calendar_add(steps->list[i].from, steps->list[i].days - 1);
        }
        text_print(&days, "%s%s", days.length > 0 ? ", " : "",
                   day_span(days.arena, from, last));
    }
    report_paragraph(report, "%s: %s. Days: %s.", group_name(steps->findings, steps->list),
                     feeds.bytes, days.bytes);
}

void plan_report_step_ups(Report *report, const PlanFindings *findings) {
    bool has[STEP_REASON_COUNT] = {false};
    for (int i = 0; i < findings->step_up_count; i++) {
        const StepUp *of = &findings->step_ups[i];
        for (int f = 0; f < of->feed_count; f++)
            has[of->feeds[f].reason] = true;
    }
    if (findings->step_up_count == 0)
        return;
    report_section(report, "step_ups",
                   findings->is_brief ? "Feeds to bring in step by step"
                                      : "Bringing feeds in, day by day");
    report_remark(report, SEVERITY_CAUTION, "step-up",
                  caution_words(report->arena, findings, has),
                  source_words(report->arena, has));
    for (int i = 0; i < findings->step_up_count;) {
        const GroupSteps steps = group_steps(report->arena, findings, i);
        if (findings->is_brief)
            add_in_brief(report, &steps);
        else
            add_group(report, &steps);
        i += steps.count;
    }
    if (findings->is_brief)
        report_paragraph(report,
                         "How much of each on which day: the whole plan and the feed "
                         "sheets (--out FOLDER) say it%s. Do not begin without them.",
                         findings->is_as_found ? " of the rations to feed by" : "");
}

static void add_days(Figure *figure, const PlanFindings *findings, const StepUp *of) {
    Figure *days = figure_list(figure, "days");
    for (int day = 0; day < of->days; day++) {
        Figure *row = figure_list_object(days);
        figure_text(row, "day", day_iso(figure->arena, calendar_add(of->from, day)));
        Figure *feeds = figure_list(row, "feeds");
        for (int f = 0; f < of->feed_count; f++) {
            Figure *feed = figure_list_object(feeds);
            figure_text(feed, "feed", feed_name(findings, of->feeds[f].feed));
            figure_number(feed, "as_fed_kg", of->put_out_kg[day * of->feed_count + f]);
        }
        figure_number(row, "in_place_as_fed_kg",
                      of->in_place >= 0 ? of->in_place_kg[day] : (double)NAN);
    }
}

void plan_step_up_figures(Figure *root, const PlanFindings *findings) {
    Figure *list = figure_list(root, "step_up");
    for (int i = 0; i < findings->step_up_count; i++) {
        const StepUp *of = &findings->step_ups[i];
        Figure *figure = figure_list_object(list);
        figure_text(figure, "group", group_name(findings, of));
        figure_text(figure, "from", day_iso(root->arena, of->from));
        figure_truth(figure, "first_ration", of->is_first);
        figure_truth(figure, "begins_at_what_was_fed", of->is_used_to_some);
        Figure *feeds = figure_list(figure, "feeds");
        for (int f = 0; f < of->feed_count; f++) {
            Figure *feed = figure_list_object(feeds);
            figure_text(feed, "feed", feed_name(findings, of->feeds[f].feed));
            figure_text(feed, "reason", step_up_reason_key(of->feeds[f].reason));
            figure_number(feed, "from_as_fed_kg", of->feeds[f].from_kg);
            figure_number(feed, "to_as_fed_kg", of->feeds[f].to_kg);
        }
        figure_text(figure, "in_place",
                    of->in_place >= 0 ? feed_name(findings, of->in_place) : NULL);
        figure_number(figure, "in_place_more_as_fed_kg",
                      of->in_place >= 0 ? of->more_kg : (double)NAN);
        figure_number(figure, "in_place_missing_dry_matter_kg", of->missing_kg);
        add_days(figure, findings, of);
    }
}
