/* Farm S: large enough that where evening out begins can be told from its steps. */
#include "planner/steady_prices.h"
#include "planner/steady_ration.h"
#include "planner/winter_plan.h"

#include "entry/farm_reading.h"
#include "support/farm_maker.h"
#include "support/unit.h"

typedef struct {
    Farm farm;
    PlanQuestion question;
    WinterPlan plan;
    LpTerms terms;
    double most;
} Planned;

static Planned *planned(Arena *arena) {
    Planned *of = ARENA_NEW(arena, Planned);
    FarmRequest request;
    farm_made_of_size(arena, 1, FARM_S, &request);
    Faults faults = faults_new(arena);
    assert_true(farm_read(arena, &faults, &request, &of->farm));
    of->question = plan_question(arena, &of->farm);
    of->plan = plan_winter(arena, &of->question);
    assert_int_equal(of->plan.verdict, PLAN_BALANCED);
    of->terms = lp_terms(of->plan.program->lp, arena);
    of->most = of->plan.solution.cost * (1.0 + STEADY_COST_SHARE);
    return of;
}

static Steady program_of(Arena *arena, const Planned *of, const SteadyStart *start) {
    Steady steady;
    steady_program(&steady, arena, of->plan.program, &of->terms, &of->plan.solution,
                   of->plan.solution.value, -1, of->most, start);
    return steady;
}

static LpSolution solved(Arena *arena, const Steady *steady, LpStart how) {
    return lp_solve(steady->lp, arena, how, &steady->best.basis, STEADY_ITERATIONS);
}

/* The same steadiness, whose aim is one number, from the cheapest plan and from the groups. */
static void groups_at_prices_are_a_few_steps_from_the_steadiest(void **state) {
    const Planned *of = planned(*state);
    const Steady plain = program_of(*state, of, NULL);
    const LpSolution expected = solved(*state, &plain, START_COSTS_CHANGED);
    assert_int_equal(expected.status, LP_OPTIMAL);

    SteadyStart start = {.arena = *state};
    assert_true(steady_groups_at_prices(of->plan.program, &of->terms, &of->plan.solution,
                                        of->most, &start));
    Steady together = program_of(*state, of, &start);
    steady_bring_together(&together, &of->plan.solution);
    const LpSolution found = solved(*state, &together, START_COSTS_CHANGED);
    assert_int_equal(found.status, LP_OPTIMAL);
    assert_near(found.cost, expected.cost, 1e-6 * expected.cost);
    assert_true(10 * found.iterations < expected.iterations);
}

static void from_where_it_ended_evening_out_takes_no_step(void **state) {
    const Planned *of = planned(*state);
    Steady first = program_of(*state, of, NULL);
    assert_true(steady_solve(&first, START_COSTS_CHANGED, &first.best.basis));
    SteadyStart start = {.arena = *state};
    steady_take_start(&start, &first);
    Steady again = program_of(*state, of, &start);
    assert_true(steady_solve(&again, START_COSTS_CHANGED, &again.best.basis));
    assert_int_equal(again.best.iterations, 0);
    assert_near(again.best.cost, first.best.cost, 1e-9 * first.best.cost);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(groups_at_prices_are_a_few_steps_from_the_steadiest),
        UNIT_TEST(from_where_it_ended_evening_out_takes_no_step),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
