/* The terms of the blocks: as they were added, brought together in rows, scaled, and kept where
 * rows of one content are one. */
#include "planner/block_parts.h"
#include <math.h>
#include <string.h>

#define SCALING_PASSES 2
#define LEAST_SCALED 0.5 /* a column of small terms stays so: its cost would grow with them */

#define ROOT_OF_HALF 0.70710678118654752

/* ---- what was added to the rows of each block ---- */

static int larger(int a, int b) { return a > b ? a : b; }

static void list_entries(Arena *arena, BlockFilling *filling, const LinearProgram *lp,
                         const BlockShape *shape) {
    int *next = ARENA_ARRAY(arena, int, shape->block_count);
    filling->start = ARENA_ARRAY(arena, int, shape->block_count + 1);
    for (LpWalk walk = lp_walk(lp); lp_walk_on(&walk);) {
        const int block = shape->block_of_row[lp_stretch(lp, walk.entry).row];
        if (block >= 0)
            filling->start[block + 1]++;
    }
    for (int b = 0; b < shape->block_count; b++) {
        filling->start[b + 1] += filling->start[b];
        next[b] = filling->start[b];
    }
    filling->entry =
        ARENA_ARRAY(arena, const struct LpEntry *, filling->start[shape->block_count]);
    for (LpWalk walk = lp_walk(lp); lp_walk_on(&walk);) {
        const int block = shape->block_of_row[lp_stretch(lp, walk.entry).row];
        if (block >= 0)
            filling->entry[next[block]++] = walk.entry;
    }
}

BlockFilling block_filling(Arena *arena, const BlockParts *parts, const LinearProgram *lp,
                           const BlockShape *shape) {
    BlockFilling filling = {.lp = lp};
    int most_rows = 0;
    int most_columns = 0;
    for (int b = 0; b < parts->shape.block_count; b++) {
        const SmallProgram *program = &parts->blocks[b].program;
        most_rows = larger(most_rows, program->rows);
        most_columns = larger(most_columns, program->columns);
    }
    list_entries(arena, &filling, lp, shape);
    filling.term = ARENA_ARRAY(arena, double, most_rows *most_columns);
    filling.scaled = ARENA_ARRAY(arena, double, most_columns);
    filling.largest = ARENA_ARRAY(arena, double, larger(most_rows, most_columns));
    filling.dense_largest = ARENA_ARRAY(arena, double, most_rows);
    filling.dense_least = ARENA_ARRAY(arena, double, most_rows);
    filling.source = ARENA_ARRAY(arena, const double *, most_rows);
    filling.last_source = ARENA_ARRAY(arena, const double *, most_rows);
    filling.stretches = ARENA_ARRAY(arena, int, most_rows);
    filling.is_shared = ARENA_ARRAY(arena, bool, most_rows);
    filling.layout = ARENA_ARRAY(arena, int, most_columns);
    filling.last_layout = ARENA_ARRAY(arena, int, most_columns);
    return filling;
}

static double *row_of(const BlockFilling *filling, const Block *block, int row) {
    return filling->term + (size_t)row * (size_t)dense_columns(&block->program);
}

/* ---- which rows are those of the block before ---- */

/* The places of the columns that stretches of many terms are over, if all are of the block's
 * dense ones; count 0: they are not. */
static void find_layout(const BlockParts *parts, int number, BlockFilling *filling) {
    const Block *block = &parts->blocks[number];
    const int dense = dense_columns(&block->program);
    filling->over = (LpStretch){0};
    for (int e = filling->start[number]; e < filling->start[number + 1]; e++) {
        const LpStretch of = lp_stretch(filling->lp, filling->entry[e]);
        if (of.count < 2 || of.count > dense)
            continue;
        for (int k = 0; k < of.count; k++) {
            filling->layout[k] = parts->place_of_column[of.column[k]];
            if (filling->layout[k] >= dense ||
                block->column[filling->layout[k]] != of.column[k])
                return;
        }
        filling->over = of;
        return;
    }
}

/* Of each row the coefficients that it has alone, over the columns of the layout; NULL: others
 * too, or none. */
static void find_sources(const BlockParts *parts, int number, BlockFilling *filling) {
    const Block *block = &parts->blocks[number];
    const int dense = dense_columns(&block->program);
    for (int i = 0; i < block->program.rows; i++) {
        filling->source[i] = NULL;
        filling->stretches[i] = 0;
    }
    for (int e = filling->start[number]; e < filling->start[number + 1]; e++) {
        const LpStretch of = lp_stretch(filling->lp, filling->entry[e]);
        const int row = parts->place_of_row[of.row];
        if (of.count == 1 && parts->place_of_column[of.column[0]] >= dense)
            continue;
        const bool is_alone = ++filling->stretches[row] == 1 &&
                              of.column == filling->over.column &&
                              of.count == filling->over.count;
        filling->source[row] = is_alone ? of.coefficient : NULL;
    }
}

static bool has_layout_of_last(const BlockFilling *filling, const Block *block) {
    const Block *last = filling->last;
    return last && filling->over.count > 0 &&
           filling->over.count == filling->last_layout_count &&
           dense_columns(&last->program) == dense_columns(&block->program) &&
           memcmp(filling->layout, filling->last_layout,
                  (size_t)filling->over.count * sizeof *filling->layout) == 0;
}

/* Its terms then stand there already. */
static void find_shared_rows(const BlockParts *parts, int number, BlockFilling *filling) {
    const Block *block = &parts->blocks[number];
    find_layout(parts, number, filling);
    find_sources(parts, number, filling);
    const bool is_alike = has_layout_of_last(filling, block);
    for (int i = 0; i < block->program.rows; i++)
        filling->is_shared[i] = is_alike && i < filling->last->program.rows &&
                                filling->source[i] &&
                                filling->source[i] == filling->last_source[i];
}

/* What it was filled with is what the next may share. */
static void keep_as_last(BlockFilling *filling, const Block *block) {
    const double **source = filling->last_source;
    int *layout = filling->last_layout;
    filling->last = block;
    filling->last_source = filling->source;
    filling->source = source;
    filling->last_layout = filling->layout;
    filling->layout = layout;
    filling->last_layout_count = filling->over.count;
}

/* ---- the terms of one block ---- */

/* A column of one term has it in the row where it stands first. */
static bool add_single(const Block *block, int single, int row, double coefficient,
                       bool is_placed) {
    if (!is_placed)
        block->program.single_row[single] = row;
    block->program.single_term[single] += coefficient;
    return block->program.single_row[single] == row;
}

static bool add_stretch(const BlockParts *parts, const Block *block,
                        const BlockFilling *filling, LpStretch of, bool is_placed) {
    const int row = parts->place_of_row[of.row];
    const int dense = dense_columns(&block->program);
    double *terms = row_of(filling, block, row);
    const bool is_there = filling->is_shared[row] && of.count > 1;
    for (int k = 0; !is_there && k < of.count; k++) {
        if (of.coefficient[k] == 0.0)
            continue;
        const int place = parts->place_of_column[of.column[k]];
        if (place >= block->program.columns || block->column[place] != of.column[k])
            return false;
        if (place < dense)
            terms[place] += of.coefficient[k];
        else if (!add_single(block, place - dense, row, of.coefficient[k], is_placed))
            return false;
    }
    return true;
}

static bool bring_together(const BlockParts *parts, int number, const BlockFilling *filling,
                           bool is_placed) {
    const Block *block = &parts->blocks[number];
    const SmallProgram *program = &block->program;
    const size_t dense = (size_t)dense_columns(program);
    for (int i = 0; i < program->rows; i++) {
        if (!filling->is_shared[i])
            memset(row_of(filling, block, i), 0, dense * sizeof *filling->term);
    }
    memset(program->single_term, 0, (size_t)program->singles * sizeof(double));
    for (int e = filling->start[number]; e < filling->start[number + 1]; e++) {
        if (!add_stretch(parts, block, filling, lp_stretch(filling->lp, filling->entry[e]),
                         is_placed))
            return false;
    }
    return true;
}

/* ---- scales ---- */

static double power_of_two_near(double value) {
    int exponent;
    if (value <= 0.0)
        return 1.0;
    return frexp(value, &exponent) < ROOT_OF_HALF ? ldexp(1.0, exponent - 1)
                                                  : ldexp(1.0, exponent);
}

static double largest_of(double a, double b) { return a > b ? a : b; }

/* The largest of terms times their scales. */
static double largest_scaled(const double *terms, const double *scale, int count) {
    double a = 0.0;
    double b = 0.0;
    int j = 0;
    for (; j + 1 < count; j += 2) {
        a = largest_of(a, fabs(terms[j]) * scale[j]);
        b = largest_of(b, fabs(terms[j + 1]) * scale[j + 1]);
    }
    if (j < count)
        a = largest_of(a, fabs(terms[j]) * scale[j]);
    return largest_of(a, b);
}

static void largest_with_singles(const Block *block, const BlockFilling *filling,
                                 const double *scale) {
    const SmallProgram *program = &block->program;
    const int dense = dense_columns(program);
    for (int k = 0; k < program->singles; k++) {
        double *of = &filling->largest[program->single_row[k]];
        *of = largest_of(*of, fabs(program->single_term[k]) * (scale ? scale[dense + k] : 1.0));
    }
}

/* Of each row, with its columns scaled. */
static void largest_of_rows(const Block *block, const BlockFilling *filling) {
    const SmallProgram *program = &block->program;
    for (int i = 0; i < program->rows; i++)
        filling->largest[i] = largest_scaled(row_of(filling, block, i), block->column_scale,
                                             dense_columns(program));
    largest_with_singles(block, filling, block->column_scale);
}

/* The same of the terms as they are; those of shared rows are known. */
static void largest_unscaled(const Block *block, const BlockFilling *filling) {
    const SmallProgram *program = &block->program;
    const int dense = dense_columns(program);
    for (int i = 0; i < program->rows; i++) {
        if (!filling->is_shared[i]) {
            const double *terms = row_of(filling, block, i);
            double largest = 0.0;
            double least = HUGE_VAL;
            for (int j = 0; j < dense; j++) {
                const double size = fabs(terms[j]);
                largest = largest_of(largest, size);
                least = size > 0.0 && size < least ? size : least;
            }
            filling->dense_largest[i] = largest;
            filling->dense_least[i] = least;
        }
        filling->largest[i] = filling->dense_largest[i];
    }
    largest_with_singles(block, filling, NULL);
}

static void largest_of_columns(const Block *block, const BlockFilling *filling) {
    const SmallProgram *program = &block->program;
    const int dense = dense_columns(&block->program);
    double *largest = filling->largest;
    for (int j = 0; j < dense; j++)
        largest[j] = 0.0;
    for (int k = 0; k < program->singles; k++)
        largest[dense + k] =
            fabs(program->single_term[k]) * block->row_scale[program->single_row[k]];
    for (int i = 0; i < program->rows; i++) {
        const double *terms = row_of(filling, block, i);
        const double scale = block->row_scale[i];
        for (int j = 0; j < dense; j++)
            largest[j] = largest_of(largest[j], fabs(terms[j]) * scale);
    }
}

/* A row of which anything was dropped is no longer what it was made of. */
static void drop_leavings(const Block *block, const BlockFilling *filling) {
    const SmallProgram *program = &block->program;
    const int dense = dense_columns(program);
    for (int i = 0; i < program->rows; i++) {
        const double leavings = LP_LEAVINGS * filling->largest[i];
        if (filling->dense_least[i] > leavings)
            continue;
        double *terms = row_of(filling, block, i);
        for (int j = 0; j < dense; j++)
            terms[j] = fabs(terms[j]) <= leavings ? 0.0 : terms[j];
        filling->source[i] = NULL;
        filling->is_shared[i] = false;
    }
}

/* Rows, then columns, brought to a largest term near one, by powers of two so that nothing is
 * rounded. */
static void find_scales(const Block *block, const BlockFilling *filling) {
    for (int pass = 0; pass < SCALING_PASSES; pass++) {
        if (pass > 0)
            largest_of_rows(block, filling);
        for (int i = 0; i < block->program.rows; i++)
            block->row_scale[i] = 1.0 / power_of_two_near(filling->largest[i]);
        largest_of_columns(block, filling);
        for (int j = 0; j < block->program.columns; j++) {
            const double before = pass > 0 ? block->column_scale[j] : 1.0;
            block->column_scale[j] =
                1.0 / power_of_two_near(largest_of(filling->largest[j], LEAST_SCALED / before));
        }
    }
}

static void scale_few(const Block *block) {
    const SmallProgram *program = &block->program;
    const int dense = dense_columns(&block->program);
    for (int k = 0; k < program->singles; k++)
        program->single_term[k] *=
            block->row_scale[program->single_row[k]] * block->column_scale[dense + k];
    for (int j = 0; j < program->columns; j++) {
        for (int k = block->tie_start[j]; k < block->tie_start[j + 1]; k++)
            block->tie_term[k] *= block->column_scale[j];
    }
}

/* The rows of the program, scaled; those that are scaled as in the last block are its own. */
static void keep_rows(BlockParts *parts, const Block *block, const BlockFilling *filling) {
    const int dense = dense_columns(&block->program);
    const Block *last = filling->last;
    const bool has_same_columns = last && dense_columns(&last->program) == dense &&
                                  memcmp(block->column_scale, last->column_scale,
                                         (size_t)dense * sizeof *block->column_scale) == 0;
    for (int i = 0; i < block->program.rows; i++) {
        const double scale = block->row_scale[i];
        if (has_same_columns && filling->is_shared[i] && scale == last->row_scale[i]) {
            block->term[i] = last->term[i];
            continue;
        }
        const double *terms = row_of(filling, block, i);
        for (int j = 0; j < dense; j++)
            filling->scaled[j] = terms[j] * (scale * block->column_scale[j]);
        block->term[i] = shared_rows_keep(parts->rows, filling->scaled, dense);
    }
}

void block_scale_bounds(Block *block, const LinearProgram *lp) {
    SmallProgram *program = &block->program;
    for (int i = 0; i < program->rows; i++) {
        program->row_least[i] = lp_row_least(lp, block->row[i]) * block->row_scale[i];
        program->row_most[i] = lp_row_most(lp, block->row[i]) * block->row_scale[i];
    }
    for (int j = 0; j < program->columns; j++) {
        program->least[j] = lp_column_least(lp, block->column[j]) / block->column_scale[j];
        program->most[j] = lp_column_most(lp, block->column[j]) / block->column_scale[j];
        block->cost[j] = lp_cost(lp, block->column[j]) * block->column_scale[j];
    }
}

bool block_fill(BlockParts *parts, int number, BlockFilling *filling, bool has_scales) {
    const Block *block = &parts->blocks[number];
    find_shared_rows(parts, number, filling);
    if (!bring_together(parts, number, filling, has_scales))
        return false;
    largest_unscaled(block, filling);
    drop_leavings(block, filling);
    if (!has_scales)
        find_scales(block, filling);
    scale_few(block);
    keep_rows(parts, block, filling);
    keep_as_last(filling, block);
    return true;
}
