#include "present/chart_svg.h"

#include "support/unit.h"

#include <stdlib.h>
#include <string.h>

static const ChartAxis OF_NUMBERS = {AXIS_NUMBERS, "Price", "", 0};
static const ChartAxis OF_MONEY = {AXIS_NUMBERS, "Cost", "$", 0};

static const char *drawing_of(const ReportChart *chart) {
    Text out = text_new(chart->arena);
    chart_svg(chart, "chart-1", false, &out);
    return out.bytes;
}

/* Where the base line of a text stands, from the top of the paper. */
static double base_of(const char *drawing, const char *words) {
    double y = -1.0;
    for (const char *at = drawing; (at = strstr(at, "<text x=\"")) != NULL; at++) {
        const char *shown = strchr(at, '>') + 1;
        if (strncmp(shown, words, strlen(words)) == 0 && shown[strlen(words)] == '<')
            y = strtod(strstr(at, " y=\"") + strlen(" y=\""), NULL);
    }
    if (y < 0.0)
        fail_msg("no label says %s", words);
    return y;
}

static void add_line(ReportChart *chart, const char *name, double from, double to) {
    ChartSeries *series = chart_series(chart, name);
    chart_point(series, 0.0, from);
    chart_point(series, 100.0, to);
}

/* Whose name stands at another's line is mistaken for it. */
static void names_stand_in_the_order_their_lines_end(void **state) {
    static const char *const downward[] = {"late", "bought", "cut", "as it is", "sold"};
    ReportChart *chart = chart_new(*state, CHART_CURVE, "k", "T", OF_NUMBERS, OF_MONEY);
    add_line(chart, "sold", 100.0, 130.0);
    add_line(chart, "as it is", 150.0, 170.0);
    add_line(chart, "cut", 152.0, 173.0);
    add_line(chart, "late", 160.0, 183.0);
    add_line(chart, "bought", 150.0, 174.0);
    const char *drawing = drawing_of(chart);
    for (int i = 1; i < 5; i++)
        assert_true(base_of(drawing, downward[i]) >= base_of(drawing, downward[i - 1]) + 15.9);
}

/* The line is level and ends at the mark: a label at its height would lie over it. */
static void a_mark_is_labelled_beside_the_line_where_there_is_room(void **state) {
    ReportChart *chart = chart_new(*state, CHART_STEPS, "k", "T", OF_NUMBERS, OF_MONEY);
    ChartSeries *series = chart_series(chart, "Winters");
    for (int day = 0; day <= 100; day++)
        chart_point(series, day, day < 60 ? 100.0 : 40.0);
    chart_mark(chart, "40 of 100", 100.0, 40.0);
    const char *drawing = drawing_of(chart);
    const char *point = strstr(drawing, "<circle class=\"point\"");
    assert_non_null(point);
    const double line = strtod(strstr(point, " cy=\"") + strlen(" cy=\""), NULL);
    const double base = base_of(drawing, "40 of 100");
    assert_true(base < line - 4.0 || base > line + 11.0);
}

/* A printer makes a picture of a pattern, and of a page of them a file too large to send. */
static void areas_are_told_apart_without_patterns(void **state) {
    ReportChart *chart = chart_new(*state, CHART_BANDS, "k", "T", OF_NUMBERS,
                                   (ChartAxis){AXIS_NUMBERS, "", "kg", 1});
    for (int i = 0; i < 8; i++)
        add_line(chart, "Hay", 5.0 + i, 5.0 + i);
    const char *drawing = drawing_of(chart);
    assert_null(strstr(drawing, "pattern"));
    assert_null(strstr(drawing, "url("));
    for (int i = 0; i < 8; i++)
        assert_non_null(strstr(drawing, arena_print(*state, "class=\"band fill-%d\"", i)));
    assert_non_null(strstr(drawing, "<path class=\"slanted\" d=\"M"));
    assert_non_null(strstr(drawing, "<path class=\"dots\" d=\"M"));
    assert_non_null(strstr(drawing, "<path class=\"level\" d=\"M"));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(names_stand_in_the_order_their_lines_end),
        UNIT_TEST(a_mark_is_labelled_beside_the_line_where_there_is_room),
        UNIT_TEST(areas_are_told_apart_without_patterns),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
