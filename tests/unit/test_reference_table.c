/* The tables to compare with books as they are shown: shape, units, and cells that stand beside
 * the cases of tests/published/year-table.csv. */
#include "outcome/reference_table.h"

#include "present/present.h"
#include "support/unit.h"

#include <string.h>

static const ReportTable *table_at(const Report *report, int wanted) {
    int at = 0;
    for (const ReportSection *section = report->first; section; section = section->next)
        for (const ReportPiece *piece = section->first; piece; piece = piece->next)
            if (piece->kind == PIECE_TABLE && at++ == wanted)
                return piece->table;
    return NULL;
}

static int row_count(const ReportTable *table) {
    int count = 0;
    for (const ReportRow *row = table->first; row; row = row->next)
        count++;
    return count;
}

static const Report *tables_in(Arena *arena, Units units) {
    Report *report = report_new(arena, "needs");
    reference_tables_add(report, units);
    return report;
}

static void there_are_two_cows_of_twelve_months_and_thirty_gains(void **state) {
    const Report *report = tables_in(*state, UNITS_METRIC);
    assert_int_equal(row_count(table_at(report, 0)), 12);
    assert_int_equal(row_count(table_at(report, 1)), 12);
    assert_int_equal(row_count(table_at(report, 2)), 30);
    assert_null(table_at(report, 3));
    assert_string_equal(table_at(report, 0)->caption, "Cow of 590 kg, a day");
}

/* Case "1300 lb cow month 1": 7.56 kg of milk; 10.72, 5.43, 0 and 16.15 Mcal; 836 and 1,248 g
 * of protein; 36.0 and 23.9 g of calcium and phosphorus. */
static void the_first_month_of_the_first_cow_is_that_of_the_published_cases(void **state) {
    static const double MONTH[] = {1, 7.56, 10.72, 5.43, 0, 16.15, 836, 1248, 36.0, 23.9};
    static const double HALF_A_DIGIT[] = {0,     0.006, 0.006, 0.006, 0.006,
                                          0.006, 0.6,   0.6,   0.06,  0.06};
    const ReportTable *table = table_at(tables_in(*state, UNITS_METRIC), 0);
    assert_int_equal(table->column_count, 10);
    for (int i = 0; i < 10; i++)
        assert_near(table->first->cells[i].number, MONTH[i], HALF_A_DIGIT[i]);
}

/* 20 lb of milk at the peak of week 8.5, which the second month ends near; 1,366 g of crude
 * protein are 3.01 lb; 200 kg are 441 lb. */
static void imperial_tables_are_in_pounds(void **state) {
    const Report *report = tables_in(*state, UNITS_IMPERIAL);
    const ReportTable *cow = table_at(report, 0);
    assert_string_equal(cow->caption, "Cow of 1,300 lb, a day");
    assert_near(cow->first->next->cells[1].number, 20.0, 0.05);
    assert_near(cow->first->next->cells[7].number, 3.01, 0.005);
    const ReportTable *growing = table_at(report, 2);
    assert_string_equal(growing->columns[0].unit, "lb");
    assert_near(growing->first->cells[0].number, 441.0, 0.5);
}

static void json_holds_the_tables_in_the_programs_own_units(void **state) {
    Text text = text_new(*state);
    present_json(tables_in(*state, UNITS_IMPERIAL), &text);
    assert_non_null(strstr(text.bytes, "\"reference_tables\""));
    assert_non_null(strstr(text.bytes, "\"days_in_milk\": 30.4"));
    assert_non_null(strstr(text.bytes, "\"final_shrunk_weight_kg\": 533"));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(there_are_two_cows_of_twelve_months_and_thirty_gains),
        UNIT_TEST(the_first_month_of_the_first_cow_is_that_of_the_published_cases),
        UNIT_TEST(imperial_tables_are_in_pounds),
        UNIT_TEST(json_holds_the_tables_in_the_programs_own_units),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
