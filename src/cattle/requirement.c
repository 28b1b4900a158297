/* A period is walked day by day, and on each day over the calving days of the window, taken as
 * evenly spread: a cow that calves on day c is in late pregnancy before it and nursing after
 * it. Every need but the intake law is a plain mean; the law is averaged by its coefficients,
 * which is exact because it is linear in them. */
#include "cattle/requirement.h"
#include "cattle/body_reserve.h"
#include "cattle/cold_need.h"
#include "cattle/growth.h"
#include "cattle/lactation.h"
#include "cattle/maintenance.h"
#include "cattle/mineral_requirement.h"
#include "cattle/pregnancy.h"
#include "cattle/protein_requirement.h"
#include "cattle/water_need.h"
#include <assert.h>
#include <math.h>
#include <string.h>

/* Days from calving to conception that give a calf a year: 365 - 283. */
#define DAYS_OPEN_AFTER_CALVING 82
#define DAYS_BETWEEN_CALVES 365
/* Share of mature weight a heifer still puts on from first to second calving
 * [NRC_EQUATIONS_2000]. */
#define SHARE_AT_SECOND_CALVING 0.92
#define YEARLING_INTAKE_WEIGHT_KG                                                              \
    453.6 /* 1,000 lb: the calf form below, the yearling form above */

typedef struct {
    double days_pregnant; /* 0: not pregnant */
    double days_in_milk;  /* 0: dry */
    bool has_calved;
} Reproduction;

/* A weaning before the coming calving is that of the calf a cow already has at foot: it does
 * not take the coming calf off her. */
static bool weans_last_calf(const HerdGroup *group) {
    return group->has_weaning &&
           calendar_days_between(group->calving_start, group->weaning) < 0;
}

static bool is_weaned_on(const HerdGroup *group, Day day) {
    return group->has_weaning && calendar_days_between(group->weaning, day) >= 0;
}

static Reproduction reproduction_on(const HerdGroup *group, Day day, Day calving) {
    Reproduction state = {0.0, 0.0, false};
    if (!group->is_bred)
        return state;
    const int since = calendar_days_between(calving, day);
    if (since < 0) {
        state.days_pregnant = fmax(GESTATION_DAYS + since, 0);
        const bool has_calf = weans_last_calf(group) && !is_weaned_on(group, day) &&
                              !cattle_class_kind(group->cattle_class)->grows;
        state.days_in_milk = has_calf ? fmax(DAYS_BETWEEN_CALVES + since + 0.5, 0.0) : 0.0;
        return state;
    }
    state.has_calved = true;
    state.days_pregnant = fmax(since - DAYS_OPEN_AFTER_CALVING, 0);
    const bool is_weaned = is_weaned_on(group, day) && !weans_last_calf(group);
    state.days_in_milk = is_weaned ? 0.0 : since + 0.5;
    return state;
}

/* Live weight and condition on a day, without the calf inside. */
typedef struct {
    Mass live, shrunk, equivalent;
    double condition, condition_energy; /* the second diet NEm a day */
    FeedRate gain, shrunk_gain;         /* of live weight; of shrunk weight */
} Body;

static double condition_on(const HerdGroup *group, Day first_day, Day day, double *rate) {
    const int span = calendar_days_between(first_day, group->target_date);
    *rate = 0.0;
    if (!group->has_target || span <= 0)
        return group->condition;
    const int passed = calendar_days_between(first_day, day);
    if (passed >= span)
        return group->target_condition;
    *rate = 1.0 / span;
    return group->condition + (group->target_condition - group->condition) * passed / span;
}

static Body body_on(const HerdGroup *group, Day first_day, Day day) {
    Body body = {.live = group->weight};
    double rate;
    body.condition = condition_on(group, first_day, day, &rate);
    const CattleClassKind *kind = cattle_class_kind(group->cattle_class);
    if (kind->grows) {
        const int passed = calendar_days_between(first_day, day);
        int growing_days = passed;
        body.gain = group->gain;
        if (group->is_bred && calendar_days_between(group->calving_start, day) >= 0) {
            growing_days = calendar_days_between(first_day, group->calving_start);
            body.gain.kg_per_day = (SHARE_AT_SECOND_CALVING - SHARE_AT_FIRST_CALVING) *
                                   group->mature_weight.kg / 365;
        }
        body.shrunk_gain = shrunk_gain_of(body.gain);
        body.live.kg += group->gain.kg_per_day * fmax(growing_days, 0);
        body.shrunk = shrunk_weight(body.live);
        body.equivalent = equivalent_weight(body.shrunk, shrunk_weight(group->mature_weight));
        body.condition = group->condition;
        return body;
    }
    body.live = weight_at_condition(group->weight, group->condition, body.condition);
    body.shrunk = shrunk_weight(body.live);
    if (rate > 0.0)
        body.condition_energy = rate * condition_change_energy(group->weight, group->condition,
                                                               group->target_condition)
                                           .mcal;
    return body;
}

/* A cow that milks and carries the next calf is in both stages: what harms either is kept from
 * her. */
static StageSet stage_of(const HerdGroup *group, const Body *body, Reproduction state) {
    if (group->cattle_class == CATTLE_BULL)
        return STAGE_BIT(STAGE_BULL);
    if (cattle_class_kind(group->cattle_class)->grows && !group->is_bred)
        return STAGE_BIT(body->live.kg < CALF_MOST_WEIGHT_KG ? STAGE_CALF : STAGE_GROWING);
    StageSet stages = state.days_in_milk > 0.0 ? STAGE_BIT(STAGE_NURSING) : 0u;
    if (state.days_pregnant >= GESTATION_DAYS - LATE_PREGNANCY_DAYS)
        stages |= STAGE_BIT(STAGE_LATE);
    else if (state.days_pregnant > 0.0)
        stages |= STAGE_BIT(STAGE_DRY);
    if (state.days_pregnant >= GESTATION_DAYS - CLOSE_TO_CALVING_DAYS)
        stages |= STAGE_BIT(STAGE_CLOSE);
    return stages ? stages : STAGE_BIT(STAGE_OPEN);
}

typedef struct {
    IntakeLaw most, least;
    double ndf_share;
    AnimalState animal;
} Eating;

static Eating eating_of(const HerdGroup *group, const Body *body, Reproduction state,
                        FeedRate milk) {
    if (cattle_class_kind(group->cattle_class)->grows && !group->is_bred) {
        const bool is_calf = body->shrunk.kg < YEARLING_INTAKE_WEIGHT_KG;
        const IntakeForm form = is_calf ? INTAKE_CALF : INTAKE_YEARLING;
        const double fatness = fatness_intake_factor(body->equivalent);
        return (Eating){intake_law(form, milk, fatness),
                        intake_law(form, milk, fatness * SATIETY_SHARE), NDF_CAPACITY_GROWING,
                        ANIMAL_GROWING};
    }
    if (state.days_in_milk > 0.0) {
        return (Eating){intake_law(INTAKE_NURSING_COW, milk, INTAKE_CORRECTION_NURSING),
                        intake_law(INTAKE_NURSING_COW, milk, SATIETY_SHARE),
                        NDF_CAPACITY_NURSING, ANIMAL_NURSING};
    }
    const bool is_late = state.days_pregnant > GESTATION_DAYS / 3.0;
    const IntakeForm form = is_late ? INTAKE_PREGNANT_COW : INTAKE_OPEN_COW;
    return (Eating){intake_law(form, milk, INTAKE_CORRECTION_DRY),
                    intake_law(form, milk, SATIETY_SHARE), NDF_CAPACITY_DRY, ANIMAL_PREGNANT};
}

/* Bulls are kept like dry cows, but the vitamin table has them beside the nursing ones
 * [MSD_VITAMINS]. */
static double mineral_least_of(const HerdGroup *group, const MineralNeeds *minerals,
                               int nutrient, AnimalState animal) {
    const bool is_bulls_vitamin =
        group->cattle_class == CATTLE_BULL && nutrient == NUTRIENT_VITAMIN_A;
    return minerals->least[nutrient][is_bulls_vitamin ? ANIMAL_NURSING : animal];
}

/* One cow on one day of the period, and how much of the mean she is. */
typedef struct {
    const HerdGroup *group;
    const Body *body;
    const MonthWeather *month;
    ColdWay cold_way;
    const MineralNeeds *minerals;
    Reproduction state;
    FeedRate milk;
    EnergyRate retained;
    double weight;
} CowDay;

static bool is_growing(const CowDay *cow) { return cow->body->gain.kg_per_day > 0.0; }

/* Walking for feed on bales and swaths, inside the 5 to 10 % that are told for it, and wading
 * through mud, half of the 30 % it may add at most [ISU_MUD]: shares of upkeep. Own choice. */
#define GRAZING_SHARE 0.07
#define MUD_WALK_SHARE 0.15

static double activity_share(const CowDay *cow) {
    const double grazing = cow->group->grazing == GRAZING_NONE ? 0.0 : GRAZING_SHARE;
    return grazing + MUD_WALK_SHARE * cow->month->muddy_share;
}

/* Young cattle that come from poor feed burn less at rest; cows are left at 1, because their
 * condition is reckoned by its energy. A score left empty is 5, which is 1 too. */
static double compensation_of(const CowDay *cow) {
    const bool grows = cattle_class_kind(cow->group->cattle_class)->grows;
    return grows && !cow->group->is_bred ? compensation_factor(cow->group->condition) : 1.0;
}

static void add_cold(Requirement *mean, const CowDay *cow, const ColdAnimal *animal) {
    const ColdNeed cold = cold_need(cow->cold_way, animal, cow->month->mean, cow->month);
    const ColdNeed spell = cold_need(cow->cold_way, animal, cow->month->cold_spell, cow->month);
    const double weight = cow->weight;
    mean->energy.cold += weight * cold.added;
    mean->cold_share += weight * cold.added / animal->need.mcal_per_day;
    mean->cold_spell_energy += weight * (spell.added - cold.added);
    mean->air.celsius += weight * cow->month->mean.celsius;
    mean->felt.celsius += weight * cold.felt;
    mean->critical.celsius += weight * cold.critical;
}

static void add_energy(Requirement *mean, const CowDay *cow) {
    const MaintenanceFactors factors = {
        .breed = cow->group->breed_factor,
        .sex = cattle_class_kind(cow->group->cattle_class)->sex_factor,
        .lactation = cow->state.days_in_milk > 0.0 ? 1.2 : 1.0,
        .compensation = compensation_of(cow),
    };
    const double maintenance = maintenance_energy(cow->body->shrunk, factors).mcal_per_day;
    const double activity = maintenance * activity_share(cow);
    const EnergyRate pregnancy =
        pregnancy_energy(cow->group->calf_birth_weight, cow->state.days_pregnant);
    const EnergyRate lactation = lactation_energy(cow->milk, MILK_OF_BEEF_COW);
    const ColdAnimal animal = {
        .group = cow->group,
        .shrunk = cow->body->shrunk,
        .condition = cow->body->condition,
        .need = {maintenance + activity + pregnancy.mcal_per_day + lactation.mcal_per_day},
        .gain = cow->retained,
        .milk = lactation,
        .pregnancy = pregnancy,
    };
    add_cold(mean, cow, &animal);
    const double weight = cow->weight;
    mean->energy.maintenance += weight * maintenance;
    mean->energy.activity += weight * activity;
    mean->energy.pregnancy += weight * pregnancy.mcal_per_day;
    mean->energy.milk += weight * lactation.mcal_per_day;
    mean->energy.condition += weight * cow->body->condition_energy;
    mean->retained.mcal_per_day += weight * cow->retained.mcal_per_day;
}

static void add_protein(Requirement *mean, const CowDay *cow) {
    const double weight = cow->weight;
    const Body *body = cow->body;
    mean->protein.maintenance += weight * maintenance_protein(body->shrunk).g_per_day;
    mean->protein.pregnancy +=
        weight *
        pregnancy_protein(cow->group->calf_birth_weight, cow->state.days_pregnant).g_per_day;
    mean->protein.milk += weight * lactation_protein(cow->milk, MILK_OF_BEEF_COW).g_per_day;
    if (is_growing(cow))
        mean->protein.gain +=
            weight * gain_protein(body->equivalent, cow->retained, body->shrunk_gain).g_per_day;
}

static void add_minerals(Requirement *mean, const CowDay *cow, AnimalState animal) {
    const MineralState mineral = {
        .shrunk = cow->body->shrunk,
        .protein_gain = is_growing(cow) ? protein_in_gain(cow->retained, cow->body->shrunk_gain)
                                        : (GramRate){0.0},
        .milk = cow->milk,
        .calf_birth_weight = cow->group->calf_birth_weight,
        .days_pregnant = cow->state.days_pregnant,
    };
    mean->calcium.g_per_day += cow->weight * calcium_requirement(&mineral).g_per_day;
    mean->phosphorus.g_per_day += cow->weight * phosphorus_requirement(&mineral).g_per_day;
    for (int i = 0; i < NUTRIENT_COUNT; i++)
        mean->mineral_least[i] +=
            cow->weight * mineral_least_of(cow->group, cow->minerals, i, animal);
}

/* In mud of 10 to 20 cm cattle eat 0.85 of what they would [NRC_EQUATIONS_2000 ch.7]; 8 to 15 %
 * less by [SDSU_MUD]. Of the days with mud; they are full on that much less too. */
#define MUD_INTAKE 0.85

static void add_eating(Requirement *mean, const CowDay *cow, const Eating *eating) {
    const double mud = 1.0 - (1.0 - MUD_INTAKE) * cow->month->muddy_share;
    mean->most = intake_law_add(mean->most, eating->most, cow->weight * mud);
    mean->least = intake_law_add(mean->least, eating->least, cow->weight * mud);
    mean->ndf_most_kg += cow->weight * eating->ndf_share * cow->body->live.kg;
}

/* Last third of pregnancy, when the table asks for more. Own choice. */
#define LATE_FOR_TABLE_DAYS (2.0 * GESTATION_DAYS / 3.0)

/* TABLE_ROW_COUNT: no line is printed for such cattle. */
static TableRow table_row_of(CattleClass cattle_class, Reproduction state) {
    switch (cattle_class) {
    case CATTLE_COW:
    case CATTLE_BRED_HEIFER:
        if (state.days_in_milk > 0.0)
            return TABLE_NURSING;
        return state.days_pregnant > LATE_FOR_TABLE_DAYS ? TABLE_LATE_PREGNANCY
                                                         : TABLE_MID_PREGNANCY;
    case CATTLE_REPLACEMENT_HEIFER:
        return TABLE_REPLACEMENT_HEIFER;
    case CATTLE_BULL_CALF:
        return TABLE_YEARLING_BULL;
    case CATTLE_STEER:
    case CATTLE_FEEDER_HEIFER:
    case CATTLE_BULL:
    case CATTLE_CLASS_COUNT:
        break;
    }
    return TABLE_ROW_COUNT;
}

bool requirement_has_table_row(CattleClass cattle_class) {
    return table_row_of(cattle_class, (Reproduction){0}) != TABLE_ROW_COUNT;
}

/* `least` is the published law times the share that stills hunger. */
static void add_table_row(Requirement *mean, const CowDay *cow, const Eating *eating) {
    const TableRow row = table_row_of(cow->group->cattle_class, cow->state);
    if (row == TABLE_ROW_COUNT)
        return;
    mean->table_row_share[row] += cow->weight;
    mean->table_row_law[row] =
        intake_law_add(mean->table_row_law[row], eating->least, cow->weight / SATIETY_SHARE);
}

static WaterClass water_class_of(const CowDay *cow) {
    if (cow->group->cattle_class == CATTLE_BULL)
        return WATER_BULL;
    if (cattle_class_kind(cow->group->cattle_class)->grows && !cow->group->is_bred)
        return WATER_GROWING;
    return cow->state.days_in_milk > 0.0 ? WATER_NURSING_COW : WATER_DRY_COW;
}

static void add_body(Requirement *mean, const CowDay *cow) {
    const double weight = cow->weight;
    const Reproduction *state = &cow->state;
    mean->milk.kg_per_day += weight * cow->milk.kg_per_day;
    mean->gain.kg_per_day += weight * cow->body->gain.kg_per_day;
    mean->calved_share += state->has_calved ? weight : 0.0;
    mean->days_pregnant += state->has_calved ? 0.0 : weight * state->days_pregnant;
    mean->live_weight.kg += weight * cow->body->live.kg;
    mean->shrunk.kg += weight * cow->body->shrunk.kg;
    mean->equivalent.kg += weight * cow->body->equivalent.kg;
    mean->condition += weight * cow->body->condition;
    mean->water_l +=
        weight * water_need_l(water_class_of(cow), cow->body->live, cow->month->mean);
    mean->stages |= stage_of(cow->group, cow->body, *state);
}

/* Adds one cow-day to the mean. */
static void add_cow(Requirement *mean, const CowDay *cow) {
    const Eating eating = eating_of(cow->group, cow->body, cow->state, cow->milk);
    add_energy(mean, cow);
    add_protein(mean, cow);
    add_minerals(mean, cow, eating.animal);
    add_eating(mean, cow, &eating);
    add_table_row(mean, cow, &eating);
    add_body(mean, cow);
}

Requirement requirement_of(const HerdGroup *group, const Weather *weather,
                           const MineralNeeds *minerals, Day first_day, Day from, Day to) {
    Requirement mean;
    memset(&mean, 0, sizeof mean);
    const int days = calendar_days_between(from, to) + 1;
    assert(days > 0);
    const int window = group->is_bred
                           ? calendar_days_between(group->calving_start, group->calving_end) + 1
                           : 1;
    const double weight = 1.0 / ((double)days * window);
    for (int d = 0; d < days; d++) {
        const Day day = calendar_add(from, d);
        const Body body = body_on(group, first_day, day);
        for (int c = 0; c < window; c++) {
            const Day calving =
                group->is_bred ? calendar_add(group->calving_start, c) : group->calving_start;
            CowDay cow = {.group = group,
                          .body = &body,
                          .month = &weather->month[calendar_month(day)],
                          .cold_way = weather->cold_way,
                          .minerals = minerals,
                          .state = reproduction_on(group, day, calving),
                          .weight = weight};
            cow.milk = milk_yield(group->peak_milk, cow.state.days_in_milk);
            if (is_growing(&cow))
                cow.retained = retained_energy(body.equivalent, body.shrunk_gain);
            add_cow(&mean, &cow);
        }
    }
    const double uncalved = 1.0 - mean.calved_share;
    mean.days_pregnant = uncalved > 1e-9 ? mean.days_pregnant / uncalved : 0.0;
    return mean;
}

EnergyRate requirement_nem(const Requirement *requirement) {
    const EnergyParts *parts = &requirement->energy;
    return (EnergyRate){fmax(parts->maintenance + parts->cold + parts->pregnancy + parts->milk +
                                 parts->condition + parts->activity + parts->table + parts->own,
                             0.0)};
}

GramRate requirement_protein(const Requirement *requirement) {
    const ProteinParts *parts = &requirement->protein;
    return (GramRate){parts->maintenance + parts->pregnancy + parts->milk + parts->gain +
                      parts->table + parts->own};
}
