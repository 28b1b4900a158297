/* The parts of farm_maker.c that draw feeds. */
#ifndef SUPPORT_FARM_FEEDS_H
#define SUPPORT_FARM_FEEDS_H

#include "support/farm_maker.h"
#include <math.h>

#define NOTHING ((double)NAN)

static inline const char *one_of(Draws *draws, const char *const *choices, int count) {
    return choices[draw_whole(draws, 0, count - 1)];
}

/* kg of dry matter the herd eats, near enough to size stacks by. */
double herd_eats(const FarmDraft *draft);

/* even_kg: an even share, of dry matter, of what all stacks are to hold. */
void draft_stack(Arena *arena, Draws *draws, FarmDraft *draft, int number, double even_kg,
                 bool is_generous);
void draft_offer(Arena *arena, Draws *draws, FarmDraft *draft, int number, bool is_generous);

#endif
