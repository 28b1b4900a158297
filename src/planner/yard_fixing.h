/* Whole numbers of the yard over the whole program: a few at a time are fixed and what is left
 * is solved from the last basis; where a batch of them cannot be, each half of it is tried,
 * down to one. Quick, and not proved to be near the least. */
#ifndef PLANNER_YARD_FIXING_H
#define PLANNER_YARD_FIXING_H

#include "planner/yard_search.h"

/* As yard_search, from the basis of the base. `known`, [block_count * feed_count], is which
 * feeds are in which ration by a choice that is to be bettered, or NULL. false: nothing was
 * found. */
bool yard_fix(Arena *arena, const YardProgram *yard, const LpBasis *start,
              const YardRules *rules, const double *target, const bool *known,
              YardChoice *choice);

#endif
