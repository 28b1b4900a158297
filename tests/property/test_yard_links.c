/* The largest change from period to period: its rows are put in as answers break them, and what
 * that comes to is what the simplex makes of all of them. */
#include "planner/yard_linked.h"
#include "support/planned_farm.h"
#include "support/unit.h"
#include <math.h>

#define FARMS 16

static const FarmSize SIZE = {2, 5, 6, 110, true};

static PlannedFarm *farm_of(Arena *arena, int seed) {
    const unsigned long long as_seed = (unsigned long long)seed;
    return asked_farm(arena, farm_drafted(arena, as_seed, SIZE));
}

static YardRules change_alone(void) {
    YardRules rules = {{false}};
    rules.is_on[YARD_RULE_LARGEST_CHANGE] = true;
    return rules;
}

static double *nothing_fixed(Arena *arena, const YardProgram *yard) {
    double *fixed = ARENA_ARRAY(arena, double, lp_column_count(yard->lp));
    for (int j = 0; j < lp_column_count(yard->lp); j++)
        fixed[j] = (double)NAN;
    return fixed;
}

/* The solution of the linked program breaks none of all the rows, and no row that is idle would
 * make it dearer. */
static void rows_put_in_as_they_are_broken_cost_what_all_of_them_cost(void **state) {
    (void)state;
    int tied = 0;
    for (int seed = 2; seed <= 2 * FARMS; seed += 2) {
        Arena *arena = arena_open();
        PlannedFarm *farm = farm_of(arena, seed);
        farm->farm.winter.rules.largest_change_share = 0.05 + 0.01 * (seed % 20);
        farm->farm.winter.rules.largest_change_kg = seed % 4 == 0 ? 1.5 : 0.0;
        farm->question = plan_question(arena, &farm->farm);
        const WinterPlan plan = plan_winter(arena, &farm->question);
        if (plan.verdict != PLAN_BALANCED) {
            arena_close(arena);
            continue;
        }
        const YardRules rules = change_alone();
        const YardProgram yard = yard_program(arena, plan.program, &rules);
        const LpSolution whole = lp_solve(yard.lp, arena, START_COLD, NULL, 0);
        RationProgram held;
        BlockProgram *blocks;
        const LpSolution linked = yard_linked_solve(arena, &yard, nothing_fixed(arena, &yard),
                                                    &plan.solution, &held, &blocks);
        assert_int_equal(linked.status, whole.status);
        if (whole.status == LP_OPTIMAL) {
            assert_near(linked.cost, whole.cost,
                        2.0 * YARD_LINKED_GAP * (1.0 + fabs(whole.cost)));
            tied += whole.cost > plan.solution.cost * (1.0 + 1e-6);
        }
        arena_close(arena);
    }
    assert_true(tied >= 4);
}

/* The rations of all periods that are evened out keep to all rows, idle or not. */
static void a_plan_keeps_the_largest_change_in_every_period(void **state) {
    (void)state;
    int kept = 0;
    for (int seed = 2; seed <= 2 * FARMS; seed += 2) {
        Arena *arena = arena_open();
        PlannedFarm *farm = farm_of(arena, seed);
        const double share = 0.08;
        farm->farm.winter.rules.largest_change_share = share;
        farm->question = plan_question(arena, &farm->farm);
        const WinterPlan plan = plan_with_yard_rules(arena, &farm->question);
        const PlanQuestion *question = &farm->question;
        const bool is_kept =
            plan.verdict == PLAN_BALANCED && plan.yard->kept.is_on[YARD_RULE_LARGEST_CHANGE];
        kept += is_kept;
        for (int b = 1; is_kept && b < question->block_count; b++) {
            for (int f = 0; question->blocks[b].group == question->blocks[b - 1].group &&
                            f < question->feed_count;
                 f++) {
                if (ration_feed_fills(&question->feeds[f]))
                    assert_true(fabs(plan.blocks[b].eaten[f] - plan.blocks[b - 1].eaten[f]) <=
                                share * plan.blocks[b].filling_kg + 1e-5);
            }
        }
        arena_close(arena);
    }
    assert_true(kept >= FARMS / 2);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rows_put_in_as_they_are_broken_cost_what_all_of_them_cost),
        cmocka_unit_test(a_plan_keeps_the_largest_change_in_every_period),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
