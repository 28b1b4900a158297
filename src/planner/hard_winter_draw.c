#include "base/drawn_number.h"
#include "planner/hard_winter_work.h"
#include <math.h>

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
        const DrawSource feed = draw_source_named(source, stock->luck);
        const double weight = stock->weight_error * model->spread.weight;
        const double test = model->spread.test * drawn_normal(feed, FEED_TEST);
        const double waste = smaller_of(stock->waste_share * waste_factor, 0.9);
        work->stock_kg[f] =
            stock->stock_kg * larger_of(1.0 + weight * drawn_normal(feed, FEED_WEIGHT), 0.0);
        work->energy[f] = larger_of(1.0 + stock->nem_error * test, 0.1);
        work->gain_energy[f] = larger_of(1.0 + stock->neg_error * test, 0.1);
        work->taken_per_dry[f] = 1.0 / ((1.0 - waste) * stock->dry_share);
    }
}

static void draw_yard(const HardWinterModel *model, uint64_t number, HardWinterWork *work) {
    const DrawSource winter = draw_source(model->seed, number);
    const DrawSource yard = draw_source_at(winter, DRAW_YARD);
    const double later = round(model->turnout_spread_days * drawn_normal(yard, YARD_TURNOUT));
    const double waste =
        1.0 + WASTE_DEVIATION * model->spread.waste * drawn_normal(yard, YARD_WASTE);
    work->last_day = model->planned_days - 1 + (int)later;
    if (work->last_day < 0)
        work->last_day = 0;
    draw_months(model, winter, work->departure_c);
    draw_feeds(model, winter, larger_of(waste, 0.0), work);
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
    const double upkeep =
        larger_of(block->upkeep +
                      added_by_cold(model, block, span->month, work->departure_c[span->month]),
                  0.0);
    const double planned = times_needed(block->upkeep, block->gain, block->nem, block->neg);
    const double scale =
        planned > 0.0 ? times_needed(upkeep, block->gain, nem, neg) / planned : 1.0;
    const double most =
        block->filling_kg > 0.0 ? larger_of(block->most_kg / block->filling_kg, 1.0) : 1.0;
    *is_beyond = scale > most * (1.0 + SHORT_DAY_SHARE);
    return smaller_of(scale, most);
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

void hard_winter_draw(const HardWinterModel *model, uint64_t number, HardWinterWork *work) {
    draw_yard(model, number, work);
    find_scales(model, work);
}
