#include "base/fault.h"

#include "base/text.h"
#include <limits.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define FAULTS_KEPT 200       /* of one kind; a whole bad column is understood long before */
#define FAULT_TEXT_BYTES 4096 /* room for the list of all headings of the widest file */

Faults faults_new(Arena *arena) { return (Faults){.arena = arena}; }

/* A message stays one line of valid UTF-8, whatever was echoed: no control character (C0, DEL
 * or C1, the latter written C2 80 to C2 9F) reaches a terminal. */
static void clean(char *text) {
    const size_t length = strlen(text);
    for (long bad; (bad = text_first_bad_utf8(text, length)) >= 0;)
        text[bad] = '?';
    char *end = text;
    for (const char *byte = text; *byte; byte++) {
        const unsigned char this = (unsigned char)byte[0], next = (unsigned char)byte[1];
        const bool is_c1 = this == 0xC2 && next < 0xA0;
        *end++ = this < 0x20 || this == 0x7F || is_c1 ? '?' : *byte;
        byte += is_c1;
    }
    *end = '\0';
}

static void append(Faults *faults, FaultKind kind, Place place, const char *text) {
    Fault *fault = ARENA_NEW(faults->arena, Fault);
    *fault = (Fault){kind, place, text, NULL};
    if (faults->last) {
        faults->last->next = fault;
    } else {
        faults->first = fault;
    }
    faults->last = fault;
}

__attribute__((format(printf, 4, 0))) static void
add(Faults *faults, FaultKind kind, Place place, const char *format, va_list arguments) {
    int *const count = kind == FAULT_WRONG ? &faults->wrong_count : &faults->doubt_count;
    if (*count > FAULTS_KEPT)
        return;
    if ((*count)++ == FAULTS_KEPT) {
        append(faults, kind, (Place){NULL, 0, 0},
               kind == FAULT_WRONG ? "more faults were found: mend these first"
                                   : "more doubts were found: look at these first");
        return;
    }
    char text[FAULT_TEXT_BYTES];
    vsnprintf(text, sizeof text, format, arguments);
    clean(text);
    append(faults, kind, place, arena_copy(faults->arena, text, strlen(text)));
}

void fault_add(Faults *faults, Place place, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    add(faults, FAULT_WRONG, place, format, arguments);
    va_end(arguments);
}

void doubt_add(Faults *faults, Place place, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    add(faults, FAULT_DOUBT, place, format, arguments);
    va_end(arguments);
}

typedef struct {
    const Fault *fault;
    int file_order, order;
} Rank;

static int sign(int a, int b) { return (a > b) - (a < b); }

static int compare_ranks(const void *left, const void *right) {
    const Rank *a = left, *b = right;
    if (a->file_order != b->file_order)
        return sign(a->file_order, b->file_order);
    const Place *p = &a->fault->place, *q = &b->fault->place;
    if (p->line != q->line)
        return sign(p->line, q->line);
    if (p->column != q->column)
        return sign(p->column, q->column);
    return sign(a->order, b->order);
}

/* The order in which its file was first met; what belongs to no file comes last. */
static int file_order(const Rank *ranks, int count, const Fault *fault) {
    if (!fault->place.file)
        return INT_MAX;
    for (int i = 0; i < count; i++) {
        const char *file = ranks[i].fault->place.file;
        if (file && text_same(file, fault->place.file))
            return ranks[i].file_order;
    }
    return count;
}

const Fault **faults_sorted(const Faults *faults, Arena *arena) {
    const int count = faults->wrong_count + faults->doubt_count;
    Rank *ranks = ARENA_ARRAY(arena, Rank, count);
    int filled = 0;
    for (const Fault *fault = faults->first; fault; fault = fault->next) {
        const int order = file_order(ranks, filled, fault);
        ranks[filled] = (Rank){fault, order, filled};
        filled++;
    }
    qsort(ranks, (size_t)filled, sizeof *ranks, compare_ranks);
    const Fault **sorted = ARENA_ARRAY(arena, const Fault *, count);
    for (int i = 0; i < filled; i++)
        sorted[i] = ranks[i].fault;
    return sorted;
}

const char *place_text(Place place, Arena *arena) {
    if (!place.file)
        return "";
    if (place.line == 0)
        return arena_print(arena, "%s: ", place.file);
    if (place.column == 0)
        return arena_print(arena, "%s:%d: ", place.file, place.line);
    return arena_print(arena, "%s:%d:%d: ", place.file, place.line, place.column);
}
