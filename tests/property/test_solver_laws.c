/* The solver of small programs and that of tied blocks against GLPK on the whole. */
#include "planner/block_program.h"
#include "planner/small_program.h"

#include "base/quantity.h"
#include "entry/farm_reading.h"
#include "support/farm_maker.h"
#include "support/planned_farm.h"
#include "support/unit.h"
#include <stdlib.h>
#include <string.h>

/* SMALL_PROGRAMS in the environment asks for more: make check-long. */
#define USUAL_PROGRAMS 20000
#define FARMS 60

enum { MOST_ROWS = 24, MOST_COLUMNS = 16 };

typedef struct {
    SmallProgram program;
    const double *row[MOST_ROWS]; /* of `packed` */
    int single_row[MOST_COLUMNS];
    double single_term[MOST_COLUMNS], packed[MOST_ROWS * MOST_COLUMNS];
    double term[MOST_ROWS * MOST_COLUMNS], row_least[MOST_ROWS], row_most[MOST_ROWS],
        least[MOST_COLUMNS], most[MOST_COLUMNS], cost[MOST_COLUMNS];
} Case;

/* Like rations: needs, ceilings, ratios with terms of both signs that ask for nothing, some
 * bounded columns, equal feeds now and then, prices rounded so that they tie. */
static void draw_rows(Draws *draws, Case *of) {
    SmallProgram *program = &of->program;
    for (int i = 0; i < program->rows; i++) {
        const int kind = draw_whole(draws, 0, 3);
        of->row_least[i] = -NO_LIMIT;
        of->row_most[i] = NO_LIMIT;
        for (int j = 0; j < program->columns; j++) {
            const double size =
                draw_whole(draws, 0, 4) == 0 ? 0.0 : draw_between(draws, 0.0, 1.0, 3);
            of->term[i * program->columns + j] = kind == 3 ? size - 0.4 : size;
        }
        if (kind == 0)
            of->row_least[i] = draw_between(draws, 0.0, 4.0, 3);
        else if (kind == 1)
            of->row_most[i] = draw_between(draws, 2.0, 10.0, 3);
        else if (kind == 2) {
            of->row_least[i] = draw_between(draws, 0.0, 2.0, 3);
            of->row_most[i] = of->row_least[i] + draw_whole(draws, 0, 2);
        } else if (draw_whole(draws, 0, 1) == 0)
            of->row_least[i] = 0.0;
        else
            of->row_most[i] = 0.0;
    }
}

static void draw_costs(Draws *draws, Case *of) {
    for (int j = 0; j < of->program.columns; j++)
        of->cost[j] = draw_whole(draws, 0, 20) / 10.0;
}

static void draw_columns(Draws *draws, Case *of) {
    for (int j = 0; j < of->program.columns; j++) {
        of->least[j] = 0.0;
        of->most[j] = draw_whole(draws, 0, 4) == 0 ? draw_whole(draws, 0, 3) : NO_LIMIT;
    }
    if (draw_whole(draws, 0, 2) > 0 || of->program.columns < 2)
        return;
    for (int i = 0; i < of->program.rows; i++) /* two feeds that are the same */
        of->term[i * of->program.columns] = of->term[i * of->program.columns + 1];
}

/* Of every other program the last columns are of one row each, as shortages are. */
static void pack(Draws *draws, Case *of) {
    SmallProgram *program = &of->program;
    const int columns = program->columns;
    program->singles = draw_whole(draws, 0, 1) * draw_whole(draws, 0, columns - 1);
    const int dense = columns - program->singles;
    for (int j = dense; j < columns; j++) {
        const int row = draw_whole(draws, 0, program->rows - 1);
        of->single_row[j - dense] = row;
        of->single_term[j - dense] = draw_whole(draws, 0, 1) == 0 ? 1.0 : -1.0;
        for (int i = 0; i < program->rows; i++)
            of->term[i * columns + j] = i == row ? of->single_term[j - dense] : 0.0;
    }
    for (int i = 0; i < program->rows; i++) {
        of->row[i] = &of->packed[i * dense];
        for (int j = 0; j < dense; j++)
            of->packed[i * dense + j] = of->term[i * columns + j];
    }
}

static void draw_case(Draws *draws, Case *of) {
    of->program = (SmallProgram){1 + draw_whole(draws, 0, MOST_ROWS - 1),
                                 1 + draw_whole(draws, 0, MOST_COLUMNS - 1),
                                 of->row,
                                 of->row_least,
                                 of->row_most,
                                 of->least,
                                 of->most,
                                 0,
                                 of->single_row,
                                 of->single_term};
    draw_rows(draws, of);
    draw_columns(draws, of);
    draw_costs(draws, of);
    pack(draws, of);
}

static LinearProgram *as_whole(Arena *arena, const Case *of) {
    LinearProgram *lp = lp_new(arena);
    for (int j = 0; j < of->program.columns; j++)
        lp_add_column(lp, of->cost[j], of->least[j], of->most[j]);
    for (int i = 0; i < of->program.rows; i++) {
        lp_add_row(lp, of->row_least[i], of->row_most[i]);
        for (int j = 0; j < of->program.columns; j++)
            lp_add_term(lp, i, j, of->term[i * of->program.columns + j]);
    }
    return lp;
}

/* How far an answer is beyond a bound. */
static double beyond_bounds(const Case *of, const double *value) {
    double worst = 0.0;
    for (int j = 0; j < of->program.columns; j++)
        worst = fmax(worst, fmax(of->least[j] - value[j], value[j] - of->most[j]));
    for (int i = 0; i < of->program.rows; i++) {
        double sum = 0.0;
        for (int j = 0; j < of->program.columns; j++)
            sum += of->term[i * of->program.columns + j] * value[j];
        worst = fmax(worst, fmax(of->row_least[i] - sum, sum - of->row_most[i]));
    }
    return worst;
}

/* A verdict may differ only where a millionth of room turns it. */
static bool is_on_the_edge(Arena *arena, const Case *of) {
    Case wide = *of;
    Case narrow = *of;
    for (int i = 0; i < of->program.rows; i++) {
        const double by = 1e-6 * (1.0 + fabs(of->row_least[i]));
        const double most_by = 1e-6 * (1.0 + fabs(of->row_most[i]));
        wide.row_least[i] -= isfinite(by) ? by : 0.0;
        wide.row_most[i] += isfinite(most_by) ? most_by : 0.0;
        if (of->row_most[i] - of->row_least[i] < 1e-5)
            continue;
        narrow.row_least[i] += isfinite(by) ? by : 0.0;
        narrow.row_most[i] -= isfinite(most_by) ? most_by : 0.0;
    }
    return lp_solve(as_whole(arena, &wide), arena, START_COLD, NULL, 0).status !=
           lp_solve(as_whole(arena, &narrow), arena, START_COLD, NULL, 0).status;
}

static void assert_agrees(const Case *of, SmallWork *work, SmallBasis *basis, int seed,
                          const char *when) {
    Arena *arena = arena_open();
    const LpStatus status = small_solve(work, &of->program, of->cost, basis);
    const LpSolution whole = lp_solve(as_whole(arena, of), arena, START_COLD, NULL, 0);
    const char *why = NULL;
    if (status != whole.status && !is_on_the_edge(arena, of))
        why = arena_print(arena, "status %d, not %d", (int)status, (int)whole.status);
    else if (status == LP_OPTIMAL && beyond_bounds(of, small_values(work)) > 1e-8)
        why = arena_print(arena, "a bound is broken by %g",
                          beyond_bounds(of, small_values(work)));
    else if (status == LP_OPTIMAL && whole.status == LP_OPTIMAL &&
             fabs(small_cost(work) - whole.cost) > 1e-6 * (1.0 + fabs(whole.cost)))
        why = arena_print(arena, "cost %.12g, not %.12g", small_cost(work), whole.cost);
    if (why)
        fail_msg("program %d, %s: %s", seed, when, why);
    arena_close(arena);
}

/* As a block is solved again and again at other prices, one basis with what is kept of it and
 * one without; now and then both begin anew, and what was kept is of another basis then. */
static void what_is_kept_of_a_basis_changes_no_bit_of_an_answer(void **state) {
    SmallWork *work = small_work(*state, MOST_ROWS, MOST_COLUMNS);
    unsigned char rows[2][MOST_ROWS];
    unsigned char columns[2][MOST_COLUMNS];
    for (int seed = 1; seed <= 300; seed++) {
        Draws draws = draws_new((unsigned long long)seed);
        Case of;
        draw_case(&draws, &of);
        SmallBasis bases[2] = {{rows[0], columns[0], false, small_kept(*state)},
                               {rows[1], columns[1], false, NULL}};
        small_basis_reset(&of.program, &bases[0]);
        small_basis_reset(&of.program, &bases[1]);
        for (int time = 0; time < 12; time++) {
            LpStatus status[2];
            double reduced[2][MOST_COLUMNS];
            for (int which = 0; which < 2; which++) {
                SmallBasis *basis = &bases[which];
                if (time == 7) {
                    memset(basis->row, BASIC, (size_t)of.program.rows);
                    memset(basis->column, AT_LEAST, (size_t)of.program.columns);
                    basis->keeps_bounds = false;
                }
                status[which] = small_solve(work, &of.program, of.cost, basis);
                basis->keeps_bounds = status[which] == LP_OPTIMAL;
                memcpy(reduced[which], small_reduced_costs(work),
                       (size_t)of.program.columns * sizeof **reduced);
            }
            assert_int_equal(status[0], status[1]);
            assert_memory_equal(rows[0], rows[1], (size_t)of.program.rows);
            assert_memory_equal(columns[0], columns[1], (size_t)of.program.columns);
            for (int j = 0; status[0] == LP_OPTIMAL && j < of.program.columns; j++)
                assert_true(reduced[0][j] == reduced[1][j]);
            if (time % 3 > 0)
                draw_costs(&draws, &of);
        }
    }
}

/* Each program is solved from nothing, at other prices from the last basis, and with other
 * needs and prices from that. */
static void a_small_program_costs_what_glpk_finds(void **state) {
    (void)state;
    const char *asked = getenv("SMALL_PROGRAMS");
    const int programs = asked ? atoi(asked) : USUAL_PROGRAMS;
    Arena *arena = arena_open();
    SmallWork *work = small_work(arena, MOST_ROWS, MOST_COLUMNS);
    unsigned char rows[MOST_ROWS];
    unsigned char columns[MOST_COLUMNS];
    SmallBasis basis = {rows, columns, false, NULL};
    for (int seed = 1; seed <= programs / 3; seed++) {
        Draws draws = draws_new((unsigned long long)seed);
        Case of;
        draw_case(&draws, &of);
        small_basis_reset(&of.program, &basis);
        assert_agrees(&of, work, &basis, seed, "from nothing");
        draw_costs(&draws, &of);
        assert_agrees(&of, work, &basis, seed, "at other prices");
        draw_rows(&draws, &of);
        draw_costs(&draws, &of);
        pack(&draws, &of);
        assert_agrees(&of, work, &basis, seed, "with other needs");
    }
    arena_close(arena);
}

static void assert_program_agrees(Arena *arena, const RationProgram *program, int seed) {
    const LpCare finely = {.is_fine = true};
    const LpSolution whole = lp_solve_with(program->lp, arena, START_COLD, NULL, finely);
    const LpSolution usual = lp_solve(program->lp, arena, START_COLD, NULL, 0);
    const double cost = whole.status == LP_OPTIMAL ? whole.cost : usual.cost;
    BlockProgram *blocks = block_program(arena, program->lp, &program->shape);
    assert_non_null(blocks);
    const LpSolution by_price = block_program_solve(blocks, arena);
    if (by_price.status != usual.status)
        fail_msg("seed %d: status %d, not %d", seed, (int)by_price.status, (int)usual.status);
    if (usual.status != LP_OPTIMAL)
        return;
    if (fabs(by_price.cost - cost) > 1e-8 * (1.0 + fabs(cost)))
        fail_msg("seed %d: cost %.12g, not %.12g", seed, by_price.cost, cost);
    double *activity = ARENA_ARRAY(arena, double, lp_row_count(program->lp));
    lp_add_activities(program->lp, by_price.value, activity);
    for (int i = 0; i < lp_row_count(program->lp); i++) {
        const double least = lp_row_least(program->lp, i);
        const double most = lp_row_most(program->lp, i);
        const double size = 1.0 + fabs(isfinite(least) ? least : most);
        if (activity[i] < least - 1e-8 * size || activity[i] > most + 1e-8 * size)
            fail_msg("seed %d: row %d is %.12g", seed, i, activity[i]);
    }
}

static void a_winter_by_prices_costs_what_glpk_finds_for_the_whole(void **state) {
    (void)state;
    for (int seed = 1; seed <= FARMS; seed++) {
        Arena *arena = arena_open();
        const PlannedFarm *farm = asked_farm_of(arena, seed, 2);
        const RationProgram cost = program_of(arena, &farm->question, AIM_LEAST_COST);
        assert_program_agrees(arena, &cost, seed);
        const RationProgram shortage = program_of(arena, &farm->question, AIM_LEAST_SHORTAGE);
        assert_program_agrees(arena, &shortage, seed);
        arena_close(arena);
    }
}

/* Counts that no machine changes: a change of the solver that makes it work harder is seen. */
static void a_winter_takes_no_more_rounds_and_steps_than_it_did(void **state) {
    Arena *arena = *state;
    FarmRequest request;
    farm_made_of_size(arena, 1, FARM_S, &request);
    Faults faults = faults_new(arena);
    Farm farm;
    assert_true(farm_read(arena, &faults, &request, &farm));
    const PlanQuestion question = plan_question(arena, &farm);
    const RationProgram program = program_of(arena, &question, AIM_LEAST_COST);
    BlockProgram *blocks = block_program(arena, program.lp, &program.shape);
    assert_int_equal(block_program_solve(blocks, arena).status, LP_OPTIMAL);
    const BlockEffort effort = block_program_effort(blocks);
    assert_in_range(effort.rounds, 1, 30);
    assert_in_range(effort.master_iterations, 1, 290);
    /* 1,885 steps in 2,645 solves of rations, and 1,986 in 2,300 since this farm's gains are of
     * live weight: a solve may go a little further where there are fewer. */
    assert_true(effort.block_steps < effort.block_solves);
    assert_in_range(effort.block_steps + effort.block_solves, 1, 4600);
}

/* With other needs half the rounds at most, over some farms, find the next answer from what the
 * last one left, and it is the same answer. */
static void a_winter_planned_again_takes_half_the_rounds_at_most(void **state) {
    Arena *arena = *state;
    static const FarmPreset SIZES[] = {FARM_S, FARM_S, FARM_S, FARM_M, FARM_M, FARM_M};
    int rounds_again = 0, rounds_from_scratch = 0;
    for (int of = 0; of < 6; of++) {
        FarmRequest request;
        farm_made_of_size(arena, (unsigned long long)of % 3 + 1, SIZES[of], &request);
        Faults faults = faults_new(arena);
        Farm farm;
        assert_true(farm_read(arena, &faults, &request, &farm));
        PlanQuestion question = plan_question(arena, &farm);
        const RationProgram program = program_of(arena, &question, AIM_LEAST_COST);
        BlockProgram *first = block_program(arena, program.lp, &program.shape);
        assert_int_equal(block_program_solve(first, arena).status, LP_OPTIMAL);
        BlockStart *left = block_start(arena);
        block_start_take(left, first);

        PlanBlock *blocks = ARENA_ARRAY(arena, PlanBlock, question.block_count);
        for (int b = 0; b < question.block_count; b++) {
            blocks[b] = question.blocks[b];
            blocks[b].need.energy.maintenance *= 1.0 + 0.005 * (b % 3); /* up to 1 % more */
        }
        question.blocks = blocks;
        const RationProgram other = program_of(arena, &question, AIM_LEAST_COST);
        BlockProgram *scratch = block_program(arena, other.lp, &other.shape);
        const LpSolution expected = block_program_solve(scratch, arena);
        BlockProgram *again = block_program(arena, other.lp, &other.shape);
        assert_true(block_program_start_from(again, left));
        const LpSolution found = block_program_solve(again, arena);
        assert_int_equal(found.status, LP_OPTIMAL);
        assert_near(found.cost, expected.cost, 1e-8 * expected.cost);
        rounds_again += block_program_effort(again).rounds;
        rounds_from_scratch += block_program_effort(scratch).rounds;
    }
    assert_true(2 * rounds_again <= rounds_from_scratch);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_small_program_costs_what_glpk_finds),
        UNIT_TEST(what_is_kept_of_a_basis_changes_no_bit_of_an_answer),
        cmocka_unit_test(a_winter_by_prices_costs_what_glpk_finds_for_the_whole),
        UNIT_TEST(a_winter_takes_no_more_rounds_and_steps_than_it_did),
        UNIT_TEST(a_winter_planned_again_takes_half_the_rounds_at_most),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
