/* With a dollar worth PER_DOLLAR of steadiness, and feed at the prices of the cheapest plan, no
 * row ties the groups. Each is then a small program that the simplex walks through a hundred
 * times quicker than the whole, and their bases side by side are one of the whole in which the
 * shared rows are slack: optimal for its costs, but for shared rows that are broken. These the
 * dual simplex mends in few steps, and the costs of steadiness alone take few more. */
#include "planner/steady_prices.h"
#include "planner/steady_ration.h"

/* Near what a dollar is worth where evening out may cost the usual share: 1.9 on farm S, 2.7
 * on the sample farm and 4 on farm M were measured. From a price three times too low the dual
 * simplex takes up to twice the steps. */
#define PER_DOLLAR 3.0

static int block_of_row(const RationProgram *program, int row) {
    return row < program->shape.row_count ? program->shape.block_of_row[row] : -1;
}

/* What a unit of a column of a ration costs with its feed at the prices of the plan. */
static double priced(const Steady *steady, const LpSolution *solution, int column) {
    const RationProgram *program = steady->program;
    double cost = lp_cost(program->lp, column);
    for (int k = steady->terms.start[column]; k < steady->terms.start[column + 1]; k++) {
        const int row = steady->terms.row[k];
        if (block_of_row(program, row) < 0)
            cost -= solution->shadow_price[row] * steady->terms.coefficient[k];
    }
    return cost;
}

static void price_feed(Steady *steady, const LpSolution *solution) {
    for (int j = 0; j < lp_column_count(steady->program->lp); j++) {
        const int column = steady->column_of[j];
        if (column >= 0)
            lp_set_cost(steady->lp, column,
                        steady->base_cost[column] + PER_DOLLAR * priced(steady, solution, j));
    }
}

/* What is of no ration is let go: its rows are slack and its columns stand at their least. */
static void let_go(Steady *steady) {
    const RationProgram *program = steady->program;
    LpBasis *basis = &steady->best.basis;
    lp_set_row_bounds(steady->lp, steady->cost_row, -NO_LIMIT, NO_LIMIT);
    for (int i = 0; i < lp_row_count(program->lp); i++) {
        if (steady->row_of[i] < 0 || block_of_row(program, i) >= 0)
            continue;
        lp_set_row_bounds(steady->lp, steady->row_of[i], -NO_LIMIT, NO_LIMIT);
        basis->row[steady->row_of[i]] = BASIC;
    }
    for (int j = 0; j < lp_column_count(program->lp); j++) {
        const int column = steady->column_of[j];
        if (column < 0 || steady_block_of(program, j) >= 0)
            continue;
        const double least = lp_column_least(program->lp, j);
        lp_set_column_bounds(steady->lp, column, least, least);
        basis->column[column] = AT_LEAST;
    }
}

/* The rows and columns of a group; what is of none is slack, or at its least. */
static void merge(const RationProgram *program, const SteadyStart *of, int group,
                  SteadyStart *start) {
    const PlanQuestion *question = program->question;
    for (int i = 0; i < start->row_count; i++) {
        const int block = block_of_row(program, i);
        if (block < 0)
            start->row[i] = BASIC + 1;
        else if (question->blocks[block].group == group)
            start->row[i] = of->row[i];
    }
    for (int j = 0; j < start->column_count; j++) {
        const int block = steady_block_of(program, j);
        if (block < 0)
            start->column[j] = AT_LEAST + 1;
        else if (question->blocks[block].group == group)
            start->column[j] = of->column[j];
    }
    for (int at = 0; at < question->block_count * question->feed_count; at++) {
        if (of->change[at] == 0)
            continue;
        start->change[at] = of->change[at];
        start->rise[at] = of->rise[at];
    }
    start->cost = BASIC + 1;
}

bool steady_groups_at_prices(const RationProgram *program, const LpTerms *terms,
                             const LpSolution *solution, double most, SteadyStart *start) {
    SteadyStart merged = {.arena = start->arena};
    bool is_solved = true;
    for (int g = 0; is_solved && g < program->question->farm->herd.count; g++) {
        Arena *scratch = arena_open();
        Steady steady;
        steady_program(&steady, scratch, program, terms, solution, solution->value, g, most,
                       NULL);
        let_go(&steady);
        price_feed(&steady, solution);
        is_solved = steady_solve(&steady, START_COSTS_CHANGED, &steady.best.basis);
        if (is_solved) {
            SteadyStart of_group = {.arena = scratch};
            steady_take_start(&of_group, &steady);
            if (g == 0)
                steady_take_start(&merged, &steady);
            merge(program, &of_group, g, &merged);
        }
        arena_close(scratch);
    }
    if (is_solved)
        *start = merged;
    return is_solved;
}

void steady_bring_together(Steady *steady, const LpSolution *solution) {
    price_feed(steady, solution);
    const LpSolution solved = lp_solve(steady->lp, steady->arena, START_BOUNDS_CHANGED,
                                       &steady->best.basis, STEADY_ITERATIONS);
    steady->steps += solved.iterations;
    if (solved.status == LP_OPTIMAL)
        steady->best.basis = solved.basis;
    steady_price_columns(steady);
}
