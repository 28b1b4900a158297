/* The least cost of a winter as one number of its question changes, found by planning anew: its
 * pieces, between the values at which the rations change. Each value is asked of whoever knows
 * how to put it into the question. */
#ifndef PLANNER_COST_CURVE_H
#define PLANNER_COST_CURVE_H

#include "base/arena.h"
#include <stdbool.h>

typedef enum { USE_NONE, USE_SOME, USE_ALL } FeedUse; /* of what there is of a feed */

typedef struct {
    double at;               /* the number */
    bool is_balanced;        /* else nothing below is known */
    double cost;             /* dollars at the least */
    double slope;            /* dollars for one more of the number; NAN: not known beforehand */
    int feed_count;          /* of this future's question */
    const FeedUse *use;      /* [feed_count] */
    const double *taken_kg;  /* [feed_count] as fed: bought, or taken from the stack */
    const bool *is_bought;   /* [feed_count] */
    const char *const *name; /* [feed_count] */
} CostPoint;

typedef CostPoint CostAt(void *asked, double at);

/* `is_whole`: the number is a count or a day. */
typedef struct {
    double from, to; /* from < to */
    bool is_whole;
} CurveRange;

typedef struct {
    double from, to;
    double cost_from, cost_to; /* NAN where not balanced */
    CostPoint within;          /* the winter in the middle of it */
} CostPiece;

/* Pieces in rising order. Where the slope is known the cost is taken as concave with straight
 * pieces, as the least cost is in a price: two lines meet at a corner, which is one when the
 * cost lies on both, and parts the range again when it does not. Else a corner is where some
 * feed comes in, goes out or is used up, between values of a grid, and the range is halved. */
int cost_pieces(Arena *arena, CostAt *cost_at, void *asked, CurveRange range,
                const CostPiece **pieces);

/* The cost by the pieces, straight within each and between them; NAN outside, and where it
 * cannot be balanced. */
double cost_by_pieces(const CostPiece *pieces, int count, double at);

/* The values of the grid: [count], the ends among them. */
#define CURVE_GRID 9
int curve_grid(CurveRange range, double grid[CURVE_GRID]);

#endif
