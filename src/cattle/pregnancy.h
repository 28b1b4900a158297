/* The calf before it is born: energy, protein and weight. docs/equations/pregnancy.md */
#ifndef CATTLE_PREGNANCY_H
#define CATTLE_PREGNANCY_H

#include "base/quantity.h"

#define GESTATION_DAYS 283
#define DEFAULT_CALF_BIRTH_WEIGHT_KG 38.5

/* NEm for pregnancy. days 0 to 283; outside it is 0 before and the day-283 value after. */
EnergyRate pregnancy_energy(Mass calf_birth_weight, double days_pregnant);

/* Metabolizable protein for pregnancy. */
GramRate pregnancy_protein(Mass calf_birth_weight, double days_pregnant);

/* Gravid uterus: weight carried, and its daily gain (scale weight that is not cow). */
Mass conceptus_weight(Mass calf_birth_weight, double days_pregnant);
FeedRate conceptus_gain(Mass calf_birth_weight, double days_pregnant);

#endif
