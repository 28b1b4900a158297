/* What a reader tells of a file: the test marks in the file itself where each fault has to be.
 *
 *     assert_told("head,weight_kg\n^-5,^abc\n", "outside", "is not a number");
 *
 * `^` stands before a wrong cell, `~` at the start of a line that is wrong as a whole, `@` at
 * the start of the file for a fault of all of it; a mark twice: two faults there. The parts are
 * in the order a user reads them; one that begins with "doubt: " has to be a doubt, any other a
 * fault. */
#ifndef SUPPORT_TOLD_H
#define SUPPORT_TOLD_H

#include "support/unit.h"
#include <string.h>

typedef void ToldReader(Arena *arena, Faults *faults, const char *bytes, size_t length);

#define TOLD_MOST 40

typedef struct {
    const char *bytes;
    Place places[TOLD_MOST];
    int count;
} ToldMarks;

static inline ToldMarks told_marks(Arena *arena, const char *marked) {
    ToldMarks marks = {.count = 0};
    Text text = text_new(arena);
    int line = 1;
    int column = 1;
    for (const char *byte = marked; *byte; byte++) {
        if (strchr("^~@", *byte)) {
            assert_true(marks.count < TOLD_MOST);
            marks.places[marks.count++] =
                (Place){"", *byte == '@' ? 0 : line, *byte == '^' ? column : 0};
            continue;
        }
        text_add_bytes(&text, byte, 1);
        column = *byte == '\n' ? 1 : column + (((unsigned char)*byte & 0xC0U) != 0x80U);
        line += *byte == '\n';
    }
    marks.bytes = text.bytes;
    return marks;
}

static inline bool told_fits(const Fault *fault, Place place, const char *part) {
    const bool is_doubt = strncmp(part, "doubt: ", 7) == 0;
    return fault->place.line == place.line && fault->place.column == place.column &&
           (fault->kind == FAULT_DOUBT) == is_doubt &&
           strstr(fault->text, part + (is_doubt ? 7 : 0));
}

static inline void told_check(Arena *arena, ToldReader *reader, const char *marked,
                              const char *const *parts, const char *file, int line) {
    const ToldMarks marks = told_marks(arena, marked);
    Faults faults = faults_new(arena);
    reader(arena, &faults, marks.bytes, strlen(marks.bytes));
    const Fault **told = faults_sorted(&faults, arena);
    const int count = faults.wrong_count + faults.doubt_count;
    bool fits = count == marks.count;
    for (int i = 0; fits && i < count; i++)
        fits = parts[i] && told_fits(told[i], marks.places[i], parts[i]);
    if (fits && !parts[count])
        return;
    print_error("%s\ntells:\n%s", marked, unit_faults(&faults, arena));
    for (int i = 0; i < marks.count; i++)
        print_error("expected at %d:%d: %s\n", marks.places[i].line, marks.places[i].column,
                    parts[i] ? parts[i] : "(no part)");
    _fail(file, line);
}

/* In a test file: static ToldReader read_file; #define TOLD_READER read_file */
#define assert_told(marked, ...)                                                               \
    told_check(*state, TOLD_READER, (marked), (const char *const[]){__VA_ARGS__, NULL},        \
               __FILE__, __LINE__)
#define assert_tells_nothing(bytes)                                                            \
    told_check(*state, TOLD_READER, (bytes), (const char *const[]){NULL}, __FILE__, __LINE__)

#endif
