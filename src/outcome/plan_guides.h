/* Guides no ration is held to, as of vitamin E: how much of them minerals alone bring. What
 * fresh forage or sun brings is in no test. */
#ifndef OUTCOME_PLAN_GUIDES_H
#define OUTCOME_PLAN_GUIDES_H

#include "planner/winter_plan.h"

/* What the minerals of a ration bring, in the nutrient's unit of the whole ration's dry matter;
 * NAN when nothing is eaten. */
double plan_minerals_bring(const WinterPlan *plan, int block, Nutrient nutrient);

/* All guides, each with the least and the most share that minerals bring over all rations; ""
 * when there are none. */
const char *plan_guide_words(Arena *arena, const WinterPlan *plan, SourceKey *source);

#endif
