/* The equations and the published table side by side, whichever of them is followed. */
#ifndef OUTCOME_NEEDS_COMPARED_H
#define OUTCOME_NEEDS_COMPARED_H

#include "outcome/measure.h"
#include "planner/plan_question.h"

/* Of the blocks of one group, from `first` on: a row a period, and in words which need is
 * furthest apart, and why where that is known. For cattle the table has no line for, that. */
void needs_compared_add(Report *report, const PlanQuestion *question, Units units, int first,
                        int count);

void needs_compared_figures(Figure *period, const PlanBlock *block);

#endif
