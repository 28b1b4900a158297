/* The figures of the farm's own that stand for a group's needs, in words. */
#ifndef OUTCOME_OWN_NEED_WORDS_H
#define OUTCOME_OWN_NEED_WORDS_H

#include "outcome/measure.h"
#include "planner/winter_plan.h"

/* "metabolizable protein 700 g from 1 January to 28 February; calcium 30 g"; "" when the group
 * has none. */
const char *own_need_words(Arena *arena, const Farm *farm, Units units, int group);

/* A sentence after a blank where an own figure of the energy of gain makes another gain than
 * the herd file asks for; else "". */
const char *own_gain_words(Arena *arena, const WinterPlan *plan, Units units, int group);

#endif
