#include "present/wrapped.h"

#include "base/text.h"

#include <assert.h>
#include <limits.h>
#include <string.h>

static const char BLANKS[] = " \t\n\r\v\f";

/* Bytes of the code point at `at`, 0 if there is none to show: a control character (C0, DEL,
 * C1), one that turns the direction of writing, or a byte that is not UTF-8. */
static size_t shown_bytes(const char *at) {
    const unsigned char first = (unsigned char)at[0];
    if (first < 0x20 || first == 0x7F)
        return 0;
    if (first < 0x80)
        return 1;
    const size_t length = first >= 0xF0 ? 4 : first >= 0xE0 ? 3 : 2;
    if (strnlen(at, length) < length || text_first_bad_utf8(at, length) >= 0)
        return 0;
    const int is_control = first == 0xC2 && (unsigned char)at[1] < 0xA0;
    return is_control || text_turning_bytes(at) > 0 ? 0 : length;
}

/* Every byte sequence that cannot be shown as '?'; words parted by single blanks. */
static const char *cleaned(Arena *arena, const char *text) {
    const size_t room = strlen(text) + 1;
    char *clean = ARENA_ARRAY(arena, char, room);
    size_t length = 0;
    for (const char *at = text + strspn(text, BLANKS); *at;) {
        const size_t blanks = strspn(at, BLANKS);
        if (blanks > 0) {
            at += blanks;
            if (*at)
                clean[length++] = ' ';
            continue;
        }
        const size_t bytes = shown_bytes(at);
        if (bytes == 0)
            clean[length++] = '?';
        memcpy(clean + length, at, bytes);
        length += bytes;
        at += bytes > 0 ? bytes : 1;
    }
    return clean;
}

static size_t bytes_of_columns(const char *clean, size_t length, int columns) {
    size_t at = 0;
    for (int column = 0; column < columns && at < length; column++)
        at += shown_bytes(clean + at);
    return at;
}

/* The bytes of the line that begins at `clean`: as many whole words as fit, or a piece of one.
 */
static size_t line_length(const char *clean, int width) {
    const size_t whole = strlen(clean);
    const size_t most = bytes_of_columns(clean, whole, width);
    if (most == whole || clean[most] == ' ')
        return most;
    for (size_t at = most; at > 0; at--)
        if (clean[at - 1] == ' ')
            return at - 1;
    return most;
}

WrappedLines wrap_text(Arena *arena, const char *text, int width) {
    assert(width > 0);
    const char *clean = cleaned(arena, text);
    WrappedLines lines = {ARENA_ARRAY(arena, const char *, 1), 0};
    int room = 1;
    do {
        if (lines.count == room) {
            const char **more = ARENA_ARRAY(arena, const char *, room * 2);
            memcpy(more, lines.line, (size_t)room * sizeof *more);
            lines.line = more;
            room *= 2;
        }
        const size_t length = line_length(clean, width);
        lines.line[lines.count++] = arena_copy(arena, clean, length);
        clean += length;
        clean += *clean == ' ';
    } while (*clean);
    return lines;
}

const char *one_line(Arena *arena, const char *text) {
    return wrap_text(arena, text, INT_MAX).line[0];
}

int widest_word(const char *text) {
    int widest = 0;
    int columns = 0;
    for (; *text; text++) {
        const int is_continuation = ((unsigned char)*text & 0xC0) == 0x80;
        columns = strchr(BLANKS, *text) ? 0 : columns + !is_continuation;
        widest = columns > widest ? columns : widest;
    }
    return widest;
}
