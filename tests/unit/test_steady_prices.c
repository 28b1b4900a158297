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
    of->most = of->plan.solution.cost * (1.0 + USUAL_STEADY_COST_SHARE);
    return of;
}

static Steady program_of(Arena *arena, const Planned *of, const SteadyStart *start) {
    Steady steady;
    steady_program(&steady, arena, of->plan.program, &of->terms, &of->plan.solution,
                   of->plan.solution.value, -1, of->most, start);
    return steady;
}

/* The same steadiness, whose aim is one number, from the cheapest plan and from the groups: in
 * 322 and 1,181 steps. */
static void groups_at_prices_are_a_few_steps_from_the_steadiest(void **state) {
    const Planned *of = planned(*state);
    Steady plain = program_of(*state, of, NULL);
    assert_true(steady_solve(&plain, START_COSTS_CHANGED, &plain.best.basis));

    SteadyStart start = {.arena = *state};
    assert_true(steady_groups_at_prices(of->plan.program, &of->terms, &of->plan.solution,
                                        of->most, &start));
    Steady together = program_of(*state, of, &start);
    steady_bring_together(&together, &of->plan.solution);
    assert_true(steady_solve(&together, START_COSTS_CHANGED, &together.best.basis));
    assert_near(together.best.cost, plain.best.cost, 1e-6 * plain.best.cost);
    assert_true(3 * together.steps < plain.steps);
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

/* With every feed swept out no ration can be made: evening out begins anew, from the groups. */
static void what_was_swept_out_and_is_needed_comes_back(void **state) {
    const Planned *of = planned(*state);
    const RationProgram *program = of->plan.program;
    SteadyStart start = {.arena = *state};
    bool is_steady;
    steady_rations(*state, program, &of->plan.solution, NULL, &start, &is_steady);
    assert_true(is_steady);
    const int steps_at_first = start.steps;
    for (int at = 0; at < of->question.block_count * of->question.feed_count; at++) {
        const int eaten = program->eaten[at];
        start.is_barred[at] = eaten >= 0 && start.column[eaten] != 0;
    }
    const double *value =
        steady_rations(*state, program, &of->plan.solution, NULL, &start, &is_steady);
    assert_true(is_steady);
    assert_int_equal(start.steps, steps_at_first);
    double eaten = 0.0;
    for (int f = 0; f < of->question.feed_count; f++)
        eaten += program->eaten[f] >= 0 ? value[program->eaten[f]] : 0.0;
    assert_true(eaten > 1.0);
}

static bool is_fed_or_microbial(const RationProgram *program, int column) {
    const PlanQuestion *question = program->question;
    for (int at = 0; at < question->block_count * question->feed_count; at++) {
        if (program->eaten[at] == column)
            return true;
    }
    for (int b = 0; b < question->block_count; b++) {
        if (program->microbial[b] == column)
            return true;
    }
    return false;
}

/* Those of a caution line that is passed in one period are there in all. */
static bool is_of_caution(const RationProgram *program, int column) {
    for (int b = 0; b < program->question->block_count; b++) {
        for (int i = 0; i < program->blocks[b].count; i++) {
            if (program->blocks[b].beyond[i] == column)
                return true;
        }
    }
    return false;
}

/* Of a ration's tens of columns to fall short by hardly any is in use. */
static void assert_has_only_shortages_in_use(Arena *arena, const WinterPlan *plan) {
    const LpTerms terms = lp_terms(plan->program->lp, arena);
    const LpSolution *solution = &plan->solution;
    Steady steady;
    steady_program(&steady, arena, plan->program, &terms, solution, solution->value, -1,
                   solution->cost * (1.0 + USUAL_STEADY_COST_SHARE), NULL);
    for (int k = 0; k < steady.eaten_columns; k++) {
        const int column = steady.whole_of[k];
        assert_true(steady_block_of(plan->program, column) < 0 ||
                    is_fed_or_microbial(plan->program, column) ||
                    is_of_caution(plan->program, column) || solution->value[column] > 0.0 ||
                    solution->basis.column[column] == BASIC);
    }
}

static void a_short_winter_is_evened_out_with_only_the_shortages_it_has(void **state) {
    static const FarmSize scarce = {3, 4, 4, 120, false};
    int short_plans = 0;
    for (unsigned long long seed = 1; seed <= 8; seed++) {
        FarmRequest request;
        Farm farm;
        farm_made(*state, seed, scarce, &request);
        Faults faults = faults_new(*state);
        assert_true(farm_read(*state, &faults, &request, &farm));
        const PlanQuestion question = plan_question(*state, &farm);
        const WinterPlan plan = plan_winter(*state, &question);
        if (plan.verdict != PLAN_SHORT)
            continue;
        short_plans++;
        assert_true(plan.is_steady);
        assert_has_only_shortages_in_use(*state, &plan);
    }
    assert_true(short_plans >= 3);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(groups_at_prices_are_a_few_steps_from_the_steadiest),
        UNIT_TEST(from_where_it_ended_evening_out_takes_no_step),
        UNIT_TEST(what_was_swept_out_and_is_needed_comes_back),
        UNIT_TEST(a_short_winter_is_evened_out_with_only_the_shortages_it_has),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
