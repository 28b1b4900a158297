#include "planner/tie_break.h"
#include "base/drawn_number.h"
#include "planner/ration_price.h"

#define TRIES 4
#define LESS_WHIM 0.5 /* of the last, where that cost too much */

static double whim_of(const PlanQuestion *question, int group, int feed) {
    const DrawSource source = draw_source_named(
        draw_source_named(draw_source(0, 0), question->farm->herd.names[group]),
        question->feeds[feed].name);
    return drawn_share(source, 0);
}

/* [feed_count] for a tonne taken as fed, of a group. */
static void set_whims(const PlanQuestion *question, int group, double per_tonne, double *whim) {
    for (int f = 0; f < question->feed_count; f++)
        whim[f] = per_tonne * whim_of(question, group, f);
}

/* 0 dollars a tonne: prices as they are. */
static void price_with(const RationProgram *program, double per_tonne) {
    const PlanQuestion *question = program->question;
    const int feeds = question->feed_count;
    Arena *scratch = arena_open();
    double *whim = ARENA_ARRAY(scratch, double, feeds);
    for (int b = 0; b < question->block_count; b++) {
        const PlanBlock *block = &question->blocks[b];
        if (per_tonne > 0.0 && (b == 0 || block->group != question->blocks[b - 1].group))
            set_whims(question, block->group, per_tonne, whim);
        for (int f = 0; f < feeds; f++) {
            const int column = program->eaten[b * feeds + f];
            if (column >= 0)
                lp_set_cost(program->lp, column,
                            ration_price_of_eaten(question, b, f) +
                                whim[f] * ration_tonnes_taken(block, &question->feeds[f]));
        }
    }
    arena_close(scratch);
}

/* Where it keeps to the most that it may cost. */
static bool is_broken(Arena *arena, const RationProgram *program, const BlockStart *answer,
                      double per_tonne, double most, LpSolution *broken) {
    Arena *of_blocks = arena_open();
    price_with(program, per_tonne);
    BlockProgram *blocks = block_program(of_blocks, program->lp, &program->shape);
    *broken = ration_program_solve_in(arena, program, answer, 0.0, &blocks);
    const bool is_found = broken->status == LP_OPTIMAL && blocks;
    arena_close(of_blocks);
    price_with(program, 0.0);
    if (is_found)
        broken->cost = lp_cost_of(program->lp, broken->value);
    return is_found && broken->cost <= most;
}

LpSolution tie_broken(Arena *arena, const RationProgram *program, const BlockStart *answer,
                      const LpSolution *solution, double most) {
    double per_tonne = WHIM_PER_TONNE;
    for (int try = 0; answer && try < TRIES; try++, per_tonne *= LESS_WHIM) {
        Arena *attempt = arena_open();
        LpSolution broken;
        if (is_broken(attempt, program, answer, per_tonne, most, &broken)) {
            arena_adopt(arena, attempt);
            broken.shadow_price = solution->shadow_price;
            broken.reduced_cost = solution->reduced_cost;
            return broken;
        }
        arena_close(attempt);
    }
    return *solution;
}
