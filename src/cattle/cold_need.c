#include "cattle/cold_need.h"

static Speed wind_at(const HerdGroup *group, const MonthWeather *month) {
    return (Speed){month->wind.km_per_hour * shelter_wind_share(group->shelter)};
}

static ColdNeed by_table(const ColdAnimal *animal, Temperature air, const MonthWeather *month) {
    const Coat coat = animal->group->coat;
    const Temperature felt = wind_chill(air, wind_at(animal->group, month));
    const Temperature dry = lower_critical_temperature(coat, false, animal->condition);
    const Temperature wet = lower_critical_temperature(coat, true, animal->condition);
    const double share = (1.0 - month->wet_share) * cold_extra_share(felt, dry, false) +
                         month->wet_share * cold_extra_share(felt, wet, true);
    return (ColdNeed){share * animal->need.mcal_per_day, felt.celsius, dry.celsius};
}

/* Of a diet of 2.0 Mcal ME per kg: NEm / ME, printed [NRC_2000 p.43], and NEg / ME, 0.592 / 2.0
 * by the cubic of [GARRETT_1980]. That cattle are fed to their need without cold, with such a
 * diet, is taken for what they eat: own choice. */
#define MAINTENANCE_EFFICIENCY 0.576
#define GAIN_EFFICIENCY 0.296
#define CONCEPTUS_EFFICIENCY 0.13 /* of ME, [NRC_2000 p.43] */

/* Coats, cm, inside the ranges that the coat table prints (below 0.2 in, 0.3 to 0.6, 0.7 to
 * 1.0, above 1.0 in [UNL_COLD]). Own choice. */
static double hair_cm(Coat coat) {
    switch (coat) {
    case COAT_SUMMER:
        return 0.5;
    case COAT_FALL:
        return 1.0;
    case COAT_WINTER:
        return 2.0;
    case COAT_HEAVY:
        return 2.6;
    case COAT_COUNT:
        break;
    }
    return 2.0;
}

/* Dairy and Bos indicus hides are thin, 0.8; beef 1.0; crosses between [NRC_EQUATIONS_2000].
 * The breed's factor of maintenance tells which (1.20 and 0.90 for the pure ones). */
static double hide_of(double breed_factor) {
    const double thin_share =
        breed_factor > 1.0 ? (breed_factor - 1.0) / 0.20 : (1.0 - breed_factor) / 0.10;
    return 1.0 - 0.2 * thin_share;
}

#define MUD_CLEAN 1.0
#define MUD_SOME 0.8
#define MUD_WET 0.5

static ColdNeed by_model(const ColdAnimal *animal, Temperature air, const MonthWeather *month) {
    const CattleClassKind *kind = cattle_class_kind(animal->group->cattle_class);
    ColdBody body = {
        .shrunk = animal->shrunk,
        .metabolizable_intake = {animal->need.mcal_per_day / MAINTENANCE_EFFICIENCY +
                                 animal->gain.mcal_per_day / GAIN_EFFICIENCY},
        .retained = {animal->gain.mcal_per_day + animal->milk.mcal_per_day +
                     animal->pregnancy.mcal_per_day * CONCEPTUS_EFFICIENCY /
                         MAINTENANCE_EFFICIENCY},
        .condition_score_9 = animal->condition,
        .hair_cm = hair_cm(animal->group->coat),
        .wind = wind_at(animal->group, month),
        .hide = hide_of(animal->group->breed_factor),
        .is_yearling = kind->grows && !animal->group->is_bred,
    };
    const double wet = month->wet_share;
    const double muddy = fmin(month->muddy_share, 1.0 - wet);
    body.mud = MUD_WET;
    double burnt = wet * mechanistic_cold_energy(&body, air).mcal_per_day;
    body.mud = MUD_SOME;
    burnt += muddy * mechanistic_cold_energy(&body, air).mcal_per_day;
    body.mud = MUD_CLEAN;
    burnt += (1.0 - wet - muddy) * mechanistic_cold_energy(&body, air).mcal_per_day;
    return (ColdNeed){burnt * MAINTENANCE_EFFICIENCY, air.celsius,
                      mechanistic_critical_temperature(&body).celsius};
}

ColdNeed cold_need(ColdWay way, const ColdAnimal *animal, Temperature air,
                   const MonthWeather *month) {
    return way == COLD_BY_MODEL ? by_model(animal, air, month) : by_table(animal, air, month);
}
