/* How a winter that is short shares what there is. The winters are those of
 * support/hand_question.h. */
#include "planner/winter_plan.h"
#include "support/hand_question.h"
#include "support/unit.h"

/* Ten cows need 10 Mcal a day for 15 days and 14.4, of the end of the winter, for 15; hay has
 * 1.2 a kg. */
static WinterPlan with_hay_of(Arena *arena, double eaten_kg_of_both_days) {
    HandQuestion *hand = hand_question(arena, 30);
    hand_own(hand, "Hay", 0.10, eaten_kg_of_both_days * 15.0 * 10.0 / 0.81);
    hand_group(hand, "Cows", 10, 10.0, 15);
    hand_period(hand, 14.4, 15);
    return plan_winter(arena, &hand->question);
}

/* 9 kg for a day of each: a kilogram is a larger share of 10 Mcal than of 14.4, so that the
 * first had 5.83 of them, 70 % of their need, and the last 3.17, 26 %. 40 % of these are 4.8,
 * which leaves 4.2, half, for the first. */
static void days_that_need_most_are_not_left_with_hardly_anything(void **state) {
    const WinterPlan plan = with_hay_of(*state, 9.0);
    assert_int_equal(plan.verdict, PLAN_SHORT);
    assert_near(plan.blocks[0].eaten[0], 4.2, 1e-3);
    assert_near(plan.blocks[1].eaten[0], 4.8, 1e-3);
}

/* Above that it is as it was: 70 % of 10 Mcal are 5.83 kg, and what is left of 12 is 51 %. */
static void a_lesser_lack_is_shared_by_what_a_kilogram_mends(void **state) {
    const WinterPlan plan = with_hay_of(*state, 12.0);
    assert_int_equal(plan.verdict, PLAN_SHORT);
    assert_near(plan.blocks[0].eaten[0], 7.0 / 1.2, 1e-3);
    assert_near(plan.blocks[1].eaten[0], 12.0 - 7.0 / 1.2, 1e-3);
}

/* Ten cows eat 12 kg at the most and need 15 Mcal: of hay with as much phosphorus as calcium, 3
 * g of each, 14.4 of them, and 14.1 with the eighth of clover, of 15 g and 1.0 Mcal, that
 * brings calcium to 1.5 for each of phosphorus. A mineral of 180 g of phosphorus on offer once
 * made the ratio weigh next to nothing, and bull calves were planned at 0.9. */
static void calcium_is_kept_to_phosphorus_where_it_takes_a_little_energy(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    const double per_kg[] = {1.2, 1.0, 0.0};
    const double calcium[] = {0.3, 1.5, 0.0}; /* % of dry matter */
    const double phosphorus[] = {0.3, 0.3, 18.0};
    const char *const name[] = {"Hay", "Clover", "Phosphate"};
    for (int f = 0; f < 3; f++) {
        PlanFeed *feed = hand_offer(hand, name[f], 0.10);
        feed->eaten[NUTRIENT_NEM] = per_kg[f];
        feed->eaten[NUTRIENT_CALCIUM] = calcium[f];
        feed->eaten[NUTRIENT_PHOSPHORUS] = phosphorus[f];
    }
    hand->stuffs[2].feed_class = FEED_CLASS_MINERAL;
    hand_group(hand, "Cows", 10, 15.0, 30);
    SafetyLimit *limit =
        hand_nutrient_limit(hand, "calcium_phosphorus", NUTRIENT_CALCIUM, 2.0, 1.5);
    limit->kind = LIMIT_RATIO;
    limit->subject = SUBJECT_CALCIUM_TO_PHOSPHORUS;
    limit->side = SIDE_LEAST;
    const WinterPlan plan = plan_winter(*state, &hand->question);
    assert_int_equal(plan.verdict, PLAN_SHORT);
    assert_near(plan.blocks[0].eaten[0], 10.5, 1e-3);
    assert_near(plan.blocks[0].eaten[1], 1.5, 1e-3);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(days_that_need_most_are_not_left_with_hardly_anything),
        UNIT_TEST(calcium_is_kept_to_phosphorus_where_it_takes_a_little_energy),
        UNIT_TEST(a_lesser_lack_is_shared_by_what_a_kilogram_mends),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
