/* Prices of feed and the worth of a cut as the cases call them, in the units the pages print.
 */
#include "published/published.h"

#include "base/quantity.h"
#include "stock/feed_price.h"
#include "stock/field.h"

#include <stddef.h>

/* money a tonne paid, shrink %, waste %, dry matter %, nutrient % -> money a kg of it eaten */
static double call_landed_cost(const double *in) {
    const PricedFeed feed = {.paid_per_kg = in[0] / KG_PER_TONNE,
                             .shrink_share = in[1] / 100.0,
                             .waste_share = in[2] / 100.0,
                             .dry_share = in[3] / 100.0};
    return price_per_dry_kg_eaten(feed) / (in[4] / 100.0);
}
/* The tonne price of the second feed at which a kg of the nutrient costs the same: the first's
 * five as above, then shrink %, waste %, dry matter %, nutrient % of the second. */
static double call_parity_price(const double *in) {
    const double second[] = {1.0, in[5], in[6], in[7], in[8]};
    return call_landed_cost(in) / call_landed_cost(second);
}
static double call_freight_per_tonne(const double *in) { /* km, money a km, load kg */
    return KG_PER_TONNE * freight_per_kg(in[0], in[1], in[2]);
}

/* Two references: price a tonne, dry matter %, TDN %, protein %, each. */
static FeedReference reference(const double *in) {
    return (FeedReference){in[0] / KG_PER_TONNE / (in[1] / 100.0), in[2] / 100.0,
                           in[3] / 100.0};
}
static double call_price_of_tdn(const double *in) {
    return prices_of_two_references(reference(in), reference(in + 4)).per_tdn_kg;
}
static double call_price_of_protein(const double *in) {
    return prices_of_two_references(reference(in), reference(in + 4)).per_protein_kg;
}
/* and a third feed's dry matter %, TDN %, protein % -> its worth, money a tonne as fed */
static double call_worth_by_references(const double *in) {
    const NutrientPrices prices = prices_of_two_references(reference(in), reference(in + 4));
    return KG_PER_TONNE * in[8] / 100.0 *
           worth_by_prices(prices, in[9] / 100.0, in[10] / 100.0);
}

/* Money an acre left by a cut: t of dry matter that stands, field loss %, TDN %, protein %,
 * cost an acre; regrowth t, its use %, TDN %, protein %, cost an acre; money a kg of TDN and of
 * protein. Cut and regrowth are the program's own; an acre stands for its hectare. */
static double call_cut_net(const double *in) {
    const NutrientPrices prices = {in[10], in[11], true};
    const FieldCut cut = {
        .yield_kg_per_hectare = in[0] * KG_PER_TONNE,
        .dry_share = 1.0,
        .field_loss_share = in[1] / 100.0,
        .cost_per_hectare = in[4] + in[9],
        .regrowth_kg_per_hectare = in[5] * KG_PER_TONNE,
        .regrowth_use_share = in[6] / 100.0,
        .grazing_value_per_kg = worth_by_prices(prices, in[7] / 100.0, in[8] / 100.0),
    };
    const GrowingYear dry = {.rain = 0.0};
    return field_cut_put_up(&cut, dry) * worth_by_prices(prices, in[2] / 100.0, in[3] / 100.0) -
           field_cut_cost(&cut, dry);
}

const PublishedFunction PRICE_FUNCTIONS[] = {
    {"landed_cost_of_nutrient", 5, call_landed_cost},      /* money/kg */
    {"parity_price", 9, call_parity_price},                /* money/t */
    {"freight_per_tonne", 3, call_freight_per_tonne},      /* money/t */
    {"price_of_tdn", 8, call_price_of_tdn},                /* money/kg */
    {"price_of_protein", 8, call_price_of_protein},        /* money/kg */
    {"worth_by_references", 11, call_worth_by_references}, /* money/t */
    {"cut_net", 12, call_cut_net},                         /* money/acre */
    {NULL, 0, NULL},
};
