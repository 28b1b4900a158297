/* Cold and water as the cases call them, in the degrees, miles and gallons the publications
 * print. */
#include "published/published.h"

#include "cattle/cold_stress.h"
#include "cattle/water_need.h"

#include <stddef.h>

#define LITRES_PER_US_GALLON 3.785411784

static Temperature fahrenheit(double value) {
    return (Temperature){celsius_from_fahrenheit(value)};
}

static double call_celsius(const double *in) { return celsius_from_fahrenheit(in[0]); }
static double call_fahrenheit(const double *in) { return fahrenheit_from_celsius(in[0]); }

/* Cold */

static double call_wind_chill_f(const double *in) {
    const Speed wind = {in[1] * KM_PER_MILE};
    return fahrenheit_from_celsius(wind_chill(fahrenheit(in[0]), wind).celsius);
}
/* coat 0 summer to 3 heavy winter, wet 0 or 1, score */
static double call_critical_f(const double *in) {
    const Temperature critical =
        lower_critical_temperature((Coat)(int)in[0], in[1] > 0.0, in[2]);
    return fahrenheit_from_celsius(critical.celsius);
}
/* effective F, critical F, wet 0 or 1 */
static double call_cold_extra_pct(const double *in) {
    return 100.0 * cold_extra_share(fahrenheit(in[0]), fahrenheit(in[1]), in[2] > 0.0);
}
/* amount a day, then as above */
static double call_amount_in_cold(const double *in) {
    return in[0] * (1.0 + call_cold_extra_pct(in + 1) / 100.0);
}
static double call_tissue_insulation(const double *in) {
    return tissue_insulation(in[0], in[1] > 0.0);
}
/* The body of a case: shrunk kg, ME eaten, energy kept, score, hair cm, wind km/h, mud. */
static ColdBody cold_body(const double *in) {
    return (ColdBody){.shrunk = {in[0]},
                      .metabolizable_intake = {in[1]},
                      .retained = {in[2]},
                      .condition_score_9 = in[3],
                      .hair_cm = in[4],
                      .wind = {in[5]},
                      .mud = in[6],
                      .hide = 1.0,
                      .is_yearling = false};
}
static double call_external_insulation(const double *in) {
    const double cow[] = {566.0, 20.83, 2.0, 5.0, in[0], in[1], in[2]};
    const ColdBody body = cold_body(cow);
    return external_insulation(&body);
}
static double call_mechanistic_critical_c(const double *in) {
    const ColdBody body = cold_body(in);
    return mechanistic_critical_temperature(&body).celsius;
}
static double call_mechanistic_cold_energy(const double *in) {
    const ColdBody body = cold_body(in);
    return mechanistic_cold_energy(&body, (Temperature){in[7]}).mcal_per_day;
}

/* score, hair cm, wind km/h, mud: tissue and coat together */
static double call_total_insulation(const double *in) {
    return tissue_insulation(in[0], false) + call_external_insulation(in + 1);
}
/* What it takes of the metabolizable energy eaten, %. */
static double call_mechanistic_cold_pct(const double *in) {
    return 100.0 * call_mechanistic_cold_energy(in) / in[1];
}

/* Water: 0 nursing cow, 1 dry cow, 2 bull, 3 growing; live lb; mean of the month, F */

static double call_water_gallons(const double *in) {
    const Mass live = {in[1] * KG_PER_POUND};
    return water_need_l((WaterClass)(int)in[0], live, fahrenheit(in[2])) / LITRES_PER_US_GALLON;
}

/* Salt, lb a day; US gallons */
static double call_salt_water_gallons(const double *in) {
    return water_for_salt_l((Mass){in[0] * KG_PER_POUND}) / LITRES_PER_US_GALLON;
}

const PublishedFunction WEATHER_FUNCTIONS[] = {
    {"celsius", 1, call_celsius},                                 /* F -> C */
    {"fahrenheit", 1, call_fahrenheit},                           /* C -> F */
    {"wind_chill_f", 2, call_wind_chill_f},                       /* F */
    {"critical_f", 3, call_critical_f},                           /* F */
    {"cold_extra_pct", 3, call_cold_extra_pct},                   /* % */
    {"amount_in_cold", 4, call_amount_in_cold},                   /* any amount a day */
    {"tissue_insulation", 2, call_tissue_insulation},             /* C m2 d/Mcal */
    {"external_insulation", 3, call_external_insulation},         /* C m2 d/Mcal */
    {"total_insulation", 4, call_total_insulation},               /* C m2 d/Mcal */
    {"mechanistic_critical_c", 7, call_mechanistic_critical_c},   /* C */
    {"mechanistic_cold_energy", 8, call_mechanistic_cold_energy}, /* Mcal ME/day */
    {"mechanistic_cold_pct", 8, call_mechanistic_cold_pct},       /* % of ME eaten */
    {"water_gallons", 3, call_water_gallons},                     /* US gallons/day */
    {"salt_water_gallons", 1, call_salt_water_gallons},           /* lb/day -> US gallons/day */
    {NULL, 0, NULL},
};
