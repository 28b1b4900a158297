/* Winters worked by hand. See support/hand_question.h: a kg of hay eaten takes 1 / 0.81 kg of
 * the stack and brings 1.2 Mcal; a cow eats 9 to 12 kg. */
#include "planner/can_balance.h"
#include "planner/price_range.h"
#include "planner/winter_plan.h"
#include "support/hand_question.h"
#include "support/planned_farm.h"
#include "support/unit.h"
#include <string.h>

#define STACK_KG_PER_KG_EATEN (1.0 / 0.81)

static const LimitOutcome *limit_named(const WinterPlan *plan, int block, const char *key) {
    for (int i = 0; i < plan->blocks[block].limit_count; i++) {
        if (strcmp(plan->blocks[block].limits[i].limit->key, key) == 0)
            return &plan->blocks[block].limits[i];
    }
    fail_msg("no limit is named %s", key);
    return NULL;
}

/* 9.6 Mcal would take 8 kg, but a cow is hungry below 9. */
static void a_cow_of_little_need_is_still_filled(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    hand_own(hand, "Hay", 0.10, 100000)->haul_per_kg = 0.01;
    hand_group(hand, "Cows", 100, 9.6, 30);
    hand->farm.winter.yardage_per_head_day = 0.5;
    const WinterPlan plan = plan_winter(*state, &hand->question);
    assert_int_equal(plan.verdict, PLAN_BALANCED);
    assert_near(plan.blocks[0].eaten[0], 9.0, 1e-7);
    /* 100 head, 30 days: 27 t eaten, 33.333 t taken */
    assert_near(plan.taken_kg[0], 27000.0 * STACK_KG_PER_KG_EATEN, 1e-3);
    assert_near(plan.cost.own_feed, 3333.3333, 1e-3);
    assert_near(plan.cost.hauling, 333.3333, 1e-3);
    assert_near(plan.cost.yardage, 1500.0, 1e-9);
    assert_near(plan.cost.bought, 0.0, 0.0);
    assert_near(plan.cost.total, 5166.6667, 1e-3);
    assert_near(plan.blocks[0].energy_left, 9.0 * 1.2 - 9.6, 1e-6);
}

static void a_cow_of_more_need_eats_what_it_takes(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    hand_own(hand, "Hay", 0.10, 100000);
    hand_group(hand, "Cows", 100, 12.0, 30);
    const WinterPlan plan = plan_winter(*state, &hand->question);
    assert_int_equal(plan.verdict, PLAN_BALANCED);
    assert_near(plan.blocks[0].eaten[0], 10.0, 1e-6); /* 12 / 1.2 */
    assert_near(plan.blocks[0].energy_left, 0.0, 1e-6);
    /* One Mcal more a day is 1 / 1.2 kg eaten, at 10 cents a kg of stack. */
    assert_near(limit_named(&plan, 0, "net_energy_maintenance")->shadow_price,
                0.10 * STACK_KG_PER_KG_EATEN / 1.2, 1e-7);
}

/* Half hot hay at 10 cents, half clean at 20, 10 kg of both: at a limit of 1 % of nitrate more
 * all 10 kg would be of the cheap one, twice the 5 kg that change hands. */
static void the_price_of_a_concentration_is_that_of_one_unit_of_it(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    hand_offer(hand, "Hot hay", 0.10)->eaten[NUTRIENT_NITRATE] = 1.0;
    hand_offer(hand, "Clean hay", 0.20);
    hand_group(hand, "Cows", 100, 12.0, 30);
    hand_nitrate_limit(hand, 0.5);
    const WinterPlan plan = plan_winter(*state, &hand->question);
    assert_near(plan.blocks[0].eaten[0], 5.0, 1e-4);
    assert_near(limit_named(&plan, 0, "nitrate_total")->shadow_price,
                -10.0 * (0.20 - 0.10) * STACK_KG_PER_KG_EATEN, 1e-6);
}

/* 20 t in the stack feed 100 cows for 30 days 5.4 kg each. */
static void a_shortage_is_told_to_the_kilogram(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    hand_own(hand, "Hay", 0.10, 20000);
    hand_group(hand, "Cows", 100, 12.0, 30);
    const WinterPlan plan = plan_winter(*state, &hand->question);
    assert_int_equal(plan.verdict, PLAN_SHORT);
    assert_near(plan.blocks[0].eaten[0], 5.4, 1e-5);
    assert_near(plan.taken_kg[0], 20000.0, 0.02);
    assert_near(limit_named(&plan, 0, "net_energy_maintenance")->short_by, 12.0 - 5.4 * 1.2,
                1e-5);
    assert_near(limit_named(&plan, 0, "dry_matter_fill")->short_by, 9.0 - 5.4, 1e-5);
    assert_near(limit_named(&plan, 0, "ndf")->short_by, 0.0, 0.0);
}

/* Cheap greenfeed of 1 % nitrate under a limit of 0.5 %: half and half with hay that has none.
 */
static void nitrate_of_the_whole_diet_holds_the_cheap_greenfeed(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    hand_own(hand, "Greenfeed", 0.05, 100000)->eaten[NUTRIENT_NITRATE] = 1.0;
    hand_own(hand, "Hay", 0.10, 100000);
    hand_group(hand, "Cows", 100, 12.0, 30);
    hand_nitrate_limit(hand, 0.5);
    const WinterPlan plan = plan_winter(*state, &hand->question);
    assert_int_equal(plan.verdict, PLAN_BALANCED);
    assert_near(plan.blocks[0].eaten[0], 5.0, 1e-6);
    assert_near(plan.blocks[0].eaten[1], 5.0, 1e-6);
    assert_near(limit_named(&plan, 0, "nitrate_total")->supplied, 0.5, 1e-7);
}

/* 250 mg a litre, four litres a kg of dry matter: 0.1 % of the diet is water's. */
static void nitrate_of_the_water_takes_its_part(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    hand_own(hand, "Greenfeed", 0.05, 100000)->eaten[NUTRIENT_NITRATE] = 1.0;
    hand_own(hand, "Hay", 0.10, 100000);
    hand_group(hand, "Cows", 100, 12.0, 30);
    hand_nitrate_limit(hand, 0.5);
    hand->farm.winter.water_nitrate_mg_per_l = 250.0;
    const WinterPlan plan = plan_winter(*state, &hand->question);
    assert_near(plan.blocks[0].eaten[0], 4.0, 1e-6);
    assert_near(plan.blocks[0].eaten[1], 6.0, 1e-6);
}

/* 0.5 / n of the ration, n the nitrate of the greenfeed and the hay clean. */
static void the_hotter_a_feed_the_less_of_it_is_given(void **state) {
    double before = 10.0;
    for (double nitrate = 0.6; nitrate < 3.0; nitrate += 0.3) {
        HandQuestion *hand = hand_question(*state, 30);
        hand_own(hand, "Greenfeed", 0.05, 100000)->eaten[NUTRIENT_NITRATE] = nitrate;
        hand_own(hand, "Hay", 0.10, 100000);
        hand_group(hand, "Cows", 100, 12.0, 30);
        hand_nitrate_limit(hand, 0.5);
        const WinterPlan plan = plan_winter(*state, &hand->question);
        assert_near(plan.blocks[0].eaten[0], 10.0 * 0.5 / nitrate, 1e-6);
        assert_true(plan.blocks[0].eaten[0] < before);
        before = plan.blocks[0].eaten[0];
    }
}

/* Nothing but greenfeed at twice the limit: cattle go hungry before they are poisoned. */
static void a_poison_never_gives_to_hunger(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    hand_own(hand, "Greenfeed", 0.05, 100000)->eaten[NUTRIENT_NITRATE] = 1.0;
    hand_group(hand, "Cows", 100, 12.0, 30);
    hand_nitrate_limit(hand, 0.5);
    const WinterPlan plan = plan_winter(*state, &hand->question);
    assert_int_equal(plan.verdict, PLAN_SHORT);
    assert_near(plan.blocks[0].eaten[0], 0.0, 1e-6);
    assert_near(limit_named(&plan, 0, "net_energy_maintenance")->short_by, 12.0, 1e-5);
}

/* A hundred cows for 30 days on one own hay, held to a most of sulfur or salt. */
static HandQuestion *on_one_hay(Arena *arena, Nutrient nutrient, double in_hay, double most) {
    HandQuestion *hand = hand_question(arena, 30);
    hand_own(hand, "Hay", 0.05, 100000)->eaten[nutrient] = in_hay;
    hand_group(hand, "Cows", 100, 12.0, 30);
    SafetyLimit *limit = hand_nutrient_limit(hand, "held", nutrient, 0.6 * most, most);
    if (nutrient == NUTRIENT_SODIUM)
        limit->subject = SUBJECT_SALT;
    return hand;
}

/* Of straw alone no ration is within 60 % of it, nor 20: they were left with nothing in the
 * stomach. By weight it never gives: of 600 kg 0.0125 are 7.5 kg, and near calving 0.0075 are
 * 4.5. */
static void straw_fills_cattle_that_have_little_else_up_to_its_weight(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    hand_offer(hand, "Straw", 0.05);
    hand->stuffs[0].feed_class = FEED_CLASS_STRAW;
    hand_group(hand, "Cows", 10, 12.0, 30);
    SafetyLimit *share = hand_feeds_limit(hand, "share", LIMIT_SHARE, "straw", 0.50, 0.60);
    SafetyLimit *weight =
        hand_feeds_limit(hand, "weight", LIMIT_WEIGHT_SHARE, "straw", 0.010, 0.0125);
    share->stages = STAGE_BIT(STAGE_OPEN);
    const WinterPlan plan = plan_winter(*state, &hand->question);
    assert_int_equal(plan.verdict, PLAN_SHORT);
    assert_near(plan.blocks[0].eaten[0], 7.5, 1e-4);
    share->stages = STAGE_BIT(STAGE_OPEN) | STAGE_BIT(STAGE_LATE);
    share->hard = 0.20;
    weight->hard = 0.0075;
    const WinterPlan late = plan_winter(*state, &hand->question);
    assert_int_equal(late.verdict, PLAN_SHORT);
    assert_near(late.blocks[0].eaten[0], 4.5, 1e-4);
}

/* Straw next to nothing beside dear hay: where hay is to be had the line holds at any price. */
static void the_share_of_straw_near_calving_never_gives_for_money(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    hand_offer(hand, "Straw", 0.001);
    hand_offer(hand, "Hay", 2.0);
    hand->stuffs[0].feed_class = FEED_CLASS_STRAW;
    hand_group(hand, "Cows", 10, 12.0, 30);
    hand_feeds_limit(hand, "share", LIMIT_SHARE, "straw", 0.20, 0.20)->stages =
        STAGE_BIT(STAGE_OPEN) | STAGE_BIT(STAGE_LATE);
    const WinterPlan plan = plan_winter(*state, &hand->question);
    assert_int_equal(plan.verdict, PLAN_BALANCED);
    assert_near(plan.blocks[0].eaten[0], 2.0, 1e-6);
    assert_near(plan.blocks[0].eaten[1], 8.0, 1e-6);
}

/* 1,500 mg/L of sulfate at 4 L a kg bring 0.2003 % of sulfur, hay 0.3 %, and 0.4 is the most.
 */
static void sulfur_of_the_water_gives_before_cattle_starve(void **state) {
    HandQuestion *hand = on_one_hay(*state, NUTRIENT_SULFUR, 0.3, 0.4);
    hand->farm.winter.water_sulfate_mg_per_l = 1500.0;
    const WinterPlan plan = plan_winter(*state, &hand->question);
    assert_int_equal(plan.verdict, PLAN_SHORT);
    assert_near(plan.blocks[0].eaten[0], 10.0, 1e-4);
    assert_near(limit_named(&plan, 0, "held")->short_by, 0.1003, 1e-4);
}

/* To be a little less short of it the plan once bought limestone and salt, which thin a well on
 * paper alone. */
static void no_mineral_is_fed_to_thin_the_sulfur_of_the_water(void **state) {
    HandQuestion *hand = on_one_hay(*state, NUTRIENT_SULFUR, 0.3, 0.4);
    PlanFeed *limestone = hand_offer(hand, "Limestone", 0.001);
    limestone->degraded = limestone->undegraded = 0.0;
    for (int n = 0; n < NUTRIENT_COUNT; n++)
        limestone->eaten[n] = 0.0;
    hand->stuffs[1].feed_class = FEED_CLASS_MINERAL;
    hand->farm.winter.water_sulfate_mg_per_l = 1500.0;
    const WinterPlan plan = plan_winter(*state, &hand->question);
    assert_near(plan.blocks[0].eaten[1], 0.0, 1e-6);
    assert_near(limit_named(&plan, 0, "held")->short_by, 0.1003, 1e-4);
}

/* The same sulfur from the feed alone: cattle go hungry before they are poisoned. */
static void sulfur_of_the_feed_never_gives(void **state) {
    HandQuestion *hand = on_one_hay(*state, NUTRIENT_SULFUR, 0.5, 0.4);
    hand->farm.winter.water_sulfate_mg_per_l = 500.0;
    const WinterPlan plan = plan_winter(*state, &hand->question);
    assert_int_equal(plan.verdict, PLAN_SHORT);
    assert_near(plan.blocks[0].eaten[0], 0.0, 1e-6);
}

/* 1,000 mg/L of sodium at 4 L a kg are 2.542 times 0.4 %, 1.0168 % of salt; the hay
 * brings 2.542 of the 3 there may be. */
static void salt_of_the_water_gives_before_cattle_starve(void **state) {
    HandQuestion *hand = on_one_hay(*state, NUTRIENT_SODIUM, 1.0, 3.0);
    hand->farm.winter.water_sodium_mg_per_l = 1000.0;
    const WinterPlan plan = plan_winter(*state, &hand->question);
    assert_int_equal(plan.verdict, PLAN_SHORT);
    assert_near(plan.blocks[0].eaten[0], 10.0, 1e-4);
    assert_near(limit_named(&plan, 0, "held")->short_by, 0.5588, 1e-4);
}

/* With dear hay of no salt to be had, of 10 kg eaten x of the salty: 0.2542 x + 1.0168 = 3. */
static void salt_of_the_water_takes_its_share_of_what_feed_may_bring(void **state) {
    HandQuestion *hand = on_one_hay(*state, NUTRIENT_SODIUM, 1.0, 3.0);
    hand_offer(hand, "Brome", 0.20)->eaten[NUTRIENT_SODIUM] = 0.0;
    hand->farm.winter.water_sodium_mg_per_l = 1000.0;
    const WinterPlan plan = plan_winter(*state, &hand->question);
    assert_int_equal(plan.verdict, PLAN_BALANCED);
    assert_near(plan.blocks[0].eaten[0], 7.802, 0.01);
    hand->farm.winter.water_sodium_mg_per_l = 0.0;
    const WinterPlan fresh = plan_winter(*state, &hand->question);
    assert_near(fresh.blocks[0].eaten[0], 10.0, 1e-4);
}

/* Any copper is enough for no molybdenum: it was once told as none of what is needed. */
static void a_diet_without_molybdenum_is_not_short_of_copper_for_it(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    hand_offer(hand, "Hay", 0.20)->eaten[NUTRIENT_COPPER] = 5.0;
    PlanFeed *dearer = hand_offer(hand, "Clover", 0.30);
    dearer->eaten[NUTRIENT_COPPER] = 5.0;
    dearer->eaten[NUTRIENT_MOLYBDENUM] = 1.0;
    hand_group(hand, "Cows", 10, 12.0, 30);
    SafetyLimit *limit =
        hand_nutrient_limit(hand, "copper_molybdenum", NUTRIENT_COPPER, 3.0, 2.0);
    limit->kind = LIMIT_RATIO;
    limit->subject = SUBJECT_COPPER_TO_MOLYBDENUM;
    limit->side = SIDE_LEAST;
    const WinterPlan plan = plan_winter(*state, &hand->question);
    const LimitOutcome *of = limit_named(&plan, 0, "copper_molybdenum");
    assert_true(isnan(of->supplied));
    assert_near(of->short_by, 0.0, 0.0);
}

/* 10 cows and 20, 30 days, 10 kg each: 9 t eaten. The stack feeds 4.05 t of it, the rest is
 * bought at 20 cents; a twentieth of what is bought is lost on the way. */
static void two_groups_share_a_stack_and_buy_the_rest(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    hand_own(hand, "Hay", 0.10, 5000);
    hand_offer(hand, "Bought hay", 0.20)->shrink_share = 0.05;
    hand_group(hand, "Old cows", 10, 12.0, 30);
    hand_group(hand, "Young cows", 20, 12.0, 30);
    const WinterPlan plan = plan_winter(*state, &hand->question);
    assert_int_equal(plan.verdict, PLAN_BALANCED);
    assert_near(plan.taken_kg[0], 5000.0, 0.01);
    const double from_truck = (9000.0 - 4050.0) * STACK_KG_PER_KG_EATEN;
    assert_near(plan.taken_kg[1], from_truck, 0.01);
    assert_near(plan.bought_kg[1], from_truck / 0.95, 0.01);
    assert_near(plan.cost.own_feed, 500.0, 1e-3);
    assert_near(plan.cost.bought, 0.20 * from_truck / 0.95, 1e-2);
    for (int b = 0; b < 2; b++)
        assert_near(plan.blocks[b].dry_matter_kg, 10.0, 1e-5);
}

/* The same hay as the truck's: a tonne more of it saves a tonne from the truck, 200 less 100.
 */
static void the_worth_of_a_tonne_is_what_it_replaces(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    hand_own(hand, "Hay", 0.10, 5000);
    hand_offer(hand, "Bought hay", 0.20);
    hand_group(hand, "Cows", 100, 12.0, 30);
    const WinterPlan plan = plan_winter(*state, &hand->question);
    assert_near(plan_cost_change(*state, &plan, 0, 1000.0), -100.0, 1e-3);
    assert_near(plan_cost_change(*state, &plan, 0, -1000.0), 100.0, 1e-3);
    /* taking away more than there is leaves none of it */
    assert_near(plan_cost_change(*state, &plan, 0, -9000.0), 500.0, 1e-3);
    assert_near(plan.solution.shadow_price[plan.program->stock[0]], -100.0, 1e-4);
}

/* Own hay costs 11 cents with its hauling; the same from a truck comes in below that, less a
 * twentieth that is lost on the way. */
static void an_unused_offer_enters_where_it_costs_what_it_replaces(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    hand_own(hand, "Hay", 0.10, 100000)->haul_per_kg = 0.01;
    hand_offer(hand, "Bought hay", 0.20)->shrink_share = 0.05;
    hand_group(hand, "Cows", 100, 12.0, 30);
    const WinterPlan plan = plan_winter(*state, &hand->question);
    assert_near(plan.bought_kg[1], 0.0, 1e-9);
    const PriceRange *prices = price_ranges(*state, &plan);
    assert_near(prices[1].enters_below, 0.11 * 0.95, 1e-6);
    assert_true(isnan(prices[0].enters_below)); /* own feed is not bought */
}

/* 60 t hold 54 t of dry matter; cattle take 10 kg / 0.9 a head and day, 33.333 t: 20.667 are
 * left. */
static void what_is_to_be_left_over_is_left_when_it_can_be(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    hand_own(hand, "Hay", 0.10, 60000);
    hand_group(hand, "Cows", 100, 12.0, 30);
    hand->farm.winter.carry_over_kg = 20000.0;
    const WinterPlan plan = plan_winter(*state, &hand->question);
    assert_int_equal(plan.verdict, PLAN_BALANCED);
    assert_near(plan.carry_over_short_kg, 0.0, 0.0);
}

static void what_lacks_of_the_feed_to_be_left_over_is_told(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    hand_own(hand, "Hay", 0.10, 60000);
    hand_group(hand, "Cows", 100, 12.0, 30);
    hand->farm.winter.carry_over_kg = 25000.0;
    const WinterPlan plan = plan_winter(*state, &hand->question);
    assert_int_equal(plan.verdict, PLAN_SHORT);
    assert_near(plan.carry_over_short_kg, 25000.0 - (54000.0 - 30000.0 / 0.9), 1.0);
    assert_near(plan.blocks[0].eaten[0], 10.0, 1e-5); /* cattle come first */
}

/* With hay for sale what lacks is bought: 4,333 kg of dry matter less from the stack. */
static void what_lacks_of_the_feed_to_be_left_over_is_bought(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    hand_own(hand, "Hay", 0.10, 60000);
    hand_offer(hand, "Bought hay", 0.20);
    hand_group(hand, "Cows", 100, 12.0, 30);
    hand->farm.winter.carry_over_kg = 25000.0;
    const WinterPlan plan = plan_winter(*state, &hand->question);
    assert_int_equal(plan.verdict, PLAN_BALANCED);
    assert_near(plan.bought_kg[1], (25000.0 - (54000.0 - 30000.0 / 0.9)) / 0.9, 0.05);
}

/* NEm 1.6 and NEg 1.0: upkeep of 6 Mcal takes 3.75 kg, a gain of 2 Mcal 2 kg more. */
static void growing_cattle_get_upkeep_first_and_gain_from_the_rest(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    PlanFeed *feed = hand_own(hand, "Chop", 0.10, 100000);
    feed->eaten[NUTRIENT_NEM] = 1.6;
    feed->eaten[NUTRIENT_NEG] = 1.0;
    PlanBlock *block = hand_group(hand, "Steers", 10, 6.0, 30);
    block->need.retained.mcal_per_day = 2.0;
    block->need.equivalent = (Mass){300.0};
    block->need.stages = STAGE_BIT(STAGE_GROWING);
    block->need.least.added = 5.0;
    const WinterPlan plan = plan_winter(*state, &hand->question);
    assert_int_equal(plan.verdict, PLAN_BALANCED);
    assert_near(plan.blocks[0].eaten[0], 5.75, 1e-5);
    assert_near(plan.blocks[0].gain_energy, 2.0, 1e-5);
    assert_near(plan.blocks[0].nem_kept, 6.0, 1e-9);
    assert_true(plan.has_settled);
}

/* Both stacks must go: 9 of the 18 t eaten are of each. Fed half and half all winter nothing
 * changes at the turn of the periods. */
static void of_plans_that_cost_the_same_the_steadiest_is_taken(void **state) {
    HandQuestion *hand = hand_question(*state, 60);
    hand_own(hand, "East hay", 0.10, 9000.0 * STACK_KG_PER_KG_EATEN);
    hand_own(hand, "West hay", 0.10, 9000.0 * STACK_KG_PER_KG_EATEN);
    hand_offer(hand, "Bought hay", 0.50);
    hand_group(hand, "Cows", 30, 12.0, 30);
    hand_period(hand, 12.0, 30);
    const WinterPlan plan = plan_winter(*state, &hand->question);
    assert_int_equal(plan.verdict, PLAN_BALANCED);
    assert_true(plan.is_steady);
    for (int f = 0; f < 2; f++)
        assert_near(plan.blocks[0].eaten[f], plan.blocks[1].eaten[f], 0.05);
    assert_near(plan.cost.total, 0.10 * 18000.0 * STACK_KG_PER_KG_EATEN, 3.0);
}

static void whether_a_winter_can_be_balanced_is_answered_with_what_lacks(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    PlanFeed *feed = hand_own(hand, "Hay", 0.10, 40000);
    hand_group(hand, "Cows", 100, 12.0, 30);
    FirstShortage shortage = {-1, NULL};
    PlanStart start = {0};
    assert_true(plan_can_be_balanced(*state, &hand->question, &start, &shortage));
    assert_null(shortage.limit);
    feed->available_kg = 20000;
    assert_false(plan_can_be_balanced(*state, &hand->question, &start, NULL));
    assert_false(plan_can_be_balanced(*state, &hand->question, &start, &shortage));
    assert_int_equal(shortage.group, 0);
    assert_string_equal(shortage.limit->key, "net_energy_maintenance");
}

/* From the basis of the least shortage the primal simplex never came to an end on this winter,
 * which cannot be balanced. */
static void
a_winter_on_which_the_solver_goes_round_in_a_circle_is_planned_all_the_same(void **state) {
    const FarmSize size = {3, 5, 4, 180, false};
    const PlannedFarm *farm = planned_farm(*state, farm_drafted(*state, 5, size));
    assert_int_equal(farm->plan.verdict, PLAN_SHORT);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_cow_of_little_need_is_still_filled),
        UNIT_TEST(the_price_of_a_concentration_is_that_of_one_unit_of_it),
        UNIT_TEST(a_cow_of_more_need_eats_what_it_takes),
        UNIT_TEST(a_shortage_is_told_to_the_kilogram),
        UNIT_TEST(nitrate_of_the_whole_diet_holds_the_cheap_greenfeed),
        UNIT_TEST(nitrate_of_the_water_takes_its_part),
        UNIT_TEST(the_hotter_a_feed_the_less_of_it_is_given),
        UNIT_TEST(a_poison_never_gives_to_hunger),
        UNIT_TEST(straw_fills_cattle_that_have_little_else_up_to_its_weight),
        UNIT_TEST(the_share_of_straw_near_calving_never_gives_for_money),
        UNIT_TEST(sulfur_of_the_water_gives_before_cattle_starve),
        UNIT_TEST(salt_of_the_water_gives_before_cattle_starve),
        UNIT_TEST(salt_of_the_water_takes_its_share_of_what_feed_may_bring),
        UNIT_TEST(no_mineral_is_fed_to_thin_the_sulfur_of_the_water),
        UNIT_TEST(sulfur_of_the_feed_never_gives),
        UNIT_TEST(a_diet_without_molybdenum_is_not_short_of_copper_for_it),
        UNIT_TEST(two_groups_share_a_stack_and_buy_the_rest),
        UNIT_TEST(the_worth_of_a_tonne_is_what_it_replaces),
        UNIT_TEST(an_unused_offer_enters_where_it_costs_what_it_replaces),
        UNIT_TEST(what_is_to_be_left_over_is_left_when_it_can_be),
        UNIT_TEST(what_lacks_of_the_feed_to_be_left_over_is_told),
        UNIT_TEST(what_lacks_of_the_feed_to_be_left_over_is_bought),
        UNIT_TEST(growing_cattle_get_upkeep_first_and_gain_from_the_rest),
        UNIT_TEST(of_plans_that_cost_the_same_the_steadiest_is_taken),
        UNIT_TEST(whether_a_winter_can_be_balanced_is_answered_with_what_lacks),
        UNIT_TEST(a_winter_on_which_the_solver_goes_round_in_a_circle_is_planned_all_the_same),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
