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

static double largest_of(double a, double b) { return a > b ? a : b; }

void block_drop_leavings(Block *block, const double *largest) {
    const SmallProgram *program = &block->program;
    const int dense = dense_columns(program);
    for (int i = 0; i < program->rows; i++) {
        double *terms = block_row_terms(block, i);
        for (int j = 0; j < dense; j++) {
            if (fabs(terms[j]) <= LP_LEAVINGS * largest[i])
                terms[j] = 0.0;
        }
    }
}

void block_largest_of_rows(const Block *block, const double *scale, double *largest) {
    const SmallProgram *program = &block->program;
    const int dense = dense_columns(program);
    for (int i = 0; i < program->rows; i++) {
        const double *terms = block_row_terms(block, i);
        double of_row = 0.0;
        for (int j = 0; j < dense; j++)
            of_row = largest_of(of_row, fabs(terms[j]) * (scale ? scale[j] : 1.0));
        largest[i] = of_row;
    }
    for (int k = 0; k < program->singles; k++) {
        double *of = &largest[program->single_row[k]];
        *of = largest_of(*of, fabs(program->single_term[k]) * (scale ? scale[dense + k] : 1.0));
    }
}

static void largest_of_columns(const Block *block, double *largest) {
    const SmallProgram *program = &block->program;
    const int dense = dense_columns(&block->program);
    for (int j = 0; j < dense; j++)
        largest[j] = 0.0;
    for (int k = 0; k < program->singles; k++)
        largest[dense + k] =
            fabs(program->single_term[k]) * block->row_scale[program->single_row[k]];
    for (int i = 0; i < program->rows; i++) {
        const double *terms = block_row_terms(block, i);
        const double scale = block->row_scale[i];
        for (int j = 0; j < dense; j++)
            largest[j] = largest_of(largest[j], fabs(terms[j]) * scale);
    }
}

/* Rows, then columns, brought to a largest term near one, by powers of two so that nothing is
 * rounded. `largest` has room for either. */
static void find_scales(Block *block, double *largest) {
    for (int j = 0; j < block->program.columns; j++)
        block->column_scale[j] = 1.0;
    for (int pass = 0; pass < SCALING_PASSES; pass++) {
        block_largest_of_rows(block, pass > 0 ? block->column_scale : NULL, largest);
        if (pass == 0)
            block_drop_leavings(block, largest);
        for (int i = 0; i < block->program.rows; i++)
            block->row_scale[i] = 1.0 / power_of_two_near(largest[i]);
        largest_of_columns(block, largest);
        for (int j = 0; j < block->program.columns; j++)
            block->column_scale[j] =
                1.0 / power_of_two_near(
                          largest_of(largest[j], LEAST_SCALED / block->column_scale[j]));
    }
}

void block_scale_terms(Block *block) {
    const SmallProgram *program = &block->program;
    const int dense = dense_columns(&block->program);
    for (int i = 0; i < program->rows; i++) {
        double *terms = block_row_terms(block, i);
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

/* What places columns in their blocks. */
typedef struct {
    BlockParts *parts;
    int *own_terms; /* [columns] terms in rows of its block, as they were added */
    LpTerms ties;   /* of all columns, in tying rows */
} Places;

/* The rows of no block, and the columns. */
static void list_ties(Arena *arena, BlockParts *parts) {
    const BlockShape *shape = &parts->shape;
    parts->tie_row = ARENA_ARRAY(arena, int, shape->row_count);
    parts->tie_of_row = ARENA_ARRAY(arena, int, shape->row_count);
    parts->own_column = ARENA_ARRAY(arena, int, shape->column_count);
    for (int i = 0; i < shape->row_count; i++) {
        parts->tie_of_row[i] = shape->block_of_row[i] < 0 ? parts->tie_count : -1;
        if (shape->block_of_row[i] < 0)
            parts->tie_row[parts->tie_count++] = i;
    }
    for (int j = 0; j < shape->column_count; j++) {
        if (shape->block_of_column[j] < 0)
            parts->own_column[parts->own_count++] = j;
    }
}

/* False when a column reaches into a row that is not its block's, or has no least. */
static bool count_terms(const Places *places) {
    const BlockParts *parts = places->parts;
    const int *block_of_row = parts->shape.block_of_row;
    const int *block_of_column = parts->shape.block_of_column;
    for (LpRun run = lp_first_run(parts->lp); run.count > 0; run = lp_next_run(run)) {
        for (int t = 0; t < run.count; t++) {
            const int block = block_of_row[run.term[t].row];
            if (block >= 0 && block != block_of_column[run.term[t].column])
                return false;
            places->own_terms[run.term[t].column] += block >= 0;
        }
    }
    for (int j = 0; j < parts->shape.column_count; j++) {
        if (!isfinite(lp_column_least(parts->lp, j)))
            return false;
    }
    return true;
}

/* A column that has one term beside those in tying rows. */
static bool is_single(const Places *places, int column) {
    return places->own_terms[column] == 1;
}

/* Counts rows, columns and tying terms of each block, and makes room for them. */
static void make_blocks(Arena *arena, const Places *places, int *ties) {
    const BlockParts *parts = places->parts;
    const BlockShape *shape = &parts->shape;
    for (int i = 0; i < shape->row_count; i++) {
        if (shape->block_of_row[i] >= 0)
            parts->blocks[shape->block_of_row[i]].program.rows++;
    }
    for (int j = 0; j < shape->column_count; j++) {
        const int block = shape->block_of_column[j];
        if (block < 0)
            continue;
        parts->blocks[block].program.columns++;
        parts->blocks[block].program.singles += is_single(places, j);
        ties[block] += places->ties.start[j + 1] - places->ties.start[j];
    }
    for (int b = 0; b < shape->block_count; b++)
        make_room(arena, &parts->blocks[b], ties[b]);
}

/* Columns come in the order of their places. */
static void place_column(const Places *places, Block *block, int column, int place) {
    const BlockParts *parts = places->parts;
    const LpTerms *ties = &places->ties;
    int next = block->tie_start[place];
    parts->place_of_column[column] = place;
    block->column[place] = column;
    for (int k = ties->start[column]; k < ties->start[column + 1]; k++) {
        block->tie[next] = parts->tie_of_row[ties->row[k]];
        block->tie_term[next++] = ties->coefficient[k];
    }
    block->tie_start[place + 1] = next;
}

/* Rows, then columns, the single ones last. `placed` is zero for each block. */
static void place_lines(const Places *places, int *placed) {
    const BlockParts *parts = places->parts;
    const BlockShape *shape = &parts->shape;
    for (int i = 0; i < shape->row_count; i++) {
        const int block = shape->block_of_row[i];
        if (block < 0)
            continue;
        parts->place_of_row[i] = placed[block]++;
        parts->blocks[block].row[parts->place_of_row[i]] = i;
    }
    memset(placed, 0, (size_t)shape->block_count * sizeof *placed);
    for (int singles = 0; singles < 2; singles++) {
        for (int j = 0; j < shape->column_count; j++) {
            const int block = shape->block_of_column[j];
            if (block >= 0 && is_single(places, j) == (singles == 1))
                place_column(places, &parts->blocks[block], j, placed[block]++);
        }
    }
}

static void add_terms(const Places *places) {
    const BlockParts *parts = places->parts;
    for (LpRun run = lp_first_run(parts->lp); run.count > 0; run = lp_next_run(run)) {
        for (int t = 0; t < run.count; t++) {
            const LpTerm *term = &run.term[t];
            const int number = parts->shape.block_of_row[term->row];
            if (number < 0)
                continue;
            Block *block = &parts->blocks[number];
            const int row = parts->place_of_row[term->row];
            const int place = parts->place_of_column[term->column];
            const int single = place - dense_columns(&block->program);
            if (single < 0) {
                block_row_terms(block, row)[place] += term->coefficient;
                continue;
            }
            block->program.single_row[single] = row;
            block->program.single_term[single] = term->coefficient;
        }
    }
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
static LpTerms own_terms(Arena *arena, const BlockParts *parts, const LpTerms *ties) {
    const int columns = parts->shape.column_count;
    int count = 0;
    for (int c = 0; c < parts->own_count; c++)
        count += ties->start[parts->own_column[c] + 1] - ties->start[parts->own_column[c]];
    LpTerms own = {ARENA_ARRAY(arena, int, columns + 1), ARENA_ARRAY(arena, int, count),
                   ARENA_ARRAY(arena, double, count)};
    count = 0;
    for (int j = 0; j < columns; j++) {
        own.start[j] = count;
        for (int k = ties->start[j];
             parts->shape.block_of_column[j] < 0 && k < ties->start[j + 1]; k++) {
            own.row[count] = ties->row[k];
            own.coefficient[count++] = ties->coefficient[k];
        }
    }
    own.start[columns] = count;
    return own;
}

static bool *are_ties(Arena *arena, const BlockShape *shape) {
    bool *are = ARENA_ARRAY(arena, bool, shape->row_count);
    for (int i = 0; i < shape->row_count; i++)
        are[i] = shape->block_of_row[i] < 0;
    return are;
}

static void fill_blocks(Arena *arena, Arena *scratch, Places *places) {
    BlockParts *parts = places->parts;
    const int blocks = parts->shape.block_count;
    places->ties = lp_terms_of_rows(parts->lp, scratch, are_ties(scratch, &parts->shape));
    parts->terms = own_terms(arena, parts, &places->ties);
    make_blocks(arena, places, ARENA_ARRAY(scratch, int, blocks));
    place_lines(places, ARENA_ARRAY(scratch, int, blocks));
    add_terms(places);
    int most_rows = 1;
    int most_columns = 1;
    for (int b = 0; b < blocks; b++) {
        most_rows = larger(most_rows, parts->blocks[b].program.rows);
        most_columns = larger(most_columns, parts->blocks[b].program.columns);
    }
    double *largest = ARENA_ARRAY(scratch, double, larger(most_rows, most_columns));
    for (int b = 0; b < blocks; b++) {
        find_scales(&parts->blocks[b], largest);
        block_scale_terms(&parts->blocks[b]);
        block_scale_bounds(&parts->blocks[b], parts->lp);
    }
    parts->work = small_work(arena, most_rows, most_columns);
    parts->priced = ARENA_ARRAY(arena, double, most_columns);
}

BlockParts *block_parts(Arena *arena, const LinearProgram *lp, const BlockShape *shape) {
    BlockParts *parts = ARENA_NEW(arena, BlockParts);
    Arena *scratch = arena_open();
    *parts = (BlockParts){
        .lp = lp,
        .shape = *shape,
        .blocks = ARENA_ARRAY(arena, Block, shape->block_count),
        .place_of_row = ARENA_ARRAY(arena, int, shape->row_count),
        .place_of_column = ARENA_ARRAY(arena, int, shape->column_count),
    };
    Places places = {.parts = parts,
                     .own_terms = ARENA_ARRAY(scratch, int, shape->column_count)};
    const bool falls_apart = count_terms(&places);
    if (falls_apart) {
        list_ties(arena, parts);
        list_families(arena, parts);
        fill_blocks(arena, scratch, &places);
    }
    arena_close(scratch);
    return falls_apart ? parts : NULL;
}
