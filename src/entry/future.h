/* A farm as it would be: its files with changes made, read by the readers that read any farm.
 * Every fault of it is the change's, and is placed there. */
#ifndef ENTRY_FUTURE_H
#define ENTRY_FUTURE_H

#include "entry/what_if.h"
#include "planner/farm.h"

/* Of a farm that is without fault as it is. False when a fault was added: at the cell of the
 * what-if that a reader refuses, or, where the changes make something else impossible, at the
 * line of the change but for which it would not be. `file` is what the changes are called where
 * none of them alone is to blame. */
bool future_read(Arena *arena, Faults *faults, const FarmRequest *request, const char *file,
                 const Change *changes, int count, Farm *farm);

/* The farm on the day that was asked for, if one was: false with a fault when it cannot be. */
bool farm_is_from(Arena *arena, Faults *faults, const FarmRequest *request, Farm *farm);

/* Of a what-if some of whose lines could not be read: adds what readers refuse of the others,
 * and nothing of what comes of them. */
void future_check(Arena *arena, Faults *faults, const FarmRequest *request, const char *file,
                  const Change *changes, int count);

#endif
