/* What a page of needs says beside its table: the least and most of minerals in the diet, what
 * would change the needs, and how heavy heifers come to be. */
#ifndef OUTCOME_NEEDS_EXPLAINED_H
#define OUTCOME_NEEDS_EXPLAINED_H

#include "outcome/measure.h"
#include "outcome/report.h"
#include "planner/plan_question.h"

/* The limit that holds least of it in the whole diet of a block; NULL when none does. */
const SafetyLimit *needs_most_of(const PlanQuestion *question, int block, Nutrient nutrient);

/* Of the group whose blocks are `first` to `first + count - 1`; figures of the group. */
void needs_explained_add(Report *report, Figure *figures, const PlanQuestion *question,
                         Units units, int first, int count);

#endif
