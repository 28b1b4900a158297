/* What to buy: a row a feed, and by which day. */
#ifndef OUTCOME_PLAN_PURCHASES_H
#define OUTCOME_PLAN_PURCHASES_H

#include "outcome/plan_findings.h"

bool plan_buys_anything(const WinterPlan *plan);
void plan_purchases_table(Report *report, const PlanFindings *findings);

#endif
