#include "planner/yard_search.h"
#include "planner/yard_by_price.h"
#include "planner/yard_faces.h"
#include "planner/yard_fixing.h"
#include "planner/yard_held.h"
#include "planner/yard_linked.h"
#include <math.h>

/* ---- faces ---- */

static const LpEffort FACES = {1000, 60000, 1e-4};

bool yard_has_any(const int *columns, int count) {
    for (int i = 0; i < count; i++) {
        if (columns[i] >= 0)
            return true;
    }
    return false;
}

/* Of the simplex, with faces free and then in all of the tree: of a large program fewer, for
 * each takes longer. */
#define FACE_ITERATIONS_TIMES_ROWS 2e8

#define FACE_ROWS 8000 /* of more a tree over faces ends with nothing */

static bool take_turns(Arena *arena, const YardProgram *faces, const LpSolution *near,
                       const YardProgram *yard, YardChoice *choice) {
    double *fixed = ARENA_ARRAY(arena, double, lp_column_count(faces->lp));
    for (int j = 0; j < lp_column_count(faces->lp); j++)
        fixed[j] = (double)NAN;
    if (!yard_faces_in_turn(arena, faces, near, fixed))
        return false;
    choice->bound = fmax(choice->bound, near->cost - YARD_LINKED_GAP * fabs(near->cost));
    for (int i = 0; i < faces->slice_count * yard->base->question->feed_count; i++) {
        if (faces->open[i] >= 0)
            choice->fixed[yard->open[i]] = fixed[faces->open[i]];
    }
    return true;
}

/* Faces by branch and bound with all else free, into the columns of the yard; false when none
 * were found. */
static bool choose_faces(Arena *arena, const YardProgram *yard, const LpSolution *near,
                         const YardRules *rules, YardChoice *choice) {
    YardRules of_faces = {{false}};
    of_faces.is_on[YARD_RULE_LEAST_FACE] = rules->is_on[YARD_RULE_LEAST_FACE];
    of_faces.is_on[YARD_RULE_ONE_FACE] = rules->is_on[YARD_RULE_ONE_FACE];
    of_faces.is_on[YARD_RULE_LARGEST_CHANGE] = rules->is_on[YARD_RULE_LARGEST_CHANGE];
    const YardProgram faces = yard_program(arena, yard->base, &of_faces);
    const int count = faces.slice_count * yard->base->question->feed_count;
    if (!yard_has_any(faces.open, count))
        return true;
    if (lp_row_count(faces.lp) > FACE_ROWS)
        return take_turns(arena, &faces, near, yard, choice);
    const LpBasis basis = yard_basis(arena, &faces, &near->basis);
    LpEffort effort = FACES;
    effort.iterations = (int)fmin(FACES.iterations, FACE_ITERATIONS_TIMES_ROWS /
                                                        fmax(lp_row_count(faces.lp), 1.0));
    const LpSolution free =
        lp_solve(faces.lp, arena, START_BOUNDS_CHANGED, &basis, effort.iterations);
    if (free.status == LP_INFEASIBLE)
        return false;
    if (free.status != LP_OPTIMAL)
        return take_turns(arena, &faces, near, yard, choice);
    const LpWhole whole = lp_solve_whole(faces.lp, arena, &free.basis, NULL, effort);
    if (whole.status == LP_INFEASIBLE)
        return false;
    if (whole.status != LP_OPTIMAL)
        return take_turns(arena, &faces, near, yard, choice);
    choice->bound = fmax(choice->bound, whole.bound);
    for (int i = 0; i < count; i++) {
        if (faces.open[i] >= 0)
            choice->fixed[yard->open[i]] = whole.value[faces.open[i]];
    }
    return true;
}

/* Faces first; the rest by price. */
static LpStatus search_by_price(Arena *arena, const YardProgram *yard, const LpSolution *near,
                                const YardRules *rules, const double *target, double bound,
                                YardChoice *choice) {
    *choice = (YardChoice){.bound = bound};
    choice->fixed = ARENA_ARRAY(arena, double, lp_column_count(yard->lp));
    for (int j = 0; j < lp_column_count(yard->lp); j++)
        choice->fixed[j] = (double)NAN;
    if (!choose_faces(arena, yard, near, rules, choice))
        return LP_FAILED;
    return yard_search_by_price(arena, yard, near, rules, target, choice);
}

/* ---- the tree ---- */

/* A node takes a time that grows with the program, and so do the nodes that are wanted: many of
 * a small program, hardly any of a large one, where the quick answer is the better. */
#define NODES_TIMES_ROWS_SQUARED 3e8
#define MOST_ITERATIONS 15000
#define TREE_ROWS 3000 /* of more the tree finds nothing that the prices have not */
/* Of more the whole program takes longer than anyone waits for, where prices can be asked. */
#define FIXING_ROWS 12000
#define BALE_FIXING_ROWS 4000 /* of more it finds no bales beside the other rules either */
#define MUCH_OPEN 5e-3        /* of the cost */
#define LET_GO_COSTS 1e-3   /* of it: what bales of one feed in a ration may cost; own choice */
#define ALL_BALES_COST 0.05 /* of it: what keeping any to whole bales may; own choice */

double *yard_columns_fixed(Arena *arena, const LinearProgram *lp, const double *value) {
    double *fixed = ARENA_ARRAY(arena, double, lp_column_count(lp));
    for (int j = 0; j < lp_column_count(lp); j++)
        fixed[j] = lp_is_whole(lp, j) ? round(value[j]) : (double)NAN;
    return fixed;
}

static int most_nodes(const LinearProgram *lp) {
    const double rows = fmax(lp_row_count(lp), 100.0);
    return (int)(NODES_TIMES_ROWS_SQUARED / (rows * rows)) + 1;
}

/* What a tree found is taken when it is cheaper and can be held. */
static void take_better(Arena *arena, const YardProgram *yard, const LpWhole *whole,
                        const LpBasis *start, YardChoice *choice) {
    if (whole->cost >= choice->cost * (1.0 - YARD_GAP / 10.0))
        return;
    const YardChoice better = {.fixed = yard_columns_fixed(arena, yard->lp, whole->value)};
    yard_hold(yard, &better);
    const LpSolution solution = lp_solve(yard->lp, arena, START_BOUNDS_CHANGED, start, 0);
    if (solution.status == LP_OPTIMAL) {
        choice->fixed = better.fixed;
        choice->cost = solution.cost;
    } else {
        yard_hold(yard, choice);
    }
}

/* Where a choice is not near its bound: the whole tree, from that choice on. `free` is the
 * program as it was before any column was held. */
static void search_on(Arena *arena, const YardProgram *yard, const LinearProgram *free,
                      const LpBasis *start, YardChoice *choice) {
    if (choice->cost - choice->bound <= YARD_GAP * fabs(choice->cost))
        return;
    const LpSolution root = lp_solve(free, arena, START_BOUNDS_CHANGED, start, 0);
    if (root.status != LP_OPTIMAL)
        return;
    yard_hold(yard, choice);
    const LpSolution known = lp_solve(yard->lp, arena, START_BOUNDS_CHANGED, &root.basis, 0);
    if (known.status != LP_OPTIMAL)
        return;
    LinearProgram *lp = lp_copy(free, arena);
    for (int j = 0; j < lp_column_count(lp); j++)
        lp_set_whole(lp, j, lp_is_whole(yard->lp, j));
    const LpEffort effort = {most_nodes(lp), MOST_ITERATIONS, YARD_GAP};
    const LpWhole whole = lp_solve_whole(lp, arena, &root.basis, known.value, effort);
    choice->nodes = whole.nodes;
    if (whole.status != LP_OPTIMAL)
        return;
    choice->bound = fmax(choice->bound, fmin(whole.bound, choice->cost));
    take_better(arena, yard, &whole, &known.basis, choice);
}

/* ---- all of it ---- */

/* Where changes are held: the program without a whole number tells which of them matter, and
 * is itself a bound. */
static LpStatus link_periods(Arena *arena, const YardProgram *yard, LpSolution *near,
                             double *bound) {
    double *nothing_fixed = ARENA_ARRAY(arena, double, lp_column_count(yard->lp));
    for (int j = 0; j < lp_column_count(yard->lp); j++)
        nothing_fixed[j] = (double)NAN;
    RationProgram held;
    BlockProgram *blocks;
    const LpSolution linked =
        yard_linked_solve(arena, yard, nothing_fixed, near, &held, &blocks);
    if (linked.status == LP_OPTIMAL) {
        *bound = linked.cost - YARD_LINKED_GAP * fabs(linked.cost);
        *near = linked;
    }
    return linked.status;
}

/* Bales beside a change, and no rule of feeds, come out whole oftener over the whole program,
 * where that does not take too long. */
static bool is_to_be_fixed(const YardProgram *yard, const YardRules *rules) {
    return yard_ties_periods(rules) && rules->is_on[YARD_RULE_WHOLE_BALES] &&
           !yard_chooses_feeds(rules) && lp_row_count(yard->lp) <= FIXING_ROWS;
}

static int bales_let_go(const YardProgram *yard, const YardChoice *choice) {
    const PlanQuestion *question = yard->base->question;
    int count = 0;
    for (int i = 0; i < question->block_count * question->feed_count; i++)
        count += choice->not_whole[i];
    return count;
}

/* Whether it may pay to fix the whole program too: where much is open, or bales are not whole.
 */
static bool may_be_better_fixed(const YardProgram *yard, const YardRules *rules,
                                const YardChoice *choice) {
    const int most = rules->is_on[YARD_RULE_WHOLE_BALES] ? BALE_FIXING_ROWS : FIXING_ROWS;
    return yard_ties_periods(rules) && lp_row_count(yard->lp) <= most &&
           (bales_let_go(yard, choice) > 0 ||
            choice->cost - choice->bound > MUCH_OPEN * fabs(choice->cost));
}

static double cost_and_bales(const YardProgram *yard, const YardChoice *choice) {
    return choice->cost + LET_GO_COSTS * bales_let_go(yard, choice) * fabs(choice->cost);
}

static bool is_better(const YardProgram *yard, const YardChoice *one, const YardChoice *than) {
    if (than->is_without_bales)
        return one->cost <= than->cost * (1.0 + ALL_BALES_COST);
    return cost_and_bales(yard, one) < cost_and_bales(yard, than);
}

/* Takes what is found so where it is the better. */
static void fix_too(Arena *arena, const YardProgram *yard, const LinearProgram *free,
                    const bool *is_whole, const LpBasis *start, const YardRules *rules,
                    const double *target, YardChoice *choice) {
    if (!may_be_better_fixed(yard, rules, choice))
        return;
    YardProgram other = *yard;
    other.lp = lp_copy(free, arena);
    for (int j = yard->base_columns; j < lp_column_count(free); j++)
        lp_set_whole(other.lp, j, is_whole[j]);
    YardChoice fixed;
    if (!yard_fix(arena, &other, start, rules, target, NULL, &fixed) ||
        !is_better(yard, &fixed, choice))
        return;
    fixed.bound = fmin(choice->bound, fixed.cost);
    *choice = fixed;
    for (int j = yard->base_columns; j < lp_column_count(free); j++)
        lp_set_whole(yard->lp, j, lp_is_whole(other.lp, j));
}

bool yard_search(Arena *arena, const YardProgram *yard, const LpSolution *first,
                 const YardRules *rules, const double *target, YardChoice *choice) {
    LpSolution near = *first;
    double bound = -NO_LIMIT;
    if (yard_ties_periods(rules) && link_periods(arena, yard, &near, &bound) == LP_INFEASIBLE)
        return false;
    const LpBasis start = yard_basis(arena, yard, &first->basis);
    bool *is_whole = ARENA_ARRAY(arena, bool, lp_column_count(yard->lp));
    for (int j = 0; j < lp_column_count(yard->lp); j++)
        is_whole[j] = lp_is_whole(yard->lp, j);
    const LpStatus by_price =
        is_to_be_fixed(yard, rules)
            ? LP_FAILED
            : search_by_price(arena, yard, &near, rules, target, bound, choice);
    if (by_price == LP_INFEASIBLE)
        return false;
    const LinearProgram *free = lp_copy(yard->lp, arena);
    if (by_price == LP_OPTIMAL) {
        fix_too(arena, yard, free, is_whole, &first->basis, rules, target, choice);
        yard_hold(yard, choice);
        if (lp_row_count(yard->lp) <= TREE_ROWS)
            search_on(arena, yard, free, &start, choice);
        return true;
    }
    if (lp_row_count(yard->lp) > FIXING_ROWS ||
        !yard_fix(arena, yard, &first->basis, rules, target, NULL, choice))
        return false;
    choice->bound = fmin(fmax(choice->bound, bound), choice->cost);
    search_on(arena, yard, free, &start, choice);
    return true;
}

void yard_hold(const YardProgram *yard, const YardChoice *choice) {
    for (int j = 0; j < lp_column_count(yard->lp); j++) {
        if (isfinite(choice->fixed[j]))
            lp_set_column_bounds(yard->lp, j, choice->fixed[j], choice->fixed[j]);
    }
}
