/* The coefficients of the rows of a ration program. Rations that follow one another mostly hold
 * to the same numbers over the same feeds: their rows then share one array. For
 * ration_program.c alone. */
#ifndef PLANNER_RATION_TERMS_H
#define PLANNER_RATION_TERMS_H

#include "planner/ration_limit.h"

typedef struct RationTerms RationTerms;

/* Their memory, and that of all arrays, is the arena's. */
RationTerms *ration_terms(Arena *arena, int feed_count);

/* The next ration, of the feeds listed. */
void ration_terms_begin(RationTerms *terms, const int *feed, int fed_count);

/* Of one side of a limit, by feed as listed and then of microbial protein. A ratio
 * a/(b + c) + added >= L becomes sum (a + (added - L) b) x >= (L - added) c. */
const double *ration_terms_of(RationTerms *terms, const RationLimit *limit, double bound);

#endif
