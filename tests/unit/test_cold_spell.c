/* Cold days worked by hand: support/hand_question.h. A cow is fed 10 kg of hay for 12 Mcal, and
 * eats 12 kg at most. */
#include "planner/cold_spell.h"
#include "support/hand_question.h"
#include "support/unit.h"

static HandQuestion *cows_in_november(Arena *arena, double spell_mcal) {
    HandQuestion *hand = hand_question(arena, 30);
    hand->farm.weather.month[11].cold_spell = (Temperature){-30.0};
    hand_own(hand, "Hay", 0.10, 100000);
    hand_group(hand, "Cows", 100, 12.0, 30)->need.cold_spell_energy = spell_mcal;
    return hand;
}

static void add_barley(HandQuestion *hand) {
    PlanFeed *barley = hand_own(hand, "Barley", 0.50, 100000);
    hand->stuffs[1].feed_class = FEED_CLASS_GRAIN;
    barley->eaten[NUTRIENT_NEM] = 2.0;
}

static ColdSpell spell_of(Arena *arena, HandQuestion *hand, WinterPlan *plan) {
    *plan = plan_winter(arena, &hand->question);
    assert_int_equal(plan->verdict, PLAN_BALANCED);
    return cold_spells(arena, plan)[0];
}

/* 1.2 Mcal more is one kg of hay; ten days of it for 100 head are 1,000 / 0.81 kg. */
static void a_cold_day_takes_the_hay_that_brings_its_energy(void **state) {
    WinterPlan plan;
    const ColdSpell spell = spell_of(*state, cows_in_november(*state, 1.2), &plan);
    assert_int_equal(spell.block, 0);
    assert_near(spell.air.celsius, -30.0, 0.0);
    assert_near(spell.eaten[0], 11.0, 1e-5);
    assert_near(spell.lack_mcal, 0.0, 0.0);
    assert_near(cold_spell_takes_kg(&plan, &spell, 0), 1000.0 / 0.81, 0.05);
}

/* 3.6 Mcal: with 0.4536 kg of barley put out, 0.3674 eaten, 1.6326 kg of hay fill her to 12:
 * 0.7348 + 1.9591 Mcal, so 0.9061 are lacking, and grain is not what mends it in one day. */
static void grain_goes_up_by_one_step_and_the_rest_is_said_to_lack(void **state) {
    WinterPlan plan;
    HandQuestion *hand = cows_in_november(*state, 3.6);
    add_barley(hand);
    const ColdSpell spell = spell_of(*state, hand, &plan);
    assert_near(spell.eaten[1], 0.45359237 * 0.81, 1e-5);
    assert_near(spell.eaten[0], 12.0 - 0.45359237 * 0.81, 1e-5);
    assert_near(spell.lack_mcal, 3.6 - 2.0 * 0.36741 - 1.2 * (2.0 - 0.36741), 1e-3);
    assert_true(spell.is_held_by_step);
}

/* Barley that is hardly needed is not fed: hay alone is the smaller change. */
static void a_feed_not_fed_now_is_not_begun_where_the_others_do(void **state) {
    WinterPlan plan;
    HandQuestion *hand = cows_in_november(*state, 1.2);
    add_barley(hand);
    const ColdSpell spell = spell_of(*state, hand, &plan);
    assert_near(spell.eaten[1], 0.0, 1e-6);
    assert_near(spell.eaten[0], 11.0, 1e-5);
}

/* Better hay at twice the energy that nobody should turn hungry cattle onto. */
static void feed_high_in_nitrate_does_not_go_up(void **state) {
    WinterPlan plan;
    HandQuestion *hand = cows_in_november(*state, 3.6);
    PlanFeed *greenfeed = hand_own(hand, "Greenfeed", 0.50, 100000);
    greenfeed->eaten[NUTRIENT_NEM] = 2.4;
    greenfeed->eaten[NUTRIENT_NITRATE] = 0.4;
    const ColdSpell spell = spell_of(*state, hand, &plan);
    assert_near(spell.eaten[1], 0.0, 1e-9);
    assert_near(spell.eaten[0], 12.0, 1e-5);
    assert_near(spell.lack_mcal, 1.2, 1e-4);
    assert_false(spell.is_held_by_step);
}

/* 1.2 Mcal lacking on each of ten days, 12 Mcal of diet, takes 15 off the body; a score of this
 * cow from 5 to 4 is 207 for 499 kg, about 250 for 600: some 0.06 of it. */
static void what_lacks_comes_off_the_condition(void **state) {
    WinterPlan plan;
    HandQuestion *hand = cows_in_november(*state, 3.6);
    hand->blocks[0].need.condition = 5.0;
    const ColdSpell spell = spell_of(*state, hand, &plan);
    assert_near(spell.lack_mcal, 1.2, 1e-4);
    assert_true(spell.condition_change < -0.05 && spell.condition_change > -0.07);
}

static void cold_that_adds_nothing_changes_nothing(void **state) {
    WinterPlan plan;
    assert_int_equal(spell_of(*state, cows_in_november(*state, 0.0), &plan).block, -1);
}

/* 9.6 Mcal are needed and 10.8 fed, to fill her: 1.2 more are there already. */
static void a_ration_that_carries_the_cold_stays(void **state) {
    WinterPlan plan;
    HandQuestion *hand = cows_in_november(*state, 1.2);
    hand->blocks[0].need.energy.maintenance = 9.6;
    const ColdSpell spell = spell_of(*state, hand, &plan);
    assert_near(spell.eaten[0], 9.0, 1e-6);
    assert_near(spell.lack_mcal, 0.0, 0.0);
}

/* 1.2 Mcal are a kg of hay, and 2.4 in the second half of November two. */
static void every_period_has_the_change_of_its_own_cold_spell(void **state) {
    HandQuestion *hand = cows_in_november(*state, 1.2);
    hand->blocks[0].days = 15;
    hand->blocks[0].to = calendar_add(hand->blocks[0].from, 14);
    hand_period(hand, 12.0, 15)->need.cold_spell_energy = 2.4;
    const WinterPlan plan = plan_winter(*state, &hand->question);
    const ColdSpell *spells = cold_spells_by_period(*state, &plan);
    assert_int_equal(spells[0].block, 0);
    assert_near(spells[0].eaten[0], 11.0, 1e-5);
    assert_int_equal(spells[1].block, 1);
    assert_near(spells[1].eaten[0], 12.0, 1e-5);
    assert_int_equal(cold_spells(*state, &plan)[0].block, 1);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_cold_day_takes_the_hay_that_brings_its_energy),
        UNIT_TEST(grain_goes_up_by_one_step_and_the_rest_is_said_to_lack),
        UNIT_TEST(a_feed_not_fed_now_is_not_begun_where_the_others_do),
        UNIT_TEST(feed_high_in_nitrate_does_not_go_up),
        UNIT_TEST(what_lacks_comes_off_the_condition),
        UNIT_TEST(cold_that_adds_nothing_changes_nothing),
        UNIT_TEST(a_ration_that_carries_the_cold_stays),
        UNIT_TEST(every_period_has_the_change_of_its_own_cold_spell),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
