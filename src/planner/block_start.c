/* What one program leaves for the next of its shape. Costs and coefficients may have changed,
 * so nothing that was proposed is carried over but the prices it was proposed at: asked again
 * at these, from the bases they led to, rations take hardly a step, and the master begins with
 * what the last one ended with. */
#include "planner/block_master.h"
#include <string.h>

/* What one family proposed, and at which prices. */
typedef struct {
    int family;
    double *price;         /* [tie_count] */
    unsigned char *places; /* bases of the family */
} Point;

struct BlockStart {
    Arena *arena;
    int row_count, column_count, tie_count, family_count;
    size_t places_bytes;
    double *center;
    unsigned char *places;
    Point *points;
    int count, made, room;
    LpBasis master; /* with no proposals but the points */
    int master_room;
};

BlockStart *block_start(Arena *arena) {
    BlockStart *start = ARENA_NEW(arena, BlockStart);
    start->arena = arena;
    return start;
}

static bool has_shape(const BlockStart *start, const BlockParts *parts) {
    return start->row_count == lp_row_count(parts->lp) &&
           start->column_count == lp_column_count(parts->lp) &&
           start->tie_count == parts->tie_count &&
           start->family_count == parts->shape.family_count &&
           start->places_bytes == block_parts_places(parts, -1);
}

static void take_shape(BlockStart *start, const BlockParts *parts) {
    Arena *arena = start->arena;
    *start = (BlockStart){
        .arena = arena,
        .row_count = lp_row_count(parts->lp),
        .column_count = lp_column_count(parts->lp),
        .tie_count = parts->tie_count,
        .family_count = parts->shape.family_count,
        .places_bytes = block_parts_places(parts, -1),
    };
    start->center = ARENA_ARRAY(arena, double, start->tie_count);
    start->places = ARENA_ARRAY(arena, unsigned char, start->places_bytes);
    start->master.row =
        ARENA_ARRAY(arena, unsigned char, start->tie_count + start->family_count);
}

static Point *next_point(BlockStart *start, const BlockParts *parts) {
    if (start->count == start->room) {
        start->room = start->room > 0 ? 2 * start->room : 64;
        Point *points = ARENA_ARRAY(start->arena, Point, start->room);
        if (start->count > 0)
            memcpy(points, start->points, (size_t)start->count * sizeof *points);
        start->points = points;
    }
    if (start->count == start->made) {
        const Proposal room = block_master_proposal(start->arena, parts);
        start->points[start->made++] = (Point){0, room.price, room.places};
    }
    return &start->points[start->count++];
}

/* The master's basis holds what is in use: the points are its basic proposals. */
static void take_points(BlockStart *start, const BlockProgram *program) {
    const BlockParts *parts = program->parts;
    const int before = block_master_first(program);
    start->count = 0;
    for (int p = 0; p < program->count; p++) {
        if (program->basis.column[before + p] != BASIC)
            continue;
        Point *point = next_point(start, parts);
        point->family = program->family[p];
        memcpy(point->price, program->proposals[p].price,
               (size_t)parts->tie_count * sizeof(double));
        memcpy(point->places, program->proposals[p].places,
               block_parts_places(parts, point->family));
    }
    if (before + start->count > start->master_room) {
        start->master_room = before + 2 * start->count;
        start->master.column = ARENA_ARRAY(start->arena, unsigned char, start->master_room);
    }
    start->master.row_count = program->basis.row_count;
    start->master.column_count = before + start->count;
    memcpy(start->master.row, program->basis.row, (size_t)program->basis.row_count);
    memcpy(start->master.column, program->basis.column, (size_t)before);
    memset(start->master.column + before, BASIC, (size_t)start->count);
}

void block_start_take(BlockStart *start, const BlockProgram *program) {
    const BlockParts *parts = program->parts;
    if (!program->has_master)
        return;
    if (!has_shape(start, parts))
        take_shape(start, parts);
    memcpy(start->center, program->center, (size_t)parts->tie_count * sizeof(double));
    block_parts_read_places(parts, -1, start->places);
    take_points(start, program);
}

/* False when a ration cannot be fed: the solve will find so from nothing. */
static bool propose_points(BlockProgram *program, const BlockStart *start) {
    BlockParts *parts = program->parts;
    for (int p = 0; p < start->count; p++) {
        const Point *point = &start->points[p];
        memcpy(program->asked.price, point->price, (size_t)parts->tie_count * sizeof(double));
        block_parts_set_places(parts, point->family, point->places);
        if (block_parts_propose(parts, point->family, &program->asked) != LP_OPTIMAL)
            return false;
        block_master_keep(program, point->family);
        program->effort.block_solves +=
            parts->family_start[point->family + 1] - parts->family_start[point->family];
    }
    return true;
}

bool block_program_start_from(BlockProgram *program, const BlockStart *start) {
    BlockParts *parts = program->parts;
    if (!has_shape(start, parts))
        return false;
    program->count = 0;
    program->has_master = false;
    memcpy(program->center, start->center, (size_t)parts->tie_count * sizeof(double));
    program->has_prices = true;
    if (propose_points(program, start) && program->count > 0) {
        program->basis.row_count = start->master.row_count;
        program->basis.column_count = start->master.column_count;
        memcpy(program->basis.row, start->master.row, (size_t)start->master.row_count);
        memcpy(program->basis.column, start->master.column, (size_t)start->master.column_count);
    } else {
        program->count = 0;
        program->basis.row_count = program->basis.column_count = 0;
    }
    block_parts_set_places(parts, -1, start->places);
    return true;
}

bool block_program_start_near(BlockProgram *program, const LpSolution *solution) {
    const BlockParts *parts = program->parts;
    const LpBasis *basis = &solution->basis;
    if (basis->row_count != lp_row_count(parts->lp) ||
        basis->column_count != lp_column_count(parts->lp))
        return false;
    for (int b = 0; b < parts->shape.block_count; b++) {
        Block *block = &parts->blocks[b];
        for (int i = 0; i < block->program.rows; i++)
            block->basis.row[i] = basis->row[block->row[i]];
        for (int j = 0; j < block->program.columns; j++)
            block->basis.column[j] = basis->column[block->column[j]];
        block->basis.keeps_bounds = false;
    }
    for (int t = 0; t < parts->tie_count; t++)
        program->center[t] = solution->shadow_price[parts->tie_row[t]];
    program->has_prices = true;
    return true;
}
