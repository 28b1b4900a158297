#include "planner/ration_caution.h"
#include <math.h>

static bool is_most(const RationLimit *limit) { return limit->safety->side == SIDE_MOST; }

/* What a kg of a feed adds to the row of a line, above 0 on its harmful side. */
static double harm(const RationLimit *limit, double line, int feed) {
    const double base = limit->base ? (limit->added - line) * limit->base[feed] : 0.0;
    return (is_most(limit) ? 1.0 : -1.0) * (limit->per_kg[feed] + base);
}

/* The side that the sum of harm must not pass. */
static double harmless(const RationLimit *limit, double line) {
    if (limit->base)
        return 0.0;
    return is_most(limit) ? line : -line;
}

bool limit_can_be_passed(const RationLimit *limit, double line, const int *feed, int count) {
    bool can_pass = harmless(limit, line) < 0.0;
    for (int k = 0; k < count && !can_pass; k++)
        can_pass = harm(limit, line, feed[k]) > 0.0;
    return can_pass;
}

bool caution_is_held(const RationLimit *limit, const int *feed, int count) {
    return limit->caution_price > 0.0 && limit_can_be_passed(limit, limit->warn, feed, count);
}

double caution_way(const RationLimit *limit, const Requirement *need) {
    const double way = fabs((is_most(limit) ? limit->most : limit->least) - limit->warn);
    return limit->base ? way * limit->usual_base * USUAL_INTAKE_SHARE * need->live_weight.kg
                       : way;
}

double caution_share(const RationLimit *limit, const Requirement *need, int feed_count,
                     const double *eaten) {
    double beyond = -harmless(limit, limit->warn);
    for (int f = 0; f < feed_count; f++)
        beyond += eaten[f] > 0.0 ? harm(limit, limit->warn, f) * eaten[f] : 0.0;
    return fmax(beyond, 0.0) / caution_way(limit, need);
}

/* How far a feed is from warn to hard; what is not known is not beyond. */
static double share_of_feed(const SafetyLimit *limit, const Winter *winter,
                            const PlanFeed *feed) {
    const double value = feed->eaten[limit->nutrient];
    if (!(value > 0.0))
        return 0.0;
    const double water = water_adds(limit->nutrient, winter->water_sulfate_mg_per_l,
                                    winter->water_nitrate_mg_per_l);
    return fmin(fmax((value + water - limit->warn) / (limit->hard - limit->warn), 0.0), 1.0);
}

double caution_of_feed(const PlanQuestion *question, int block, int feed) {
    const Farm *farm = question->farm;
    const PlanBlock *of = &question->blocks[block];
    const HerdGroup *group = &farm->herd.groups[of->group];
    double price = 0.0;
    for (int i = 0; i < farm->limits.count; i++) {
        const SafetyLimit *limit = &farm->limits.limits[i];
        if (limit->kind == LIMIT_EACH_FEED && limit->subject == SUBJECT_NUTRIENT &&
            limit->caution_price > 0.0 && limit->warn != limit->hard &&
            limit_applies(limit, of->need.stages, group->delivery))
            price += limit->caution_price *
                     share_of_feed(limit, &farm->winter, &question->feeds[feed]);
    }
    return price * farm->winter.caution_weight / (USUAL_INTAKE_SHARE * of->need.live_weight.kg);
}

double caution_of_ration(const PlanQuestion *question, int block,
                         const RationLimit *const *limits, int limit_count,
                         const double *eaten) {
    const Requirement *need = &question->blocks[block].need;
    double weight = 0.0;
    for (int i = 0; i < limit_count; i++) {
        if (limits[i]->caution_price > 0.0)
            weight += limits[i]->caution_price *
                      caution_share(limits[i], need, question->feed_count, eaten);
    }
    for (int f = 0; f < question->feed_count; f++) {
        if (eaten[f] > 0.0)
            weight += eaten[f] * caution_of_feed(question, block, f);
    }
    return weight;
}
