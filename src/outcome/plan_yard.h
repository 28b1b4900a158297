/* What a plan has to say of the yard's rules: for its report, its cautions and its figures. */
#ifndef OUTCOME_PLAN_YARD_H
#define OUTCOME_PLAN_YARD_H

#include "outcome/plan_findings.h"
#include "planner/yard_rule.h"

bool yard_keeps_any(const WinterPlan *plan);
bool yard_keeps_whole_bales(const WinterPlan *plan);

/* "Asked for and not kept: whole bales a week", with why; "" where all are kept. */
const char *yard_not_kept_words(Arena *arena, const WinterPlan *plan);

/* "Herd bulls (from 1 Nov)": where bales are not whole though the rule is kept; "". */
const char *yard_not_whole_words(Arena *arena, const WinterPlan *plan);

/* Whole loads bought of a feed; NAN where it is not bought by the load. */
double yard_loads(const WinterPlan *plan, int feed);

#endif
