/* Invented cattle in invented weather, for the laws that must hold for any animal. Same seed,
 * same animal on every machine. */
#ifndef SUPPORT_ANIMAL_MAKER_H
#define SUPPORT_ANIMAL_MAKER_H

#include "cattle/requirement.h"
#include "support/farm_maker.h"

typedef struct {
    Draws draws; /* for what the law changes */
    HerdGroup group;
    Weather weather;
    Day from; /* the first feeding day */
    int days;
} Animal;

/* Of any class, weight, score, coat and shelter; in milk, in calf or gaining as the class is.
 */
Animal animal_made(int seed);

/* Calving within the year, or a breeding that did not take; milk and birth weight. */
void animal_calving_drawn(Draws *draws, HerdGroup *group, Day first_day);

#endif
