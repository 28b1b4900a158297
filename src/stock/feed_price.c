#include "stock/feed_price.h"
#include <math.h>

/* F = r d / L: r money a km, d km, L kg of a load. Arithmetic. [PRACTICE] */
double freight_per_kg(double distance_km, double money_per_km, double load_kg) {
    return distance_km * money_per_km / load_kg;
}

/* (P / (1 - s) + h) / ((1 - w) d): price P, shrink s [LOY_SHRINK], hauling out h, waste w, dry
 * matter share d. */
double price_per_dry_kg_eaten(PricedFeed feed) {
    return (feed.paid_per_kg / (1.0 - feed.shrink_share) + feed.haul_per_kg) /
           ((1.0 - feed.waste_share) * feed.dry_share);
}

#define TOO_ALIKE 0.05 /* share of the larger product: own choice */

/* a1 = T1 e + C1 p, a2 = T2 e + C2 p, solved for e and p, money a kg of TDN and of crude
 * protein; a money a kg of dry matter, T and C shares of it. [PETERSEN_1932] [NMSU_D206] */
NutrientPrices prices_of_two_references(FeedReference energy, FeedReference protein) {
    const double first = energy.tdn_share * protein.protein_share;
    const double second = energy.protein_share * protein.tdn_share;
    const double det = first - second;
    if (!(fabs(det) > TOO_ALIKE * fmax(fabs(first), fabs(second))))
        return (NutrientPrices){(double)NAN, (double)NAN, false};
    return (NutrientPrices){(energy.price_per_dry_kg * protein.protein_share -
                             energy.protein_share * protein.price_per_dry_kg) /
                                det,
                            (energy.tdn_share * protein.price_per_dry_kg -
                             protein.tdn_share * energy.price_per_dry_kg) /
                                det,
                            true};
}

double worth_by_prices(NutrientPrices prices, double tdn_share, double protein_share) {
    return tdn_share * prices.per_tdn_kg + protein_share * prices.per_protein_kg;
}
