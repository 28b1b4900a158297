#include "planner/hard_winter_model.h"
#include "base/drawn_number.h"
#include "base/text.h"
#include "feedstuff/feed_energy.h"
#include "planner/ration_row.h"
#include <assert.h>
#include <math.h>
#include <string.h>

/* ---- feeds ---- */

/* How far its TDN may be from what the plan takes: the larger of the two errors of its samples,
 * else the book's. */
static double tdn_error(const Feedstuff *feed) {
    const SampleError error = feed->sampling.tdn;
    const bool is_sampled = isfinite(error.working) || isfinite(error.between);
    if (is_sampled)
        return fmax(isfinite(error.working) ? error.working : 0.0,
                    isfinite(error.between) ? error.between : 0.0);
    if (feed->route == ROUTE_NONE)
        return 0.0;
    return feed_class_kind(feed->feed_class)->is_forage ? BOOK_FORAGE_TDN_DEVIATION
                                                        : BOOK_OTHER_TDN_DEVIATION;
}

/* Net energy is nearly straight over so short a way. */
static double energy_error(EnergyDensity (*of_tdn)(double), double tdn, double error) {
    const double usual = of_tdn(tdn).mcal_per_kg;
    if (!(usual > 0.0) || !(error > 0.0))
        return 0.0;
    const double above = of_tdn(tdn + error).mcal_per_kg;
    const double below = of_tdn(fmax(tdn - error, 0.0)).mcal_per_kg;
    return (above - below) / (2.0 * usual);
}

static const char *book_feed_of(const PlanFeed *feed) {
    return feed->feed->book_feed ? feed->feed->book_feed : "";
}

/* By what it is drawn: the kind of feed and, of several of that kind, which by its name. What
 * somebody calls the only stack of its kind, and where its row stands, are no luck. */
static const char *luck_of(Arena *arena, const PlanQuestion *question, int feed) {
    const PlanFeed *of = &question->feeds[feed];
    int before = 0;
    for (int f = 0; f < question->feed_count; f++) {
        const PlanFeed *other = &question->feeds[f];
        const int order = strcmp(other->name, of->name);
        if (other->is_own == of->is_own && text_same(book_feed_of(other), book_feed_of(of)) &&
            (order < 0 || (order == 0 && f < feed)))
            before++;
    }
    return arena_print(arena, "%s %s %d", of->is_own ? "own" : "bought", book_feed_of(of),
                       before);
}

static FedStock stock_of(Arena *arena, const WinterPlan *plan, int f) {
    const PlanFeed *feed = &plan->question->feeds[f];
    FedStock stock = {
        .luck = luck_of(arena, plan->question, f),
        .stock_kg = feed->is_own ? feed->available_kg
                                 : fmax(plan->bought_kg[f] * (1.0 - feed->shrink_share),
                                        plan->taken_kg[f]),
        .dry_share = feed->dry_share,
        .waste_share = feed->waste_share,
        .weight_error = feed->weight_error_share,
    };
    if (!feed->is_own && ration_feed_fills(feed) && feed->load_kg > 0.0 &&
        plan->bought_kg[f] + feed->load_kg <= feed->available_kg)
        stock.extra_kg = feed->load_kg * (1.0 - feed->shrink_share);
    const double tdn = reading_or(feed->feed->analysis.of[NUTRIENT_TDN], 0.0);
    const double error = tdn_error(feed->feed);
    stock.nem_error = energy_error(nem_from_tdn, tdn, error);
    stock.neg_error = energy_error(neg_from_tdn, tdn, error);
    return stock;
}

/* ---- rations ---- */

static bool is_forage(const PlanFeed *feed) {
    return feed_class_kind(feed->feed->feed_class)->is_forage;
}

static Serving serving_of(const PlanQuestion *question, int feed, double eaten_kg) {
    const PlanFeed *of = &question->feeds[feed];
    return (Serving){feed, eaten_kg, ration_known_or_none(of->eaten[NUTRIENT_NEM]),
                     ration_known_or_none(of->eaten[NUTRIENT_NEG]), is_forage(of)};
}

static ColdAnimal animal_of(const PlanQuestion *question, const PlanBlock *block) {
    const EnergyParts *parts = &block->by_equations.energy;
    return (ColdAnimal){
        .group = &question->farm->herd.groups[block->group],
        .shrunk = block->by_equations.shrunk,
        .condition = block->by_equations.condition,
        .need = {parts->maintenance + parts->activity + parts->pregnancy + parts->milk},
        .gain = block->by_equations.retained,
        .milk = {parts->milk},
        .pregnancy = {parts->pregnancy},
    };
}

/* Own feed keeps its days: a stack across the creek cannot be reached after them. */
static bool may_stand_in(const PlanQuestion *question, int block, int feed) {
    return question->feeds[feed].is_own ? plan_permission(question, block, feed) == MAY_BE_FED
                                        : plan_suits_group(question, block, feed);
}

static FedBlock block_of(Arena *arena, const WinterPlan *plan, int b) {
    const PlanQuestion *question = plan->question;
    const PlanBlock *block = &question->blocks[b];
    const BlockOutcome *outcome = &plan->blocks[b];
    Serving *servings = ARENA_ARRAY(arena, Serving, question->feed_count);
    Serving *reserves = ARENA_ARRAY(arena, Serving, question->feed_count);
    FedBlock fed = {
        .group = block->group,
        .head = block->head,
        .upkeep = requirement_nem(&block->need).mcal_per_day,
        .gain = block->need.retained.mcal_per_day,
        .most_kg = outcome->intake_most,
        .servings = servings,
        .reserves = reserves,
        .animal = animal_of(question, block),
    };
    for (int f = 0; f < question->feed_count; f++) {
        const PlanFeed *feed = &question->feeds[f];
        const double eaten_kg = outcome->eaten[f];
        if (!ration_feed_fills(feed))
            continue;
        if (eaten_kg <= 0.0) {
            if (is_forage(feed) && may_stand_in(question, b, f))
                reserves[fed.reserve_count++] = serving_of(question, f, 0.0);
            continue;
        }
        const Serving serving = serving_of(question, f, eaten_kg);
        servings[fed.serving_count++] = serving;
        fed.nem += eaten_kg * serving.nem;
        fed.neg += eaten_kg * serving.neg;
        fed.filling_kg += eaten_kg;
        fed.put_out_kg += eaten_kg / (1.0 - feed->waste_share);
    }
    return fed;
}

/* ---- days ---- */

/* The block a group is in on a day; after the plan's last day, the last one. */
static int block_on(const PlanQuestion *question, int group, Day day) {
    int last = -1;
    for (int b = 0; b < question->block_count; b++) {
        if (question->blocks[b].group != group)
            continue;
        last = b;
        if (calendar_days_between(day, question->blocks[b].to) >= 0)
            break;
    }
    return last;
}

static GroupSpans spans_of(Arena *arena, const HardWinterModel *model, const int *month_of,
                           int group) {
    const PlanQuestion *question = model->question;
    FedSpan *spans = ARENA_ARRAY(arena, FedSpan, model->most_days);
    int count = 0;
    for (int d = 0; d < model->most_days; d++) {
        const Day day = calendar_add(question->farm->winter.first_day, d);
        const int block = block_on(question, group, day);
        FedSpan *last = count > 0 ? &spans[count - 1] : NULL;
        if (last && last->block == block && last->month == month_of[d])
            last->to = d;
        else
            spans[count++] = (FedSpan){block, month_of[d], d, d};
    }
    return (GroupSpans){spans, count};
}

/* The month of each day; weather of a month nobody knows, past the last day, is the last's. */
static int *list_months(Arena *arena, HardWinterModel *model) {
    const Farm *farm = model->question->farm;
    int *month_of = ARENA_ARRAY(arena, int, model->most_days);
    const MonthWeather **months = ARENA_ARRAY(arena, const MonthWeather *, model->most_days);
    int last = 0;
    for (int d = 0; d < model->most_days; d++) {
        const int month = calendar_month(calendar_add(farm->winter.first_day, d));
        if (d == 0 || month != last) {
            const MonthWeather *before = d > 0 ? months[model->month_count - 1] : NULL;
            months[model->month_count++] =
                farm->weather.is_known[month] || !before ? &farm->weather.month[month] : before;
        }
        last = month;
        month_of[d] = model->month_count - 1;
    }
    model->months = months;
    return month_of;
}

const HardWinterModel *hard_winter_model(Arena *arena, const WinterPlan *plan, uint64_t seed,
                                         WinterSpread spread) {
    assert(plan->verdict == PLAN_BALANCED);
    const PlanQuestion *question = plan->question;
    const Farm *farm = question->farm;
    HardWinterModel *model = ARENA_NEW(arena, HardWinterModel);
    *model = (HardWinterModel){
        .question = question,
        .seed = seed,
        .spread = spread,
        .group_count = farm->herd.count,
        .feed_count = question->feed_count,
        .planned_days = winter_days(&farm->winter),
        .turnout_spread_days = farm->weather.turnout_spread_days * spread.turnout,
    };
    model->most_days =
        model->planned_days + (int)ceil(MOST_DEVIATIONS * model->turnout_spread_days);
    FedStock *stocks = ARENA_ARRAY(arena, FedStock, question->feed_count);
    for (int f = 0; f < question->feed_count; f++)
        stocks[f] = stock_of(arena, plan, f);
    model->stocks = stocks;
    FedBlock *blocks = ARENA_ARRAY(arena, FedBlock, question->block_count);
    for (int b = 0; b < question->block_count; b++)
        blocks[b] = block_of(arena, plan, b);
    model->blocks = blocks;
    const int *month_of = list_months(arena, model);
    GroupSpans *groups = ARENA_ARRAY(arena, GroupSpans, farm->herd.count);
    for (int g = 0; g < farm->herd.count; g++)
        groups[g] = spans_of(arena, model, month_of, g);
    model->groups = groups;
    return model;
}

int hard_winter_record_length(const HardWinterModel *model) {
    return record_feed(model, model->feed_count, 0);
}
