/* One small program whose answer must keep to rules that are not linear: at most so many of
 * some columns, each by a least share of their sum or not at all, some by whole bales. By
 * branch and bound: a column that breaks a rule is kept in on one branch and left out on the
 * other, or rounded down and up, and each is solved from the basis of the one before. */
#ifndef PLANNER_SMALL_CHOICE_H
#define PLANNER_SMALL_CHOICE_H

#include "planner/small_program.h"

typedef struct {
    int count;          /* of the columns the rules speak of */
    const int *column;  /* [count] in the program */
    const double *kg;   /* [count] that one of the column weighs */
    const double *bale; /* [count] of the column, a bale; 0: by any amount */
    int most;           /* of them; 0: any number */
    double least_share; /* of the kilograms of all of them; 0: none */
    int most_nodes;
} SmallRule;

/* LP_INFEASIBLE: proved that nothing keeps the rules; LP_FAILED: nothing was found within
 * most_nodes. */
typedef struct {
    LpStatus status;
    double cost, bound; /* what keeps the rules costs no less than the bound */
} SmallChoice;

typedef struct SmallChooser SmallChooser;

/* Room for programs up to this size. */
SmallChooser *small_chooser(Arena *arena, int most_rows, int most_columns);

/* `basis` is that of the program without the rules: begun from, and left there. */
SmallChoice small_choose(SmallChooser *chooser, const SmallProgram *program, const double *cost,
                         SmallBasis *basis, const SmallRule *rule);

/* Of the last choice that was found, by column. */
const double *small_chosen(const SmallChooser *chooser);

#endif
