/* Errors of two stacks whose part in the cost can be worked out by hand: ten cows that need 12
 * Mcal a day for ten days eat 1,000 kg of dry matter of 1.2 Mcal, which takes 1,234.568 kg. */
#include "planner/cost_error.h"

#include "support/hand_question.h"
#include "support/unit.h"

/* Own hay at 10 cents, as much as is given, and hay to buy at 30. */
static HandQuestion *a_farm(Arena *arena, double own_kg) {
    HandQuestion *hand = hand_question(arena, 10);
    hand_own(hand, "Hay", 0.1, own_kg);
    hand_offer(hand, "Bought hay", 0.3);
    hand_group(hand, "Cows", 10.0, 12.0, 10);
    Stack *stack = ARENA_NEW(arena, Stack);
    *stack = (Stack){.name = "Hay", .kind = STACK_ROUND_BALES, .weight_error_share = 0.03};
    stack->feed = hand->stuffs[0];
    stack->feed.sampling.tdn = (SampleError){1.0, (double)NAN};
    stack->feed.sampling.crude_protein = (SampleError){0.6, 0.4};
    hand->farm.inventory.stacks.stacks = stack;
    hand->farm.inventory.stacks.count = 1;
    return hand;
}

static const CostError *errors_of(Arena *arena, const HandQuestion *hand, WinterPlan *plan) {
    *plan = plan_least_cost(arena, &hand->question);
    assert_int_equal(plan->verdict, PLAN_BALANCED);
    return cost_errors(arena, plan);
}

/* 3 % of 1,000 kg, weighed all together, at the 20 cents that bought hay costs more. */
static void weight_counts_by_what_stands_in_for_it(void **state) {
    WinterPlan plan;
    const CostError *errors = errors_of(*state, a_farm(*state, 1000.0), &plan);
    assert_near(errors[ERROR_OF_WEIGHT].standard, 0.03, 0.0);
    assert_near(errors[ERROR_OF_WEIGHT].up, -30.0 * 0.2, 1e-4);
    assert_near(errors[ERROR_OF_WEIGHT].down, 30.0 * 0.2, 1e-4);
}

static void weight_of_feed_that_is_left_over_counts_for_nothing(void **state) {
    WinterPlan plan;
    const CostError *errors = errors_of(*state, a_farm(*state, 5000.0), &plan);
    assert_near(errors[ERROR_OF_WEIGHT].up, 0.0, 1e-6);
    assert_near(errors[ERROR_OF_WEIGHT].down, 0.0, 1e-6);
}

/* Richer feed costs less and poorer more; the larger of both ways the samples speak counts. */
static void a_test_counts_to_both_sides(void **state) {
    WinterPlan plan;
    const CostError *errors = errors_of(*state, a_farm(*state, 1000.0), &plan);
    assert_near(errors[ERROR_OF_ENERGY].standard, 1.0, 0.0);
    assert_near(errors[ERROR_OF_PROTEIN].standard, 0.6, 0.0);
    assert_true(errors[ERROR_OF_ENERGY].up < 0.0);
    assert_true(errors[ERROR_OF_ENERGY].down > 0.0);
}

static void a_future_compared_with_itself_is_off_by_nothing(void **state) {
    WinterPlan plan;
    const CostError *errors = errors_of(*state, a_farm(*state, 1000.0), &plan);
    assert_near(cost_difference_error(&plan, errors, &plan, errors), 0.0, 0.0);
}

/* The stack matters in one of them only: in the other all of it is left but what is needed. */
static void of_a_difference_counts_what_moves_one_more_than_the_other(void **state) {
    WinterPlan scarce, plenty;
    CostError one[ERROR_KIND_COUNT], other[ERROR_KIND_COUNT];
    const CostError *of_scarce = errors_of(*state, a_farm(*state, 1000.0), &scarce);
    const CostError *of_plenty = errors_of(*state, a_farm(*state, 5000.0), &plenty);
    for (int kind = 0; kind < ERROR_KIND_COUNT; kind++) {
        const bool is_weight = kind == ERROR_OF_WEIGHT; /* leave the tests aside */
        one[kind] = is_weight ? of_scarce[kind] : (CostError){0.0, 0.0, 0.0};
        other[kind] = is_weight ? of_plenty[kind] : (CostError){0.0, 0.0, 0.0};
    }
    assert_near(cost_difference_error(&scarce, one, &plenty, other), 6.0, 1e-4);
    assert_near(cost_difference_error(&plenty, other, &scarce, one), 6.0, 1e-4);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(weight_counts_by_what_stands_in_for_it),
        UNIT_TEST(weight_of_feed_that_is_left_over_counts_for_nothing),
        UNIT_TEST(a_test_counts_to_both_sides),
        UNIT_TEST(a_future_compared_with_itself_is_off_by_nothing),
        UNIT_TEST(of_a_difference_counts_what_moves_one_more_than_the_other),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
