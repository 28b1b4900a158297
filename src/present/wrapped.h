/* Text cut into lines of a screen or page. Blanks of every kind part words; a word wider than
 * the line is broken between code points. What a terminal would obey instead of show (control
 * characters, bytes that are not UTF-8) becomes '?'. */
#ifndef PRESENT_WRAPPED_H
#define PRESENT_WRAPPED_H

#include "base/arena.h"

typedef struct {
    const char **line;
    int count; /* at least 1: the empty text is one empty line */
} WrappedLines;

WrappedLines wrap_text(Arena *arena, const char *text, int width);

/* The same text on one line: words parted by one blank. */
const char *one_line(Arena *arena, const char *text);

int widest_word(const char *text);

#endif
