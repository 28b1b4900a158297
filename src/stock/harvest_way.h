/* Ways of putting up a standing crop, and what each loses before it is up
 * (models/coefficients/harvest-ways.csv). */
#ifndef STOCK_HARVEST_WAY_H
#define STOCK_HARVEST_WAY_H

#include "stock/stack.h"

typedef struct {
    const char *name;
    StackKind kind;          /* what it is put up as */
    double dry_share;        /* dry matter of what is put up */
    double field_loss_share; /* of the dry matter that stands, without rain */
    double rain_chance;      /* 0 to 1 */
    double rain_loss_share;  /* of the dry matter, where it rains */
    double rain_tdn_loss;    /* units of TDN, where it rains */
} HarvestWay;

typedef struct {
    const HarvestWay *ways;
    const char *const *names;
    int count;
} HarvestWays;

/* NULL when faults were added. */
const HarvestWays *harvest_ways_parse(Arena *arena, Faults *faults, const char *bytes,
                                      size_t length);

#endif
