#include "planner/shared_rows.h"
#include <stdint.h>
#include <string.h>

#define CHUNK 8192       /* terms */
#define FIRST_PLACES 256 /* a power of two; at most half of them are taken */

typedef struct Chunk {
    struct Chunk *next;
    int used, room;
    double *term;
} Chunk;

typedef struct {
    uint64_t mark;
    const double *terms; /* NULL: none */
    int count;
} Kept;

struct SharedRows {
    Arena *arena;
    Chunk *first, *last; /* that terms are put into; those after it lend their memory */
    Kept *kept;          /* [places] by mark, or in the next free place */
    int places, count;
};

SharedRows *shared_rows(Arena *arena) {
    SharedRows *rows = ARENA_NEW(arena, SharedRows);
    *rows = (SharedRows){
        .arena = arena, .kept = ARENA_ARRAY(arena, Kept, FIRST_PLACES), .places = FIRST_PLACES};
    return rows;
}

void shared_rows_forget(SharedRows *rows) {
    memset(rows->kept, 0, (size_t)rows->places * sizeof *rows->kept);
    rows->count = 0;
    rows->last = rows->first;
    if (rows->first)
        rows->first->used = 0;
}

static Chunk *new_chunk(Arena *arena, int count) {
    Chunk *chunk = ARENA_NEW(arena, Chunk);
    chunk->room = count > CHUNK ? count : CHUNK;
    chunk->term = ARENA_ARRAY(arena, double, chunk->room);
    return chunk;
}

/* One with room for so many after the last, which stays before it. */
static void next_chunk(SharedRows *rows, int count) {
    Chunk *after = rows->last ? rows->last->next : NULL;
    if (!after || after->room < count) {
        Chunk *chunk = new_chunk(rows->arena, count);
        chunk->next = after;
        after = chunk;
    }
    if (rows->last)
        rows->last->next = after;
    else
        rows->first = after;
    rows->last = after;
    after->used = 0;
}

static const double *copied(SharedRows *rows, const double *terms, int count) {
    if (!rows->last || rows->last->room - rows->last->used < count)
        next_chunk(rows, count);
    double *copy = rows->last->term + rows->last->used;
    rows->last->used += count;
    memcpy(copy, terms, (size_t)count * sizeof *copy);
    return copy;
}

/* Of the bits of the terms. */
static uint64_t mark_of(const double *terms, int count) {
    uint64_t mark = (uint64_t)count;
    for (int j = 0; j < count; j++) {
        uint64_t bits;
        memcpy(&bits, &terms[j], sizeof bits);
        mark = (mark ^ bits) * UINT64_C(0x9E3779B97F4A7C15);
        mark ^= mark >> 32;
    }
    return mark;
}

/* The place of a row of these terms, or the one where it belongs. */
static Kept *place_of(const SharedRows *rows, uint64_t mark, const double *terms, int count) {
    const uint64_t last = (uint64_t)rows->places - 1;
    for (uint64_t at = mark & last;; at = (at + 1) & last) {
        Kept *kept = &rows->kept[at];
        if (!kept->terms || (kept->mark == mark && kept->count == count &&
                             memcmp(kept->terms, terms, (size_t)count * sizeof *terms) == 0))
            return kept;
    }
}

static void make_room(SharedRows *rows) {
    const Kept *before = rows->kept;
    const int places = rows->places;
    rows->places = 2 * places;
    rows->kept = ARENA_ARRAY(rows->arena, Kept, rows->places);
    for (int k = 0; k < places; k++) {
        if (before[k].terms)
            *place_of(rows, before[k].mark, before[k].terms, before[k].count) = before[k];
    }
}

const double *shared_rows_keep(SharedRows *rows, const double *terms, int count) {
    const uint64_t mark = mark_of(terms, count);
    Kept *kept = place_of(rows, mark, terms, count);
    if (kept->terms)
        return kept->terms;
    if (2 * (rows->count + 1) > rows->places) {
        make_room(rows);
        kept = place_of(rows, mark, terms, count);
    }
    rows->count++;
    *kept = (Kept){mark, copied(rows, terms, count), count};
    return kept->terms;
}
