#include "feedstuff/feed_worth_testing.h"
#include <stddef.h>

static bool is_tested(const Feedstuff *feed, Nutrient nutrient) {
    return feed->analysis.of[nutrient].origin == FROM_LABORATORY;
}

/* Heat damage taken off a tested protein leaves a calculated one. */
static bool has_protein_test(const Feedstuff *feed) {
    const Origin origin = feed->analysis.of[NUTRIENT_CRUDE_PROTEIN].origin;
    return origin == FROM_LABORATORY || origin == FROM_CALCULATION;
}

static const char *energy_test(const Feedstuff *feed) {
    const bool is_forage = feed_class_kind(feed->feed_class)->is_forage;
    const bool has_fibre = is_tested(feed, NUTRIENT_ADF) && is_tested(feed, NUTRIENT_NDF) &&
                           has_protein_test(feed);
    if (!is_forage)
        return has_protein_test(feed) ? NULL : "protein and fibre";
    if (!has_fibre)
        return "protein, ADF, NDF and NDF digestibility";
    return feed->route == ROUTE_DIGESTIBILITY || feed->route == ROUTE_LIGNIN
               ? NULL
               : "NDF digestibility (48 h) or lignin";
}

/* From here an assumed nitrate holds a feed back. */
#define RISKY_NITRATE 1.0

bool feed_is_held_by_nitrate(const Feedstuff *feed) {
    return feed->nitrate_is_assumed && feed->nitrate_for_safety > RISKY_NITRATE;
}

static const char *nitrate_test(const Feedstuff *feed) {
    return feed_is_held_by_nitrate(feed) ? "nitrate" : NULL;
}

static const char *sulfur_test(const Feedstuff *feed) {
    return feed->sulfur_is_assumed ? "sulfur" : NULL;
}

static const char *mineral_test(const Feedstuff *feed) {
    static const Nutrient MACRO[] = {NUTRIENT_CALCIUM, NUTRIENT_PHOSPHORUS, NUTRIENT_MAGNESIUM,
                                     NUTRIENT_POTASSIUM};
    for (size_t i = 0; i < sizeof MACRO / sizeof MACRO[0]; i++) {
        if (!is_tested(feed, MACRO[i]))
            return "minerals (Ca, P, Mg, K, S)";
    }
    return is_tested(feed, NUTRIENT_COPPER) ? NULL : "trace minerals (Cu, Mo, Zn, Mn)";
}

int feed_worth_testing(const Feedstuff *feed, const char *poison,
                       const char *analyses[MOST_WORTH_TESTING]) {
    if (feed->feed_class == FEED_CLASS_MINERAL || feed->feed_class == FEED_CLASS_NPN)
        return 0;
    const char *const wanted[] = {nitrate_test(feed), poison, energy_test(feed),
                                  sulfur_test(feed), mineral_test(feed)};
    int count = 0;
    for (size_t i = 0; i < sizeof wanted / sizeof wanted[0]; i++) {
        if (wanted[i] && count < MOST_WORTH_TESTING)
            analyses[count++] = wanted[i];
    }
    return count;
}
