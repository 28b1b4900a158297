/* The only header a unit test needs besides the one it tests. */
#ifndef SUPPORT_UNIT_H
#define SUPPORT_UNIT_H

/* cmocka.h needs these four before it; sorting the lines would put it first. */
// clang-format off
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
// clang-format on

#include "base/arena.h"
#include "base/fault.h"
#include "base/text.h"
#include <math.h>

/* *state is an arena, opened before the test and closed after it: what the test leaves behind
 * would be seen by the leak check. */
static inline int unit_open_arena(void **state) {
    *state = arena_open();
    return 0;
}

static inline int unit_close_arena(void **state) {
    arena_close(*state);
    return 0;
}

#define UNIT_TEST(test)                                                                        \
    cmocka_unit_test_setup_teardown((test), unit_open_arena, unit_close_arena)

/* cmocka compares floats only; NaN is near nothing. */
#define assert_near(actual, expected, tolerance)                                               \
    unit_assert_near((actual), (expected), (tolerance), #actual, __FILE__, __LINE__)

static inline void unit_assert_near(double actual, double expected, double tolerance,
                                    const char *expression, const char *file, int line) {
    if (actual == expected || fabs(actual - expected) <= tolerance)
        return;
    print_error("%s is %.12g, not %.12g within %g\n", expression, actual, expected, tolerance);
    _fail(file, line);
}

/* All faults as a reader sees them, in their order, one a line; doubts are marked. */
static inline const char *unit_faults(const Faults *faults, Arena *arena) {
    const Fault **const sorted = faults_sorted(faults, arena);
    Text text = text_new(arena);
    for (int i = 0; i < faults->wrong_count + faults->doubt_count; i++) {
        text_print(&text, "%s%s%s\n", place_text(sorted[i]->place, arena),
                   sorted[i]->kind == FAULT_DOUBT ? "doubt: " : "", sorted[i]->text);
    }
    return text.bytes;
}

#endif
