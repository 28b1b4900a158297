/* Farm S evened out and swept: what is left, and in how many steps. */
#include "planner/steady_crumbs.h"
#include "planner/steady_ration.h"
#include "planner/winter_plan.h"

#include "entry/farm_reading.h"
#include "support/farm_maker.h"
#include "support/unit.h"

/* Evened out, and not swept yet. */
static Steady *evened(Arena *arena, double caution_weight) {
    Farm *farm = ARENA_NEW(arena, Farm);
    PlanQuestion *question = ARENA_NEW(arena, PlanQuestion);
    WinterPlan *plan = ARENA_NEW(arena, WinterPlan);
    FarmRequest request;
    farm_made_of_size(arena, 1, FARM_S, &request);
    Faults faults = faults_new(arena);
    assert_true(farm_read(arena, &faults, &request, farm));
    farm->winter.caution_weight = caution_weight;
    *question = plan_question(arena, farm);
    *plan = plan_least_cost(arena, question);
    assert_int_equal(plan->verdict, PLAN_BALANCED);
    const LpTerms terms = lp_terms(plan->program->lp, arena);
    Steady *steady = ARENA_NEW(arena, Steady);
    steady_program(steady, arena, plan->program, &terms, &plan->solution, plan->solution.value,
                   -1, plan->solution.cost * (1.0 + USUAL_STEADY_COST_SHARE), NULL);
    assert_true(steady_solve(steady, START_COSTS_CHANGED, &steady->best.basis));
    return steady;
}

/* Servings of what fills that are too small, but of meals, which may be small. */
static int small_servings(const Steady *steady) {
    const PlanQuestion *question = steady->program->question;
    int count = 0;
    for (int b = 0; b < question->block_count; b++) {
        for (int f = 0; f < question->feed_count; f++) {
            const PlanFeed *feed = &question->feeds[f];
            const int column = steady_column(steady, b, f);
            const double kg = column < 0 ? 0.0 : steady->best.value[column];
            count += kg > 1e-6 && kg < CRUMB_KG && ration_feed_fills(feed) &&
                     feed->feed->feed_class != FEED_CLASS_MEAL;
        }
    }
    return count;
}

static int barred(const Steady *steady) {
    int count = 0;
    for (int j = 0; j < steady->eaten_columns; j++)
        count += lp_column_most(steady->lp, j) <= 0.0;
    return count;
}

static void nine_in_ten_small_servings_are_swept_out(void **state) {
    Steady *steady = evened(*state, 0.0);
    const int before = small_servings(steady);
    assert_true(before >= 20);
    steady_sweep_crumbs(steady);
    assert_true(10 * small_servings(steady) <= before);
}

/* Some hold a ration behind its caution lines: of 26, 20 were measured to go. */
static void most_small_servings_are_swept_out_where_cautions_weigh(void **state) {
    Steady *steady = evened(*state, 1.0);
    const int before = small_servings(steady);
    assert_true(before >= 20);
    steady_sweep_crumbs(steady);
    assert_true(3 * small_servings(steady) <= before);
}

/* Whatever bases the passes go by, what they end at is the steadiest without what was swept
 * out, as a cold solve finds it, and keeps every row of the whole program. */
static void what_is_left_is_the_steadiest_without_the_crumbs(void **state) {
    Steady *steady = evened(*state, 0.0);
    const double with_crumbs = steady->best.cost;
    const int barred_before = barred(steady);
    steady_sweep_crumbs(steady);
    assert_true(barred(steady) > barred_before);
    assert_true(steady->best.cost >= with_crumbs * (1.0 - 1e-9));
    const LpSolution cold = lp_solve(steady->lp, *state, START_COLD, NULL, 0);
    assert_int_equal(cold.status, LP_OPTIMAL);
    assert_near(steady->best.cost, cold.cost, 1e-6 * cold.cost);

    const LinearProgram *whole = steady->program->lp;
    double *activity = ARENA_ARRAY(*state, double, lp_row_count(whole));
    lp_add_activities(whole, steady_values(*state, steady), activity);
    for (int i = 0; i < lp_row_count(whole); i++) {
        assert_true(activity[i] >= lp_row_least(whole, i) - 1e-4);
        assert_true(activity[i] <= lp_row_most(whole, i) + 1e-4);
    }
}

/* Passes begin where the last of their kind ended: 1,467 steps were measured to the first even
 * rations and 734 for all passes. */
static void sweeping_takes_fewer_steps_than_evening_out(void **state) {
    Steady *steady = evened(*state, 0.0);
    const int to_even = steady->steps;
    steady_sweep_crumbs(steady);
    assert_true(steady->steps > to_even && steady->steps < 2 * to_even);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(nine_in_ten_small_servings_are_swept_out),
        UNIT_TEST(most_small_servings_are_swept_out_where_cautions_weigh),
        UNIT_TEST(what_is_left_is_the_steadiest_without_the_crumbs),
        UNIT_TEST(sweeping_takes_fewer_steps_than_evening_out),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
