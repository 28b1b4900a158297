#include "cattle/pregnancy.h"

#include <assert.h>

#define KCAL_PER_MCAL 1000.0
#define NEM_PER_ME 0.576 /* at 2.0 Mcal ME per kg of diet */
#define PROTEIN_PER_NITROGEN 6.25
#define MP_EFFICIENCY 0.65

/* A cow that carries past term is held at the last day, where the curves end. */
static double day_on_curve(double days_pregnant) {
    return fmin(days_pregnant, (double)GESTATION_DAYS);
}

/* Energy of the growing calf, its membranes and fluids.
 *
 *     ME = CBW (0.4504 - 0.000766 t) e^((0.03233 - 0.0000275 t) t)      kcal/day
 *     NEm = 0.576 ME / 1000                                            Mcal/day
 *
 * CBW calf birth weight, kg; t day of gestation, 0 to 283. Form of [FERRELL_1976] as used in
 * [NRC_EQUATIONS_2000 ch.4]; 0.576 NEm per ME and the table it reproduces [NRC_2000 p.43]. */
EnergyRate pregnancy_energy(Mass calf_birth_weight, double days_pregnant) {
    assert(calf_birth_weight.kg >= 0.0);
    if (days_pregnant <= 0.0) {
        return (EnergyRate){0.0};
    }
    const double t = day_on_curve(days_pregnant);
    const double me_kcal =
        calf_birth_weight.kg * (0.4504 - 0.000766 * t) * exp((0.03233 - 0.0000275 * t) * t);
    return (EnergyRate){NEM_PER_ME * me_kcal / KCAL_PER_MCAL};
}

/* Protein of the growing calf, its membranes and fluids.
 *
 *     Yp = CBW (0.001669 - 0.00000211 t) e^((0.0278 - 0.0000176 t) t) * 6.25      g/day net
 *     MP = Yp / 0.65                                                             g/day
 *
 * CBW kg; t day of gestation, 0 to 283. [NRC_EQUATIONS_2000 ch.4]. */
GramRate pregnancy_protein(Mass calf_birth_weight, double days_pregnant) {
    assert(calf_birth_weight.kg >= 0.0);
    if (days_pregnant <= 0.0) {
        return (GramRate){0.0};
    }
    const double t = day_on_curve(days_pregnant);
    const double net_nitrogen =
        calf_birth_weight.kg * (0.001669 - 0.00000211 * t) * exp((0.0278 - 0.0000176 * t) * t);
    return (GramRate){net_nitrogen * PROTEIN_PER_NITROGEN / MP_EFFICIENCY};
}

/* Weight of the gravid uterus.
 *
 *     CW = 0.01828 CBW e^(0.02 t - 0.0000143 t^2)      kg
 *
 * CBW kg; t day of gestation, 0 to 283. [NRC_EQUATIONS_2000 ch.10]. */
Mass conceptus_weight(Mass calf_birth_weight, double days_pregnant) {
    assert(calf_birth_weight.kg >= 0.0);
    if (days_pregnant <= 0.0) {
        return (Mass){0.0};
    }
    const double t = day_on_curve(days_pregnant);
    return (Mass){0.01828 * calf_birth_weight.kg * exp(0.02 * t - 0.0000143 * t * t)};
}

/* Its daily gain, the derivative of the weight above.
 *
 *     gain = CW (0.02 - 0.0000286 t)      kg/day
 *
 * [NRC_EQUATIONS_2000 ch.10]. */
FeedRate conceptus_gain(Mass calf_birth_weight, double days_pregnant) {
    const double t = day_on_curve(days_pregnant);
    const double weight_kg = conceptus_weight(calf_birth_weight, days_pregnant).kg;
    return (FeedRate){weight_kg * (0.02 - 0.0000286 * t)};
}
