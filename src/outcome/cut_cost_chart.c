/* What each of next year's futures costs, part by part, as a chart. */
#include "outcome/cut_report.h"
#include <math.h>

enum { PART_GROWING, PART_BOUGHT, PART_HAULING, PART_YARDAGE, PART_CAUTIONS, PART_COUNT };

static const char *const PART_NAMES[PART_COUNT] = {
    "Growing and making feed, less what it sells", "Feed bought", "Hauling and feeding out",
    "Yardage", "Caution lines passed weigh"};

static double part_of(const CutCost *cost, int part) {
    const double of[PART_COUNT] = {cost->growing - cost->grazing - cost->surplus, cost->bought,
                                   cost->hauling, cost->yardage, cost->cautions};
    return of[part];
}

static bool is_drawn(const CutFindings *findings, int name) {
    const CutPlan *plan = &findings->plans[name];
    return findings->is_there[name] && plan->verdict == PLAN_BALANCED &&
           part_of(&plan->cost, PART_GROWING) >= 0.0; /* a bar has no part below nothing */
}

static bool any_cautions(const CutFindings *findings) {
    for (int name = 0; name < FUTURE_COUNT; name++) {
        if (is_drawn(findings, name) && findings->plans[name].cost.cautions >= 0.5)
            return true;
    }
    return false;
}

/* Beside the dearest of them. */
static const char *title(Arena *arena, const CutFindings *findings) {
    double dearest = 0.0;
    for (int name = 0; name < FUTURE_COUNT; name++) {
        if (is_drawn(findings, name))
            dearest = fmax(dearest, findings->plans[name].cost.total);
    }
    if (!is_drawn(findings, FUTURE_PLANNED))
        return "What each of them costs";
    const double mixed = findings->plans[FUTURE_PLANNED].cost.total;
    return dearest - mixed < 1.0
               ? "Each of them costs the same"
               : arena_print(arena, "The mixed plan costs %s less than the dearest of them",
                             money_words(arena, dearest - mixed, 0));
}

void cut_cost_chart(Report *report, const CutFindings *findings) {
    Arena *arena = report->arena;
    ReportChart *chart =
        chart_new(arena, CHART_STACKED_BARS, "cut_costs", title(arena, findings),
                  (ChartAxis){AXIS_CATEGORIES, "", "", 0},
                  (ChartAxis){AXIS_NUMBERS, "Cost of the winter", "$", 0});
    chart_alternative(chart,
                      "A bar for each future that feeds the herd in balance, of what it "
                      "costs to grow, buy, haul and keep; the numbers are in the table.");
    int drawn = 0;
    for (int name = 0; name < FUTURE_COUNT; name++) {
        if (is_drawn(findings, name)) {
            chart_category(chart, future_days_words(arena, findings, (FutureName)name));
            drawn++;
        }
    }
    for (int part = 0; part < PART_COUNT; part++) {
        if (part == PART_CAUTIONS && !any_cautions(findings))
            continue;
        ChartSeries *series = chart_series(chart, PART_NAMES[part]);
        int at = 0;
        for (int name = 0; name < FUTURE_COUNT; name++) {
            if (is_drawn(findings, name))
                chart_point(series, at++, part_of(&findings->plans[name].cost, part));
        }
    }
    if (drawn > 0)
        report_chart(report, chart);
}
