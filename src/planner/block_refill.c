/* A program of blocks that was built once is filled with the numbers of another of its shape:
 * places, scales and memory stay, so it takes a quarter of the time that building takes. */
#include "planner/block_master.h"
#include <math.h>
#include <string.h>

/* ---- whether it has the same shape ---- */

static bool has_same_rows(const BlockParts *parts, const BlockShape *shape) {
    for (int i = 0; i < shape->row_count; i++) {
        const int number = shape->block_of_row[i];
        if ((number < 0) != (parts->tie_of_row[i] >= 0))
            return false;
        if (number < 0)
            continue;
        const Block *block = &parts->blocks[number];
        const int place = parts->place_of_row[i];
        if (place >= block->program.rows || block->row[place] != i)
            return false;
    }
    return true;
}

static bool has_same_columns(const BlockParts *parts, const BlockShape *shape) {
    int own = 0;
    for (int j = 0; j < shape->column_count; j++) {
        const int number = shape->block_of_column[j];
        if (number < 0) {
            if (own == parts->own_count || parts->own_column[own++] != j)
                return false;
            continue;
        }
        const Block *block = &parts->blocks[number];
        const int place = parts->place_of_column[j];
        if (place >= block->program.columns || block->column[place] != j)
            return false;
    }
    return own == parts->own_count;
}

static bool has_same_families(const BlockParts *parts, const BlockShape *shape) {
    for (int f = 0; f < shape->family_count; f++) {
        for (int m = parts->family_start[f]; m < parts->family_start[f + 1]; m++) {
            if (shape->family_of_block[parts->member[m]] != f)
                return false;
        }
    }
    return true;
}

static bool has_same_shape(const BlockParts *parts, const LinearProgram *lp,
                           const BlockShape *shape) {
    const BlockShape *old = &parts->shape;
    return lp_row_count(lp) == old->row_count && lp_column_count(lp) == old->column_count &&
           shape->row_count == old->row_count && shape->column_count == old->column_count &&
           shape->block_count == old->block_count && shape->family_count == old->family_count &&
           has_same_rows(parts, shape) && has_same_columns(parts, shape) &&
           has_same_families(parts, shape);
}

/* ---- its terms ---- */

static void clear_ties(BlockParts *parts) {
    for (int b = 0; b < parts->shape.block_count; b++) {
        const Block *block = &parts->blocks[b];
        memset(block->tie_term, 0,
               (size_t)block->tie_start[block->program.columns] * sizeof(double));
    }
    memset(parts->terms.coefficient, 0,
           (size_t)parts->terms.start[parts->shape.column_count] * sizeof(double));
}

/* A term of a tying row, in a column of no block. False when there was none at its place. */
static bool add_own(BlockParts *parts, int row, int column, double coefficient) {
    for (int k = parts->terms.start[column]; k < parts->terms.start[column + 1]; k++) {
        if (parts->terms.row[k] != row)
            continue;
        parts->terms.coefficient[k] += coefficient;
        return true;
    }
    return false;
}

/* The same in a column of a block. */
static bool add_tie(const BlockParts *parts, const Block *block, int row, int column,
                    double coefficient) {
    const int place = parts->place_of_column[column];
    for (int k = block->tie_start[place]; k < block->tie_start[place + 1]; k++) {
        if (block->tie[k] != parts->tie_of_row[row])
            continue;
        block->tie_term[k] += coefficient;
        return true;
    }
    return false;
}

/* Of the rows of no block. False when a term stands where there was none. */
static bool add_ties(BlockParts *parts, const LinearProgram *lp, const BlockShape *shape) {
    for (LpWalk walk = lp_walk(lp); lp_walk_on(&walk);) {
        const LpStretch of = lp_stretch(lp, walk.entry);
        for (int k = 0; shape->block_of_row[of.row] < 0 && k < of.count; k++) {
            const int block = shape->block_of_column[of.column[k]];
            const bool is_added =
                of.coefficient[k] == 0.0 ||
                (block < 0 ? add_own(parts, of.row, of.column[k], of.coefficient[k])
                           : add_tie(parts, &parts->blocks[block], of.row, of.column[k],
                                     of.coefficient[k]));
            if (!is_added)
                return false;
        }
    }
    return true;
}

static bool has_leasts(const LinearProgram *lp) {
    for (int j = 0; j < lp_column_count(lp); j++) {
        if (!isfinite(lp_column_least(lp, j)))
            return false;
    }
    return true;
}

/* ---- as in a program built anew: what rounding left dropped, the rest scaled ---- */

static bool fill_blocks(BlockParts *parts, const LinearProgram *lp, const BlockShape *shape) {
    Arena *scratch = arena_open();
    BlockFilling filling = block_filling(scratch, parts, lp, shape);
    bool is_filled = true;
    shared_rows_forget(parts->rows);
    for (int b = 0; b < shape->block_count && is_filled; b++)
        is_filled = block_fill(parts, b, &filling, true);
    arena_close(scratch);
    return is_filled;
}

static void keep_largest(double *largest, double coefficient) {
    if (fabs(coefficient) > *largest)
        *largest = fabs(coefficient);
}

static void drop_small(double *coefficient, double largest) {
    if (fabs(*coefficient) <= LP_LEAVINGS * largest)
        *coefficient = 0.0;
}

static void drop_tie_leavings(BlockParts *parts) {
    Arena *scratch = arena_open();
    double *largest = ARENA_ARRAY(scratch, double, parts->tie_count);
    const LpTerms *own = &parts->terms;
    for (int sweep = 0; sweep < 2; sweep++) {
        for (int k = 0; k < own->start[parts->shape.column_count]; k++) {
            double *of = &largest[parts->tie_of_row[own->row[k]]];
            if (sweep == 0)
                keep_largest(of, own->coefficient[k]);
            else
                drop_small(&own->coefficient[k], *of);
        }
        for (int b = 0; b < parts->shape.block_count; b++) {
            const Block *block = &parts->blocks[b];
            for (int k = 0; k < block->tie_start[block->program.columns]; k++) {
                if (sweep == 0)
                    keep_largest(&largest[block->tie[k]], block->tie_term[k]);
                else
                    drop_small(&block->tie_term[k], largest[block->tie[k]]);
            }
        }
    }
    arena_close(scratch);
}

/* Costs and bounds, with no basis yet. */
static void read_bounds(BlockParts *parts) {
    for (int b = 0; b < parts->shape.block_count; b++) {
        Block *block = &parts->blocks[b];
        block_scale_bounds(block, parts->lp);
        small_basis_reset(&block->program, &block->basis);
        block->rule = NULL;
    }
}

bool block_parts_refill(BlockParts *parts, const LinearProgram *lp, const BlockShape *shape) {
    if (parts->chooser || !has_same_shape(parts, lp, shape))
        return false;
    clear_ties(parts);
    if (!has_leasts(lp) || !add_ties(parts, lp, shape))
        return false;
    drop_tie_leavings(parts);
    if (!fill_blocks(parts, lp, shape))
        return false;
    parts->lp = lp;
    parts->shape = *shape;
    read_bounds(parts);
    return true;
}

static void forget_proposals(BlockProgram *program) {
    program->count = 0;
    program->has_prices = program->has_master = false;
    program->first_penalty = program->content = 0.0;
    program->gap = BLOCK_PROGRAM_GAP;
    program->basis.row_count = program->basis.column_count = 0;
    program->effort = (BlockEffort){0};
}

bool block_program_refill(BlockProgram *program, const LinearProgram *lp,
                          const BlockShape *shape) {
    if (!block_parts_refill(program->parts, lp, shape))
        return false;
    forget_proposals(program);
    return true;
}

void block_program_reprice(BlockProgram *program) {
    read_bounds(program->parts);
    forget_proposals(program);
}

BlockProgram *block_room_program(BlockRoom *room, Arena *arena, const LinearProgram *lp,
                                 const BlockShape *shape) {
    if (!room->program)
        return room->program = block_program(room->arena, lp, shape);
    return block_program_refill(room->program, lp, shape) ? room->program
                                                          : block_program(arena, lp, shape);
}
