/* Which feeds are in each ration, where a change ties the rations of a group: what a ration has
 * beside its main feeds is made dearer, and dearer again, until it is gone, and all rations
 * give way together. A feed is the more of a main one the more of it the periods before and
 * after have, since one that comes and goes uses up changes. */
#include "planner/yard_fixing_parts.h"
#include <math.h>

#define FIRST_WEIGHT 0.05 /* of what a kilogram of the ration costs */
#define HEAVIER 2.0
#define PASSES 12
#define GIVEN_SHARE 1e-6  /* of a ration's dry matter */
#define LIKELY_SHARE 0.6  /* of the least share: less of a feed goes, more comes up to it */
#define NEIGHBOUR 0.5     /* of a share in the period before or after, less further away */
#define LEAST_PRICE 1e-3  /* a kilogram, of feed that costs nothing */
#define WANTED_TELLS 1e-9 /* between feeds of one share */

typedef struct {
    FixSearch *search;
    double *share;   /* [block_count * feed_count] of the dry matter of what counts */
    double *price;   /* [block_count] of a kilogram of it, on all days */
    double *without; /* by column: what it costs without any weight */
    int reach;       /* periods before and after that tell what a main feed is */
} Thinning;

static bool counts(const Thinning *thin, int block, int feed) {
    return thin->search->yard->used[yard_fix_cell(thin->search, block, feed)] >= 0;
}

/* ---- what there is ---- */

static void read_shares(Thinning *thin) {
    const FixSearch *search = thin->search;
    const PlanQuestion *question = search->question;
    for (int b = 0; b < question->block_count; b++) {
        const PlanBlock *block = &question->blocks[b];
        double all = 0.0;
        double cost = 0.0;
        for (int f = 0; f < question->feed_count; f++) {
            const int at = yard_fix_cell(search, b, f);
            thin->share[at] =
                counts(thin, b, f) ? search->best.value[search->yard->base->eaten[at]] : 0.0;
            all += thin->share[at];
            cost += thin->share[at] * plan_cost_per_eaten(question, b, f);
        }
        all = fmax(all, GIVEN_SHARE);
        for (int f = 0; f < question->feed_count; f++)
            thin->share[yard_fix_cell(search, b, f)] /= all;
        thin->price[b] = fmax(cost / all, LEAST_PRICE) * block->head * block->days;
    }
}

static double share_of_group(const Thinning *thin, int block, int feed, int group) {
    const PlanQuestion *question = thin->search->question;
    return block >= 0 && block < question->block_count && question->blocks[block].group == group
               ? thin->share[yard_fix_cell(thin->search, block, feed)]
               : 0.0;
}

/* How much of a main feed it is. */
static double standing(const Thinning *thin, int block, int feed) {
    const int at = yard_fix_cell(thin->search, block, feed);
    const int group = thin->search->question->blocks[block].group;
    double sum = thin->share[at] + WANTED_TELLS * thin->search->target[at];
    for (int away = 1; away <= thin->reach; away++)
        sum += NEIGHBOUR / away *
               (share_of_group(thin, block - away, feed, group) +
                share_of_group(thin, block + away, feed, group));
    return sum;
}

/* ---- what must go ---- */

static bool is_beyond_the_most(const Thinning *thin, int block, int feed) {
    const int most = thin->search->question->farm->winter.rules.most_feeds;
    const double own = standing(thin, block, feed);
    int before = 0;
    for (int other = 0; other < thin->search->question->feed_count; other++) {
        const double its = standing(thin, block, other);
        before += other != feed && counts(thin, block, other) &&
                  (its > own || (its == own && other < feed));
    }
    return before >= most;
}

static bool must_go(const Thinning *thin, int block, int feed) {
    const FixSearch *search = thin->search;
    const double least = search->question->farm->winter.rules.least_share;
    const double share = thin->share[yard_fix_cell(search, block, feed)];
    return (search->has_least && share < LIKELY_SHARE * least) ||
           (search->has_most && is_beyond_the_most(thin, block, feed));
}

/* Weighs what must go; how much of it is still given. */
static int weigh(Thinning *thin, double weight) {
    const FixSearch *search = thin->search;
    const YardProgram *yard = search->yard;
    int left = 0;
    for (int b = 0; b < search->question->block_count; b++) {
        for (int f = 0; f < search->question->feed_count; f++) {
            const int at = yard_fix_cell(search, b, f);
            if (!counts(thin, b, f))
                continue;
            const int column = yard->base->eaten[at];
            const bool goes = must_go(thin, b, f);
            left += goes && thin->share[at] > GIVEN_SHARE;
            lp_set_cost(yard->lp, column,
                        thin->without[column] + (goes ? weight * thin->price[b] : 0.0));
        }
    }
    return left;
}

bool yard_fix_thin(FixSearch *search, int reach) {
    LinearProgram *lp = search->yard->lp;
    const int columns = lp_column_count(lp);
    Thinning thin = {
        .search = search,
        .share = ARENA_ARRAY(search->arena, double, yard_fix_cells(search)),
        .price = ARENA_ARRAY(search->arena, double, search->question->block_count),
        .without = ARENA_ARRAY(search->arena, double, columns),
        .reach = reach,
    };
    for (int j = 0; j < columns; j++)
        thin.without[j] = lp_cost(lp, j);
    double weight = FIRST_WEIGHT;
    bool is_solved = true;
    for (int pass = 0; pass < PASSES && is_solved; pass++, weight *= HEAVIER) {
        read_shares(&thin);
        if (weigh(&thin, weight) == 0)
            break;
        is_solved = yard_fix_solve(search, START_COSTS_CHANGED);
    }
    read_shares(&thin);
    for (int j = 0; j < columns; j++)
        lp_set_cost(lp, j, thin.without[j]);
    for (int i = 0; i < yard_fix_cells(search); i++) {
        if (search->yard->used[i] >= 0 && thin.share[i] <= GIVEN_SHARE)
            lp_set_column_bounds(lp, search->yard->used[i], 0.0, 0.0);
    }
    return is_solved && yard_fix_solve(search, START_COSTS_CHANGED);
}
