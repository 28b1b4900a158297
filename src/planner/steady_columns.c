/* Which columns of the cheapest plan's program evening out may move. */
#include "planner/steady_program.h"

#define GIVEN_KG 1e-6  /* a head and day */
#define IS_PASSED 1e-6 /* of the way from a caution line to the hard one */

/* Only feeds that the cheapest plan gives a group at some time are evened out for it: it keeps
 * the program small, and what it never gave would seldom make a ration steadier. What does not
 * fall short is held there, and has no column. */
static void mark_given(const RationProgram *program, const double *value, bool *is_kept) {
    const PlanQuestion *question = program->question;
    const int feeds = question->feed_count;
    for (int j = 0; j < lp_column_count(program->lp); j++)
        is_kept[j] = steady_block_of(program, j) < 0 || value[j] > 0.0;
    for (int b = 0; b < question->block_count; b++)
        is_kept[program->microbial[b]] = true;
    for (int f = 0; f < feeds; f++) {
        for (int first = 0; first < question->block_count;) {
            const int last = first + plan_blocks_of_group(question, first);
            bool is_given = false;
            for (int b = first; b < last; b++) {
                const int column = program->eaten[b * feeds + f];
                is_given = is_given || (column >= 0 && value[column] > GIVEN_KG);
            }
            for (int b = first; b < last; b++) {
                if (program->eaten[b * feeds + f] >= 0)
                    is_kept[program->eaten[b * feeds + f]] = is_given;
            }
            first = last;
        }
    }
}

static int line_of(const RationProgram *program, const RationLimit *limit) {
    return (int)(limit->safety - program->question->farm->limits.limits);
}

/* Whether a group passes the caution line of each limit of the farm in some of its blocks. */
static void find_passed(const RationProgram *program, const double *value, int first, int last,
                        bool *is_passed) {
    for (int i = 0; i < program->question->farm->limits.count; i++)
        is_passed[i] = false;
    for (int b = first; b < last; b++) {
        const BlockLimits *of = &program->blocks[b];
        for (int i = 0; i < of->count; i++) {
            if (of->beyond[i] >= 0 && value[of->beyond[i]] > IS_PASSED)
                is_passed[line_of(program, of->limits[i])] = true;
        }
    }
}

/* A caution line that the cheapest plan never passes with a group is not passed for steadiness;
 * one that it does pass may be in any period. */
static void mark_passed(const Steady *steady, const double *value, bool *is_kept,
                        bool *is_shut) {
    const RationProgram *program = steady->program;
    const PlanQuestion *question = program->question;
    bool *is_passed = ARENA_ARRAY(steady->arena, bool, question->farm->limits.count);
    for (int first = 0; first < question->block_count;) {
        const int last = first + plan_blocks_of_group(question, first);
        find_passed(program, value, first, last, is_passed);
        for (; first < last; first++) {
            const BlockLimits *of = &program->blocks[first];
            for (int i = 0; i < of->count; i++) {
                if (of->beyond[i] < 0)
                    continue;
                is_kept[of->beyond[i]] = is_passed[line_of(program, of->limits[i])];
                is_shut[of->beyond[i]] = !is_kept[of->beyond[i]];
            }
        }
    }
}

void steady_keep_columns(Steady *steady, const LpSolution *solution, const SteadyStart *start) {
    const LinearProgram *whole = steady->program->lp;
    const int columns = lp_column_count(whole);
    bool *is_kept = ARENA_ARRAY(steady->arena, bool, columns);
    bool *is_shut = ARENA_ARRAY(steady->arena, bool, columns);
    mark_given(steady->program, solution->value, is_kept);
    mark_passed(steady, solution->value, is_kept, is_shut);
    for (int j = 0; j < columns; j++) {
        is_kept[j] |= start && start->column[j] != 0;
        const bool is_basic = solution->basis.column[j] == BASIC;
        const bool is_left_out = steady_is_held(steady, steady_block_of(steady->program, j));
        steady->column_of[j] = is_left_out ? -1
                               : is_basic || (is_kept[j] && lp_column_most(whole, j) > 0.0)
                                   ? lp_add_column(steady->lp, 0.0, lp_column_least(whole, j),
                                                   is_shut[j] ? 0.0 : lp_column_most(whole, j))
                                   : -1;
        if (steady->column_of[j] >= 0)
            steady->whole_of[steady->column_of[j]] = j;
    }
    steady->eaten_columns = lp_column_count(steady->lp);
}
