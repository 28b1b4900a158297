/* What is said of nitrate suits how each group is fed. The winters are those of
 * support/hand_question.h. */
#include "support/told_report.h"
#include "support/unit.h"
#include <string.h>

/* Both groups live on one greenfeed at 0.40 %, past the caution line of 0.30. */
static HandQuestion *two_groups(Arena *arena, Delivery cows, Delivery bulls) {
    HandQuestion *hand = hand_november(arena);
    hand_offer(hand, "Greenfeed", 0.10)->eaten[NUTRIENT_NITRATE] = 0.40;
    hand->stuffs[0].nitrate_for_safety = 0.40;
    hand_group(hand, "Cows", 10, 12.0, 30);
    hand_group(hand, "Bulls", 10, 12.0, 30);
    hand->groups[0].delivery = cows;
    hand->groups[1].delivery = bulls;
    hand_nitrate_limit(hand, 0.5);
    SafetyLimit *alone = hand_nitrate_limit(hand, 0.5);
    alone->id = "nitrate_feed";
    alone->kind = LIMIT_EACH_FEED;
    return hand;
}

static void cattle_that_are_not_fed_mixed_are_not_told_to_have_nitrate_mixed(void **state) {
    const HandQuestion *hand = two_groups(*state, DELIVERY_FREE_CHOICE, DELIVERY_LAYERED);
    assert_null(hand_caution(*state, hand, "nitrate", ""));
    const Caution *diet = hand_caution(*state, hand, "nitrate not mixed", "of the whole diet");
    assert_non_null(diet);
    assert_int_equal(diet->severity, SEVERITY_DANGER);
    assert_non_null(strstr(diet->advice, "Fill them on the other feed first"));
    assert_null(strstr(diet->advice, "mixed"));
    assert_non_null(hand_caution(*state, hand, "nitrate not mixed", "Greenfeed, reckoned at"));
    assert_false(report_says(hand_report(*state, hand), "fully mixed"));
}

/* 0.40 % is past 0.30 of the line on each feed; both groups are given it. */
static void a_feed_past_its_own_caution_line_says_which_and_for_whom(void **state) {
    const HandQuestion *hand = two_groups(*state, DELIVERY_MIXED, DELIVERY_MIXED);
    assert_non_null(
        hand_caution(*state, hand, "nitrate",
                     "for all groups that is past the caution line of any one feed, "
                     "0.30 % (limit 0.50 %)"));
}

/* 0.3 of 1.0 %, then 0.5: the day told was that of the most, as if none were fed before. */
static void a_hot_feed_is_told_from_the_first_day_it_is_fed(void **state) {
    HandQuestion *hand = hand_november(*state);
    hand_offer(hand, "Greenfeed", 0.05)->eaten[NUTRIENT_NITRATE] = 1.0;
    hand->stuffs[0].nitrate_for_safety = 1.0;
    hand_offer(hand, "Hay", 0.10);
    hand_group(hand, "Cows", 10, 12.0, 15);
    hand_period(hand, 12.0, 15)->need.stages = STAGE_BIT(STAGE_LATE);
    hand_nitrate_limit(hand, 0.3)->stages = STAGE_BIT(STAGE_OPEN);
    hand->blocks[0].need.stages = STAGE_BIT(STAGE_OPEN);
    hand_nitrate_limit(hand, 0.5)->stages = STAGE_BIT(STAGE_LATE);
    assert_non_null(hand_caution(*state, hand, "nitrate",
                                 "Greenfeed, reckoned at 1.00 % NO3, is fed from 1 Nov on to "
                                 "Cows, up to 50 % of the diet (from 16 Nov)"));
}

/* Greenfeed at 0.7 % is held to half of a diet, with a caution for any of it. */
static void feeds_above_a_line_together_are_told_of_past_their_caution(void **state) {
    HandQuestion *hand = hand_november(*state);
    hand_offer(hand, "Greenfeed", 0.05)->eaten[NUTRIENT_NITRATE] = 0.7;
    hand->stuffs[0].nitrate_for_safety = 0.7;
    hand_offer(hand, "Hay", 0.10);
    hand_group(hand, "Cows", 10, 12.0, 30);
    SafetyLimit *together = hand_nitrate_limit(hand, 0.5);
    together->id = "nitrate_share";
    together->label = "Feeds above 0.664 % nitrate together";
    together->kind = LIMIT_SHARE_ABOVE;
    together->above = 0.664;
    together->warn = 0.0;
    assert_non_null(
        hand_caution(*state, hand, "nitrate",
                     "Cows: Feeds above 0.664 % nitrate together, 50 % of DM at the "
                     "worst, from 1 Nov (caution for any of it, limit 50 % of DM)"));
}

/* 0.20 % of sulfur from the book and 0.30 % tested, half of each, are 0.25 %; the water, which
 * nobody tested, adds 1,000 x 4 x 0.33376 / 10,000 = 0.1335 %: 0.2335 of 0.3835 is 61 %. */
static void a_figure_past_its_line_says_how_much_of_it_no_test_found(void **state) {
    HandQuestion *hand = hand_november(*state);
    hand_offer(hand, "Greenfeed", 0.10)->eaten[NUTRIENT_SULFUR] = 0.20;
    hand_offer(hand, "Hay", 0.10)->eaten[NUTRIENT_SULFUR] = 0.30;
    hand->stuffs[0].analysis.of[NUTRIENT_SULFUR] = (Reading){0.20, FROM_BOOK, SOURCE_NONE};
    hand->stuffs[1].analysis.of[NUTRIENT_SULFUR] =
        (Reading){0.30, FROM_LABORATORY, SOURCE_NONE};
    hand->feeds[0].available_kg = hand->feeds[1].available_kg = 1500.0;
    hand_group(hand, "Cows", 10, 12.0, 30);
    hand_nutrient_limit(hand, "sulfur_total", NUTRIENT_SULFUR, 0.3, 0.5);
    hand->farm.winter.water_sulfate_mg_per_l = 1000.0;
    hand->farm.winter.sulfate_is_assumed = true;
    assert_non_null(hand_caution(*state, hand, "sulfur", ", 61 % of it not from a test, from"));
    hand->stuffs[0].analysis.of[NUTRIENT_SULFUR].origin = FROM_LABORATORY;
    hand->farm.winter.sulfate_is_assumed = false;
    assert_null(hand_caution(*state, hand, "sulfur", "not from a test"));
}

/* Where the cautions say nothing of it, the list of what is not known does. */
static void feeds_held_to_sulfur_by_the_book_are_named_as_such(void **state) {
    HandQuestion *hand = hand_november(*state);
    hand_offer(hand, "Greenfeed", 0.10)->eaten[NUTRIENT_SULFUR] = 0.20;
    hand->stuffs[0].analysis.of[NUTRIENT_SULFUR] = (Reading){0.20, FROM_BOOK, SOURCE_NONE};
    hand_group(hand, "Cows", 10, 12.0, 30);
    const char *words =
        "Sulfur is the book's and not a test's, and rations are held to it, of: Greenfeed.";
    assert_true(report_says(hand_report(*state, hand), words));
    hand->stuffs[0].analysis.of[NUTRIENT_SULFUR].origin = FROM_LABORATORY;
    assert_false(report_says(hand_report(*state, hand), words));
}

static void each_group_is_told_what_suits_its_feeding(void **state) {
    const HandQuestion *hand = two_groups(*state, DELIVERY_MIXED, DELIVERY_FREE_CHOICE);
    const Caution *mixed = hand_caution(*state, hand, "nitrate", "of the whole diet");
    const Caution *picked =
        hand_caution(*state, hand, "nitrate not mixed", "of the whole diet");
    assert_non_null(mixed);
    assert_non_null(picked);
    assert_int_equal(strncmp(mixed->fact, "Cows: ", 6), 0);
    assert_int_equal(strncmp(picked->fact, "Bulls: ", 7), 0);
    assert_non_null(strstr(mixed->advice, "fully mixed"));
    assert_non_null(hand_caution(*state, hand, "nitrate", "is fed to Cows"));
    assert_non_null(hand_caution(*state, hand, "nitrate not mixed", "is fed to Bulls"));
}

static void feed_that_is_brought_in_unmixed_is_not_to_be_brought_in_mixed(void **state) {
    const char *by_quarters = "comes in by quarters, four days each, ";
    HandQuestion *hand = two_groups(*state, DELIVERY_MIXED, DELIVERY_MIXED);
    hand_offer(hand, "Hay", 0.30); /* stands in for what is held back */
    assert_true(report_says(hand_report(*state, hand),
                            arena_print(*state, "%s%s", by_quarters, "fully mixed, in two")));
    hand->groups[1].delivery = DELIVERY_FREE_CHOICE;
    assert_true(report_says(
        hand_report(*state, hand),
        arena_print(*state, "%s%s", by_quarters,
                    "fully mixed, or after other feed where it is not mixed, in two")));
    hand->groups[0].delivery = DELIVERY_FREE_CHOICE;
    assert_true(
        report_says(hand_report(*state, hand),
                    arena_print(*state, "%s%s", by_quarters, "after other feed, in two")));
}

/* 0.402 over 0.400 % was "reckoned at 0.40 %" where "the most is 0.40 %". */
static void a_feed_a_hair_over_its_line_is_not_told_as_on_it(void **state) {
    HandQuestion *hand = hand_november(*state);
    hand_own(hand, "Greenfeed", 0.10, 1000.0);
    hand->stuffs[0].nitrate_for_safety = 0.402;
    hand_offer(hand, "Hay", 0.20);
    hand_group(hand, "Cows", 10, 12.0, 30);
    const SafetyLimit *limit = hand_nitrate_limit(hand, 0.4);
    hand->farm.limits.count = 0;
    hand_bar(hand, 0, 0, limit);
    assert_non_null(hand_caution(*state, hand, "nitrate",
                                 "it is reckoned at 0.402 % NO3 and the most for them in any "
                                 "one feed is 0.400 %"));
}

/* 0.48 % is below 0.50, and 100 mg/L at 4 L a kg bring 0.04 more. */
static void a_feed_kept_back_for_what_the_water_adds_is_said_to_be(void **state) {
    HandQuestion *hand = hand_november(*state);
    hand_own(hand, "Greenfeed", 0.10, 1000.0);
    hand->stuffs[0].nitrate_for_safety = 0.48;
    hand_offer(hand, "Hay", 0.20);
    hand_group(hand, "Cows", 10, 12.0, 30);
    hand->farm.winter.water_nitrate_mg_per_l = 100.0;
    const SafetyLimit *limit = hand_nitrate_limit(hand, 0.5);
    hand->farm.limits.count = 0;
    hand_bar(hand, 0, 0, limit);
    assert_non_null(
        hand_caution(*state, hand, "nitrate",
                     "it is reckoned at 0.48 % NO3, the water adds 0.040 %, and the "
                     "most for them in any one feed is 0.50 %"));
    hand->stuffs[0].nitrate_is_assumed = true; /* untested straw is not a crop to be feared */
    assert_non_null(hand_caution(*state, hand, "untested",
                                 "it has no nitrate test and is reckoned at 0.48 % NO3, the "
                                 "water adds 0.040 %"));
}

/* Each group was once told the line of whoever came last: cows that 0.66 % is the most, which
 * is for calves. */
static void each_group_a_feed_is_kept_from_is_told_its_own_line(void **state) {
    HandQuestion *hand = two_groups(*state, DELIVERY_MIXED, DELIVERY_MIXED);
    hand->stuffs[0].nitrate_for_safety = 0.93;
    hand_offer(hand, "Hay", 0.20);
    SafetyLimit *cows = hand_nitrate_limit(hand, 0.885);
    SafetyLimit *bulls = hand_nitrate_limit(hand, 0.664);
    hand->farm.limits.count = 0;
    hand_bar(hand, 0, 0, cows);
    assert_non_null(hand_caution(*state, hand, "nitrate",
                                 "Greenfeed, for sale, is kept from Cows all winter: it is "
                                 "reckoned at 0.93 % NO3 and the most for them in any one feed "
                                 "is 0.89 %"));
    assert_null(hand_caution(*state, hand, "nitrate", "kept from Cows; Bulls"));
    hand_bar(hand, 1, 0, bulls);
    assert_non_null(hand_caution(*state, hand, "nitrate", "is kept from Cows all winter"));
    assert_non_null(hand_caution(*state, hand, "nitrate",
                                 "is kept from Bulls all winter: it is reckoned at 0.93 % NO3 "
                                 "and the most for them in any one feed is 0.66 %"));
    hand_bar(hand, 1, 0, cows);
    assert_non_null(
        hand_caution(*state, hand, "nitrate", "is kept from all groups all winter"));
}

/* Tested low in nitrate it would have been barred again, for what nobody had named. */
static void untested_sweet_clover_kept_out_for_nitrate_wants_both_tests(void **state) {
    HandQuestion *hand = hand_november(*state);
    hand_offer(hand, "Clover", 0.10);
    hand->stuffs[0].nitrate_for_safety = 2.0;
    hand->stuffs[0].nitrate_is_assumed = true;
    hand->stuffs[0].watch = WATCH_BIT(WATCH_SWEET_CLOVER);
    hand_offer(hand, "Hay", 0.20);
    hand_group(hand, "Cows", 10, 12.0, 30);
    hand_bar(hand, 0, 0, hand_nitrate_limit(hand, 0.5));
    assert_non_null(hand_caution(*state, hand, "untested", "no test of dicoumarol either"));
}

/* Greenfeed at half the price of hay was left out and nobody told why. */
static void a_feed_for_sale_that_nobody_may_have_is_said_to_be_left_out(void **state) {
    HandQuestion *hand = hand_november(*state);
    hand_offer(hand, "Greenfeed", 0.10);
    hand->stuffs[0].nitrate_for_safety = 2.0;
    hand->stuffs[0].nitrate_is_assumed = true;
    hand_offer(hand, "Hay", 0.20);
    hand_group(hand, "Cows", 10, 12.0, 30);
    const SafetyLimit *limit = hand_nitrate_limit(hand, 0.5);
    hand->farm.limits.count = 0;
    hand_bar(hand, 0, 0, limit);
    const Caution *caution = hand_caution(*state, hand, "untested",
                                          "Greenfeed, for sale, is kept from Cows all winter");
    assert_non_null(caution);
    assert_int_equal(caution->severity, SEVERITY_CAUTION); /* it is in nobody's yard */
}

/* 0.29 % alone passes no line, with 0.04 of the water it does. */
static void the_water_counts_toward_the_caution_line_of_each_feed(void **state) {
    HandQuestion *hand = two_groups(*state, DELIVERY_FREE_CHOICE, DELIVERY_FREE_CHOICE);
    hand->feeds[0].eaten[NUTRIENT_NITRATE] = 0.29;
    assert_null(hand_caution(*state, hand, "nitrate not mixed", "Greenfeed, reckoned at"));
    hand->farm.winter.water_nitrate_mg_per_l = 100.0;
    assert_non_null(hand_caution(*state, hand, "nitrate not mixed", "Greenfeed, reckoned at"));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(cattle_that_are_not_fed_mixed_are_not_told_to_have_nitrate_mixed),
        UNIT_TEST(a_feed_past_its_own_caution_line_says_which_and_for_whom),
        UNIT_TEST(a_hot_feed_is_told_from_the_first_day_it_is_fed),
        UNIT_TEST(feeds_above_a_line_together_are_told_of_past_their_caution),
        UNIT_TEST(a_figure_past_its_line_says_how_much_of_it_no_test_found),
        UNIT_TEST(feeds_held_to_sulfur_by_the_book_are_named_as_such),
        UNIT_TEST(each_group_is_told_what_suits_its_feeding),
        UNIT_TEST(feed_that_is_brought_in_unmixed_is_not_to_be_brought_in_mixed),
        UNIT_TEST(a_feed_a_hair_over_its_line_is_not_told_as_on_it),
        UNIT_TEST(a_feed_kept_back_for_what_the_water_adds_is_said_to_be),
        UNIT_TEST(the_water_counts_toward_the_caution_line_of_each_feed),
        UNIT_TEST(each_group_a_feed_is_kept_from_is_told_its_own_line),
        UNIT_TEST(untested_sweet_clover_kept_out_for_nitrate_wants_both_tests),
        UNIT_TEST(a_feed_for_sale_that_nobody_may_have_is_said_to_be_left_out),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
