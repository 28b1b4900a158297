/* Crumbs are feeds and servings too small to be worth a trip: see steady_ration.h for what is
 * one. For steady_ration.c alone. */
#ifndef PLANNER_STEADY_CRUMBS_H
#define PLANNER_STEADY_CRUMBS_H

#include "planner/steady_program.h"

/* From the best so far, which is even, to one without the crumbs that the cost allows to go. */
void steady_sweep_crumbs(Steady *steady);

#endif
