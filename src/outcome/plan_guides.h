/* Guides no ration is held to, as of vitamin E: how much of them minerals alone bring. What
 * fresh forage or sun brings is in no test. */
#ifndef OUTCOME_PLAN_GUIDES_H
#define OUTCOME_PLAN_GUIDES_H

#include "planner/winter_plan.h"

/* What the minerals of a ration bring, in the nutrient's unit of the whole ration's dry matter;
 * NAN when nothing is eaten. */
double plan_minerals_bring(const WinterPlan *plan, int block, Nutrient nutrient);

/* The least and the most share of the guide over all rations; false when there is none. */
bool plan_guide_share(const WinterPlan *plan, Nutrient nutrient, double *least, double *most);

#endif
