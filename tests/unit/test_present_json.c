#include "present/present.h"

#include "support/unit.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const char *json_of(const Report *report) {
    Text text = text_new(report->arena);
    present_json(report, &text);
    return text.bytes;
}

static const char *json_of_number(Arena *arena, double number) {
    Report *report = report_new(arena, "");
    figure_number(report->figures, "n", number);
    const char *text = json_of(report);
    const size_t before = strlen("{\n  \"n\": ");
    return arena_copy(arena, text + before, strlen(text) - before - strlen("\n}\n"));
}

static const char *json_of_text(Arena *arena, const char *words) {
    Report *report = report_new(arena, "");
    figure_text(report->figures, "t", words);
    const char *text = json_of(report);
    const size_t before = strlen("{\n  \"t\": ");
    return arena_copy(arena, text + before, strlen(text) - before - strlen("\n}\n"));
}

static void members_stand_one_a_line_two_blanks_deeper(void **state) {
    Report *report = report_new(*state, "not shown");
    Figure *root = report->figures;
    figure_text(root, "verdict", "balanced");
    figure_truth(root, "is_mixed", false);
    figure_nothing(root, "runs_out");
    Figure *group = figure_list_object(figure_list(root, "groups"));
    figure_number(group, "head", 120);
    Figure *days = figure_list(group, "days");
    figure_list_number(days, 30);
    figure_list_number(days, 31.5);
    figure_list(root, "cautions");
    figure_child(root, "cost");
    assert_string_equal(json_of(report), "{\n"
                                         "  \"verdict\": \"balanced\",\n"
                                         "  \"is_mixed\": false,\n"
                                         "  \"runs_out\": null,\n"
                                         "  \"groups\": [\n"
                                         "    {\n"
                                         "      \"head\": 120,\n"
                                         "      \"days\": [\n"
                                         "        30,\n"
                                         "        31.5\n"
                                         "      ]\n"
                                         "    }\n"
                                         "  ],\n"
                                         "  \"cautions\": [],\n"
                                         "  \"cost\": {}\n"
                                         "}\n");
}

static void a_report_without_figures_is_an_empty_object(void **state) {
    assert_string_equal(json_of(report_new(*state, "")), "{}\n");
}

static void numbers_are_short_and_keep_twelve_digits(void **state) {
    assert_string_equal(json_of_number(*state, 0.1), "0.1");
    assert_string_equal(json_of_number(*state, 120), "120");
    assert_string_equal(json_of_number(*state, -1.5), "-1.5");
    assert_string_equal(json_of_number(*state, 1.0 / 3), "0.333333333333");
    assert_string_equal(json_of_number(*state, 123456789012.0), "123456789012");
    assert_string_equal(json_of_number(*state, 1e21), "1e21");
    assert_string_equal(json_of_number(*state, 2.5e-7), "2.5e-7");
    assert_string_equal(json_of_number(*state, 1e-300), "1e-300");
}

static void what_json_has_no_number_for_is_null(void **state) {
    assert_string_equal(json_of_number(*state, NAN), "null");
    assert_string_equal(json_of_number(*state, INFINITY), "null");
    assert_string_equal(json_of_number(*state, -INFINITY), "null");
}

static void minus_zero_is_zero(void **state) {
    assert_string_equal(json_of_number(*state, -0.0), "0");
}

static void a_number_is_read_back_to_twelve_digits(void **state) {
    (void)state;
    Arena *arena = arena_open();
    for (double number = 1.2345678901234e-30; number < 1e30; number *= -37.77) {
        const double back = strtod(json_of_number(arena, number), NULL);
        assert_true(fabs(back - number) <= 5e-12 * fabs(number));
        if (number < 0 && -number * 37.77 >= 1e30)
            break;
    }
    arena_close(arena);
}

static void quotes_backslashes_and_control_characters_are_escaped(void **state) {
    assert_string_equal(json_of_text(*state, "a\"b\\c/"), "\"a\\\"b\\\\c/\"");
    assert_string_equal(json_of_text(*state, "\b\f\n\r\t"), "\"\\b\\f\\n\\r\\t\"");
    assert_string_equal(json_of_text(*state, "\x01\x1F\x7F"), "\"\\u0001\\u001f\\u007f\"");
    /* U+0080 and U+009F, the first and last of the second set of control characters */
    assert_string_equal(json_of_text(*state, "\xC2\x80\xC2\x9F"), "\"\\u0080\\u009f\"");
}

static void every_control_character_of_one_byte_is_escaped(void **state) {
    (void)state;
    Arena *arena = arena_open();
    for (int letter = 1; letter < 0x20; letter++) {
        const char words[] = {(char)letter, '\0'};
        const char *text = json_of_text(arena, words);
        assert_int_equal(text[0], '"');
        assert_int_equal(text[1], '\\');
        assert_null(strchr(text, letter));
    }
    arena_close(arena);
}

static void letters_beyond_ascii_stay_as_they_are(void **state) {
    assert_string_equal(json_of_text(*state, "caf\xC3\xA9 \xE2\x82\xAC \xF0\x9F\x90\x84"),
                        "\"caf\xC3\xA9 \xE2\x82\xAC \xF0\x9F\x90\x84\"");
}

static void bytes_that_are_not_utf8_are_replaced_one_by_one(void **state) {
    assert_string_equal(json_of_text(*state, "a\xFF"
                                             "b\xC3"),
                        "\"a\xEF\xBF\xBD"
                        "b\xEF\xBF\xBD\"");
    assert_string_equal(json_of_text(*state, "\x80\x80"), "\"\xEF\xBF\xBD\xEF\xBF\xBD\"");
}

static void a_key_is_escaped_like_any_text(void **state) {
    Report *report = report_new(*state, "");
    figure_number(report->figures, "a\"b", 1);
    assert_string_equal(json_of(report), "{\n  \"a\\\"b\": 1\n}\n");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(members_stand_one_a_line_two_blanks_deeper),
        UNIT_TEST(a_report_without_figures_is_an_empty_object),
        UNIT_TEST(numbers_are_short_and_keep_twelve_digits),
        UNIT_TEST(what_json_has_no_number_for_is_null),
        UNIT_TEST(minus_zero_is_zero),
        UNIT_TEST(a_number_is_read_back_to_twelve_digits),
        UNIT_TEST(quotes_backslashes_and_control_characters_are_escaped),
        UNIT_TEST(every_control_character_of_one_byte_is_escaped),
        UNIT_TEST(letters_beyond_ascii_stay_as_they_are),
        UNIT_TEST(bytes_that_are_not_utf8_are_replaced_one_by_one),
        UNIT_TEST(a_key_is_escaped_like_any_text),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
