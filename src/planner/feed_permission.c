#include "planner/feed_permission.h"

static double water_of(const Winter *winter, Nutrient nutrient) {
    return water_adds(nutrient, winter->water_sulfate_mg_per_l, winter->water_nitrate_mg_per_l);
}

/* Whether a feed may not be fed at all under a limit on each feed alone: not where what it
 * looks at was not tested, and not for water that other feed would bring along too. */
static bool breaks_alone(const SafetyLimit *limit, const Winter *winter, const PlanFeed *feed) {
    const double value = feed->eaten[limit->nutrient];
    if (limit->subject == SUBJECT_HEATED)
        return (feed->feed->watch & WATCH_BIT(WATCH_HEATED)) && value > limit->above;
    return value > 0.0 && value + water_of(winter, limit->nutrient) > limit->hard;
}

/* A share of nothing. */
static bool is_share_of_none(const SafetyLimit *limit, const PlanFeed *feed) {
    return limit->kind == LIMIT_SHARE && limit->side == SIDE_MOST && limit->hard <= 0.0 &&
           limit_covers(limit, feed->feed);
}

bool feed_hangs_on_others(const PlanFeed *feed) {
    return feed->feed->feed_class == FEED_CLASS_NPN;
}

/* No diet of feeds below the line is above it. Whether one with a feed above it is, only the
 * plan can tell, and "no urea, or little nitrate" is no linear program: so the urea goes. */
int feed_above(const PlanQuestion *question, int block, double nitrate_pct) {
    const double water = water_of(&question->farm->winter, NUTRIENT_NITRATE);
    int most = -1;
    for (int f = 0; f < question->feed_count; f++) {
        const double nitrate = question->feeds[f].eaten[NUTRIENT_NITRATE];
        if (!feed_hangs_on_others(&question->feeds[f]) && nitrate + water > nitrate_pct &&
            plan_permission(question, block, f) == MAY_BE_FED &&
            (most < 0 || nitrate > question->feeds[most].eaten[NUTRIENT_NITRATE]))
            most = f;
    }
    return most;
}

static bool is_kept_too_short(const SafetyLimit *limit, const PlanFeed *feed, Day from) {
    return limit->kind == LIMIT_DAYS_KEPT && limit_covers(limit, feed->feed) &&
           calendar_days_between(limit_kept_until(limit, feed->put_up), from) < 0;
}

static bool bars(const PlanQuestion *question, const SafetyLimit *limit, int block, int feed) {
    const PlanFeed *of = &question->feeds[feed];
    if (limit->subject == SUBJECT_UREA_BESIDE)
        return feed_hangs_on_others(of) && feed_above(question, block, limit->above) >= 0;
    if (limit->kind == LIMIT_EACH_FEED)
        return breaks_alone(limit, &question->farm->winter, of);
    return is_share_of_none(limit, of) ||
           is_kept_too_short(limit, of, question->blocks[block].from);
}

const SafetyLimit *limit_that_bars(const PlanQuestion *question, int block, int feed) {
    const Farm *farm = question->farm;
    const PlanBlock *of = &question->blocks[block];
    for (int i = 0; i < farm->limits.count; i++) {
        const SafetyLimit *limit = &farm->limits.limits[i];
        if (limit_applies(limit, of->need.stages, farm->herd.groups[of->group].delivery) &&
            bars(question, limit, block, feed))
            return limit;
    }
    return NULL;
}

Permission feed_permission(const PlanQuestion *question, int block, int feed,
                           const SafetyLimit **barred_by) {
    const PlanBlock *of = &question->blocks[block];
    const Allowance *allowance = question->feeds[feed].allowance;
    *barred_by = NULL;
    if (!allowance_covers(allowance, question->farm->herd.groups[of->group].name))
        return NOT_FOR_THAT_GROUP;
    if (plan_is_past_hauling(question, feed) ||
        calendar_days_between(allowance->from, of->from) < 0 ||
        calendar_days_between(of->to, allowance->until) < 0)
        return NOT_AT_THAT_TIME;
    *barred_by = limit_that_bars(question, block, feed);
    return *barred_by ? OVER_A_LIMIT : MAY_BE_FED;
}
