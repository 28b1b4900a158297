#include "present/present.h"

#include "support/html_page.h"
#include "support/told_everywhere.h"
#include "support/unit.h"

#include <string.h>

static const char *page_of(const Report *report, PageKind kind) {
    Text page = text_new(report->arena);
    present_html(report, kind, &page);
    return page.bytes;
}

static void assert_sound(Arena *arena, const char *page) {
    const char *fault = html_fault(arena, page);
    if (fault)
        fail_msg("%s", fault);
}

static int times_in(const char *text, const char *part) {
    int times = 0;
    for (const char *at = text; (at = strstr(at, part)) != NULL; at += strlen(part))
        times++;
    return times;
}

/* Whoever names a stack so must see that name and nothing else. */
static void a_stack_named_as_a_script_is_shown_as_its_name(void **state) {
    const char *page =
        page_of(told_everywhere(*state, "<script>alert(1)</script>"), PAGE_REPORT);
    assert_sound(*state, page);
    assert_null(strstr(page, "<script"));
    assert_true(times_in(page, "&lt;script&gt;alert(1)&lt;/script&gt;") > 20);
}

static void text_cannot_leave_an_attribute(void **state) {
    static const char *const hostile[] = {
        "\" onload=\"alert(1)",     "' onclick='alert(1)",
        "\"><svg onload=alert(1)>", "--></style></title><img src=x>",
        "&lt;b&gt;&#60;b>",         "]]>",
        "javascript:alert(1)"};
    for (size_t i = 0; i < sizeof hostile / sizeof *hostile; i++) {
        const char *page = page_of(told_everywhere(*state, hostile[i]), PAGE_SHEETS);
        assert_sound(*state, page);
        assert_null(strstr(page, " onload=\""));
        assert_null(strstr(page, "<img"));
    }
}

static void bytes_that_are_not_text_are_replaced(void **state) {
    const char *page = page_of(told_everywhere(*state, "a\x80\x1B[1mb\xC2\x85"), PAGE_REPORT);
    assert_sound(*state, page);
    assert_non_null(strstr(page, "a\xEF\xBF\xBD [1mb "));
}

/* U+202E and its like: what follows would read from the right, 0.86 as 68.0. */
static void a_name_cannot_turn_the_numbers_behind_it(void **state) {
    static const char *const turning[] = {"\xE2\x80\xAE", "\xE2\x80\x8F", "\xE2\x81\xA7",
                                          "\xD8\x9C"};
    for (size_t i = 0; i < sizeof turning / sizeof *turning; i++) {
        const Report *report =
            told_everywhere(*state, arena_print(*state, "Hay%s 0.86 %%", turning[i]));
        const char *page = page_of(report, PAGE_REPORT);
        assert_sound(*state, page);
        assert_null(strstr(page, turning[i]));
        assert_non_null(strstr(page, "0.86 %"));
        Text text = text_new(*state);
        present_text(report, (TextStyle){.width = 80}, &text);
        assert_null(strstr(text.bytes, turning[i]));
    }
}

static void the_reader_of_pages_sees_what_a_page_must_not_hold(void **state) {
    static const char *const unsound[] = {
        "<p>no type</p>",
        "<!DOCTYPE html>\n<script>alert(1)</script>",
        "<!DOCTYPE html>\n<p>a < b</p>",
        "<!DOCTYPE html>\n<p>a &nbsp; b</p>",
        "<!DOCTYPE html>\n<p onclick=\"x\">a</p>",
        "<!DOCTYPE html>\n<p class=x>a</p>",
        "<!DOCTYPE html>\n<p><span>a</p></span>",
        "<!DOCTYPE html>\n<p>a",
        "<!DOCTYPE html>\n<a href=\"http://example.org\">a</a>",
        "<!DOCTYPE html>\n<p>\x80</p>"};
    for (size_t i = 0; i < sizeof unsound / sizeof *unsound; i++)
        assert_non_null(html_fault(*state, unsound[i]));
    assert_null(html_fault(*state, "<!DOCTYPE html>\n<p class=\"x\">a &lt; b</p>"));
}

static void the_headline_stands_before_all_sections(void **state) {
    Report *report = report_new(*state, "Winter plan");
    report_headline(report, "Every group is balanced.");
    report_verdict(report, SEVERITY_NOTE, "Every group is balanced. And more.");
    report_fact(report, "cost", "Feed", number_cell(107389, 0), "$", "all winter");
    report_fact(report, "days", "Lasts", number_cell(161, 0), "days", "");
    report_section(report, "rations", "Rations");
    const char *page = page_of(report, PAGE_REPORT);
    assert_sound(*state, page);
    const char *headline = strstr(page, "<p class=\"headline\">Every group is balanced.</p>");
    const char *cost = strstr(page, "<span class=\"figure\">$107,389</span>");
    const char *days = strstr(page, "<span class=\"figure\">161 <small>days</small></span>");
    const char *section = strstr(page, "<h2 id=\"heading-1\">Rations</h2>");
    assert_non_null(headline);
    assert_true(cost > headline && days > cost && section > days);
    assert_null(strstr(page, "And more"));
}

/* What two futures cost, and whether the tests can tell them apart, is the answer. */
static void a_headline_without_figures_beside_it_does_not_hide_the_verdict(void **state) {
    Report *report = report_new(*state, "Futures compared");
    report_headline(report, "'cut later' is the cheapest.");
    report_verdict(report, SEVERITY_NOTE, "'cut later' is the cheapest: $167,459 in all.");
    assert_non_null(strstr(page_of(report, PAGE_REPORT), "$167,459 in all."));
}

static void a_verdict_that_is_not_good_is_told_in_full(void **state) {
    Report *report = report_new(*state, "Winter plan");
    report_headline(report, "The feed does not last.");
    report_verdict(report, SEVERITY_DANGER, "The feed does not last. Cows lack energy.");
    assert_non_null(strstr(page_of(report, PAGE_REPORT), "Cows lack energy."));
}

/* Read twice in a row, it is not read the second time, nor what stands below it. */
static void the_most_serious_danger_is_read_once_and_before_all_sections(void **state) {
    Report *report = report_new(*state, "Winter plan");
    report_foremost(report, SEVERITY_DANGER, "Kept from the bulls. Phone the vet.");
    report_section(report, "short", "What is short");
    report_section(report, "dangers", "Dangers");
    report_remark(report, SEVERITY_DANGER, "nitrate",
                  "Kept from the bulls. Fed to the cows. Phone the vet.", "MB_NITRATE");
    const char *page = page_of(report, PAGE_REPORT);
    assert_sound(*state, page);
    assert_int_equal(times_in(page, "Phone the vet."), 1);
    assert_int_equal(times_in(page, ">Dangers</h2>"), 1);
    assert_true(strstr(page, "Phone the vet.") < strstr(page, "<nav"));
    assert_true(strstr(page, "<nav") < strstr(page, "What is short</h2>"));
}

static void a_caution_that_is_no_danger_stands_in_the_header(void **state) {
    Report *report = report_new(*state, "Winter plan");
    report_foremost(report, SEVERITY_CAUTION, "Watch the straw.");
    report_section(report, "cautions", "Cautions");
    report_remark(report, SEVERITY_CAUTION, "straw", "Watch the straw.", "");
    const char *page = page_of(report, PAGE_REPORT);
    assert_true(strstr(page, "Watch the straw.") < strstr(page, "</header>"));
    assert_int_equal(times_in(page, "Watch the straw."), 2);
}

static void a_number_in_the_first_column_is_never_broken(void **state) {
    static const ReportColumn columns[] = {{"from", "From", "", 1}, {"to", "To", "", 1}};
    Report *report = report_new(*state, "T");
    report_row(report_table(report, "pieces", "", columns, 2),
               (Cell[]){number_cell(201.47, 2), number_cell(205.88, 2)});
    assert_non_null(
        strstr(page_of(report, PAGE_REPORT),
               "<th role=\"rowheader\" scope=\"row\" class=\"number\">201.47</th>"));
}

static void a_chart_in_letters_is_for_pages_that_draw_no_other(void **state) {
    static const ReportColumn columns[] = {{"value", "Price", "", 1}, {"drawn", "", "", 0}};
    Report *report = report_new(*state, "T");
    report_row(report_table_drawn(report, "picture", "Drawn", columns, 2),
               (Cell[]){number_cell(200, 0), text_cell("a...=")});
    assert_null(strstr(page_of(report, PAGE_REPORT), "a...="));
    const CsvFile *files;
    assert_int_equal(present_csv_files(*state, report, &files), 0);
    Text text = text_new(*state);
    present_text(report, (TextStyle){.width = 80}, &text);
    assert_non_null(strstr(text.bytes, "a...="));
}

static void a_caution_says_so_in_a_word_not_in_a_colour(void **state) {
    Report *report = report_new(*state, "T");
    report_remark(report, SEVERITY_DANGER, "nitrate", "Do not feed.", "MB_NITRATE");
    report_remark(report, SEVERITY_NOTE, "source", "A book.", "MB_NITRATE");
    const char *page = page_of(report, PAGE_REPORT);
    assert_non_null(strstr(page, "<span class=\"mark\">Danger</span> Do not feed."));
    assert_non_null(strstr(page, "[<a href=\"#source-MB_NITRATE\">MB_NITRATE</a>]"));
    assert_non_null(strstr(page, "id=\"source-MB_NITRATE\""));
}

static void a_source_that_the_page_does_not_list_leads_nowhere(void **state) {
    Report *report = report_new(*state, "T");
    report_remark(report, SEVERITY_CAUTION, "nitrate", "Do not feed.", "ONE TWO");
    const char *page = page_of(report, PAGE_REPORT);
    assert_non_null(strstr(page, "[ONE TWO]"));
    assert_null(strstr(page, "href=\"#source-"));
}

static void a_chart_carries_its_title_and_words_for_who_cannot_see_it(void **state) {
    Report *report = report_new(*state, "T");
    ReportChart *chart =
        chart_new(*state, CHART_LINES, "left", "Hay ends first",
                  (ChartAxis){AXIS_DAYS, "", "", 0}, (ChartAxis){AXIS_NUMBERS, "", "t", 1});
    chart_alternative(chart, "Hay ends on 24 Jan.");
    ChartSeries *series = chart_series(chart, "Hay");
    chart_point(series, 20000, 60.0);
    chart_point(series, 20060, 0.0);
    report_chart(report, chart);
    const char *page = page_of(report, PAGE_REPORT);
    assert_sound(*state, page);
    assert_int_equal(times_in(page, "role=\"img\""), 2); /* wide and narrow */
    assert_int_equal(times_in(page, ">Hay ends first<"), 3);
    assert_int_equal(times_in(page, ">Hay ends on 24 Jan.</desc>"), 2);
    assert_non_null(strstr(page, "aria-labelledby=\"chart-1-wide-title\""));
}

static void a_table_too_wide_for_a_page_goes_on_below(void **state) {
    enum { COLUMNS = 40 };
    ReportColumn columns[COLUMNS];
    Cell cells[COLUMNS];
    for (int i = 0; i < COLUMNS; i++) {
        columns[i] = (ReportColumn){"day", "Amount", "kg", i > 0};
        cells[i] = i > 0 ? number_cell(1000.0 + i, 0) : text_cell("Hay");
    }
    Report *report = report_new(*state, "T");
    report_row(report_table(report, "wide", "Amounts", columns, COLUMNS), cells);
    const char *page = page_of(report, PAGE_REPORT);
    assert_sound(*state, page);
    assert_non_null(strstr(page, "<caption>Amounts (continued)</caption>"));
    int seen = 0;
    for (const HtmlTable *part = html_tables(*state, page); part; part = part->next) {
        assert_int_equal(part->row_count, 2);
        assert_string_equal(part->cells[part->column_count], "Hay");
        for (int column = 1; column < part->column_count; column++)
            assert_string_equal(part->cells[part->column_count + column],
                                number_words(*state, 1000.0 + ++seen, 0));
    }
    assert_int_equal(seen, COLUMNS - 1);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_stack_named_as_a_script_is_shown_as_its_name),
        UNIT_TEST(text_cannot_leave_an_attribute),
        UNIT_TEST(bytes_that_are_not_text_are_replaced),
        UNIT_TEST(a_name_cannot_turn_the_numbers_behind_it),
        UNIT_TEST(the_reader_of_pages_sees_what_a_page_must_not_hold),
        UNIT_TEST(the_headline_stands_before_all_sections),
        UNIT_TEST(a_headline_without_figures_beside_it_does_not_hide_the_verdict),
        UNIT_TEST(a_verdict_that_is_not_good_is_told_in_full),
        UNIT_TEST(the_most_serious_danger_is_read_once_and_before_all_sections),
        UNIT_TEST(a_caution_that_is_no_danger_stands_in_the_header),
        UNIT_TEST(a_number_in_the_first_column_is_never_broken),
        UNIT_TEST(a_chart_in_letters_is_for_pages_that_draw_no_other),
        UNIT_TEST(a_caution_says_so_in_a_word_not_in_a_colour),
        UNIT_TEST(a_source_that_the_page_does_not_list_leads_nowhere),
        UNIT_TEST(a_chart_carries_its_title_and_words_for_who_cannot_see_it),
        UNIT_TEST(a_table_too_wide_for_a_page_goes_on_below),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
