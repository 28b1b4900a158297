/* What cold adds. The default is the published coat and wind-chill table with one per cent of
 * the energy need per degree F below the lower critical temperature (two when wet); the
 * mechanistic model is the alternative; they are never added together.
 * docs/equations/cold-stress.md */
#ifndef CATTLE_COLD_STRESS_H
#define CATTLE_COLD_STRESS_H

#include "base/quantity.h"
#include <stdbool.h>

/* By which of the two cold is reckoned. */
typedef enum { COLD_BY_TABLE, COLD_BY_MODEL } ColdWay;

typedef enum { COAT_SUMMER, COAT_FALL, COAT_WINTER, COAT_HEAVY, COAT_COUNT } Coat;

/* What the cattle feel: air temperature and wind at the animal, by the published wind-chill
 * table, interpolated; wind below 5 mph is scaled towards calm, above 30 mph taken as 30 (the
 * 40 mph row is doubtful); outside -10..40 F the edge slope goes on. */
Temperature wind_chill(Temperature air, Speed wind);

/* Lower critical temperature by coat, wetness and 9-point score (thin below 5, average 5 to
 * under 7, fleshy from 7). */
Temperature lower_critical_temperature(Coat coat, bool is_wet, double condition_score_9);

/* Share added to the energy need: 0 when the effective temperature is above the critical one.
 */
double cold_extra_share(Temperature effective, Temperature critical, bool is_wet);

/* The mechanistic model. */
typedef struct {
    Mass shrunk;
    EnergyRate metabolizable_intake;
    EnergyRate retained; /* gain + milk + conceptus */
    double condition_score_9;
    double hair_cm;
    Speed wind;
    double mud;  /* 1 clean, 0.8, 0.5, 0.2 */
    double hide; /* 0.8 thin, 1 average, 1.2 thick */
    bool is_yearling;
} ColdBody;

double tissue_insulation(double condition_score_9, bool is_yearling);
double external_insulation(const ColdBody *body);
Temperature mechanistic_critical_temperature(const ColdBody *body);
EnergyRate mechanistic_cold_energy(const ColdBody *body, Temperature air); /* ME, >= 0 */

#endif
