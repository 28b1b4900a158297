/* What each future costs at the least as one number changes: its pieces, drawn, and where two
 * cost the same. */
#ifndef OUTCOME_VARIED_REPORT_H
#define OUTCOME_VARIED_REPORT_H

#include "outcome/measure.h"
#include "planner/break_even.h"

typedef struct {
    const char *name;
    const CostPiece *pieces;
    int piece_count;
    const double *cost; /* [grid_count]; NAN where not balanced */
    bool lacks_it;      /* the row is not there: no value of it changes anything */
} VariedFuture;

#define BREAK_EVENS_MOST 8

typedef struct {
    int a, b; /* places of the futures */
    BreakEven found[BREAK_EVENS_MOST];
    int count;
    double open; /* dollars: differences up to this are left open by tests and weights, twice
                    the standard error with the number as it is; NAN: not known */
    bool other_herd; /* one feeds other days of cattle than the farm as it is: told only
 where they meet */
} VariedPair;

typedef struct {
    const char *what;    /* "for-sale.csv, Feed barley, price_per_tonne" */
    const char *heading; /* "price_per_tonne" */
    CurveRange range;
    bool is_day; /* the number is that of a Day */
    const double *grid;
    int grid_count;
    const VariedFuture *futures;
    int future_count;
    const VariedPair *pairs;
    int pair_count;
} VariedCost;

void varied_report_add(Report *report, const VariedCost *varied, Units units);

/* The values around a break-even at which the two differ by no more than is left open, within
 * the range; straight between what was planned. The pair's `open` is known. varied_open.c */
CurveRange varied_open(const VariedCost *varied, const VariedPair *pair, const BreakEven *even);
/* At no value of the grid do they differ by more. */
bool varied_is_open_everywhere(const VariedCost *varied, const VariedPair *pair);

/* Figures of it, under "varied": varied_figures.c */
void varied_figures(Figure *root, const VariedCost *varied);

#endif
