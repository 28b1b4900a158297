/* From the bytes of a farm's files, and of the program's own tables, to a Farm. Opens nothing.
 */
#ifndef ENTRY_FARM_READING_H
#define ENTRY_FARM_READING_H

#include "entry/task.h"
#include "planner/farm.h"

/* Reads everything and adds every fault it meets; false when any makes the farm unusable. */
bool farm_read(Arena *arena, Faults *faults, const FarmRequest *request, Farm *farm);

/* The units asked for, else the farm's own. */
Units farm_units(const FarmRequest *request, const Farm *farm);

/* What rows of the record are held against. The last day before the first: not known. */
RecordContext record_context(const Farm *farm, Day first_day, Day last_day);

#endif
