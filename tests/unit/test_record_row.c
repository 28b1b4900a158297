/* A row more, and one less, in files as people and spreadsheets leave them. */
#include "stock/record_row.h"

#include "stock/feed_record.h"
#include "support/unit.h"
#include <string.h>

static const char *const CELLS[FED_COLUMN_COUNT] = {"2026-11-05", "Cows", "Hay", "6",
                                                    "bales",      "wet",  "7"};

static Sheet *sheet_of(Arena *arena, const char *bytes) {
    Faults faults = faults_new(arena);
    Sheet *sheet = sheet_parse(arena, &faults, "fed.csv", bytes, strlen(bytes), FED_COLUMNS,
                               FED_COLUMN_COUNT);
    assert_non_null(sheet);
    return sheet;
}

static const char *with_row(Arena *arena, const char *bytes) {
    return record_with_row(arena, bytes, strlen(bytes), sheet_of(arena, bytes), FED_COLUMNS,
                           CELLS, FED_COLUMN_COUNT)
        .bytes;
}

static void a_new_file_has_headings_a_comment_and_the_row(void **state) {
    const Text text =
        record_begun(*state, "What was fed.", FED_COLUMNS, CELLS, FED_COLUMN_COUNT);
    assert_string_equal(text.bytes, "# What was fed.\n"
                                    "date,group,stack,amount,unit,note,entry\n"
                                    "2026-11-05,Cows,Hay,6,bales,wet,7\n");
}

static void every_other_byte_stays(void **state) {
    static const char FILE[] =
        "\xEF\xBB\xBF# ours, \"so far\n\n"
        "date,group,stack,amount,unit,note,entry\r\n"
        "# a comment\r\n2026-11-02,Cows,Hay,5,bales,\"a\r\nb\",1\r\n\r\n";
    assert_string_equal(with_row(*state, FILE),
                        arena_print(*state, "%s2026-11-05,Cows,Hay,6,bales,wet,7\n", FILE));
}

static void a_row_follows_the_order_separator_and_line_ends_of_the_file(void **state) {
    assert_string_equal(with_row(*state, "stack;x_who;date;unit;amount;group;entry;note\r\n"),
                        "stack;x_who;date;unit;amount;group;entry;note\r\nHay;;2026-11-05;"
                        "bales;6;Cows;7;wet\r\n");
}

static void a_last_line_without_an_end_gets_one(void **state) {
    assert_string_equal(with_row(*state, "date,group,stack,amount,unit,note,entry\r\n"
                                         "2026-11-02,Cows,Hay,5,bales,,1"),
                        "date,group,stack,amount,unit,note,entry\r\n"
                        "2026-11-02,Cows,Hay,5,bales,,1\r\n"
                        "2026-11-05,Cows,Hay,6,bales,wet,7\r\n");
}

static void a_column_that_is_missing_is_added_to_the_headings(void **state) {
    assert_string_equal(with_row(*state, "# typed by hand\n"
                                         "date,group,stack,amount,unit\n"
                                         "2026-11-02,Cows,Hay,5,bales\n"),
                        "# typed by hand\n"
                        "date,group,stack,amount,unit,note,entry\n"
                        "2026-11-02,Cows,Hay,5,bales\n"
                        "2026-11-05,Cows,Hay,6,bales,wet,7\n");
}

/* As a spreadsheet saves a sheet that once was wider. */
static void empty_headings_at_the_end_are_passed_over(void **state) {
    const char *bytes = with_row(*state, "date,group,stack,amount,unit,,\n"
                                         "2026-11-02,Cows,Hay,5,bales,,\n");
    assert_string_equal(bytes, "date,group,stack,amount,unit,,,note,entry\n"
                               "2026-11-02,Cows,Hay,5,bales,,\n"
                               "2026-11-05,Cows,Hay,6,bales,,,wet,7\n");
    Sheet *sheet = sheet_of(*state, bytes);
    assert_string_equal(sheet_text(sheet, 1, FED_NOTE), "wet");
    assert_string_equal(sheet_text(sheet, 1, FED_ENTRY), "7");
}

static void what_needs_quotation_marks_gets_them(void **state) {
    const char *const cells[FED_COLUMN_COUNT] = {
        "2026-11-05", "Cows, thin", "#3 \"east\"", "6", "bales", "", "7"};
    const char *heading = "date,group,stack,amount,unit,note,entry\n";
    const Text text =
        record_with_row(*state, heading, strlen(heading), sheet_of(*state, heading),
                        FED_COLUMNS, cells, FED_COLUMN_COUNT);
    assert_string_equal(text.bytes + strlen(heading),
                        "2026-11-05,\"Cows, thin\",\"#3 \"\"east\"\"\",6,bales,,7\n");
    Sheet *sheet = sheet_of(*state, text.bytes);
    assert_string_equal(sheet_text(sheet, 0, FED_STACK), "#3 \"east\"");
    assert_string_equal(sheet_text(sheet, 0, FED_GROUP), "Cows, thin");
}

static void a_row_taken_out_leaves_the_rest_as_it_was(void **state) {
    static const char FILE[] = "# ours\r\ndate,group,stack,amount,unit,note,entry\r\n"
                               "2026-11-02,Cows,Hay,5,bales,\"a\r\nb\",1\r\n"
                               "# between\r\n2026-11-03,Cows,Hay,4,bales,,2";
    const char *removed;
    const Text first =
        record_without_row(*state, FILE, strlen(FILE), sheet_of(*state, FILE), 0, &removed);
    assert_string_equal(removed, "2026-11-02,Cows,Hay,5,bales,\"a\r\nb\",1");
    assert_string_equal(first.bytes, "# ours\r\ndate,group,stack,amount,unit,note,entry\r\n"
                                     "# between\r\n2026-11-03,Cows,Hay,4,bales,,2");
    const Text second =
        record_without_row(*state, FILE, strlen(FILE), sheet_of(*state, FILE), 1, &removed);
    assert_string_equal(removed, "2026-11-03,Cows,Hay,4,bales,,2");
    assert_string_equal(second.bytes,
                        "# ours\r\ndate,group,stack,amount,unit,note,entry\r\n"
                        "2026-11-02,Cows,Hay,5,bales,\"a\r\nb\",1\r\n# between\r\n");
}

static void a_row_put_in_and_taken_out_leaves_the_file_as_it_was(void **state) {
    static const char FILE[] = "date;group;stack;amount;unit;note;entry\r\n"
                               "2026-11-02;Cows;Hay;5,5;bales;;1\r\n";
    const char *bytes = with_row(*state, FILE);
    const char *removed;
    const Text back =
        record_without_row(*state, bytes, strlen(bytes), sheet_of(*state, bytes), 1, &removed);
    assert_string_equal(back.bytes, FILE);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_new_file_has_headings_a_comment_and_the_row),
        UNIT_TEST(every_other_byte_stays),
        UNIT_TEST(a_row_follows_the_order_separator_and_line_ends_of_the_file),
        UNIT_TEST(a_last_line_without_an_end_gets_one),
        UNIT_TEST(a_column_that_is_missing_is_added_to_the_headings),
        UNIT_TEST(empty_headings_at_the_end_are_passed_over),
        UNIT_TEST(what_needs_quotation_marks_gets_them),
        UNIT_TEST(a_row_taken_out_leaves_the_rest_as_it_was),
        UNIT_TEST(a_row_put_in_and_taken_out_leaves_the_file_as_it_was),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
