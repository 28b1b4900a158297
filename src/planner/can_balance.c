/* The least shortage, followed by the curved laws only until it is plain whether there is any.
 */
#include "planner/can_balance.h"
#include "planner/plan_outcome.h"
#include "planner/plan_rounds.h"
#include <math.h>

#define ROUNDING 1e-9 /* of 1 + its cost: a reduced cost that is none */

static void keep_states(Arena *arena, const PlanRounds *at, const PlanQuestion *question,
                        PlanStart *start) {
    if (!start->states)
        start->states = ARENA_ARRAY(arena, BlockState, question->block_count);
    for (int b = 0; b < question->block_count; b++)
        start->states[b] = at->states[b];
}

/* A price toward a bound that is none is rounding. */
static double at_bound(double price, double least, double most) {
    const double bound = price > 0.0 ? least : most;
    return isfinite(bound) ? price * bound : 0.0;
}

static void add_owed(PlanStart *start, int block, double owed) {
    if (block >= 0)
        start->owed[block] += owed;
    else
        start->owed_elsewhere += owed;
}

/* The bound that the prices prove, taken apart: a ration's part goes with its days. */
static void keep_owed(Arena *arena, const PlanRounds *at, const PlanQuestion *question,
                      PlanStart *start) {
    const LinearProgram *lp = at->program.lp;
    const BlockShape *shape = &at->program.shape;
    if (!at->blocks) {
        start->owed = NULL;
        return;
    }
    if (!start->owed)
        start->owed = ARENA_ARRAY(arena, double, question->block_count);
    start->owed_elsewhere = 0.0;
    for (int b = 0; b < question->block_count; b++)
        start->owed[b] = 0.0;
    for (int i = 0; i < shape->row_count; i++)
        add_owed(
            start, shape->block_of_row[i],
            at_bound(at->solution.shadow_price[i], lp_row_least(lp, i), lp_row_most(lp, i)));
    for (int j = 0; j < shape->column_count; j++) {
        const double reduced = at->solution.reduced_cost[j];
        if (fabs(reduced) > ROUNDING * (1.0 + fabs(lp_cost(lp, j))))
            add_owed(start, shape->block_of_column[j],
                     at_bound(reduced, lp_column_least(lp, j), lp_column_most(lp, j)));
    }
    for (int b = 0; b < question->block_count; b++) {
        if (question->blocks[b].days > 0)
            start->owed[b] /= question->blocks[b].days;
    }
}

bool plan_must_be_short(const PlanQuestion *question, const PlanStart *start) {
    if (!start->owed)
        return false;
    double bound = start->owed_elsewhere;
    for (int b = 0; b < question->block_count; b++)
        bound += start->owed[b] * question->blocks[b].days;
    return bound > NOTHING_SHORT;
}

/* The limit outlives the program it was found in. */
static void keep_shortage(Arena *arena, const PlanRounds *at, const PlanQuestion *question,
                          FirstShortage *shortage) {
    outcome_largest_shortage(&at->program, &at->solution, shortage);
    for (int b = 0; shortage->limit && b < question->block_count; b++) {
        const BlockLimits *of = &at->program.blocks[b];
        int count;
        for (int i = 0; i < of->count; i++) {
            if (shortage->limit != &of->limits[i])
                continue;
            shortage->limit = &ration_limits(arena, question, b, at->states[b], &count)[i];
            return;
        }
    }
}

/* A scratch arena holds the work; only the start, and what falls short, outlive it. */
bool plan_can_be_balanced(Arena *arena, const PlanQuestion *question, PlanStart *start,
                          FirstShortage *shortage) {
    Arena *scratch = arena_open();
    if (!start->blocks)
        start->blocks = block_start(arena);
    PlanRounds at = plan_rounds(start->blocks);
    at.is_verdict = true;
    if (start->states) {
        at.states = ARENA_ARRAY(scratch, BlockState, question->block_count);
        for (int b = 0; b < question->block_count; b++)
            at.states[b] = start->states[b];
    }
    const bool is_solved = rounds_iterate(scratch, &at, question, AIM_LEAST_SHORTAGE);
    const bool can = is_solved && at.solution.cost <= NOTHING_SHORT;
    if (is_solved)
        keep_states(arena, &at, question, start);
    if (is_solved && !can)
        keep_owed(arena, &at, question, start);
    if (shortage) {
        *shortage = (FirstShortage){-1, NULL};
        if (is_solved && !can)
            keep_shortage(arena, &at, question, shortage);
    }
    arena_close(scratch);
    return can;
}
