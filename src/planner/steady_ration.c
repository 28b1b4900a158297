/* A second program over the first: one row holds the cost, one row a feed and pair of neighbouring
 * periods splits the change into a rise and a fall, and the sum of both is the aim. It starts from
 * the first program's basis with whichever of rise and fall is in use made basic, which is feasible. */
#include "planner/steady_ration.h"
#include "planner/winter_plan.h"
#include <math.h>
#include <string.h>

/* Besides steadiness, a grain of weight on every ration kilogram keeps needless feed out. */
#define WEIGHT_PER_KG 1e-4

typedef struct {
    int before, after; /* columns of one feed in neighbouring periods; -1: not allowed there */
    double weight;
    int rise, fall, row;
} Change;

static int list_changes(Arena *arena, const RationProgram *program, const Change **changes) {
    const PlanQuestion *question = program->question;
    const int feeds = question->feed_count;
    Change *list = ARENA_ARRAY(arena, Change, question->block_count * feeds);
    int count = 0;
    for (int b = 1; b < question->block_count; b++) {
        const PlanBlock *block = &question->blocks[b];
        if (question->blocks[b - 1].group != block->group)
            continue;
        for (int f = 0; f < feeds; f++) {
            const int before = program->eaten[(b - 1) * feeds + f];
            const int after = program->eaten[b * feeds + f];
            if (before < 0 || after < 0)
                continue;
            list[count++] = (Change){before, after, sqrt(block->head), 0, 0, 0};
        }
    }
    *changes = list;
    return count;
}

static void add_changes(Arena *arena, LinearProgram *lp, Change *changes, int count,
                        const LpSolution *solution) {
    const int cost_row =
        lp_add_row(lp, "cost", -NO_LIMIT,
                   solution->cost + fmax(fabs(solution->cost) * STEADY_COST_SHARE, 1e-6));
    const int columns = solution->basis.column_count;
    for (int j = 0; j < columns; j++) {
        lp_add_term(lp, cost_row, j, lp_cost(lp, j));
        lp_set_cost(lp, j, 0.0);
    }
    for (int i = 0; i < count; i++) {
        Change *change = &changes[i];
        change->row = lp_add_row(lp, arena_print(arena, "change_%d", i + 1), 0.0, 0.0);
        change->rise = lp_add_column(lp, arena_print(arena, "rise_%d", i + 1), change->weight, 0.0,
                                     NO_LIMIT);
        change->fall = lp_add_column(lp, arena_print(arena, "fall_%d", i + 1), change->weight, 0.0,
                                     NO_LIMIT);
        lp_add_term(lp, change->row, change->after, 1.0);
        lp_add_term(lp, change->row, change->before, -1.0);
        lp_add_term(lp, change->row, change->rise, -1.0);
        lp_add_term(lp, change->row, change->fall, 1.0);
        lp_set_cost(lp, change->after, WEIGHT_PER_KG);
    }
}

static LpBasis start_basis(Arena *arena, const LinearProgram *lp, const Change *changes,
                           int count, const LpSolution *solution) {
    LpBasis basis = {lp_row_count(lp), lp_column_count(lp),
                     ARENA_ARRAY(arena, unsigned char, lp_row_count(lp)),
                     ARENA_ARRAY(arena, unsigned char, lp_column_count(lp))};
    memcpy(basis.row, solution->basis.row, (size_t)solution->basis.row_count);
    memcpy(basis.column, solution->basis.column, (size_t)solution->basis.column_count);
    basis.row[solution->basis.row_count] = BASIC; /* the cost row */
    for (int i = 0; i < count; i++) {
        const Change *change = &changes[i];
        const bool rises = solution->value[change->after] >= solution->value[change->before];
        basis.column[rises ? change->rise : change->fall] = BASIC;
    }
    return basis;
}

const double *steady_rations(Arena *arena, const RationProgram *program,
                             const LpSolution *solution, bool *is_steady) {
    const Change *listed;
    const int count = list_changes(arena, program, &listed);
    *is_steady = false;
    if (count == 0)
        return solution->value;
    Change *changes = ARENA_ARRAY(arena, Change, count);
    memcpy(changes, listed, (size_t)count * sizeof *changes);
    LinearProgram *lp = lp_copy(program->lp, arena);
    add_changes(arena, lp, changes, count, solution);
    const LpBasis basis = start_basis(arena, lp, changes, count, solution);
    const LpSolution steady =
        lp_solve(lp, arena, START_COSTS_CHANGED, &basis, STEADY_ITERATIONS);
    if (steady.status != LP_OPTIMAL)
        return solution->value;
    *is_steady = true;
    return steady.value;
}
