/* The part of farm_maker.c that draws the ways needs are reckoned by and own figures for them,
 * from a stream of its own. */
#ifndef SUPPORT_FARM_OPTIONS_H
#define SUPPORT_FARM_OPTIONS_H

#include "support/farm_maker.h"

/* Of a farm that is drafted but for these. */
void draft_options(Arena *arena, unsigned long long seed, FarmDraft *draft);

#endif
