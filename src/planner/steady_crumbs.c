#include "planner/steady_crumbs.h"
#include "planner/steady_ration.h"
#include <math.h>

#define WORTH_A_PASS 0.2 /* share of the crumbs that must go for another; own choice */
#define MANY_CRUMBS 40   /* one in so many columns; measured on farms S and M */

/* Columns that would be swept together: one feed of one group, or one serving. */
typedef struct {
    int first_block, block_count, feed;
    double size;
} Crumb;

static double serving(const Steady *steady, int block, int feed) {
    const int column = steady_column(steady, block, feed);
    return column >= 0 ? steady->best.value[column] : 0.0;
}

static int group_crumbs(const Steady *steady, Crumb *crumbs) {
    const PlanQuestion *question = steady->program->question;
    int count = 0;
    for (int first = 0; first < question->block_count;
         first += plan_blocks_of_group(question, first)) {
        const int blocks = plan_blocks_of_group(question, first);
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
#define CRUMB_COST 10.0
#define CRUMB_MOST_COST 1e5

static double crumb_cost(const Crumb *crumb) {
    return fmin(CRUMB_COST / fmax(crumb->size, 1e-9), CRUMB_MOST_COST);
}

/* The next column of a crumb after that of `block`, which becomes its block; -1: no more. */
static int next_column(const Steady *steady, const Crumb *crumb, int *block) {
    int column = -1;
    while (column < 0 && ++*block < crumb->first_block + crumb->block_count)
        column = steady_column(steady, *block, crumb->feed);
    return column;
}

static void price_crumbs(Steady *steady, const Crumb *crumbs, int count, bool is_dear) {
    for (int i = 0; i < count; i++) {
        int block = crumbs[i].first_block - 1;
        for (int column; (column = next_column(steady, &crumbs[i], &block)) >= 0;)
            lp_set_cost(steady->lp, column,
                        is_dear ? crumb_cost(&crumbs[i]) : steady->base_cost[column]);
    }
}

static void bar_crumb(Steady *steady, const Crumb *crumb) {
    int block = crumb->first_block - 1;
    for (int column; (column = next_column(steady, crumb, &block)) >= 0;)
        lp_set_column_bounds(steady->lp, column, 0.0, 0.0);
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

/* Bars the crumbs that the dear solution does without; how many. */
static int bar_gone(Steady *steady, const Crumb *crumbs, int count) {
    int gone = 0;
    for (int i = 0; i < count; i++) {
        if (!has_gone(steady, &crumbs[i]))
            continue;
        bar_crumb(steady, &crumbs[i]);
        gone++;
    }
    return gone;
}

/* Makes the crumbs dear and bars those that are then done without; there is always an answer.
 * How many. The basis it ends at is where the next such solve begins: what was barred is 0 in
 * it already, and most of the crumbs are the same. */
static int bar_crumbs(Steady *steady, Crumb *crumbs, int count, LpBasis *dear) {
    price_crumbs(steady, crumbs, count, true);
    const bool is_solved = steady_solve(steady, START_COSTS_CHANGED, dear);
    price_crumbs(steady, crumbs, count, false);
    if (!is_solved)
        return 0;
    *dear = steady->best.basis;
    return bar_gone(steady, crumbs, count);
}

/* Evens out what is left: after a few were barred from where it was even, which only the bars
 * have broken, and after many from where they were dear. */
static bool even_again(Steady *steady, const LpBasis *even, const LpBasis *dear, int gone) {
    return gone * MANY_CRUMBS > steady->eaten_columns
               ? steady_solve(steady, START_COSTS_CHANGED, dear)
               : steady_solve(steady, START_BOUNDS_CHANGED, even);
}

/* True when enough went for another pass. */
static bool sweep_out(Steady *steady, Crumb *crumbs, LpBasis *dear) {
    const LpSolution before = steady->best;
    const int count = list_crumbs(steady, crumbs);
    const int gone = count > 0 ? bar_crumbs(steady, crumbs, count, dear) : 0;
    if (gone > 0 && even_again(steady, &before.basis, dear, gone))
        return gone >= WORTH_A_PASS * count;
    steady->best = before;
    steady->best.basis = steady_basis(steady, &before.basis);
    return false;
}

/* One of each feed of the herd, and of each group and each ration that is evened out. */
static int most_crumbs(const Steady *steady) {
    const PlanQuestion *question = steady->program->question;
    int rations = 0;
    for (int b = 0; b < question->block_count; b++)
        rations += !steady_is_held(steady, b);
    return (2 * rations + 1) * question->feed_count;
}

void steady_sweep_crumbs(Steady *steady) {
    Crumb *crumbs = ARENA_ARRAY(steady->arena, Crumb, most_crumbs(steady));
    LpBasis dear = steady->best.basis;
    for (int pass = 0; pass < SWEEP_PASSES && sweep_out(steady, crumbs, &dear); pass++)
        continue;
}
