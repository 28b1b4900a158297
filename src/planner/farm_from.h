/* A farm as it stands on a morning of the winter: what is left of each stack by the record and
 * the recounts, the groups as they are now, and only the days still to feed. A function from
 * farm to farm; the plan of the rest of winter is the plan of that farm. */
#ifndef PLANNER_FARM_FROM_H
#define PLANNER_FARM_FROM_H

#include "planner/farm.h"

/* false with a fault at `place` when the day is not one that leaves a winter of two days. On
 * the first feeding day, with nothing recorded, the farm stays as it was. */
bool farm_from(Arena *arena, Faults *faults, Place place, Farm *farm, Day from);

/* Groups as head-changes.csv has them on the first day still to feed. Those of which none is
 * left on any day are taken out, with their own figures; a farm without cattle is a fault. */
bool farm_settle_heads(Arena *arena, Faults *faults, Farm *farm);

/* What is left of a stack, as a stack counted that morning. */
Stack stack_left(const Farm *farm, int place, Day from);

#endif
