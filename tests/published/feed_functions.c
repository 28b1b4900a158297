/* The feed equations as the cases call them. Rules that pages print for work by hand, and that
 * the program has inside a larger step, are written out here as printed. */
#include "published/published.h"

#include "base/sheet.h"
#include "cattle/safety_limit.h"
#include "feedstuff/feed_energy.h"

#include <math.h>
#include <stddef.h>

#define MEGAJOULES_PER_MCAL 4.184

static EnergyDensity density(double mcal_per_kg) { return (EnergyDensity){mcal_per_kg}; }
static double per_pound(EnergyDensity value) { return value.mcal_per_kg * KG_PER_POUND; }

/* TDN from fibre */

static double call_tdn_hay(const double *in) { return tdn_nfta_hay(in[0]); }
static double call_tdn_california(const double *in) { return tdn_california_alfalfa(in[0]); }
static double call_tdn_california_at_90(const double *in) {
    return 0.9 * tdn_california_alfalfa(in[0]); /* of hay at 90 % dry matter */
}
static double call_tdn_penn_state(const double *in) { return tdn_penn_state_legume(in[0]); }
static double call_tdn_corn_silage(const double *in) { return tdn_nfta_corn_silage(in[0]); }
static double call_tdn_legume_route(const double *in) {
    return tdn_from_adf(FIBRE_LEGUME, in[0]);
}

/* Crude protein, NDF, ash, fat, NDICP, ADICP, lignin, processing factor, 1 for a concentrate.
 */
static SummativeResult summative(const double *in) {
    const FibreAnalysis analysis = {.crude_protein = in[0],
                                    .ndf = in[1],
                                    .ash = in[2],
                                    .crude_fat = in[3],
                                    .ndicp = in[4],
                                    .adicp = in[5],
                                    .lignin = in[6],
                                    .ndf_digestibility = (double)NAN,
                                    .processing_factor = in[7],
                                    .is_concentrate = in[8] > 0.0};
    return tdn_summative(analysis);
}
static double call_summative_nfc(const double *in) { return summative(in).nfc; }
static double call_summative_digestible_nfc(const double *in) {
    return summative(in).digestible_nfc;
}
static double call_summative_digestible_protein(const double *in) {
    return summative(in).digestible_protein;
}
static double call_summative_digestible_ndf(const double *in) {
    return summative(in).digestible_ndf;
}
static double call_summative_tdn(const double *in) { return summative(in).tdn; }
static double call_summative_energy(const double *in) {
    return summative(in).digestible_energy.mcal_per_kg;
}

/* Energy */

static EnergyDensity metabolizable_from_tdn(double tdn) {
    return metabolizable_energy(digestible_energy_from_tdn(tdn));
}
static double call_de_from_tdn(const double *in) {
    return digestible_energy_from_tdn(in[0]).mcal_per_kg;
}
static double call_me_from_tdn(const double *in) {
    return metabolizable_from_tdn(in[0]).mcal_per_kg;
}
static double call_me_megajoules_from_tdn(const double *in) {
    return metabolizable_from_tdn(in[0]).mcal_per_kg * MEGAJOULES_PER_MCAL;
}
static double call_me_from_de(const double *in) {
    return metabolizable_energy(density(in[0])).mcal_per_kg;
}
static double call_feed_nem(const double *in) { return nem_from_tdn(in[0]).mcal_per_kg; }
static double call_feed_neg(const double *in) { return neg_from_tdn(in[0]).mcal_per_kg; }
static double call_feed_nem_per_pound(const double *in) {
    return per_pound(nem_from_tdn(in[0]));
}
static double call_feed_neg_per_pound(const double *in) {
    return per_pound(neg_from_tdn(in[0]));
}

/* NEg of the feed whose NEm is given, both from the cubics: ME found by halving. */
static double call_neg_at_nem(const double *in) {
    double low = 1.0;
    double high = 4.0;
    for (int step = 0; step < 60; step++) {
        const double middle = (low + high) / 2.0;
        if (net_energy_maintenance(density(middle)).mcal_per_kg < in[0])
            low = middle;
        else
            high = middle;
    }
    return net_energy_gain(density(low)).mcal_per_kg;
}

/* Other figures of a report */

static double call_nfc(const double *in) {
    return non_fibre_carbohydrate(in[0], in[1], in[2], in[3]);
}
static double call_relative_feed_value(const double *in) {
    return relative_feed_value(in[0], in[1]);
}
static double call_adjusted_protein(const double *in) {
    return adjusted_crude_protein(in[0], in[1]);
}

/* Units */

static double call_dollars_per_bushel(const double *in) { /* $/t, lb a bushel */
    return in[0] * in[1] * KG_PER_POUND / KG_PER_TONNE;
}
static double call_grams_of_mineral(const double *in) { return in[0] * in[1] / 100.0; }

/* Nitrate: the same unit in as out */

static double call_nitrate_n(const double *in) { return in[0] / NO3_PER_NITRATE_N; }
static double call_nitrate_from_n(const double *in) { return in[0] * NO3_PER_NITRATE_N; }
static double call_nitrate_pct_from_n_ppm(const double *in) {
    return in[0] * NO3_PER_NITRATE_N / PPM_PER_PERCENT;
}
static double call_potassium_nitrate(const double *in) {
    return in[0] / NO3_PER_POTASSIUM_NITRATE;
}

/* most sulfur, % of dry matter, at a share of forage [SULFUR_FORAGE_SHARE] */
static double call_sulfur_at_forage_share(const double *in) {
    return sulfur_most_by_forage(in[0]);
}

const PublishedFunction FEED_FUNCTIONS[] = {
    {"tdn_hay", 1, call_tdn_hay},                                           /* ADF % -> % */
    {"tdn_california", 1, call_tdn_california},                             /* ADF % -> % */
    {"tdn_california_at_90", 1, call_tdn_california_at_90},                 /* ADF % -> % */
    {"tdn_penn_state", 1, call_tdn_penn_state},                             /* ADF % -> % */
    {"tdn_corn_silage", 1, call_tdn_corn_silage},                           /* ADF % -> % */
    {"tdn_legume_route", 1, call_tdn_legume_route},                         /* ADF % -> % */
    {"summative_nfc", 9, call_summative_nfc},                               /* % */
    {"summative_digestible_nfc", 9, call_summative_digestible_nfc},         /* % */
    {"summative_digestible_protein", 9, call_summative_digestible_protein}, /* % */
    {"summative_digestible_ndf", 9, call_summative_digestible_ndf},         /* % */
    {"summative_tdn", 9, call_summative_tdn},                               /* % */
    {"summative_energy", 9, call_summative_energy},                         /* Mcal/kg */
    {"de_from_tdn", 1, call_de_from_tdn},                                   /* % -> Mcal/kg */
    {"me_from_tdn", 1, call_me_from_tdn},                                   /* % -> Mcal/kg */
    {"me_megajoules_from_tdn", 1, call_me_megajoules_from_tdn},             /* % -> MJ/kg */
    {"me_from_de", 1, call_me_from_de},                                     /* Mcal/kg */
    {"feed_nem", 1, call_feed_nem},                             /* TDN % -> Mcal/kg */
    {"feed_neg", 1, call_feed_neg},                             /* TDN % -> Mcal/kg */
    {"feed_nem_per_pound", 1, call_feed_nem_per_pound},         /* TDN % -> Mcal/lb */
    {"feed_neg_per_pound", 1, call_feed_neg_per_pound},         /* TDN % -> Mcal/lb */
    {"neg_at_nem", 1, call_neg_at_nem},                         /* Mcal/kg */
    {"nfc", 4, call_nfc},                                       /* CP, NDF, fat, ash % -> % */
    {"feed_relative_value", 2, call_relative_feed_value},       /* ADF, NDF % */
    {"adjusted_protein", 2, call_adjusted_protein},             /* CP, ADICP % -> % */
    {"dollars_per_bushel", 2, call_dollars_per_bushel},         /* $/t, lb/bu */
    {"grams_of_mineral", 2, call_grams_of_mineral},             /* g/day, % -> g/day */
    {"nitrate_n", 1, call_nitrate_n},                           /* NO3 -> NO3-N */
    {"nitrate_from_n", 1, call_nitrate_from_n},                 /* NO3-N -> NO3 */
    {"nitrate_pct_from_n_ppm", 1, call_nitrate_pct_from_n_ppm}, /* ppm NO3-N -> % NO3 */
    {"potassium_nitrate", 1, call_potassium_nitrate},           /* NO3 -> KNO3 */
    {"sulfur_at_forage_share", 1, call_sulfur_at_forage_share}, /* share -> % */
    {NULL, 0, NULL},
};
