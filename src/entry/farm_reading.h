/* From the bytes of a farm's files, and of the program's own tables, to a Farm. Opens nothing.
 */
#ifndef ENTRY_FARM_READING_H
#define ENTRY_FARM_READING_H

#include "entry/task.h"
#include "planner/farm.h"

/* Reads everything and adds every fault it meets; false when any makes the farm unusable. */
bool farm_read(Arena *arena, Faults *faults, const FarmRequest *request, Farm *farm);

/* What was asked for, or else the farm's own. */
Units farm_units(const FarmRequest *request, const Farm *farm);

#endif
