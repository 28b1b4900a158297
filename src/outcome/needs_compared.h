/* The equations and the published table side by side, whichever of them is followed. */
#ifndef OUTCOME_NEEDS_COMPARED_H
#define OUTCOME_NEEDS_COMPARED_H

#include "outcome/measure.h"
#include "planner/plan_question.h"

/* A row a period, of the blocks from `first` on; nothing for cattle the table has no line for.
 */
void needs_compared_table(Report *report, const PlanQuestion *question, Units units, int first,
                          int count);

void needs_compared_figures(Figure *period, const PlanBlock *block);

#endif
