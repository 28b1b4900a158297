/* What is wrong with the input, and where. Readers add faults and go on, so that one run shows
 * them all. A doubt is a value that is read and used but looks strange. */
#ifndef BASE_FAULT_H
#define BASE_FAULT_H

#include "base/arena.h"

typedef struct {
    const char *file;
    int line, column; /* 1-based, column in characters; 0: the whole line, the whole file */
} Place;

typedef enum { FAULT_WRONG, FAULT_DOUBT } FaultKind;

typedef struct Fault {
    FaultKind kind;
    Place place;
    const char *text;
    struct Fault *next;
} Fault;

typedef struct {
    Arena *arena;
    Fault *first, *last;
    int wrong_count, doubt_count;
} Faults;

Faults faults_new(Arena *arena);

/* The text: "thing: what is wrong, with the value; how to mend it". At most 200 of one kind are
 * kept; the one after says that there are more. */
void fault_add(Faults *faults, Place place, const char *format, ...)
    __attribute__((format(printf, 3, 4)));
void doubt_add(Faults *faults, Place place, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

/* In the order a reader mends them: by file in the order first met, then line, then column.
 * Returns an array of faults->wrong_count + faults->doubt_count entries. */
const Fault **faults_sorted(const Faults *faults, Arena *arena);

/* "file:line:column: " with the zero parts left out; text in the arena. */
const char *place_text(Place place, Arena *arena);

#endif
