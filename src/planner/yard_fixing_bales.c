/* Whole bales of yard_fixing.c: rounded from even rations, with the feeds already chosen. */
#include "planner/steady_ration.h"
#include "planner/yard_fixing_parts.h"
#include "planner/yard_search.h"
#include <math.h>

/* The even rations with the feeds so far chosen: bales are rounded from these. */
static const double *even_target(FixSearch *search) {
    RationProgram program = *search->yard->base;
    program.lp = search->yard->lp;
    bool is_steady;
    return steady_rations(search->arena, &program, &search->best, NULL, NULL, &is_steady);
}

/* The column of a ration with the fewest bales that are not whole yet: the many are rounded
 * last, when a bale more or less is a small share. -1: none is left. */
static int fewest_bales(const FixSearch *search, int block, const double *even,
                        const bool *is_done) {
    int fewest = -1;
    for (int f = 0; f < search->question->own_count; f++) {
        const int column = search->yard->bales[yard_fix_cell(search, block, f)];
        if (column >= 0 && !is_done[column] && (fewest < 0 || even[column] < even[fewest]))
            fewest = column;
    }
    return fewest;
}

/* Rounded the other way, or a bale further off, or not at all. */
static bool round_otherwise(FixSearch *search, int column, double wanted) {
    const double nearest = round(wanted);
    const double side = nearest > wanted ? -1.0 : 1.0;
    const double others[] = {nearest + side, nearest - side, nearest + 2.0 * side};
    const double most = lp_column_most(search->yard->lp, column);
    for (int i = 0; i < 3; i++) {
        if (others[i] >= 0.0 && others[i] <= most && yard_fix_one(search, column, others[i]))
            return true;
    }
    return false;
}

static void give_up_whole(FixSearch *search, int column) {
    for (int i = 0; i < yard_fix_cells(search); i++) {
        if (search->yard->bales[i] == column)
            search->not_whole[i] = true;
    }
    lp_set_whole(search->yard->lp, column, false);
}

static int one_pass(FixSearch *search, const double *even, bool *is_done) {
    const int blocks = search->question->block_count;
    Fix *fixes = ARENA_ARRAY(search->arena, Fix, blocks);
    bool *has_failed = ARENA_ARRAY(search->arena, bool, blocks);
    int count = 0;
    for (int b = 0; b < blocks; b++) {
        const int column = fewest_bales(search, b, even, is_done);
        if (column < 0)
            continue;
        is_done[column] = true;
        const double nearest =
            fmin(round(even[column]), floor(lp_column_most(search->yard->lp, column)));
        fixes[count++] = (Fix){column, nearest, nearest};
    }
    yard_fix_all(search, fixes, count, has_failed);
    for (int i = 0; i < count; i++) {
        if (has_failed[i] && !round_otherwise(search, fixes[i].column, even[fixes[i].column]))
            give_up_whole(search, fixes[i].column);
    }
    return count;
}

bool yard_fix_bales(FixSearch *search) {
    if (!yard_has_any(search->yard->bales, yard_fix_cells(search)))
        return true;
    const double *even = even_target(search);
    bool *is_done = ARENA_ARRAY(search->arena, bool, lp_column_count(search->yard->lp));
    while (one_pass(search, even, is_done) > 0)
        ;
    return yard_fix_may_solve(search);
}
