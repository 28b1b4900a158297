/* Water a head takes in a day, as drunk and in its feed. docs/equations/water.md */
#ifndef CATTLE_WATER_NEED_H
#define CATTLE_WATER_NEED_H

#include "base/quantity.h"

typedef enum { WATER_NURSING_COW, WATER_DRY_COW, WATER_BULL, WATER_GROWING } WaterClass;

/* Litres. live_weight matters only to growing cattle. */
double water_need_l(WaterClass water_class, Mass live_weight, Temperature month_mean);

/* Litres that salt makes cattle drink besides: 5 US gallons for each pound, so 41.7 L for each
 * kilogram. [OKSTATE_SALT] */
double water_for_salt_l(Mass salt);

#endif
