/* A second program over the first: one row holds the cost, one row a feed and pair of
 * neighbouring periods holds the rise, and rises, the dearer the larger the group, are the aim:
 * what falls has risen, but for the first and last period, which have their own price. It has
 * only the columns that the cheapest plan uses and the rows that are tight in it; a row that an
 * answer breaks is put back and the program solved again, until none is broken.
 *
 * Of a large farm one group is evened out after the other, the rest of the farm held as it
 * stands: what a group does without is there for the next, and each may cost a little more in
 * proportion to what it costs. */
#include "planner/steady_program.h"
#include "planner/steady_ration.h"
#include "planner/winter_plan.h"
#include <math.h>
#include <string.h>

#define NEARLY_TIGHT 1e-6 /* slack as a share of what the row's terms come to */
#define BROKEN 1e-7       /* of 1 + the bound */
#define MOST_REPAIRS 20

/* Rules of the yard add rows and columns to the program: they are of no block. */
int steady_block_of(const RationProgram *program, int column) {
    return column < program->shape.column_count ? program->shape.block_of_column[column] : -1;
}

static int block_of_row(const RationProgram *program, int row) {
    return row < program->shape.row_count ? program->shape.block_of_row[row] : -1;
}

int steady_column(const Steady *steady, int block, int feed) {
    const int column =
        steady->program->eaten[block * steady->program->question->feed_count + feed];
    return column >= 0 ? steady->column_of[column] : -1;
}

static bool has_shape(const SteadyStart *start, const LinearProgram *whole) {
    return start && start->row_count == lp_row_count(whole) &&
           start->column_count == lp_column_count(whole);
}

/* Adds the rows wanted, with the terms of the columns kept; how many. */
static int add_rows(Steady *steady, const bool *is_wanted) {
    const LinearProgram *whole = steady->program->lp;
    int added = 0;
    for (int i = 0; i < lp_row_count(whole); i++) {
        if (!is_wanted[i] || steady->row_of[i] >= 0)
            continue;
        steady->row_of[i] =
            lp_add_row(steady->lp, lp_row_least(whole, i) - steady->fixed_sum[i],
                       lp_row_most(whole, i) - steady->fixed_sum[i]);
        added++;
    }
    for (int j = 0; added > 0 && j < lp_column_count(whole); j++) {
        for (int k = steady->terms.start[j];
             steady->column_of[j] >= 0 && k < steady->terms.start[j + 1]; k++) {
            if (is_wanted[steady->terms.row[k]])
                lp_add_term(steady->lp, steady->row_of[steady->terms.row[k]],
                            steady->column_of[j], steady->terms.coefficient[k]);
        }
    }
    return added;
}

static void add_terms(const Steady *steady, int column, double value, double *sum,
                      double *size) {
    const LpTerms *terms = &steady->terms;
    for (int k = terms->start[column]; value != 0.0 && k < terms->start[column + 1]; k++) {
        const double term = terms->coefficient[k] * value;
        sum[terms->row[k]] += term;
        size[terms->row[k]] += fabs(term);
    }
}

/* What each row's terms come to, and the sum of their sizes. */
static void row_sums(const Steady *steady, const double *value, double *sum, double *size) {
    for (int j = 0; j < lp_column_count(steady->program->lp); j++)
        add_terms(steady, j, value[j], sum, size);
}

static double slack_of(const LinearProgram *lp, int row, double sum) {
    return fmin(sum - lp_row_least(lp, row), lp_row_most(lp, row) - sum);
}

static void keep_rows(Steady *steady, const LpSolution *solution, const SteadyStart *start) {
    const LinearProgram *whole = steady->program->lp;
    const int rows = lp_row_count(whole);
    double *sum = ARENA_ARRAY(steady->arena, double, rows);
    double *size = ARENA_ARRAY(steady->arena, double, rows);
    bool *is_wanted = ARENA_ARRAY(steady->arena, bool, rows);
    row_sums(steady, solution->value, sum, size);
    for (int i = 0; i < rows; i++) {
        const int block = block_of_row(steady->program, i);
        is_wanted[i] =
            !steady_is_held(steady, block) &&
            (block < 0 || solution->basis.row[i] != BASIC || (start && start->row[i] != 0) ||
             slack_of(whole, i, sum[i]) <= NEARLY_TIGHT * size[i]);
    }
    add_rows(steady, is_wanted);
}

/* Puts back the rows that an answer breaks, [columns of lp] its values; how many. */
static int put_back_rows(Steady *steady, const double *value) {
    const LinearProgram *whole = steady->program->lp;
    const int rows = lp_row_count(whole);
    Arena *scratch = arena_open();
    double *sum = ARENA_ARRAY(scratch, double, rows);
    double *size = ARENA_ARRAY(scratch, double, rows);
    bool *is_wanted = ARENA_ARRAY(scratch, bool, rows);
    memcpy(sum, steady->fixed_sum, (size_t)rows * sizeof *sum);
    memcpy(size, steady->fixed_size, (size_t)rows * sizeof *size);
    for (int j = 0; j < steady->eaten_columns; j++)
        add_terms(steady, steady->whole_of[j], value[j], sum, size);
    for (int i = 0; i < rows; i++)
        is_wanted[i] = steady->row_of[i] < 0 &&
                       !steady_is_held(steady, block_of_row(steady->program, i)) &&
                       slack_of(whole, i, sum[i]) < -BROKEN * (1.0 + size[i]);
    const int added = add_rows(steady, is_wanted);
    arena_close(scratch);
    return added;
}

/* A rise r of a feed from one period to the next costs 2 w r, the last period -w and the first
 * w of what is given: what falls has risen, so that is w times all rises and falls. */
static void add_changes(Steady *steady) {
    const PlanQuestion *question = steady->program->question;
    const int feeds = question->feed_count;
    for (int b = 1; b < question->block_count; b++) {
        const PlanBlock *block = &question->blocks[b];
        const double weight = sqrt(block->head);
        if (question->blocks[b - 1].group != block->group)
            continue;
        for (int f = 0; f < feeds; f++) {
            const int before = steady_column(steady, b - 1, f);
            const int after = steady_column(steady, b, f);
            if (before < 0 || after < 0)
                continue;
            const int at = b * feeds + f;
            const int row = lp_add_row(steady->lp, -NO_LIMIT, 0.0);
            const int rise = lp_add_column(steady->lp, 2.0 * weight, 0.0, NO_LIMIT);
            lp_add_term(steady->lp, row, after, 1.0);
            lp_add_term(steady->lp, row, before, -1.0);
            lp_add_term(steady->lp, row, rise, -1.0);
            steady->change_row[at] = row;
            steady->rise[at] = rise;
            steady->base_cost[before] += weight;
            steady->base_cost[after] += WEIGHT_PER_KG - weight;
        }
    }
}

/* `most` is of the whole, and what is held has its part of it. */
static void add_cost(Steady *steady, double most) {
    const LinearProgram *whole = steady->program->lp;
    double held = 0.0;
    steady->cost_row = lp_add_row(steady->lp, -NO_LIMIT, NO_LIMIT);
    for (int j = 0; j < lp_column_count(whole); j++) {
        const int column = steady->column_of[j];
        const double cost = lp_cost(whole, j);
        if (column < 0) {
            held += cost * steady->fixed[j];
            continue;
        }
        lp_add_term(steady->lp, steady->cost_row, column, cost);
        steady->base_cost[column] += WEIGHT_PER_DOLLAR * cost;
    }
    lp_set_row_bounds(steady->lp, steady->cost_row, -NO_LIMIT, most - held);
}

/* Rows put back since are slack. */
LpBasis steady_basis(const Steady *steady, const LpBasis *basis) {
    const int rows = lp_row_count(steady->lp);
    LpBasis more = {rows, basis->column_count, ARENA_ARRAY(steady->arena, unsigned char, rows),
                    basis->column};
    memset(more.row, BASIC, (size_t)rows);
    memcpy(more.row, basis->row, (size_t)basis->row_count);
    return more;
}

/* Puts back rows until none is broken. */
bool steady_solve(Steady *steady, LpStart how, const LpBasis *from) {
    LpBasis start = steady_basis(steady, from);
    for (int repair = 0; repair <= MOST_REPAIRS; repair++) {
        const LpSolution solution =
            lp_solve(steady->lp, steady->arena, repair == 0 ? how : START_BOUNDS_CHANGED,
                     &start, STEADY_ITERATIONS);
        steady->steps += solution.iterations;
        if (solution.status != LP_OPTIMAL)
            return false;
        start = solution.basis;
        if (put_back_rows(steady, solution.value) == 0) {
            steady->best = solution;
            return true;
        }
        start = steady_basis(steady, &start);
    }
    return false;
}

const double *steady_values(Arena *arena, const Steady *steady) {
    const int columns = lp_column_count(steady->program->lp);
    double *value = ARENA_COPY(arena, double, steady->fixed, columns);
    for (int j = 0; j < steady->eaten_columns; j++)
        value[steady->whole_of[j]] = steady->best.value[j];
    return value;
}

/* The basis of the cheapest plan; rows of the cost and of changes are slack. */
static LpBasis first_basis(const Steady *steady, const LpSolution *solution) {
    const LinearProgram *whole = steady->program->lp;
    LpBasis basis = {lp_row_count(steady->lp), lp_column_count(steady->lp),
                     ARENA_ARRAY(steady->arena, unsigned char, lp_row_count(steady->lp)),
                     ARENA_ARRAY(steady->arena, unsigned char, lp_column_count(steady->lp))};
    memset(basis.row, BASIC, (size_t)basis.row_count);
    for (int i = 0; i < lp_row_count(whole); i++) {
        if (steady->row_of[i] >= 0)
            basis.row[steady->row_of[i]] = solution->basis.row[i];
    }
    for (int j = 0; j < lp_column_count(whole); j++) {
        if (steady->column_of[j] >= 0)
            basis.column[steady->column_of[j]] = solution->basis.column[j];
    }
    return basis;
}

/* ---- from one evening out to the next ---- */

static int cells_of(const RationProgram *program) {
    return program->question->block_count * program->question->feed_count;
}

static int cells(const Steady *steady) { return cells_of(steady->program); }

void steady_take_start(SteadyStart *start, const Steady *steady) {
    Arena *arena = start->arena;
    const LinearProgram *whole = steady->program->lp;
    const int rows = lp_row_count(whole);
    const int columns = lp_column_count(whole);
    if (!has_shape(start, whole))
        *start = (SteadyStart){.arena = arena,
                               .row_count = rows,
                               .column_count = columns,
                               .row = ARENA_ARRAY(arena, unsigned char, rows),
                               .column = ARENA_ARRAY(arena, unsigned char, columns),
                               .change = ARENA_ARRAY(arena, unsigned char, cells(steady)),
                               .rise = ARENA_ARRAY(arena, unsigned char, cells(steady)),
                               .is_barred = ARENA_ARRAY(arena, bool, cells(steady))};
    const LpBasis basis = steady_basis(steady, &steady->best.basis);
    for (int i = 0; i < rows; i++)
        start->row[i] = steady->row_of[i] < 0 ? 0 : basis.row[steady->row_of[i]] + 1;
    for (int j = 0; j < columns; j++)
        start->column[j] =
            steady->column_of[j] < 0 ? 0 : basis.column[steady->column_of[j]] + 1;
    for (int at = 0; at < cells(steady); at++) {
        const int column = steady->program->eaten[at];
        const int row = steady->change_row[at];
        start->change[at] = row < 0 ? 0 : basis.row[row] + 1;
        start->rise[at] = row < 0 ? 0 : basis.column[steady->rise[at]] + 1;
        start->is_barred[at] = column >= 0 && steady->column_of[column] >= 0 &&
                               lp_column_most(whole, column) > 0.0 &&
                               lp_column_most(steady->lp, steady->column_of[column]) <= 0.0;
    }
    start->cost = basis.row[steady->cost_row] + 1;
    start->steps = steady->steps;
}

static unsigned char place_or(unsigned char kept, BasisPlace otherwise) {
    return (unsigned char)(kept != 0 ? kept - 1 : (int)otherwise);
}

/* Columns and rows that are new stand at their least and are slack. */
static LpBasis basis_from(const Steady *steady, const SteadyStart *start) {
    LpBasis basis = {lp_row_count(steady->lp), lp_column_count(steady->lp),
                     ARENA_ARRAY(steady->arena, unsigned char, lp_row_count(steady->lp)),
                     ARENA_ARRAY(steady->arena, unsigned char, lp_column_count(steady->lp))};
    for (int i = 0; i < start->row_count; i++) {
        if (steady->row_of[i] >= 0)
            basis.row[steady->row_of[i]] = place_or(start->row[i], BASIC);
    }
    for (int j = 0; j < start->column_count; j++) {
        if (steady->column_of[j] >= 0)
            basis.column[steady->column_of[j]] = place_or(start->column[j], AT_LEAST);
    }
    for (int at = 0; at < cells(steady); at++) {
        if (steady->change_row[at] < 0)
            continue;
        basis.row[steady->change_row[at]] = place_or(start->change[at], BASIC);
        basis.column[steady->rise[at]] = place_or(start->rise[at], AT_LEAST);
    }
    basis.row[steady->cost_row] = place_or(start->cost, BASIC);
    return basis;
}

static void bar_again(const Steady *steady, const SteadyStart *start) {
    for (int at = 0; at < cells(steady); at++) {
        if (start->is_barred[at] && steady->program->eaten[at] >= 0)
            lp_set_column_bounds(steady->lp, steady->column_of[steady->program->eaten[at]], 0.0,
                                 0.0);
    }
}

void steady_program(Steady *steady, Arena *arena, const RationProgram *program,
                    const LpTerms *terms, const LpSolution *solution, const double *value,
                    int group, double most, const SteadyStart *start) {
    const LinearProgram *whole = program->lp;
    const int columns = lp_column_count(whole);
    const int rows = lp_row_count(whole);
    double *fixed = ARENA_ARRAY(arena, double, columns);
    *steady = (Steady){
        .arena = arena,
        .program = program,
        .terms = *terms,
        .lp = lp_new(arena),
        .column_of = ARENA_ARRAY(arena, int, columns),
        .row_of = ARENA_ARRAY(arena, int, rows),
        .group = group,
        .fixed = fixed,
        .whole_of = ARENA_ARRAY(arena, int, columns),
        .fixed_sum = ARENA_ARRAY(arena, double, rows),
        .fixed_size = ARENA_ARRAY(arena, double, rows),
        .base_cost = ARENA_ARRAY(arena, double, columns),
        .change_row = ARENA_ARRAY(arena, int, cells_of(program)),
        .rise = ARENA_ARRAY(arena, int, cells_of(program)),
    };
    start = has_shape(start, whole) ? start : NULL;
    for (int at = 0; at < cells_of(program); at++)
        steady->change_row[at] = -1;
    for (int i = 0; i < rows; i++)
        steady->row_of[i] = -1;
    for (int j = 0; j < columns; j++)
        fixed[j] = steady_is_held(steady, steady_block_of(program, j)) ? value[j] : 0.0;
    row_sums(steady, fixed, steady->fixed_sum, steady->fixed_size);
    steady_keep_columns(steady, solution, start);
    keep_rows(steady, solution, start);
    add_cost(steady, most);
    add_changes(steady);
    steady_price_columns(steady);
    if (start)
        bar_again(steady, start);
    steady->best.basis = start ? basis_from(steady, start) : first_basis(steady, solution);
}
