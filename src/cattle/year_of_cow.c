#include "cattle/year_of_cow.h"

#include "cattle/lactation.h"
#include "cattle/maintenance.h"
#include "cattle/mineral_requirement.h"
#include "cattle/pregnancy.h"
#include "cattle/protein_requirement.h"

#include <assert.h>
#include <stdbool.h>

#define DAYS_A_MONTH 30.4
#define DAYS_FROM_CALVING_TO_CONCEPTION 85.0
#define MONTHS_OF_NURSING 6
#define MILKING_FACTOR 1.2 /* [UF_AN190] */

/* The days at the end of a month.
 *
 *     in milk 30.4 m, in calf 30.4 m - 85      m month since calving, 1 to 12
 *
 * The calf is weaned after the sixth. These two lines and the calf of 40 kg give every printed
 * month of [UNL_RESERVES]. */
static double days_since_calving(int month) { return DAYS_A_MONTH * month; }

CowMonth cow_month(const YearCow *cow, int month) {
    assert(month >= 1 && month <= MONTHS_OF_YEAR);
    const double since = days_since_calving(month);
    const bool is_nursing = month <= MONTHS_OF_NURSING;
    CowMonth of = {
        .days_in_milk = is_nursing ? since : 0.0,
        .days_pregnant = fmax(since - DAYS_FROM_CALVING_TO_CONCEPTION, 0.0),
    };
    const MaintenanceFactors factors = {
        .breed = 1.0,
        .sex = 1.0,
        .lactation = is_nursing ? MILKING_FACTOR : 1.0,
        .compensation = 1.0,
    };
    of.milk = milk_yield(cow->peak_milk, of.days_in_milk);
    of.maintenance = maintenance_energy(cow->shrunk, factors);
    of.lactation = lactation_energy(of.milk, MILK_OF_BEEF_COW);
    of.pregnancy = pregnancy_energy(cow->calf_birth_weight, of.days_pregnant);
    of.protein.g_per_day =
        maintenance_protein(cow->shrunk).g_per_day +
        pregnancy_protein(cow->calf_birth_weight, of.days_pregnant).g_per_day +
        lactation_protein(of.milk, MILK_OF_BEEF_COW).g_per_day;
    const MineralState mineral = {
        .shrunk = cow->shrunk,
        .milk = of.milk,
        .calf_birth_weight = cow->calf_birth_weight,
        .days_pregnant = of.days_pregnant,
    };
    of.calcium = calcium_requirement(&mineral);
    of.phosphorus = phosphorus_requirement(&mineral);
    return of;
}

EnergyRate cow_month_energy(const CowMonth *month) {
    return (EnergyRate){month->maintenance.mcal_per_day + month->lactation.mcal_per_day +
                        month->pregnancy.mcal_per_day};
}
