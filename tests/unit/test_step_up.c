/* Feeds brought in by steps, each worked by hand. A kg eaten of the feeds of
 * support/hand_question.h takes 1 / 0.81 kg of the stack. */
#include "planner/step_up.h"
#include "support/hand_question.h"
#include "support/unit.h"

#define TAKEN (1.0 / 0.81)
#define STEP 0.45359237 /* one pound */

enum { HAY, STRAW, BARLEY, GREENFEED, FEEDS };

/* Rations are given, not solved for: kg of dry matter by block and feed. */
typedef struct {
    HandQuestion *hand;
    WinterPlan plan;
    BlockOutcome blocks[HAND_MOST];
    double eaten[HAND_MOST][FEEDS];
    double taken[FEEDS];
} Fed;

static Fed *fed(Arena *arena, int first_days, int then_days) {
    Fed *of = ARENA_NEW(arena, Fed);
    of->hand = hand_question(arena, first_days + then_days);
    hand_own(of->hand, "Hay", 0.1, 1.0e6);
    hand_own(of->hand, "Straw", 0.1, 1.0e6);
    hand_own(of->hand, "Barley", 0.1, 1.0e6);
    hand_own(of->hand, "Greenfeed", 0.1, 1.0e6);
    of->hand->stuffs[STRAW].feed_class = FEED_CLASS_STRAW;
    of->hand->stuffs[BARLEY].feed_class = FEED_CLASS_GRAIN;
    of->hand->feeds[GREENFEED].eaten[NUTRIENT_NITRATE] = 0.8;
    hand_group(of->hand, "Cows", 10, 12.0, first_days);
    if (then_days > 0)
        hand_period(of->hand, 12.0, then_days);
    hand_nitrate_limit(of->hand, 0.5); /* its caution line is 0.3 */
    for (int b = 0; b < HAND_MOST; b++)
        of->blocks[b].eaten = of->eaten[b];
    of->plan.question = &of->hand->question;
    of->plan.blocks = of->blocks;
    of->plan.taken_kg = of->taken;
    return of;
}

static void ration(Fed *of, int block, double hay, double straw, double barley,
                   double greenfeed) {
    of->eaten[block][HAY] = hay;
    of->eaten[block][STRAW] = straw;
    of->eaten[block][BARLEY] = barley;
    of->eaten[block][GREENFEED] = greenfeed;
}

/* 0.81 kg of dry matter is 1 kg as fed: a pound on the first two days, two on the next, and the
 * last 0.09 kg on the fifth. Hay stands in with as much dry matter. */
static void grain_from_none_goes_up_a_pound_each_second_day(void **state) {
    Fed *of = fed(*state, 30, 0);
    ration(of, 0, 8.1, 1.0, 0.81, 0.0);
    const StepUp *list;
    assert_int_equal(step_ups(*state, &of->plan, &list), 1);
    assert_int_equal(list[0].group, 0);
    assert_true(list[0].is_first);
    assert_int_equal(list[0].days, 5);
    assert_int_equal(list[0].feed_count, 1);
    assert_int_equal(list[0].feeds[0].feed, BARLEY);
    assert_int_equal(list[0].feeds[0].reason, STEP_GRAIN);
    const double barley[] = {STEP, STEP, 2 * STEP, 2 * STEP, 1.0};
    assert_int_equal(list[0].in_place, HAY);
    double more = 0.0;
    for (int day = 0; day < 5; day++) {
        assert_near(list[0].put_out_kg[day], barley[day], 1e-9);
        assert_near(list[0].in_place_kg[day], 10.0 + 1.0 - barley[day], 1e-9);
        more += 10 * (1.0 - barley[day]);
    }
    assert_near(list[0].more_kg, more, 1e-9); /* of ten cows */
}

static void a_rise_of_one_step_needs_no_table(void **state) {
    Fed *of = fed(*state, 30, 30);
    ration(of, 0, 8.0, 0.0, 0.45 / TAKEN, 0.0);
    ration(of, 1, 8.0, 0.0, 0.90 / TAKEN, 0.0);
    const StepUp *list;
    assert_int_equal(step_ups(*state, &of->plan, &list), 0);
}

/* 0.502 kg: a little more than what needs no table, and 0.05 kg more than a pound, which is not
 * worth another day: a table of one row would say what the ration says. */
static void a_rise_that_is_all_in_on_its_first_day_has_no_table(void **state) {
    Fed *of = fed(*state, 30, 30);
    ration(of, 0, 8.0, 0.0, 0.45 / TAKEN, 0.0);
    ration(of, 1, 8.0, 0.0, 0.952 / TAKEN, 0.0);
    const StepUp *list;
    assert_int_equal(step_ups(*state, &of->plan, &list), 0);
}

static void a_later_rise_goes_on_from_what_they_had(void **state) {
    Fed *of = fed(*state, 30, 30);
    ration(of, 0, 8.0, 0.0, 0.45 / TAKEN, 0.0);
    ration(of, 1, 7.0, 0.0, 1.65 / TAKEN, 0.0);
    const StepUp *list;
    assert_int_equal(step_ups(*state, &of->plan, &list), 1);
    assert_false(list[0].is_first);
    assert_int_equal(list[0].from.number, of->hand->blocks[1].from.number);
    /* 1.2 kg more: 0.45, 0.90 and all of it on the fifth day */
    assert_int_equal(list[0].days, 5);
    assert_near(list[0].put_out_kg[0], 0.45 + STEP, 1e-9);
    assert_near(list[0].put_out_kg[2], 0.45 + 2 * STEP, 1e-9);
    assert_near(list[0].put_out_kg[4], 1.65, 1e-9);
}

/* The same pen, sold out for a week and filled again: the new cattle had no grain. */
static void cattle_that_come_where_others_had_gone_begin_at_none(void **state) {
    Fed *of = fed(*state, 15, 15);
    ration(of, 0, 8.1, 1.0, 0.81, 0.0);
    ration(of, 1, 8.1, 1.0, 0.81, 0.0);
    const StepUp *list;
    assert_int_equal(step_ups(*state, &of->plan, &list), 1);
    of->hand->blocks[1].from = calendar_add(of->hand->blocks[1].from, 7);
    of->hand->blocks[1].days -= 7;
    assert_int_equal(step_ups(*state, &of->plan, &list), 2);
    assert_true(list[1].is_first);
    assert_false(list[1].is_used_to_some);
    assert_near(list[1].put_out_kg[0], STEP, 1e-9);
    assert_near(list[1].feeds[0].from_kg, 0.0, 0.0);
}

static void less_grain_is_put_out_at_once(void **state) {
    Fed *of = fed(*state, 30, 30);
    ration(of, 0, 7.0, 0.0, 0.4 / TAKEN, 0.0);
    ration(of, 1, 8.0, 0.0, 0.0, 0.0);
    const StepUp *list;
    assert_int_equal(step_ups(*state, &of->plan, &list), 0);
}

/* 4 kg as fed: 1, 2, 3 kg for four days each, and 4 from the thirteenth. */
static void feed_high_in_nitrate_comes_in_by_quarters_over_two_weeks(void **state) {
    Fed *of = fed(*state, 30, 30);
    ration(of, 0, 8.1, 0.0, 0.0, 0.0);
    ration(of, 1, 4.86, 0.0, 0.0, 3.24);
    const StepUp *list;
    assert_int_equal(step_ups(*state, &of->plan, &list), 1);
    assert_int_equal(list[0].feeds[0].reason, STEP_NITRATE);
    assert_int_equal(list[0].days, 13);
    for (int day = 0; day < 13; day++) {
        const double greenfeed = 1.0 + day / 4;
        assert_near(list[0].put_out_kg[day], greenfeed, 1e-9);
        assert_near(list[0].in_place_kg[day], 6.0 + 4.0 - greenfeed, 1e-9);
    }
    /* four days of 3, 2 and 1 kg less, ten cows */
    assert_near(list[0].more_kg, 240.0, 1e-9);
}

static void feed_below_the_caution_line_of_nitrate_comes_in_at_once(void **state) {
    Fed *of = fed(*state, 30, 30);
    of->hand->feeds[GREENFEED].eaten[NUTRIENT_NITRATE] = 0.3;
    ration(of, 0, 8.1, 0.0, 0.0, 0.0);
    ration(of, 1, 4.0, 0.0, 0.0, 4.0);
    const StepUp *list;
    assert_int_equal(step_ups(*state, &of->plan, &list), 0);
}

/* The first ration ends on its sixth day, at half; the next goes on from there. */
static void steps_cut_short_by_the_next_ration_go_on_in_it(void **state) {
    Fed *of = fed(*state, 6, 30);
    ration(of, 0, 5.0, 0.0, 0.0, 3.24);
    ration(of, 1, 5.0, 0.0, 0.0, 3.24);
    const StepUp *list;
    assert_int_equal(step_ups(*state, &of->plan, &list), 2);
    assert_int_equal(list[0].days, 6);
    assert_near(list[0].put_out_kg[5], 2.0, 1e-9);
    assert_near(list[1].feeds[0].from_kg, 2.0, 1e-9);
    assert_near(list[1].put_out_kg[0], 3.0, 1e-9);
    assert_int_equal(list[1].days, 5);
    assert_near(list[1].put_out_kg[4], 4.0, 1e-9);
}

/* Straw would pack, and what is high in nitrate is what is being brought in slowly. */
static void straw_stands_in_only_where_there_is_nothing_else(void **state) {
    Fed *of = fed(*state, 30, 0);
    ration(of, 0, 1.0, 7.0, 1.0, 0.0);
    const StepUp *list;
    assert_int_equal(step_ups(*state, &of->plan, &list), 1);
    assert_int_equal(list[0].in_place, HAY);
    ration(of, 0, 0.0, 8.0, 1.0, 0.0);
    assert_int_equal(step_ups(*state, &of->plan, &list), 1);
    assert_int_equal(list[0].in_place, STRAW);
    ration(of, 0, 0.0, 0.0, 1.0, 8.0);
    assert_int_equal(step_ups(*state, &of->plan, &list), 1);
    assert_int_equal(list[0].in_place, -1);
}

/* 600 kg digest 7.5 kg of straw: of 2 kg of barley a pound as fed is there on the first day,
 * and of the rest straw stands in for 0.5 kg. It stood in for all, 8.6 kg of it. */
static void no_more_straw_stands_in_than_they_digest(void **state) {
    Fed *of = fed(*state, 30, 0);
    hand_feeds_limit(of->hand, "straw_weight", LIMIT_WEIGHT_SHARE, "straw", 0.010, 0.0125);
    ration(of, 0, 0.0, 7.0, 2.0, 0.0);
    const StepUp *list;
    assert_int_equal(step_ups(*state, &of->plan, &list), 1);
    assert_int_equal(list[0].in_place, STRAW);
    assert_near(list[0].in_place_kg[0], 7.5 * TAKEN, 1e-9);
    assert_near(list[0].missing_kg, 2.0 - 0.81 * STEP - 0.5, 1e-9);
    assert_near(list[0].in_place_kg[list[0].days - 1], 7.0 * TAKEN, 1e-9);
    of->eaten[0][STRAW] = 8.0; /* what the ration itself has stays */
    assert_int_equal(step_ups(*state, &of->plan, &list), 1);
    assert_near(list[0].in_place_kg[0], 8.0 * TAKEN, 1e-9);
}

/* Grain falls from one bin and rises from another: together they go up by the step. */
static void all_grain_together_goes_up_by_the_step(void **state) {
    Fed *of = fed(*state, 30, 30);
    of->hand->stuffs[STRAW].feed_class = FEED_CLASS_GRAIN; /* oats */
    ration(of, 0, 8.0, 0.45 / TAKEN, 0.0, 0.0);
    ration(of, 1, 7.0, 0.0, 1.65 / TAKEN, 0.0);
    const StepUp *list;
    assert_int_equal(step_ups(*state, &of->plan, &list), 1);
    assert_int_equal(list[0].feed_count, 2);
    for (int day = 0; day < list[0].days; day++) {
        const double all = list[0].put_out_kg[2 * day] + list[0].put_out_kg[2 * day + 1];
        const double most = day < 2 ? 0.45 + STEP : day < 4 ? 0.45 + 2 * STEP : 1.65;
        assert_near(all, most, 1e-9);
    }
}

/* 0.9 kg of barley and 0.9 kg of a meal: a pound of both together each second day, half each.
 */
static void a_meal_goes_up_with_the_grain_a_pound_together(void **state) {
    Fed *of = fed(*state, 30, 0);
    of->hand->stuffs[STRAW].feed_class = FEED_CLASS_MEAL;
    ration(of, 0, 8.0, 0.9 / TAKEN, 0.9 / TAKEN, 0.0);
    const StepUp *list;
    assert_int_equal(step_ups(*state, &of->plan, &list), 1);
    assert_int_equal(list[0].feed_count, 2);
    assert_int_equal(list[0].feeds[0].reason, STEP_MEAL);
    assert_int_equal(list[0].feeds[1].reason, STEP_GRAIN);
    assert_int_equal(list[0].days, 7);
    for (int day = 0; day < 7; day++) {
        const double each = day < 6 ? STEP * (day / 2 + 1) / 2.0 : 0.9;
        assert_near(list[0].put_out_kg[2 * day], each, 1e-9);
        assert_near(list[0].put_out_kg[2 * day + 1], each, 1e-9);
    }
}

/* 2 kg of pellets go out and 2 kg of barley come in: it is new to them all the same. */
static void grain_is_stepped_though_a_meal_gives_way_to_it(void **state) {
    Fed *of = fed(*state, 30, 30);
    of->hand->stuffs[STRAW].feed_class = FEED_CLASS_BYPRODUCT;
    ration(of, 0, 8.0, 2.0 / TAKEN, 0.0, 0.0);
    ration(of, 1, 8.0, 0.0, 2.0 / TAKEN, 0.0);
    const StepUp *list;
    assert_int_equal(step_ups(*state, &of->plan, &list), 2);
    assert_int_equal(list[0].feeds[0].reason, STEP_MEAL);
    assert_int_equal(list[1].feed_count, 1);
    assert_int_equal(list[1].feeds[0].feed, BARLEY);
    assert_near(list[1].put_out_kg[0], STEP, 1e-9);
}

static void a_brassica_low_in_nitrate_comes_in_by_quarters_too(void **state) {
    Fed *of = fed(*state, 30, 0);
    of->hand->stuffs[GREENFEED].feed_class = FEED_CLASS_BRASSICA;
    of->hand->feeds[GREENFEED].eaten[NUTRIENT_NITRATE] = 0.1;
    ration(of, 0, 4.86, 0.0, 0.0, 3.24);
    const StepUp *list;
    assert_int_equal(step_ups(*state, &of->plan, &list), 1);
    assert_int_equal(list[0].feeds[0].reason, STEP_BRASSICA);
    assert_int_equal(list[0].days, 13);
    assert_near(list[0].put_out_kg[11], 3.0, 1e-9);
}

/* 60 g: 15, 30 and 45 g for four days each, small as that is. */
static void urea_comes_in_by_quarters_however_little_it_is(void **state) {
    Fed *of = fed(*state, 30, 0);
    of->hand->stuffs[BARLEY].feed_class = FEED_CLASS_NPN;
    ration(of, 0, 8.1, 0.0, 0.06 / TAKEN, 0.0);
    const StepUp *list;
    assert_int_equal(step_ups(*state, &of->plan, &list), 1);
    assert_int_equal(list[0].feeds[0].reason, STEP_UREA);
    assert_int_equal(list[0].days, 13);
    for (int day = 0; day < 13; day++)
        assert_near(list[0].put_out_kg[day], 0.015 * (1 + day / 4), 1e-9);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(grain_from_none_goes_up_a_pound_each_second_day),
        UNIT_TEST(a_rise_of_one_step_needs_no_table),
        UNIT_TEST(a_rise_that_is_all_in_on_its_first_day_has_no_table),
        UNIT_TEST(a_later_rise_goes_on_from_what_they_had),
        UNIT_TEST(cattle_that_come_where_others_had_gone_begin_at_none),
        UNIT_TEST(less_grain_is_put_out_at_once),
        UNIT_TEST(feed_high_in_nitrate_comes_in_by_quarters_over_two_weeks),
        UNIT_TEST(feed_below_the_caution_line_of_nitrate_comes_in_at_once),
        UNIT_TEST(steps_cut_short_by_the_next_ration_go_on_in_it),
        UNIT_TEST(straw_stands_in_only_where_there_is_nothing_else),
        UNIT_TEST(no_more_straw_stands_in_than_they_digest),
        UNIT_TEST(all_grain_together_goes_up_by_the_step),
        UNIT_TEST(a_meal_goes_up_with_the_grain_a_pound_together),
        UNIT_TEST(grain_is_stepped_though_a_meal_gives_way_to_it),
        UNIT_TEST(a_brassica_low_in_nitrate_comes_in_by_quarters_too),
        UNIT_TEST(urea_comes_in_by_quarters_however_little_it_is),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
