/* One winter, day by day. Each group eats its planned ration times what it needs over what it
 * was planned to need. When a stack ends, other forage of that ration takes its place in
 * proportion, by energy, as far as they can eat; when there is none, or it has not the energy
 * for that, any other forage in the yard they may have then; grain, pellets and meals are never
 * raised. What then still lacks is short. */
#include "base/drawn_number.h"
#include "planner/hard_winter_model.h"
#include "planner/ration_row.h"
#include <math.h>

#define EMPTY_SHARE 1e-3 /* of a stack that counts as ended, as in runout.h */
#define NOTHING 1e-9     /* of a day's energy */

/* What one group is given of one feed in one pass over a day. */
typedef struct {
    int group, feed;
    double dry_kg, nem; /* the day's, all head */
} Given;

/* A group's day: what it wants and still lacks, Mcal of NEm, and the dry matter it could still
 * eat, kg; all head. */
typedef struct {
    double wanted, lack, room, put_out_kg;
} GroupDay;

struct HardWinterWork {
    double *departure_c;              /* [months] */
    double *stock_kg, *energy;        /* [feeds] at the start; NEm over what was thought */
    double *gain_energy;              /* [feeds] the same of NEg */
    double *taken_per_dry;            /* [feeds] kg as fed for a kg of dry matter eaten */
    double *left_kg, *asked_kg;       /* [feeds] */
    double *end_day;                  /* [feeds] */
    double *scale;                    /* [spans], group by group */
    int *first_scale, *at_span;       /* [groups] */
    double *group_short, *group_cold; /* [groups] */
    GroupDay *days;                   /* [groups] */
    Given *given;                     /* [groups * feeds] */
    int given_count;
    int last_day;
    double short_day, short_kg;
};

HardWinterWork *hard_winter_work(Arena *arena, const HardWinterModel *model) {
    HardWinterWork *work = ARENA_NEW(arena, HardWinterWork);
    const int feeds = model->feed_count;
    const int groups = model->group_count;
    double *of_feeds = ARENA_ARRAY(arena, double, 7 * feeds);
    work->stock_kg = of_feeds;
    work->energy = of_feeds + feeds;
    work->gain_energy = of_feeds + 2 * feeds;
    work->taken_per_dry = of_feeds + 3 * feeds;
    work->left_kg = of_feeds + 4 * feeds;
    work->asked_kg = of_feeds + 5 * feeds;
    work->end_day = of_feeds + 6 * feeds;
    work->departure_c = ARENA_ARRAY(arena, double, model->month_count);
    work->group_short = ARENA_ARRAY(arena, double, groups);
    work->group_cold = ARENA_ARRAY(arena, double, groups);
    work->first_scale = ARENA_ARRAY(arena, int, groups);
    work->at_span = ARENA_ARRAY(arena, int, groups);
    work->days = ARENA_ARRAY(arena, GroupDay, groups);
    work->given = ARENA_ARRAY(arena, Given, groups * feeds);
    int spans = 0;
    for (int g = 0; g < groups; g++) {
        work->first_scale[g] = spans;
        spans += model->groups[g].count;
    }
    work->scale = ARENA_ARRAY(arena, double, spans);
    return work;
}

/* ---- what is drawn ---- */

enum { DRAW_MONTHS, DRAW_YARD, DRAW_FEEDS };
enum { YARD_TURNOUT, YARD_WASTE };
enum { FEED_WEIGHT, FEED_TEST };

/* A month keeps some of the month before's departure, each in its own spread. */
static void draw_months(const HardWinterModel *model, DrawSource winter, double *departure_c) {
    const DrawSource source = draw_source_at(winter, DRAW_MONTHS);
    double score = 0.0;
    for (int m = 0; m < model->month_count; m++) {
        const MonthWeather *month = model->months[m];
        const double kept = m > 0 ? month->persistence : 0.0;
        score = kept * score + sqrt(1.0 - kept * kept) * drawn_normal(source, (uint64_t)m);
        departure_c[m] =
            month->mean_spread_c * model->spread.temperature * score - model->spread.colder_c;
    }
}

static void draw_feeds(const HardWinterModel *model, DrawSource winter, double waste_factor,
                       HardWinterWork *work) {
    const DrawSource source = draw_source_at(winter, DRAW_FEEDS);
    for (int f = 0; f < model->feed_count; f++) {
        const FedStock *stock = &model->stocks[f];
        const DrawSource feed = draw_source_named(source, stock->name);
        const double weight = stock->weight_error * model->spread.weight;
        const double test = model->spread.test * drawn_normal(feed, FEED_TEST);
        const double waste = fmin(stock->waste_share * waste_factor, 0.9);
        work->stock_kg[f] =
            stock->stock_kg * fmax(1.0 + weight * drawn_normal(feed, FEED_WEIGHT), 0.0);
        work->energy[f] = fmax(1.0 + stock->nem_error * test, 0.1);
        work->gain_energy[f] = fmax(1.0 + stock->neg_error * test, 0.1);
        work->taken_per_dry[f] = 1.0 / ((1.0 - waste) * stock->dry_share);
    }
}

static void draw_winter(const HardWinterModel *model, uint64_t number, HardWinterWork *work) {
    const DrawSource winter = draw_source(model->seed, number);
    const DrawSource yard = draw_source_at(winter, DRAW_YARD);
    const double later = round(model->turnout_spread_days * drawn_normal(yard, YARD_TURNOUT));
    const double waste =
        1.0 + WASTE_DEVIATION * model->spread.waste * drawn_normal(yard, YARD_WASTE);
    work->last_day = model->planned_days - 1 + (int)later;
    if (work->last_day < 0)
        work->last_day = 0;
    draw_months(model, winter, work->departure_c);
    draw_feeds(model, winter, fmax(waste, 0.0), work);
}

/* ---- what they then need ---- */

/* Of a ration that brings E of NEm and G of NEg, k times as much covers upkeep M and gain R
 * where k G (1 - M / (k E)) = R, so k = M / E + R / G. */
static double times_needed(double upkeep, double gain, double nem, double neg) {
    return (nem > 0.0 ? upkeep / nem : 0.0) + (gain > 0.0 && neg > 0.0 ? gain / neg : 0.0);
}

static double added_by_cold(const HardWinterModel *model, const FedBlock *block, int month,
                            double departure_c) {
    const MonthWeather *of = model->months[month];
    const ColdWay way = model->question->farm->weather.cold_way;
    const Temperature drawn = {of->mean.celsius + departure_c};
    return cold_need(way, &block->animal, drawn, of).added -
           cold_need(way, &block->animal, of->mean, of).added;
}

/* Over the planned ration, as far as they can eat; `*is_beyond` where they could not. */
static double scale_of(const HardWinterModel *model, const FedSpan *span,
                       const HardWinterWork *work, bool *is_beyond) {
    const FedBlock *block = &model->blocks[span->block];
    double nem = 0.0;
    double neg = 0.0;
    for (int i = 0; i < block->serving_count; i++) {
        const Serving *serving = &block->servings[i];
        nem += serving->eaten_kg * serving->nem * work->energy[serving->feed];
        neg += serving->eaten_kg * serving->neg * work->gain_energy[serving->feed];
    }
    const double upkeep = fmax(block->upkeep + added_by_cold(model, block, span->month,
                                                             work->departure_c[span->month]),
                               0.0);
    const double planned = times_needed(block->upkeep, block->gain, block->nem, block->neg);
    const double scale =
        planned > 0.0 ? times_needed(upkeep, block->gain, nem, neg) / planned : 1.0;
    const double most =
        block->filling_kg > 0.0 ? fmax(block->most_kg / block->filling_kg, 1.0) : 1.0;
    *is_beyond = scale > most * (1.0 + SHORT_DAY_SHARE);
    return fmin(scale, most);
}

static void find_scales(const HardWinterModel *model, HardWinterWork *work) {
    for (int g = 0; g < model->group_count; g++) {
        const GroupSpans *spans = &model->groups[g];
        work->group_cold[g] = 0.0;
        for (int s = 0; s < spans->count && spans->spans[s].from <= work->last_day; s++) {
            bool is_beyond;
            work->scale[work->first_scale[g] + s] =
                scale_of(model, &spans->spans[s], work, &is_beyond);
            if (is_beyond)
                work->group_cold[g] = 1.0;
        }
    }
}

/* ---- a day ---- */

static void give(HardWinterWork *work, int group, const Serving *serving, double dry_kg) {
    const int feed = serving->feed;
    work->given[work->given_count++] =
        (Given){group, feed, dry_kg, dry_kg * serving->nem * work->energy[feed]};
    work->asked_kg[feed] += dry_kg * work->taken_per_dry[feed];
}

/* The day's ration as planned, times the scale. */
static void give_ration(const HardWinterModel *model, int group, HardWinterWork *work) {
    const int span = work->at_span[group];
    const FedBlock *block = &model->blocks[model->groups[group].spans[span].block];
    const double times = work->scale[work->first_scale[group] + span] * block->head;
    GroupDay *day = &work->days[group];
    *day = (GroupDay){.put_out_kg = block->put_out_kg * times,
                      .room = fmax(block->most_kg * block->head, block->filling_kg * times)};
    for (int i = 0; i < block->serving_count; i++) {
        const Serving *serving = &block->servings[i];
        const double dry_kg = serving->eaten_kg * times;
        day->wanted += dry_kg * serving->nem * work->energy[serving->feed];
        give(work, group, serving, dry_kg);
    }
    day->lack = day->wanted;
}

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
    const GroupDay *day = &work->days[group];
    const double times = fmin(day->lack / mix.nem, day->room / mix.dry);
    for (int i = 0; i < count; i++) {
        const double part = forage_part(work, &servings[i]);
        if (part > 0.0)
            give(work, group, &servings[i], part * times);
    }
}

/* Forage of the ration, unless there is none or they cannot eat so much of it and there is
 * better in the yard. */
static void give_instead(const HardWinterModel *model, int group, HardWinterWork *work) {
    const GroupDay *day = &work->days[group];
    const FedSpan *span = &model->groups[group].spans[work->at_span[group]];
    const FedBlock *block = &model->blocks[span->block];
    if (day->lack <= NOTHING * day->wanted || day->room <= NOTHING * block->head)
        return;
    const Mix ration = mix_of(block->servings, block->serving_count, work);
    const Mix reserve = mix_of(block->reserves, block->reserve_count, work);
    const bool is_enough = ration.nem > 0.0 && day->lack * ration.dry <= day->room * ration.nem;
    const bool is_better = reserve.nem * ration.dry > ration.nem * reserve.dry;
    if (reserve.nem > 0.0 && (!(ration.nem > 0.0) || (!is_enough && is_better)))
        give_mix(block->reserves, block->reserve_count, reserve, group, work);
    else if (ration.nem > 0.0)
        give_mix(block->servings, block->serving_count, ration, group, work);
}

/* Takes what was given from the stacks; of a stack that does not have so much, each its share.
 */
static void take(HardWinterWork *work) {
    for (int i = 0; i < work->given_count; i++) {
        const Given *given = &work->given[i];
        const double there = fmax(work->left_kg[given->feed], 0.0);
        const double asked = work->asked_kg[given->feed];
        const double share = asked > there ? there / asked : 1.0;
        GroupDay *day = &work->days[given->group];
        day->lack -= share * given->nem;
        day->room -= share * given->dry_kg;
    }
    for (int i = 0; i < work->given_count; i++) {
        const int feed = work->given[i].feed;
        work->left_kg[feed] = fmax(work->left_kg[feed] - work->asked_kg[feed], 0.0);
        work->asked_kg[feed] = 0.0;
    }
    work->given_count = 0;
}

static void feed_day(const HardWinterModel *model, int day, HardWinterWork *work) {
    for (int g = 0; g < model->group_count; g++) {
        const GroupSpans *spans = &model->groups[g];
        while (spans->spans[work->at_span[g]].to < day)
            work->at_span[g]++;
        give_ration(model, g, work);
    }
    for (int pass = 0; pass <= model->feed_count && work->given_count > 0; pass++) {
        bool is_short_of_stock = false;
        for (int i = 0; i < work->given_count; i++) {
            const int feed = work->given[i].feed;
            is_short_of_stock |= work->asked_kg[feed] > work->left_kg[feed];
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
        const GroupDay *of = &work->days[g];
        if (of->lack <= SHORT_DAY_SHARE * of->wanted)
            continue;
        work->short_kg += of->put_out_kg * of->lack / of->wanted;
        work->group_short[g] = fmin(work->group_short[g], day);
        work->short_day = fmin(work->short_day, day);
    }
}

static void note_ended(const HardWinterModel *model, int day, HardWinterWork *work) {
    for (int f = 0; f < model->feed_count; f++) {
        if (work->end_day[f] >= NO_DAY && work->left_kg[f] <= EMPTY_SHARE * work->stock_kg[f] &&
            work->stock_kg[f] > 0.0)
            work->end_day[f] = day;
    }
}

/* The whole winter with the loads of `extra` beside the stocks; -1: none. */
static void feed_winter(const HardWinterModel *model, int extra, HardWinterWork *work) {
    work->short_day = NO_DAY;
    work->short_kg = 0.0;
    work->given_count = 0;
    for (int f = 0; f < model->feed_count; f++) {
        work->left_kg[f] = work->stock_kg[f] + (f == extra ? model->stocks[f].extra_kg : 0.0);
        work->asked_kg[f] = 0.0;
        work->end_day[f] = NO_DAY;
    }
    for (int g = 0; g < model->group_count; g++) {
        work->at_span[g] = 0;
        work->group_short[g] = NO_DAY;
    }
    for (int day = 0; day <= work->last_day; day++) {
        feed_day(model, day, work);
        note_short(model, day, work);
        note_ended(model, day, work);
        if (extra >= 0 && work->short_day < NO_DAY)
            return;
    }
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
    draw_winter(model, winter, work);
    find_scales(model, work);
    feed_winter(model, -1, work);
    write_record(model, work, record);
    if (work->short_day >= NO_DAY)
        return;
    for (int f = 0; f < model->feed_count; f++) {
        if (model->stocks[f].extra_kg <= 0.0)
            continue;
        feed_winter(model, f, work);
        record[record_feed(model, f, FEED_WITH_LOAD)] = work->short_day >= NO_DAY;
    }
}
