#include "outcome/report.h"

#include "support/unit.h"

#include <math.h>

static void an_empty_text_is_an_empty_cell(void **state) {
    (void)state;
    assert_int_equal(text_cell("").kind, CELL_EMPTY);
    assert_int_equal(text_cell(NULL).kind, CELL_EMPTY);
    assert_int_equal(text_cell("hay").kind, CELL_TEXT);
}

static void a_number_that_is_not_known_is_an_empty_cell(void **state) {
    (void)state;
    assert_int_equal(number_cell(NAN, 1).kind, CELL_EMPTY);
    assert_int_equal(number_cell(INFINITY, 1).kind, CELL_EMPTY);
    assert_int_equal(number_cell(0, 1).kind, CELL_NUMBER);
}

static void thousands_are_parted_by_commas(void **state) {
    assert_string_equal(number_words(*state, 0, 0), "0");
    assert_string_equal(number_words(*state, 999, 0), "999");
    assert_string_equal(number_words(*state, 1000, 0), "1,000");
    assert_string_equal(number_words(*state, 12345, 1), "12,345.0");
    assert_string_equal(number_words(*state, 1234567.891, 2), "1,234,567.89");
    assert_string_equal(number_words(*state, -1234.5, 1), "-1,234.5");
    assert_string_equal(number_words(*state, -123, 0), "-123");
}

static void rounding_may_add_a_place_and_its_comma(void **state) {
    assert_string_equal(number_words(*state, 999.96, 1), "1,000.0");
    assert_string_equal(number_words(*state, 999999.7, 0), "1,000,000");
}

static void what_rounds_to_zero_has_no_minus(void **state) {
    assert_string_equal(number_words(*state, -0.04, 1), "0.0");
    assert_string_equal(number_words(*state, -0.0, 0), "0");
    assert_string_equal(number_words(*state, -0.06, 1), "-0.1");
}

static void an_absurdly_large_number_stays_short(void **state) {
    assert_string_equal(number_words(*state, 999999999999.0, 0), "999,999,999,999");
    assert_string_equal(number_words(*state, 1e12, 0), "1e+12");
    assert_string_equal(number_words(*state, -1.2345e300, 6), "-1.234e+300");
    assert_string_equal(number_words(*state, NAN, 1), "");
}

static void a_new_report_has_a_title_an_empty_verdict_and_figures(void **state) {
    const Report *report = report_new(*state, "Winter plan");
    assert_string_equal(report->title, "Winter plan");
    assert_string_equal(report->verdict, "");
    assert_null(report->first);
    assert_int_equal(report->figures->kind, FIGURE_OBJECT);
}

static void a_verdict_is_printed_into_the_report(void **state) {
    Report *report = report_new(*state, "");
    report_verdict(report, SEVERITY_DANGER, "Short by %d %s.", 12, "tonnes");
    assert_string_equal(report->verdict, "Short by 12 tonnes.");
    assert_int_equal(report->verdict_severity, SEVERITY_DANGER);
}

static void pieces_belong_to_the_section_begun_last(void **state) {
    Report *report = report_new(*state, "");
    report_section(report, "stock", "Feed on hand");
    report_paragraph(report, "%s", "first");
    report_part(report, "hay", "Hay");
    report_remark(report, SEVERITY_CAUTION, "nitrate", "Careful.", NULL);

    const ReportSection *stock = report->first;
    assert_string_equal(stock->key, "stock");
    assert_int_equal(stock->level, 1);
    assert_int_equal(stock->first->kind, PIECE_PARAGRAPH);
    assert_string_equal(stock->first->text, "first");
    assert_null(stock->first->next);
    const ReportSection *hay = stock->next;
    assert_int_equal(hay->level, 2);
    assert_int_equal(hay->first->kind, PIECE_REMARK);
    assert_string_equal(hay->first->topic, "nitrate");
    assert_string_equal(hay->first->source, "");
    assert_ptr_equal(hay, report->last);
}

static void what_comes_before_any_section_is_kept(void **state) {
    Report *report = report_new(*state, "");
    report_paragraph(report, "early");
    assert_non_null(report->first);
    assert_string_equal(report->first->heading, "");
    assert_string_equal(report->first->first->text, "early");
}

static void cells_and_columns_are_copied(void **state) {
    Report *report = report_new(*state, "");
    ReportColumn columns[] = {{"feed", "Feed", "", 0}, {"fed", "Fed", "kg", 1}};
    ReportTable *table = report_table(report, "ration", NULL, columns, 2);
    Cell cells[] = {text_cell("hay"), number_cell(9.5, 1)};
    report_row(table, cells);
    columns[0].label = "changed";
    cells[1].number = 0;
    report_total_row(table, cells);

    assert_string_equal(table->caption, "");
    assert_string_equal(table->columns[0].label, "Feed");
    assert_true(table->first->cells[1].number == 9.5);
    assert_false(table->first->is_total);
    assert_true(table->last->is_total);
    assert_ptr_equal(table->first->next, table->last);
    assert_ptr_equal(report->first->first->table, table);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(an_empty_text_is_an_empty_cell),
        UNIT_TEST(a_number_that_is_not_known_is_an_empty_cell),
        UNIT_TEST(thousands_are_parted_by_commas),
        UNIT_TEST(rounding_may_add_a_place_and_its_comma),
        UNIT_TEST(what_rounds_to_zero_has_no_minus),
        UNIT_TEST(an_absurdly_large_number_stays_short),
        UNIT_TEST(a_new_report_has_a_title_an_empty_verdict_and_figures),
        UNIT_TEST(a_verdict_is_printed_into_the_report),
        UNIT_TEST(pieces_belong_to_the_section_begun_last),
        UNIT_TEST(what_comes_before_any_section_is_kept),
        UNIT_TEST(cells_and_columns_are_copied),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
