/* The value of one number at which two futures cost the same, found by planning both anew. */
#ifndef PLANNER_BREAK_EVEN_H
#define PLANNER_BREAK_EVEN_H

#include "planner/cost_curve.h"

typedef struct {
    /* Both cost the same at `at`, and on either side of it another is the cheaper; of whole
     * numbers and days one is cheaper up to `before`, the other from `behind` on. */
    double at, before, behind;
    bool a_is_cheaper_below;
    double cost; /* of either, at it */
} BreakEven;

#define SAME_COST_SHARE 1e-5 /* of the cost: futures nearer than this cost the same */

/* The pieces of both futures: where these say that between neighbours of the grid the cheaper
 * one changes and changes back, that corner is planned too. Of a price, whose pieces are
 * straight, none is then missed; of another number two may be that lie within one piece. */
typedef struct {
    const CostPiece *a, *b;
    int a_count, b_count;
} PairPieces;

/* In rising order, at most `most`; returns how many. Looked for between the values of a grid,
 * and corners of the pieces (NULL: not known). Where either future cannot be balanced there is
 * none. The same whichever future is named first. */
int break_evens(CostAt *cost_at, void *a, void *b, CurveRange range, const PairPieces *pieces,
                BreakEven *found, int most);

#endif
