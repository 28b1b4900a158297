/* Futures that feed the same cattle, as bars of how much dearer each is than the cheapest:
 * whole costs are so near to each other that bars of them would look alike. */
#ifndef OUTCOME_DEARER_CHART_H
#define OUTCOME_DEARER_CHART_H

#include "outcome/report.h"

typedef struct {
    const char *name;
    double cost; /* dollars; NAN: not to be compared, and left out */
} PricedFuture;

/* Into the section being written, below the table of its numbers; with fewer than two to
 * compare, nothing. */
void dearer_chart(Report *report, const PricedFuture *futures, int count);

#endif
