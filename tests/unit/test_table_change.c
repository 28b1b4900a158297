#include "base/table_change.h"

#include "support/unit.h"
#include <string.h>

static const Place OF_CHANGE = {"what-if.csv", 7, 3};

static const Table *a_table(Arena *arena) {
    static const char BYTES[] = "# a comment\n"
                                "stack;count;\"note, long\"\n"
                                "Hay;12;\n"
                                "\n"
                                "\"Straw; old\";3;\"two\nlines\"\n"
                                "Pit;;\"fed \"\"first\"\"\"\n";
    Faults faults = faults_new(arena);
    const Table *table = table_parse(arena, &faults, "stacks.csv", BYTES, strlen(BYTES));
    assert_non_null(table);
    return table;
}

static const Table *read_again(Arena *arena, const WrittenTable *written) {
    Faults faults = faults_new(arena);
    size_t length;
    const char *bytes = written_bytes(written, &length);
    const Table *table = table_parse(arena, &faults, "stacks.csv", bytes, length);
    assert_string_equal(unit_faults(&faults, arena), "");
    assert_non_null(table);
    return table;
}

static void assert_place(Place place, const char *file, int line, int column) {
    assert_string_equal(place.file, file);
    assert_int_equal(place.line, line);
    assert_int_equal(place.column, column);
}

/* Where the cell of the written table says it comes from. */
static Place origin(const WrittenTable *written, const Table *table, int row, int column) {
    const TableCell *cell = table_cell(table, row, column);
    return written_place(written, cell->line, cell->column);
}

static void a_table_that_was_not_changed_is_read_as_it_was(void **state) {
    const Table *before = a_table(*state);
    const WrittenTable *written = table_change_written(table_change(*state, before));
    const Table *after = read_again(*state, written);
    assert_int_equal(after->row_count, before->row_count);
    assert_int_equal(after->column_count, before->column_count);
    for (int row = 0; row < before->row_count; row++) {
        for (int column = 0; column < before->column_count; column++) {
            const TableCell *cell = table_cell(before, row, column);
            assert_string_equal(table_cell(after, row, column)->text, cell->text);
            const Place place = origin(written, after, row, column);
            assert_place(place, "stacks.csv", cell->line, cell->column);
        }
    }
}

static void a_row_that_was_there_keeps_its_line(void **state) {
    const Table *before = a_table(*state);
    const WrittenTable *written = table_change_written(table_change(*state, before));
    const Table *after = read_again(*state, written);
    for (int row = 0; row < before->row_count; row++)
        assert_int_equal(table_cell(after, row, 0)->line, table_cell(before, row, 0)->line);
}

static void a_changed_cell_comes_from_the_change_and_its_neighbours_do_not(void **state) {
    TableChange *change = table_change(*state, a_table(*state));
    table_change_set(change, 0, 1, "1,250; or so", OF_CHANGE);
    const WrittenTable *written = table_change_written(change);
    const Table *after = read_again(*state, written);
    assert_string_equal(table_cell(after, 0, 1)->text, "1,250; or so");
    assert_place(origin(written, after, 0, 1), "what-if.csv", 7, 3);
    assert_place(origin(written, after, 0, 0), "stacks.csv", 3, 1);
    assert_place(origin(written, after, 0, 2), "stacks.csv", 3, 8);
}

static void a_whole_row_and_the_whole_file_have_their_places_too(void **state) {
    TableChange *change = table_change(*state, a_table(*state));
    const int row = table_change_add_row(change, OF_CHANGE);
    table_change_set(change, row, 0, "New", OF_CHANGE);
    const WrittenTable *written = table_change_written(change);
    const Table *after = read_again(*state, written);
    assert_string_equal(table_cell(after, row, 0)->text, "New");
    assert_place(written_place(written, table_cell(after, row, 0)->line, 0), "what-if.csv", 7,
                 3);
    assert_place(written_place(written, table_cell(after, 0, 0)->line, 0), "stacks.csv", 3, 0);
    assert_place(written_place(written, 0, 0), "stacks.csv", 0, 0);
}

static void a_new_column_is_empty_for_the_rows_there_are(void **state) {
    TableChange *change = table_change(*state, a_table(*state));
    const int column = table_change_add_column(change, "use_from", OF_CHANGE);
    table_change_set(change, 1, column, "2026-12-01", OF_CHANGE);
    const WrittenTable *written = table_change_written(change);
    const Table *after = read_again(*state, written);
    assert_string_equal(after->headings[column].text, "use_from");
    assert_string_equal(table_cell(after, 0, column)->text, "");
    assert_string_equal(table_cell(after, 1, column)->text, "2026-12-01");
    assert_place(
        written_place(written, after->headings[column].line, after->headings[column].column),
        "what-if.csv", 7, 3);
}

static void a_copied_row_has_the_cells_of_the_other(void **state) {
    TableChange *change = table_change(*state, a_table(*state));
    const int row = table_change_copy_row(change, 2, OF_CHANGE);
    table_change_set(change, row, 0, "Second pit", OF_CHANGE);
    const Table *after = read_again(*state, table_change_written(change));
    assert_string_equal(table_cell(after, row, 0)->text, "Second pit");
    assert_string_equal(table_cell(after, row, 2)->text, "fed \"first\"");
    assert_string_equal(table_cell(after, 2, 0)->text, "Pit");
}

static void a_row_taken_away_is_gone_and_the_others_stay(void **state) {
    TableChange *change = table_change(*state, a_table(*state));
    table_change_remove_row(change, 1);
    const Table *after = read_again(*state, table_change_written(change));
    assert_int_equal(after->row_count, 2);
    assert_string_equal(table_cell(after, 1, 0)->text, "Pit");
    assert_int_equal(table_cell(after, 1, 0)->line, 7);
}

static void a_heading_is_found_however_it_is_written(void **state) {
    const TableChange *change = table_change(*state, a_table(*state));
    assert_int_equal(table_change_find_column(change, "Count"), 1);
    assert_int_equal(table_change_find_column(change, "note_long"), 2);
    assert_int_equal(table_change_find_column(change, "weight"), -1);
}

static void a_file_that_is_not_there_begins_with_its_heading(void **state) {
    TableChange *change = table_change_from_nothing(*state, "needs.csv", "group", OF_CHANGE);
    const int column = table_change_add_column(change, "need", OF_CHANGE);
    const int row = table_change_add_row(change, OF_CHANGE);
    table_change_set(change, row, 0, "#3 east", OF_CHANGE);
    table_change_set(change, row, column, "calcium", OF_CHANGE);
    const Table *after = read_again(*state, table_change_written(change));
    assert_int_equal(after->row_count, 1);
    assert_string_equal(table_cell(after, 0, 0)->text, "#3 east");
    assert_string_equal(after->headings[1].text, "need");
}

static void a_table_takes_no_more_columns_than_there_is_room_for(void **state) {
    TableChange *change = table_change(*state, a_table(*state));
    int added = 0;
    while (added < TABLE_MOST_COLUMNS &&
           table_change_add_column(change, "x_more", OF_CHANGE) >= 0)
        added++;
    assert_int_equal(added, 32);
    assert_int_equal(table_change_columns(change), 35);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_table_that_was_not_changed_is_read_as_it_was),
        UNIT_TEST(a_row_that_was_there_keeps_its_line),
        UNIT_TEST(a_changed_cell_comes_from_the_change_and_its_neighbours_do_not),
        UNIT_TEST(a_whole_row_and_the_whole_file_have_their_places_too),
        UNIT_TEST(a_new_column_is_empty_for_the_rows_there_are),
        UNIT_TEST(a_copied_row_has_the_cells_of_the_other),
        UNIT_TEST(a_row_taken_away_is_gone_and_the_others_stay),
        UNIT_TEST(a_heading_is_found_however_it_is_written),
        UNIT_TEST(a_file_that_is_not_there_begins_with_its_heading),
        UNIT_TEST(a_table_takes_no_more_columns_than_there_is_room_for),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
