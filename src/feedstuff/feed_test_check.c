/* What a laboratory row cannot say, and what it says only when something went wrong, whatever
 * feed it is of. The limits are this project's own choice. */
#include "base/number_text.h"
#include "base/text.h"
#include "feedstuff/book_value.h"
#include "feedstuff/feed_test_column.h"
#include <math.h>

double feed_test_value(const FeedTest *test, Nutrient nutrient) {
    return reading_or(test->analysis.of[nutrient], (double)NAN);
}

Place feed_test_place(const Sheet *sheet, const FeedTest *test, Nutrient nutrient) {
    return sheet_place(sheet, test->row, TEST_NUTRIENTS + (int)nutrient);
}

const char *feed_test_heading(const Sheet *sheet, Nutrient nutrient) {
    return sheet_heading(sheet, TEST_NUTRIENTS + (int)nutrient);
}

/* part must not be above whole; comparisons with NAN are false, so an unknown is never judged.
 */
static void check_part(const Sheet *sheet, const FeedTest *test, Nutrient part,
                       Nutrient whole) {
    const double part_value = feed_test_value(test, part);
    const double whole_value = feed_test_value(test, whole);
    if (part_value > whole_value) {
        fault_add(sheet_faults(sheet), feed_test_place(sheet, test, part),
                  "%s: %.4g%% of dry matter is above %s, %.4g%%; %s is a part of %s: are the "
                  "columns swapped?",
                  feed_test_heading(sheet, part), part_value, nutrient_kind(whole)->label,
                  whole_value, nutrient_kind(part)->label, nutrient_kind(whole)->label);
    }
}

/* Above this a "protein" is nitrogen that was never in one, as of urea: no part of the feed. */
#define MOST_TRUE_PROTEIN 100.0

/* What is not known counts as none: the feed holds at least this much. */
static void check_sum(const Sheet *sheet, const FeedTest *test) {
    static const Nutrient PARTS[] = {NUTRIENT_CRUDE_PROTEIN, NUTRIENT_NDF, NUTRIENT_CRUDE_FAT,
                                     NUTRIENT_ASH};
    double sum = 0.0;
    Place place = test->place;
    for (size_t i = sizeof PARTS / sizeof PARTS[0]; i-- > 0;) {
        const Reading part = test->analysis.of[PARTS[i]];
        if (!reading_is_known(part) ||
            (PARTS[i] == NUTRIENT_CRUDE_PROTEIN && part.value > MOST_TRUE_PROTEIN))
            continue;
        sum += part.value;
        place = feed_test_place(sheet, test, PARTS[i]);
    }
    if (sum > 106.0) {
        fault_add(
            sheet_faults(sheet), place,
            "crude protein, NDF, fat and ash add up to %.1f%% of dry matter: more than the "
            "feed; is the basis right?",
            sum);
    } else if (sum > 103.0) {
        doubt_add(sheet_faults(sheet), place,
                  "crude protein, NDF, fat and ash add up to %.1f%% of dry matter", sum);
    }
}

/* Net energy typed in the other unit is the commonest slip: judged against the TDN of the same
 * feed. */
bool feed_test_check_net_energy_unit(const Sheet *sheet, const FeedTest *test, double tdn) {
    const double nem = feed_test_value(test, NUTRIENT_NEM);
    if (!isfinite(tdn) || !isfinite(nem))
        return false;
    const double expected = nem_from_tdn(tdn).mcal_per_kg;
    const double tolerance = 0.25 * expected;
    const Place place = feed_test_place(sheet, test, NUTRIENT_NEM);
    const char *heading = feed_test_heading(sheet, NUTRIENT_NEM);
    if (fabs(nem - expected) <= tolerance)
        return false;
    const bool would_fit_per_lb = fabs(nem / KG_PER_POUND - expected) < tolerance;
    const bool would_fit_per_kg = fabs(nem * KG_PER_POUND - expected) < tolerance;
    if (would_fit_per_lb || would_fit_per_kg) {
        fault_add(sheet_faults(sheet), place,
                  "%s: with TDN %.3g%% this reads as Mcal per %s; head the column %s", heading,
                  tdn, would_fit_per_lb ? "lb" : "kg",
                  would_fit_per_lb ? "nem_mcal_per_lb" : "nem_mcal_per_kg");
        return true;
    }
    doubt_add(sheet_faults(sheet), place,
              "%s: %.3g Mcal/kg is far from the %.2f that TDN %.3g%% "
              "gives",
              heading, nem, expected, tdn);
    return true;
}

/* Further than this from what the sheet's own TDN gives, a laboratory's net energy is of
 * another equation than the plan's, or a slip [OWN_CHOICE]. */
#define NET_ENERGY_APART 0.08 /* Mcal/kg */

static void check_beside_tdn(const Sheet *sheet, const FeedTest *test, Nutrient nutrient,
                             double expected) {
    const double printed = feed_test_value(test, nutrient);
    if (fabs(printed - expected) > NET_ENERGY_APART)
        doubt_add(
            sheet_faults(sheet), feed_test_place(sheet, test, nutrient),
            "%s: %.2f Mcal/kg is not the %.2f that TDN %.3g%% gives here; no laboratory's "
            "net energy is planned with: check both figures, or ask for its equation",
            feed_test_heading(sheet, nutrient), printed, expected,
            feed_test_value(test, NUTRIENT_TDN));
}

static void check_net_energy(const Sheet *sheet, const FeedTest *test) {
    const double tdn = feed_test_value(test, NUTRIENT_TDN);
    if (!isfinite(tdn) || feed_test_check_net_energy_unit(sheet, test, tdn))
        return;
    check_beside_tdn(sheet, test, NUTRIENT_NEM, nem_from_tdn(tdn).mcal_per_kg);
    check_beside_tdn(sheet, test, NUTRIENT_NEG, neg_from_tdn(tdn).mcal_per_kg);
}

/* Rounding of ADF, NDF and of itself makes no more [OWN_CHOICE]. */
#define RELATIVE_FEED_VALUE_APART 3.0

/* Used in no ration; but ADF, NDF and it were printed of one sample. Words in the column are
 * the laboratory's business. */
static void check_relative_feed_value(const Sheet *sheet, const FeedTest *test) {
    const char *written = sheet_text(sheet, test->row, TEST_RFV);
    const double adf = feed_test_value(test, NUTRIENT_ADF);
    const double ndf = feed_test_value(test, NUTRIENT_NDF);
    double printed;
    if (!number_read(written, false, &printed) && !number_read(written, true, &printed))
        return;
    if (!isfinite(adf) || !(ndf > 1.0)) /* a share of one is told as that */
        return;
    const double expected = relative_feed_value(adf, ndf);
    if (fabs(printed - expected) > RELATIVE_FEED_VALUE_APART)
        doubt_add(sheet_faults(sheet), sheet_place(sheet, test->row, TEST_RFV),
                  "%s: %.4g is not the %.0f that ADF %.3g%% and NDF %.3g%% of dry matter give; "
                  "is one of the three mistyped, or the basis another?",
                  sheet_heading(sheet, TEST_RFV), printed, expected, adf, ndf);
}

static void check_gain_energy(const Sheet *sheet, const FeedTest *test) {
    const double nem = feed_test_value(test, NUTRIENT_NEM);
    const double neg = feed_test_value(test, NUTRIENT_NEG);
    if (neg >= nem) {
        fault_add(sheet_faults(sheet), feed_test_place(sheet, test, NUTRIENT_NEG),
                  "%s: NEg %.3g is not below NEm %.3g Mcal/kg: are the columns swapped?",
                  feed_test_heading(sheet, NUTRIENT_NEG), neg, nem);
    }
}

/* Some laboratories report it as a share of the protein: then it is several times too high. */
#define HEATED_SHARE 0.12
#define HARDLY_BOUND_SHARE 0.40

static void check_heat_damage(const Sheet *sheet, const FeedTest *test) {
    const double protein = feed_test_value(test, NUTRIENT_CRUDE_PROTEIN);
    const double share = feed_test_value(test, NUTRIENT_ADICP) / protein;
    const Place place = feed_test_place(sheet, test, NUTRIENT_ADICP);
    if (share > 1.0)
        return; /* a fault already */
    if (share > HARDLY_BOUND_SHARE) {
        doubt_add(
            sheet_faults(sheet), place,
            "adicp_pct: %.0f%% of the crude protein would be bound; if the sheet gives it "
            "as %% of crude protein, write %.2g",
            share * 100.0, protein * share * protein / 100.0);
    } else if (share > HEATED_SHARE) {
        doubt_add(sheet_faults(sheet), place,
                  "adicp_pct: %.0f%% of the crude protein is bound: the feed has heated",
                  share * 100.0);
    }
}

/* 10 ppm of nitrate is less than a feed laboratory can tell from none; 0.85 under ppm is a
 * percentage. */
#define LEAST_NITRATE_PCT (10.0 / PPM_PER_PERCENT)

static void check_nitrate(const Sheet *sheet, const FeedTest *test) {
    const double nitrate = feed_test_value(test, NUTRIENT_NITRATE);
    const Place place = feed_test_place(sheet, test, NUTRIENT_NITRATE);
    const char *heading = feed_test_heading(sheet, NUTRIENT_NITRATE);
    const char *written = text_excerpt(
        sheet_arena(sheet), sheet_text(sheet, test->row, TEST_NUTRIENTS + NUTRIENT_NITRATE));
    if (nitrate == 0.0) {
        doubt_add(sheet_faults(sheet), place,
                  "%s: 0 is read as tested and none found; leave the cell empty where nobody "
                  "looked",
                  heading);
    } else if (nitrate < LEAST_NITRATE_PCT) {
        fault_add(sheet_faults(sheet), place,
                  "%s: %s is less than a laboratory can find; is it a percentage? head the "
                  "column so, or write 0 if none was found",
                  heading, written);
    }
}

/* One sample's prussic acid in dry matter and as sampled differ by its water alone. */
#define PRUSSIC_ACID_APART 0.15 /* of the larger */

static void check_prussic_acid(const Sheet *sheet, const FeedTest *test) {
    const double dry = feed_test_value(test, NUTRIENT_PRUSSIC_ACID_DRY);
    const double wet = feed_test_value(test, NUTRIENT_PRUSSIC_ACID_WET);
    const double from_dry = dry * reading_or(test->analysis.dry_matter, (double)NAN) / 100.0;
    if (fabs(from_dry - wet) > PRUSSIC_ACID_APART * fmax(from_dry, wet))
        doubt_add(sheet_faults(sheet), feed_test_place(sheet, test, NUTRIENT_PRUSSIC_ACID_WET),
                  "%s: %.4g ppm as sampled is not %.4g ppm of dry matter at this moisture, "
                  "which makes %.4g; are the columns mixed up?",
                  feed_test_heading(sheet, NUTRIENT_PRUSSIC_ACID_WET), wet, dry, from_dry);
}

/* Part of the protein typed as a share of one. */
static bool is_share_of_one(const Sheet *sheet, const FeedTest *test, Nutrient part) {
    const double share = feed_test_value(test, part);
    if (!(share <= 1.0))
        return false;
    fault_add(sheet_faults(sheet), feed_test_place(sheet, test, part),
              "%s: %.3g is a share of one: write %.3g, the percentage",
              feed_test_heading(sheet, part), share, share * 100.0);
    return true;
}

static void check_degradable(const Sheet *sheet, const FeedTest *test) {
    const double share = feed_test_value(test, NUTRIENT_DEGRADABLE_SHARE);
    const Place place = feed_test_place(sheet, test, NUTRIENT_DEGRADABLE_SHARE);
    if (!is_share_of_one(sheet, test, NUTRIENT_DEGRADABLE_SHARE) && share < 20.0) {
        doubt_add(sheet_faults(sheet), place,
                  "rdp_pct_of_cp: %.3g%% of the protein is less than any feed has; is it %% of "
                  "dry matter?",
                  share);
    }
}

/* What dissolves at once is the quickest part of what the rumen degrades. */
static void check_soluble(const Sheet *sheet, const FeedTest *test) {
    const double soluble = feed_test_value(test, NUTRIENT_SOLUBLE_SHARE);
    const double degradable = feed_test_value(test, NUTRIENT_DEGRADABLE_SHARE);
    if (!is_share_of_one(sheet, test, NUTRIENT_SOLUBLE_SHARE) && soluble > degradable) {
        fault_add(sheet_faults(sheet), feed_test_place(sheet, test, NUTRIENT_SOLUBLE_SHARE),
                  "%s: %.3g%% of the protein is above the %.3g%% that is degradable, of which "
                  "it is a part: are the columns swapped?",
                  feed_test_heading(sheet, NUTRIENT_SOLUBLE_SHARE), soluble, degradable);
    }
}

/* Two ways of binding protein in fibre: what the acid leaves, the milder one leaves too. The
 * two are tested apart, and may cross by a little. */
#define BOUND_APART 0.2 /* % of dry matter */

static void check_bound(const Sheet *sheet, const FeedTest *test) {
    const double acid = feed_test_value(test, NUTRIENT_ADICP);
    const double neutral = feed_test_value(test, NUTRIENT_NDICP);
    if (acid > neutral + BOUND_APART)
        doubt_add(sheet_faults(sheet), feed_test_place(sheet, test, NUTRIENT_ADICP),
                  "%s: %.3g%% is above ndicp, %.3g%%, of which it is a part; are the columns "
                  "swapped?",
                  feed_test_heading(sheet, NUTRIENT_ADICP), acid, neutral);
}

/* Starch is a part of what fibre, protein, fat and ash leave. */
static void check_starch(const Sheet *sheet, const FeedTest *test) {
    const double left =
        100.0 -
        (feed_test_value(test, NUTRIENT_CRUDE_PROTEIN) + feed_test_value(test, NUTRIENT_NDF) +
         feed_test_value(test, NUTRIENT_CRUDE_FAT) + feed_test_value(test, NUTRIENT_ASH));
    const double starch = feed_test_value(test, NUTRIENT_STARCH);
    if (starch > left + 2.0)
        doubt_add(sheet_faults(sheet), feed_test_place(sheet, test, NUTRIENT_STARCH),
                  "%s: %.3g%% is more than the %.3g%% that protein, NDF, fat and ash leave",
                  feed_test_heading(sheet, NUTRIENT_STARCH), starch, left);
}

void feed_test_check_row(const Sheet *sheet, const FeedTest *test) {
    check_part(sheet, test, NUTRIENT_ADF, NUTRIENT_NDF);
    check_part(sheet, test, NUTRIENT_LIGNIN, NUTRIENT_ADF);
    check_part(sheet, test, NUTRIENT_ADICP, NUTRIENT_CRUDE_PROTEIN);
    check_part(sheet, test, NUTRIENT_NDICP, NUTRIENT_CRUDE_PROTEIN);
    check_sum(sheet, test);
    check_bound(sheet, test);
    check_starch(sheet, test);
    check_gain_energy(sheet, test);
    check_net_energy(sheet, test);
    check_relative_feed_value(sheet, test);
    check_heat_damage(sheet, test);
    check_nitrate(sheet, test);
    check_prussic_acid(sheet, test);
    check_degradable(sheet, test);
    check_soluble(sheet, test);
}

/* How many figures two rows have in common, and whether those are the same. */
typedef struct {
    int shared, same;
} Overlap;

static Overlap overlap_of(const FeedTest *a, const FeedTest *b) {
    Overlap overlap = {0, 0};
    for (int i = 0; i < NUTRIENT_COUNT; i++) {
        if (!reading_is_known(a->analysis.of[i]) || !reading_is_known(b->analysis.of[i]))
            continue;
        overlap.shared++;
        overlap.same += a->analysis.of[i].value == b->analysis.of[i].value;
    }
    return overlap;
}

#define SAME_BY_CHANCE 2

/* A row pasted twice would count as two samples, and two samples are trusted more than one. */
static bool check_pair(Faults *faults, const FeedTest *test, const FeedTest *before) {
    if (!text_same_letters(test->stack, before->stack))
        return false;
    const Overlap overlap = overlap_of(test, before);
    if (overlap.shared == 0)
        return false;
    if (test->sample[0] != '\0' && text_same_letters(test->sample, before->sample)) {
        fault_add(faults, test->place,
                  "sample: '%s' of this stack is already on line %d; keep one of the rows",
                  text_excerpt(faults->arena, test->sample), before->place.line);
        return true;
    }
    if (overlap.same == overlap.shared && overlap.same > SAME_BY_CHANCE) {
        doubt_add(faults, test->place,
                  "the figures are those of line %d: is it the same sample twice?",
                  before->place.line);
        return true;
    }
    return false;
}

void feed_tests_check_twins(Faults *faults, const FeedTests *tests) {
    for (int i = 0; i < tests->count; i++) {
        for (int j = 0; j < i; j++) {
            if (check_pair(faults, &tests->tests[i], &tests->tests[j]))
                break;
        }
    }
}
