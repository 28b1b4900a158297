/* Looks for the whole numbers of a yard program: which feeds are in which ration, which face is
 * open, how many bales and loads. By prices, and group by group where a rule ties periods
 * together beside rules of feeds; where that finds nothing, or bales alone stand beside such a
 * rule, by fixing a few at a time; then, where that is not proved to be near the least, by
 * branch and bound. Effort is counted, never timed. */
#ifndef PLANNER_YARD_SEARCH_H
#define PLANNER_YARD_SEARCH_H

#include "planner/yard_program.h"

/* An answer this near the bound is as good as the least: what evening out usually may cost
 * too. */
#define YARD_GAP 1e-3

typedef struct {
    double *fixed;         /* by column: of a whole column its number; NAN of the others */
    const bool *not_whole; /* [block_count * feed_count] rations in which bales would not come
                              out whole */
    double cost, bound;    /* of these choices; no choice costs less than the bound */
    const double *value;   /* by column; NULL where it was found by prices */
    int solves, nodes;
    bool is_without_bales; /* few came out whole beside the other rules: none has to */
} YardChoice;

/* `target`, [block_count * feed_count]: the rations that were wanted without the rules. false
 * when nothing was found. The yard's columns are left fixed. */
bool yard_search(Arena *arena, const YardProgram *yard, const LpSolution *near,
                 const YardRules *rules, const double *target, YardChoice *choice);

/* Whether any of the columns is there: -1 is none. */
bool yard_has_any(const int *columns, int count);

/* By column: the number of a whole one, NAN of the others. */
double *yard_columns_fixed(Arena *arena, const LinearProgram *lp, const double *value);

/* Holds the whole columns of a program of the same shape to the choice. */
void yard_hold(const YardProgram *yard, const YardChoice *choice);

#endif
