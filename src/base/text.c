#include "base/text.h"

#include <assert.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define FIRST_ROOM 64
#define EXCERPT_CHARACTERS 60
#define NEAREST_MOST_BYTES 64 /* a longer name is no heading and no choice */

Text text_new(Arena *arena) {
    return (Text){arena, arena_take(arena, FIRST_ROOM, 1), 0, FIRST_ROOM};
}

/* Makes room for `length` more bytes and the end. */
static void text_widen(Text *text, size_t length) {
    if (length < text->room - text->length)
        return;
    size_t room = text->room;
    while (length >= room - text->length) {
        if (room > SIZE_MAX / 2)
            exit(70); /* out of memory, as in arena.h */
        room *= 2;
    }
    char *bytes = arena_take(text->arena, room, 1);
    memcpy(bytes, text->bytes, text->length);
    text->bytes = bytes;
    text->room = room;
}

void text_add_bytes(Text *text, const char *bytes, size_t length) {
    if (length == 0)
        return;
    text_widen(text, length);
    memcpy(text->bytes + text->length, bytes, length);
    text->length += length;
    text->bytes[text->length] = '\0';
}

void text_add(Text *text, const char *bytes) { text_add_bytes(text, bytes, strlen(bytes)); }

void text_print(Text *text, const char *format, ...) {
    va_list arguments, again;
    va_start(arguments, format);
    va_copy(again, arguments);
    const int length = vsnprintf(NULL, 0, format, arguments);
    va_end(arguments);
    assert(length >= 0);
    text_widen(text, (size_t)length);
    vsnprintf(text->bytes + text->length, (size_t)length + 1, format, again);
    va_end(again);
    text->length += (size_t)length;
}

static bool is_continuation(char byte) { return ((unsigned char)byte & 0xC0U) == 0x80U; }

int text_columns(const char *bytes) {
    int columns = 0;
    for (const char *byte = bytes; *byte; byte++)
        columns += !is_continuation(*byte);
    return columns;
}

/* How many bytes the character that begins here has; 0 when it is bad. The bounds of the second
 * byte keep out overlong forms, surrogates and what lies past U+10FFFF. */
static size_t utf8_length(const unsigned char *bytes, size_t left) {
    const unsigned char first = bytes[0];
    if (first < 0x80)
        return 1;
    if (first < 0xC2 || first > 0xF4)
        return 0;
    const size_t length = first < 0xE0 ? 2 : first < 0xF0 ? 3 : 4;
    if (length > left)
        return 0;
    const unsigned char least = first == 0xE0 ? 0xA0 : first == 0xF0 ? 0x90 : 0x80;
    const unsigned char most = first == 0xED ? 0x9F : first == 0xF4 ? 0x8F : 0xBF;
    if (bytes[1] < least || bytes[1] > most)
        return 0;
    for (size_t i = 2; i < length; i++) {
        if ((bytes[i] & 0xC0U) != 0x80U)
            return 0;
    }
    return length;
}

long text_first_bad_utf8(const char *bytes, size_t length) {
    for (size_t offset = 0; offset < length;) {
        const size_t step = utf8_length((const unsigned char *)bytes + offset, length - offset);
        if (step == 0)
            return (long)offset;
        offset += step;
    }
    return -1;
}

static char lower(char letter) {
    return letter >= 'A' && letter <= 'Z' ? (char)(letter - 'A' + 'a') : letter;
}

bool text_same(const char *a, const char *b) { return strcmp(a, b) == 0; }

bool text_same_letters(const char *a, const char *b) {
    for (; *a && lower(*a) == lower(*b); a++, b++)
        continue;
    return lower(*a) == lower(*b);
}

const char *text_excerpt(Arena *arena, const char *bytes) {
    Text text = text_new(arena);
    int characters = 0;
    for (const char *byte = bytes; *byte; byte++) {
        if (!is_continuation(*byte) && characters++ == EXCERPT_CHARACTERS) {
            text_add(&text, "...");
            break;
        }
        const bool is_control = (unsigned char)*byte < 0x20 || *byte == 0x7F;
        text_add_bytes(&text, is_control ? "?" : byte, 1);
    }
    return text.bytes;
}

static int smaller(int a, int b) { return a < b ? a : b; }

/* Insertions, deletions, changes and swaps of neighbours, one step each. */
static int edit_distance(const char *a, int a_length, const char *b, int b_length) {
    int steps[NEAREST_MOST_BYTES + 1][NEAREST_MOST_BYTES + 1];
    for (int i = 0; i <= a_length; i++)
        steps[i][0] = i;
    for (int j = 0; j <= b_length; j++)
        steps[0][j] = j;
    for (int i = 1; i <= a_length; i++) {
        for (int j = 1; j <= b_length; j++) {
            const char x = lower(a[i - 1]), y = lower(b[j - 1]);
            int best = smaller(steps[i - 1][j], steps[i][j - 1]) + 1;
            best = smaller(best, steps[i - 1][j - 1] + (x != y));
            const bool swapped =
                i > 1 && j > 1 && x != y && x == lower(b[j - 2]) && y == lower(a[i - 2]);
            if (swapped)
                best = smaller(best, steps[i - 2][j - 2] + 1);
            steps[i][j] = best;
        }
    }
    return steps[a_length][b_length];
}

const char *text_nearest(const char *name, const char *const *candidates, int count) {
    const size_t name_length = strlen(name);
    if (name_length == 0 || name_length > NEAREST_MOST_BYTES)
        return NULL;
    const char *nearest = NULL;
    int nearest_distance = NEAREST_MOST_BYTES + 1;
    for (int i = 0; i < count; i++) {
        const size_t length = strlen(candidates[i]);
        if (length > NEAREST_MOST_BYTES)
            continue;
        const int distance = edit_distance(name, (int)name_length, candidates[i], (int)length);
        const int longer = (int)(length > name_length ? length : name_length);
        if (3 * distance > longer || distance >= nearest_distance)
            continue;
        nearest = candidates[i];
        nearest_distance = distance;
    }
    return nearest;
}

size_t text_turning_bytes(const char *at) {
    const unsigned char *byte = (const unsigned char *)at;
    if (byte[0] == 0xD8 && byte[1] == 0x9C) /* U+061C */
        return 2;
    if (byte[0] != 0xE2)
        return 0;
    const bool is_mark = byte[1] == 0x80 && (byte[2] == 0x8E || byte[2] == 0x8F);
    const bool is_override = byte[1] == 0x80 && byte[2] >= 0xAA && byte[2] <= 0xAE;
    const bool is_isolate = byte[1] == 0x81 && byte[2] >= 0xA6 && byte[2] <= 0xA9;
    return is_mark || is_override || is_isolate ? 3 : 0;
}
