#include "planner/yard_faces.h"
#include "planner/yard_linked.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

#define MOST_TRIES 60
#define NEAR_ENOUGH 1e-4 /* of the cost without rules of faces */
#define USED_SHARE 1e-3  /* of a stack: of less it stays shut */
#define FACE_OF_ALL 0.9  /* of a stack is taken at its least face, at the most */

/* A face that is open from one slice up to another. */
typedef struct {
    int feed, from, to;
    double used_kg, middle; /* what is wanted of it, and when in the middle, in days */
} Turn;

typedef struct {
    Arena *arena;
    const YardProgram *yard;
    const LpSolution *near;
    double *fixed;
    Turn *turns, *best;
    int count, tries;
    double least_cost; /* of the best; NO_LIMIT: none */
} Faces;

static double day_of(const Faces *faces, const PlanBlock *block) {
    const Day first = faces->yard->base->question->farm->winter.first_day;
    return calendar_days_between(first, block->from) + 0.5 * block->days;
}

static void find_use(const Faces *faces, Turn *turn) {
    const RationProgram *base = faces->yard->base;
    const PlanQuestion *question = base->question;
    const double taken = plan_taken_per_eaten(&question->feeds[turn->feed]);
    for (int b = 0; b < question->block_count; b++) {
        const PlanBlock *block = &question->blocks[b];
        const int column = base->eaten[b * question->feed_count + turn->feed];
        const double eaten = column >= 0 ? faces->near->value[column] : 0.0;
        turn->used_kg += eaten * taken * block->head * block->days;
        turn->middle += eaten * taken * block->head * block->days * day_of(faces, block);
    }
    turn->middle /= fmax(turn->used_kg, 1e-9);
}

static int by_middle(const void *a, const void *b) {
    const Turn *left = a;
    const Turn *right = b;
    const int order = (left->middle > right->middle) - (left->middle < right->middle);
    return order != 0 ? order : left->feed - right->feed;
}

static void list_turns(Faces *faces) {
    const PlanQuestion *question = faces->yard->base->question;
    for (int f = 0; f < question->own_count; f++) {
        Turn turn = {.feed = f};
        if (faces->yard->open[f] < 0)
            continue;
        find_use(faces, &turn);
        if (turn.used_kg > USED_SHARE * question->feeds[f].available_kg)
            faces->turns[faces->count++] = turn;
    }
    qsort(faces->turns, (size_t)faces->count, sizeof *faces->turns, by_middle);
}

/* Days by what is wanted of each, but no more than its least face leaves of it. */
static void share_out(Faces *faces, double of_winter) {
    const YardProgram *yard = faces->yard;
    const PlanQuestion *question = yard->base->question;
    double all = 0.0;
    int slice = 0;
    for (int i = 0; i < faces->count; i++)
        all += faces->turns[i].used_kg;
    for (int i = 0; i < faces->count; i++) {
        Turn *turn = &faces->turns[i];
        const PlanFeed *feed = &question->feeds[turn->feed];
        double days = of_winter * winter_days(&question->farm->winter) * turn->used_kg / all;
        if (feed->least_face_kg_per_day > 0.0)
            days = fmin(days, FACE_OF_ALL * feed->available_kg / feed->least_face_kg_per_day);
        turn->from = slice;
        for (double given = 0.0;
             slice < yard->slice_count && given + 0.5 * yard->slices[slice].days <= days;
             slice++)
            given += yard->slices[slice].days;
        turn->to = slice;
    }
}

static void put_in(const Faces *faces, const Turn *turns) {
    const YardProgram *yard = faces->yard;
    const int feeds = yard->base->question->feed_count;
    for (int i = 0; i < yard->slice_count * feeds; i++) {
        if (yard->open[i] >= 0)
            faces->fixed[yard->open[i]] = 0.0;
    }
    for (int i = 0; i < faces->count; i++) {
        for (int t = turns[i].from; t < turns[i].to; t++)
            faces->fixed[yard->open[t * feeds + turns[i].feed]] = 1.0;
    }
}

/* True, and they are the best, when they cost less than any so far. */
static bool are_better(Faces *faces) {
    Arena *scratch = arena_open();
    RationProgram held;
    BlockProgram *blocks;
    put_in(faces, faces->turns);
    const LpSolution solution =
        yard_linked_solve(scratch, faces->yard, faces->fixed, faces->near, &held, &blocks);
    const bool is_better = solution.status == LP_OPTIMAL && solution.cost < faces->least_cost;
    faces->tries++;
    if (is_better) {
        faces->least_cost = solution.cost;
        memcpy(faces->best, faces->turns, (size_t)faces->count * sizeof *faces->best);
    }
    arena_close(scratch);
    return is_better;
}

static bool is_near(const Faces *faces) {
    return faces->least_cost - faces->near->cost <= NEAR_ENOUGH * fabs(faces->near->cost);
}

/* One follows the other so many slices later, or sooner; before the first one none is open. */
static bool moved(Faces *faces, int after, int by) {
    Turn *turn = after >= 0 ? &faces->turns[after] : NULL;
    const bool is_last = after + 1 == faces->count;
    const int to = (turn ? turn->to : faces->turns[0].from) + by;
    if (to < (turn ? turn->from : 0) ||
        to > (is_last ? faces->yard->slice_count : faces->turns[after + 1].to))
        return false;
    if (turn)
        turn->to = to;
    if (!is_last)
        faces->turns[after + 1].from = to;
    return are_better(faces);
}

/* One changes places with the one after it, each for as long as before. */
static bool swapped(Faces *faces, int first) {
    if (first < 0 || first + 1 >= faces->count)
        return false;
    const Turn before = faces->turns[first];
    const Turn after = faces->turns[first + 1];
    faces->turns[first] = after;
    faces->turns[first].from = before.from;
    faces->turns[first].to = before.from + (after.to - after.from);
    faces->turns[first + 1] = before;
    faces->turns[first + 1].from = faces->turns[first].to;
    faces->turns[first + 1].to = after.to;
    return are_better(faces);
}

static bool may_try(Faces *faces) {
    memcpy(faces->turns, faces->best, (size_t)faces->count * sizeof *faces->turns);
    return faces->tries < MOST_TRIES && !is_near(faces);
}

static bool improve_by(Faces *faces, int step) {
    bool any = false;
    for (int i = -1; i < faces->count; i++) {
        any = (may_try(faces) && moved(faces, i, step)) || any;
        any = (may_try(faces) && moved(faces, i, -step)) || any;
    }
    for (int i = 0; i + 1 < faces->count; i++)
        any = (may_try(faces) && swapped(faces, i)) || any;
    return any;
}

static void improve(Faces *faces) {
    for (int step = faces->yard->slice_count / 4; step > 0; step /= 2) {
        while (may_try(faces) && improve_by(faces, step))
            continue;
    }
}

bool yard_faces_in_turn(Arena *arena, const YardProgram *yard, const LpSolution *near,
                        double *fixed) {
    static const double OF_WINTER[] = {1.0, 0.7, 0.4, 0.0};
    const int feeds = yard->base->question->feed_count;
    Faces faces = {.arena = arena,
                   .yard = yard,
                   .near = near,
                   .fixed = fixed,
                   .turns = ARENA_ARRAY(arena, Turn, feeds),
                   .best = ARENA_ARRAY(arena, Turn, feeds),
                   .least_cost = NO_LIMIT};
    list_turns(&faces);
    for (int i = 0; i < 4 && faces.least_cost >= NO_LIMIT; i++) {
        share_out(&faces, OF_WINTER[i]);
        are_better(&faces);
    }
    if (faces.least_cost >= NO_LIMIT)
        return false;
    improve(&faces);
    put_in(&faces, faces.best);
    return true;
}
