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
        const int block = shape->block_of_row[lp_stretch(walk.entry).row];
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
        const int block = shape->block_of_row[lp_stretch(walk.entry).row];
        if (block >= 0)
            filling->entry[next[block]++] = walk.entry;
    }
}

BlockFilling block_filling(Arena *arena, const BlockParts *parts, const LinearProgram *lp,
                           const BlockShape *shape) {
    BlockFilling filling = {0};
    int most_terms = 0;
    int most_lines = 0;
    for (int b = 0; b < parts->shape.block_count; b++) {
        const SmallProgram *program = &parts->blocks[b].program;
        most_terms = larger(most_terms, program->rows * dense_columns(program));
        most_lines = larger(most_lines, larger(program->rows, program->columns));
    }
    list_entries(arena, &filling, lp, shape);
    filling.term = ARENA_ARRAY(arena, double, most_terms);
    filling.largest = ARENA_ARRAY(arena, double, most_lines);
    return filling;
}

static double *row_of(const BlockFilling *filling, const Block *block, int row) {
    return filling->term + (size_t)row * (size_t)dense_columns(&block->program);
}

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
    for (int k = 0; k < of.count; k++) {
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
    memset(filling->term, 0,
           (size_t)program->rows * (size_t)dense_columns(program) * sizeof *filling->term);
    memset(program->single_term, 0, (size_t)program->singles * sizeof(double));
    for (int e = filling->start[number]; e < filling->start[number + 1]; e++) {
        if (!add_stretch(parts, block, filling, lp_stretch(filling->entry[e]), is_placed))
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

/* Of each row, into filling->largest; its columns scaled or, with NULL, not. */
static void largest_of_rows(const Block *block, const BlockFilling *filling,
                            const double *scale) {
    const SmallProgram *program = &block->program;
    const int dense = dense_columns(program);
    for (int i = 0; i < program->rows; i++) {
        const double *terms = row_of(filling, block, i);
        double of_row = 0.0;
        for (int j = 0; j < dense; j++)
            of_row = largest_of(of_row, fabs(terms[j]) * (scale ? scale[j] : 1.0));
        filling->largest[i] = of_row;
    }
    for (int k = 0; k < program->singles; k++) {
        double *of = &filling->largest[program->single_row[k]];
        *of = largest_of(*of, fabs(program->single_term[k]) * (scale ? scale[dense + k] : 1.0));
    }
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

static void drop_leavings(const Block *block, const BlockFilling *filling) {
    const SmallProgram *program = &block->program;
    const int dense = dense_columns(program);
    for (int i = 0; i < program->rows; i++) {
        double *terms = row_of(filling, block, i);
        for (int j = 0; j < dense; j++) {
            if (fabs(terms[j]) <= LP_LEAVINGS * filling->largest[i])
                terms[j] = 0.0;
        }
    }
}

/* Rows, then columns, brought to a largest term near one, by powers of two so that nothing is
 * rounded. */
static void find_scales(const Block *block, const BlockFilling *filling) {
    for (int pass = 0; pass < SCALING_PASSES; pass++) {
        if (pass > 0)
            largest_of_rows(block, filling, block->column_scale);
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

static void scale_terms(const Block *block, const BlockFilling *filling) {
    const SmallProgram *program = &block->program;
    const int dense = dense_columns(&block->program);
    for (int i = 0; i < program->rows; i++) {
        double *terms = row_of(filling, block, i);
        for (int j = 0; j < dense; j++)
            terms[j] *= block->row_scale[i] * block->column_scale[j];
    }
    for (int k = 0; k < program->singles; k++)
        program->single_term[k] *=
            block->row_scale[program->single_row[k]] * block->column_scale[dense + k];
    for (int j = 0; j < program->columns; j++) {
        for (int k = block->tie_start[j]; k < block->tie_start[j + 1]; k++)
            block->tie_term[k] *= block->column_scale[j];
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
    if (!bring_together(parts, number, filling, has_scales))
        return false;
    largest_of_rows(block, filling, NULL);
    drop_leavings(block, filling);
    if (!has_scales)
        find_scales(block, filling);
    scale_terms(block, filling);
    for (int i = 0; i < block->program.rows; i++)
        block->term[i] = block_rows_keep(parts->rows, row_of(filling, block, i),
                                         dense_columns(&block->program));
    return true;
}
