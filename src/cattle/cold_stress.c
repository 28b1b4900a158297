#include "cattle/cold_stress.h"

#include <assert.h>

#define AIR_COLUMNS 8
#define WIND_ROWS 6
#define WET_SHARE_PER_F 0.02
#define DRY_SHARE_PER_F 0.01
#define BODY_CELSIUS 39.0
#define SHARE_LOST_DRY 0.85 /* of heat made, the rest leaves with breath and skin moisture */

/* What cattle feel, degrees F, by air temperature and wind. Row 0 is calm air, which feels as
 * it is. [UNL_COLD]; the 5 mph row is [SDSU_COLD], which prints -10, 0, 10, 20, 30 F: -5 and 5
 * F lie on the straight line between, 40 F on the one through 20 and 30 F. The 40 mph row is
 * left out: it jumps 32 degrees in one step. */
static const double AIR_F[AIR_COLUMNS] = {-10, -5, 0, 5, 10, 20, 30, 40};
static const double WIND_MPH[WIND_ROWS] = {0, 5, 10, 15, 20, 30};
static const double FELT_F[WIND_ROWS][AIR_COLUMNS] = {
    {-10, -5, 0, 5, 10, 20, 30, 40},       /* calm */
    {-16, -11, -6, -1.5, 3, 13, 23, 33},   /* 5 mph */
    {-21, -16, -11, -6, -1, 8, 18, 28},    /* 10 */
    {-25, -20, -15, -10, -5, 4, 14, 24},   /* 15 */
    {-30, -25, -20, -15, -10, 0, 9, 19},   /* 20 */
    {-46, -41, -36, -31, -26, -16, -6, 3}, /* 30 */
};

typedef enum { FLESH_THIN, FLESH_AVERAGE, FLESH_FULL, FLESH_COUNT } Flesh;

/* Lower critical temperature, degrees F. [UNL_COLD]. */
static const double CRITICAL_F[COAT_COUNT][2][FLESH_COUNT] = {
    [COAT_SUMMER] = {{67, 59, 51}, {69, 61, 53}}, /* dry thin, average, fleshy; wet the same */
    [COAT_FALL] = {{53, 45, 37}, {66, 58, 50}},
    [COAT_WINTER] = {{40, 32, 24}, {63, 55, 47}},
    [COAT_HEAVY] = {{27, 19, 11}, {61, 53, 45}},
};

/* The first of the two neighbours between which x lies; the outermost pair beyond the ends. */
static int lower_neighbour(const double *marks, int count, double x) {
    int lower = 0;
    while (lower < count - 2 && x >= marks[lower + 1]) {
        lower++;
    }
    return lower;
}

static double felt_in_row(int row, double air_f) {
    const int low = lower_neighbour(AIR_F, AIR_COLUMNS, air_f);
    const double share = (air_f - AIR_F[low]) / (AIR_F[low + 1] - AIR_F[low]);
    return FELT_F[row][low] + share * (FELT_F[row][low + 1] - FELT_F[row][low]);
}

/* Bilinear in the table above; edge slopes go on outside -10 to 40 F; wind is at most 30 mph.
 */
Temperature wind_chill(Temperature air, Speed wind) {
    assert(wind.km_per_hour >= 0.0);
    const double air_f = fahrenheit_from_celsius(air.celsius);
    const double mph = fmin(wind.km_per_hour / KM_PER_MILE, WIND_MPH[WIND_ROWS - 1]);
    const int low = lower_neighbour(WIND_MPH, WIND_ROWS, mph);
    const double share = (mph - WIND_MPH[low]) / (WIND_MPH[low + 1] - WIND_MPH[low]);
    const double calmer = felt_in_row(low, air_f);
    const double windier = felt_in_row(low + 1, air_f);
    return (Temperature){celsius_from_fahrenheit(calmer + share * (windier - calmer))};
}

static Flesh flesh_of(double condition_score_9) {
    if (condition_score_9 < 5.0) {
        return FLESH_THIN;
    }
    return condition_score_9 < 7.0 ? FLESH_AVERAGE : FLESH_FULL;
}

Temperature lower_critical_temperature(Coat coat, bool is_wet, double condition_score_9) {
    assert(coat >= COAT_SUMMER && coat < COAT_COUNT);
    const double critical_f = CRITICAL_F[coat][is_wet ? 1 : 0][flesh_of(condition_score_9)];
    return (Temperature){celsius_from_fahrenheit(critical_f)};
}

/* Share added to the energy need.
 *
 *     k (LCT - Teff)      k = 0.01 per degree F dry, 0.02 wet; 0 above the LCT
 *
 * Energy only. [UNL_COLD], [NDSU_COLD], [SDSU_COLD]. */
double cold_extra_share(Temperature effective, Temperature critical, bool is_wet) {
    const double degrees_f = (critical.celsius - effective.celsius) / CELSIUS_PER_FAHRENHEIT;
    return fmax(degrees_f, 0.0) * (is_wet ? WET_SHARE_PER_F : DRY_SHARE_PER_F);
}

/* Insulation of the tissues.
 *
 *     yearling 5.1875 + 0.3125 CS;  adult 5.25 + 0.75 CS      degrees C per Mcal/m2/day
 *
 * CS 9-point score. [NRC_EQUATIONS_2000 ch.1]. */
double tissue_insulation(double condition_score_9, bool is_yearling) {
    assert(condition_score_9 >= 1.0 && condition_score_9 <= 9.0);
    return is_yearling ? 5.1875 + 0.3125 * condition_score_9 : 5.25 + 0.75 * condition_score_9;
}

/* Insulation of coat and air.
 *
 *     EI = (7.36 - 0.296 WIND + 2.55 HAIR) MUD HIDE      degrees C per Mcal/m2/day, never below
 * 0
 *
 * WIND km/h; HAIR depth, cm; MUD and HIDE without unit. What it is made of [NRC_2000 p.10],
 * the numbers [NRC_EQUATIONS_2000 ch.1]. */
double external_insulation(const ColdBody *body) {
    const double coat_and_air = 7.36 - 0.296 * body->wind.km_per_hour + 2.55 * body->hair_cm;
    return fmax(coat_and_air, 0.0) * body->mud * body->hide;
}

static double total_insulation(const ColdBody *body) {
    return tissue_insulation(body->condition_score_9, body->is_yearling) +
           external_insulation(body);
}

/* Body surface: SA = 0.09 SBW^0.67 m2, SBW kg. [NRC_EQUATIONS_2000 ch.10]. */
static double surface_m2(Mass shrunk) {
    assert(shrunk.kg > 0.0);
    return 0.09 * pow(shrunk.kg, 0.67);
}

/* Where the heat of feeding no longer covers the loss.
 *
 *     LCT = 39 - 0.85 IN HE,  HE = (MEI - RE) / SA,  IN = TI + EI      degrees C
 *
 * MEI metabolizable energy eaten, RE energy kept, Mcal/day; SA m2. [NRC_2000 p.10]
 * in words, 39 and 0.85 [NRC_EQUATIONS_2000 ch.1]. */
Temperature mechanistic_critical_temperature(const ColdBody *body) {
    const double kept = body->metabolizable_intake.mcal_per_day - body->retained.mcal_per_day;
    const double heat_per_m2 = fmax(kept, 0.0) / surface_m2(body->shrunk);
    return (Temperature){BODY_CELSIUS - total_insulation(body) * heat_per_m2 * SHARE_LOST_DRY};
}

/* Metabolizable energy burnt only to keep warm.
 *
 *     ME = SA (LCT - EAT) / IN      Mcal/day below the LCT, else 0;  EAT air temperature, C
 *
 * [NRC_2000 p.10]. */
EnergyRate mechanistic_cold_energy(const ColdBody *body, Temperature air) {
    const double degrees = mechanistic_critical_temperature(body).celsius - air.celsius;
    return (EnergyRate){surface_m2(body->shrunk) * fmax(degrees, 0.0) / total_insulation(body)};
}
