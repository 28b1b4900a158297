#include "planner/feed_worth.h"
#include "planner/price_range.h"
#include <math.h>

static double content(const PlanFeed *feed, Nutrient nutrient) {
    return feed->eaten[nutrient]; /* NAN unknown */
}

static PricedFeed priced(const PlanFeed *feed) {
    return (PricedFeed){feed->price_per_kg, feed->haul_per_kg, feed->shrink_share,
                        feed->waste_share, feed->dry_share};
}

/* A unit that hardly is in it has no price worth telling. */
#define LEAST_ENERGY 0.3 /* Mcal NEm a kg */
#define LEAST_SHARE 0.02 /* of dry matter */

static double per_unit(double money, double amount, double least) {
    return amount > least ? money / amount : (double)NAN;
}

static FeedWorth costs_of(const Offer *offer, const PlanFeed *feed) {
    const double eaten = price_per_dry_kg_eaten(priced(feed));
    return (FeedWorth){
        .gate_per_kg = offer->price_per_kg - offer->freight_per_kg,
        .freight_per_kg = offer->freight_per_kg,
        .landed_per_kg = offer->price_per_kg,
        .eaten_per_dry_kg = eaten,
        .per_nem_mcal = per_unit(eaten, content(feed, NUTRIENT_NEM), LEAST_ENERGY),
        .per_tdn_kg = per_unit(eaten, content(feed, NUTRIENT_TDN) / 100.0, LEAST_SHARE),
        .per_protein_kg =
            per_unit(eaten, content(feed, NUTRIENT_CRUDE_PROTEIN) / 100.0, LEAST_SHARE),
        .first_per_kg = (double)NAN,
        .load_per_kg = (double)NAN,
        .market_per_kg = (double)NAN,
    };
}

/* The cheapest grain by its TDN, or the cheapest meal by its protein. */
static int reference(const WinterPlan *plan, const FeedWorth *offers, FeedClass feed_class) {
    const PlanQuestion *question = plan->question;
    int best = -1;
    for (int i = 0; i < question->feed_count - question->own_count; i++) {
        const PlanFeed *feed = &question->feeds[question->own_count + i];
        if (feed->feed->feed_class != feed_class)
            continue;
        const double cost =
            feed_class == FEED_CLASS_GRAIN ? offers[i].per_tdn_kg : offers[i].per_protein_kg;
        const double least = best < 0                         ? NO_LIMIT
                             : feed_class == FEED_CLASS_GRAIN ? offers[best].per_tdn_kg
                                                              : offers[best].per_protein_kg;
        if (cost < least)
            best = i;
    }
    return best;
}

/* As the market has it: what is paid, for what is in it, nothing lost yet. */
static FeedReference market_reference(const PlanFeed *feed) {
    const Reading *of = feed->feed->analysis.of;
    return (FeedReference){feed->price_per_kg / feed->dry_share, of[NUTRIENT_TDN].value / 100.0,
                           of[NUTRIENT_CRUDE_PROTEIN].value / 100.0};
}

static void set_market(FeedWorths *worths, FeedWorth *offers) {
    const PlanQuestion *question = worths->plan->question;
    const PlanFeed *bought = &question->feeds[question->own_count];
    worths->energy_offer = reference(worths->plan, offers, FEED_CLASS_GRAIN);
    worths->protein_offer = reference(worths->plan, offers, FEED_CLASS_MEAL);
    if (worths->energy_offer < 0 || worths->protein_offer < 0)
        return;
    worths->market = prices_of_two_references(market_reference(&bought[worths->energy_offer]),
                                              market_reference(&bought[worths->protein_offer]));
    for (int i = 0; worths->market.is_solved && i < worths->offer_count; i++) {
        const Reading *of = bought[i].feed->analysis.of;
        if (reading_is_known(of[NUTRIENT_TDN]) && of[NUTRIENT_TDN].value > 0.0)
            offers[i].market_per_kg =
                bought[i].dry_share *
                worth_by_prices(worths->market, of[NUTRIENT_TDN].value / 100.0,
                                reading_or(of[NUTRIENT_CRUDE_PROTEIN], 0.0) / 100.0);
    }
}

#define NO_WORTH 1e-4 /* share of the price: below the solver's tolerance */

/* Of what there is, where that is less. */
static double worth_of(const WinterPlan *plan, int feed, double kg) {
    const PlanFeed *of = &plan->question->feeds[feed];
    const double worth = plan_worth_of_first(plan, feed, fmin(kg, of->available_kg));
    return worth <= NO_WORTH * of->price_per_kg ? 0.0 : worth; /* NAN stays */
}

/* Of limestone a farm buys a few bags: what it would do with a tonne says nothing of those. */
static double first_kg(double bought_kg) {
    return bought_kg > WORTH_BUYING_KG ? fmin(bought_kg, KG_PER_TONNE) : KG_PER_TONNE;
}

FeedWorths feed_worths(Arena *arena, const WinterPlan *plan) {
    const PlanQuestion *question = plan->question;
    const int count = question->feed_count - question->own_count;
    FeedWorth *offers = ARENA_ARRAY(arena, FeedWorth, count);
    FeedWorths worths = {.plan = plan, .offers = offers, .offer_count = count};
    for (int i = 0; i < count; i++) {
        const int f = question->own_count + i;
        const Offer *offer = &question->farm->inventory.for_sale.offers[i];
        offers[i] = costs_of(offer, &question->feeds[f]);
        if (plan->verdict != PLAN_BALANCED || question->feeds[f].available_kg <= 0.0)
            continue;
        offers[i].bought_kg = plan->bought_kg[f];
        offers[i].first_per_kg = worth_of(plan, f, first_kg(plan->bought_kg[f]));
        if (offer->load_kg > 0.0)
            offers[i].load_per_kg = worth_of(plan, f, offer->load_kg);
    }
    set_market(&worths, offers);
    return worths;
}

double feed_worth_at_gate(const FeedWorth *worth) {
    const double landed = isnan(worth->load_per_kg) ? worth->first_per_kg : worth->load_per_kg;
    return isnan(landed) ? landed : fmax(landed - worth->freight_per_kg, 0.0);
}
