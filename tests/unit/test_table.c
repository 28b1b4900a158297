#include "base/table.h"

#include "support/unit.h"
#include <string.h>

/* A table as text: each cell as [text]line:column, a line for the headings and for each row;
 * the faults behind it. */
static const char *parsed_bytes(Arena *arena, const char *bytes, size_t length) {
    Faults faults = faults_new(arena);
    Text text = text_new(arena);
    const Table *const table = table_parse(arena, &faults, "a.csv", bytes, length);
    for (int row = -1; table && row < table->row_count; row++) {
        for (int column = 0; column < table->column_count; column++) {
            const TableCell *const cell =
                row < 0 ? &table->headings[column] : table_cell(table, row, column);
            text_print(&text, "[%s]%d:%d", cell->text, cell->line, cell->column);
        }
        text_add(&text, "\n");
    }
    text_add(&text, unit_faults(&faults, arena));
    return text.bytes;
}

static const char *parsed(Arena *arena, const char *bytes) {
    return parsed_bytes(arena, bytes, strlen(bytes));
}

static void assert_refused(Arena *arena, const char *bytes, size_t length, const char *fault) {
    Faults faults = faults_new(arena);
    assert_null(table_parse(arena, &faults, "a.csv", bytes, length));
    assert_string_equal(unit_faults(&faults, arena), fault);
}

static void every_cell_is_placed(void **state) {
    assert_string_equal(parsed(*state, "group,head\ncows,120\nheifers,18\n"),
                        "[group]1:1[head]1:7\n"
                        "[cows]2:1[120]2:6\n"
                        "[heifers]3:1[18]3:9\n");
}

static void the_last_line_needs_no_end(void **state) {
    assert_string_equal(parsed(*state, "a,b\n1,2"), "[a]1:1[b]1:3\n[1]2:1[2]2:3\n");
}

static void columns_are_counted_in_characters(void **state) {
    assert_string_equal(parsed(*state, "a,b\n\xC3\xA9t\xC3\xA9,2\n"),
                        "[a]1:1[b]1:3\n[\xC3\xA9t\xC3\xA9]2:1[2]2:5\n");
}

static void blanks_around_a_cell_are_dropped(void **state) {
    assert_string_equal(parsed(*state, " a , b\n  1 ,\" 2 \"\n3,\xC2\xA0"
                                       "4\xC2\xA0\n"),
                        "[a]1:2[b]1:6\n[1]2:3[2]2:6\n[3]3:1[4]3:3\n");
}

static void any_line_end_and_a_byte_order_mark_will_do(void **state) {
    const char *const expected = "[a]1:1[b]1:3\n[1]2:1[2]2:3\n[3]4:1[4]4:3\n";
    assert_string_equal(parsed(*state, "a,b\n1,2\n\n3,4\n"), expected);
    assert_string_equal(parsed(*state, "\xEF\xBB\xBF"
                                       "a,b\r\n1,2\r\n\r\n3,4\r\n"),
                        expected);
    assert_string_equal(parsed(*state, "a,b\r1,2\r\r3,4\r"), expected);
}

static void a_quoted_line_break_is_part_of_the_cell_and_counts_as_a_line(void **state) {
    assert_string_equal(parsed(*state, "a,b\n1,\"two\r\nlines\",\n3,4\n"),
                        "[a]1:1[b]1:3\n[1]2:1[two\nlines]2:3\n[3]4:1[4]4:3\n");
    assert_string_equal(parsed(*state, "a,b\n\"x\n\ny\",z\n"),
                        "[a]1:1[b]1:3\n[x\n\ny]2:1[z]4:4\n");
}

static void quotation_marks_are_taken_off(void **state) {
    assert_string_equal(parsed(*state, "\"a\",b\n\"1,5\",\"a \"\"good\"\" one\"\n"),
                        "[a]1:1[b]1:5\n[1,5]2:1[a \"good\" one]2:7\n");
}

static void blank_lines_and_comments_are_skipped(void **state) {
    assert_string_equal(
        parsed(*state, "# made by hand, \"roughly\n\n  \na,b\n  # not 1,2\n3,4\n"),
        "[a]4:1[b]4:3\n[3]6:1[4]6:3\n");
}

/* A spreadsheet that saves a comment with a comma in it puts it in quotation marks. */
/* As saved after the comment was parted at its commas, its quotation marks doubled. */
static void a_comment_that_a_spreadsheet_parted_into_cells_stays_one(void **state) {
    assert_string_equal(
        parsed(*state, "\"# Invented: \"\"Bluffs\"\"\", its yards, and weights,,\na,b\n3,4\n"),
        "[a]2:1[b]2:3\n[3]3:1[4]3:3\n");
}

static void a_comment_saved_by_a_spreadsheet_stays_one(void **state) {
    assert_string_equal(parsed(*state, "\"# made, by\nhand\",\n,\na,b\n\"# x, y\",\n3,4\n"),
                        "[a]4:1[b]4:3\n[3]6:1[4]6:3\n");
}

static void a_quoted_name_may_begin_with_a_number_sign(void **state) {
    assert_string_equal(parsed(*state, "a,b\n\"#3\",4\n"), "[a]1:1[b]1:3\n[#3]2:1[4]2:6\n");
}

static void the_separator_is_found_in_the_heading(void **state) {
    assert_string_equal(parsed(*state, "a;b\n1,5;2\n"), "[a]1:1[b]1:3\n[1,5]2:1[2]2:5\n");
    assert_string_equal(parsed(*state, "a\tb\n1,5;\t2\n"), "[a]1:1[b]1:3\n[1,5;]2:1[2]2:6\n");
    assert_string_equal(parsed(*state, "\"a;;;\",b\n1,2\n"), "[a;;;]1:1[b]1:8\n[1]2:1[2]2:3\n");
    assert_string_equal(parsed(*state, "a\n1\n"), "[a]1:1\n[1]2:1\n");
}

static void the_first_cell_of_a_tab_file_may_be_empty(void **state) {
    assert_string_equal(parsed(*state, "a\tb\n\t2\n"), "[a]1:1[b]1:3\n[]2:1[2]2:2\n");
}

static void a_shorter_row_has_empty_cells_at_its_end(void **state) {
    assert_string_equal(parsed(*state, "a,b,c\n1\n2,,\n"),
                        "[a]1:1[b]1:3[c]1:5\n[1]2:1[]2:0[]2:0\n[2]3:1[]3:3[]3:4\n");
}

static void empty_cells_past_the_headings_do_not_matter(void **state) {
    assert_string_equal(parsed(*state, "a,b,,\n1,2,,,\n"), "[a]1:1[b]1:3\n[1]2:1[2]2:3\n");
}

static void a_cell_past_the_headings_is_a_fault_and_reading_goes_on(void **state) {
    assert_string_equal(
        parsed(*state, "a,b\n1,2,,3,4\n5,6\n7,8,9\n"),
        "[a]1:1[b]1:3\n[1]2:1[2]2:3\n[5]3:1[6]3:3\n[7]4:1[8]4:3\n"
        "a.csv:2:6: '3' lies beyond the last heading: give the column a heading, or "
        "put a cell with ',' in it in quotation marks\n"
        "a.csv:4:5: '9' lies beyond the last heading: give the column a heading, or "
        "put a cell with ',' in it in quotation marks\n");
}

static void a_heading_alone_is_a_table_without_rows(void **state) {
    assert_string_equal(parsed(*state, "a,b\n"), "[a]1:1[b]1:3\n");
}

static void assert_text_refused(Arena *arena, const char *bytes, const char *fault) {
    assert_refused(arena, bytes, strlen(bytes), fault);
}

static void a_file_without_headings_is_refused(void **state) {
    const char *const fault =
        "a.csv: the file is empty: its first line has to be the headings\n";
    assert_refused(*state, NULL, 0, fault);
    assert_text_refused(*state, "", fault);
    assert_text_refused(*state, "\xEF\xBB\xBF", fault);
    assert_text_refused(*state, "\n \n# only this\n,,,\n", fault);
}

static void a_stray_quote_is_placed(void **state) {
    static const char FAULT[] = "a stray quotation mark: take it out, or put the whole cell in "
                                "quotation marks and double the ones inside it, as in "
                                "\"12\"\" pipe\"\n";
    assert_text_refused(*state, "a,b\n1,2\n3,24\" square\n",
                        arena_print(*state, "a.csv:3:5: %s", FAULT));
    assert_text_refused(*state, "a,b\n\"x\n\",\"2\" 3\n",
                        arena_print(*state, "a.csv:3:7: %s", FAULT));
}

static void a_quote_that_opens_too_much_names_the_line_where_it_began(void **state) {
    assert_text_refused(
        *state, "a,b\n1,\"2\n3,\"4\n5,6\n",
        "a.csv:3:4: a stray quotation mark; the cell began on line 2, where its "
        "quotation mark may be the one that does not belong\n");
}

static void a_quote_that_is_never_closed_is_placed_where_it_opens(void **state) {
    assert_text_refused(*state, "a,b\n1,\"2\n3,4\n",
                        "a.csv:2:3: this cell begins with a quotation mark and none closes it: "
                        "close it, or take it out\n");
}

static void a_file_of_another_kind_is_refused_with_the_cure(void **state) {
    const char *const workbook =
        "a.csv: this is a workbook, not a CSV file: open it and save the "
        "sheet as \"CSV UTF-8\"\n";
    assert_refused(*state, "PK\x03\x04\x14\0\x06\0", 8, workbook);
    assert_refused(*state, "\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1", 8, workbook);
    const char *const utf16 = "a.csv: the text is in UTF-16 (\"Unicode text\"): save the sheet "
                              "as \"CSV UTF-8\"\n";
    assert_refused(*state,
                   "\xFF\xFE"
                   "a\0",
                   4, utf16);
    assert_refused(*state, "\xFE\xFF\0a", 4, utf16);
    assert_refused(*state,
                   "a,b\n1,\0"
                   "2\n",
                   9,
                   "a.csv:2:3: a zero byte: this is not a text file; save the sheet as "
                   "\"CSV UTF-8\"\n");
}

static void a_letter_that_is_not_utf8_is_placed(void **state) {
    assert_text_refused(
        *state,
        "\xEF\xBB\xBF"
        "a,b\r\n\xC3\xA9,caf\xE9\r\n",
        "a.csv:2:6: from this letter on the text is not UTF-8: save the sheet as "
        "\"CSV UTF-8\"\n");
}

static void a_heading_that_begins_with_pk_is_no_workbook(void **state) {
    assert_string_equal(parsed(*state, "PK,b\n"), "[PK]1:1[b]1:4\n");
}

static void too_many_bytes_rows_or_columns_are_refused(void **state) {
    const size_t length = TABLE_MOST_BYTES + 1;
    char *const bytes = arena_take(*state, length, 1);
    memset(bytes, 'a', length);
    assert_refused(*state, bytes, length,
                   "a.csv: the file has 8.4 million bytes, more than the 8 million that are "
                   "read; is it the right file?\n");
    Text rows = text_new(*state);
    for (int i = 0; i < TABLE_MOST_ROWS + 1; i++)
        text_add(&rows, "a\n");
    const char *const most = parsed(*state, rows.bytes); /* one is the heading */
    assert_string_equal(most + strlen(most) - strlen("[a]20001:1\n"), "[a]20001:1\n");
    text_add(&rows, "a\n");
    assert_text_refused(*state, rows.bytes,
                        "a.csv:20002: more than 20000 rows: is it the right file?\n");
    Text columns = text_new(*state);
    for (int i = 0; i < TABLE_MOST_COLUMNS; i++)
        text_add(&columns, "a,");
    assert_memory_equal(parsed(*state, columns.bytes), "[a]1:1[a]1:3", 12);
    text_add(&columns, "b\n");
    assert_text_refused(*state, columns.bytes,
                        "a.csv:1:401: more than 200 columns: take away those not needed\n");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(every_cell_is_placed),
        UNIT_TEST(the_last_line_needs_no_end),
        UNIT_TEST(columns_are_counted_in_characters),
        UNIT_TEST(blanks_around_a_cell_are_dropped),
        UNIT_TEST(any_line_end_and_a_byte_order_mark_will_do),
        UNIT_TEST(a_quoted_line_break_is_part_of_the_cell_and_counts_as_a_line),
        UNIT_TEST(quotation_marks_are_taken_off),
        UNIT_TEST(blank_lines_and_comments_are_skipped),
        UNIT_TEST(a_comment_that_a_spreadsheet_parted_into_cells_stays_one),
        UNIT_TEST(a_comment_saved_by_a_spreadsheet_stays_one),
        UNIT_TEST(a_quoted_name_may_begin_with_a_number_sign),
        UNIT_TEST(the_separator_is_found_in_the_heading),
        UNIT_TEST(the_first_cell_of_a_tab_file_may_be_empty),
        UNIT_TEST(a_shorter_row_has_empty_cells_at_its_end),
        UNIT_TEST(empty_cells_past_the_headings_do_not_matter),
        UNIT_TEST(a_cell_past_the_headings_is_a_fault_and_reading_goes_on),
        UNIT_TEST(a_heading_alone_is_a_table_without_rows),
        UNIT_TEST(a_file_without_headings_is_refused),
        UNIT_TEST(a_stray_quote_is_placed),
        UNIT_TEST(a_quote_that_opens_too_much_names_the_line_where_it_began),
        UNIT_TEST(a_quote_that_is_never_closed_is_placed_where_it_opens),
        UNIT_TEST(a_file_of_another_kind_is_refused_with_the_cure),
        UNIT_TEST(a_letter_that_is_not_utf8_is_placed),
        UNIT_TEST(a_heading_that_begins_with_pk_is_no_workbook),
        UNIT_TEST(too_many_bytes_rows_or_columns_are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
