/* One winter, day by day. Each group eats its planned ration times what it needs over what it
 * was planned to need. When a stack ends, other forage of that ration takes its place in
 * proportion, by energy, as far as they can eat; when there is none, or it has not the energy
 * for that, any other forage in the yard they may have then; grain, pellets and meals are never
 * raised. What then still lacks is short. */
#include "planner/hard_winter_work.h"
#include <limits.h>
#include <string.h>

#define EMPTY_SHARE 1e-3 /* of a stack that counts as ended, as in runout.h */
#define NOTHING 1e-9     /* of a day's energy */

static DayRation day_ration(Arena *arena, const HardWinterModel *model) {
    const int groups = model->group_count;
    return (DayRation){.given = ARENA_ARRAY(arena, Given, groups * model->feed_count),
                       .asked_kg = ARENA_ARRAY(arena, double, model->feed_count),
                       .days = ARENA_ARRAY(arena, GroupDay, groups)};
}

HardWinterWork *hard_winter_work(Arena *arena, const HardWinterModel *model) {
    HardWinterWork *work = ARENA_NEW(arena, HardWinterWork);
    const int feeds = model->feed_count;
    const int groups = model->group_count;
    double *of_feeds = ARENA_ARRAY(arena, double, 8 * feeds);
    work->stock_kg = of_feeds;
    work->energy = of_feeds + feeds;
    work->gain_energy = of_feeds + 2 * feeds;
    work->taken_per_dry = of_feeds + 3 * feeds;
    work->left_kg = of_feeds + 4 * feeds;
    work->empty_kg = of_feeds + 5 * feeds;
    work->end_day = of_feeds + 6 * feeds;
    work->gap_left_kg = of_feeds + 7 * feeds;
    work->departure_c = ARENA_ARRAY(arena, double, model->month_count);
    work->group_short = ARENA_ARRAY(arena, double, groups);
    work->group_cold = ARENA_ARRAY(arena, double, groups);
    work->first_scale = ARENA_ARRAY(arena, int, groups);
    work->at_span = ARENA_ARRAY(arena, int, groups);
    work->planned = day_ration(arena, model);
    work->today = day_ration(arena, model);
    work->asked_of_day = ARENA_ARRAY(arena, double, model->most_days *feeds);
    int spans = 0;
    for (int g = 0; g < groups; g++) {
        work->first_scale[g] = spans;
        spans += model->groups[g].count;
    }
    work->scale = ARENA_ARRAY(arena, double, spans);
    return work;
}

/* ---- a day as planned ---- */

static void give(const HardWinterWork *work, DayRation *day, int group, const Serving *serving,
                 double dry_kg) {
    const int feed = serving->feed;
    day->given[day->given_count++] =
        (Given){group, feed, dry_kg, dry_kg * serving->nem * work->energy[feed]};
    day->asked_kg[feed] += dry_kg * work->taken_per_dry[feed];
}

/* The day's ration as planned, times the scale. */
static void give_ration(const HardWinterModel *model, int group, HardWinterWork *work) {
    const int span = work->at_span[group];
    const FedBlock *block = &model->blocks[model->groups[group].spans[span].block];
    const double times = work->scale[work->first_scale[group] + span] * block->head;
    GroupDay *day = &work->planned.days[group];
    *day = (GroupDay){
        .put_out_kg = block->put_out_kg * times,
        .room = larger_of(block->most_kg * block->head, block->filling_kg * times),
    };
    for (int i = 0; i < block->serving_count; i++) {
        const Serving *serving = &block->servings[i];
        const double dry_kg = serving->eaten_kg * times;
        day->wanted += dry_kg * serving->nem * work->energy[serving->feed];
        give(work, &work->planned, group, serving, dry_kg);
    }
    day->lack = day->wanted;
}

/* All rations of a day, and how long nobody's changes. */
static void plan_day(const HardWinterModel *model, int day, HardWinterWork *work) {
    work->planned.given_count = 0;
    work->planned_to = work->last_day;
    memset(work->planned.asked_kg, 0,
           (size_t)model->feed_count * sizeof *work->planned.asked_kg);
    for (int g = 0; g < model->group_count; g++) {
        const GroupSpans *spans = &model->groups[g];
        while (spans->spans[work->at_span[g]].to < day)
            work->at_span[g]++;
        const int to = spans->spans[work->at_span[g]].to;
        work->planned_to = to < work->planned_to ? to : work->planned_to;
        give_ration(model, g, work);
    }
}

static bool is_all_there(const HardWinterModel *model, const HardWinterWork *work) {
    for (int f = 0; f < model->feed_count; f++) {
        if (work->planned.asked_kg[f] > work->left_kg[f])
            return false;
    }
    return true;
}

/* Nobody lacks anything then. */
static void take_as_planned(const HardWinterModel *model, HardWinterWork *work) {
    for (int f = 0; f < model->feed_count; f++)
        work->left_kg[f] = larger_of(work->left_kg[f] - work->planned.asked_kg[f], 0.0);
}

/* ---- a day on which a stack has less ---- */

static bool is_there(const HardWinterWork *work, int feed) {
    return work->left_kg[feed] > NOTHING * work->stock_kg[feed] && work->left_kg[feed] > 0.0;
}

/* In proportion to the ration; reserves, which are in none, to what there is of them. */
static double part_of(const HardWinterWork *work, const Serving *serving) {
    if (!is_there(work, serving->feed))
        return 0.0;
    return serving->eaten_kg > 0.0
               ? serving->eaten_kg
               : work->left_kg[serving->feed] / work->taken_per_dry[serving->feed];
}

/* What some forages are together, in their parts. */
typedef struct {
    double dry, nem;
} Mix;

static double forage_part(const HardWinterWork *work, const Serving *serving) {
    return serving->is_forage ? part_of(work, serving) : 0.0;
}

static Mix mix_of(const Serving *servings, int count, const HardWinterWork *work) {
    Mix mix = {0.0, 0.0};
    for (int i = 0; i < count; i++) {
        const double part = forage_part(work, &servings[i]);
        mix.dry += part;
        mix.nem += part * servings[i].nem * work->energy[servings[i].feed];
    }
    return mix;
}

/* For all that lacks, as far as there is room. */
static void give_mix(const Serving *servings, int count, Mix mix, int group,
                     HardWinterWork *work) {
    const GroupDay *day = &work->today.days[group];
    const double times = smaller_of(day->lack / mix.nem, day->room / mix.dry);
    for (int i = 0; i < count; i++) {
        const double part = forage_part(work, &servings[i]);
        if (part > 0.0)
            give(work, &work->today, group, &servings[i], part * times);
    }
}

/* Forage of the ration, unless there is none or they cannot eat so much of it and there is
 * better in the yard. */
static void give_instead(const HardWinterModel *model, int group, HardWinterWork *work) {
    const GroupDay *day = &work->today.days[group];
    const FedSpan *span = &model->groups[group].spans[work->at_span[group]];
    const FedBlock *block = &model->blocks[span->block];
    if (day->lack <= NOTHING * day->wanted || day->room <= NOTHING * block->head)
        return;
    const Mix ration = mix_of(block->servings, block->serving_count, work);
    if (!(ration.nem > 0.0 && day->lack * ration.dry <= day->room * ration.nem)) {
        const Mix reserve = mix_of(block->reserves, block->reserve_count, work);
        const bool is_better = reserve.nem * ration.dry > ration.nem * reserve.dry;
        if (reserve.nem > 0.0 && (!(ration.nem > 0.0) || is_better)) {
            give_mix(block->reserves, block->reserve_count, reserve, group, work);
            return;
        }
    }
    if (ration.nem > 0.0)
        give_mix(block->servings, block->serving_count, ration, group, work);
}

/* Takes what was given from the stacks; of a stack that does not have so much, each its share.
 */
static void take(HardWinterWork *work) {
    DayRation *today = &work->today;
    for (int i = 0; i < today->given_count; i++) {
        const Given *given = &today->given[i];
        const double there = larger_of(work->left_kg[given->feed], 0.0);
        const double asked = today->asked_kg[given->feed];
        const double share = asked > there ? there / asked : 1.0;
        GroupDay *day = &today->days[given->group];
        day->lack -= share * given->nem;
        day->room -= share * given->dry_kg;
    }
    for (int i = 0; i < today->given_count; i++) {
        const int feed = today->given[i].feed;
        work->left_kg[feed] = larger_of(work->left_kg[feed] - today->asked_kg[feed], 0.0);
        today->asked_kg[feed] = 0.0;
    }
    today->given_count = 0;
}

static void begin_as_planned(const HardWinterModel *model, HardWinterWork *work) {
    const DayRation *planned = &work->planned;
    DayRation *today = &work->today;
    today->given_count = planned->given_count;
    memcpy(today->given, planned->given, (size_t)planned->given_count * sizeof *today->given);
    memcpy(today->asked_kg, planned->asked_kg,
           (size_t)model->feed_count * sizeof *today->asked_kg);
    memcpy(today->days, planned->days, (size_t)model->group_count * sizeof *today->days);
}

static void feed_short_day(const HardWinterModel *model, HardWinterWork *work) {
    DayRation *today = &work->today;
    begin_as_planned(model, work);
    for (int pass = 0; pass <= model->feed_count && today->given_count > 0; pass++) {
        bool is_short_of_stock = false;
        for (int i = 0; i < today->given_count; i++) {
            const int feed = today->given[i].feed;
            is_short_of_stock |= today->asked_kg[feed] > work->left_kg[feed];
        }
        take(work);
        if (!is_short_of_stock)
            return;
        for (int g = 0; g < model->group_count; g++)
            give_instead(model, g, work);
    }
}

static void note_short(const HardWinterModel *model, int day, HardWinterWork *work) {
    for (int g = 0; g < model->group_count; g++) {
        const GroupDay *of = &work->today.days[g];
        if (of->lack <= SHORT_DAY_SHARE * of->wanted)
            continue;
        work->short_kg += of->put_out_kg * of->lack / of->wanted;
        work->group_short[g] = smaller_of(work->group_short[g], day);
        work->short_day = smaller_of(work->short_day, day);
    }
}

/* ---- a winter ---- */

static void note_ended(const HardWinterModel *model, int day, HardWinterWork *work) {
    for (int f = 0; f < model->feed_count; f++) {
        if (work->left_kg[f] <= work->empty_kg[f] && work->end_day[f] >= NO_DAY)
            work->end_day[f] = day;
    }
}

static void begin_winter(const HardWinterModel *model, int day, HardWinterWork *work) {
    work->short_day = NO_DAY;
    work->short_kg = 0.0;
    work->planned_to = day - 1;
    for (int g = 0; g < model->group_count; g++) {
        work->at_span[g] = 0;
        work->group_short[g] = NO_DAY;
    }
}

/* With the stocks as they are. */
static void feed_winter(const HardWinterModel *model, HardWinterWork *work) {
    const size_t of_feeds = (size_t)model->feed_count * sizeof *work->left_kg;
    begin_winter(model, 0, work);
    work->first_gap = INT_MAX;
    for (int f = 0; f < model->feed_count; f++) {
        work->left_kg[f] = work->stock_kg[f];
        work->empty_kg[f] = work->stock_kg[f] > 0.0 ? EMPTY_SHARE * work->stock_kg[f] : -1.0;
        work->end_day[f] = NO_DAY;
    }
    for (int day = 0; day <= work->last_day; day++) {
        if (day > work->planned_to)
            plan_day(model, day, work);
        if (is_all_there(model, work)) {
            memcpy(work->asked_of_day + (size_t)day * (size_t)model->feed_count,
                   work->planned.asked_kg, of_feeds);
            take_as_planned(model, work);
        } else {
            if (day < work->first_gap) {
                work->first_gap = day;
                memcpy(work->gap_left_kg, work->left_kg, of_feeds);
            }
            feed_short_day(model, work);
            note_short(model, day, work);
        }
        note_ended(model, day, work);
    }
}

/* Whether all are fed to turnout with a load more of one feed, after a winter in which they
 * were not: until the first gap it is the same winter. */
static bool is_fed_with_load(const HardWinterModel *model, int feed, HardWinterWork *work) {
    begin_winter(model, work->first_gap, work);
    memcpy(work->left_kg, work->gap_left_kg, (size_t)model->feed_count * sizeof *work->left_kg);
    double left_kg = work->stock_kg[feed] + model->stocks[feed].extra_kg;
    for (int day = 0; day < work->first_gap; day++)
        left_kg = larger_of(
            left_kg -
                work->asked_of_day[(size_t)day * (size_t)model->feed_count + (size_t)feed],
            0.0);
    work->left_kg[feed] = left_kg;
    for (int day = work->first_gap; day <= work->last_day; day++) {
        if (day > work->planned_to)
            plan_day(model, day, work);
        if (is_all_there(model, work)) {
            take_as_planned(model, work);
            continue;
        }
        feed_short_day(model, work);
        note_short(model, day, work);
        if (work->short_day < NO_DAY)
            return false;
    }
    return true;
}

static void write_record(const HardWinterModel *model, const HardWinterWork *work,
                         double *record) {
    record[RECORD_LAST_DAY] = work->last_day;
    record[RECORD_SHORT_DAY] = work->short_day;
    record[RECORD_SHORT_KG] = work->short_kg;
    for (int g = 0; g < model->group_count; g++) {
        record[record_group(g, GROUP_SHORT_DAY)] = work->group_short[g];
        record[record_group(g, GROUP_COLD)] = work->group_cold[g];
    }
    for (int f = 0; f < model->feed_count; f++) {
        const bool is_ended = work->end_day[f] < work->last_day;
        record[record_feed(model, f, FEED_END_DAY)] = is_ended ? work->end_day[f] : NO_DAY;
        record[record_feed(model, f, FEED_TAKEN)] = work->stock_kg[f] - work->left_kg[f];
        record[record_feed(model, f, FEED_WITH_LOAD)] = work->short_day >= NO_DAY;
    }
}

void hard_winter_run(const HardWinterModel *model, uint64_t winter, HardWinterWork *work,
                     double *record) {
    hard_winter_draw(model, winter, work);
    feed_winter(model, work);
    write_record(model, work, record);
    if (work->short_day >= NO_DAY)
        return;
    for (int f = 0; f < model->feed_count; f++) {
        if (model->stocks[f].extra_kg > 0.0)
            record[record_feed(model, f, FEED_WITH_LOAD)] = is_fed_with_load(model, f, work);
    }
}
