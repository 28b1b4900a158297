#include "planner/block_parts.h"
#include <math.h>
#include <string.h>

#define SCALING_PASSES 2
#define LEAST_SCALED 0.5 /* a column of small terms stays so: its cost would grow with them */

#define ROOT_OF_HALF 0.70710678118654752

static double power_of_two_near(double value) {
    int exponent;
    if (value <= 0.0)
        return 1.0;
    return frexp(value, &exponent) < ROOT_OF_HALF ? ldexp(1.0, exponent - 1)
                                                  : ldexp(1.0, exponent);
}

static int dense_of(const Block *block) {
    return block->program.columns - block->program.singles;
}

static double *terms_of(const Block *block, int row) {
    return &block->program.term[(size_t)row * (size_t)dense_of(block)];
}

static double largest_of(double a, double b) { return a > b ? a : b; }

static void scale_rows(Block *block, double *largest) {
    const SmallProgram *program = &block->program;
    const int dense = dense_of(block);
    for (int i = 0; i < program->rows; i++) {
        largest[i] = 0.0;
        for (int j = 0; j < dense; j++)
            largest[i] = largest_of(largest[i], fabs(terms_of(block, i)[j]));
    }
    for (int k = 0; k < program->singles; k++) {
        double *of = &largest[program->single_row[k]];
        *of = largest_of(*of, fabs(program->single_term[k]));
    }
    for (int i = 0; i < program->rows; i++) {
        largest[i] = 1.0 / power_of_two_near(largest[i]);
        for (int j = 0; j < dense; j++)
            terms_of(block, i)[j] *= largest[i];
        block->row_scale[i] *= largest[i];
    }
    for (int k = 0; k < program->singles; k++)
        program->single_term[k] *= largest[program->single_row[k]];
}

static void scale_columns(Block *block, double *largest) {
    const SmallProgram *program = &block->program;
    const int dense = dense_of(block);
    for (int j = 0; j < program->columns; j++)
        largest[j] = j < dense
                         ? LEAST_SCALED
                         : largest_of(fabs(program->single_term[j - dense]), LEAST_SCALED);
    for (int i = 0; i < program->rows; i++) {
        for (int j = 0; j < dense; j++)
            largest[j] = largest_of(largest[j], fabs(terms_of(block, i)[j]));
    }
    for (int j = 0; j < program->columns; j++) {
        largest[j] = 1.0 / power_of_two_near(largest[j]);
        block->column_scale[j] *= largest[j];
    }
    for (int i = 0; i < program->rows; i++) {
        for (int j = 0; j < dense; j++)
            terms_of(block, i)[j] *= largest[j];
    }
    for (int k = 0; k < program->singles; k++)
        program->single_term[k] *= largest[dense + k];
}

/* Rows, then columns, brought to a largest term near one, by powers of two so that nothing is
 * rounded. `largest` has room for either. */
static void scale_terms(Block *block, double *largest) {
    for (int i = 0; i < block->program.rows; i++)
        block->row_scale[i] = 1.0;
    for (int j = 0; j < block->program.columns; j++)
        block->column_scale[j] = 1.0;
    for (int pass = 0; pass < SCALING_PASSES; pass++) {
        scale_rows(block, largest);
        scale_columns(block, largest);
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
    const int singles = block->program.singles;
    block->program.term = ARENA_ARRAY(arena, double, rows *(columns - singles));
    block->program.single_row = ARENA_ARRAY(arena, int, singles);
    block->program.single_term = ARENA_ARRAY(arena, double, singles);
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
    block->value = ARENA_ARRAY(arena, double, columns);
    block->tie_start = ARENA_ARRAY(arena, int, columns + 1);
    block->tie = ARENA_ARRAY(arena, int, ties);
    block->tie_term = ARENA_ARRAY(arena, double, ties);
    small_basis_reset(&block->program, &block->basis);
}

/* Whether a column has one term beside those in tying rows. */
static bool is_single(const BlockParts *parts, int column) {
    int own = 0;
    for (int k = parts->terms.start[column]; k < parts->terms.start[column + 1]; k++)
        own += parts->tie_of_row[parts->terms.row[k]] < 0;
    return own == 1;
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
        parts->blocks[block].program.singles += is_single(parts, j);
        for (int k = parts->terms.start[j]; k < parts->terms.start[j + 1]; k++)
            ties[block] += parts->tie_of_row[parts->terms.row[k]] >= 0;
    }
}

static void set_term(Block *block, int row, int place, double coefficient) {
    const int dense = dense_of(block);
    if (place < dense) {
        terms_of(block, row)[place] = coefficient;
        return;
    }
    block->program.single_row[place - dense] = row;
    block->program.single_term[place - dense] = coefficient;
}

/* Columns come in the order of their places. False when one reaches into a row that is not its
 * block's. */
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
            set_term(block, place_of_row[row], place, parts->terms.coefficient[k]);
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

/* Rows, then columns, the single ones last. */
static bool place_parts(BlockParts *parts, int *placed, int *place_of_row) {
    const BlockShape *shape = &parts->shape;
    for (int i = 0; i < shape->row_count; i++) {
        const int block = shape->block_of_row[i];
        if (block < 0)
            continue;
        place_of_row[i] = placed[block]++;
        parts->blocks[block].row[place_of_row[i]] = i;
    }
    memset(placed, 0, (size_t)shape->block_count * sizeof *placed);
    for (int singles = 0; singles < 2; singles++) {
        for (int j = 0; j < shape->column_count; j++) {
            const int block = shape->block_of_column[j];
            if (is_single(parts, j) != (singles == 1))
                continue;
            const int place = block >= 0 ? placed[block]++ : 0;
            if (!isfinite(lp_column_least(parts->lp, j)) ||
                !place_column(parts, j, place, place_of_row))
                return false;
        }
    }
    return true;
}

static void list_families(Arena *arena, BlockParts *parts) {
    const BlockShape *shape = &parts->shape;
    parts->family_start = ARENA_ARRAY(arena, int, shape->family_count + 1);
    parts->member = ARENA_ARRAY(arena, int, shape->block_count);
    for (int b = 0; b < shape->block_count; b++)
        parts->family_start[shape->family_of_block[b] + 1]++;
    for (int f = 0; f < shape->family_count; f++)
        parts->family_start[f + 1] += parts->family_start[f];
    int *next = ARENA_ARRAY(arena, int, shape->family_count);
    for (int b = 0; b < shape->block_count; b++) {
        const int family = shape->family_of_block[b];
        parts->member[parts->family_start[family] + next[family]++] = b;
    }
}

static int larger(int a, int b) { return a > b ? a : b; }

/* The terms of the columns of no block: those of the others are in the blocks. */
static LpTerms own_terms(Arena *arena, const BlockParts *parts) {
    const LpTerms *all = &parts->terms;
    const int columns = parts->shape.column_count;
    int count = 0;
    for (int c = 0; c < parts->own_count; c++)
        count += all->start[parts->own_column[c] + 1] - all->start[parts->own_column[c]];
    LpTerms own = {ARENA_ARRAY(arena, int, columns + 1), ARENA_ARRAY(arena, int, count),
                   ARENA_ARRAY(arena, double, count)};
    count = 0;
    for (int j = 0; j < columns; j++) {
        own.start[j] = count;
        for (int k = all->start[j];
             parts->shape.block_of_column[j] < 0 && k < all->start[j + 1]; k++) {
            own.row[count] = all->row[k];
            own.coefficient[count++] = all->coefficient[k];
        }
    }
    own.start[columns] = count;
    return own;
}

BlockParts *block_parts(Arena *arena, const LinearProgram *lp, const BlockShape *shape) {
    BlockParts *parts = ARENA_NEW(arena, BlockParts);
    Arena *scratch = arena_open();
    *parts = (BlockParts){.lp = lp,
                          .shape = *shape,
                          .terms = lp_terms(lp, scratch),
                          .blocks = ARENA_ARRAY(arena, Block, shape->block_count)};
    int *ties = ARENA_ARRAY(arena, int, shape->block_count);
    count_parts(arena, parts, ties);
    int most_rows = 1;
    int most_columns = 1;
    for (int b = 0; b < shape->block_count; b++) {
        make_room(arena, &parts->blocks[b], ties[b]);
        most_rows = larger(most_rows, parts->blocks[b].program.rows);
        most_columns = larger(most_columns, parts->blocks[b].program.columns);
    }
    list_families(arena, parts);
    const bool is_placed = place_parts(parts, ARENA_ARRAY(scratch, int, shape->block_count),
                                       ARENA_ARRAY(scratch, int, shape->row_count));
    double *largest = ARENA_ARRAY(scratch, double, larger(most_rows, most_columns));
    for (int b = 0; is_placed && b < shape->block_count; b++) {
        scale_terms(&parts->blocks[b], largest);
        scale_bounds(&parts->blocks[b], lp);
    }
    parts->terms = own_terms(arena, parts);
    arena_close(scratch);
    if (!is_placed)
        return NULL;
    parts->work = small_work(arena, most_rows, most_columns);
    parts->priced = ARENA_ARRAY(arena, double, most_columns);
    return parts;
}
