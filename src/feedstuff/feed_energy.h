/* Energy of a feed from its analysis: TDN by a stated route, then DE, ME, NEm and NEg from that
 * TDN by one method for every feed (never mixed with a laboratory's own net energy).
 * All analyses in % of dry matter. docs/equations/feed-energy.md */
#ifndef FEEDSTUFF_FEED_ENERGY_H
#define FEEDSTUFF_FEED_ENERGY_H

#include "base/quantity.h"

/* Which fibre equation a forage takes. */
typedef enum {
    FIBRE_HAY,         /* 88.9 - 0.779 ADF            [NFTA_A3] */
    FIBRE_LEGUME,      /* the lower of that and 4.898 + 89.796 (1.044 - 0.0119 ADF) */
    FIBRE_CORN_SILAGE, /* 87.84 - 0.70 ADF            [NFTA_A3] */
    FIBRE_NONE         /* not a forage: no fibre route */
} FibreEquation;

/* TDN, % of DM, from ADF. Holds for ADF 20 to 55; the result is kept within 38 to 72. NAN for
 * FIBRE_NONE. */
double tdn_from_adf(FibreEquation equation, double adf_pct);

/* What soil in a forage takes off that, in units of TDN: nothing up to 14 % ash. */
double tdn_lost_to_soil(double ash_pct);

/* Single equations, for comparison and tests. */
double tdn_nfta_hay(double adf_pct);
double tdn_california_alfalfa(double adf_pct);
double tdn_penn_state_legume(double adf_pct);
double tdn_nfta_corn_silage(double adf_pct);

typedef struct {
    double crude_protein, ndf, ash, crude_fat; /* % of DM */
    double ndicp, adicp;                       /* % of DM */
    double lignin;                             /* % of DM; NAN when unknown */
    double ndf_digestibility;                  /* 48 h, % of NDF; NAN when unknown */
    double processing_factor;                  /* PAF; 1 for forages and meals */
    int is_concentrate;
} FibreAnalysis;

typedef struct {
    double nfc, digestible_nfc, digestible_protein, digestible_ndf, fatty_acids; /* % of DM */
    double tdn;                                                                  /* % of DM */
    EnergyDensity digestible_energy;
} SummativeResult;

/* The summative equation at maintenance intake; needs lignin or ndf_digestibility (the latter
 * is preferred when both are there). [WEISS_1992], coefficients as in [NRC_DAIRY_2001]. */
SummativeResult tdn_summative(FibreAnalysis analysis);

EnergyDensity digestible_energy_from_tdn(double tdn_pct);     /* [NRC_2000] p.126 on nap.edu */
EnergyDensity metabolizable_energy(EnergyDensity digestible); /* 0.82 DE */
EnergyDensity net_energy_maintenance(EnergyDensity metabolizable); /* Garrett's cubic; >= 0 */
EnergyDensity net_energy_gain(EnergyDensity metabolizable);        /* Garrett's cubic; >= 0 */

/* The three steps at once. */
EnergyDensity nem_from_tdn(double tdn_pct);
EnergyDensity neg_from_tdn(double tdn_pct);

double non_fibre_carbohydrate(double crude_protein, double ndf, double crude_fat, double ash);
double relative_feed_value(double adf_pct, double ndf_pct); /* information only */

/* Protein left after heat damage, % of DM: three steps by the bound share of CP. */
double adjusted_crude_protein(double crude_protein_pct, double adicp_pct);

#endif
