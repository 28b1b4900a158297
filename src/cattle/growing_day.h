/* What a growing animal needs a day at a weight and a gain, as tables of requirements are
 * printed: no cold, of a beef breed, steer or heifer. docs/equations/year-table.md */
#ifndef CATTLE_GROWING_DAY_H
#define CATTLE_GROWING_DAY_H

#include "base/quantity.h"

typedef struct {
    EnergyRate maintenance;                     /* NEm */
    EnergyRate gain;                            /* NEg */
    GramRate protein_maintenance, protein_gain; /* metabolizable */
    GramRate calcium, phosphorus;               /* upkeep and gain together */
} GrowingDay;

/* final_shrunk: of a steer at small marbling, of a heifer at maturity. */
GrowingDay growing_day(Mass shrunk, Mass final_shrunk, FeedRate shrunk_gain);

#endif
