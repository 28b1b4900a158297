/* Feeds brought in day by day, as they are put out (planner/step_up.h). */
#include "outcome/day_words.h"
#include "outcome/plan_report.h"
#include <math.h>

static const char *feed_name(const PlanFindings *findings, int feed) {
    return findings->plan->question->feeds[feed].name;
}

static const char *group_name(const PlanFindings *findings, const StepUp *of) {
    return findings->plan->question->farm->herd.names[of->group];
}

static bool has_reason(const StepUp *of, StepUpReason reason) {
    for (int f = 0; f < of->feed_count; f++) {
        if (of->feeds[f].reason == reason)
            return true;
    }
    return false;
}

static void add_table(Report *report, const PlanFindings *findings, const StepUp *of) {
    Arena *arena = report->arena;
    const char *unit = measure_unit(findings->units, MEASURE_FEED);
    const int count = of->feed_count + (of->in_place >= 0 ? 2 : 1);
    ReportColumn *columns = ARENA_ARRAY(arena, ReportColumn, count);
    columns[0] = (ReportColumn){"day", "Day", "", 0};
    for (int f = 0; f < of->feed_count; f++)
        columns[f + 1] = (ReportColumn){arena_print(arena, "feed_%d", f + 1),
                                        feed_name(findings, of->feeds[f].feed), unit, 1};
    if (of->in_place >= 0)
        columns[count - 1] =
            (ReportColumn){"in_place", feed_name(findings, of->in_place), unit, 1};
    ReportTable *table =
        report_table(report, "step_up", "As fed, a head and day", columns, count);
    for (int day = 0; day < of->days; day++) {
        Cell *cells = ARENA_ARRAY(arena, Cell, count);
        cells[0] = text_cell(day_short(arena, calendar_add(of->from, day)));
        for (int f = 0; f < of->feed_count; f++)
            cells[f + 1] = measure_cell(findings->units, MEASURE_FEED,
                                        of->put_out_kg[day * of->feed_count + f]);
        if (of->in_place >= 0)
            cells[count - 1] =
                measure_cell(findings->units, MEASURE_FEED, of->in_place_kg[day]);
        report_row(table, cells);
    }
}

static void add_step_up(Report *report, const PlanFindings *findings, const StepUp *of) {
    Arena *arena = report->arena;
    report_part(report, "step_up",
                arena_print(arena, "%s, from %s", group_name(findings, of),
                            day_words(arena, of->from)));
    add_table(report, findings, of);
    const char *before =
        of->is_first ? " Where they had some before this day, begin at what they had." : "";
    if (of->in_place >= 0)
        report_paragraph(report,
                         "%s stands in for what is still held back: %s in all beyond the plan, "
                         "and the other feeds go on as in the ration.%s",
                         feed_name(findings, of->in_place),
                         weight_words(arena, findings->units, of->more_kg), before);
    else
        report_paragraph(report,
                         "Put out hay low in nitrate in place of what is still held back; no "
                         "forage of the ration is fit for it.%s",
                         before);
}

/* The usual cautions, once, for what is in the tables. */
static const char *caution_words(Arena *arena, bool has_grain, bool has_nitrate) {
    return arena_print(
        arena,
        "%s%sA day missed is not caught up: go back to where they were%s. Hungry cattle "
        "first get forage low in nitrate. If any go off feed, scour, bloat or stagger, "
        "stop and phone your veterinarian.",
        has_grain
            ? "Grain and screenings go up by one pound (0.45 kg) a head every second day. "
            : "",
        has_nitrate ? "Feed above the caution line for nitrate comes in by quarters, four days "
                      "each, fully mixed, in two feedings a day or more. "
                    : "",
        has_nitrate ? ", and after some days without it begin anew" : "");
}

void plan_report_step_ups(Report *report, const PlanFindings *findings) {
    bool has_grain = false, has_nitrate = false;
    for (int i = 0; i < findings->step_up_count; i++) {
        has_grain = has_grain || has_reason(&findings->step_ups[i], STEP_GRAIN);
        has_nitrate = has_nitrate || has_reason(&findings->step_ups[i], STEP_NITRATE);
    }
    if (findings->step_up_count == 0)
        return;
    report_section(report, "step_ups", "Bringing feeds in, day by day");
    report_remark(report, SEVERITY_CAUTION, "step-up",
                  caution_words(report->arena, has_grain, has_nitrate),
                  has_grain && has_nitrate ? "UNL_LIMIT_FEEDING MB_NITRATE"
                  : has_grain              ? "UNL_LIMIT_FEEDING"
                                           : "MB_NITRATE");
    for (int i = 0; i < findings->step_up_count; i++)
        add_step_up(report, findings, &findings->step_ups[i]);
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
        Figure *feeds = figure_list(figure, "feeds");
        for (int f = 0; f < of->feed_count; f++) {
            Figure *feed = figure_list_object(feeds);
            figure_text(feed, "feed", feed_name(findings, of->feeds[f].feed));
            figure_text(feed, "reason",
                        of->feeds[f].reason == STEP_GRAIN ? "grain" : "nitrate");
            figure_number(feed, "from_as_fed_kg", of->feeds[f].from_kg);
            figure_number(feed, "to_as_fed_kg", of->feeds[f].to_kg);
        }
        figure_text(figure, "in_place",
                    of->in_place >= 0 ? feed_name(findings, of->in_place) : NULL);
        figure_number(figure, "in_place_more_as_fed_kg",
                      of->in_place >= 0 ? of->more_kg : (double)NAN);
        add_days(figure, findings, of);
    }
}
