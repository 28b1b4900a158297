#include "outcome/report_chart.h"

#include <assert.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

ReportChart *chart_new(Arena *arena, ChartKind kind, const char *key, const char *title,
                       ChartAxis x, ChartAxis y) {
    ReportChart *chart = ARENA_NEW(arena, ReportChart);
    chart->arena = arena;
    chart->kind = kind;
    chart->key = key;
    chart->title = title;
    chart->alternative = "";
    chart->x = x;
    chart->y = y;
    chart->last_x = (double)NAN;
    return chart;
}

void chart_alternative(ReportChart *chart, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    chart->alternative = arena_print_list(chart->arena, format, arguments);
    va_end(arguments);
}

ChartSeries *chart_series(ReportChart *chart, const char *name) {
    ChartSeries *series = ARENA_NEW(chart->arena, ChartSeries);
    series->arena = chart->arena;
    series->name = name;
    if (chart->last_series)
        chart->last_series->next = series;
    else
        chart->first_series = series;
    chart->last_series = series;
    return series;
}

void chart_point(ChartSeries *series, double x, double y) {
    assert(isfinite(x));
    assert(series->count == 0 || x >= series->points[series->count - 1].x);
    if (series->count == series->room) {
        const int room = series->room > 0 ? series->room * 2 : 16;
        ChartPoint *more = ARENA_ARRAY(series->arena, ChartPoint, room);
        if (series->count > 0)
            memcpy(more, series->points, (size_t)series->count * sizeof *more);
        series->points = more;
        series->room = room;
    }
    series->points[series->count++] = (ChartPoint){x, y};
}

ChartCategory *chart_category(ReportChart *chart, const char *name) {
    ChartCategory *category = ARENA_NEW(chart->arena, ChartCategory);
    *category = (ChartCategory){
        .name = name, .least = (double)NAN, .most = (double)NAN, .value_words = ""};
    if (chart->last_category)
        chart->last_category->next = category;
    else
        chart->first_category = category;
    chart->last_category = category;
    return category;
}

void chart_limit(ReportChart *chart, const char *label, double y) {
    ChartLimit *limit = ARENA_NEW(chart->arena, ChartLimit);
    *limit = (ChartLimit){.label = label, .y = y};
    if (chart->last_limit)
        chart->last_limit->next = limit;
    else
        chart->first_limit = limit;
    chart->last_limit = limit;
}

void chart_mark(ReportChart *chart, const char *label, double x, double y) {
    chart_mark_of(chart, NULL, label, x, y);
}

void chart_mark_of(ReportChart *chart, const ChartSeries *of, const char *label, double x,
                   double y) {
    ChartMark *mark = ARENA_NEW(chart->arena, ChartMark);
    *mark = (ChartMark){.of = of, .label = label, .x = x, .y = y};
    if (chart->last_mark)
        chart->last_mark->next = mark;
    else
        chart->first_mark = mark;
    chart->last_mark = mark;
}
