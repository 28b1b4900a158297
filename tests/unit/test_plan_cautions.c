/* Words of care that no limit calls for. The winters are those of support/hand_question.h. */
#include "outcome/plan_cautions.h"
#include "support/told_report.h"
#include "support/unit.h"

/* Two periods; in the second the first hay may not be fed any more. */
static HandQuestion *changing(Arena *arena, FeedClass of_first) {
    HandQuestion *hand = hand_november(arena);
    hand_offer(hand, "Old hay", 0.05);
    hand_offer(hand, "New hay", 0.10);
    hand->stuffs[0].feed_class = of_first;
    hand_group(hand, "Cows", 10, 12.0, 15);
    hand_period(hand, 12.0, 15);
    hand_not_then(hand, 1, 0);
    return hand;
}

static void forage_that_changes_overnight_is_told_with_its_day(void **state) {
    const HandQuestion *hand = changing(*state, FEED_CLASS_GRASS);
    assert_true(report_says(hand_report(*state, hand),
                            "More than half of a ration is other forage than the day before: "
                            "Cows on 16 Nov (100 %)"));
}

/* A third hay in the third period: it changes twice. */
static void forage_that_changes_twice_is_told_with_both_days(void **state) {
    HandQuestion *hand = changing(*state, FEED_CLASS_GRASS);
    hand_offer(hand, "Last hay", 0.15);
    hand_period(hand, 12.0, 1);
    const int feeds = hand->question.feed_count;
    for (int b = 0; b < 3; b++) {
        for (int f = 0; f < feeds; f++)
            hand->permission[b * feeds + f] = f == b ? MAY_BE_FED : NOT_AT_THAT_TIME;
    }
    hand->farm.winter.last_day = hand->blocks[2].to;
    assert_true(report_says(hand_report(*state, hand),
                            "than the day before: Cows on 16 Nov (100 %) and 1 Dec (100 %)"));
}

static void forage_that_stays_is_not_told_to_change(void **state) {
    HandQuestion *hand = changing(*state, FEED_CLASS_GRASS);
    hand->permission[2] = MAY_BE_FED;
    assert_false(report_says(hand_report(*state, hand), "other forage than the day before"));
}

/* 10 kg of either, as much of the stack again as 0.81 kg of it are eaten; where the new one
 * stays a forage nothing is said of grain. */
static void grain_that_takes_the_place_of_other_grain_is_told_with_its_day(void **state) {
    HandQuestion *hand = changing(*state, FEED_CLASS_GRAIN);
    assert_false(report_says(hand_report(*state, hand), "place of other grain"));
    hand->stuffs[1].feed_class = FEED_CLASS_GRAIN;
    assert_true(
        report_says(hand_report(*state, hand),
                    "Grain takes the place of other grain: Cows on 16 Nov (12.3 kg a head)"));
    hand->permission[2] = MAY_BE_FED;
    assert_false(report_says(hand_report(*state, hand), "place of other grain"));
}

static void cattle_that_join_others_at_grain_are_told_of(void **state) {
    HandQuestion *hand = changing(*state, FEED_CLASS_GRASS);
    hand->stuffs[1].feed_class = FEED_CLASS_GRAIN;
    assert_false(report_says(hand_report(*state, hand), "Those that come are not used"));
    hand->blocks[1].head = 12.0;
    assert_true(report_says(hand_report(*state, hand),
                            "Cows are 12 from 16 Nov, where they were 10, and have grain"));
    hand->stuffs[1].feed_class = FEED_CLASS_GRASS;
    assert_false(report_says(hand_report(*state, hand), "Those that come are not used"));
}

/* 10 kg of either. */
static void much_straw_is_told_of_and_little_is_not(void **state) {
    const HandQuestion *straw = changing(*state, FEED_CLASS_STRAW);
    assert_true(report_says(hand_report(*state, straw),
                            "Straw is 100 % of what Cows eat from 1 Nov, the most of any"));
    const HandQuestion *hay = changing(*state, FEED_CLASS_GRASS);
    assert_false(report_says(hand_report(*state, hay), "Straw is"));
}

/* Above 45 % ADF and below 8 % of protein [STRAW_IMPACTION]; in the second period other hay. */
static void coarse_feed_with_little_protein_is_told_to_block_the_rumen(void **state) {
    HandQuestion *hand = changing(*state, FEED_CLASS_STRAW);
    hand->feeds[0].eaten[NUTRIENT_ADF] = 48.0;
    hand->feeds[0].eaten[NUTRIENT_CRUDE_PROTEIN] = 6.0;
    assert_true(report_says(hand_report(*state, hand),
                            "Cows: coarse feed with little protein can block the rumen, 48 % "
                            "ADF with 6.0 % crude protein at the worst, from 1 Nov"));
    hand->feeds[0].eaten[NUTRIENT_CRUDE_PROTEIN] = 8.1;
    assert_false(report_says(hand_report(*state, hand), "can block the rumen"));
    hand->feeds[0].eaten[NUTRIENT_CRUDE_PROTEIN] = 6.0;
    hand->feeds[0].eaten[NUTRIENT_ADF] = 44.0;
    assert_false(report_says(hand_report(*state, hand), "can block the rumen"));
}

/* A water nobody tested is not a water without salt. */
static void water_of_no_test_of_its_salt_is_told_to_count_as_none(void **state) {
    HandQuestion *hand = changing(*state, FEED_CLASS_GRASS);
    const char *words = "no test of dissolved solids or sodium";
    assert_true(report_says(hand_report(*state, hand), words));
    hand->farm.winter.sodium_is_known = true;
    assert_false(report_says(hand_report(*state, hand), words));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(water_of_no_test_of_its_salt_is_told_to_count_as_none),
        UNIT_TEST(coarse_feed_with_little_protein_is_told_to_block_the_rumen),
        UNIT_TEST(forage_that_changes_overnight_is_told_with_its_day),
        UNIT_TEST(forage_that_changes_twice_is_told_with_both_days),
        UNIT_TEST(grain_that_takes_the_place_of_other_grain_is_told_with_its_day),
        UNIT_TEST(cattle_that_join_others_at_grain_are_told_of),
        UNIT_TEST(forage_that_stays_is_not_told_to_change),
        UNIT_TEST(much_straw_is_told_of_and_little_is_not),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
