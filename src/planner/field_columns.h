/* Next year's fields in the program of a winter: the hectares of each field cut on each day and
 * put up each way are columns, whose feed is a stock like any other. Hectares are any number
 * from nothing to the field: how much of a field a machine can leave is not asked.
 *
 *     stock of feed c:   eaten - tonnes_per_hectare[c] hectares[c] <= 0
 *     field i:           least <= sum of its hectares[c] <= most
 *
 * They tie rations together as stacks do and belong to none. docs/planner.md */
#ifndef PLANNER_FIELD_COLUMNS_H
#define PLANNER_FIELD_COLUMNS_H

#include "planner/ration_program.h"

struct FieldChoices {
    int field_count;
    const double *field_least, *field_most; /* hectares of all cuts of a field together */
    int count;                        /* of cuts: the own feeds of the question, in order */
    const int *field;                 /* [count] */
    const double *tonnes_per_hectare; /* as fed, what storage leaves */
    const double *cost_per_hectare; /* less what is made of it would fetch: a feed that is eaten
                                       pays that, and what is left over is sold at it */
    const double *least, *most;     /* hectares of each cut */
};

/* Adds the columns and rows; the stock rows of these feeds start from nothing. */
void field_columns_add(Arena *arena, RationProgram *program);

/* Their costs, which a shortage program leaves out. */
void field_columns_price(RationProgram *program);

#endif
