/* How much cattle can eat, from the energy of what they eat. docs/equations/intake.md
 *
 *     DMI = SBW^0.75 (slope n^2 + bend n + base) / max(n, 0.95) + milk_share * milk
 *
 * with n the diet's NEm, Mcal/kg. The coefficients are averaged over a period in which some
 * cows have calved, which is exact because the law is linear in them. */
#ifndef CATTLE_DRY_MATTER_INTAKE_H
#define CATTLE_DRY_MATTER_INTAKE_H

#include "base/quantity.h"

typedef enum {
    INTAKE_PREGNANT_COW, /* last two thirds: 0.04997 n^2 + 0.04631 */
    INTAKE_OPEN_COW,     /* open or early: 0.04997 n^2 + 0.03840 */
    INTAKE_NURSING_COW,  /* open form + 0.2 kg per kg of milk */
    INTAKE_CALF,         /* 0.2435 n - 0.0466 n^2 - 0.1128 */
    INTAKE_YEARLING      /* 0.2435 n - 0.0466 n^2 - 0.0869 */
} IntakeForm;

typedef struct {
    double square, linear, constant; /* of n, per kg SBW^0.75, already times its correction */
    double added;                    /* kg/day: milk part, already times its correction */
} IntakeLaw;

/* The published form as it stands, times `correction` (1 = as published). */
IntakeLaw intake_law(IntakeForm form, FeedRate milk, double correction);

/* Part-weighted sum, for averaging: a + share * b. */
IntakeLaw intake_law_add(IntakeLaw a, IntakeLaw b, double share);

FeedRate intake_at(IntakeLaw law, Mass shrunk, EnergyDensity diet_nem);

/* Fat growing cattle eat less: 1.00 at 350 kg equivalent weight and below, 0.73 at 550 and
 * above. */
double fatness_intake_factor(Mass equivalent);

/* Cattle ate more than the forms say, dry cows by about so much and nursing ones by so much
 * [GROSS_THESIS]; own choice of the round figure. */
#define INTAKE_CORRECTION_DRY 1.14
#define INTAKE_CORRECTION_NURSING 1.17
#define SATIETY_SHARE 0.90 /* own choice: hungry below this share of the form */

#endif
