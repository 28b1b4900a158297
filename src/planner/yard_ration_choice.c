#include "planner/yard_by_price_parts.h"
#include <math.h>

#define LEAN_SHARE                                                                             \
    1e-3 /* of what a kg costs: a feed that is not wanted seems so much dearer                 \
          */

/* ---- rules of each ration ---- */

/* Dry matter a head and day that comes to one bale in the weeks in which they come out whole;
 * 0: by any amount. */
static double bale_kg(const PriceSearch *search, int block, int feed) {
    const int at = block * search->question->feed_count + feed;
    const int bales = search->yard->bales[at];
    if (bales < 0 || search->not_whole[at])
        return 0.0;
    return 1.0 / yard_bales_per_eaten(&search->question->blocks[block],
                                      &search->question->feeds[feed]);
}

/* With bales or without; the feeds of the rule are those that fill, in the order of feeds. */
void yard_make_rules(PriceSearch *search, bool with_bales, int most_nodes) {
    const PlanQuestion *question = search->question;
    const FeedingRules *asked = &question->farm->winter.rules;
    for (int b = 0; b < question->block_count; b++) {
        int *column = ARENA_ARRAY(search->arena, int, question->feed_count);
        double *bale = ARENA_ARRAY(search->arena, double, question->feed_count);
        int count = 0;
        for (int f = 0; f < question->feed_count; f++) {
            const int eaten = search->yard->base->eaten[b * question->feed_count + f];
            if (eaten < 0 || !ration_feed_fills(&question->feeds[f]))
                continue;
            column[count] = eaten;
            bale[count++] = with_bales ? bale_kg(search, b, f) : 0.0;
        }
        search->rule[b] = (BlockRule){
            .count = count,
            .column = column,
            .bale = bale,
            .most = search->rules->is_on[YARD_RULE_MOST_FEEDS] ? asked->most_feeds : 0,
            .least_share =
                search->rules->is_on[YARD_RULE_LEAST_SHARE] ? asked->least_share : 0.0,
            .most_nodes = most_nodes,
        };
    }
}

/* The feed of the rule's item. */
static int feed_of(const PriceSearch *search, int block, int item) {
    const int feeds = search->question->feed_count;
    for (int f = 0; f < feeds; f++) {
        if (search->yard->base->eaten[block * feeds + f] == search->rule[block].column[item])
            return f;
    }
    return -1;
}

/* ---- the choice of one ration ---- */

/* A feed looks the dearer the less of it was wanted, and bales stay near how many were. */
void yard_lean(const PriceSearch *search, int block, bool is_near, double *added, double *least,
               double *most) {
    const PlanQuestion *question = search->question;
    const BlockRule *rule = &search->rule[block];
    const double *target = search->target + block * question->feed_count;
    double largest = GIVEN_KG;
    for (int f = 0; f < question->feed_count; f++)
        largest = fmax(largest, target[f]);
    for (int i = 0; i < rule->count; i++) {
        const int f = feed_of(search, block, i);
        const PlanBlock *of = &question->blocks[block];
        const double share = fmin(target[f] / largest, 1.0);
        added[i] = LEAN_SHARE * (1.0 - share) * plan_cost_per_eaten(question, block, f) *
                   of->head * of->days;
        least[i] = lp_column_least(search->open, rule->column[i]);
        most[i] = lp_column_most(search->open, rule->column[i]);
        if (search->is_narrow && target[f] <= GIVEN_KG)
            most[i] = least[i];
        if (!is_near || rule->bale[i] <= 0.0)
            continue;
        const double bales = target[f] / rule->bale[i];
        least[i] = fmax(floor(bales) - 1.0, 0.0) * rule->bale[i];
        most[i] = fmin(most[i], (ceil(bales) + 1.0) * rule->bale[i]);
    }
}

static LpStatus choose_ration(PriceSearch *search, int block, bool is_near,
                              const double *row_price, double *value) {
    const int count = search->rule[block].count;
    double *added = ARENA_ARRAY(search->arena, double, count);
    double *least = ARENA_ARRAY(search->arena, double, count);
    double *most = ARENA_ARRAY(search->arena, double, count);
    yard_lean(search, block, is_near, added, least, most);
    const BlockLean leaning = {added, least, most};
    return block_choice_of(search->of_ration, block, &search->rule[block], row_price, &leaning,
                           value);
}

bool yard_let_go(PriceSearch *search, int block, int item) {
    const int at = block * search->question->feed_count + feed_of(search, block, item);
    if (search->rule[block].bale[item] <= 0.0)
        return false;
    search->rule[block].bale[item] = 0.0;
    search->not_whole[at] = true;
    search->fixed[search->yard->bales[at]] = (double)NAN;
    lp_set_whole(search->yard->lp, search->yard->bales[at], false);
    return true;
}

/* Where bales will not come out whole, one stack's are let go, the first that helps, or else
 * all. */
static bool choose_without_bales(PriceSearch *search, int block, const double *row_price,
                                 double *value) {
    const BlockRule *rule = &search->rule[block];
    for (int i = 0; i < rule->count; i++) {
        const double before = rule->bale[i];
        if (before <= 0.0)
            continue;
        rule->bale[i] = 0.0;
        const LpStatus status = choose_ration(search, block, false, row_price, value);
        rule->bale[i] = before;
        if (status == LP_OPTIMAL)
            return yard_let_go(search, block, i);
    }
    for (int i = 0; i < rule->count; i++)
        yard_let_go(search, block, i);
    return choose_ration(search, block, false, row_price, value) == LP_OPTIMAL;
}

/* Holds a ration to the feeds and bales of a choice. */
void yard_take(PriceSearch *search, int block, const double *value) {
    const BlockRule *rule = &search->rule[block];
    for (int i = 0; i < rule->count; i++) {
        const int at = block * search->question->feed_count + feed_of(search, block, i);
        if (search->yard->used[at] >= 0)
            search->fixed[search->yard->used[at]] = value[i] > GIVEN_KG;
        if (rule->bale[i] > 0.0)
            search->fixed[search->yard->bales[at]] = round(value[i] / rule->bale[i]);
    }
}

/* One choice of every ration at given prices tells in which rations bales cannot be whole, or
 * not near what was wanted; false when a ration cannot keep the rules at all. */
bool yard_rations_can(PriceSearch *search, const double *row_price, bool *is_far) {
    double *value = ARENA_ARRAY(search->arena, double, search->question->feed_count);
    for (int b = 0; b < search->question->block_count; b++) {
        is_far[b] = false;
        if (search->rule[b].count == 0 ||
            choose_ration(search, b, true, row_price, value) == LP_OPTIMAL)
            continue;
        is_far[b] = true;
        if (choose_ration(search, b, false, row_price, value) != LP_OPTIMAL &&
            !choose_without_bales(search, b, row_price, value))
            return false;
    }
    return true;
}

/* Which feeds, and how many bales, is open again. */
void yard_free_ration(PriceSearch *search, int block) {
    const int feeds = search->question->feed_count;
    for (int i = block * feeds; i < (block + 1) * feeds; i++) {
        if (search->yard->used[i] >= 0)
            search->fixed[search->yard->used[i]] = (double)NAN;
        if (search->yard->bales[i] >= 0)
            search->fixed[search->yard->bales[i]] = (double)NAN;
    }
}
