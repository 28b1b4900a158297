/* Two hays alike and two groups alike: who eats which costs nothing either way. */
#include "planner/tie_break.h"
#include "planner/winter_plan.h"
#include "support/hand_question.h"
#include "support/unit.h"
#include <string.h>

static const char *const HAYS[] = {"North hay", "South hay"};
static const char *const GROUPS[] = {"Old cows", "Young cows"};

/* Each hay is enough for one group: 10 head and 20 days at 10 kg are 2,000 kg eaten. */
static const WinterPlan *two_of_each(Arena *arena, bool is_turned, double dearer_per_kg) {
    HandQuestion *hand = hand_question(arena, 20);
    for (int i = 0; i < 2; i++) {
        const int of = is_turned ? 1 - i : i;
        hand_own(hand, HAYS[of], 0.1 + of * dearer_per_kg, 2500.0);
    }
    for (int i = 0; i < 2; i++)
        hand_group(hand, GROUPS[i], 10.0, 12.0, 20);
    WinterPlan *plan = ARENA_NEW(arena, WinterPlan);
    *plan = plan_least_cost(arena, &hand->question);
    assert_int_equal(plan->verdict, PLAN_BALANCED);
    assert_non_null(plan->answer);
    return plan;
}

/* kg a head and day of that hay by that group. */
static double eaten(const WinterPlan *plan, const LpSolution *solution, const char *group,
                    const char *hay) {
    const PlanQuestion *question = plan->question;
    for (int b = 0; b < question->block_count; b++) {
        for (int f = 0; f < question->feed_count; f++) {
            const bool is_it =
                strcmp(question->farm->herd.names[question->blocks[b].group], group) == 0 &&
                strcmp(question->feeds[f].name, hay) == 0;
            if (is_it)
                return solution->value[plan->program->eaten[b * question->feed_count + f]];
        }
    }
    fail_msg("nobody asked about %s and %s", group, hay);
    return 0.0;
}

static void who_eats_which_goes_by_names_and_not_by_the_order_of_rows(void **state) {
    const WinterPlan *plan = two_of_each(*state, false, 0.0);
    const WinterPlan *turned = two_of_each(*state, true, 0.0);
    const LpSolution one =
        tie_broken(*state, plan->program, plan->answer, &plan->solution, HUGE_VAL);
    const LpSolution other =
        tie_broken(*state, turned->program, turned->answer, &turned->solution, HUGE_VAL);
    for (int g = 0; g < 2; g++) {
        for (int h = 0; h < 2; h++)
            assert_near(eaten(plan, &one, GROUPS[g], HAYS[h]),
                        eaten(turned, &other, GROUPS[g], HAYS[h]), 1e-6);
    }
    assert_near(one.cost, plan->solution.cost, 1e-9 * plan->solution.cost);
}

/* With those of the whim evening out saw feeds that pay for being eaten, and gave more of them.
 */
static void the_prices_are_those_without_the_whim(void **state) {
    const WinterPlan *plan = two_of_each(*state, false, 0.0);
    const LpSolution broken =
        tie_broken(*state, plan->program, plan->answer, &plan->solution, HUGE_VAL);
    for (int f = 0; f < 2; f++) {
        const int row = plan->program->stock[f];
        assert_true(broken.shadow_price[row] == plan->solution.shadow_price[row]);
    }
}

static void no_whim_stays_in_the_costs(void **state) {
    const WinterPlan *plan = two_of_each(*state, false, 0.0);
    const LinearProgram *lp = plan->program->lp;
    double *before = ARENA_ARRAY(*state, double, lp_column_count(lp));
    for (int j = 0; j < lp_column_count(lp); j++)
        before[j] = lp_cost(lp, j);
    tie_broken(*state, plan->program, plan->answer, &plan->solution, HUGE_VAL);
    for (int j = 0; j < lp_column_count(lp); j++)
        assert_true(lp_cost(lp, j) == before[j]);
}

/* With a tenth of a dollar a tonne between them, a whim of a dollar may take the dearer. */
static void a_whim_costs_no_more_than_it_may(void **state) {
    const WinterPlan *plan = two_of_each(*state, false, 1e-4);
    const double least = plan->solution.cost;
    for (double share = 1e-3; share > 1e-7; share *= 0.1) {
        const LpSolution broken = tie_broken(*state, plan->program, plan->answer,
                                             &plan->solution, least * (1.0 + share));
        assert_true(broken.cost >= least * (1.0 - 1e-9));
        assert_true(broken.cost <= least * (1.0 + share));
    }
}

static void without_what_the_solve_left_the_plan_stays(void **state) {
    const WinterPlan *plan = two_of_each(*state, false, 0.0);
    const LpSolution same = tie_broken(*state, plan->program, NULL, &plan->solution, HUGE_VAL);
    assert_true(same.value == plan->solution.value && same.cost == plan->solution.cost);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(who_eats_which_goes_by_names_and_not_by_the_order_of_rows),
        UNIT_TEST(the_prices_are_those_without_the_whim),
        UNIT_TEST(no_whim_stays_in_the_costs),
        UNIT_TEST(a_whim_costs_no_more_than_it_may),
        UNIT_TEST(without_what_the_solve_left_the_plan_stays),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
