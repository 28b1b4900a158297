#include "planner/ration_price.h"
#include "planner/field_columns.h"
#include "planner/ration_caution.h"
#include <math.h>

double plan_block_head_days(const PlanBlock *block) { return block->head * block->days; }

double ration_tonnes_taken(const PlanBlock *block, const PlanFeed *feed) {
    return plan_block_head_days(block) * plan_taken_per_eaten(feed) / KG_PER_TONNE;
}

double ration_price_of_eaten(const PlanQuestion *question, int b, int f) {
    const PlanFeed *feed = &question->feeds[f];
    const PlanBlock *block = &question->blocks[b];
    const double price = (feed->value_per_kg + plan_haul_per_kg(question, b, f)) * KG_PER_TONNE;
    return ration_tonnes_taken(block, feed) * price +
           caution_of_feed(question, b, f) * plan_block_head_days(block);
}

double ration_price_of_beyond(const PlanQuestion *question, int b, const RationLimit *limit) {
    return limit->caution_price * plan_block_head_days(&question->blocks[b]);
}

double ration_program_caution(const RationProgram *program, const double *value) {
    const PlanQuestion *question = program->question;
    double weight = 0.0;
    for (int b = 0; b < question->block_count; b++) {
        const BlockLimits *of = &program->blocks[b];
        for (int i = 0; i < of->count; i++) {
            if (of->beyond[i] >= 0)
                weight +=
                    value[of->beyond[i]] * ration_price_of_beyond(question, b, of->limits[i]);
        }
        for (int f = 0; f < question->feed_count; f++) {
            const int column = program->eaten[b * question->feed_count + f];
            if (column >= 0 && value[column] > 0.0)
                weight += value[column] * caution_of_feed(question, b, f) *
                          plan_block_head_days(&question->blocks[b]);
        }
    }
    return weight;
}

static void hold(LinearProgram *lp, int column, const double *shortage, double slack) {
    if (column < 0)
        return;
    lp_set_cost(lp, column, 0.0);
    lp_set_column_bounds(lp, column, 0.0,
                         fmax(shortage[column], 0.0) * (1.0 + slack) + 0.01 * slack);
}

static void hold_tiers(LinearProgram *lp, int first_column, const double *shortage,
                       double slack) {
    for (int tier = 0; first_column >= 0 && tier < SHORT_TIERS; tier++)
        hold(lp, first_column + tier, shortage, slack);
}

void ration_program_hold_shortage(RationProgram *program, const double *shortage,
                                  double slack) {
    const PlanQuestion *question = program->question;
    LinearProgram *lp = program->lp;
    program->aim = AIM_LEAST_COST;
    for (int b = 0; b < question->block_count; b++) {
        const BlockLimits *of = &program->blocks[b];
        for (int i = 0; i < of->count; i++) {
            hold_tiers(lp, of->least_short[i], shortage, slack);
            hold_tiers(lp, of->most_short[i], shortage, slack);
            if (of->beyond[i] >= 0)
                lp_set_cost(lp, of->beyond[i],
                            ration_price_of_beyond(question, b, of->limits[i]));
        }
        for (int f = 0; f < question->feed_count; f++) {
            const int column = program->eaten[b * question->feed_count + f];
            if (column >= 0)
                lp_set_cost(lp, column, ration_price_of_eaten(question, b, f));
        }
    }
    hold(lp, program->carry_over_short, shortage, slack);
    field_columns_price(program);
    for (int f = 0; f < question->feed_count; f++) {
        if (program->bought[f] >= 0)
            lp_set_cost(lp, program->bought[f], question->feeds[f].price_per_kg * KG_PER_TONNE);
    }
}
