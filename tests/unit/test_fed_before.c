/* What cattle are used to before the rest of a winter, worked by hand: a rest from 1 November
 * of support/hand_question.h, so that the last plan's days are in October. */
#include "planner/fed_before.h"
#include "planner/step_up.h"
#include "support/hand_question.h"
#include "support/unit.h"

enum { HAY, BARLEY, FEEDS };

typedef struct {
    HandQuestion *hand;
    KeptRation rations[4];
    Feeding feedings[2];
    Stack stacks[FEEDS];
    const char *names[FEEDS];
} Rest;

static Day october(int day) { return calendar_day(2026, 10, day); }

/* Ten cows, 2 kg of barley a head by the last plan since 1 October. */
static Rest *rest_of_winter(Arena *arena) {
    Rest *rest = ARENA_NEW(arena, Rest);
    HandQuestion *hand = rest->hand = hand_question(arena, 30);
    hand_own(hand, "Hay", 0.1, 1.0e6);
    hand_own(hand, "Barley", 0.1, 1.0e6);
    hand->stuffs[BARLEY].feed_class = FEED_CLASS_GRAIN;
    hand_group(hand, "Cows", 10, 12.0, 30);
    rest->rations[0] = (KeptRation){october(1), october(31), "Cows", "Hay", 80.0, 8.0, 10.0};
    rest->rations[1] = (KeptRation){october(1), october(31), "Cows", "Barley", 20.0, 2.0, 10.0};
    hand->farm.is_rest_of_winter = true;
    hand->farm.kept = (KeptPlan){rest->rations, 2, october(1), october(31)};
    for (int s = 0; s < FEEDS; s++)
        rest->names[s] = hand->feeds[s].name;
    rest->stacks[HAY].name = "Hay";
    rest->stacks[BARLEY].name = "Barley";
    rest->stacks[HAY].counted = rest->stacks[BARLEY].counted = october(1);
    hand->farm.as_counted.stacks =
        (Stacks){.stacks = rest->stacks, .names = rest->names, .count = FEEDS};
    return rest;
}

static void a_head_is_used_to_what_the_last_plan_gave_it(void **state) {
    const FedBefore before = fed_before(*state, &rest_of_winter(*state)->hand->question, 0);
    assert_true(before.is_known);
    assert_near(before.kg[HAY], 8.0, 1e-9);
    assert_near(before.kg[BARLEY], 2.0, 1e-9);
}

/* From 20 October on 3 kg: it may still be coming in. */
static void a_ration_of_few_days_counts_as_the_one_before(void **state) {
    Rest *rest = rest_of_winter(*state);
    rest->rations[1].to = october(19);
    rest->rations[2] =
        (KeptRation){october(20), october(31), "Cows", "Barley", 30.0, 3.0, 10.0};
    rest->hand->farm.kept.count = 3;
    assert_near(fed_before(*state, &rest->hand->question, 0).kg[BARLEY], 2.0, 1e-9);
}

static void of_a_plan_that_began_lately_nothing_is_known(void **state) {
    Rest *rest = rest_of_winter(*state);
    rest->hand->farm.kept.first_day = october(5);
    assert_false(fed_before(*state, &rest->hand->question, 0).is_known);
}

static void of_a_file_without_head_nothing_is_known(void **state) {
    Rest *rest = rest_of_winter(*state);
    rest->rations[0].head = rest->rations[1].head = 0.0;
    assert_false(fed_before(*state, &rest->hand->question, 0).is_known);
}

static void a_whole_winter_begins_at_what_nobody_knows(void **state) {
    Rest *rest = rest_of_winter(*state);
    rest->hand->farm.is_rest_of_winter = false;
    assert_false(fed_before(*state, &rest->hand->question, 0).is_known);
}

static Feeding barley_on(int day, double kg) {
    return (Feeding){.date = october(day),
                     .stack = BARLEY,
                     .group = "Cows",
                     .amount = {.unit = AMOUNT_KG, .number = kg}};
}

/* 70 and 105 kg in the two weeks, 1 and 1.5 a head and day, where the plan had two. Of hay none
 * is written. */
static void own_feed_counts_as_it_was_written_down_where_that_is_less(void **state) {
    Rest *rest = rest_of_winter(*state);
    rest->feedings[0] = barley_on(20, 70.0);
    rest->feedings[1] = barley_on(25, 105.0);
    rest->hand->farm.record = (FeedRecord){.feedings = rest->feedings, .feeding_count = 2};
    const FedBefore before = fed_before(*state, &rest->hand->question, 0);
    assert_near(before.kg[BARLEY], 1.0, 1e-9);
    assert_near(before.kg[HAY], 0.0, 1e-9);
}

static void feed_not_written_down_for_a_week_is_none_they_are_used_to(void **state) {
    Rest *rest = rest_of_winter(*state);
    rest->feedings[0] = barley_on(20, 140.0);
    rest->hand->farm.record = (FeedRecord){.feedings = rest->feedings, .feeding_count = 1};
    assert_near(fed_before(*state, &rest->hand->question, 0).kg[BARLEY], 0.0, 1e-9);
}

/* 2 kg of barley are to be 2.9: they have the two already, and a pound more. */
static void the_step_up_of_a_rest_begins_at_what_they_had(void **state) {
    Rest *rest = rest_of_winter(*state);
    double eaten[FEEDS] = {7.0, 2.9 * 0.81};
    double taken[FEEDS] = {0.0, 0.0};
    BlockOutcome block = {.eaten = eaten};
    const WinterPlan plan = {
        .question = &rest->hand->question, .blocks = &block, .taken_kg = taken};
    const StepUp *list;
    assert_int_equal(step_ups(*state, &plan, &list), 1);
    assert_true(list[0].is_used_to_some);
    assert_near(list[0].feeds[0].from_kg, 2.0, 1e-9);
    assert_near(list[0].put_out_kg[0], 2.0 + KG_PER_POUND, 1e-9);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_head_is_used_to_what_the_last_plan_gave_it),
        UNIT_TEST(a_ration_of_few_days_counts_as_the_one_before),
        UNIT_TEST(of_a_plan_that_began_lately_nothing_is_known),
        UNIT_TEST(of_a_file_without_head_nothing_is_known),
        UNIT_TEST(a_whole_winter_begins_at_what_nobody_knows),
        UNIT_TEST(own_feed_counts_as_it_was_written_down_where_that_is_less),
        UNIT_TEST(feed_not_written_down_for_a_week_is_none_they_are_used_to),
        UNIT_TEST(the_step_up_of_a_rest_begins_at_what_they_had),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
