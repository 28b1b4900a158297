#include "base/choice.h"

#include "support/unit.h"

#define COUNT(array) ((int)(sizeof(array) / sizeof((array)[0])))

static const char *const CLASSES[] = {"cow",   "bred heifer",   "replacement heifer",
                                      "steer", "feeder heifer", "bull calf"};
static const char *const FEEDS[] = {"barley_straw", "barley_silage",    "alfalfa_hay_early",
                                    "brome_hay",    "alfalfa_hay_late", "mineral_2:1",
                                    "slough_hay",   "timothy_hay",      "grass_hay_average",
                                    "millet_hay"};
static const char *const WAYS[] = {"bunk", "open ring", "sheeted ring", "cone feeder",
                                   "no feeder"};
static const char *const BASES[] = {"as fed", "dry matter"};

static void assert_guess(Arena *arena, const char *written, const char *const *choices,
                         int count, const char *expected) {
    const char *const guess = choice_guess(arena, written, choices, count);
    assert_string_equal(guess ? guess : "nothing", expected);
}

static void a_plural_is_the_same_word(void **state) {
    (void)state;
    assert_int_equal(choice_find("Cows", CLASSES, COUNT(CLASSES)), 0);
    assert_int_equal(choice_find("bred-heifers", CLASSES, COUNT(CLASSES)), 1);
    assert_int_equal(choice_find("bull calves", CLASSES, COUNT(CLASSES)), 5);
    assert_int_equal(choice_find("s", CLASSES, COUNT(CLASSES)), -1);
    assert_int_equal(choice_find("heifers", CLASSES, COUNT(CLASSES)), -1);
}

static void words_that_plainly_say_the_same_are_read(void **state) {
    static const char *const AS_FED[] = {"AF", "as received", "as-is", "As Fed"};
    static const char *const DRY[] = {"DM", "dry", "Dry basis", "dry matter"};
    (void)state;
    for (int i = 0; i < 4; i++) {
        assert_int_equal(choice_find(AS_FED[i], BASES, 2), 0);
        assert_int_equal(choice_find(DRY[i], BASES, 2), 1);
    }
    assert_int_equal(choice_find("DM", CLASSES, COUNT(CLASSES)), -1); /* no choice there */
}

static void a_part_of_several_choices_names_them_all_up_to_six(void **state) {
    assert_guess(*state, "alfalfa", FEEDS, COUNT(FEEDS),
                 "is it 'alfalfa_hay_early' or 'alfalfa_hay_late'?");
    assert_guess(*state, "Straw", FEEDS, COUNT(FEEDS), "did you mean 'barley_straw'?");
    assert_guess(*state, "mineral", FEEDS, COUNT(FEEDS), "did you mean 'mineral_2:1'?");
    assert_guess(*state, "heifers", CLASSES, COUNT(CLASSES),
                 "is it 'bred heifer', 'replacement heifer' or 'feeder heifer'?");
    assert_guess(*state, "hay", FEEDS, COUNT(FEEDS),
                 "is it 'alfalfa_hay_early', 'brome_hay', 'alfalfa_hay_late', 'slough_hay', "
                 "'timothy_hay', 'grass_hay_average' or another of the 7 like it?");
}

static void a_slip_of_the_pen_names_the_nearest(void **state) {
    assert_guess(*state, "barly straw", FEEDS, COUNT(FEEDS), "did you mean 'barley_straw'?");
    assert_guess(*state, "xyzzy", FEEDS, COUNT(FEEDS), "nothing");
    assert_guess(*state, "", FEEDS, COUNT(FEEDS), "nothing");
}

/* By spelling alone "ring feeder" would be a cone feeder. */
static void another_word_goes_before_the_nearest_spelling(void **state) {
    assert_guess(*state, "ring feeder", WAYS, COUNT(WAYS),
                 "is it 'open ring' or 'sheeted ring'?");
}

static void words_in_common_are_a_guess_when_few_choices_have_them(void **state) {
    static const char *const STACKS[] = {"Silage pit", "Home quarter hay"};
    assert_guess(*state, "Pit", STACKS, 2, "did you mean 'Silage pit'?");
    assert_guess(*state, "Pit behind the barn", STACKS, 2, "did you mean 'Silage pit'?");
    assert_guess(*state, "alfalfa hay, second cut", FEEDS, COUNT(FEEDS),
                 "is it 'alfalfa_hay_early' or 'alfalfa_hay_late'?");
    assert_guess(*state, "prairie hay", FEEDS, COUNT(FEEDS), "nothing");
}

static void a_text_longer_than_any_name_is_like_nothing(void **state) {
    char text[4001];
    for (int i = 0; i < 4000; i++)
        text[i] = "hay "[i % 4];
    text[4000] = '\0';
    assert_guess(*state, text, FEEDS, COUNT(FEEDS), "nothing");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_plural_is_the_same_word),
        UNIT_TEST(words_that_plainly_say_the_same_are_read),
        UNIT_TEST(a_part_of_several_choices_names_them_all_up_to_six),
        UNIT_TEST(a_slip_of_the_pen_names_the_nearest),
        UNIT_TEST(another_word_goes_before_the_nearest_spelling),
        UNIT_TEST(words_in_common_are_a_guess_when_few_choices_have_them),
        UNIT_TEST(a_text_longer_than_any_name_is_like_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
