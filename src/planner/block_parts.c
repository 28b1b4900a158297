#include "planner/block_parts.h"
#include <assert.h>
#include <math.h>
#include <string.h>

static void make_room(Arena *arena, Block *block, int ties) {
    const int rows = block->program.rows;
    const int columns = block->program.columns;
    const int singles = block->program.singles;
    block->program.term = block->term = ARENA_ARRAY(arena, const double *, rows);
    block->program.single_row = ARENA_ARRAY(arena, int, singles);
    block->program.single_term = ARENA_ARRAY(arena, double, singles);
    block->program.row_least = ARENA_ARRAY(arena, double, rows);
    block->program.row_most = ARENA_ARRAY(arena, double, rows);
    block->program.least = ARENA_ARRAY(arena, double, columns);
    block->program.most = ARENA_ARRAY(arena, double, columns);
    block->basis.row = ARENA_ARRAY(arena, unsigned char, rows);
    block->basis.column = ARENA_ARRAY(arena, unsigned char, columns);
    block->basis.kept = small_kept(arena);
    block->row = ARENA_ARRAY(arena, int, rows);
    block->column = ARENA_ARRAY(arena, int, columns);
    block->row_scale = ARENA_ARRAY(arena, double, rows);
    block->column_scale = ARENA_ARRAY(arena, double, columns);
    block->cost = ARENA_ARRAY(arena, double, columns);
    block->value = ARENA_ARRAY(arena, double, columns);
    block->tie_start = ARENA_ARRAY(arena, int, columns + 1);
    block->tie = ARENA_ARRAY(arena, int, ties);
    block->tie_column = ARENA_ARRAY(arena, int, ties);
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
    const int *block_of_column = parts->shape.block_of_column;
    for (LpWalk walk = lp_walk(parts->lp); lp_walk_on(&walk);) {
        const LpStretch of = lp_stretch(parts->lp, walk.entry);
        const int block = parts->shape.block_of_row[of.row];
        for (int k = 0; block >= 0 && k < of.count; k++) {
            if (block != block_of_column[of.column[k]] && of.coefficient[k] != 0.0)
                return false;
            places->own_terms[of.column[k]] += of.coefficient[k] != 0.0;
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
        block->tie_column[next] = place;
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
    int most_rows = 1;
    int most_columns = 1;
    for (int b = 0; b < blocks; b++) {
        most_rows = larger(most_rows, parts->blocks[b].program.rows);
        most_columns = larger(most_columns, parts->blocks[b].program.columns);
    }
    parts->rows = shared_rows(arena);
    BlockFilling filling = block_filling(scratch, parts, parts->lp, &parts->shape);
    bool is_filled = true;
    for (int b = 0; b < blocks && is_filled; b++) {
        is_filled = block_fill(parts, b, &filling, false);
        block_scale_bounds(&parts->blocks[b], parts->lp);
    }
    assert(is_filled); /* its columns were counted */
    parts->work = small_work(arena, most_rows, most_columns);
    parts->priced = ARENA_ARRAY(arena, double, most_columns);
    for (int f = 0; f < parts->shape.family_count; f++) {
        const size_t bytes = block_parts_places(parts, f);
        parts->most_places = bytes > parts->most_places ? bytes : parts->most_places;
        parts->most_family_columns =
            larger(parts->most_family_columns, block_parts_columns(parts, f));
    }
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
