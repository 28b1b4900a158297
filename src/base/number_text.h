/* Numbers as people write them. */
#ifndef BASE_NUMBER_TEXT_H
#define BASE_NUMBER_TEXT_H

#include "base/arena.h"
#include <stdbool.h>

/* Digits with a sign, a point (or comma, where that is the custom) and an exponent; the whole
 * text, finite. No infinity, no hexadecimal. */
bool number_read(const char *text, bool comma_is_point, double *value);

/* What is wrong with a text that is no number, and how to mend it, to follow the text itself:
 * "has a comma in it: write 1250". */
const char *number_cure(Arena *arena, const char *text);

#endif
