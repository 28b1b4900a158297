#include "base/arena.h"

#include <assert.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#ifndef ARENA_BLOCK_BYTES
#define ARENA_BLOCK_BYTES 65536
#endif

/* The first block of an arena, of which many hold hardly more than a line; each has twice the
 * room of the one before, up to ARENA_BLOCK_BYTES. */
#define FIRST_BLOCK_BYTES (ARENA_BLOCK_BYTES < 1024 ? ARENA_BLOCK_BYTES : 1024)

#define OUT_OF_MEMORY_EXIT 70 /* as arena.h promises; the number the command line documents */

typedef struct Block {
    struct Block *next;
    size_t used, room;
    _Alignas(max_align_t) unsigned char bytes[];
} Block;

struct Arena {
    Block *first;            /* the one that pieces are cut from */
    size_t next_room;        /* of the block after it */
    Arena *adopted, *parent; /* the last one that is closed with this; the one that this is */
    Arena *next, *before;    /* of the same parent */
};

_Noreturn static void out_of_memory(void) { exit(OUT_OF_MEMORY_EXIT); }

Arena *arena_open(void) {
    Arena *arena = calloc(1, sizeof *arena);
    if (!arena)
        out_of_memory();
    arena->next_room = FIRST_BLOCK_BYTES;
    return arena;
}

static void leave_parent(const Arena *arena) {
    if (arena->before)
        arena->before->next = arena->next;
    else if (arena->parent)
        arena->parent->adopted = arena->next;
    if (arena->next)
        arena->next->before = arena->before;
}

void arena_close(Arena *arena) {
    if (!arena)
        return;
    leave_parent(arena);
    for (Arena *child = arena->adopted; child;) {
        Arena *next = child->next;
        arena_close(child);
        child = next;
    }
    for (Block *block = arena->first; block;) {
        Block *next = block->next;
        free(block);
        block = next;
    }
    free(arena);
}

void arena_adopt(Arena *arena, Arena *child) {
    assert(arena && child && arena != child && !child->parent);
    child->parent = arena;
    child->next = arena->adopted;
    if (child->next)
        child->next->before = child;
    arena->adopted = child;
}

static Block *block_new(size_t room) {
    if (room > SIZE_MAX - sizeof(Block))
        out_of_memory();
    Block *block = calloc(1, sizeof(Block) + room);
    if (!block)
        out_of_memory();
    block->room = room;
    return block;
}

static void *block_cut(Block *block, size_t bytes) {
    const size_t alignment = _Alignof(max_align_t);
    const size_t start = (block->used + alignment - 1) / alignment * alignment;
    if (start > block->room || bytes > block->room - start)
        return NULL;
    block->used = start + bytes;
    return block->bytes + start;
}

/* A piece that would waste much of a fresh block gets its own, behind the one being cut, so
 * that the room left there stays in use. */
static Block *block_for(Arena *arena, size_t bytes) {
    if (arena->first && bytes > arena->next_room / 4) {
        Block *block = block_new(bytes);
        block->next = arena->first->next;
        arena->first->next = block;
        return block;
    }
    Block *block = block_new(bytes > arena->next_room ? bytes : arena->next_room);
    if (arena->next_room < ARENA_BLOCK_BYTES)
        arena->next_room *= 2;
    block->next = arena->first;
    arena->first = block;
    return block;
}

void *arena_take(Arena *arena, size_t count, size_t size) {
    assert(arena);
    if (size != 0 && count > SIZE_MAX / size)
        out_of_memory();
    const size_t bytes = count * size;
    void *piece = arena->first ? block_cut(arena->first, bytes) : NULL;
    if (!piece)
        piece = block_cut(block_for(arena, bytes), bytes);
    assert(piece);
    return piece;
}

void *arena_take_copy(Arena *arena, const void *of, size_t count, size_t size) {
    void *copy = arena_take(arena, count, size);
    if (count > 0)
        memcpy(copy, of, count * size);
    return copy;
}

char *arena_copy(Arena *arena, const char *bytes, size_t length) {
    if (length == SIZE_MAX)
        out_of_memory();
    char *copy = arena_take(arena, length + 1, 1);
    if (length > 0)
        memcpy(copy, bytes, length);
    return copy;
}

char *arena_print_list(Arena *arena, const char *format, va_list arguments) {
    va_list again;
    va_copy(again, arguments);
    const int length = vsnprintf(NULL, 0, format, again);
    va_end(again);
    assert(length >= 0);
    char *text = arena_take(arena, (size_t)length + 1, 1);
    vsnprintf(text, (size_t)length + 1, format, arguments);
    return text;
}

char *arena_print(Arena *arena, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    char *text = arena_print_list(arena, format, arguments);
    va_end(arguments);
    return text;
}
