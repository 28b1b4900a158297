#include "base/text.h"

#include "support/unit.h"
#include <string.h>

static void new_text_is_empty_and_not_null(void **state) {
    const Text text = text_new(*state);
    assert_string_equal(text.bytes, "");
    assert_int_equal(text.length, 0);
}

static void text_grows_as_it_is_added_to(void **state) {
    Text text = text_new(*state);
    for (int i = 0; i < 1000; i++) {
        text_add(&text, "hay ");
        text_print(&text, "%d,", i % 10);
        text_add_bytes(&text, "kgx", 2);
    }
    assert_int_equal(text.length, 1000 * strlen("hay 0,kg"));
    assert_int_equal(strlen(text.bytes), text.length);
    assert_memory_equal(text.bytes + 8 * 999, "hay 9,kg", 9);
}

static void text_of_any_length_keeps_its_end(void **state) {
    for (size_t length = 0; length < 200; length++) {
        Text text = text_new(*state);
        for (size_t i = 0; i < length; i++)
            text_add_bytes(&text, "x", 1);
        text_print(&text, "%s", "");
        assert_int_equal(strlen(text.bytes), length);
    }
}

static void columns_are_characters_not_bytes(void **state) {
    (void)state;
    assert_int_equal(text_columns(""), 0);
    assert_int_equal(text_columns("hay"), 3);
    assert_int_equal(text_columns("\xC3\xA9t\xC3\xA9"), 3);            /* e acute, t, e acute */
    assert_int_equal(text_columns("\xE2\x82\xAC\xF0\x9F\x90\x84"), 2); /* euro sign, cow */
}

static long bad_at(const char *bytes) { return text_first_bad_utf8(bytes, strlen(bytes)); }

/* The well-formed sequences are those of The Unicode Standard, table 3-7. */
static void the_edges_of_utf8_are_good(void **state) {
    (void)state;
    assert_int_equal(bad_at(""), -1);
    assert_int_equal(bad_at("\x7F\xC2\x80\xDF\xBF"), -1);
    assert_int_equal(bad_at("\xE0\xA0\x80\xED\x9F\xBF\xEE\x80\x80\xEF\xBF\xBF"), -1);
    assert_int_equal(bad_at("\xF0\x90\x80\x80\xF4\x8F\xBF\xBF"), -1);
}

static void what_is_past_the_edges_is_bad(void **state) {
    (void)state;
    assert_int_equal(bad_at("caf\xE9 au lait"), 3);  /* Latin-1 */
    assert_int_equal(bad_at("\x80"), 0);             /* a continuation alone */
    assert_int_equal(bad_at("a\xC0\xAF"), 1);        /* overlong */
    assert_int_equal(bad_at("a\xC1\xBF"), 1);        /* overlong */
    assert_int_equal(bad_at("\xE0\x9F\xBF"), 0);     /* overlong */
    assert_int_equal(bad_at("\xF0\x8F\xBF\xBF"), 0); /* overlong */
    assert_int_equal(bad_at("\xED\xA0\x80"), 0);     /* surrogate */
    assert_int_equal(bad_at("\xF4\x90\x80\x80"), 0); /* past U+10FFFF */
    assert_int_equal(bad_at("\xF5\x80\x80\x80"), 0); /* never a first byte */
    assert_int_equal(bad_at("ab\xE2\x82"), 2);       /* cut off */
    assert_int_equal(bad_at("ab\xE2\x82"
                            "c"),
                     2); /* broken off */
    assert_int_equal(bad_at("\xF0\x9F\x90"
                            "c"),
                     0); /* broken off */
}

static void same_letters_disregard_case_only(void **state) {
    (void)state;
    assert_true(text_same("cow", "cow"));
    assert_false(text_same("cow", "Cow"));
    assert_true(text_same_letters("Bred Heifer", "bRED hEIFER"));
    assert_false(text_same_letters("cow", "cows"));
    assert_false(text_same_letters("cows", "cow"));
    assert_true(text_same_letters("", ""));
    assert_false(text_same_letters("@", "`")); /* 0x40 and 0x60 are not letters */
}

static const char *const HEADINGS[] = {"weight_kg", "weight_lb", "head", "group", "class"};

static const char *nearest(const char *name) { return text_nearest(name, HEADINGS, 5); }

static void the_nearest_name_is_suggested(void **state) {
    (void)state;
    assert_string_equal(nearest("wieght_kg"), "weight_kg"); /* swapped */
    assert_string_equal(nearest("weigt_lb"), "weight_lb");  /* one left out */
    assert_string_equal(nearest("Weightt_KG"), "weight_kg");
    assert_string_equal(nearest("grop"), "group");
    assert_string_equal(nearest("hed"), "head");
    assert_string_equal(nearest("class"), "class");
}

static void nothing_is_suggested_when_more_than_a_third_differs(void **state) {
    (void)state;
    assert_null(nearest("zebra"));
    assert_null(nearest(""));
    assert_null(nearest("groxx1")); /* 3 of 6 */
    assert_null(
        nearest("a name longer than anything that could be a heading in any of the files"));
    assert_null(text_nearest("head", HEADINGS, 0));
}

static void an_excerpt_is_short_and_printable(void **state) {
    assert_string_equal(text_excerpt(*state, "east slough"), "east slough");
    assert_string_equal(text_excerpt(*state, "a\tb\nc"), "a?b?c");
    char long_text[2 * 61 + 1] = "";
    for (int i = 0; i < 61; i++)
        strcat(long_text, "\xC3\xA9");
    const char *const excerpt = text_excerpt(*state, long_text);
    assert_int_equal(text_columns(excerpt), 60 + 3);
    assert_string_equal(excerpt + 2 * 60, "...");
    long_text[2 * 60] = '\0';
    assert_string_equal(text_excerpt(*state, long_text), long_text);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(new_text_is_empty_and_not_null),
        UNIT_TEST(text_grows_as_it_is_added_to),
        UNIT_TEST(text_of_any_length_keeps_its_end),
        cmocka_unit_test(columns_are_characters_not_bytes),
        cmocka_unit_test(the_edges_of_utf8_are_good),
        cmocka_unit_test(what_is_past_the_edges_is_bad),
        cmocka_unit_test(same_letters_disregard_case_only),
        cmocka_unit_test(the_nearest_name_is_suggested),
        cmocka_unit_test(nothing_is_suggested_when_more_than_a_third_differs),
        UNIT_TEST(an_excerpt_is_short_and_printable),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
