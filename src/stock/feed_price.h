/* What a feed costs by what it brings, and what market arithmetic makes of it.
 * docs/equations/feed-price.md */
#ifndef STOCK_FEED_PRICE_H
#define STOCK_FEED_PRICE_H

#include <stdbool.h>

/* Money a kg for hauling a load so far. */
double freight_per_kg(double distance_km, double money_per_km, double load_kg);

/* Money a kg of dry matter that is eaten: what is paid for shrinks before it is fed, is hauled
 * out, and some of it is wasted. */
typedef struct {
    double paid_per_kg, haul_per_kg; /* as fed, with freight; feeding it out */
    double shrink_share, waste_share, dry_share;
} PricedFeed;
double price_per_dry_kg_eaten(PricedFeed feed);

/* A feed whose price is taken as right for its energy and protein. Per kg of dry matter. */
typedef struct {
    double price_per_dry_kg;
    double tdn_share, protein_share; /* of dry matter, 0 to 1 */
} FeedReference;

typedef struct {
    double per_tdn_kg, per_protein_kg; /* money; negative: a reference is mispriced */
    bool is_solved;                    /* false: the two are too alike to tell them apart */
} NutrientPrices;

NutrientPrices prices_of_two_references(FeedReference energy, FeedReference protein);

/* Money a kg of dry matter of a feed of this TDN and protein. */
double worth_by_prices(NutrientPrices prices, double tdn_share, double protein_share);

#endif
