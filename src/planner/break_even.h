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

/* In rising order, at most `most`; returns how many. Looked for between the values of a grid:
 * two that lie between neighbours of it are missed. Where either future cannot be balanced
 * there is none. The same whichever future is named first. */
int break_evens(CostAt *cost_at, void *a, void *b, CurveRange range, BreakEven *found,
                int most);

#endif
