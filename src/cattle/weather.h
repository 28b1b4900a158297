/* The weather of each month: weather.csv over published normals (models/coefficients/
 * climate-normals.csv). */
#ifndef CATTLE_WEATHER_H
#define CATTLE_WEATHER_H

#include "base/quantity.h"
#include "base/sheet.h"
#include "base/source.h"
#include "cattle/cold_stress.h"

typedef struct {
    Temperature mean, cold_spell;
    Speed wind;           /* at the weather station */
    double wet_share;     /* of the days; wet coats lose their warmth */
    double muddy_share;   /* of the days on which cattle wade through mud */
    bool is_users;        /* from weather.csv, at least in part */
    double mean_spread_c; /* standard deviation of the mean from year to year */
    double persistence;   /* correlation of its departure with the month's before */
    bool spread_is_users, persistence_is_users;
} MonthWeather;

typedef struct {
    MonthWeather month[13]; /* by calendar month, 1 to 12 */
    bool is_known[13];
    const char *normals_station; /* "" when no month was taken from the normals */
    SourceKey normals_source;
    double turnout_spread_days; /* standard deviation of the last feeding day */
    ColdWay cold_way;           /* what its cold is reckoned by; the winter's setting */
} Weather;

/* bytes NULL: the normals alone. Normals are of one station, DEFAULT_STATION. */
Weather weather_parse(Arena *arena, Faults *faults, const char *normals_bytes,
                      size_t normals_length, const char *file, const char *bytes,
                      size_t length);

/* One fault that names the months between the days that neither knows. */
void weather_check(Faults *faults, const char *file, const Weather *weather, Day first_day,
                   Day last_day);

#define DEFAULT_STATION "Regina"

#endif
