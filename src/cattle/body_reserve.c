#include "cattle/body_reserve.h"

#include "cattle/maintenance.h"

#include <assert.h>
#include <stdbool.h>

#define EMPTY_BODY_SHARE 0.851 /* of shrunk weight, mature cow */
#define MCAL_PER_KG_FAT 9.4
#define MCAL_PER_KG_PROTEIN 5.7
#define DIET_SAVED_PER_RESERVE 0.80

/* Make-up of the empty body by 9-point score CS, as shares.
 *
 *     fat = 0.03768 CS;  protein = 0.200886 - 0.0066762 CS;  ash = 0.078982 - 0.00438 CS
 *
 * [NRC_EQUATIONS_2000 ch.3]; the fat of every score is printed in [UNL_CONDITION]. */
double body_fat_share(double score) { return 0.03768 * score; }
static double protein_share(double score) { return 0.200886 - 0.0066762 * score; }
static double ash_share(double score) { return 0.078982 - 0.00438 * score; }

static bool is_nine_point_score(double score) { return score >= 1.0 && score <= 9.0; }

/* A 5-point score on the 9-point scale.
 *
 *     CS9 = 2 CS5 - 1
 *
 * The straight line through both ends of both scales [OWN_CHOICE]. */
double condition_from_five_point(double score_5) { return 2.0 * score_5 - 1.0; }

/* Weight of the same cow at another score: bone does not come and go, so ash mass stays.
 *
 *     W2 = W1 ash(CS1) / ash(CS2)      kg
 *
 * [NRC_EQUATIONS_2000 ch.3]. */
Mass weight_at_condition(Mass live_weight, double score_now, double score_then) {
    assert(live_weight.kg > 0.0);
    assert(is_nine_point_score(score_now) && is_nine_point_score(score_then));
    return (Mass){live_weight.kg * ash_share(score_now) / ash_share(score_then)};
}

/* Energy of body fat and body protein.
 *
 *     E = EBW (9.4 fat + 5.7 protein)      Mcal; EBW = 0.851 SBW, kg
 *
 * [NRC_EQUATIONS_2000 ch.3]. */
Energy body_energy(Mass live_weight, double score) {
    assert(is_nine_point_score(score));
    const double empty_kg = EMPTY_BODY_SHARE * shrunk_weight(live_weight).kg;
    return (Energy){empty_kg * (MCAL_PER_KG_FAT * body_fat_share(score) +
                                MCAL_PER_KG_PROTEIN * protein_share(score))};
}

Energy reserve_difference(Mass live_weight, double score_now, double score_then) {
    const Mass then = weight_at_condition(live_weight, score_now, score_then);
    return (Energy){body_energy(then, score_then).mcal -
                    body_energy(live_weight, score_now).mcal};
}

/* Diet NEm behind a change of score: 1 Mcal lays down 1 Mcal; 1 Mcal drawn down saves 0.80
 * Mcal. [NRC_EQUATIONS_2000 ch.3]; laying down 1 for 1 also in [UNL_RESERVES]. */
Energy condition_change_energy(Mass live_weight, double score_now, double score_then) {
    const double body_mcal = reserve_difference(live_weight, score_now, score_then).mcal;
    return (Energy){body_mcal < 0.0 ? DIET_SAVED_PER_RESERVE * body_mcal : body_mcal};
}

#define HALVINGS 50 /* of the nine points: far below a double's last place */

double condition_after(Mass live_weight, double score_now, Energy diet) {
    double low = 1.0;
    double high = 9.0;
    for (int i = 0; i < HALVINGS; i++) {
        const double middle = 0.5 * (low + high);
        if (condition_change_energy(live_weight, score_now, middle).mcal < diet.mcal)
            low = middle;
        else
            high = middle;
    }
    return 0.5 * (low + high);
}
