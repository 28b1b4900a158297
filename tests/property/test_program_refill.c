/* A program of blocks that is filled again against one built anew. */
#include "planner/block_parts.h"

#include "base/quantity.h"
#include "planner/ration_program.h"
#include "support/farm_maker.h"
#include "support/planned_farm.h"
#include "support/unit.h"
#include <string.h>

#define FARMS 30

/* The terms of a block by row and column of the whole program, its scales taken off. */
static void read_terms(const BlockParts *parts, const Block *block, double *row_of_terms) {
    const SmallProgram *program = &block->program;
    const int columns = parts->shape.column_count;
    const int dense = dense_columns(program);
    memset(row_of_terms, 0, (size_t)program->rows * (size_t)columns * sizeof(double));
    for (int i = 0; i < program->rows; i++) {
        for (int j = 0; j < dense; j++)
            row_of_terms[i * columns + block->column[j]] =
                program->term[i][j] / (block->row_scale[i] * block->column_scale[j]);
    }
    for (int k = 0; k < program->singles; k++) {
        const int row = program->single_row[k];
        row_of_terms[row * columns + block->column[dense + k]] =
            program->single_term[k] / (block->row_scale[row] * block->column_scale[dense + k]);
    }
}

/* By column of the whole program: cost, bounds, and the terms in tying rows. */
static void read_columns(const BlockParts *parts, const Block *block, double *cost,
                         double *least, double *most, double *ties) {
    memset(ties, 0,
           (size_t)parts->shape.column_count * (size_t)parts->tie_count * sizeof(double));
    for (int j = 0; j < block->program.columns; j++) {
        const int column = block->column[j];
        cost[column] = block->cost[j] / block->column_scale[j];
        least[column] = block->program.least[j] * block->column_scale[j];
        most[column] = block->program.most[j] * block->column_scale[j];
        for (int k = block->tie_start[j]; k < block->tie_start[j + 1]; k++)
            ties[column * parts->tie_count + block->tie[k]] =
                block->tie_term[k] / block->column_scale[j];
    }
}

static void assert_same_numbers(const double *found, const double *expected, int count,
                                int seed) {
    for (int i = 0; i < count; i++) {
        if (found[i] != expected[i])
            fail_msg("seed %d: number %d is %.17g, not %.17g", seed, i, found[i], expected[i]);
    }
}

/* All scales are powers of two, so that nothing is rounded by taking them off. */
static void assert_same_parts(Arena *arena, const BlockParts *found, const BlockParts *expected,
                              int seed) {
    const int columns = expected->shape.column_count;
    const int lines = columns + expected->shape.row_count;
    double *numbers[2][5];
    for (int side = 0; side < 2; side++) {
        numbers[side][0] = ARENA_ARRAY(arena, double, lines *columns);
        numbers[side][1] = ARENA_ARRAY(arena, double, columns * expected->tie_count);
        for (int i = 2; i < 5; i++)
            numbers[side][i] = ARENA_ARRAY(arena, double, columns);
    }
    for (int b = 0; b < expected->shape.block_count; b++) {
        const BlockParts *parts[2] = {found, expected};
        for (int side = 0; side < 2; side++) {
            const Block *block = &parts[side]->blocks[b];
            read_terms(parts[side], block, numbers[side][0]);
            read_columns(parts[side], block, numbers[side][2], numbers[side][3],
                         numbers[side][4], numbers[side][1]);
        }
        const Block *block = &expected->blocks[b];
        assert_same_numbers(numbers[0][0], numbers[1][0], block->program.rows * columns, seed);
        assert_same_numbers(numbers[0][1], numbers[1][1], columns * expected->tie_count, seed);
        for (int i = 2; i < 5; i++)
            assert_same_numbers(numbers[0][i], numbers[1][i], columns, seed);
        for (int i = 0; i < block->program.rows; i++) {
            const double bounds[2][2] = {
                {found->blocks[b].program.row_least[i] / found->blocks[b].row_scale[i],
                 found->blocks[b].program.row_most[i] / found->blocks[b].row_scale[i]},
                {block->program.row_least[i] / block->row_scale[i],
                 block->program.row_most[i] / block->row_scale[i]}};
            assert_same_numbers(bounds[0], bounds[1], 2, seed);
        }
    }
    for (int c = 0; c < expected->own_count; c++) {
        const int first = expected->terms.start[expected->own_column[c]];
        const int count = expected->terms.start[expected->own_column[c] + 1] - first;
        assert_same_numbers(&found->terms.coefficient[found->terms.start[found->own_column[c]]],
                            &expected->terms.coefficient[first], count, seed);
    }
}

/* Rounds of the laws, other days and other stocks fill a program that was built for the first
 * of them: every number in it is that of one built anew, and so is what it costs. */
static void a_program_filled_again_is_the_one_built_anew(void **state) {
    (void)state;
    for (int seed = 1; seed <= FARMS; seed++) {
        Arena *arena = arena_open();
        const PlannedFarm *farm = asked_farm_of(arena, seed, 1);
        const PlanQuestion *whole = &farm->question;
        const ProgramAim aim = seed % 3 == 0 ? AIM_LEAST_COST : AIM_LEAST_SHORTAGE;
        const RationProgram first = program_of(arena, whole, aim);
        BlockParts *parts = block_parts(arena, first.lp, &first.shape);
        BlockProgram *filled = block_program(arena, first.lp, &first.shape);
        assert_non_null(parts);
        block_program_solve(filled, arena);
        Draws draws = draws_new((unsigned long long)seed);
        for (int time = 0; time < 3; time++) {
            const Day last =
                calendar_add(whole->farm->winter.first_day, draw_whole(&draws, 20, 180));
            const PlanQuestion question =
                time == 2 ? *whole : plan_question_own_feed_until(arena, whole, last);
            BlockState *states = ARENA_ARRAY(arena, BlockState, question.block_count);
            for (int b = 0; b < question.block_count; b++)
                states[b] = (BlockState){draw_between(&draws, 1.0, 1.8, 2),
                                         draw_between(&draws, 0.4, 0.7, 2)};
            const RationProgram next = ration_program(arena, &question, states, aim);
            const BlockParts *anew = block_parts(arena, next.lp, &next.shape);
            assert_true(block_parts_refill(parts, next.lp, &next.shape));
            assert_same_parts(arena, parts, anew, seed);
            assert_true(block_program_refill(filled, next.lp, &next.shape));
            const LpSolution found = block_program_solve(filled, arena);
            const LpSolution expected =
                block_program_solve(block_program(arena, next.lp, &next.shape), arena);
            assert_int_equal(found.status, expected.status);
            if (found.status == LP_OPTIMAL)
                assert_near(found.cost, expected.cost, 1e-8 * (1.0 + fabs(expected.cost)));
        }
        arena_close(arena);
    }
}

/* From the least shortage to the least cost of being no shorter: other costs and bounds, the
 * same terms. Not a bit of the answer is another than that of a program built anew. */
static void a_program_priced_anew_is_the_one_built_anew(void **state) {
    (void)state;
    for (int seed = 1; seed <= FARMS; seed++) {
        Arena *arena = arena_open();
        const PlannedFarm *farm = asked_farm_of(arena, seed, 1);
        RationProgram program = program_of(arena, &farm->question, AIM_LEAST_SHORTAGE);
        BlockProgram *priced = block_program(arena, program.lp, &program.shape);
        const LpSolution shortest = block_program_solve(priced, arena);
        assert_int_equal(shortest.status, LP_OPTIMAL);
        ration_program_hold_shortage(&program, shortest.value, 1e-6);
        block_program_reprice(priced);
        const LpSolution found = block_program_solve(priced, arena);
        const LpSolution expected =
            block_program_solve(block_program(arena, program.lp, &program.shape), arena);
        assert_int_equal(found.status, expected.status);
        if (found.status == LP_OPTIMAL)
            assert_same_numbers(found.value, expected.value, lp_column_count(program.lp), seed);
        arena_close(arena);
    }
}

/* How many rows the blocks hold, and how many of different content. */
static int distinct_rows(const BlockParts *parts, Arena *arena, int *rows) {
    int count = 0;
    *rows = 0;
    const double **seen = ARENA_ARRAY(arena, const double *, parts->shape.row_count);
    for (int b = 0; b < parts->shape.block_count; b++) {
        const SmallProgram *program = &parts->blocks[b].program;
        for (int i = 0; i < program->rows; i++) {
            int at = 0;
            while (at < count && seen[at] != program->term[i])
                at++;
            if (at == count)
                seen[count++] = program->term[i];
            (*rows)++;
        }
    }
    return count;
}

/* Most of what a ration holds to is the same in each period: a program holds it once, and so
 * it does when it is filled again. */
static void rations_of_a_group_share_most_of_their_rows(void **state) {
    Arena *arena = *state;
    const FarmSize size = {2, 5, 6, 100, true};
    const PlannedFarm *farm = asked_farm(arena, farm_drafted(arena, 2, size));
    const RationProgram program = program_of(arena, &farm->question, AIM_LEAST_COST);
    BlockParts *parts = block_parts(arena, program.lp, &program.shape);
    int rows;
    const int distinct = distinct_rows(parts, arena, &rows);
    assert_true(distinct < rows / 2);
    assert_true(block_parts_refill(parts, program.lp, &program.shape));
    assert_int_equal(distinct_rows(parts, arena, &rows), distinct);
}

static void a_program_of_another_shape_is_not_filled(void **state) {
    Arena *arena = *state;
    const FarmSize size = {2, 4, 6, 100, true};
    const PlannedFarm *farm = asked_farm(arena, farm_drafted(arena, 2, size));
    const FarmSize wider = {2, 5, 6, 100, true};
    const PlannedFarm *other = asked_farm(arena, farm_drafted(arena, 2, wider));
    const RationProgram first = program_of(arena, &farm->question, AIM_LEAST_SHORTAGE);
    const RationProgram next = program_of(arena, &other->question, AIM_LEAST_SHORTAGE);
    BlockProgram *filled = block_program(arena, first.lp, &first.shape);
    assert_false(block_program_refill(filled, next.lp, &next.shape));
    /* the same lines, but a feed that was in no stock is in one now */
    const RationProgram same = program_of(arena, &farm->question, AIM_LEAST_SHORTAGE);
    lp_add_term(same.lp, same.stock[1], same.eaten[0], 0.5);
    assert_false(block_program_refill(filled, same.lp, &same.shape));
    assert_true(block_program_refill(filled, first.lp, &first.shape));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_program_filled_again_is_the_one_built_anew),
        cmocka_unit_test(a_program_priced_anew_is_the_one_built_anew),
        UNIT_TEST(rations_of_a_group_share_most_of_their_rows),
        UNIT_TEST(a_program_of_another_shape_is_not_filled),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
