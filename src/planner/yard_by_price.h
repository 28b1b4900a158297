/* Whole numbers of the yard: which feeds are in a ration and how many bales, chosen ration by
 * ration at prices of what the rations share, or group by group where a rule ties periods
 * together; and loads over what is then bought. docs/planner.md */
#ifndef PLANNER_YARD_BY_PRICE_H
#define PLANNER_YARD_BY_PRICE_H

#include "planner/yard_search.h"

/* LP_OPTIMAL: found, as yard_search; LP_INFEASIBLE: proved that nothing keeps the rules;
 * LP_FAILED: nothing was found. `near` solves the base. choice->bound and choice->fixed, faces
 * only, are given: what is known of the whole, and what faces are held to (NAN: no face). */
LpStatus yard_search_by_price(Arena *arena, const YardProgram *yard, const LpSolution *near,
                              const YardRules *rules, const double *target, YardChoice *choice);

/* Raises the bound to what the rules of single rations and purchases cost at the least,
 * whatever the others; LP_INFEASIBLE: proved that nothing keeps these. */
LpStatus yard_bound_by_price(Arena *arena, const YardProgram *yard, const LpSolution *near,
                             const YardRules *rules, double *bound);

#endif
