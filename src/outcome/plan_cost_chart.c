/* What each feed costs with its hauling, and for whom, as a chart and the table behind it. */
#include "base/text.h"
#include "outcome/plan_report.h"
#include <math.h>

static double cost_of(const WinterPlan *plan, int group, int feed) {
    const PlanQuestion *question = plan->question;
    double dollars = 0.0;
    for (int b = 0; b < question->block_count; b++) {
        const PlanBlock *block = &question->blocks[b];
        if (block->group == group && plan->blocks[b].eaten[feed] > 0.0)
            dollars += plan->blocks[b].eaten[feed] * block->head * block->days *
                       plan_cost_per_eaten(question, b, feed);
    }
    return dollars;
}

static double cost_for_all(const WinterPlan *plan, int feed) {
    double dollars = 0.0;
    for (int g = 0; g < plan->question->farm->herd.count; g++)
        dollars += cost_of(plan, g, feed);
    return dollars;
}

/* The feeds that cost anything, the dearest first; returns how many. */
static int by_cost(Arena *arena, const WinterPlan *plan, int **order) {
    const int count = plan->question->feed_count;
    double *cost = ARENA_ARRAY(arena, double, count);
    *order = ARENA_ARRAY(arena, int, count);
    int placed = 0;
    for (int f = 0; f < count; f++) {
        cost[f] = cost_for_all(plan, f);
        if (cost[f] < 0.5)
            continue;
        int at = placed++;
        while (at > 0 && cost[f] > cost[(*order)[at - 1]]) {
            (*order)[at] = (*order)[at - 1];
            at--;
        }
        (*order)[at] = f;
    }
    return placed;
}

static const ReportColumn *columns_of(Arena *arena, const Herd *herd) {
    ReportColumn *columns = ARENA_ARRAY(arena, ReportColumn, herd->count + 2);
    columns[0] = (ReportColumn){"feed", "With its hauling", "", 0};
    for (int g = 0; g < herd->count; g++)
        columns[g + 1] =
            (ReportColumn){arena_print(arena, "group_%d", g + 1), herd->names[g], "$", 1};
    columns[herd->count + 1] = (ReportColumn){"all", "All groups", "$", 1};
    return columns;
}

/* Feed bought by the whole load may be left over. */
static void add_not_fed(ReportTable *table, const WinterPlan *plan, double fed) {
    const int groups = plan->question->farm->herd.count;
    const double rest = plan->cost.total - plan->cost.yardage - fed;
    Cell *cells = ARENA_ARRAY(table->arena, Cell, groups + 2);
    if (rest < 0.5)
        return;
    cells[0] = text_cell("Bought and not fed");
    cells[groups + 1] = number_cell(rest, 0);
    report_row(table, cells);
}

static void add_table(Report *report, const PlanFindings *findings, const int *order,
                      int count) {
    Arena *arena = report->arena;
    const WinterPlan *plan = findings->plan;
    const Herd *herd = &plan->question->farm->herd;
    ReportTable *table = report_table_of_chart(report, "cost_by_feed", "",
                                               columns_of(arena, herd), herd->count + 2);
    double *total = ARENA_ARRAY(arena, double, herd->count);
    double all = 0.0;
    for (int i = 0; i < count; i++) {
        Cell *cells = ARENA_ARRAY(arena, Cell, herd->count + 2);
        cells[0] = text_cell(plan->question->feeds[order[i]].name);
        for (int g = 0; g < herd->count; g++) {
            const double dollars = cost_of(plan, g, order[i]);
            cells[g + 1] = dollars > 0.0 ? number_cell(dollars, 0) : empty_cell();
            total[g] += dollars;
            all += dollars;
        }
        cells[herd->count + 1] = number_cell(cost_for_all(plan, order[i]), 0);
        report_row(table, cells);
    }
    add_not_fed(table, plan, all);
    Cell *totals = ARENA_ARRAY(arena, Cell, herd->count + 2);
    totals[0] = text_cell("Total");
    for (int g = 0; g < herd->count; g++)
        totals[g + 1] = number_cell(total[g], 0);
    totals[herd->count + 1] = number_cell(plan->cost.total - plan->cost.yardage, 0);
    report_total_row(table, totals);
}

void plan_report_cost_chart(Report *report, const PlanFindings *findings) {
    Arena *arena = report->arena;
    const WinterPlan *plan = findings->plan;
    const PlanQuestion *question = plan->question;
    int *order;
    const int count = by_cost(arena, plan, &order);
    if (count == 0)
        return;
    const double largest = cost_for_all(plan, order[0]);
    ReportChart *chart =
        chart_new(arena, CHART_STACKED_BARS, "cost_by_feed",
                  arena_print(arena, "%s is the largest cost of feeding: %s of %s",
                              question->feeds[order[0]].name, money_words(arena, largest, 0),
                              money_words(arena, plan->cost.total - plan->cost.yardage, 0)),
                  (ChartAxis){AXIS_CATEGORIES, "", "", 0},
                  (ChartAxis){AXIS_NUMBERS, "Feed and hauling", "$", 0});
    for (int g = 0; g < question->farm->herd.count; g++) {
        ChartSeries *series = chart_series(chart, question->farm->herd.names[g]);
        for (int i = 0; i < count; i++)
            chart_point(series, i, cost_of(plan, g, order[i]));
    }
    Text words = text_new(arena);
    for (int i = 0; i < count; i++) {
        chart_category(chart, question->feeds[order[i]].name);
        text_print(&words, "%s%s %s", i > 0 ? "; " : "", question->feeds[order[i]].name,
                   money_words(arena, cost_for_all(plan, order[i]), 0));
    }
    chart_alternative(chart,
                      "What each feed costs all winter with its hauling, parted by group: %s.",
                      words.bytes);
    report_section(report, "feed_costs", "What each feed costs");
    report_chart(report, chart);
    add_table(report, findings, order, count);
}
