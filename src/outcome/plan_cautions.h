/* The cautions of a plan: feeds kept out, figures beyond a caution line, things not known. */
#ifndef OUTCOME_PLAN_CAUTIONS_H
#define OUTCOME_PLAN_CAUTIONS_H

#include "outcome/plan_findings.h"

/* Most serious first. */
int plan_cautions(Arena *arena, const WinterPlan *plan, Units units, const Caution **cautions);

#endif
