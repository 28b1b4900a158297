/* How likely it is that nobody has been short of feed, day by day, as a chart and the table
 * behind it. */
#include "outcome/day_words.h"
#include "outcome/plan_report.h"
#include "planner/hard_winter.h"
#include <math.h>

static Day first_day(const WinterPlan *plan) { return plan->question->farm->winter.first_day; }

/* Days to draw: to where the chance falls no more, and to the latest usual turnout. */
static int days_drawn(const WinterPlan *plan) {
    const HardWinters *winters = plan->winters;
    int days = calendar_days_between(first_day(plan), winters->turnout_last) + 1;
    for (int day = 1; day < winters->day_count; day++) {
        if (winters->enough[day] < winters->enough[day - 1] && day + 1 > days)
            days = day + 1;
    }
    return days < winters->day_count ? days : winters->day_count;
}

static const char *title(Arena *arena, const WinterPlan *plan) {
    const HardWinters *winters = plan->winters;
    const RunoutDays *herd = &winters->herd;
    return arena_print(arena, "In %.0f of 100 winters every group is fed to turnout%s%s",
                       winters_of_a_hundred(winters->share),
                       herd->lasts[IN_ONE_OF_TEN] ? "" : "; in 1 of 10 some are short by ",
                       herd->lasts[IN_ONE_OF_TEN] ? ""
                                                  : day_words(arena, herd->day[IN_ONE_OF_TEN]));
}

static void add_table(Report *report, const WinterPlan *plan, int days) {
    static const ReportColumn COLUMNS[] = {
        {"day", "By", "", 0},
        {"enough", "Nobody short yet", "of 100 winters", 1},
    };
    const HardWinters *winters = plan->winters;
    ReportTable *table =
        report_table_of_chart(report, "winters_by_day", "Winters in which it has lasted",
                              COLUMNS, (int)(sizeof COLUMNS / sizeof COLUMNS[0]));
    const Day first = first_day(plan);
    Day day = calendar_first_of_next_month(first);
    for (int at; (at = calendar_days_between(first, day)) < days;
         day = calendar_first_of_next_month(day))
        report_row(table, (Cell[]){text_cell(day_words(report->arena, day)),
                                   number_cell(winters_of_a_hundred(winters->enough[at]), 0)});
    report_total_row(table, (Cell[]){text_cell("Turnout, whenever it comes"),
                                     number_cell(winters_of_a_hundred(winters->share), 0)});
}

void plan_report_winters_chart(Report *report, const WinterPlan *plan) {
    Arena *arena = report->arena;
    const HardWinters *winters = plan->winters;
    const Day first = first_day(plan);
    const int days = days_drawn(plan);
    ReportChart *chart = chart_new(
        arena, CHART_STEPS, "chance", title(arena, plan), (ChartAxis){AXIS_DAYS, "", "", 0},
        (ChartAxis){AXIS_NUMBERS, "Winters of 100 in which nobody is short yet", "", 0});
    ChartSeries *series = chart_series(chart, "All groups");
    for (int day = 0; day < days; day++) {
        if (day == 0 || winters->enough[day] != winters->enough[day - 1])
            chart_point(series, first.number + day, 100.0 * winters->enough[day]);
    }
    chart->last_x = first.number + days;
    chart_limit(chart, "9 of 10", 90.0);
    chart_mark(
        chart,
        arena_print(arena, "%.0f of 100 to turnout", winters_of_a_hundred(winters->share)),
        first.number + days, 100.0 * winters->enough[days - 1]);
    chart_alternative(
        chart,
        "The count of winters of 100 in which nobody has been short of feed falls "
        "from 100 on %s to %.0f at turnout.",
        day_words(arena, first), winters_of_a_hundred(winters->share));
    report_chart(report, chart);
    add_table(report, plan, days);
}
