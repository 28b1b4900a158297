#include "cattle/growing_day.h"

#include "cattle/growth.h"
#include "cattle/maintenance.h"
#include "cattle/mineral_requirement.h"
#include "cattle/protein_requirement.h"

GrowingDay growing_day(Mass shrunk, Mass final_shrunk, FeedRate shrunk_gain) {
    const Mass equivalent = equivalent_weight(shrunk, final_shrunk);
    const EnergyRate retained = retained_energy(equivalent, shrunk_gain);
    const MineralState mineral = {
        .shrunk = shrunk,
        .protein_gain = protein_in_gain(retained, shrunk_gain),
    };
    return (GrowingDay){
        .maintenance = fasting_energy(shrunk),
        .gain = retained,
        .protein_maintenance = maintenance_protein(shrunk),
        .protein_gain = gain_protein(equivalent, retained, shrunk_gain),
        .calcium = calcium_requirement(&mineral),
        .phosphorus = phosphorus_requirement(&mineral),
    };
}
