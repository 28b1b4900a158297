#include "support/even_program.h"
#include "planner/steady_program.h"
#include <math.h>

static void hold_cost(LinearProgram *lp, double most) {
    const int row = lp_add_row(lp, -NO_LIMIT, most);
    for (int j = 0; j < lp_column_count(lp); j++) {
        const double cost = lp_cost(lp, j);
        lp_add_term(lp, row, j, cost);
        lp_set_cost(lp, j, WEIGHT_PER_DOLLAR * cost);
    }
}

/* after - before - rise + fall = 0, each of the two at the weight of the group. */
static void add_change(LinearProgram *lp, int before, int after, double weight) {
    const int row = lp_add_row(lp, 0.0, 0.0);
    lp_add_term(lp, row, after, 1.0);
    lp_add_term(lp, row, before, -1.0);
    for (int way = -1; way <= 1; way += 2)
        lp_add_term(lp, row, lp_add_column(lp, weight, 0.0, NO_LIMIT), way);
}

static bool is_same_group(const PlanQuestion *question, int block) {
    return block > 0 && question->blocks[block - 1].group == question->blocks[block].group;
}

LinearProgram *even_program(Arena *arena, const WinterPlan *plan) {
    const PlanQuestion *question = plan->question;
    const RationProgram *program = plan->program;
    const double least = plan->solution.cost;
    LinearProgram *lp = lp_copy(program->lp, arena);
    hold_cost(lp, least + question->farm->winter.steady_cost_share * fabs(least));
    for (int b = 0; b < question->block_count; b++) {
        for (int f = 0; f < question->feed_count; f++) {
            const int after = program->eaten[b * question->feed_count + f];
            if (after < 0)
                continue;
            lp_set_cost(lp, after, lp_cost(lp, after) + WEIGHT_PER_KG);
            const int before = is_same_group(question, b)
                                   ? program->eaten[(b - 1) * question->feed_count + f]
                                   : -1;
            if (before >= 0)
                add_change(lp, before, after, sqrt(question->blocks[b].head));
        }
    }
    return lp;
}

double even_program_aim_of(const WinterPlan *plan) {
    const PlanQuestion *question = plan->question;
    double aim =
        WEIGHT_PER_DOLLAR * (plan->cost.total + plan->cost.cautions - plan->cost.yardage);
    for (int b = 0; b < question->block_count; b++) {
        for (int f = 0; f < question->feed_count; f++) {
            const double eaten = plan->blocks[b].eaten[f];
            aim += WEIGHT_PER_KG * eaten;
            if (is_same_group(question, b))
                aim +=
                    sqrt(question->blocks[b].head) * fabs(eaten - plan->blocks[b - 1].eaten[f]);
        }
    }
    return aim;
}
