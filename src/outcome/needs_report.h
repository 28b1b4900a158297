/* What each group needs in each period, and why. */
#ifndef OUTCOME_NEEDS_REPORT_H
#define OUTCOME_NEEDS_REPORT_H

#include "outcome/measure.h"
#include "planner/plan_question.h"

Report *needs_report(Arena *arena, const PlanQuestion *question, Units units);

#endif
