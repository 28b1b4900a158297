/* Text that grows in an arena, and the few questions asked of text. Escaping for HTML or JSON
 * is the presenters'. */
#ifndef BASE_TEXT_H
#define BASE_TEXT_H

#include "base/arena.h"
#include <stdbool.h>

typedef struct {
    Arena *arena;
    char *bytes; /* ends with '\0' once anything was added; "" is never NULL */
    size_t length, room;
} Text;

Text text_new(Arena *arena);
void text_add(Text *text, const char *bytes);
void text_add_bytes(Text *text, const char *bytes, size_t length);
void text_print(Text *text, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* Columns on a screen: code points of valid UTF-8 (each taken as one wide). */
int text_columns(const char *bytes);

/* -1 when all of it is valid UTF-8, else the offset of the first bad byte. Overlong forms,
 * surrogates and values past U+10FFFF are bad. */
long text_first_bad_utf8(const char *bytes, size_t length);

/* Bytes of a character at `at` that is not seen but turns the direction of what follows it, so
 * that a number would read backwards; 0 where there is none. */
size_t text_turning_bytes(const char *at);

bool text_same(const char *a, const char *b);         /* byte for byte */
bool text_same_letters(const char *a, const char *b); /* ASCII case aside */

/* What a message shows of text that someone else wrote: at most 60 characters, "..." where it
 * was cut, control characters as '?'. */
const char *text_excerpt(Arena *arena, const char *bytes);

/* The candidate nearest to the name (edit distance with swaps, ASCII case aside), or NULL when
 * none is near enough to be worth suggesting (more than a third of the longer one differs). */
const char *text_nearest(const char *name, const char *const *candidates, int count);

#endif
