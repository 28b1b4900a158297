#include "planner/caution_cost.h"
#include "planner/yard_plan.h"
#include <math.h>

double caution_cost(const WinterPlan *ruled) {
    const WinterPlan *plan = ruled->yard ? ruled->yard->without : ruled;
    if (plan->verdict != PLAN_BALANCED)
        return (double)NAN;
    if (plan->question->farm->winter.caution_weight <= 0.0)
        return 0.0;
    Arena *scratch = arena_open();
    Farm farm = *plan->question->farm;
    farm.winter.caution_weight = 0.0;
    PlanQuestion question = *plan->question;
    question.farm = &farm;
    BlockState *states = ARENA_ARRAY(scratch, BlockState, question.block_count);
    for (int b = 0; b < question.block_count; b++)
        states[b] = plan->blocks[b].state;
    const RationProgram program = ration_program(scratch, &question, states, AIM_LEAST_COST);
    BlockProgram *blocks;
    const LpSolution solution =
        ration_program_solve(scratch, &program, plan->answer, 0.0, &blocks);
    const double cost = solution.status == LP_OPTIMAL ? solution.cost : (double)NAN;
    arena_close(scratch);
    return fmax(plan->least_cost - cost, 0.0);
}
