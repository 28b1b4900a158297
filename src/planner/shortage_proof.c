#include "planner/shortage_proof.h"
#include <math.h>

#define ROUNDING 1e-9 /* of 1 + its cost: a reduced cost that is none */

static double head_days(const PlanBlock *block) { return block->head * block->days; }

/* A price toward a bound that is none is rounding. */
static double at_bound(double price, double least, double most) {
    const double bound = price > 0.0 ? least : most;
    return isfinite(bound) ? price * bound : 0.0;
}

/* What a ration owes is never less than nothing: feed has a price, and falling short too. */
static void take_owed(const RationProgram *program, const LpSolution *solution,
                      ShortageProof *proof) {
    const PlanQuestion *question = program->question;
    const LinearProgram *lp = program->lp;
    const BlockShape *shape = &program->shape;
    for (int b = 0; b < question->block_count; b++)
        proof->owed[b] = 0.0;
    for (int i = 0; i < shape->row_count; i++) {
        if (shape->block_of_row[i] >= 0)
            proof->owed[shape->block_of_row[i]] +=
                at_bound(solution->shadow_price[i], lp_row_least(lp, i), lp_row_most(lp, i));
    }
    for (int j = 0; j < shape->column_count; j++) {
        const double reduced = solution->reduced_cost[j];
        if (shape->block_of_column[j] >= 0 &&
            fabs(reduced) > ROUNDING * (1.0 + fabs(lp_cost(lp, j))))
            proof->owed[shape->block_of_column[j]] +=
                at_bound(reduced, lp_column_least(lp, j), lp_column_most(lp, j));
    }
    for (int b = 0; b < question->block_count; b++) {
        const double of = head_days(&question->blocks[b]);
        proof->owed[b] = of > 0.0 ? fmax(proof->owed[b] / of, 0.0) : 0.0;
    }
}

void shortage_proof_take(Arena *arena, const RationProgram *program, const LpSolution *solution,
                         ShortageProof *proof) {
    const PlanQuestion *question = program->question;
    if (!proof->owed)
        *proof = (ShortageProof){.owed = ARENA_ARRAY(arena, double, question->block_count),
                                 .stock = ARENA_ARRAY(arena, double, question->feed_count),
                                 .bought = ARENA_ARRAY(arena, double, question->feed_count)};
    take_owed(program, solution, proof);
    for (int f = 0; f < question->feed_count; f++) {
        const int column = program->bought[f];
        proof->stock[f] = solution->shadow_price[program->stock[f]];
        proof->bought[f] = column < 0 ? 0.0 : solution->reduced_cost[column];
    }
    proof->carry_over =
        program->carry_over_row < 0 ? 0.0 : solution->shadow_price[program->carry_over_row];
    proof->proven = shortage_proven(proof, question, -1);
}

ShortageProof shortage_proof_copied(Arena *arena, const ShortageProof *proof,
                                    const PlanQuestion *question) {
    ShortageProof copy = *proof;
    if (!proof->owed)
        return copy;
    copy.owed = ARENA_COPY(arena, double, proof->owed, question->block_count);
    copy.stock = ARENA_COPY(arena, double, proof->stock, question->feed_count);
    copy.bought = ARENA_COPY(arena, double, proof->bought, question->feed_count);
    return copy;
}

double shortage_proven(const ShortageProof *proof, const PlanQuestion *question,
                       int without_group) {
    if (!proof->owed)
        return 0.0;
    double bound =
        proof->carry_over == 0.0
            ? 0.0
            : at_bound(proof->carry_over, -NO_LIMIT, ration_program_carry_over_most(question));
    for (int f = 0; f < question->feed_count; f++) {
        const PlanFeed *feed = &question->feeds[f];
        const double tonnes = feed->available_kg / KG_PER_TONNE;
        bound += at_bound(proof->stock[f], -NO_LIMIT, feed->is_own ? tonnes : 0.0);
        if (!feed->is_own && fabs(proof->bought[f]) > ROUNDING)
            bound += at_bound(proof->bought[f], 0.0, tonnes);
    }
    for (int b = 0; b < question->block_count; b++) {
        if (question->blocks[b].group != without_group)
            bound += proof->owed[b] * head_days(&question->blocks[b]);
    }
    return fmax(bound, 0.0);
}
