/* Evens out the smaller program of steady_program.c, all groups together or, on a large farm,
 * one after the other, and sweeps out crumbs. */
#include "planner/steady_ration.h"
#include "planner/steady_prices.h"
#include "planner/winter_plan.h"
#include <math.h>
#include <string.h>

#define JOINT_BLOCKS 400 /* rations; of more, each group by itself: quicker, less steady */

/* ---- crumbs ---- */

/* Columns that would be swept together: one feed of one group, or one serving. */
typedef struct {
    int first_block, block_count, feed;
    double size;
} Crumb;

static double serving(const Steady *steady, int block, int feed) {
    const int column = steady_column(steady, block, feed);
    return column >= 0 ? steady->best.value[column] : 0.0;
}

static int blocks_of_group(const PlanQuestion *question, int first) {
    int count = 0;
    while (first + count < question->block_count &&
           question->blocks[first + count].group == question->blocks[first].group)
        count++;
    return count;
}

static int group_crumbs(const Steady *steady, Crumb *crumbs) {
    const PlanQuestion *question = steady->program->question;
    int count = 0;
    for (int first = 0; first < question->block_count;
         first += blocks_of_group(question, first)) {
        const int blocks = blocks_of_group(question, first);
        double all = 0.0;
        double days = 0.0;
        for (int b = first; b < first + blocks; b++) {
            days += question->blocks[b].days;
            for (int f = 0; f < question->feed_count; f++)
                all += serving(steady, b, f) * question->blocks[b].days;
        }
        for (int f = 0; f < question->feed_count; f++) {
            double of_feed = 0.0;
            for (int b = first; b < first + blocks; b++)
                of_feed += serving(steady, b, f) * question->blocks[b].days;
            const double share =
                ration_feed_fills(&question->feeds[f]) ? CRUMB_SHARE : SMALL_CRUMB_SHARE;
            if (of_feed > 1e-6 && of_feed < share * all)
                crumbs[count++] = (Crumb){first, blocks, f, of_feed / days};
        }
    }
    return count;
}

/* A feed bought for the whole herd, of which hardly a load is wanted. */
static int purchase_crumbs(const Steady *steady, Crumb *crumbs) {
    const PlanQuestion *question = steady->program->question;
    int count = 0;
    for (int f = question->own_count; f < question->feed_count; f++) {
        const PlanFeed *feed = &question->feeds[f];
        double eaten = 0.0;
        double days = 0.0;
        for (int b = 0; b < question->block_count; b++) {
            const PlanBlock *block = &question->blocks[b];
            eaten += serving(steady, b, f) * block->head * block->days;
            days += block->head * block->days;
        }
        if (eaten > 1e-6 &&
            eaten * plan_taken_per_eaten(feed) < CRUMB_LOAD_SHARE * feed->load_kg)
            crumbs[count++] = (Crumb){0, question->block_count, f, eaten / days};
    }
    return count;
}

static int serving_crumbs(const Steady *steady, Crumb *crumbs) {
    const PlanQuestion *question = steady->program->question;
    int count = 0;
    for (int b = 0; b < question->block_count; b++) {
        for (int f = 0; f < question->feed_count; f++) {
            const double kg = serving(steady, b, f);
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

/* The columns of a crumb, [blocks of the question]; how many. */
static int crumb_columns(const Steady *steady, const Crumb *crumb, int *columns) {
    int count = 0;
    for (int b = crumb->first_block; b < crumb->first_block + crumb->block_count; b++) {
        const int column = steady_column(steady, b, crumb->feed);
        if (column >= 0)
            columns[count++] = column;
    }
    return count;
}

static void price_crumbs(Steady *steady, const Crumb *crumbs, int count, bool is_dear) {
    int *columns = ARENA_ARRAY(steady->arena, int, steady->program->question->block_count);
    for (int i = 0; i < count; i++) {
        const int of_crumb = crumb_columns(steady, &crumbs[i], columns);
        for (int c = 0; c < of_crumb; c++)
            lp_set_cost(steady->lp, columns[c],
                        is_dear ? crumb_cost(&crumbs[i]) : steady->base_cost[columns[c]]);
    }
}

static void bar_crumb(Steady *steady, const Crumb *crumb) {
    int *columns = ARENA_ARRAY(steady->arena, int, steady->program->question->block_count);
    const int count = crumb_columns(steady, crumb, columns);
    for (int c = 0; c < count; c++)
        lp_set_column_bounds(steady->lp, columns[c], 0.0, 0.0);
}

static bool has_gone(const Steady *steady, const Crumb *crumb) {
    for (int b = crumb->first_block; b < crumb->first_block + crumb->block_count; b++) {
        if (serving(steady, b, crumb->feed) > 1e-9)
            return false;
    }
    return true;
}

static int list_crumbs(const Steady *steady, Crumb *crumbs) {
    int count = purchase_crumbs(steady, crumbs);
    count += group_crumbs(steady, crumbs + count);
    return count + serving_crumbs(steady, crumbs + count);
}

/* Makes the crumbs dear and bars those that are then done without: there is always an answer,
 * and each solve starts from the last. True when any went. */
static bool bar_crumbs(Steady *steady, Crumb *crumbs) {
    const int count = list_crumbs(steady, crumbs);
    bool any = false;
    price_crumbs(steady, crumbs, count, true);
    const bool is_solved = count > 0 && steady_solve(steady);
    price_crumbs(steady, crumbs, count, false);
    for (int i = 0; is_solved && i < count; i++) {
        if (!has_gone(steady, &crumbs[i]))
            continue;
        bar_crumb(steady, &crumbs[i]);
        any = true;
    }
    return any;
}

/* Evens out again what is left. True when any went. */
static bool sweep_out(Steady *steady, Crumb *crumbs) {
    const LpSolution before = steady->best;
    const double *value_before = steady->value;
    if (bar_crumbs(steady, crumbs) && steady_solve(steady))
        return true;
    steady->best = before;
    steady->best.basis = steady_basis(steady, &before.basis);
    steady->value = value_before;
    return false;
}

static void sweep_crumbs(Steady *steady) {
    const PlanQuestion *question = steady->program->question;
    Crumb *crumbs = ARENA_ARRAY(steady->arena, Crumb,
                                (2 * question->block_count + 1) * question->feed_count);
    for (int pass = 0; pass < SWEEP_PASSES && sweep_out(steady, crumbs); pass++)
        continue;
}

/* Evens out one group, or all, of the plan whose values are `value`, at no more than `most`
 * cost; NULL when that does not finish. Where what was swept out before cannot be done without
 * any more, it begins anew. */
static const double *evened(Arena *arena, const RationProgram *program, const LpTerms *terms,
                            const LpSolution *solution, const double *value, int group,
                            double most, SteadyStart *start) {
    Steady steady;
    const bool is_first = start && start->row_count == 0 &&
                          steady_groups_at_prices(program, terms, solution, most, start);
    steady_program(&steady, arena, program, terms, solution, value, group, most, start);
    if (is_first)
        steady_bring_together(&steady, solution);
    bool is_solved = steady_solve(&steady);
    if (!is_solved && start && start->row_count > 0) {
        steady_program(&steady, arena, program, terms, solution, value, group, most, NULL);
        is_solved = steady_solve(&steady);
    }
    if (!is_solved)
        return NULL;
    sweep_crumbs(&steady);
    if (start)
        steady_take_start(start, &steady);
    return steady.value;
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

/* One group after the other. What they may cost more is shared out by what they cost. */
static const double *evened_by_group(Arena *arena, const RationProgram *program,
                                     const LpTerms *terms, const LpSolution *solution,
                                     double more) {
    const int columns = lp_column_count(program->lp);
    const int groups = program->question->farm->herd.count;
    double *value = ARENA_ARRAY(arena, double, columns);
    memcpy(value, solution->value, (size_t)columns * sizeof *value);
    const double all = cost_of(program, value, -1);
    bool any = false;
    for (int g = 0; g < groups; g++) {
        Arena *scratch = arena_open();
        double now = 0.0;
        for (int j = 0; j < columns; j++)
            now += lp_cost(program->lp, j) * value[j];
        const double share = all > 0.0 ? cost_of(program, value, g) / all : 1.0 / groups;
        const double *found = evened(scratch, program, terms, solution, value, g,
                                     now + fmax(more * share, 1e-6), NULL);
        if (found)
            memcpy(value, found, (size_t)columns * sizeof *value);
        any = any || found;
        arena_close(scratch);
    }
    return any ? value : NULL;
}

static const double *copied(Arena *arena, const double *value, int count) {
    if (!value)
        return NULL;
    double *copy = ARENA_ARRAY(arena, double, count);
    memcpy(copy, value, (size_t)count * sizeof *copy);
    return copy;
}

const double *steady_rations(Arena *arena, const RationProgram *program,
                             const LpSolution *solution, SteadyStart *start, bool *is_steady) {
    Arena *scratch = arena_open();
    const LpTerms terms = lp_terms(program->lp, scratch);
    const double more = fmax(fabs(solution->cost) * STEADY_COST_SHARE, 1e-6);
    const double *found = program->question->block_count > JOINT_BLOCKS
                              ? evened_by_group(scratch, program, &terms, solution, more)
                              : evened(scratch, program, &terms, solution, solution->value, -1,
                                       solution->cost + more, start);
    const double *value = copied(arena, found, lp_column_count(program->lp));
    *is_steady = value != NULL;
    arena_close(scratch);
    return value ? value : solution->value;
}
