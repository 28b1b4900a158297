/* How many head a group has from a day on, as somebody counted them: after some died, were
 * sold, bought or moved to another group. The number itself, not a difference, so that a row
 * read twice changes nothing. head-changes.csv, docs/file-formats.md */
#ifndef CATTLE_HEAD_CHANGE_H
#define CATTLE_HEAD_CHANGE_H

#include "cattle/herd_group.h"

typedef struct {
    Day date;
    int group; /* of the herd */
    double head;
    double weight_kg; /* of one on that day; 0 not weighed */
    const char *note;
    Place place;
} HeadChange;

typedef struct {
    const HeadChange *changes; /* by date; of one date in the order of the file */
    int count;
} HeadChanges;

/* bytes NULL: no such file. Rows of groups of another herd are a doubt and left out. */
HeadChanges head_changes_parse(Arena *arena, Faults *faults, const Herd *herd, Day first_day,
                               Day last_day, const char *file, const char *bytes,
                               size_t length);

/* The head of a group on a day: the last change up to it, else what the herd file says. */
double head_on(const HeadChanges *changes, const Herd *herd, int group, Day day);

#endif
