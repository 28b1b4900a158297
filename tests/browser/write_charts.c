/* A page with every kind of chart, on invented figures and with names of every length: what no
 * sample farm shows. write_charts >PAGE.html */
#include "base/calendar.h"
#include "present/present.h"

#include <math.h>
#include <stdio.h>

static const Day FIRST = {20758}; /* 1 November 2026 */

static const ChartAxis DAYS = {AXIS_DAYS, "", "", 0};

static void add_lines(Report *report, int lines, const char *key) {
    Arena *arena = report->arena;
    ReportChart *chart =
        chart_new(arena, CHART_LINES, key, "Stacks of every size go down as they are fed", DAYS,
                  (ChartAxis){AXIS_NUMBERS, "Left, as fed", "t", 1});
    for (int i = 0; i < lines; i++) {
        ChartSeries *series = chart_series(
            chart, arena_print(arena,
                               i % 3 == 0   ? "Stack %d"
                               : i % 3 == 1 ? "Oat, pea and turnip greenfeed of the far north "
                                              "quarter, second cut, stack %d"
                                            : "WWWWMMMMWWWWMMMMWWWWMMMMWWWW%d",
                               i + 1));
        const double from = 10.0 + 130.0 * i;
        const int days = 20 + 15 * i < 200 ? 20 + 15 * i : 200;
        chart_point(series, FIRST.number, from);
        chart_point(series, FIRST.number + days, 0.0);
        chart_point(series, FIRST.number + 201, 0.0);
        chart_mark_of(chart, series, "ends 24 Jan", FIRST.number + days, 0.0);
    }
    chart_alternative(chart, "Each stack goes down to nothing, one after the other.");
    report_chart(report, chart);
}

static void add_bands(Report *report, int bands) {
    Arena *arena = report->arena;
    ReportChart *chart = chart_new(arena, CHART_BANDS, "bands", "Many feeds in one ration",
                                   DAYS, (ChartAxis){AXIS_NUMBERS, "kg a head and day", "", 1});
    for (int i = 0; i < bands; i++) {
        ChartSeries *series = chart_series(
            chart, arena_print(arena, i % 2 ? "Feed %d" : "Feed of the long name %d", i));
        for (int period = 0; period < 13; period++)
            chart_point(series, FIRST.number + 15 * period,
                        (i + period) % 4 == 0 ? 0.0 : 0.4 + (i * 7 + period * 3) % 9);
    }
    chart->last_x = FIRST.number + 201;
    chart_alternative(chart, "Feeds come and go through the winter.");
    report_chart(report, chart);
}

static void add_bars(Report *report) {
    Arena *arena = report->arena;
    ReportChart *limits =
        chart_new(arena, CHART_LIMIT_BARS, "limits", "Some lack, some is plenty",
                  (ChartAxis){AXIS_CATEGORIES, "", "", 0},
                  (ChartAxis){AXIS_NUMBERS, "Of the need", "%", 0});
    ReportChart *parts = chart_new(arena, CHART_STACKED_BARS, "parts", "Who costs what",
                                   (ChartAxis){AXIS_CATEGORIES, "", "", 0},
                                   (ChartAxis){AXIS_NUMBERS, "Cost", "$", 0});
    ChartSeries *supply = chart_series(limits, "The ration brings");
    chart_limit(limits, "the need, 100 %", 100.0);
    for (int group = 0; group < 9; group++) {
        ChartSeries *series =
            chart_series(parts, arena_print(arena, "Group %d%s", group,
                                            group % 2 ? " of the far yard" : ""));
        for (int i = 0; i < 8; i++)
            chart_point(series, i, (group * 13 + i * 7) % 10 * 1234.0 / (i + 1));
    }
    for (int i = 0; i < 8; i++) {
        ChartCategory *need = chart_category(
            limits, i % 2 ? "Zinc" : "Degradable protein for the rumen, of a long name");
        need->most = 90.0 + 30.0 * i;
        chart_point(supply, i, 60.0 + 45.0 * i);
        chart_category(parts,
                       i % 2 ? "Hay" : "A feed with a name too long for any chart at all");
    }
    chart_alternative(limits, "Need by need.");
    chart_alternative(parts, "Feed by feed.");
    report_chart(report, limits);
    report_chart(report, parts);
}

static void add_chance(Report *report) {
    ReportChart *chart = chart_new(
        report->arena, CHART_STEPS, "chance", "In three winters of four the feed lasts", DAYS,
        (ChartAxis){AXIS_NUMBERS, "Winters in which it lasts", "%", 0});
    ChartSeries *series = chart_series(chart, "Own feed");
    ChartSeries *other = chart_series(chart, "With what is bought");
    for (int i = 0; i < 40; i++) {
        chart_point(series, FIRST.number + 100 + 2 * i, 100.0 - 25.0 * i * i / 1600.0);
        chart_point(other, FIRST.number + 100 + 2 * i, 100.0 - 5.0 * i * i / 1600.0);
    }
    chart->last_x = FIRST.number + 201;
    chart_limit(chart, "turnout wanted in 9 of 10", 90.0);
    chart_mark(chart, "75 % reach turnout", FIRST.number + 178, 76.0);
    chart_alternative(chart, "The chance falls from 100 %% in February to 75 %% in May.");
    report_chart(report, chart);
}

static void add_curve(Report *report) {
    ReportChart *chart = chart_new(
        report->arena, CHART_CURVE, "curve", "Above $264 a tonne barley is not worth buying",
        (ChartAxis){AXIS_NUMBERS, "Price of barley, $ a tonne", "$", 0},
        (ChartAxis){AXIS_NUMBERS, "Cost of the winter", "$", 0});
    ChartSeries *series = chart_series(chart, "Barley may be bought");
    ChartSeries *flat = chart_series(chart, "Without barley");
    for (int i = 0; i <= 20; i++) {
        const double price = 180.0 + 8.0 * i;
        chart_point(series, price, fmin(104000.0 + 55.0 * (price - 180.0), 108620.0));
        chart_point(flat, price, i > 15 ? (double)NAN : 108620.0);
    }
    chart_mark(chart, "break-even $264", 264.0, 108620.0);
    chart_mark(chart, "now $215", 215.0, 105925.0);
    chart_mark(chart, "last fall $219", 219.0, 106145.0);
    chart_alternative(chart, "Cost rises with the price to $264 and stays from there on.");
    report_chart(report, chart);
}

int main(void) {
    Arena *arena = arena_open();
    Report *report = report_new(arena, "Every kind of chart, on invented figures");
    report_section(report, "charts", "Charts");
    add_lines(report, 2, "two_lines");
    add_lines(report, 14, "strips");
    add_bands(report, 3);
    add_bands(report, 12);
    add_bars(report);
    add_chance(report);
    add_curve(report);
    Text page = text_new(arena);
    present_html(report, PAGE_REPORT, &page);
    const int is_written = fwrite(page.bytes, 1, page.length, stdout) == page.length;
    arena_close(arena);
    return is_written ? 0 : 1;
}
