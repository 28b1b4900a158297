#include "planner/runout.h"

#include "support/hand_question.h"
#include "support/unit.h"
#include <string.h>

static Day november(int day) { return calendar_day(2026, 11, day); }

#define assert_day(actual, expected) assert_int_equal((actual).number, (expected).number)

/* Three periods of ten days; what is eaten of each of four stacks is written down, not planned.
 */
static const StackRunout *runouts_of(Arena *arena) {
    static const double EATEN[3][4] = {{5, 0, 4, 0}, {5, 0, 4, 0}, {0, 5, 4, 0}};
    static const double TAKEN[4] = {1000, 995, 999.5, 0};
    HandQuestion *hand = hand_question(arena, 30);
    const char *const names[] = {"Early", "Late", "All winter", "Kept"};
    for (int f = 0; f < 4; f++)
        hand_own(hand, names[f], 0.1, 1000);
    hand_group(hand, "Cows", 10, 12.0, 10);
    hand_period(hand, 12.0, 10);
    hand_period(hand, 12.0, 10);
    BlockOutcome *blocks = ARENA_ARRAY(arena, BlockOutcome, 3);
    for (int b = 0; b < 3; b++)
        blocks[b].eaten = EATEN[b];
    const WinterPlan plan = {.question = &hand->question, .blocks = blocks, .taken_kg = TAKEN};
    return stack_runouts(arena, &plan);
}

static void a_stack_emptied_early_runs_out_on_the_last_day_it_is_fed(void **state) {
    const StackRunout *early = &runouts_of(*state)[0];
    assert_true(early->runs_out);
    assert_true(early->is_used);
    assert_day(early->first_fed, november(1));
    assert_day(early->last_fed, november(20));
    assert_near(early->left_kg, 0.0, 0.0);
}

static void a_stack_with_more_than_a_thousandth_left_has_not_run_out(void **state) {
    const StackRunout *late = &runouts_of(*state)[1];
    assert_false(late->runs_out);
    assert_day(late->first_fed, november(21));
    assert_near(late->left_kg, 5.0, 1e-9);
}

static void a_stack_that_lasts_to_the_last_day_does_not_run_out_before_it(void **state) {
    const StackRunout *all = &runouts_of(*state)[2];
    assert_false(all->runs_out);
    assert_day(all->last_fed, november(30));
    assert_near(all->left_kg, 0.5, 1e-9);
}

static void a_stack_never_opened_is_there_whole(void **state) {
    const StackRunout *kept = &runouts_of(*state)[3];
    assert_false(kept->is_used);
    assert_false(kept->runs_out);
    assert_near(kept->left_kg, 1000.0, 0.0);
}

/* 100 cows at 10 kg a day; 40 t in the stack feed 40 * 0.81 = 32.4 t: 32.4 days. Hay from the
 * truck makes the plan whole, but does not count as own feed. */
static HandQuestion *cows_on_forty_tonnes(Arena *arena) {
    HandQuestion *hand = hand_question(arena, 60);
    hand_own(hand, "Hay", 0.10, 40000);
    hand_offer(hand, "Bought hay", 0.30);
    hand_group(hand, "Cows", 100, 12.0, 60);
    return hand;
}

static void own_feed_lasts_as_many_whole_days_as_it_feeds(void **state) {
    HandQuestion *hand = cows_on_forty_tonnes(*state);
    const WinterPlan plan = plan_winter(*state, &hand->question);
    assert_int_equal(plan.verdict, PLAN_BALANCED);
    const DaysOnHand days = days_on_hand(*state, &plan);
    assert_near(days.dry_matter_kg, 32400.0, 1e-6);
    assert_near(days.eaten_per_day_kg, 1000.0, 1e-3);
    assert_near(days.gross_days, 32.4, 1e-4);
    assert_int_equal(days.balanced_days, 32);
    assert_day(days.balanced_until, calendar_day(2026, 12, 2));
    assert_false(days.lasts_all_winter);
    assert_int_equal(days.stopped_by.group, 0);
    assert_string_equal(days.stopped_by.limit->key, "net_energy_maintenance");
}

static void what_may_be_bought_as_a_supplement_counts_with_own_feed(void **state) {
    HandQuestion *hand = cows_on_forty_tonnes(*state);
    hand->feeds[1].is_supplement = true;
    const WinterPlan plan = plan_winter(*state, &hand->question);
    const DaysOnHand days = days_on_hand(*state, &plan);
    assert_true(days.lasts_all_winter);
    assert_int_equal(days.balanced_days, 60);
    assert_day(days.balanced_until, hand->farm.winter.last_day);
    assert_near(days.gross_days, 32.4, 1e-4); /* of own feed alone */
}

/* Short for want of the truck. The equations have them full at 9 kg, nine tenths of what they
 * would eat: 100 cows eat 1,000 kg a day, whatever the own figure of the least is, and 800 kg
 * where the own figure of the most is 8 kg. */
static void
an_own_figure_of_the_least_intake_does_not_stretch_the_days_of_own_feed(void **state) {
    HandQuestion *hand = cows_on_forty_tonnes(*state);
    hand->feeds[1].available_kg = 0.0;
    hand->blocks[0].need.least = (IntakeLaw){.added = 0.0};
    const WinterPlan plan = plan_winter(*state, &hand->question);
    assert_int_equal(plan.verdict, PLAN_SHORT);
    assert_near(days_on_hand(*state, &plan).gross_days, 32.4, 1e-9);
    hand->blocks[0].need.most = (IntakeLaw){.added = 8.0};
    assert_near(days_on_hand(*state, &plan).gross_days, 40.5, 1e-9);
}

/* Enough hay for fourteen days, but none that may be eaten: over the limit of nitrate. */
static void feed_that_poisons_gives_no_day(void **state) {
    HandQuestion *hand = cows_on_forty_tonnes(*state);
    hand->feeds[0].eaten[NUTRIENT_NITRATE] = 1.0;
    hand_nitrate_limit(hand, 0.5);
    const WinterPlan plan = plan_winter(*state, &hand->question);
    const DaysOnHand days = days_on_hand(*state, &plan);
    assert_int_equal(days.balanced_days, 0);
    assert_false(days.lasts_all_winter);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_stack_emptied_early_runs_out_on_the_last_day_it_is_fed),
        UNIT_TEST(a_stack_with_more_than_a_thousandth_left_has_not_run_out),
        UNIT_TEST(a_stack_that_lasts_to_the_last_day_does_not_run_out_before_it),
        UNIT_TEST(a_stack_never_opened_is_there_whole),
        UNIT_TEST(own_feed_lasts_as_many_whole_days_as_it_feeds),
        UNIT_TEST(what_may_be_bought_as_a_supplement_counts_with_own_feed),
        UNIT_TEST(an_own_figure_of_the_least_intake_does_not_stretch_the_days_of_own_feed),
        UNIT_TEST(feed_that_poisons_gives_no_day),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
