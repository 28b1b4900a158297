#include "planner/least_cost.h"
#include "planner/plan_outcome.h"
#include <math.h>

#define KEEPS_TO_LAWS 0.004 /* largest miss; as near as even rations have to come */

static bool is_same_shape(const PlanQuestion *a, const PlanQuestion *b) {
    if (a->block_count != b->block_count)
        return false;
    for (int i = 0; i < a->block_count; i++) {
        if (a->blocks[i].group != b->blocks[i].group ||
            a->blocks[i].from.number != b->blocks[i].from.number ||
            a->blocks[i].to.number != b->blocks[i].to.number)
            return false;
    }
    return true;
}

/* NAN where it cannot be solved so, or its rations miss the laws. */
static LeastCost cost_held_as(const PlanQuestion *question, const WinterPlan *other) {
    Arena *scratch = arena_open();
    BlockState *states = ARENA_ARRAY(scratch, BlockState, question->block_count);
    for (int b = 0; b < question->block_count; b++)
        states[b] = other->blocks[b].state;
    RationProgram program = ration_program(scratch, question, states, AIM_LEAST_COST);
    BlockProgram *by_price;
    const LpSolution solution = ration_program_solve(scratch, &program, NULL, 0.0, &by_price);
    LeastCost cost = {(double)NAN, (double)NAN};
    if (solution.status == LP_OPTIMAL) {
        WinterPlan held = {.verdict = PLAN_BALANCED,
                           .question = question,
                           .program = &program,
                           .solution = solution};
        outcome_read(scratch, &held, solution.value, states);
        outcome_set_least(&held, &solution);
        if (held.residual < KEEPS_TO_LAWS)
            cost = (LeastCost){held.least_cost, held.least_cautions};
    }
    arena_close(scratch);
    return cost;
}

LeastCost lesser_cost(LeastCost a, LeastCost b) {
    return b.money + b.cautions < a.money + a.cautions ? b : a; /* NAN is no less */
}

double least_total(const WinterPlan *plan) {
    return plan->verdict == PLAN_BALANCED ? plan_least(plan) + plan->cost.yardage : (double)NAN;
}

LeastCost least_cost_beside(const WinterPlan *cheapest, const WinterPlan *other) {
    const LeastCost own = {cheapest->least_cost, cheapest->least_cautions};
    if (cheapest->verdict != PLAN_BALANCED || other->verdict != PLAN_BALANCED ||
        !is_same_shape(cheapest->question, other->question))
        return own;
    return lesser_cost(own, cost_held_as(cheapest->question, other));
}
