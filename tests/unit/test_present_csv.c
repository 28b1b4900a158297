#include "present/csv_table.h"
#include "present/present.h"

#include "support/unit.h"

#include <string.h>

static const char *cell_of(Arena *arena, const char *words) {
    Text text = text_new(arena);
    csv_words(&text, words);
    return text.bytes;
}

static void text_that_looks_like_a_formula_is_text(void **state) {
    assert_string_equal(cell_of(*state, "=1+2"), "'=1+2");
    assert_string_equal(cell_of(*state, "+1"), "'+1");
    assert_string_equal(cell_of(*state, "-stack"), "'-stack");
    assert_string_equal(cell_of(*state, "@SUM(A1)"), "'@SUM(A1)");
    assert_string_equal(cell_of(*state, "\t\r=1"), "'=1");
    assert_string_equal(cell_of(*state, "=HYPERLINK(\"a\",\"b\")"),
                        "\"'=HYPERLINK(\"\"a\"\",\"\"b\"\")\"");
    assert_string_equal(cell_of(*state, "Hay - home = best"), "Hay - home = best");
}

static void text_with_commas_or_quotes_is_quoted(void **state) {
    assert_string_equal(cell_of(*state, "Hay, late"), "\"Hay, late\"");
    assert_string_equal(cell_of(*state, "Hay; late"), "\"Hay; late\"");
    assert_string_equal(cell_of(*state, "the \"good\" hay"), "\"the \"\"good\"\" hay\"");
    assert_string_equal(cell_of(*state, "two\nlines"), "two lines");
}

static Report *report_of_two(Arena *arena) {
    static const ReportColumn STOCK[] = {
        {"stack", "Stack", "", 0}, {"left", "Left", "t", 1}, {"end", "Ends", "", 0}};
    static const ReportColumn RATION[] = {{"feed", "Feed", "", 0},
                                          {"a_head", "A head", "kg", 1}};
    Report *report = report_new(arena, "Winter plan");
    report_section(report, "stock", "Feed on hand");
    ReportTable *stock = report_table(report, "stacks", "As fed", STOCK, 3);
    report_row(stock, (Cell[]){text_cell("Hay"), number_cell(1234.56, 1), empty_cell()});
    report_row(stock, (Cell[]){text_cell("Straw"), number_cell(-0.5, 1), text_cell("lasts")});
    report_part(report, "group", "Main cows: 150 head, fed mixed");
    ReportTable *ration = report_table(report, "ration", "", RATION, 2);
    report_total_row(ration, (Cell[]){text_cell("All"), number_cell(20, 0)});
    return report;
}

static void numbers_are_plain_and_units_stand_in_the_head(void **state) {
    const Report *report = report_of_two(*state);
    const CsvFile *files;
    assert_int_equal(present_csv_files(*state, report, &files), 2);
    assert_string_equal(files[0].bytes,
                        "Stack,Left (t),Ends\r\nHay,1234.6,\r\nStraw,-0.5,lasts\r\n");
    assert_string_equal(files[1].bytes, "Feed,A head (kg)\r\nAll,20\r\n");
}

static void a_file_is_named_for_its_place_its_group_and_its_table(void **state) {
    const CsvFile *files;
    present_csv_files(*state, report_of_two(*state), &files);
    assert_string_equal(files[0].name, "01-stacks.csv");
    assert_string_equal(files[1].name, "02-main-cows-ration.csv");
}

static void a_name_of_a_file_never_leads_elsewhere(void **state) {
    static const ReportColumn COLUMNS[] = {{"a", "A", "", 0}};
    Report *report = report_new(*state, "T");
    report_section(report, "groups", "Groups");
    report_part(report, "group", "../../etc/Caf\xC3\xA9 \\ cows|*?: 3 head");
    report_table(report, "ration", "", COLUMNS, 1);
    const CsvFile *files;
    present_csv_files(*state, report, &files);
    assert_string_equal(files[0].name, "01-etc-caf-cows-ration.csv");
}

static void the_one_file_holds_every_table_under_what_it_is(void **state) {
    Text text = text_new(*state);
    present_csv(report_of_two(*state), &text);
    assert_string_equal(text.bytes, "Feed on hand: As fed\r\n"
                                    "Stack,Left (t),Ends\r\n"
                                    "Hay,1234.6,\r\n"
                                    "Straw,-0.5,lasts\r\n"
                                    "\r\n"
                                    "\"Main cows: 150 head, fed mixed\"\r\n"
                                    "Feed,A head (kg)\r\n"
                                    "All,20\r\n");
}

/* Without the mark a spreadsheet takes the letters for those of its own machine. */
static void letters_that_are_not_ascii_stand_after_a_byte_order_mark(void **state) {
    assert_string_equal(csv_marked(*state, "Caf\xC3\xA9"), "\xEF\xBB\xBF"
                                                           "Caf\xC3\xA9");
    assert_string_equal(csv_marked(*state, "Cafe"), "Cafe");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(text_that_looks_like_a_formula_is_text),
        UNIT_TEST(text_with_commas_or_quotes_is_quoted),
        UNIT_TEST(numbers_are_plain_and_units_stand_in_the_head),
        UNIT_TEST(a_file_is_named_for_its_place_its_group_and_its_table),
        UNIT_TEST(a_name_of_a_file_never_leads_elsewhere),
        UNIT_TEST(the_one_file_holds_every_table_under_what_it_is),
        UNIT_TEST(letters_that_are_not_ascii_stand_after_a_byte_order_mark),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
