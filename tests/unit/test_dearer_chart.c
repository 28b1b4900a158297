#include "outcome/dearer_chart.h"

#include "support/unit.h"

#include <math.h>
#include <string.h>

static const ReportChart *chart_of(Arena *arena, const PricedFuture *futures, int count) {
    Report *report = report_new(arena, "T");
    report_section(report, "s", "S");
    dearer_chart(report, futures, count);
    const ReportPiece *piece = report->first ? report->first->first : NULL;
    return piece ? piece->chart : NULL;
}

/* 1,000 is the least: 0, 250 and 40 above it. */
static void a_bar_is_what_a_future_costs_more_than_the_cheapest(void **state) {
    const PricedFuture futures[] = {{"b", 1250.0}, {"a", 1000.0}, {"c", 1040.0}};
    const ReportChart *chart = chart_of(*state, futures, 3);
    if (!chart || !chart->first_series || !chart->first_category) {
        fail_msg("nothing is drawn");
        return;
    }
    assert_string_equal(chart->title, "'a' costs least; the others cost $40 to $250 more");
    assert_near(chart->first_series->points[0].y, 250.0, 1e-9);
    assert_near(chart->first_series->points[1].y, 0.0, 1e-9);
    assert_near(chart->first_series->points[2].y, 40.0, 1e-9);
    assert_string_equal(chart->first_category->value_words, "$250 more, $1,250");
    assert_string_equal(chart->last_category->value_words, "$40 more, $1,040");
    assert_non_null(strstr(chart->alternative, "'a' $1,000 in all"));
    assert_non_null(strstr(chart->alternative, "'c' $40 more, $1,040"));
}

static void what_cannot_be_compared_is_no_bar(void **state) {
    const PricedFuture futures[] = {{"short", (double)NAN}, {"b", 1250.0}, {"a", 1000.0}};
    const ReportChart *chart = chart_of(*state, futures, 3);
    if (!chart || !chart->first_series || !chart->first_category) {
        fail_msg("nothing is drawn");
        return;
    }
    assert_string_equal(chart->title, "'b' costs $250 more than 'a'");
    assert_string_equal(chart->first_category->name, "b");
    assert_int_equal(chart->first_series->count, 2);
    assert_null(chart_of(*state, futures, 2)); /* only one to compare */
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_bar_is_what_a_future_costs_more_than_the_cheapest),
        UNIT_TEST(what_cannot_be_compared_is_no_bar),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
