/* The memory of one run. A function that takes an Arena returns memory of that arena; nobody
 * frees; arena_close gives everything back. Out of memory ends the program with code 70: sizes
 * of inputs are limited by faults long before. Built with -DARENA_BLOCK_BYTES=1 every piece
 * becomes a block of its own, so that the address sanitizer sees an overrun. */
#ifndef BASE_ARENA_H
#define BASE_ARENA_H

#include <stdarg.h>
#include <stddef.h>

typedef struct Arena Arena;

Arena *arena_open(void);
void arena_close(Arena *arena); /* NULL is allowed */

/* From now on `child` lives as long as `arena`, and is closed with it unless it was before: for
 * work of which only the last try is kept, or of which much is needed for a while. */
void arena_adopt(Arena *arena, Arena *child);

/* Zeroed, aligned for any type, never NULL; count * size may be zero. */
void *arena_take(Arena *arena, size_t count, size_t size);
#define ARENA_ARRAY(arena, Type, count)                                                        \
    ((Type *)arena_take((arena), (size_t)(count), sizeof(Type)))
#define ARENA_NEW(arena, Type) ARENA_ARRAY(arena, Type, 1)

/* Copies of `count` of a type. */
void *arena_take_copy(Arena *arena, const void *of, size_t count, size_t size);
#define ARENA_COPY(arena, Type, of, count)                                                     \
    ((Type *)arena_take_copy((arena), (of), (size_t)(count), sizeof(Type)))

char *arena_copy(Arena *arena, const char *bytes, size_t length); /* ends with '\0' */
char *arena_print(Arena *arena, const char *format, ...) __attribute__((format(printf, 2, 3)));
char *arena_print_list(Arena *arena, const char *format, va_list arguments)
    __attribute__((format(printf, 2, 0)));

#endif
