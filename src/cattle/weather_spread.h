/* How winters differ from one year to the next: the published spread of monthly means
 * (models/coefficients/climate-spread.csv) where weather.csv gives none.
 * docs/equations/hard-winters.md */
#ifndef CATTLE_WEATHER_SPREAD_H
#define CATTLE_WEATHER_SPREAD_H

#include "cattle/weather.h"

/* Fills in what weather_parse left open. Months the table does not have keep
 * UNKNOWN_MEAN_SPREAD. */
void weather_spread_read(Arena *arena, Faults *faults, const char *bytes, size_t length,
                         Weather *weather);

#define UNKNOWN_MEAN_SPREAD_C 2.0    /* a summer month; own choice beside May's 2.1 */
#define UNKNOWN_MEAN_PERSISTENCE 0.3 /* as in the table */

#endif
