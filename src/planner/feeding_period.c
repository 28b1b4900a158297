#include "planner/feeding_period.h"

#define MOST_CUTS 400

/* Cuts are days on which a new period begins. A change of stage and the ends of a figure of the
 * farm's own always stand; a month's turn only where no other cut, and neither end of the
 * winter, is near. */
typedef struct {
    Day first, last;
    bool is_cut[MOST_CUTS]; /* by days since the first */
} Cuts;

static bool in_winter(const Cuts *cuts, Day day) {
    return calendar_days_between(cuts->first, day) > 0 &&
           calendar_days_between(day, cuts->last) >= 0;
}

static void cut(Cuts *cuts, Day day) {
    if (in_winter(cuts, day))
        cuts->is_cut[calendar_days_between(cuts->first, day)] = true;
}

static bool has_cut_near(const Cuts *cuts, int at) {
    const int days = calendar_days_between(cuts->first, cuts->last) + 1;
    if (at < SHORTEST_PERIOD_DAYS || days - at < SHORTEST_PERIOD_DAYS)
        return true;
    for (int d = at - SHORTEST_PERIOD_DAYS + 1; d < at + SHORTEST_PERIOD_DAYS; d++) {
        if (cuts->is_cut[d])
            return true;
    }
    return false;
}

static void cut_stages(Cuts *cuts, const HerdGroup *group) {
    if (group->is_bred) {
        cut(cuts, calendar_add(group->calving_start, -LATE_PREGNANCY_DAYS));
        cut(cuts, group->calving_start);
        cut(cuts, calendar_add(group->calving_end, 1));
        if (group->has_weaning)
            cut(cuts, group->weaning);
    }
    if (group->has_target)
        cut(cuts, group->target_date);
}

/* So that no period mixes a figure with what else would hold. */
static void cut_own_needs(Cuts *cuts, const Farm *farm, const HerdGroup *group) {
    for (int i = 0; i < farm->own_needs.count; i++) {
        const OwnNeed *own = &farm->own_needs.needs[i];
        if (&farm->herd.groups[own->group] != group)
            continue;
        cut(cuts, own->from);
        cut(cuts, calendar_add(own->until, 1));
    }
}

static void cut_heads(Cuts *cuts, const Farm *farm, const HerdGroup *group) {
    for (int i = 0; i < farm->head_changes.count; i++) {
        const HeadChange *change = &farm->head_changes.changes[i];
        if (&farm->herd.groups[change->group] == group)
            cut(cuts, change->date);
    }
}

/* A feed that comes or goes within a week after (before) another cut begins (ends) with that
 * cut: nobody changes a ration for a few days, and being late with a feed is never wrong. Later
 * starts are placed first, earlier ends first, so that a run of near dates falls on one day. */
static bool has_cut_between(const Cuts *cuts, int from, int to) {
    const int days = calendar_days_between(cuts->first, cuts->last) + 1;
    for (int d = from < 0 ? 0 : from; d <= to && d < days; d++) {
        if (cuts->is_cut[d])
            return true;
    }
    return false;
}

typedef struct {
    bool starts[MOST_CUTS], ends[MOST_CUTS];
} Comings;

static void note_allowance(const Cuts *cuts, const HerdGroup *group, const Allowance *allowance,
                           Comings *comings) {
    if (!allowance_covers(allowance, group->name))
        return;
    const Day after = calendar_add(allowance->until, 1);
    if (in_winter(cuts, allowance->from))
        comings->starts[calendar_days_between(cuts->first, allowance->from)] = true;
    if (in_winter(cuts, after))
        comings->ends[calendar_days_between(cuts->first, after)] = true;
}

/* A feed that has to lie for some days first begins when they are over. */
static void note_days_kept(const Cuts *cuts, const Farm *farm, const Feedstuff *feed,
                           Day put_up, Comings *comings) {
    for (int i = 0; i < farm->limits.count; i++) {
        const SafetyLimit *limit = &farm->limits.limits[i];
        if (limit->kind != LIMIT_DAYS_KEPT || !limit_covers(limit, feed))
            continue;
        const Day day = limit_kept_until(limit, put_up);
        if (in_winter(cuts, day))
            comings->starts[calendar_days_between(cuts->first, day)] = true;
    }
}

static void cut_allowances(Arena *arena, Cuts *cuts, const Farm *farm, const HerdGroup *group) {
    Comings *comings = ARENA_NEW(arena, Comings);
    const Inventory *inventory = &farm->inventory;
    for (int i = 0; i < inventory->stacks.count; i++) {
        const Stack *stack = &inventory->stacks.stacks[i];
        note_allowance(cuts, group, &stack->allowance, comings);
        if (allowance_covers(&stack->allowance, group->name))
            note_days_kept(cuts, farm, &stack->feed, stack->put_up, comings);
    }
    for (int i = 0; i < inventory->for_sale.count; i++) {
        const Offer *offer = &inventory->for_sale.offers[i];
        note_allowance(cuts, group, &offer->allowance, comings);
        if (allowance_covers(&offer->allowance, group->name))
            note_days_kept(cuts, farm, &offer->feed, offer->allowance.from, comings);
    }
    const int days = calendar_days_between(cuts->first, cuts->last) + 1;
    for (int d = 0; d < days; d++) {
        if (comings->ends[d] && !has_cut_between(cuts, d - SHORTEST_PERIOD_DAYS + 1, d))
            cuts->is_cut[d] = true;
    }
    for (int d = days - 1; d >= 0; d--) {
        if (comings->starts[d] && !has_cut_between(cuts, d, d + SHORTEST_PERIOD_DAYS - 1))
            cuts->is_cut[d] = true;
    }
}

static void cut_months(Cuts *cuts) {
    Day day = calendar_first_of_next_month(cuts->first);
    while (in_winter(cuts, day)) {
        const int at = calendar_days_between(cuts->first, day);
        if (!has_cut_near(cuts, at))
            cuts->is_cut[at] = true;
        day = calendar_first_of_next_month(day);
    }
}

int feeding_periods(Arena *arena, const Farm *farm, const HerdGroup *group,
                    const FeedingPeriod **periods) {
    Cuts *cuts = ARENA_NEW(arena, Cuts);
    cuts->first = farm->winter.first_day;
    cuts->last = farm->winter.last_day;
    cut_stages(cuts, group);
    cut_own_needs(cuts, farm, group);
    cut_heads(cuts, farm, group);
    cut_allowances(arena, cuts, farm, group);
    cut_months(cuts);
    const int days = winter_days(&farm->winter);
    FeedingPeriod *list = ARENA_ARRAY(arena, FeedingPeriod, days);
    int count = 0;
    for (int d = 0; d < days; d++) {
        const Day day = calendar_add(cuts->first, d);
        if (d == 0 || cuts->is_cut[d])
            list[count++].from = day;
        list[count - 1].to = day;
    }
    *periods = list;
    return count;
}
