/* Condition score and the energy behind it. The 9-point scale inside;
 * docs/equations/body-reserve.md */
#ifndef CATTLE_BODY_RESERVE_H
#define CATTLE_BODY_RESERVE_H

#include "base/quantity.h"

/* A 5-point score on the 9-point scale: 2 s - 1 (1 -> 1, 3 -> 5, 5 -> 9). */
double condition_from_five_point(double score_5);

/* Live weight of the same cow at another score: ash mass stays the same. Scores 1 to 9. */
Mass weight_at_condition(Mass live_weight, double score_now, double score_then);

/* Fat in the empty body, as a share of it. */
double body_fat_share(double score);

/* Energy in body fat and protein of a cow of this live weight at this score. */
Energy body_energy(Mass live_weight, double score);

/* Diet NEm it takes (positive) or saves (negative) to move from one score to the other:
 * reserves are laid down 1 for 1 and replace 0.80 Mcal of diet per Mcal lost. live_weight is at
 * score_now. */
Energy condition_change_energy(Mass live_weight, double score_now, double score_then);

/* The score that diet NEm above (positive) or below upkeep brings her to: the way back of
 * condition_change_energy; within 1 to 9. */
double condition_after(Mass live_weight, double score_now, Energy diet);

/* Body energy only, without the 0.80. */
Energy reserve_difference(Mass live_weight, double score_now, double score_then);

#endif
