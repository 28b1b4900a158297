/* Practices a farm follows where advice differs (practice.def). */
#ifndef CATTLE_PRACTICE_H
#define CATTLE_PRACTICE_H

#include <stdbool.h>

typedef enum { CHOICE_NITRATE, CHOICE_SULFUR, PRACTICE_CHOICE_COUNT } PracticeChoice;

typedef enum {
#define PRACTICE(id, choice, setting, line) PRACTICE_##id,
#include "cattle/practice.def"
#undef PRACTICE
    PRACTICE_COUNT
} Practice;

/* The names winter.csv may use for a choice, the cautious one first; how many. */
int practice_settings(PracticeChoice choice, const char *names[PRACTICE_COUNT]);

/* The practice at that place of practice_settings. */
Practice practice_at(PracticeChoice choice, int place);

/* By its name in a line of the safety table. */
bool practice_find(const char *line, Practice *practice);

#endif
