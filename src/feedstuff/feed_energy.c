/* Coefficients stand in the equation that uses them, with the publication beside them. */
#include "feedstuff/feed_energy.h"

#include <assert.h>

#define LEAST_FORAGE_TDN 38.0 /* [OWN_CHOICE]: net energy for gain is gone below it */
#define MOST_FORAGE_TDN 72.0  /* [OWN_CHOICE]: better than the best young alfalfa */

/* ---- TDN from acid detergent fibre --------------------------------------------------------
 */

/* Digestible dry matter of Midwest legume and grass hay, taken as its TDN: 88.9 - 0.779 ADF
 * [NFTA_A3]. Oklahoma's laboratory uses 88.9 - 0.78 ADF for all forage [OSU_ALFALFA]. */
double tdn_nfta_hay(double adf_pct) { return 88.9 - 0.779 * adf_pct; }

/* Alfalfa in California: 82.38 - 0.7515 ADF [CALIFORNIA_ALFALFA]. It gives the edges of the
 * United States hay guide [USDA_HAY_GUIDE]. */
double tdn_california_alfalfa(double adf_pct) { return 82.38 - 0.7515 * adf_pct; }

/* Legume and legume-grass hay in Pennsylvania, through net energy for lactation (Mcal/lb)
 * [PENN_STATE_1980]. Manitoba's pair for canola hay, ADF 35.8 and TDN 60.4, lies on it
 * [MB_CANOLA_FORAGE]. */
double tdn_penn_state_legume(double adf_pct) {
    const double net_energy_lactation_mcal_per_lb = 1.044 - 0.0119 * adf_pct;
    return 4.898 + 89.796 * net_energy_lactation_mcal_per_lb;
}

/* Corn silage: 87.84 - 0.70 ADF [NFTA_A3]. */
double tdn_nfta_corn_silage(double adf_pct) { return 87.84 - 0.70 * adf_pct; }

static double unclamped_tdn_from_adf(FibreEquation equation, double adf_pct) {
    switch (equation) {
    case FIBRE_HAY:
        return tdn_nfta_hay(adf_pct);
    case FIBRE_LEGUME:
        return fmin(tdn_nfta_hay(adf_pct), tdn_penn_state_legume(adf_pct));
    case FIBRE_CORN_SILAGE:
        return tdn_nfta_corn_silage(adf_pct);
    case FIBRE_NONE:
        break;
    }
    return (double)NAN;
}

double tdn_from_adf(FibreEquation equation, double adf_pct) {
    const double tdn = unclamped_tdn_from_adf(equation, adf_pct);
    if (isnan(tdn))
        return tdn; /* fmin and fmax would drop the NAN */
    return fmin(fmax(tdn, LEAST_FORAGE_TDN), MOST_FORAGE_TDN);
}

/* Each unit of ash above 14 % is soil that stands where 0.98 digestible units stood, as it does
 * in the summative equation. From where, and that the hay equation is taken down by it: own
 * choice. */
#define MOST_ASH_OF_CLEAN_FORAGE 14.0
double tdn_lost_to_soil(double ash_pct) {
    return 0.98 * fmax(ash_pct - MOST_ASH_OF_CLEAN_FORAGE, 0.0);
}

/* ---- the summative equation ---------------------------------------------------------------
 */

/* Truly digestible protein: heat-bound protein pulls it down exponentially in forages, in a
 * straight line in concentrates [NRC_DAIRY_2001]. */
static double digestible_protein(FibreAnalysis analysis) {
    if (analysis.crude_protein <= 0.0)
        return 0.0;
    const double bound_share = analysis.adicp / analysis.crude_protein;
    if (analysis.is_concentrate)
        return analysis.crude_protein * (1.0 - 0.4 * bound_share);
    return analysis.crude_protein * exp(-1.2 * bound_share);
}

/* Truly digestible fibre: from the 48 h digestibility where it was measured, else lignin
 * shields fibre by the two-thirds power of its share [WEISS_1992], coefficients of
 * [NRC_DAIRY_2001]. */
static double digestible_fibre(FibreAnalysis analysis) {
    const double fibre = fmax(analysis.ndf - analysis.ndicp, 0.0);
    if (!isnan(analysis.ndf_digestibility))
        return fibre * analysis.ndf_digestibility / 100.0;
    assert(!isnan(analysis.lignin));
    if (fibre <= 0.0)
        return 0.0;
    const double lignin = fmin(analysis.lignin, fibre);
    return 0.75 * (fibre - lignin) * (1.0 - pow(lignin / fibre, 0.667));
}

SummativeResult tdn_summative(FibreAnalysis analysis) {
    SummativeResult result;
    const double fibre = fmax(analysis.ndf - analysis.ndicp, 0.0);
    result.nfc =
        non_fibre_carbohydrate(analysis.crude_protein, fibre, analysis.crude_fat, analysis.ash);
    result.digestible_nfc = 0.98 * result.nfc * analysis.processing_factor;
    result.digestible_protein = digestible_protein(analysis);
    result.digestible_ndf = digestible_fibre(analysis);
    /* about 1 % of a feed is ether extract that is no fat [NRC_DAIRY_2001] */
    result.fatty_acids = fmax(analysis.crude_fat - 1.0, 0.0);
    /* 2.25: energy of fat over that of carbohydrate; 7: what the animal itself puts into faeces
     */
    const double tdn = result.digestible_nfc + result.digestible_protein +
                       2.25 * result.fatty_acids + result.digestible_ndf - 7.0;
    result.tdn = fmax(tdn, 0.0);
    const double energy = 0.042 * (result.digestible_nfc + result.digestible_ndf) +
                          0.056 * result.digestible_protein + 0.094 * result.fatty_acids - 0.3;
    result.digestible_energy = (EnergyDensity){fmax(energy, 0.0)};
    return result;
}

/* ---- from TDN to net energy ---------------------------------------------------------------
 */

/* 1 kg TDN holds 4.409 Mcal DE [NRC_2000 p.126]. */
EnergyDensity digestible_energy_from_tdn(double tdn_pct) {
    return (EnergyDensity){0.04409 * tdn_pct};
}

/* ME = 0.82 DE [NRC_2000 p.126]. Newer work finds more, 0.86 to 0.92 [FULLER_2020],
 * but the requirements and the cubics below were fitted with 0.82, and a change of this step
 * alone would underfeed cows. */
EnergyDensity metabolizable_energy(EnergyDensity digestible) {
    return (EnergyDensity){0.82 * digestible.mcal_per_kg};
}

/* Garrett's cubics [GARRETT_1980] as printed in [NRC_2000]; ME 1.5 to 3.3 Mcal/kg. */
EnergyDensity net_energy_maintenance(EnergyDensity metabolizable) {
    const double me = metabolizable.mcal_per_kg;
    const double net = 1.37 * me - 0.138 * me * me + 0.0105 * me * me * me - 1.12;
    return (EnergyDensity){fmax(net, 0.0)};
}

EnergyDensity net_energy_gain(EnergyDensity metabolizable) {
    const double me = metabolizable.mcal_per_kg;
    const double net = 1.42 * me - 0.174 * me * me + 0.0122 * me * me * me - 1.65;
    return (EnergyDensity){fmax(net, 0.0)};
}

EnergyDensity nem_from_tdn(double tdn_pct) {
    return net_energy_maintenance(metabolizable_energy(digestible_energy_from_tdn(tdn_pct)));
}

EnergyDensity neg_from_tdn(double tdn_pct) {
    return net_energy_gain(metabolizable_energy(digestible_energy_from_tdn(tdn_pct)));
}

/* ---- other figures of a forage report -----------------------------------------------------
 */

/* By difference [HAY_NFC_2023]; never below nothing, although the five tests may sum to over
 * 100. */
double non_fibre_carbohydrate(double crude_protein, double ndf, double crude_fat, double ash) {
    return fmax(100.0 - (ndf + crude_protein + crude_fat + ash), 0.0);
}

/* Digestible dry matter times intake over 1.29, so that full-bloom alfalfa (ADF 41, NDF 53) is
 * 100 [WARD_2008]. */
double relative_feed_value(double adf_pct, double ndf_pct) {
    assert(ndf_pct > 0.0);
    const double intake_pct_of_weight = 120.0 / ndf_pct;
    return tdn_nfta_hay(adf_pct) * intake_pct_of_weight / 1.29;
}

/* A little bound protein is natural; laboratories take off what is above 7 % of CP once 14 % is
 * bound, and all of it above 20 % [ADJUSTED_PROTEIN]. */
double adjusted_crude_protein(double crude_protein_pct, double adicp_pct) {
    if (crude_protein_pct <= 0.0)
        return 0.0;
    const double bound = 100.0 * adicp_pct / crude_protein_pct;
    if (bound < 14.0)
        return crude_protein_pct;
    if (bound <= 20.0)
        return crude_protein_pct * (100.0 - (bound - 7.0)) / 100.0;
    return fmax(crude_protein_pct * (100.0 - bound) / 100.0, 0.0);
}
