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
        lp_add_row(master, lp_row_least(lp, parts->tie_row[t]),
                   lp_row_most(lp, parts->tie_row[t]));
    for (int f = 0; f < parts->shape.family_count; f++)
        lp_add_row(master, 1.0, 1.0);
    for (int c = 0; c < parts->own_count; c++) {
        const int own = parts->own_column[c];
        const int column = lp_add_column(master, lp_cost(lp, own), lp_column_least(lp, own),
                                         lp_column_most(lp, own));
        for (int k = parts->terms.start[own]; k < parts->terms.start[own + 1]; k++)
            lp_add_term(master, parts->tie_of_row[parts->terms.row[k]], column,
                        parts->terms.coefficient[k]);
    }
    for (int t = 0; t < parts->tie_count; t++) {
        for (int side = 0; side < 2; side++)
            lp_add_term(master, t, lp_add_column(master, program->penalty, 0.0, NO_LIMIT),
                        side == 0 ? -1.0 : 1.0);
    }
    for (int p = 0; p < program->count; p++) {
        const Proposal *proposal = &program->proposals[p];
        const int column = lp_add_column(master, proposal->cost, 0.0, NO_LIMIT);
        for (int t = 0; t < parts->tie_count; t++)
            lp_add_term(master, t, column, proposal->use[t]);
        lp_add_term(master, parts->tie_count + program->family[p], column, 1.0);
    }
    return master;
}

/* Shares, purchases and the basis, of which the scratch arena's are lost. */
static void keep_solution(BlockProgram *program, const LpSolution *solution) {
    const BlockParts *parts = program->parts;
    LpBasis *basis = &program->basis;
    basis->row_count = solution->basis.row_count;
    basis->column_count = solution->basis.column_count;
    memcpy(basis->row, solution->basis.row, (size_t)basis->row_count);
    memcpy(basis->column, solution->basis.column, (size_t)basis->column_count);
    program->has_master = true;
    program->master_cost = solution->cost;
    for (int t = 0; t < parts->tie_count; t++) {
        const double price = solution->shadow_price[t];
        const double bound = price > 0.0 ? lp_row_least(parts->lp, parts->tie_row[t])
                                         : lp_row_most(parts->lp, parts->tie_row[t]);
        program->master_price[t] = isfinite(bound) ? price : 0.0; /* rounding */
    }
    memcpy(program->family_price, solution->shadow_price + parts->tie_count,
           (size_t)parts->shape.family_count * sizeof(double));
    memcpy(program->own_value, solution->value, (size_t)parts->own_count * sizeof(double));
    memcpy(program->share, solution->value + block_master_first(program),
           (size_t)program->count * sizeof(double));
    program->overuse = 0.0;
    for (int t = 0; t < parts->tie_count; t++) {
        const double most = lp_row_most(parts->lp, parts->tie_row[t]);
        const double allowed = 1.0 + (isfinite(most) ? fabs(most) : 0.0);
        for (int side = 0; side < 2; side++)
            program->overuse = fmax(program->overuse,
                                    solution->value[parts->own_count + 2 * t + side] / allowed);
    }
}

LpStatus block_master_solve(BlockProgram *program) {
    Arena *scratch = arena_open();
    const LinearProgram *master = master_program(program, scratch);
    LpBasis *basis = &program->basis;
    const bool has_basis = basis->row_count > 0;
    while (has_basis && basis->column_count < lp_column_count(master))
        basis->column[basis->column_count++] = AT_LEAST;
    LpSolution solution =
        lp_solve_with(master, scratch, has_basis ? START_COSTS_CHANGED : START_COLD,
                      has_basis ? basis : NULL, FINE_CARE);
    program->effort.master_iterations += solution.iterations;
    if (solution.status != LP_OPTIMAL) {
        solution = lp_solve_with(master, scratch, START_COLD, NULL, COARSE_CARE);
        program->effort.master_iterations += solution.iterations;
    }
    if (solution.status == LP_OPTIMAL)
        keep_solution(program, &solution);
    arena_close(scratch);
    return solution.status == LP_OPTIMAL ? LP_OPTIMAL : LP_FAILED;
}

/* ---- proposals ---- */

int block_master_first(const BlockProgram *program) {
    return program->parts->own_count + 2 * program->parts->tie_count;
}

Proposal block_master_proposal(Arena *arena, const BlockParts *parts) {
    return (Proposal){
        .use = ARENA_ARRAY(arena, double, parts->tie_count),
        .price = ARENA_ARRAY(arena, double, parts->tie_count),
        .places = ARENA_ARRAY(arena, unsigned char, parts->most_places),
        .value = parts->chooser ? ARENA_ARRAY(arena, double, parts->most_family_columns) : NULL,
    };
}

static void *enlarged(Arena *arena, const void *items, size_t count, size_t room, size_t size) {
    void *larger = arena_take(arena, room, size);
    if (count > 0)
        memcpy(larger, items, count * size);
    return larger;
}

static void make_room(BlockProgram *program) {
    Arena *arena = program->arena;
    const size_t count = (size_t)program->count;
    const size_t before = (size_t)block_master_first(program);
    const size_t room = count > 0 ? 2 * count : 64;
    program->proposals =
        enlarged(arena, program->proposals, count, room, sizeof *program->proposals);
    program->family = enlarged(arena, program->family, count, room, sizeof *program->family);
    program->share = enlarged(arena, program->share, count, room, sizeof *program->share);
    program->basis.column = enlarged(arena, program->basis.column,
                                     (size_t)program->basis.column_count, before + room, 1);
    program->room = (int)room;
}

void block_master_keep(BlockProgram *program, int family) {
    if (program->count == program->room)
        make_room(program);
    if (program->count == program->made)
        program->proposals[program->made++] =
            block_master_proposal(program->arena, program->parts);
    const Proposal lent = program->proposals[program->count];
    program->proposals[program->count] = program->asked;
    program->asked = lent;
    program->share[program->count] = 0.0;
    program->family[program->count++] = family;
}

/* ---- proposals nobody takes ---- */

static int by_size(const void *a, const void *b) {
    const double left = *(const double *)a;
    const double right = *(const double *)b;
    return (left > right) - (left < right);
}

void block_master_drop_idle(BlockProgram *program) {
    const BlockParts *parts = program->parts;
    const int wanted = MOST_PER_ROW * (parts->tie_count + parts->shape.family_count);
    if (program->basis.row_count == 0 || program->count <= 2 * wanted ||
        program->basis.column_count != block_master_first(program) + program->count)
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
    unsigned char *place = program->basis.column + block_master_first(program);
    for (int p = 0; p < program->count; p++)
        is_dropped[p] = place[p] != BASIC && reduced[p] > sorted[wanted];
    int kept = 0;
    for (int p = 0; p < program->count; p++) {
        if (is_dropped[p])
            continue;
        const Proposal lent = program->proposals[kept];
        program->proposals[kept] = program->proposals[p];
        program->proposals[p] = lent;
        program->share[kept] = program->share[p];
        program->family[kept] = program->family[p];
        place[kept++] = place[p];
    }
    program->count = kept;
    program->basis.column_count = block_master_first(program) + kept;
    arena_close(scratch);
}
