/* A second program over the first: one row holds the cost, one row a feed and pair of
 * neighbouring periods splits the change into a rise and a fall, and the sum of both is the
 * aim. It starts from the first program's basis with whichever of rise and fall is in use made
 * basic, which is feasible. */
#include "planner/steady_ration.h"
#include "planner/winter_plan.h"
#include <math.h>
#include <string.h>

/* Besides steadiness, a grain of weight on every ration kilogram keeps needless feed out. */
#define WEIGHT_PER_KG 1e-4
#define GIVEN_KG 1e-6 /* a head and day */

typedef struct {
    int before, after; /* columns of one feed in neighbouring periods; -1: not allowed there */
    double weight;
    int rise, fall, row;
} Change;

/* Only feeds that the cheapest plan gives a group at some time are evened out for it: it keeps
 * the program small, and what it never gave would seldom make a ration steadier. */
static bool is_given(const RationProgram *program, const double *value, int block, int feed) {
    const PlanQuestion *question = program->question;
    const int group = question->blocks[block].group;
    for (int b = 0; b < question->block_count; b++) {
        const int column = program->eaten[b * question->feed_count + feed];
        if (question->blocks[b].group == group && column >= 0 && value[column] > GIVEN_KG)
            return true;
    }
    return false;
}

static void bar_what_is_not_given(LinearProgram *lp, const RationProgram *program,
                                  const double *value) {
    const PlanQuestion *question = program->question;
    for (int b = 0; b < question->block_count; b++) {
        for (int f = 0; f < question->feed_count; f++) {
            const int column = program->eaten[b * question->feed_count + f];
            if (column >= 0 && !is_given(program, value, b, f))
                lp_set_column_bounds(lp, column, 0.0, 0.0);
        }
    }
}

static int list_changes(Arena *arena, const RationProgram *program, const double *value,
                        const Change **changes) {
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
            if (before < 0 || after < 0 || !is_given(program, value, b, f))
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
        change->rise = lp_add_column(lp, arena_print(arena, "rise_%d", i + 1), change->weight,
                                     0.0, NO_LIMIT);
        change->fall = lp_add_column(lp, arena_print(arena, "fall_%d", i + 1), change->weight,
                                     0.0, NO_LIMIT);
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

/* ---- crumbs ---- */

/* Columns that would be swept together: one feed of one group, or one serving. */
typedef struct {
    int first_block, block_count, feed;
    double size;
} Crumb;

typedef struct {
    Arena *arena;
    const RationProgram *program;
    LinearProgram *lp;
    LpSolution best;
} Sweep;

static double serving(const Sweep *sweep, int block, int feed) {
    const int column =
        sweep->program->eaten[block * sweep->program->question->feed_count + feed];
    return column >= 0 ? sweep->best.value[column] : 0.0;
}

static int blocks_of_group(const PlanQuestion *question, int first) {
    int count = 0;
    while (first + count < question->block_count &&
           question->blocks[first + count].group == question->blocks[first].group)
        count++;
    return count;
}

static int group_crumbs(const Sweep *sweep, Crumb *crumbs) {
    const PlanQuestion *question = sweep->program->question;
    int count = 0;
    for (int first = 0; first < question->block_count;
         first += blocks_of_group(question, first)) {
        const int blocks = blocks_of_group(question, first);
        double all = 0.0;
        double days = 0.0;
        for (int b = first; b < first + blocks; b++) {
            days += question->blocks[b].days;
            for (int f = 0; f < question->feed_count; f++)
                all += serving(sweep, b, f) * question->blocks[b].days;
        }
        for (int f = 0; f < question->feed_count; f++) {
            double of_feed = 0.0;
            for (int b = first; b < first + blocks; b++)
                of_feed += serving(sweep, b, f) * question->blocks[b].days;
            const double share =
                ration_feed_fills(&question->feeds[f]) ? CRUMB_SHARE : SMALL_CRUMB_SHARE;
            if (of_feed > 1e-6 && of_feed < share * all)
                crumbs[count++] = (Crumb){first, blocks, f, of_feed / days};
        }
    }
    return count;
}

/* A feed bought for the whole herd, of which hardly a load is wanted. */
static int purchase_crumbs(const Sweep *sweep, Crumb *crumbs) {
    const PlanQuestion *question = sweep->program->question;
    int count = 0;
    for (int f = question->own_count; f < question->feed_count; f++) {
        const PlanFeed *feed = &question->feeds[f];
        double eaten = 0.0;
        double days = 0.0;
        for (int b = 0; b < question->block_count; b++) {
            const PlanBlock *block = &question->blocks[b];
            eaten += serving(sweep, b, f) * block->head * block->days;
            days += block->head * block->days;
        }
        if (eaten > 1e-6 &&
            eaten * plan_taken_per_eaten(feed) < CRUMB_LOAD_SHARE * feed->load_kg)
            crumbs[count++] = (Crumb){0, question->block_count, f, eaten / days};
    }
    return count;
}

static int serving_crumbs(const Sweep *sweep, Crumb *crumbs) {
    const PlanQuestion *question = sweep->program->question;
    int count = 0;
    for (int b = 0; b < question->block_count; b++) {
        for (int f = 0; f < question->feed_count; f++) {
            const double kg = serving(sweep, b, f);
            if (kg > 1e-6 && kg < CRUMB_KG && ration_feed_fills(&question->feeds[f]) &&
                question->feeds[f].feed->feed_class != FEED_CLASS_MEAL)
                crumbs[count++] = (Crumb){b, 1, f, kg};
        }
    }
    return count;
}

/* What is asked of the columns of a crumb: a cost that no steadiness outweighs, or nothing but
 * 0. The smaller the crumb the dearer a kilogram of it, so that a small one counts like a large
 * one. */
#define CRUMB_COST 50.0
#define CRUMB_MOST_COST 1e5

static double crumb_cost(const Crumb *crumb) {
    return fmin(CRUMB_COST / fmax(crumb->size, 1e-9), CRUMB_MOST_COST);
}

typedef void SetColumn(LinearProgram *lp, int column, double to);

static void set_cost(LinearProgram *lp, int column, double to) { lp_set_cost(lp, column, to); }

static void set_most(LinearProgram *lp, int column, double to) {
    lp_set_column_bounds(lp, column, 0.0, to);
}

static void set_crumb(Sweep *sweep, const Crumb *crumb, SetColumn *set, double to) {
    const int feeds = sweep->program->question->feed_count;
    for (int b = crumb->first_block; b < crumb->first_block + crumb->block_count; b++) {
        const int column = sweep->program->eaten[b * feeds + crumb->feed];
        if (column >= 0)
            set(sweep->lp, column, to);
    }
}

static bool has_gone(const Sweep *sweep, const Crumb *crumb) {
    for (int b = crumb->first_block; b < crumb->first_block + crumb->block_count; b++) {
        if (serving(sweep, b, crumb->feed) > 1e-9)
            return false;
    }
    return true;
}

static bool solve_anew(Sweep *sweep) {
    const LpSolution solution = lp_solve(sweep->lp, sweep->arena, START_COSTS_CHANGED,
                                         &sweep->best.basis, STEADY_ITERATIONS);
    if (solution.status == LP_OPTIMAL)
        sweep->best = solution;
    return solution.status == LP_OPTIMAL;
}

/* Makes the crumbs dear, takes out those that are then done without, and evens the rest out
 * again: there is always an answer, and each solve starts from the last. True when any went. */
static bool sweep_out(Sweep *sweep, const Crumb *crumbs, int count) {
    const LpSolution before = sweep->best;
    bool any = false;
    for (int i = 0; i < count; i++)
        set_crumb(sweep, &crumbs[i], set_cost, crumb_cost(&crumbs[i]));
    const bool is_solved = count > 0 && solve_anew(sweep);
    for (int i = 0; i < count; i++)
        set_crumb(sweep, &crumbs[i], set_cost, WEIGHT_PER_KG);
    for (int i = 0; is_solved && i < count; i++) {
        if (!has_gone(sweep, &crumbs[i]))
            continue;
        set_crumb(sweep, &crumbs[i], set_most, 0.0);
        any = true;
    }
    if (any && solve_anew(sweep))
        return true;
    sweep->best = before;
    return false;
}

static const double *without_crumbs(Arena *arena, const RationProgram *program,
                                    LinearProgram *lp, LpSolution steady) {
    const PlanQuestion *question = program->question;
    Sweep sweep = {arena, program, lp, steady};
    Crumb *crumbs = ARENA_ARRAY(arena, Crumb, question->block_count * question->feed_count);
    bool has_more = true;
    for (int pass = 0; pass < SWEEP_PASSES && has_more; pass++) {
        const bool loads = sweep_out(&sweep, crumbs, purchase_crumbs(&sweep, crumbs));
        const bool feeds = sweep_out(&sweep, crumbs, group_crumbs(&sweep, crumbs));
        const bool servings = sweep_out(&sweep, crumbs, serving_crumbs(&sweep, crumbs));
        has_more = loads || feeds || servings;
    }
    return sweep.best.value;
}

const double *steady_rations(Arena *arena, const RationProgram *program,
                             const LpSolution *solution, bool *is_steady) {
    const Change *listed;
    const int count = list_changes(arena, program, solution->value, &listed);
    *is_steady = false;
    Change *changes = ARENA_ARRAY(arena, Change, count + 1);
    if (count > 0)
        memcpy(changes, listed, (size_t)count * sizeof *changes);
    LinearProgram *lp = lp_copy(program->lp, arena);
    bar_what_is_not_given(lp, program, solution->value);
    add_changes(arena, lp, changes, count, solution);
    const LpBasis basis = start_basis(arena, lp, changes, count, solution);
    const LpSolution steady =
        lp_solve(lp, arena, START_COSTS_CHANGED, &basis, STEADY_ITERATIONS);
    if (steady.status != LP_OPTIMAL)
        return solution->value;
    *is_steady = true;
    return without_crumbs(arena, program, lp, steady);
}
