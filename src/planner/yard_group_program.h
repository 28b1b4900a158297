/* The rations of one group as a winter of their own beside what the others take: small enough
 * for whole numbers to be fixed in it a few at a time, also where a rule ties its periods
 * together. */
#ifndef PLANNER_YARD_GROUP_PROGRAM_H
#define PLANNER_YARD_GROUP_PROGRAM_H

#include "planner/yard_program.h"

/* Feeds that a group may have in it. */
typedef enum {
    FEEDS_OF_GROUP, /* that it has at some time, or wants */
    FEEDS_OF_ANY,   /* that any group has or wants */
    FEEDS_ALL
} YardBreadth;

typedef struct {
    int first, count; /* blocks of the group */
    bool may_trade;   /* with the others, at about the prices */
    YardBreadth breadth;
    const RationProgram *held; /* the whole, with what is fixed, but no row of a change */
    const double *value;       /* by column of the whole: what each takes */
    const double *price;       /* by row of the base */
    const double *target;      /* [block_count * feed_count] of the whole: wanted */
    int base_rows;
} YardGroupPart;

typedef struct {
    RationProgram program;
    int *column_of; /* of the whole in the program; -1: not there */
} YardGroupProgram;

/* Rows that tie groups together have what the others leave. */
YardGroupProgram yard_group_program(Arena *arena, const YardGroupPart *part);

#endif
