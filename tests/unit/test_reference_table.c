/* The tables to compare with books as they are shown: shape, units, and cells that stand beside
 * the cases of tests/published/year-table.csv. */
#include "outcome/reference_table.h"

#include "present/present.h"
#include "support/unit.h"

#include <string.h>

enum { FIRST_COW, SECOND_COW, GROWING, TABLE_COUNT, MOST_ROWS = 40 };

typedef struct {
    const ReportTable *table[TABLE_COUNT];
    const ReportRow *rows[TABLE_COUNT][MOST_ROWS];
    int row_count[TABLE_COUNT];
    int table_count;
} Tables;

static void take_table(Tables *tables, const ReportTable *table) {
    assert_true(tables->table_count < TABLE_COUNT);
    const int at = tables->table_count++;
    tables->table[at] = table;
    for (const ReportRow *row = table->first; row; row = row->next) {
        assert_true(tables->row_count[at] < MOST_ROWS);
        tables->rows[at][tables->row_count[at]++] = row;
    }
}

static Tables tables_of(const Report *report) {
    Tables tables = {.table_count = 0};
    for (const ReportSection *section = report->first; section; section = section->next)
        for (const ReportPiece *piece = section->first; piece; piece = piece->next)
            if (piece->kind == PIECE_TABLE)
                take_table(&tables, piece->table);
    assert_int_equal(tables.table_count, TABLE_COUNT);
    return tables;
}

static const Report *tables_in(Arena *arena, Units units) {
    Report *report = report_new(arena, "needs");
    reference_tables_add(report, units);
    return report;
}

static void there_are_two_cows_of_twelve_months_and_thirty_gains(void **state) {
    const Tables tables = tables_of(tables_in(*state, UNITS_METRIC));
    assert_int_equal(tables.row_count[FIRST_COW], 12);
    assert_int_equal(tables.row_count[SECOND_COW], 12);
    assert_int_equal(tables.row_count[GROWING], 30);
    assert_string_equal(tables.table[FIRST_COW]->caption, "Cow of 590 kg, a day");
}

/* Case "1300 lb cow month 1": 7.56 kg of milk; 10.72, 5.43, 0 and 16.15 Mcal; 836 and 1,248 g
 * of protein; 36.0 and 23.9 g of calcium and phosphorus. */
static void the_first_month_of_the_first_cow_is_that_of_the_published_cases(void **state) {
    static const double MONTH[] = {1, 7.56, 10.72, 5.43, 0, 16.15, 836, 1248, 36.0, 23.9};
    static const double HALF_A_DIGIT[] = {0,     0.006, 0.006, 0.006, 0.006,
                                          0.006, 0.6,   0.6,   0.06,  0.06};
    const Tables tables = tables_of(tables_in(*state, UNITS_METRIC));
    assert_int_equal(tables.table[FIRST_COW]->column_count, 10);
    for (int i = 0; i < 10; i++)
        assert_near(tables.rows[FIRST_COW][0]->cells[i].number, MONTH[i], HALF_A_DIGIT[i]);
}

/* 20 lb of milk at the peak of week 8.5, which the second month ends near; 1,366 g of crude
 * protein are 3.01 lb; 200 kg are 441 lb. */
static void imperial_tables_are_in_pounds(void **state) {
    const Tables tables = tables_of(tables_in(*state, UNITS_IMPERIAL));
    assert_string_equal(tables.table[FIRST_COW]->caption, "Cow of 1,300 lb, a day");
    assert_near(tables.rows[FIRST_COW][1]->cells[1].number, 20.0, 0.05);
    assert_near(tables.rows[FIRST_COW][1]->cells[7].number, 3.01, 0.005);
    assert_string_equal(tables.table[GROWING]->columns[0].unit, "lb");
    assert_near(tables.rows[GROWING][0]->cells[0].number, 441.0, 0.5);
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
