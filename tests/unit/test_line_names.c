/* Names at the ends of lines: which name is of which line must be seen from their order. */
#include "present/chart_svg.h"

#include "support/unit.h"
#include <stdlib.h>
#include <string.h>

static const ChartAxis NUMBERS = {AXIS_NUMBERS, "", "", 0};

/* The height on the paper at which a name stands. */
static double level_of(Arena *arena, const char *drawing, const char *name) {
    const char *at = strstr(drawing, arena_print(arena, ">%s</text>", name));
    if (!at) {
        print_error("%s is not named in\n%s\n", name, drawing);
        abort();
    }
    while (strncmp(at, " y=\"", 4) != 0)
        at--;
    return strtod(at + 4, NULL);
}

static const char *drawn(Arena *arena, const char *const *names, const double *ends, int count,
                         bool is_narrow) {
    ReportChart *chart = chart_new(arena, CHART_CURVE, "cost", "Cost", NUMBERS, NUMBERS);
    for (int i = 0; i < count; i++) {
        ChartSeries *series = chart_series(chart, names[i]);
        chart_point(series, 0.0, 100.0);
        chart_point(series, 10.0, ends[i]);
    }
    Text out = text_new(arena);
    chart_svg(chart, "chart", is_narrow, &out);
    return out.bytes;
}

static void names_stand_in_the_order_in_which_the_lines_end(void **state) {
    static const char *const NAMES[] = {"fourth", "second", "third", "first", "last"};
    static const double ENDS[] = {170.0, 173.0, 172.0, 174.0, 0.0};
    for (int is_narrow = 0; is_narrow < 2; is_narrow++) {
        const char *drawing = drawn(*state, NAMES, ENDS, 5, is_narrow);
        const double first = level_of(*state, drawing, "first"),
                     second = level_of(*state, drawing, "second");
        const double third = level_of(*state, drawing, "third"),
                     fourth = level_of(*state, drawing, "fourth");
        assert_true(first < second && second < third && third < fourth);
        assert_true(fourth < level_of(*state, drawing, "last"));
    }
}

static void names_of_lines_that_end_at_the_bottom_stay_on_the_paper(void **state) {
    static const char *const NAMES[] = {"upper", "one", "two", "three"};
    static const double ENDS[] = {200.0, 0.0, 0.0, 0.0};
    const char *drawing = drawn(*state, NAMES, ENDS, 4, false);
    const double one = level_of(*state, drawing, "one"), two = level_of(*state, drawing, "two");
    assert_true(one < two && two < level_of(*state, drawing, "three"));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(names_stand_in_the_order_in_which_the_lines_end),
        UNIT_TEST(names_of_lines_that_end_at_the_bottom_stay_on_the_paper),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
