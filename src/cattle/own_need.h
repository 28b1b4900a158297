/* A nutritionist's own figures, which win over the equations: needs.csv, docs/file-formats.md.
 * A figure holds for one group between two days, and feeding periods are cut at both, so that
 * it holds for all of a period or for none of it. */
#ifndef CATTLE_OWN_NEED_H
#define CATTLE_OWN_NEED_H

#include "cattle/requirement.h"

typedef struct {
    NeedKind kind;
    Nutrient nutrient; /* NEED_CONCENTRATION */
    int group;         /* of the herd */
    Day from, until;   /* both counted; far off where the cell was empty */
    bool has_from, has_until;
    double value;     /* in the unit of its kind */
    const char *need; /* "metabolizable_protein", as the file names it */
    Place place;
} OwnNeed;

typedef struct {
    const OwnNeed *needs;
    int count;
} OwnNeeds;

/* bytes NULL: none. Days: as for herd_parse. A row with a fault is left out. */
OwnNeeds own_needs_parse(Arena *arena, Faults *faults, const Herd *herd,
                         const MineralNeeds *minerals, Day first_day, Day last_day,
                         const char *file, const char *bytes, size_t length);

/* Puts the figures of a group in the place of what the equations say of this period, which no
 * figure of the group may hold for in part. */
void own_needs_apply(const OwnNeeds *needs, int group, Day from, Day to,
                     Requirement *requirement);

const char *own_need_unit(const OwnNeed *need); /* "Mcal", "g", "kg", "%", "ppm", "IU/kg" */

#endif
