/* What to buy: a row a feed, and by which day. */
#ifndef OUTCOME_PLAN_PURCHASES_H
#define OUTCOME_PLAN_PURCHASES_H

#include "outcome/plan_findings.h"

/* kg as fed of what is bought that is fed after the last day it can be hauled in. */
double bought_for_after_hauling_kg(const WinterPlan *plan, int feed);

/* By when all of a feed has to be there that is fed on after that day, and which feeds can be
 * hauled in no more; "" where there is none. Text in the arena. */
const char *hauling_words(Arena *arena, const PlanFindings *findings);

bool plan_buys_anything(const WinterPlan *plan);
void plan_purchases_table(Report *report, const PlanFindings *findings);

#endif
