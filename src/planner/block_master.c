#include "planner/block_master.h"
#include "base/quantity.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* So near to rounding the simplex may turn in circles: then once more, as near as is usual. */
#define FINE_CARE ((LpCare){.iteration_limit = 2000, .is_fine = true})
#define COARSE_CARE ((LpCare){.iteration_limit = 20000, .is_fine = false})
#define MOST_PER_ROW 2 /* proposals kept for each row of the master */

double block_priced(const BlockProgram *program, const Proposal *proposal,
                    const double *price) {
    double cost = proposal->cost;
    for (int t = 0; t < program->parts->tie_count; t++)
        cost -= price[t] * proposal->use[t];
    return cost;
}

/* Tying rows, then a row a family; columns of no block, then two that give a tying row more
 * than it has, then the proposals: new ones come last, so that the last basis fits. */
static LinearProgram *master_program(const BlockProgram *program, Arena *arena) {
    const BlockParts *parts = program->parts;
    const LinearProgram *lp = parts->lp;
    LinearProgram *master = lp_new(arena);
    for (int t = 0; t < parts->tie_count; t++)
        lp_add_row(master, "", lp_row_least(lp, parts->tie_row[t]),
                   lp_row_most(lp, parts->tie_row[t]));
    for (int f = 0; f < parts->shape.family_count; f++)
        lp_add_row(master, "", 1.0, 1.0);
    for (int c = 0; c < parts->own_count; c++) {
        const int own = parts->own_column[c];
        const int column = lp_add_column(master, "", lp_cost(lp, own), lp_column_least(lp, own),
                                         lp_column_most(lp, own));
        for (int k = parts->terms.start[own]; k < parts->terms.start[own + 1]; k++)
            lp_add_term(master, parts->tie_of_row[parts->terms.row[k]], column,
                        parts->terms.coefficient[k]);
    }
    for (int t = 0; t < parts->tie_count; t++) {
        for (int side = 0; side < 2; side++)
            lp_add_term(master, t, lp_add_column(master, "", program->penalty, 0.0, NO_LIMIT),
                        side == 0 ? -1.0 : 1.0);
    }
    for (int p = 0; p < program->count; p++) {
        const Proposal *proposal = &program->proposals[p];
        const int column = lp_add_column(master, "", proposal->cost, 0.0, NO_LIMIT);
        for (int t = 0; t < parts->tie_count; t++)
            lp_add_term(master, t, column, proposal->use[t]);
        lp_add_term(master, parts->tie_count + program->family[p], column, 1.0);
    }
    return master;
}

static LpBasis grown_basis(Arena *arena, const LpBasis *basis, int columns) {
    LpBasis grown = {basis->row_count, columns, basis->row,
                     ARENA_ARRAY(arena, unsigned char, columns)};
    memcpy(grown.column, basis->column, (size_t)basis->column_count);
    return grown;
}

LpStatus block_master_solve(BlockProgram *program, Arena *scratch, LpStart how) {
    const BlockParts *parts = program->parts;
    const LinearProgram *master = master_program(program, scratch);
    const bool has_basis = program->basis.row_count > 0;
    const LpBasis start = has_basis
                              ? grown_basis(scratch, &program->basis, lp_column_count(master))
                              : (LpBasis){0};
    LpSolution solution = lp_solve_with(master, program->arena, has_basis ? how : START_COLD,
                                        has_basis ? &start : NULL, FINE_CARE);
    program->effort.master_iterations += solution.iterations;
    if (solution.status != LP_OPTIMAL) {
        solution = lp_solve_with(master, program->arena, START_COLD, NULL, COARSE_CARE);
        program->effort.master_iterations += solution.iterations;
    }
    if (solution.status != LP_OPTIMAL)
        return LP_FAILED;
    program->basis = solution.basis;
    program->master_cost = solution.cost;
    for (int t = 0; t < parts->tie_count; t++) {
        const double price = solution.shadow_price[t];
        const double bound = price > 0.0 ? lp_row_least(parts->lp, parts->tie_row[t])
                                         : lp_row_most(parts->lp, parts->tie_row[t]);
        program->master_price[t] = isfinite(bound) ? price : 0.0; /* rounding */
    }
    memcpy(program->family_price, solution.shadow_price + parts->tie_count,
           (size_t)parts->shape.family_count * sizeof(double));
    program->own_value = solution.value;
    program->share = ARENA_ARRAY(program->arena, double, program->count);
    memcpy(program->share, solution.value + parts->own_count + 2 * parts->tie_count,
           (size_t)program->count * sizeof(double));
    program->overuse = 0.0;
    for (int t = 0; t < parts->tie_count; t++) {
        const double most = lp_row_most(parts->lp, parts->tie_row[t]);
        const double allowed = 1.0 + (isfinite(most) ? fabs(most) : 0.0);
        for (int side = 0; side < 2; side++)
            program->overuse = fmax(program->overuse,
                                    solution.value[parts->own_count + 2 * t + side] / allowed);
    }
    return LP_OPTIMAL;
}

/* ---- proposals nobody takes ---- */

static int by_size(const void *a, const void *b) {
    const double left = *(const double *)a;
    const double right = *(const double *)b;
    return (left > right) - (left < right);
}

/* The basis of the master without the columns that are dropped, none of them basic. */
static LpBasis basis_without(const BlockProgram *program, const bool *is_dropped) {
    const LpBasis *from = &program->basis;
    const int before = from->column_count - program->count;
    LpBasis basis = {from->row_count, before, from->row,
                     ARENA_ARRAY(program->arena, unsigned char, from->column_count)};
    memcpy(basis.column, from->column, (size_t)before);
    for (int p = 0; p < program->count; p++) {
        if (!is_dropped[p])
            basis.column[basis.column_count++] = from->column[before + p];
    }
    return basis;
}

void block_master_drop_idle(BlockProgram *program) {
    const BlockParts *parts = program->parts;
    const int wanted = MOST_PER_ROW * (parts->tie_count + parts->shape.family_count);
    if (program->basis.row_count == 0 || program->count <= 2 * wanted ||
        program->basis.column_count != program->count + parts->own_count + 2 * parts->tie_count)
        return;
    Arena *scratch = arena_open();
    double *reduced = ARENA_ARRAY(scratch, double, program->count);
    double *sorted = ARENA_ARRAY(scratch, double, program->count);
    bool *is_dropped = ARENA_ARRAY(scratch, bool, program->count);
    for (int p = 0; p < program->count; p++)
        reduced[p] = block_priced(program, &program->proposals[p], program->master_price) -
                     program->family_price[program->family[p]];
    memcpy(sorted, reduced, (size_t)program->count * sizeof *sorted);
    qsort(sorted, (size_t)program->count, sizeof *sorted, by_size);
    const unsigned char *place =
        program->basis.column + parts->own_count + 2 * parts->tie_count;
    for (int p = 0; p < program->count; p++)
        is_dropped[p] = place[p] != BASIC && reduced[p] > sorted[wanted];
    program->basis = basis_without(program, is_dropped);
    int kept = 0;
    for (int p = 0; p < program->count; p++) {
        if (is_dropped[p])
            continue;
        program->proposals[kept] = program->proposals[p];
        program->share[kept] = program->share[p];
        program->family[kept++] = program->family[p];
    }
    program->count = kept;
    arena_close(scratch);
}
