#include "base/fault.h"

#include "support/unit.h"
#include <string.h>

static void a_place_leaves_out_what_is_not_known(void **state) {
    assert_string_equal(place_text((Place){"herd.csv", 6, 31}, *state), "herd.csv:6:31: ");
    assert_string_equal(place_text((Place){"herd.csv", 6, 0}, *state), "herd.csv:6: ");
    assert_string_equal(place_text((Place){"herd.csv", 0, 0}, *state), "herd.csv: ");
    assert_string_equal(place_text((Place){NULL, 0, 0}, *state), "");
}

static void faults_are_sorted_as_a_reader_mends_them(void **state) {
    Faults faults = faults_new(*state);
    char same_name[] = "stacks.csv"; /* another string of the same content is the same file */
    fault_add(&faults, (Place){"stacks.csv", 9, 2}, "d");
    fault_add(&faults, (Place){"herd.csv", 1, 1}, "f");
    doubt_add(&faults, (Place){same_name, 3, 8}, "c");
    fault_add(&faults, (Place){same_name, 3, 2}, "b");
    fault_add(&faults, (Place){"stacks.csv", 0, 0}, "a");
    fault_add(&faults, (Place){"stacks.csv", 9, 2}, "e");
    assert_int_equal(faults.wrong_count, 5);
    assert_int_equal(faults.doubt_count, 1);
    assert_string_equal(unit_faults(&faults, *state), "stacks.csv: a\n"
                                                      "stacks.csv:3:2: b\n"
                                                      "stacks.csv:3:8: doubt: c\n"
                                                      "stacks.csv:9:2: d\n"
                                                      "stacks.csv:9:2: e\n"
                                                      "herd.csv:1:1: f\n");
}

static void no_faults_are_an_empty_list(void **state) {
    const Faults faults = faults_new(*state);
    assert_string_equal(unit_faults(&faults, *state), "");
}

static void at_most_200_of_a_kind_are_kept_and_one_says_so(void **state) {
    Faults faults = faults_new(*state);
    for (int line = 1; line <= 1000; line++) {
        fault_add(&faults, (Place){"herd.csv", line, 1}, "wrong %d", line);
    }
    doubt_add(&faults, (Place){"herd.csv", 5000, 1}, "strange");
    assert_int_equal(faults.wrong_count, 201);
    assert_int_equal(faults.doubt_count, 1);
    const Fault **const sorted = faults_sorted(&faults, *state);
    assert_string_equal(sorted[199]->text, "wrong 200");
    assert_string_equal(sorted[200]->text, "strange");
    assert_string_equal(sorted[201]->text, "more faults were found: mend these first");
}

static void a_message_is_one_line_whatever_was_echoed(void **state) {
    Faults faults = faults_new(*state);
    const Place place = {"a", 0, 0};
    fault_add(&faults, place, "'%s' is", "two\nlines\ttab\x1B[31m\x7F");
    fault_add(&faults, place, "'%s' is",
              "C1 \xC2\x9B"
              "31m, caf\xC3\xA9");
    fault_add(&faults, place, "'%s' is", "cut \xC3");
    assert_string_equal(unit_faults(&faults, *state), "a: 'two?lines?tab?[31m?' is\n"
                                                      "a: 'C1 ?31m, caf\xC3\xA9' is\n"
                                                      "a: 'cut ?' is\n");
}

static void a_message_has_an_end(void **state) {
    Faults faults = faults_new(*state);
    char *const text = arena_take(*state, 100000, 1);
    memset(text, 'x', 99999);
    fault_add(&faults, (Place){"a", 0, 0}, "%s", text);
    assert_in_range(strlen(faults.first->text), 1000, 5000);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_place_leaves_out_what_is_not_known),
        UNIT_TEST(faults_are_sorted_as_a_reader_mends_them),
        UNIT_TEST(no_faults_are_an_empty_list),
        UNIT_TEST(at_most_200_of_a_kind_are_kept_and_one_says_so),
        UNIT_TEST(a_message_is_one_line_whatever_was_echoed),
        UNIT_TEST(a_message_has_an_end),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
