/* Dates as people write them. Only YYYY-MM-DD is read; the others are told what to write. */
#ifndef BASE_DATE_TEXT_H
#define BASE_DATE_TEXT_H

#include "base/arena.h"

/* What is wrong with a text that calendar_parse does not read, and how to mend it, to follow
 * the text itself: "could be Nov 1 or Jan 11: write 2026-11-01 or 2026-01-11". */
const char *date_cure(Arena *arena, const char *text);

#endif
