#include "planner/tie_break.h"
#include "base/drawn_number.h"
#include "base/quantity.h"

#define TRIES 4
#define LESS_WHIM 0.5 /* of the last, where that cost too much */

static double whim_of(const PlanQuestion *question, int group, int feed) {
    const DrawSource source = draw_source_named(
        draw_source_named(draw_source(0, 0), question->farm->herd.names[group]),
        question->feeds[feed].name);
    return drawn_share(source, 0);
}

/* [block_count * feed_count] for a kilogram a head and day, at a dollar a tonne at most. */
static const double *whims(Arena *arena, const PlanQuestion *question) {
    const int feeds = question->feed_count;
    double *whim = ARENA_ARRAY(arena, double, question->block_count *feeds);
    double *of_group = ARENA_ARRAY(arena, double, feeds);
    for (int b = 0; b < question->block_count; b++) {
        const PlanBlock *block = &question->blocks[b];
        if (b == 0 || block->group != question->blocks[b - 1].group) {
            for (int f = 0; f < feeds; f++)
                of_group[f] = whim_of(question, block->group, f) *
                              plan_taken_per_eaten(&question->feeds[f]) / KG_PER_TONNE;
        }
        for (int f = 0; f < feeds; f++)
            whim[b * feeds + f] = of_group[f] * block->head * block->days;
    }
    return whim;
}

/* [columns] the costs without whim. */
static void price_with(const RationProgram *program, const double *cost, const double *whim,
                       double per_tonne) {
    const int cells = program->question->block_count * program->question->feed_count;
    for (int at = 0; at < cells; at++) {
        const int column = program->eaten[at];
        if (column >= 0)
            lp_set_cost(program->lp, column, cost[column] + per_tonne * whim[at]);
    }
}

/* Its values and basis in the arena, at the prices of another. */
static LpSolution kept(Arena *arena, const LpSolution *broken, const LpSolution *prices) {
    const LpBasis *basis = &broken->basis;
    LpSolution copy = *broken;
    copy.value = ARENA_COPY(arena, double, broken->value, basis->column_count);
    copy.basis.row = ARENA_COPY(arena, unsigned char, basis->row, basis->row_count);
    copy.basis.column = ARENA_COPY(arena, unsigned char, basis->column, basis->column_count);
    copy.shadow_price = prices->shadow_price;
    copy.reduced_cost = prices->reduced_cost;
    copy.activity = NULL;
    return copy;
}

LpSolution tie_broken(Arena *arena, const RationProgram *program, const BlockStart *answer,
                      const LpSolution *solution, double most) {
    if (!answer)
        return *solution;
    const int columns = lp_column_count(program->lp);
    double *cost = ARENA_ARRAY(arena, double, columns);
    for (int j = 0; j < columns; j++)
        cost[j] = lp_cost(program->lp, j);
    const double *whim = whims(arena, program->question);
    LpSolution found = *solution;
    bool is_found = false;
    double per_tonne = WHIM_PER_TONNE;
    for (int try = 0; try < TRIES && !is_found; try++, per_tonne *= LESS_WHIM) {
        Arena *scratch = arena_open();
        BlockProgram *blocks;
        price_with(program, cost, whim, per_tonne);
        LpSolution broken = ration_program_solve(scratch, program, answer, 0.0, &blocks);
        price_with(program, cost, whim, 0.0);
        is_found = broken.status == LP_OPTIMAL && blocks;
        if (is_found)
            broken.cost = lp_cost_of(program->lp, broken.value);
        is_found = is_found && broken.cost <= most;
        if (is_found)
            found = kept(arena, &broken, solution);
        arena_close(scratch);
    }
    return found;
}
