/* The cattle equations as the cases call them. Where a publication prints a sum or a step of
 * more than one equation, the step is put together here and nowhere else. */
#include "published/published.h"

#include "cattle/body_reserve.h"
#include "cattle/dry_matter_intake.h"
#include "cattle/growth.h"
#include "cattle/lactation.h"
#include "cattle/maintenance.h"
#include "cattle/mineral_requirement.h"
#include "cattle/pregnancy.h"
#include "cattle/protein_requirement.h"
#include "feedstuff/feed_energy.h"

#include <stddef.h>

#define KCAL_PER_MCAL 1000.0
#define NEM_PER_ME_PREGNANT 0.576 /* [NRC_2000 p.43] */
#define GRAMS_PER_POUND (KG_PER_POUND * GRAMS_PER_KG)
#define BULL_SEX 1.15
#define PLAIN_LAW 1.0 /* the published form as it stands */

static Mass pounds(double value) { return (Mass){value * KG_PER_POUND}; }
static Mass kilograms(double value) { return (Mass){value}; }
static FeedRate per_day(double kg) { return (FeedRate){kg}; }
static EnergyDensity density(double mcal_per_kg) { return (EnergyDensity){mcal_per_kg}; }

/* Maintenance */

static double call_shrunk_weight(const double *in) {
    return shrunk_weight(kilograms(in[0])).kg;
}
static double call_fasting_energy(const double *in) {
    return fasting_energy(kilograms(in[0])).mcal_per_day;
}
static double call_maintenance_energy(const double *in) {
    const MaintenanceFactors factors = {in[1], in[2], in[3], in[4]};
    return maintenance_energy(kilograms(in[0]), factors).mcal_per_day;
}
static double call_compensation_factor(const double *in) { return compensation_factor(in[0]); }
static double call_acclimatisation_energy(const double *in) {
    return acclimatisation_energy(kilograms(in[0]), (Temperature){in[1]}).mcal_per_day;
}
static double call_grazing_activity_energy(const double *in) {
    return grazing_activity_energy(kilograms(in[0]), per_day(in[1]), in[2], in[3], in[4])
        .mcal_per_day;
}

/* Pregnancy */

static double call_pregnancy_energy(const double *in) {
    return pregnancy_energy(kilograms(in[0]), in[1]).mcal_per_day;
}
static double call_pregnancy_me_kcal(const double *in) {
    return call_pregnancy_energy(in) / NEM_PER_ME_PREGNANT * KCAL_PER_MCAL;
}
static double call_pregnancy_protein(const double *in) {
    return pregnancy_protein(kilograms(in[0]), in[1]).g_per_day;
}
static double call_conceptus_weight(const double *in) {
    return conceptus_weight(kilograms(in[0]), in[1]).kg;
}
static double call_conceptus_gain(const double *in) {
    return conceptus_gain(kilograms(in[0]), in[1]).kg_per_day;
}

/* Lactation */

static double call_milk_yield(const double *in) {
    return milk_yield(per_day(in[0]), in[1]).kg_per_day;
}
static double call_lactation_energy(const double *in) {
    const MilkMake make = {in[1], in[2], MILK_OF_BEEF_COW.protein_pct};
    return lactation_energy(per_day(in[0]), make).mcal_per_day;
}
static double call_lactation_energy_on_day(const double *in) {
    return lactation_energy(milk_yield(per_day(in[0]), in[1]), MILK_OF_BEEF_COW).mcal_per_day;
}
static double call_lactation_protein(const double *in) {
    const MilkMake make = {MILK_OF_BEEF_COW.fat_pct, MILK_OF_BEEF_COW.solids_not_fat_pct,
                           in[1]};
    return lactation_protein(per_day(in[0]), make).g_per_day;
}

/* A cow's energy: shrunk kg, peak milk kg/day (0: dry), days in milk, calf kg, days pregnant.
 */
static double call_cow_energy(const double *in) {
    const bool is_milking = in[1] > 0.0;
    const MaintenanceFactors factors = {1.0, 1.0, is_milking ? 1.2 : 1.0, 1.0};
    const double milk = is_milking ? call_lactation_energy_on_day(in + 1) : 0.0;
    return maintenance_energy(kilograms(in[0]), factors).mcal_per_day + milk +
           call_pregnancy_energy(in + 3);
}

/* The same need as pounds of TDN from a diet of in[5] % TDN. */
static double call_cow_tdn_pounds(const double *in) {
    const double kg_of_diet = call_cow_energy(in) / nem_from_tdn(in[5]).mcal_per_kg;
    return kg_of_diet * in[5] / 100.0 / KG_PER_POUND;
}

/* Mean over the first in[2] days of milk: live pounds, peak milk pounds, days, TDN %. */
static double call_nursing_tdn_pounds_mean(const double *in) {
    const int days = (int)in[2];
    double sum = 0.0;
    for (int day = 1; day <= days; day++) {
        const double cow[] = {
            shrunk_weight(pounds(in[0])).kg, pounds(in[1]).kg, day, 0.0, 0.0, in[3]};
        sum += call_cow_tdn_pounds(cow);
    }
    return sum / days;
}

/* Growth */

static double call_equivalent_weight(const double *in) {
    return equivalent_weight(kilograms(in[0]), kilograms(in[1])).kg;
}
/* equivalent kg, gain kg/day */
static double call_retained_energy(const double *in) {
    return retained_energy(kilograms(in[0]), per_day(in[1])).mcal_per_day;
}
/* shrunk kg, final shrunk kg, gain kg/day */
static double call_retained_energy_of(const double *in) {
    const double equivalent[] = {call_equivalent_weight(in), in[2]};
    return call_retained_energy(equivalent);
}
/* shrunk kg, final shrunk kg, retained Mcal/day */
static double call_gain_from_energy_of(const double *in) {
    return gain_from_energy(kilograms(call_equivalent_weight(in)), (EnergyRate){in[2]})
        .kg_per_day;
}
static double call_protein_in_gain(const double *in) {
    return protein_in_gain((EnergyRate){in[0]}, per_day(in[1])).g_per_day;
}
/* shrunk kg, final shrunk kg, gain kg/day */
static double call_gain_protein_of(const double *in) {
    const EnergyRate retained = {call_retained_energy_of(in)};
    return gain_protein(kilograms(call_equivalent_weight(in)), retained, per_day(in[2]))
        .g_per_day;
}
static double call_gain_to_target(const double *in) {
    return gain_to_target(kilograms(in[0]), kilograms(in[1]), (int)in[2]).kg_per_day;
}

/* Body condition */

static double call_condition_from_five_point(const double *in) {
    return condition_from_five_point(in[0]);
}
static double call_body_fat_pct(const double *in) { return 100.0 * body_fat_share(in[0]); }
static double call_weight_at_condition(const double *in) {
    return weight_at_condition(kilograms(in[0]), in[1], in[2]).kg;
}
static double call_condition_change_energy(const double *in) {
    return condition_change_energy(kilograms(in[0]), in[1], in[2]).mcal;
}
/* From one score below to the score in[1]; in[0] is the shrunk weight at score 5. */
static double call_reserve_step(const double *in) {
    const Mass live_at_five = {in[0] / shrunk_weight(kilograms(1.0)).kg};
    const Mass live_before = weight_at_condition(live_at_five, 5.0, in[1] - 1.0);
    return condition_change_energy(live_before, in[1] - 1.0, in[1]).mcal;
}

/* Intake: shrunk kg, NEm of the diet, and for the nursing cow milk kg/day */

static double intake_of(IntakeForm form, const double *in, double milk) {
    const IntakeLaw law = intake_law(form, per_day(milk), PLAIN_LAW);
    return intake_at(law, kilograms(in[0]), density(in[1])).kg_per_day;
}
static double call_pregnant_cow_intake(const double *in) {
    return intake_of(INTAKE_PREGNANT_COW, in, 0.0);
}
static double call_open_cow_intake(const double *in) {
    return intake_of(INTAKE_OPEN_COW, in, 0.0);
}
static double call_nursing_cow_intake(const double *in) {
    return intake_of(INTAKE_NURSING_COW, in, in[2]);
}
static double call_fatness_factor(const double *in) {
    return fatness_intake_factor(kilograms(in[0]));
}

/* Growing bulls, in pounds: listed weight taken as shrunk, TDN %, gain, final weight. */

static double bull_intake_kg(double weight_lb, double tdn_pct) {
    const double diet[] = {pounds(weight_lb).kg, nem_from_tdn(tdn_pct).mcal_per_kg};
    return intake_of(weight_lb < 1000.0 ? INTAKE_CALF : INTAKE_YEARLING, diet, 0.0);
}
/* weight lb, TDN % */
static double call_bull_intake_pounds(const double *in) {
    return bull_intake_kg(in[0], in[1]) / KG_PER_POUND;
}
/* weight lb, TDN %, final weight lb */
static double call_bull_gain_pounds(const double *in) {
    const MaintenanceFactors bull = {1.0, BULL_SEX, 1.0, 1.0};
    const double for_maintenance =
        maintenance_energy(pounds(in[0]), bull).mcal_per_day / nem_from_tdn(in[1]).mcal_per_kg;
    const double for_gain = bull_intake_kg(in[0], in[1]) - for_maintenance;
    const double gain[] = {pounds(in[0]).kg, pounds(in[2]).kg,
                           for_gain * neg_from_tdn(in[1]).mcal_per_kg};
    return call_gain_from_energy_of(gain) / KG_PER_POUND;
}
/* weight lb, gain lb/day, final weight lb */
static double call_bull_protein_pounds(const double *in) {
    const double gain[] = {pounds(in[0]).kg, pounds(in[2]).kg, pounds(in[1]).kg};
    const double metabolizable_g =
        maintenance_protein(pounds(in[0])).g_per_day + call_gain_protein_of(gain);
    return metabolizable_g / CP_TO_MP / GRAMS_PER_POUND;
}
/* weight lb, gain lb/day, TDN %, final weight lb */
static double call_bull_protein_pct(const double *in) {
    const double protein[] = {in[0], in[1], in[3]};
    const double diet[] = {in[0], in[2]};
    return 100.0 * call_bull_protein_pounds(protein) / call_bull_intake_pounds(diet);
}

/* Protein */

static double call_maintenance_protein(const double *in) {
    return maintenance_protein(kilograms(in[0])).g_per_day;
}
/* form 0 ten per cent, 1 thirteen per cent, 2 of 2016; TDN eaten kg/day */
static double call_microbial_protein(const double *in) {
    return microbial_protein((MicrobialForm)(int)in[0], per_day(in[1])).g_per_day;
}
static double call_protein_supply(const double *in) {
    return metabolizable_protein_supply((GramRate){in[0]}, (GramRate){in[1]}, (GramRate){in[2]})
        .g_per_day;
}
/* A cow's crude protein, lb/day: live lb, calf kg, days pregnant, milk lb/day. */
static double call_cow_protein_pounds(const double *in) {
    const FeedRate milk = {in[3] * KG_PER_POUND};
    const double metabolizable_g = maintenance_protein(shrunk_weight(pounds(in[0]))).g_per_day +
                                   call_pregnancy_protein(in + 1) +
                                   lactation_protein(milk, MILK_OF_BEEF_COW).g_per_day;
    return metabolizable_g / CP_TO_MP / GRAMS_PER_POUND;
}
/* Mean over the first in[2] days of milk: live lb, peak milk lb, days. */
static double call_nursing_protein_pounds_mean(const double *in) {
    const int days = (int)in[2];
    double sum = 0.0;
    for (int day = 1; day <= days; day++) {
        const double milk_lb = milk_yield(per_day(in[1]), day).kg_per_day;
        const double cow[] = {in[0], 0.0, 0.0, milk_lb};
        sum += call_cow_protein_pounds(cow);
    }
    return sum / days;
}

/* Minerals: shrunk kg, milk kg/day, calf kg, days pregnant */

static MineralState mineral_state(const double *in) {
    return (MineralState){.shrunk = {in[0]},
                          .protein_gain = {0.0},
                          .milk = {in[1]},
                          .calf_birth_weight = {in[2]},
                          .days_pregnant = in[3]};
}
static double call_cow_calcium(const double *in) {
    const MineralState state = mineral_state(in);
    return calcium_requirement(&state).g_per_day;
}
static double call_cow_phosphorus(const double *in) {
    const MineralState state = mineral_state(in);
    return phosphorus_requirement(&state).g_per_day;
}
/* What the gain alone takes: shrunk kg, final shrunk kg, gain kg/day. */
static double mineral_for_gain(GramRate (*requirement)(const MineralState *),
                               const double *in) {
    MineralState state = {.shrunk = {in[0]}};
    const double at_rest = requirement(&state).g_per_day;
    state.protein_gain =
        protein_in_gain((EnergyRate){call_retained_energy_of(in)}, per_day(in[2]));
    return requirement(&state).g_per_day - at_rest;
}
static double call_calcium_for_gain(const double *in) {
    return mineral_for_gain(calcium_requirement, in);
}
static double call_phosphorus_for_gain(const double *in) {
    return mineral_for_gain(phosphorus_requirement, in);
}

// clang-format off
const PublishedFunction CATTLE_FUNCTIONS[] = {
    /* name                          inputs  result */
    {"shrunk_weight",                     1, call_shrunk_weight},                /* kg */
    {"fasting_energy",                    1, call_fasting_energy},               /* Mcal/day */
    {"maintenance_energy",                5, call_maintenance_energy},           /* Mcal/day */
    {"compensation_factor",               1, call_compensation_factor},
    {"acclimatisation_energy",            2, call_acclimatisation_energy},       /* Mcal/day */
    {"grazing_activity_energy",           5, call_grazing_activity_energy},      /* Mcal/day */
    {"pregnancy_energy",                  2, call_pregnancy_energy},             /* Mcal/day */
    {"pregnancy_me_kcal",                 2, call_pregnancy_me_kcal},            /* kcal/day */
    {"pregnancy_protein",                 2, call_pregnancy_protein},            /* g/day */
    {"conceptus_weight",                  2, call_conceptus_weight},             /* kg */
    {"conceptus_gain",                    2, call_conceptus_gain},               /* kg/day */
    {"milk_yield",                        2, call_milk_yield},                   /* kg/day */
    {"lactation_energy",                  3, call_lactation_energy},             /* Mcal/day */
    {"lactation_energy_on_day",           2, call_lactation_energy_on_day},      /* Mcal/day */
    {"lactation_protein",                 2, call_lactation_protein},            /* g/day */
    {"cow_energy",                        5, call_cow_energy},                   /* Mcal/day */
    {"cow_tdn_pounds",                    6, call_cow_tdn_pounds},               /* lb/day */
    {"nursing_tdn_pounds_mean",           4, call_nursing_tdn_pounds_mean},      /* lb/day */
    {"equivalent_weight",                 2, call_equivalent_weight},            /* kg */
    {"retained_energy",                   2, call_retained_energy},              /* Mcal/day */
    {"retained_energy_of",                3, call_retained_energy_of},           /* Mcal/day */
    {"gain_from_energy_of",               3, call_gain_from_energy_of},          /* kg/day */
    {"protein_in_gain",                   2, call_protein_in_gain},              /* g/day */
    {"gain_protein_of",                   3, call_gain_protein_of},              /* g/day */
    {"gain_to_target",                    3, call_gain_to_target},               /* kg/day */
    {"condition_from_five_point",         1, call_condition_from_five_point},
    {"body_fat_pct",                      1, call_body_fat_pct},                 /* % of empty body */
    {"weight_at_condition",               3, call_weight_at_condition},          /* kg */
    {"condition_change_energy",           3, call_condition_change_energy},      /* Mcal */
    {"reserve_step",                      2, call_reserve_step},                 /* Mcal */
    {"pregnant_cow_intake",               2, call_pregnant_cow_intake},          /* kg DM/day */
    {"open_cow_intake",                   2, call_open_cow_intake},              /* kg DM/day */
    {"nursing_cow_intake",                3, call_nursing_cow_intake},           /* kg DM/day */
    {"fatness_intake_factor",             1, call_fatness_factor},
    {"bull_intake_pounds",                2, call_bull_intake_pounds},           /* lb DM/day */
    {"bull_gain_pounds",                  3, call_bull_gain_pounds},             /* lb/day */
    {"bull_protein_pounds",               3, call_bull_protein_pounds},          /* lb CP/day */
    {"bull_protein_pct",                  4, call_bull_protein_pct},             /* % of DM */
    {"maintenance_protein",               1, call_maintenance_protein},          /* g MP/day */
    {"microbial_protein",                 2, call_microbial_protein},            /* g/day */
    {"metabolizable_protein_supply",      3, call_protein_supply},               /* g MP/day */
    {"cow_protein_pounds",                4, call_cow_protein_pounds},           /* lb CP/day */
    {"nursing_protein_pounds_mean",       3, call_nursing_protein_pounds_mean},  /* lb CP/day */
    {"cow_calcium",                       4, call_cow_calcium},                  /* g/day */
    {"cow_phosphorus",                    4, call_cow_phosphorus},               /* g/day */
    {"calcium_for_gain",                  3, call_calcium_for_gain},             /* g/day */
    {"phosphorus_for_gain",               3, call_phosphorus_for_gain},          /* g/day */
    {NULL, 0, NULL}};
// clang-format on
