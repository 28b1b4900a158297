#include "planner/caution_cost.h"
#include "planner/plan_outcome.h"
#include "planner/yard_plan.h"
#include <math.h>

double caution_cost(const WinterPlan *ruled) {
    const WinterPlan *plan = ruled->yard ? ruled->yard->without : ruled;
    if (plan->verdict != PLAN_BALANCED)
        return (double)NAN;
    if (plan->question->farm->winter.caution_weight <= 0.0)
        return 0.0;
    Arena *scratch = arena_open();
    const PlanQuestion question = plan_question_without_cautions(scratch, plan->question);
    const double cost = outcome_cost_held(plan, &question);
    arena_close(scratch);
    return isnan(cost) ? cost : fmax(plan->least_cost - cost, 0.0);
}
