#include "outcome/report.h"

#include "support/unit.h"

#include <math.h>

static const ChartAxis DAYS = {AXIS_DAYS, "", "", 0};
static const ChartAxis TONNES = {AXIS_NUMBERS, "Tonnes left", "t", 0};

static ReportChart *new_chart(Arena *arena) {
    return chart_new(arena, CHART_LINES, "stock", "Hay ends first", DAYS, TONNES);
}

static void a_chart_stands_in_its_section_and_may_be_filled_later(void **state) {
    Report *report = report_new(*state, "Winter plan");
    report_section(report, "stock", "Feed on hand");
    ReportChart *chart = new_chart(*state);
    report_chart(report, chart);
    chart_point(chart_series(chart, "Hay"), 20000, 61.5);
    const ReportPiece *piece = report->first->first;
    assert_int_equal(piece->kind, PIECE_CHART);
    assert_string_equal(piece->chart->title, "Hay ends first");
    assert_string_equal(piece->chart->first_series->name, "Hay");
    assert_near(piece->chart->first_series->points[0].y, 61.5, 0.0);
}

static void a_series_keeps_all_its_points_in_order(void **state) {
    ChartSeries *series = chart_series(new_chart(*state), "Hay");
    for (int i = 0; i < 100; i++)
        chart_point(series, i, 100.0 - i);
    assert_int_equal(series->count, 100);
    assert_near(series->points[0].y, 100.0, 0.0);
    assert_near(series->points[99].x, 99.0, 0.0);
    assert_near(series->points[99].y, 1.0, 0.0);
}

static void series_categories_limits_and_marks_stay_in_the_order_added(void **state) {
    ReportChart *chart = new_chart(*state);
    chart_series(chart, "Hay");
    chart_series(chart, "Straw");
    chart_category(chart, "Energy");
    chart_category(chart, "Protein")->least = 620.0;
    chart_limit(chart, "need", 100.0);
    chart_mark(chart, "ends 24 Jan", 20000, 0.0);
    chart_mark(chart, "ends 1 Mar", 20036, 0.0);
    assert_string_equal(chart->first_series->next->name, "Straw");
    assert_string_equal(chart->first_category->next->name, "Protein");
    assert_true(isnan(chart->first_category->least));
    assert_near(chart->last_category->least, 620.0, 0.0);
    assert_string_equal(chart->first_limit->label, "need");
    assert_string_equal(chart->first_mark->next->label, "ends 1 Mar");
}

static void the_alternative_is_printed_into_the_chart(void **state) {
    ReportChart *chart = new_chart(*state);
    assert_string_equal(chart->alternative, "");
    chart_alternative(chart, "%s ends on %s.", "Hay", "24 Jan");
    assert_string_equal(chart->alternative, "Hay ends on 24 Jan.");
}

static void the_table_of_a_chart_is_marked_as_its_own(void **state) {
    static const ReportColumn COLUMNS[] = {{"stack", "Stack", "", 0}};
    Report *report = report_new(*state, "Winter plan");
    report_chart(report, new_chart(*state));
    report_table_of_chart(report, "left", "", COLUMNS, 1);
    report_table(report, "stacks", "", COLUMNS, 1);
    const ReportPiece *chart = report->first->first;
    assert_true(chart->next->is_of_chart);
    assert_false(chart->next->next->is_of_chart);
}

static void facts_keep_their_number_and_what_stands_beside_it(void **state) {
    Report *report = report_new(*state, "Winter plan");
    report_headline(report, "Balanced to %s.", "20 May");
    report_fact(report, "days", "Own feed lasts", number_cell(161, 0), "days", "to 10 Apr");
    assert_string_equal(report->headline, "Balanced to 20 May.");
    assert_near(report->first_fact->value.number, 161.0, 0.0);
    assert_string_equal(report->first_fact->note, "to 10 Apr");
    assert_ptr_equal(report->first_fact, report->last_fact);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_chart_stands_in_its_section_and_may_be_filled_later),
        UNIT_TEST(a_series_keeps_all_its_points_in_order),
        UNIT_TEST(series_categories_limits_and_marks_stay_in_the_order_added),
        UNIT_TEST(the_alternative_is_printed_into_the_chart),
        UNIT_TEST(the_table_of_a_chart_is_marked_as_its_own),
        UNIT_TEST(facts_keep_their_number_and_what_stands_beside_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
