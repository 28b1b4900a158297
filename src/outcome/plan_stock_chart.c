/* How each stack goes down through the winter, as a chart and the table behind it. A ration is
 * fed evenly through its period, so between two changes of a ration the line is straight. */
#include "base/text.h"
#include "outcome/day_words.h"
#include "outcome/plan_report.h"
#include <math.h>

/* kg as fed that are left of a feed on the morning of a day. */
static double left_on(const WinterPlan *plan, int feed, Day day) {
    double left = plan->question->feeds[feed].available_kg;
    for (int b = 0; b < plan->question->block_count; b++) {
        const PlanBlock *block = &plan->question->blocks[b];
        const int gone = calendar_days_between(block->from, day);
        const int days = gone < 0 ? 0 : gone < block->days ? gone : block->days;
        left -= put_out_kg(plan, b, feed) * block->head * days;
    }
    return left > 0.0 ? left : 0.0;
}

static Day day_after(const Winter *winter) { return calendar_add(winter->last_day, 1); }

/* The next day on which some ration begins, or the day after the last. */
static Day next_change(const PlanQuestion *question, Day day) {
    Day next = day_after(&question->farm->winter);
    for (int b = 0; b < question->block_count; b++) {
        const Day from = question->blocks[b].from;
        if (calendar_days_between(day, from) > 0 && calendar_days_between(from, next) > 0)
            next = from;
    }
    return next;
}

static double tonnage(const PlanFindings *findings, double kg) {
    return measure_shown(findings->units, MEASURE_TONNAGE, kg);
}

static const char *end_words(Arena *arena, const PlanFindings *findings, int feed) {
    const StackRunout *runout = &findings->runouts[feed];
    const PlanFeed *of = &findings->plan->question->feeds[feed];
    if (!runout->is_used)
        return "not fed";
    if (runout->runs_out)
        return arena_print(arena, "ends %s", day_short(arena, runout->last_fed));
    if (runout->left_kg <= 1e-3 * of->available_kg)
        return "all used";
    return arena_print(arena, "%s left",
                       measure_words(arena, findings->units, MEASURE_TONNAGE, runout->left_kg));
}

static void add_line(ReportChart *chart, const PlanFindings *findings, int feed) {
    const PlanQuestion *question = findings->plan->question;
    const Winter *winter = &question->farm->winter;
    const StackRunout *runout = &findings->runouts[feed];
    ChartSeries *series = chart_series(chart, question->feeds[feed].name);
    const Day last = day_after(winter);
    Day day = winter->first_day;
    while (calendar_days_between(day, last) > 0) {
        chart_point(series, day.number, tonnage(findings, left_on(findings->plan, feed, day)));
        day = next_change(question, day);
    }
    const double left = tonnage(findings, left_on(findings->plan, feed, last));
    chart_point(series, last.number, left);
    const Day end = runout->runs_out ? calendar_add(runout->last_fed, 1) : last;
    chart_mark_of(chart, series, end_words(chart->arena, findings, feed), end.number,
                  runout->runs_out ? 0.0 : left);
}

/* The stacks: those that run out by their end, then the others. */
static int *by_end(Arena *arena, const PlanFindings *findings) {
    const int count = findings->plan->question->own_count;
    int *order = ARENA_ARRAY(arena, int, count);
    int placed = 0;
    for (int f = 0; f < count; f++) {
        int at = placed++;
        const StackRunout *of = &findings->runouts[f];
        while (at > 0) {
            const StackRunout *before = &findings->runouts[order[at - 1]];
            const bool is_sooner =
                of->runs_out && (!before->runs_out ||
                                 calendar_days_between(of->last_fed, before->last_fed) > 0);
            if (!is_sooner)
                break;
            order[at] = order[at - 1];
            at--;
        }
        order[at] = f;
    }
    return order;
}

static const char *finding_words(Arena *arena, const PlanFindings *findings, const int *order) {
    const PlanQuestion *question = findings->plan->question;
    int ended = 0;
    for (int f = 0; f < question->own_count; f++)
        ended += findings->runouts[f].runs_out;
    if (ended == 0)
        return arena_print(arena, "No stack ends before %s",
                           day_words(arena, question->farm->winter.last_day));
    return arena_print(arena, "%d of %d stacks end before %s; %s is the first, on %s", ended,
                       question->own_count, day_words(arena, question->farm->winter.last_day),
                       question->feeds[order[0]].name,
                       day_words(arena, findings->runouts[order[0]].last_fed));
}

static void describe(ReportChart *chart, const PlanFindings *findings, const int *order) {
    const PlanQuestion *question = findings->plan->question;
    Text text = text_new(chart->arena);
    for (int i = 0; i < question->own_count; i++)
        text_print(&text, "%s%s: %s at first, %s", i > 0 ? "; " : "",
                   question->feeds[order[i]].name,
                   measure_words(chart->arena, findings->units, MEASURE_TONNAGE,
                                 question->feeds[order[i]].available_kg),
                   end_words(chart->arena, findings, order[i]));
    chart_alternative(chart, "How much is left of each stack through the winter. %s.",
                      text.bytes);
}

enum { MOST_MONTHS = 24 };

/* The first day, each first of a month after it, and the morning after the last. */
static int days_shown(const Winter *winter, Day days[MOST_MONTHS + 2]) {
    int count = 0;
    days[count++] = winter->first_day;
    for (Day day = calendar_first_of_next_month(winter->first_day);
         calendar_days_between(day, winter->last_day) >= 0 && count <= MOST_MONTHS;
         day = calendar_first_of_next_month(day))
        days[count++] = day;
    days[count++] = day_after(winter);
    return count;
}

static void add_table(Report *report, const PlanFindings *findings, const int *order) {
    Arena *arena = report->arena;
    const PlanQuestion *question = findings->plan->question;
    Day days[MOST_MONTHS + 2];
    const int count = days_shown(&question->farm->winter, days);
    ReportColumn *columns = ARENA_ARRAY(arena, ReportColumn, count + 1);
    columns[0] = (ReportColumn){"stack", "Stack", "", 0};
    for (int i = 0; i < count; i++)
        columns[i + 1] = (ReportColumn){arena_print(arena, "left_%s", day_iso(arena, days[i])),
                                        day_short(arena, days[i]),
                                        measure_unit(findings->units, MEASURE_TONNAGE), 1};
    ReportTable *table = report_table_of_chart(
        report, "stock_left", "Left on the morning of, with storage loss to half-way taken off",
        columns, count + 1);
    for (int i = 0; i < question->own_count; i++) {
        Cell *cells = ARENA_ARRAY(arena, Cell, count + 1);
        cells[0] = text_cell(question->feeds[order[i]].name);
        for (int d = 0; d < count; d++)
            cells[d + 1] = measure_cell(findings->units, MEASURE_TONNAGE,
                                        left_on(findings->plan, order[i], days[d]));
        report_row(table, cells);
    }
}

void plan_report_stock_chart(Report *report, const PlanFindings *findings) {
    const PlanQuestion *question = findings->plan->question;
    if (question->own_count == 0)
        return;
    const int *order = by_end(report->arena, findings);
    report_section(report, "stock_left", "How the stacks go down");
    ReportChart *chart = chart_new(
        report->arena, CHART_LINES, "stock_left", finding_words(report->arena, findings, order),
        (ChartAxis){AXIS_DAYS, "", "", 0},
        (ChartAxis){AXIS_NUMBERS, "Left, as fed",
                    measure_unit(findings->units, MEASURE_TONNAGE),
                    measure_decimals(findings->units, MEASURE_TONNAGE)});
    for (int i = 0; i < question->own_count; i++)
        add_line(chart, findings, order[i]);
    describe(chart, findings, order);
    report_chart(report, chart);
    add_table(report, findings, order);
}
