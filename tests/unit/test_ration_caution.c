/* A cow of 600 kg and two hays, one of them with nitrate: what passing its caution line weighs.
 */
#include "planner/caution_cost.h"
#include "planner/least_cost.h"
#include "planner/ration_caution.h"
#include "support/hand_question.h"
#include "support/unit.h"

#define PER_EATEN (1.0 / 0.81) /* kg of the stack for one eaten */
#define CHEAP 0.05             /* dollars a kg as fed */
#define DEAR 0.10
#define HEAD_DAYS (10.0 * 20.0)

/* 9 kg a day and 10.8 Mcal, which 9 kg of either bring. The diet is held to 0.5 % nitrate,
 * with a caution from 0.3 %. */
static HandQuestion *two_hays(Arena *arena, double caution_price) {
    HandQuestion *hand = hand_question(arena, 20);
    hand_own(hand, "Oat hay", CHEAP, 1e6)->eaten[NUTRIENT_NITRATE] = 0.6;
    hand_own(hand, "Grass hay", DEAR, 1e6);
    hand_group(hand, "Cows", 10.0, 10.8, 20);
    hand_nitrate_limit(hand, 0.5)->caution_price = caution_price;
    hand->farm.winter.caution_weight = 1.0;
    return hand;
}

static WinterPlan planned(Arena *arena, const HandQuestion *hand) {
    const WinterPlan plan = plan_least_cost(arena, &hand->question);
    assert_int_equal(plan.verdict, PLAN_BALANCED);
    return plan;
}

/* 0.6 x <= 0.5 of 9 kg: 7.5 kg of the oat hay, and behind the line 0.6 x <= 0.3 of 9, 4.5 kg.
 * A kg of oat hay in the other's place saves 0.05 / 0.81 = 6.2 cents; it adds 0.6 to the row,
 * a quarter of the way of 0.2 times 12 kg. */
static void a_line_is_passed_where_keeping_behind_it_costs_more_than_it_weighs(void **state) {
    const WinterPlan past = planned(*state, two_hays(*state, 0.20));
    assert_near(past.blocks[0].eaten[0], 7.5, 1e-6);
    const double share = (0.3 * 7.5 - 0.3 * 1.5) / 2.4;
    assert_near(past.least_cautions, 0.20 * share * HEAD_DAYS, 1e-6);
    assert_near(past.cost.cautions, 0.20 * share * HEAD_DAYS, 1e-6);
    const WinterPlan behind = planned(*state, two_hays(*state, 0.30));
    assert_near(behind.blocks[0].eaten[0], 4.5, 1e-6);
    assert_near(behind.least_cautions, 0.0, 1e-6);
}

static void no_cost_that_is_told_holds_what_a_caution_weighs(void **state) {
    const WinterPlan past = planned(*state, two_hays(*state, 0.20));
    const double money = (7.5 * CHEAP + 1.5 * DEAR) * PER_EATEN * HEAD_DAYS;
    assert_near(past.least_cost, money, 1e-6);
    assert_near(past.cost.total, money, 1e-6);
    assert_near(past.blocks[0].cost_per_head_day, money / HEAD_DAYS, 1e-9);
    assert_near(plan_least(&past), money + past.least_cautions, 1e-9);
    assert_near(past.solution.cost, plan_least(&past), 1e-6);
}

/* 3 kg of dear hay in the place of cheap. */
static void keeping_behind_a_line_costs_what_the_cheaper_ration_saves(void **state) {
    const WinterPlan behind = planned(*state, two_hays(*state, 0.30));
    assert_near(caution_cost(&behind), 3.0 * (DEAR - CHEAP) * PER_EATEN * HEAD_DAYS, 1e-6);
    const WinterPlan past = planned(*state, two_hays(*state, 0.20));
    assert_near(caution_cost(&past), 0.0, 1e-6);
    HandQuestion *none = two_hays(*state, 0.30);
    none->farm.winter.caution_weight = 0.0;
    const WinterPlan free = planned(*state, none);
    assert_near(free.blocks[0].eaten[0], 7.5, 1e-6);
    assert_near(caution_cost(&free), 0.0, 0.0);
}

/* With more room at the line 0.6 x <= (0.3 + d) 9 lets 15 d kg more of the oat hay in. */
static void the_price_of_a_line_is_what_a_little_more_room_saves(void **state) {
    const WinterPlan behind = planned(*state, two_hays(*state, 0.30));
    const BlockOutcome *block = &behind.blocks[0];
    const LimitOutcome *nitrate = &block->limits[block->limit_count - 1];
    assert_non_null(nitrate->limit->safety);
    assert_near(nitrate->caution_price, -15.0 * (DEAR - CHEAP) * PER_EATEN, 1e-6);
    assert_near(nitrate->shadow_price, 0.0, 0.0);
}

static const BlockState STATE = {1.2, 0.5};

static void assert_rows(Arena *arena, double nitrate_pct, bool has_warn, bool has_hard) {
    HandQuestion *hand = two_hays(arena, 0.30);
    hand->feeds[0].eaten[NUTRIENT_NITRATE] = nitrate_pct;
    const RationProgram program =
        ration_program(arena, &hand->question, &STATE, AIM_LEAST_COST);
    const BlockLimits *of = &program.blocks[0];
    assert_non_null(of->limits[of->count - 1]->safety);
    assert_int_equal(of->warn_row[of->count - 1] >= 0, has_warn);
    assert_int_equal(of->beyond[of->count - 1] >= 0, has_warn);
    assert_int_equal(of->most_row[of->count - 1] >= 0, has_hard);
}

static void a_line_that_no_feed_could_pass_has_no_row(void **state) {
    assert_rows(*state, 0.29, false, false);
    assert_rows(*state, 0.31, true, false);
    assert_rows(*state, 0.51, true, true);
    HandQuestion *hand = two_hays(*state, 0.30);
    int count;
    hand->feeds[0].eaten[NUTRIENT_NITRATE] = 0.29;
    const RationLimit *const *limits = ration_limits(*state, &hand->question, 0, STATE, &count);
    const RationLimit *last = limits[count - 1];
    assert_non_null(last->safety);
    assert_false(caution_is_held(last, (const int[]){0, 1}, 2));
    hand->feeds[0].eaten[NUTRIENT_NITRATE] = 0.31;
    limits = ration_limits(*state, &hand->question, 0, STATE, &count);
    assert_true(caution_is_held(limits[count - 1], (const int[]){0, 1}, 2));
    assert_false(caution_is_held(limits[count - 1], (const int[]){1}, 1));
}

/* Half way from 0.3 to 0.5 %, at 12 cents for 12 kg of it. */
static void a_feed_past_its_own_line_weighs_by_the_kilogram(void **state) {
    HandQuestion *hand = two_hays(*state, 0.0);
    SafetyLimit *each = hand_nitrate_limit(hand, 0.5);
    each->kind = LIMIT_EACH_FEED;
    each->caution_price = 0.12;
    hand->feeds[0].eaten[NUTRIENT_NITRATE] = 0.4;
    assert_near(caution_of_feed(&hand->question, 0, 0), 0.5 * 0.12 / 12.0, 1e-12);
    assert_near(caution_of_feed(&hand->question, 0, 1), 0.0, 0.0);
    hand->farm.winter.water_nitrate_mg_per_l = 125.0; /* 4 L bring 0.05 % */
    assert_near(caution_of_feed(&hand->question, 0, 0), 0.75 * 0.12 / 12.0, 1e-12);
    const WinterPlan plan = planned(*state, hand);
    assert_near(plan.least_cautions, plan.blocks[0].eaten[0] * 0.75 * 0.12 / 12.0 * HEAD_DAYS,
                1e-6);
}

/* 2 to 1 wanted and 1.5 the least, of 0.25 % phosphorus: half of 0.25 % of 12 kg. */
static void the_way_of_a_ratio_is_that_of_a_usual_ration(void **state) {
    HandQuestion *hand = two_hays(*state, 0.0);
    SafetyLimit ratio = {.id = "calcium_phosphorus",
                         .label = "Calcium for each part of phosphorus",
                         .side = SIDE_LEAST,
                         .warn = 2.0,
                         .hard = 1.5};
    const double usual[] = {0.25, 0.25};
    const double calcium[] = {0.4, 0.4};
    const RationLimit limit = {.safety = &ratio,
                               .per_kg = calcium,
                               .base = usual,
                               .usual_base = 0.25,
                               .least = 1.5,
                               .most = NO_LIMIT,
                               .warn = 2.0,
                               .caution_price = 0.05};
    const Requirement *need = &hand->blocks[0].need;
    assert_near(caution_way(&limit, need), 1.5, 1e-12);
    /* 1.6 to 1 in 12 kg: four fifths of the way; in 9 kg a quarter less. */
    assert_near(caution_share(&limit, need, 2, (const double[]){12.0, 0.0}), 0.8, 1e-12);
    assert_near(caution_share(&limit, need, 2, (const double[]){4.0, 5.0}), 0.6, 1e-12);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_line_is_passed_where_keeping_behind_it_costs_more_than_it_weighs),
        UNIT_TEST(no_cost_that_is_told_holds_what_a_caution_weighs),
        UNIT_TEST(keeping_behind_a_line_costs_what_the_cheaper_ration_saves),
        UNIT_TEST(the_price_of_a_line_is_what_a_little_more_room_saves),
        UNIT_TEST(a_line_that_no_feed_could_pass_has_no_row),
        UNIT_TEST(a_feed_past_its_own_line_weighs_by_the_kilogram),
        UNIT_TEST(the_way_of_a_ratio_is_that_of_a_usual_ration),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
