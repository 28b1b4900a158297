#include "present/present.h"

#include "support/unit.h"

#include <math.h>
#include <string.h>

static const char *shown(const Report *report, int width) {
    Text text = text_new(report->arena);
    present_text(report, (TextStyle){.width = width}, &text);
    return text.bytes;
}

static bool contains(const char *text, const char *part) { return strstr(text, part) != NULL; }

static void the_verdict_stands_right_below_the_title(void **state) {
    Report *report = report_new(*state, "Winter plan");
    report_verdict(report, SEVERITY_NOTE, "Balanced.");
    report_section(report, "ration", "What to feed");
    report_paragraph(report, "Hay.");
    report_part(report, "cows", "Cows");
    report_paragraph(report, "More hay.");
    assert_string_equal(shown(report, 80), "Winter plan\n"
                                           "===========\n"
                                           "\n"
                                           "Balanced.\n"
                                           "\n"
                                           "What to feed\n"
                                           "------------\n"
                                           "\n"
                                           "Hay.\n"
                                           "\n"
                                           "Cows\n"
                                           "....\n"
                                           "\n"
                                           "More hay.\n");
}

static void a_paragraph_wraps_between_words(void **state) {
    Report *report = report_new(*state, "T");
    report_paragraph(report, "%s",
                     "one two  three\tfour five six seven eight nine ten eleven "
                     "twelve\n thirteen");
    assert_true(contains(shown(report, 60),
                         "\none two three four five six seven eight nine ten eleven\n"
                         "twelve thirteen\n"));
}

static void a_chart_is_left_to_its_table(void **state) {
    static const ReportColumn COLUMNS[] = {{"stack", "Stack", "", 0}};
    const ChartAxis axis = {AXIS_NUMBERS, "", "", 0};
    Report *report = report_new(*state, "T");
    report_paragraph(report, "Before.");
    report_chart(report, chart_new(*state, CHART_LINES, "stock", "Hay ends first", axis, axis));
    report_row(report_table_of_chart(report, "left", "", COLUMNS, 1),
               (Cell[]){text_cell("Hay")});
    assert_string_equal(shown(report, 80), "T\n=\n\nBefore.\n\nStack\n-----\nHay\n");
}

static void remarks_hang_from_their_mark_and_end_with_the_source(void **state) {
    Report *report = report_new(*state, "T");
    report_remark(report, SEVERITY_NOTE, "", "A note.", "");
    report_remark(report, SEVERITY_CAUTION, "nitrate",
                  "East slough hay must be mixed half and half with a feed that is free of it.",
                  "BOOK_1999");
    report_remark(report, SEVERITY_DANGER, "", "Do not feed.", NULL);
    assert_string_equal(shown(report, 60),
                        "T\n=\n\n"
                        "- A note.\n"
                        "! East slough hay must be mixed half and half with a feed\n"
                        "  that is free of it. [BOOK_1999]\n"
                        "!! Do not feed.\n");
}

static const ReportColumn RATION[] = {{"feed", "Feed", "", 0},
                                      {"dry_matter", "Dry matter", "kg", 1},
                                      {"group", "Group", "kg", 1},
                                      {"note", "Note", "", 0}};

static void numbers_stand_right_with_thousands_parted_and_a_dash_where_not_known(void **state) {
    Report *report = report_new(*state, "T");
    ReportTable *table = report_table(report, "ration", "Cows", RATION, 4);
    report_row(table, (Cell[]){text_cell("East slough hay"), number_cell(9.46, 1),
                               number_cell(1135.2, 1), text_cell("first")});
    report_row(table,
               (Cell[]){text_cell("Pit"), empty_cell(), number_cell(NAN, 1), empty_cell()});
    report_total_row(
        table, (Cell[]){text_cell("Total"), number_cell(9.46, 1), empty_cell(), empty_cell()});
    assert_string_equal(shown(report, 80), "T\n=\n\n"
                                           "Cows\n"
                                           "Feed             Dry matter    Group  Note\n"
                                           "                         kg       kg\n"
                                           "-------------------------------------------\n"
                                           "East slough hay         9.5  1,135.2  first\n"
                                           "Pit                       -        -\n"
                                           "-------------------------------------------\n"
                                           "Total                   9.5\n");
}

static void letters_beyond_ascii_take_one_column(void **state) {
    Report *report = report_new(*state, "\xC3\x89t\xC3\xA9"); /* Ete with two accents */
    ReportTable *table = report_table(report, "t", "", RATION, 2);
    report_row(table, (Cell[]){text_cell("M\xC3\xBChle"), number_cell(1, 1)});
    report_row(table, (Cell[]){text_cell("Muehle"), number_cell(2, 1)});
    assert_string_equal(shown(report, 80), "\xC3\x89t\xC3\xA9\n===\n\n"
                                           "Feed    Dry matter\n"
                                           "                kg\n"
                                           "------------------\n"
                                           "M\xC3\xBChle          1.0\n"
                                           "Muehle         2.0\n");
}

static void a_table_without_units_has_no_line_for_them(void **state) {
    const ReportColumn columns[] = {{"a", "Name", "", 0}, {"b", "Head", "", 1}};
    Report *report = report_new(*state, "T");
    report_row(report_table(report, "t", "", columns, 2),
               (Cell[]){text_cell("Cows"), number_cell(120, 0)});
    assert_string_equal(shown(report, 80), "T\n=\n\nName  Head\n----------\nCows   120\n");
}

static void a_table_without_rows_says_so(void **state) {
    const ReportColumn columns[] = {{"a", "Name", "", 0}};
    Report *report = report_new(*state, "T");
    report_table(report, "t", "", columns, 1);
    assert_string_equal(shown(report, 80), "T\n=\n\nName\n----\nnone\n");
}

static void long_cells_wrap_within_their_column(void **state) {
    Report *report = report_new(*state, "T");
    ReportTable *table = report_table(report, "t", "", RATION, 4);
    report_row(table, (Cell[]){text_cell("Pit"), number_cell(4, 1), number_cell(480, 1),
                               text_cell("open the face a hand deep every day, or it heats")});
    assert_string_equal(shown(report, 60),
                        "T\n=\n\n"
                        "         Dry\n"
                        "Feed  matter  Group  Note\n"
                        "          kg     kg\n"
                        "------------------------------------------------------------\n"
                        "Pit      4.0  480.0  open the face a hand deep every day, or\n"
                        "                     it heats\n");
}

static void a_table_too_wide_comes_in_parts_that_repeat_the_first_column(void **state) {
    enum { COLUMNS = 9 };
    ReportColumn columns[COLUMNS] = {{"stack", "Stack", "", 0}};
    Cell cells[COLUMNS] = {text_cell("Hay")};
    for (int i = 1; i < COLUMNS; i++) {
        columns[i] = (ReportColumn){"m", "Month", "", 1};
        cells[i] = number_cell(1000000 + i, 0);
    }
    Report *report = report_new(*state, "T");
    report_row(report_table(report, "t", "By month", columns, COLUMNS), cells);
    assert_string_equal(shown(report, 60),
                        "T\n=\n\n"
                        "By month\n"
                        "Stack      Month      Month      Month      Month\n"
                        "-------------------------------------------------\n"
                        "Hay    1,000,001  1,000,002  1,000,003  1,000,004\n"
                        "\n"
                        "By month (continued)\n"
                        "Stack      Month      Month      Month      Month\n"
                        "-------------------------------------------------\n"
                        "Hay    1,000,005  1,000,006  1,000,007  1,000,008\n");
}

static void a_terminal_is_never_given_a_control_character(void **state) {
    Report *report = report_new(*state, "T");
    ReportTable *table = report_table(report, "t", "", RATION, 1);
    /* ESC, DEL, C1 CSI, a lone continuation, a lead without its rest */
    report_row(table, (Cell[]){text_cell("a\033[2Jb\x7F"
                                         "c\xC2\x9B"
                                         "d\x80"
                                         "e\xE2\x82")});
    report_paragraph(report, "%s", "\x1B]0;x\x07");
    const char *text = shown(report, 80);
    assert_true(contains(text, "a?[2Jb?c?"));
    assert_true(contains(text, "\n?]0;x?\n"));
    assert_int_equal(text_first_bad_utf8(text, strlen(text)), -1);
    for (const char *at = text; *at; at++)
        assert_true(*at == '\n' || (unsigned char)*at >= 0x20);
}

static void colour_is_for_headings_and_the_verdict_only(void **state) {
    Report *report = report_new(*state, "T");
    report_verdict(report, SEVERITY_DANGER, "Short.");
    report_section(report, "s", "S");
    report_paragraph(report, "p");
    Text text = text_new(*state);
    present_text(report, (TextStyle){.width = 80, .has_colour = true}, &text);
    assert_string_equal(text.bytes, "\033[1mT\033[0m\n=\n\n\033[1;31mShort.\033[0m\n\n"
                                    "\033[1mS\033[0m\n-\n\np\n");
    assert_false(contains(shown(report, 80), "\033"));
}

/* ------------------------------------------------------------------------------------------
 * Random reports: xorshift with a seed that a failure prints. */

typedef struct {
    Arena *arena;
    uint64_t bits;
} Random;

static int below(Random *random, int limit) {
    random->bits ^= random->bits << 13;
    random->bits ^= random->bits >> 7;
    random->bits ^= random->bits << 17;
    return (int)(random->bits % (uint64_t)limit);
}

/* Words of 1 to 90 letters, now and then one of two bytes or a control character. */
static const char *random_text(Random *random, int most_words) {
    static const char *const letters[] = {"a",   "m", "W", "0", "-", "\xC3\xA9", "\xE2\x82\xAC",
                                          "\x1B"};
    Text text = text_new(random->arena);
    for (int word = below(random, most_words + 1); word > 0; word--) {
        const int longest = below(random, 20) == 0 ? 90 : 12;
        for (int letter = 1 + below(random, longest); letter > 0; letter--)
            text_add(&text, letters[below(random, 8)]);
        text_add(&text, word > 1 ? " " : "");
    }
    return text.bytes;
}

static Cell random_cell(Random *random) {
    switch (below(random, 8)) {
    case 0:
        return empty_cell();
    case 1:
    case 2:
        return text_cell(random_text(random, 12));
    default:
        return number_cell((below(random, 2000) - 1000) * pow(10, below(random, 16) - 3),
                           below(random, 7));
    }
}

static void add_random_table(Random *random, Report *report) {
    enum { MOST_COLUMNS = 14 };
    ReportColumn columns[MOST_COLUMNS];
    Cell cells[MOST_COLUMNS];
    const int count = 1 + below(random, MOST_COLUMNS);
    for (int i = 0; i < count; i++)
        columns[i] = (ReportColumn){"k", random_text(random, 3), random_text(random, 1),
                                    below(random, 2)};
    ReportTable *table = report_table(report, "t", random_text(random, 9), columns, count);
    for (int row = below(random, 6); row > 0; row--) {
        for (int i = 0; i < count; i++)
            cells[i] = random_cell(random);
        if (below(random, 5) == 0)
            report_total_row(table, cells);
        else
            report_row(table, cells);
    }
}

static const Report *random_report(Random *random) {
    Report *report = report_new(random->arena, random_text(random, 30));
    report_verdict(report, (Severity)below(random, 3), "%s", random_text(random, 30));
    for (int piece = below(random, 8); piece > 0; piece--) {
        const int kind = below(random, 5);
        if (kind == 0)
            report_section(report, "s", random_text(random, 14));
        else if (kind == 1)
            report_paragraph(report, "%s", random_text(random, 60));
        else if (kind == 2)
            report_remark(report, (Severity)below(random, 3), "", random_text(random, 40),
                          random_text(random, 1));
        else
            add_random_table(random, report);
    }
    return report;
}

static void no_line_of_any_report_is_wider_than_asked_or_ends_in_a_blank(void **state) {
    (void)state;
    for (uint64_t seed = 1; seed <= 1000; seed++) {
        Random random = {arena_open(), seed * UINT64_C(0x9E3779B97F4A7C15)};
        const int width = 60 + below(&random, 141);
        const char *line = shown(random_report(&random), width);
        for (const char *end; (end = strchr(line, '\n')); line = end + 1) {
            const size_t length = (size_t)(end - line);
            const int columns = text_columns(arena_copy(random.arena, line, length));
            if (columns > width || (length > 0 && end[-1] == ' '))
                fail_msg("seed %d, width %d: %.*s|", (int)seed, width, (int)length, line);
        }
        assert_string_equal(line, ""); /* the last line ends like the others */
        arena_close(random.arena);
    }
}

static void every_number_of_a_table_is_shown_whole_however_wide_the_table(void **state) {
    (void)state;
    for (int count = 1; count <= 40; count++) {
        Arena *arena = arena_open();
        Report *report = report_new(arena, "T");
        ReportColumn *columns = ARENA_ARRAY(arena, ReportColumn, count);
        Cell *cells = ARENA_ARRAY(arena, Cell, count);
        for (int i = 0; i < count; i++) {
            columns[i] = (ReportColumn){"k", "Label of a column", "unit", i > 0};
            cells[i] = i > 0 ? number_cell(1000000.25 + i, 2) : text_cell("first");
        }
        report_row(report_table(report, "t", "", columns, count), cells);
        const char *text = shown(report, 60 + count);
        for (int i = 1; i < count; i++)
            assert_true(contains(text, number_words(arena, cells[i].number, 2)));
        arena_close(arena);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(the_verdict_stands_right_below_the_title),
        UNIT_TEST(a_paragraph_wraps_between_words),
        UNIT_TEST(a_chart_is_left_to_its_table),
        UNIT_TEST(remarks_hang_from_their_mark_and_end_with_the_source),
        UNIT_TEST(numbers_stand_right_with_thousands_parted_and_a_dash_where_not_known),
        UNIT_TEST(letters_beyond_ascii_take_one_column),
        UNIT_TEST(a_table_without_units_has_no_line_for_them),
        UNIT_TEST(a_table_without_rows_says_so),
        UNIT_TEST(long_cells_wrap_within_their_column),
        UNIT_TEST(a_table_too_wide_comes_in_parts_that_repeat_the_first_column),
        UNIT_TEST(a_terminal_is_never_given_a_control_character),
        UNIT_TEST(colour_is_for_headings_and_the_verdict_only),
        UNIT_TEST(no_line_of_any_report_is_wider_than_asked_or_ends_in_a_blank),
        UNIT_TEST(every_number_of_a_table_is_shown_whole_however_wide_the_table),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
