/* Days as a reader says them. Text in the arena. */
#ifndef OUTCOME_DAY_WORDS_H
#define OUTCOME_DAY_WORDS_H

#include "base/arena.h"
#include "base/calendar.h"

const char *day_words(Arena *arena, Day day);         /* "25 Mar 2027" */
const char *day_short(Arena *arena, Day day);         /* "25 Mar" */
const char *day_span(Arena *arena, Day from, Day to); /* "25 Mar to 2 Apr", "25 Mar" of one */
const char *day_iso(Arena *arena, Day day);           /* "2027-03-25" */

#endif
