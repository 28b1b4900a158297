#include "planner/block_parts.h"
#include <math.h>
#include <string.h>

#define SCALING_PASSES 2
#define LEAST_SCALED 0.5 /* a column of small terms stays so: its cost would grow with them */

static double power_of_two_near(double value) {
    return value > 0.0 ? exp2(round(log2(value))) : 1.0;
}

static double *terms_of(const Block *block, int row) {
    return &block->program.term[(size_t)row * (size_t)block->program.columns];
}

/* Rows, then columns, brought to a largest term near one, by powers of two so that nothing is
 * rounded. */
static void scale_terms(Block *block) {
    const int rows = block->program.rows;
    const int columns = block->program.columns;
    for (int i = 0; i < rows; i++)
        block->row_scale[i] = 1.0;
    for (int j = 0; j < columns; j++)
        block->column_scale[j] = 1.0;
    for (int pass = 0; pass < SCALING_PASSES; pass++) {
        for (int i = 0; i < rows; i++) {
            double *terms = terms_of(block, i);
            double largest = 0.0;
            for (int j = 0; j < columns; j++)
                largest = fmax(largest, fabs(terms[j]));
            const double by = power_of_two_near(largest);
            for (int j = 0; j < columns; j++)
                terms[j] /= by;
            block->row_scale[i] /= by;
        }
        for (int j = 0; j < columns; j++) {
            double largest = 0.0;
            for (int i = 0; i < rows; i++)
                largest = fmax(largest, fabs(terms_of(block, i)[j]));
            const double by = power_of_two_near(fmax(largest, LEAST_SCALED));
            for (int i = 0; i < rows; i++)
                terms_of(block, i)[j] /= by;
            block->column_scale[j] /= by;
        }
    }
}

static void scale_bounds(Block *block, const LinearProgram *lp) {
    SmallProgram *program = &block->program;
    for (int i = 0; i < program->rows; i++) {
        program->row_least[i] = lp_row_least(lp, block->row[i]) * block->row_scale[i];
        program->row_most[i] = lp_row_most(lp, block->row[i]) * block->row_scale[i];
    }
    for (int j = 0; j < program->columns; j++) {
        program->least[j] = lp_column_least(lp, block->column[j]) / block->column_scale[j];
        program->most[j] = lp_column_most(lp, block->column[j]) / block->column_scale[j];
        block->cost[j] = lp_cost(lp, block->column[j]) * block->column_scale[j];
        for (int k = block->tie_start[j]; k < block->tie_start[j + 1]; k++)
            block->tie_term[k] *= block->column_scale[j];
    }
}

static void make_room(Arena *arena, Block *block, int ties) {
    const int rows = block->program.rows;
    const int columns = block->program.columns;
    block->program.term = ARENA_ARRAY(arena, double, rows *columns);
    block->program.row_least = ARENA_ARRAY(arena, double, rows);
    block->program.row_most = ARENA_ARRAY(arena, double, rows);
    block->program.least = ARENA_ARRAY(arena, double, columns);
    block->program.most = ARENA_ARRAY(arena, double, columns);
    block->basis.row = ARENA_ARRAY(arena, unsigned char, rows);
    block->basis.column = ARENA_ARRAY(arena, unsigned char, columns);
    block->row = ARENA_ARRAY(arena, int, rows);
    block->column = ARENA_ARRAY(arena, int, columns);
    block->row_scale = ARENA_ARRAY(arena, double, rows);
    block->column_scale = ARENA_ARRAY(arena, double, columns);
    block->cost = ARENA_ARRAY(arena, double, columns);
    block->tie_start = ARENA_ARRAY(arena, int, columns + 1);
    block->tie = ARENA_ARRAY(arena, int, ties);
    block->tie_term = ARENA_ARRAY(arena, double, ties);
    small_basis_reset(&block->program, &block->basis);
}

/* Counts rows, columns and tying terms of each block, and lists what is of none. */
static void count_parts(Arena *arena, BlockParts *parts, int *ties) {
    const BlockShape *shape = &parts->shape;
    const int rows = lp_row_count(parts->lp);
    const int columns = lp_column_count(parts->lp);
    parts->tie_row = ARENA_ARRAY(arena, int, rows);
    parts->tie_of_row = ARENA_ARRAY(arena, int, rows);
    parts->own_column = ARENA_ARRAY(arena, int, columns);
    for (int i = 0; i < rows; i++) {
        const int block = shape->block_of_row[i];
        parts->tie_of_row[i] = block < 0 ? parts->tie_count : -1;
        if (block < 0)
            parts->tie_row[parts->tie_count++] = i;
        else
            parts->blocks[block].program.rows++;
    }
    for (int j = 0; j < columns; j++) {
        const int block = shape->block_of_column[j];
        if (block < 0) {
            parts->own_column[parts->own_count++] = j;
            continue;
        }
        parts->blocks[block].program.columns++;
        for (int k = parts->terms.start[j]; k < parts->terms.start[j + 1]; k++)
            ties[block] += parts->tie_of_row[parts->terms.row[k]] >= 0;
    }
}

/* False when a column reaches into a row that is not its block's. */
static bool place_column(BlockParts *parts, int column, int place, const int *place_of_row) {
    const int number = parts->shape.block_of_column[column];
    Block *block = number >= 0 ? &parts->blocks[number] : NULL;
    int ties = block ? block->tie_start[place] : 0;
    for (int k = parts->terms.start[column]; k < parts->terms.start[column + 1]; k++) {
        const int row = parts->terms.row[k];
        const int tie = parts->tie_of_row[row];
        if (tie < 0 && parts->shape.block_of_row[row] != number)
            return false;
        if (!block)
            continue;
        if (tie < 0) {
            terms_of(block, place_of_row[row])[place] = parts->terms.coefficient[k];
            continue;
        }
        block->tie[ties] = tie;
        block->tie_term[ties++] = parts->terms.coefficient[k];
    }
    if (block) {
        block->column[place] = column;
        block->tie_start[place + 1] = ties;
    }
    return true;
}

BlockParts *block_parts(Arena *arena, const LinearProgram *lp, const BlockShape *shape) {
    BlockParts *parts = ARENA_NEW(arena, BlockParts);
    const int rows = lp_row_count(lp);
    const int columns = lp_column_count(lp);
    *parts = (BlockParts){.lp = lp,
                          .shape = *shape,
                          .terms = lp_terms(lp, arena),
                          .blocks = ARENA_ARRAY(arena, Block, shape->block_count)};
    int *ties = ARENA_ARRAY(arena, int, shape->block_count);
    count_parts(arena, parts, ties);
    int most_rows = 1;
    int most_columns = 1;
    for (int b = 0; b < shape->block_count; b++) {
        make_room(arena, &parts->blocks[b], ties[b]);
        most_rows = parts->blocks[b].program.rows > most_rows ? parts->blocks[b].program.rows
                                                              : most_rows;
        most_columns = parts->blocks[b].program.columns > most_columns
                           ? parts->blocks[b].program.columns
                           : most_columns;
    }
    int *placed = ARENA_ARRAY(arena, int, shape->block_count);
    int *place_of_row = ARENA_ARRAY(arena, int, rows);
    for (int i = 0; i < rows; i++) {
        const int block = shape->block_of_row[i];
        if (block < 0)
            continue;
        place_of_row[i] = placed[block]++;
        parts->blocks[block].row[place_of_row[i]] = i;
    }
    memset(placed, 0, (size_t)shape->block_count * sizeof *placed);
    for (int j = 0; j < columns; j++) {
        const int block = shape->block_of_column[j];
        const int place = block >= 0 ? placed[block]++ : 0;
        if (!isfinite(lp_column_least(lp, j)) || !place_column(parts, j, place, place_of_row))
            return NULL;
    }
    for (int b = 0; b < shape->block_count; b++) {
        scale_terms(&parts->blocks[b]);
        scale_bounds(&parts->blocks[b], lp);
    }
    parts->work = small_work(arena, most_rows, most_columns);
    parts->priced = ARENA_ARRAY(arena, double, most_columns);
    parts->found_column = ARENA_ARRAY(arena, int, columns);
    parts->found_value = ARENA_ARRAY(arena, double, columns);
    return parts;
}

void block_parts_price(BlockParts *parts, const Block *block, const double *price) {
    for (int j = 0; j < block->program.columns; j++) {
        parts->priced[j] = block->cost[j];
        for (int k = block->tie_start[j]; k < block->tie_start[j + 1]; k++)
            parts->priced[j] -= block->tie_term[k] * price[block->tie[k]];
    }
}

static LpStatus solve_block(BlockParts *parts, Block *block, const double *price) {
    block_parts_price(parts, block, price);
    return small_solve(parts->work, &block->program, parts->priced, &block->basis);
}

/* The same within the block's rule. */
static LpStatus choose_block(BlockParts *parts, Block *block, const double *price,
                             Proposal *proposal) {
    block_parts_price(parts, block, price);
    const SmallChoice choice = small_choose(parts->chooser, &block->program, parts->priced,
                                            &block->basis, block->rule);
    proposal->over += choice.cost - choice.bound;
    return choice.status;
}

static void add_to_proposal(BlockParts *parts, const Block *block, const double *value,
                            Proposal *proposal) {
    for (int j = 0; j < block->program.columns; j++) {
        if (value[j] == 0.0)
            continue;
        proposal->cost += block->cost[j] * value[j];
        for (int k = block->tie_start[j]; k < block->tie_start[j + 1]; k++)
            proposal->use[block->tie[k]] += block->tie_term[k] * value[j];
        parts->found_column[proposal->count] = block->column[j];
        parts->found_value[proposal->count++] = value[j] * block->column_scale[j];
    }
}

LpStatus block_parts_propose(BlockParts *parts, Arena *arena, int family, const double *price,
                             Proposal *proposal) {
    *proposal = (Proposal){.use = ARENA_ARRAY(arena, double, parts->tie_count)};
    for (int b = 0; b < parts->shape.block_count; b++) {
        if (parts->shape.family_of_block[b] != family)
            continue;
        Block *block = &parts->blocks[b];
        const LpStatus status = block->rule ? choose_block(parts, block, price, proposal)
                                            : solve_block(parts, block, price);
        if (status != LP_OPTIMAL)
            return status;
        add_to_proposal(parts, block,
                        block->rule ? small_chosen(parts->chooser) : small_values(parts->work),
                        proposal);
    }
    const size_t count = (size_t)proposal->count;
    proposal->column = ARENA_ARRAY(arena, int, count);
    proposal->value = ARENA_ARRAY(arena, double, count);
    if (count > 0) {
        memcpy(proposal->column, parts->found_column, count * sizeof(int));
        memcpy(proposal->value, parts->found_value, count * sizeof(double));
    }
    return LP_OPTIMAL;
}

LpStatus block_parts_duals(BlockParts *parts, int number, const double *price,
                           double *reduced_cost, double *shadow_price, LpBasis *basis) {
    Block *block = &parts->blocks[number];
    const LpStatus status = solve_block(parts, block, price);
    if (status != LP_OPTIMAL)
        return status;
    for (int j = 0; j < block->program.columns; j++) {
        reduced_cost[block->column[j]] =
            small_reduced_costs(parts->work)[j] / block->column_scale[j];
        basis->column[block->column[j]] = block->basis.column[j];
    }
    for (int i = 0; i < block->program.rows; i++) {
        shadow_price[block->row[i]] = small_row_prices(parts->work)[i] * block->row_scale[i];
        basis->row[block->row[i]] = block->basis.row[i];
    }
    return LP_OPTIMAL;
}
