#include "planner/yard_linked.h"
#include <math.h>
#include <string.h>

#define MOST_TURNS 60 /* of solving and putting rows in */
#define BROKEN_KG 1e-6

/* How far a row is broken, in its own terms. */
static double broken_by(const LinearProgram *lp, int row, double activity) {
    return fmax(activity - lp_row_most(lp, row), lp_row_least(lp, row) - activity);
}

/* The rows of a change stand together: up to the next change, or the end. */
static int rows_of_change(const YardProgram *yard, const int *firsts, int count, int at) {
    for (int next = at + 1; next < count; next++) {
        if (firsts[next] >= 0)
            return firsts[next] - firsts[at];
    }
    return lp_row_count(yard->lp) - firsts[at];
}

static void wake(const YardProgram *yard, int at, bool *any) {
    const int cells = yard->base->question->block_count * yard->base->question->feed_count;
    if (at < 0 || at >= cells || yard->change[at] < 0)
        return;
    const int count = rows_of_change(yard, yard->change, cells, at);
    for (int i = yard->change[at]; i < yard->change[at] + count; i++) {
        *any |= yard->is_idle[i];
        yard->is_idle[i] = false;
    }
}

/* Where a change is too large it is put in, and with it those of the feed just before and
 * after, which it would move to. False when none is new. */
static bool wake_broken(Arena *arena, const YardProgram *yard, const double *value) {
    const int feeds = yard->base->question->feed_count;
    const int cells = yard->base->question->block_count * feeds;
    double *all = ARENA_ARRAY(arena, double, lp_column_count(yard->lp));
    double *activity = ARENA_ARRAY(arena, double, lp_row_count(yard->lp));
    memcpy(all, value, (size_t)yard->base_columns * sizeof *all);
    lp_add_activities(yard->lp, all, activity);
    bool any = false;
    for (int at = 0; at < cells; at++) {
        bool is_broken = false;
        const int first = yard->change[at];
        const int count = first < 0 ? 0 : rows_of_change(yard, yard->change, cells, at);
        for (int i = first; i < first + count; i++)
            is_broken |= yard->is_idle[i] && broken_by(yard->lp, i, activity[i]) > BROKEN_KG;
        if (!is_broken)
            continue;
        for (int b = -2; b <= 2; b++)
            wake(yard, at + b * feeds, &any);
    }
    return any;
}

LpSolution yard_linked_solve(Arena *arena, const YardProgram *yard, const double *fixed,
                             const LpSolution *near, RationProgram *held,
                             BlockProgram **blocks) {
    LpSolution from = *near;
    Arena *last = NULL;
    const bool is_linked = yard->first_change < lp_row_count(yard->lp);
    const double content = is_linked ? YARD_LINKED_GAP : 0.0;
    for (int turn = 0; turn < MOST_TURNS; turn++) {
        Arena *of_turn = arena_open();
        *held = yard_held_program(of_turn, yard, fixed);
        const LpSolution solution = yard_held_solve(of_turn, held, &from, content, blocks);
        arena_close(last);
        last = of_turn;
        if (solution.status != LP_OPTIMAL || !wake_broken(of_turn, yard, solution.value)) {
            arena_adopt(arena, of_turn);
            return solution;
        }
        from = solution;
    }
    arena_close(last);
    return (LpSolution){.status = LP_FAILED, .remark = "changes did not settle"};
}

/* The rows after the base's that tie rations of one group alone: the later one's. */
static void give_to_later(Arena *arena, const YardProgram *yard, RationProgram *whole) {
    const PlanQuestion *question = yard->base->question;
    const int rows = lp_row_count(whole->lp);
    const LpTerms terms = lp_terms(whole->lp, arena);
    int *later = ARENA_ARRAY(arena, int, rows);
    bool *is_of_many = ARENA_ARRAY(arena, bool, rows);
    for (int i = 0; i < rows; i++)
        later[i] = -1;
    for (int j = 0; j < lp_column_count(whole->lp); j++) {
        const int block = whole->shape.block_of_column[j];
        for (int k = terms.start[j]; k < terms.start[j + 1]; k++) {
            const int row = terms.row[k];
            is_of_many[row] |=
                block < 0 || (later[row] >= 0 && question->blocks[later[row]].group !=
                                                     question->blocks[block].group);
            later[row] = block > later[row] ? block : later[row];
        }
    }
    int *block_of_row = ARENA_ARRAY(arena, int, rows);
    for (int i = 0; i < rows; i++)
        block_of_row[i] =
            i < yard->base_rows || is_of_many[i] ? whole->shape.block_of_row[i] : later[i];
    whole->shape.block_of_row = block_of_row;
}

RationProgram yard_linked_whole(Arena *arena, const YardProgram *yard, const double *fixed,
                                const LpSolution *solution, LpSolution *of_whole) {
    YardProgram awake = *yard;
    awake.is_idle = ARENA_ARRAY(arena, bool, lp_row_count(yard->lp));
    RationProgram whole = yard_held_program(arena, &awake, fixed);
    give_to_later(arena, yard, &whole);
    *of_whole = yard_held_near(arena, &whole, solution);
    of_whole->value = solution->value;
    of_whole->cost = solution->cost;
    return whole;
}
