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

static void clear_terms(BlockParts *parts) {
    for (int b = 0; b < parts->shape.block_count; b++) {
        const Block *block = &parts->blocks[b];
        const size_t dense = (size_t)dense_columns(&block->program);
        memset(block->program.term, 0, (size_t)block->program.rows * dense * sizeof(double));
        memset(block->program.single_term, 0, (size_t)block->program.singles * sizeof(double));
        memset(block->tie_term, 0,
               (size_t)block->tie_start[block->program.columns] * sizeof(double));
    }
    memset(parts->terms.coefficient, 0,
           (size_t)parts->terms.start[parts->shape.column_count] * sizeof(double));
}

/* A term of a tying row. False when there was none at its place. */
static bool add_tie(BlockParts *parts, const Block *block, const LpTerm *term) {
    if (!block) {
        for (int k = parts->terms.start[term->column]; k < parts->terms.start[term->column + 1];
             k++) {
            if (parts->terms.row[k] != term->row)
                continue;
            parts->terms.coefficient[k] += term->coefficient;
            return true;
        }
        return false;
    }
    const int place = parts->place_of_column[term->column];
    for (int k = block->tie_start[place]; k < block->tie_start[place + 1]; k++) {
        if (block->tie[k] != parts->tie_of_row[term->row])
            continue;
        block->tie_term[k] += term->coefficient;
        return true;
    }
    return false;
}

static bool add_to_block(const BlockParts *parts, const Block *block, const LpTerm *term) {
    const int row = parts->place_of_row[term->row];
    const int place = parts->place_of_column[term->column];
    const int single = place - dense_columns(&block->program);
    if (single < 0) {
        block_row_terms(block, row)[place] += term->coefficient;
        return true;
    }
    block->program.single_term[single] += term->coefficient;
    return block->program.single_row[single] == row;
}

/* False when one stands where there was none, or reaches into a block that is not its own. */
static bool add_terms(BlockParts *parts, const LinearProgram *lp, const BlockShape *shape) {
    for (LpRun run = lp_first_run(lp); run.count > 0; run = lp_next_run(run)) {
        for (int t = 0; t < run.count; t++) {
            const LpTerm *term = &run.term[t];
            const int of_row = shape->block_of_row[term->row];
            const int of_column = shape->block_of_column[term->column];
            const Block *block = of_column >= 0 ? &parts->blocks[of_column] : NULL;
            const bool is_added = of_row < 0
                                      ? add_tie(parts, block, term)
                                      : of_row == of_column && add_to_block(parts, block, term);
            if (!is_added)
                return false;
        }
    }
    for (int j = 0; j < shape->column_count; j++) {
        if (!isfinite(lp_column_least(lp, j)))
            return false;
    }
    return true;
}

/* ---- as in a program built anew: what rounding left dropped, the rest scaled ---- */

static void scale_blocks(BlockParts *parts) {
    Arena *scratch = arena_open();
    int most_rows = 0;
    for (int b = 0; b < parts->shape.block_count; b++) {
        const int rows = parts->blocks[b].program.rows;
        most_rows = rows > most_rows ? rows : most_rows;
    }
    double *largest = ARENA_ARRAY(scratch, double, most_rows);
    for (int b = 0; b < parts->shape.block_count; b++) {
        block_largest_of_rows(&parts->blocks[b], NULL, largest);
        block_drop_leavings(&parts->blocks[b], largest);
        block_scale_terms(&parts->blocks[b]);
    }
    arena_close(scratch);
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
    clear_terms(parts);
    if (!add_terms(parts, lp, shape))
        return false;
    parts->lp = lp;
    parts->shape = *shape;
    drop_tie_leavings(parts);
    scale_blocks(parts);
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
