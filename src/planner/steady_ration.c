/* Evens out the smaller program of steady_program.c and has crumbs swept out: of a small farm
 * all groups together, of a larger one all together and then the crumbs of each group, and of a
 * large one both of one group after the other. */
#include "planner/steady_ration.h"
#include "planner/steady_crumbs.h"
#include "planner/steady_prices.h"
#include "planner/tie_break.h"
#include "planner/winter_plan.h"
#include <math.h>
#include <string.h>

#define WHIM_SHARE 0.95  /* of what evening out may cost, at most, where it begins */
#define JOINT_BLOCKS 400 /* rations; of more, each group by itself: quicker, less steady */
/* Rations; of more, crumbs are swept out of each group by itself: in half the time, and noise
 * moves half as much, but half a feed more stays in a ration. The groups have the rest of what
 * it may cost. Own choice. */
#define JOINT_SWEEP_BLOCKS 150
#define EVEN_SHARE 0.6

/* Evens out one group, or all, of the plan whose values are `value`, at no more than `most`
 * cost; NULL when that does not finish. Where what was swept out before cannot be done without
 * any more, it begins anew; all together begin where the groups end alone. */
static const double *evened(Arena *arena, const RationProgram *program, const LpTerms *terms,
                            const LpSolution *solution, const double *value, int group,
                            double most, SteadyStart *start) {
    Steady steady;
    bool is_solved = false;
    if (start && start->row_count > 0) {
        steady_program(&steady, arena, program, terms, solution, value, group, most, start);
        is_solved = steady_solve(&steady, START_COSTS_CHANGED, &steady.best.basis);
    }
    if (!is_solved) {
        const bool is_apart = group < 0 && start &&
                              steady_groups_at_prices(program, terms, solution, most, start);
        steady_program(&steady, arena, program, terms, solution, value, group, most,
                       is_apart ? start : NULL);
        if (is_apart)
            steady_bring_together(&steady, solution);
        is_solved = steady_solve(&steady, START_COSTS_CHANGED, &steady.best.basis);
    }
    if (!is_solved)
        return NULL;
    if (group >= 0 || program->question->block_count <= JOINT_SWEEP_BLOCKS)
        steady_sweep_crumbs(&steady);
    if (start)
        steady_take_start(start, &steady);
    return steady_values(arena, &steady);
}

static const double *evened_together(Arena *arena, const RationProgram *program,
                                     const LpSolution *solution, double more,
                                     SteadyStart *start) {
    const LpTerms terms = lp_terms(program->lp, arena);
    return evened(arena, program, &terms, solution, solution->value, -1, solution->cost + more,
                  start);
}

/* What the columns of a group cost, and of no block in proportion to it. */
static double cost_of(const RationProgram *program, const double *value, int group) {
    double cost = 0.0;
    for (int j = 0; j < lp_column_count(program->lp); j++) {
        const int block = steady_block_of(program, j);
        if (block >= 0 && (group < 0 || program->question->blocks[block].group == group))
            cost += lp_cost(program->lp, j) * value[j];
    }
    return cost;
}

/* Those of the rows of a group and of no block: of a large farm all terms are many. */
static LpTerms terms_of_group(Arena *arena, const RationProgram *program, int group) {
    const BlockShape *shape = &program->shape;
    bool *is_wanted = ARENA_ARRAY(arena, bool, shape->row_count);
    for (int i = 0; i < shape->row_count; i++) {
        const int block = shape->block_of_row[i];
        is_wanted[i] = block < 0 || program->question->blocks[block].group == group;
    }
    return lp_terms_of_rows(program->lp, arena, is_wanted);
}

/* One group after the other, from given values. What they may cost more than these is shared
 * out by what they cost. */
static const double *evened_by_group(Arena *arena, const RationProgram *program,
                                     const LpSolution *solution, const double *from,
                                     double most) {
    const int columns = lp_column_count(program->lp);
    const int groups = program->question->farm->herd.count;
    double *value = ARENA_ARRAY(arena, double, columns);
    memcpy(value, from, (size_t)columns * sizeof *value);
    const double more = fmax(most - lp_cost_of(program->lp, value), 0.0);
    const double all = cost_of(program, value, -1);
    bool any = false;
    for (int g = 0; g < groups; g++) {
        Arena *scratch = arena_open();
        const double now = lp_cost_of(program->lp, value);
        const double share = all > 0.0 ? cost_of(program, value, g) / all : 1.0 / groups;
        const LpTerms terms = terms_of_group(scratch, program, g);
        const double *found = evened(scratch, program, &terms, solution, value, g,
                                     now + fmax(more * share, 1e-6), NULL);
        if (found)
            memcpy(value, found, (size_t)columns * sizeof *value);
        any = any || found;
        arena_close(scratch);
    }
    return any ? value : NULL;
}

static const double *evened_out(Arena *arena, const RationProgram *program,
                                const LpSolution *solution, double most, SteadyStart *start) {
    const int blocks = program->question->block_count;
    const double more = most - solution->cost;
    const double *together = NULL;
    if (blocks <= JOINT_SWEEP_BLOCKS)
        return evened_together(arena, program, solution, more, start);
    if (blocks <= JOINT_BLOCKS)
        together = evened_together(arena, program, solution, EVEN_SHARE * more, start);
    const double *by_group =
        evened_by_group(arena, program, solution, together ? together : solution->value, most);
    return by_group ? by_group : together;
}

const double *steady_rations(Arena *arena, const RationProgram *program,
                             const LpSolution *solution, const BlockStart *answer,
                             SteadyStart *start, bool *is_steady) {
    Arena *scratch = arena_open();
    const double allowed =
        fmax(fabs(solution->cost) * program->question->farm->winter.steady_cost_share, 1e-6);
    const LpSolution broken =
        tie_broken(scratch, program, answer, solution, solution->cost + WHIM_SHARE * allowed);
    const double *found =
        evened_out(scratch, program, &broken, solution->cost + allowed, start);
    const double *value =
        found ? ARENA_COPY(arena, double, found, lp_column_count(program->lp)) : NULL;
    *is_steady = value != NULL;
    arena_close(scratch);
    return value ? value : solution->value;
}
