#include "outcome/dearer_chart.h"
#include "base/text.h"
#include "outcome/plan_findings.h"
#include <math.h>

typedef struct {
    int count;
    const PricedFuture *cheapest, *dearest;
    double next; /* dollars of the cheapest but one */
} Range;

static Range range_of(const PricedFuture *futures, int count) {
    Range range = {.next = HUGE_VAL};
    for (int i = 0; i < count; i++) {
        const PricedFuture *at = &futures[i];
        if (!isfinite(at->cost))
            continue;
        range.count++;
        if (!range.cheapest || at->cost < range.cheapest->cost) {
            range.next = range.cheapest ? range.cheapest->cost : HUGE_VAL;
            range.cheapest = at;
        } else
            range.next = fmin(range.next, at->cost);
        if (!range.dearest || at->cost > range.dearest->cost)
            range.dearest = at;
    }
    return range;
}

static const char *title(Arena *arena, const Range *range) {
    const double least = range->next - range->cheapest->cost;
    const double most = range->dearest->cost - range->cheapest->cost;
    if (range->count == 2)
        return arena_print(arena, "'%s' costs %s more than '%s'", range->dearest->name,
                           money_words(arena, most, 0), range->cheapest->name);
    if (most - least < 1.0)
        return arena_print(arena, "'%s' costs least; the others cost %s more",
                           range->cheapest->name, money_words(arena, most, 0));
    return arena_print(arena, "'%s' costs least; the others cost %s to %s more",
                       range->cheapest->name, money_words(arena, least, 0),
                       money_words(arena, most, 0));
}

void dearer_chart(Report *report, const PricedFuture *futures, int count) {
    Arena *arena = report->arena;
    const Range range = range_of(futures, count);
    if (range.count < 2)
        return;
    ReportChart *chart = chart_new(arena, CHART_STACKED_BARS, "dearer", title(arena, &range),
                                   (ChartAxis){AXIS_CATEGORIES, "", "", 0},
                                   (ChartAxis){AXIS_NUMBERS, "Dearer by", "$", 0});
    ChartSeries *series = chart_series(chart, "Dearer by");
    Text words = text_new(arena);
    int at = 0;
    for (int i = 0; i < count; i++) {
        if (!isfinite(futures[i].cost))
            continue;
        const double more = futures[i].cost - range.cheapest->cost;
        const char *total = money_words(arena, futures[i].cost, 0);
        ChartCategory *category = chart_category(chart, futures[i].name);
        category->value_words =
            &futures[i] == range.cheapest
                ? arena_print(arena, "%s in all", total)
                : arena_print(arena, "%s more, %s", money_words(arena, more, 0), total);
        chart_point(series, at++, more);
        text_print(&words, "%s'%s' %s", words.length > 0 ? "; " : "", futures[i].name,
                   category->value_words);
    }
    chart_alternative(chart, "How much dearer each is than the cheapest: %s.", words.bytes);
    report_chart(report, chart);
}
