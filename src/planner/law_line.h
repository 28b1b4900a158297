/* The straight lines that stand in a program for the two curved laws: the one that touches a
 * law at the mix of the last round, and beside it a few that stay where they are. With the
 * moving line alone a ration flips from one end of it to the other, round after round, and
 * misses the law by the square of the way between; a law that bends away from what is allowed
 * lies beyond all its lines at once, so those that stay cut off nothing and leave it no way to
 * flip. For ration_limit.c alone. */
#ifndef PLANNER_LAW_LINE_H
#define PLANNER_LAW_LINE_H

#include "planner/ration_row.h"

/* Growing cattle split the energy of a ration between upkeep, M, and gain, R: with E and G its
 * NEm and NEg, G (1 - M / E) >= R. Of a mix with r = G / E, M + R / r of E just does, of which
 * upkeep takes the share s = M / E, and the line that touches the law there is
 *
 *     (1 - s) G + r s E >= R + r M
 *
 * All rations the law allows lie on its right side: G (1 - M / E) is a product of two functions
 * that bend down, so where it is above R is convex. Sets per_kg and least. The law is
 * [NRC_EQUATIONS_2000 ch.3], its line own working. */
void law_line_of_gain(const RationRows *rows, double gain_per_upkeep, RationLimit *limit);

/* Dry matter D, of which F fills, against cap(n), n = E / F. The line that touches the law
 * where a mix of that density comes to it:
 *
 *     D - k (E - n F)   against   cap(n)       with k = cap'(n) / cap(n)
 *
 * Sets per_kg; returns cap(n), the bound. */
double law_line_of_intake(const RationRows *rows, IntakeLaw law, double diet_nem,
                          bool minerals_count, RationLimit *limit);

/* Adds the lines that stay where they are. Those of gain are divided by 1 - s,
 *
 *     G + k E >= (R + r M)^2 / R      with k = r^2 M / R,
 *
 * and stand where k is one of few numbers. line_of says of which law, and they are not shown.
 * Of intake only those of the least that fills, where 1 / cap(n) bends down, as with the forms
 * of cows up to some 1.5 Mcal/kg; and while the last mix lay above 0.95, where the law has a
 * kink. */
void law_lines_add(RationRows *rows, BlockState state);

#endif
