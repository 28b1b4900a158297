/* What a laboratory row cannot say, and what it says only when something went wrong. The limits are
 * this project's own choice, drawn wide of published composition. */
#include "feedstuff/book_value.h"
#include "feedstuff/feed_test_column.h"
#include "base/text.h"
#include <math.h>

static double value_of(const FeedTest *test, Nutrient nutrient) {
    return reading_or(test->analysis.of[nutrient], (double)NAN);
}

static Place place_of(const Sheet *sheet, const FeedTest *test, Nutrient nutrient) {
    return sheet_place(sheet, test->row, TEST_NUTRIENTS + (int)nutrient);
}

/* part must not be above whole; comparisons with NAN are false, so an unknown is never judged. */
static void check_part(const Sheet *sheet, const FeedTest *test, Nutrient part, Nutrient whole) {
    const double part_value = value_of(test, part);
    const double whole_value = value_of(test, whole);
    if (part_value > whole_value) {
        fault_add(sheet_faults(sheet), place_of(sheet, test, part),
                  "%s: %.4g%% of dry matter is above %s, %.4g%%; %s is a part of %s: are the "
                  "columns swapped?",
                  sheet_heading(sheet, TEST_NUTRIENTS + (int)part), part_value,
                  nutrient_kind(whole)->label, whole_value, nutrient_kind(part)->label,
                  nutrient_kind(whole)->label);
    }
}

static void check_sum(const Sheet *sheet, const FeedTest *test) {
    const double sum = value_of(test, NUTRIENT_CRUDE_PROTEIN) + value_of(test, NUTRIENT_NDF) +
                       reading_or(test->analysis.of[NUTRIENT_CRUDE_FAT], 0.0) +
                       reading_or(test->analysis.of[NUTRIENT_ASH], 0.0);
    const Place place = place_of(sheet, test, NUTRIENT_CRUDE_PROTEIN);
    if (sum > 106.0) {
        fault_add(sheet_faults(sheet), place,
                  "crude protein, NDF, fat and ash add up to %.1f%% of dry matter: more than the "
                  "feed; is the basis right?",
                  sum);
    } else if (sum > 103.0) {
        doubt_add(sheet_faults(sheet), place,
                  "crude protein, NDF, fat and ash add up to %.1f%% of dry matter", sum);
    }
}

typedef struct {
    Nutrient nutrient;
    double least, most; /* of dry matter */
    const char *hint;
} UsualRange;

static const UsualRange USUAL_IN_FEED[] = {
    {NUTRIENT_CRUDE_FAT, 0.3, 12.0, "whole oilseeds only go higher"},
    {NUTRIENT_ASH, 1.0, 20.0, "soil in the sample?"},
    {NUTRIENT_CALCIUM, 0.02, 3.0, "is the unit right?"},
    {NUTRIENT_PHOSPHORUS, 0.03, 1.6, "is the unit right?"},
    {NUTRIENT_MAGNESIUM, 0.04, 0.9, "is the unit right?"},
    {NUTRIENT_POTASSIUM, 0.2, 6.0, "is the unit right?"},
    {NUTRIENT_SULFUR, 0.04, 1.4, "is the unit right?"},
    {NUTRIENT_COPPER, 1.0, 60.0, "is the unit right?"},
    {NUTRIENT_ZINC, 4.0, 200.0, "is the unit right?"},
    {NUTRIENT_MANGANESE, 4.0, 500.0, "is the unit right?"},
    {NUTRIENT_IRON, 15.0, 3000.0, "soil in the sample?"},
    {NUTRIENT_SELENIUM, 0.01, 6.0, "is the unit right?"},
};

static void check_usual(const Sheet *sheet, const FeedTest *test) {
    for (size_t i = 0; i < sizeof USUAL_IN_FEED / sizeof USUAL_IN_FEED[0]; i++) {
        const UsualRange *range = &USUAL_IN_FEED[i];
        const double value = value_of(test, range->nutrient);
        if (value < range->least || value > range->most) {
            const NutrientKind *kind = nutrient_kind(range->nutrient);
            doubt_add(sheet_faults(sheet), place_of(sheet, test, range->nutrient),
                      "%s: %.4g %s of dry matter is outside the usual %g to %g; %s",
                      sheet_heading(sheet, TEST_NUTRIENTS + (int)range->nutrient), value,
                      kind->unit, range->least, range->most, range->hint);
        }
    }
}

/* Net energy typed in the other unit is the commonest slip: judged against TDN on the same row. */
static void check_net_energy(const Sheet *sheet, const FeedTest *test) {
    const double tdn = value_of(test, NUTRIENT_TDN);
    const double nem = value_of(test, NUTRIENT_NEM);
    const double neg = value_of(test, NUTRIENT_NEG);
    if (neg >= nem) {
        fault_add(sheet_faults(sheet), place_of(sheet, test, NUTRIENT_NEG),
                  "%s: NEg %.3g is not below NEm %.3g Mcal/kg: are the columns swapped?",
                  sheet_heading(sheet, TEST_NUTRIENTS + NUTRIENT_NEG), neg, nem);
    }
    if (!isfinite(tdn) || !isfinite(nem))
        return;
    const double expected = nem_from_tdn(tdn).mcal_per_kg;
    const bool would_fit_per_lb = fabs(nem / KG_PER_POUND - expected) < 0.25 * expected;
    const bool would_fit_per_kg = fabs(nem * KG_PER_POUND - expected) < 0.25 * expected;
    if (fabs(nem - expected) < 0.25 * expected)
        return;
    if (would_fit_per_lb || would_fit_per_kg) {
        fault_add(sheet_faults(sheet), place_of(sheet, test, NUTRIENT_NEM),
                  "%s: with TDN %.3g%% this reads as Mcal per %s; head the column %s",
                  sheet_heading(sheet, TEST_NUTRIENTS + NUTRIENT_NEM), tdn,
                  would_fit_per_lb ? "lb" : "kg",
                  would_fit_per_lb ? "nem_mcal_per_lb" : "nem_mcal_per_kg");
        return;
    }
    doubt_add(sheet_faults(sheet), place_of(sheet, test, NUTRIENT_NEM),
              "%s: %.3g Mcal/kg is far from the %.2f that TDN %.3g%% gives",
              sheet_heading(sheet, TEST_NUTRIENTS + NUTRIENT_NEM), nem, expected, tdn);
}

static void check_heat_damage(const Sheet *sheet, const FeedTest *test) {
    const double share =
        value_of(test, NUTRIENT_ADICP) / value_of(test, NUTRIENT_CRUDE_PROTEIN);
    if (share > 0.12) {
        doubt_add(sheet_faults(sheet), place_of(sheet, test, NUTRIENT_ADICP),
                  "adicp_pct: %.0f%% of the crude protein is bound: the feed has heated",
                  share * 100.0);
    }
}

void feed_test_check_row(const Sheet *sheet, const FeedTest *test) {
    check_part(sheet, test, NUTRIENT_ADF, NUTRIENT_NDF);
    check_part(sheet, test, NUTRIENT_LIGNIN, NUTRIENT_ADF);
    check_part(sheet, test, NUTRIENT_ADICP, NUTRIENT_CRUDE_PROTEIN);
    check_part(sheet, test, NUTRIENT_NDICP, NUTRIENT_CRUDE_PROTEIN);
    check_sum(sheet, test);
    check_net_energy(sheet, test);
    check_heat_damage(sheet, test);
}

/* Dry matter and protein by class, own choice drawn wide of the published composition. */
typedef struct {
    FeedClass feed_class;
    double least_dry_matter, most_dry_matter, least_protein, most_protein;
} ClassRange;

static const ClassRange CLASS_RANGES[] = {
    {FEED_CLASS_CEREAL, 20, 95, 3, 26},     {FEED_CLASS_COVER_CROP, 20, 95, 4, 30},
    {FEED_CLASS_LEGUME, 20, 95, 7, 30},     {FEED_CLASS_GRASS, 20, 95, 3, 22},
    {FEED_CLASS_LEGUME_GRASS, 20, 95, 4, 27}, {FEED_CLASS_CORN_SILAGE, 18, 60, 4, 14},
    {FEED_CLASS_SORGHUM, 15, 95, 4, 22},    {FEED_CLASS_STRAW, 70, 96, 1, 9},
    {FEED_CLASS_GRAIN, 75, 95, 6, 35},      {FEED_CLASS_MEAL, 82, 96, 20, 60},
};

static void check_range(Faults *faults, const FeedTest *test, const char *what, double value,
                        double least, double most, const char *label) {
    if (value < least || value > most) {
        doubt_add(faults, test->place, "%s: %.3g%% is unusual for %s, which runs from %g to %g",
                  what, value, label, least, most);
    }
}

/* The laboratory's TDN beside the equation's: far apart means another equation. */
static void check_tdn(Faults *faults, const FeedTest *test, const FeedClassKind *kind) {
    const double tdn = value_of(test, NUTRIENT_TDN);
    const double adf = value_of(test, NUTRIENT_ADF);
    if (kind->is_forage && (tdn < 35.0 || tdn > 78.0)) {
        doubt_add(faults, test->place, "tdn_pct: %.3g%% is unusual for a forage", tdn);
        return;
    }
    if (!isfinite(tdn) || !isfinite(adf))
        return;
    const double expected = tdn_from_adf(kind->fibre, adf);
    if (fabs(tdn - expected) > 6.0) {
        doubt_add(faults, test->place,
                  "tdn_pct: %.3g%% is more than 6 units from the %.1f%% that ADF %.3g%% gives; ask "
                  "the laboratory for its equation",
                  tdn, expected, adf);
    }
}

void feed_tests_check_class(Faults *faults, const FeedTests *tests, const char *name,
                            const BookFeed *book) {
    const FeedClassKind *kind = feed_class_kind(book->feed_class);
    for (int i = 0; i < tests->count; i++) {
        const FeedTest *test = &tests->tests[i];
        if (!text_same_letters(test->stack, name))
            continue;
        if (book->feed_class != FEED_CLASS_MINERAL && book->feed_class != FEED_CLASS_NPN)
            check_usual(tests->sheet, test);
        check_tdn(faults, test, kind);
        for (size_t c = 0; c < sizeof CLASS_RANGES / sizeof CLASS_RANGES[0]; c++) {
            const ClassRange *range = &CLASS_RANGES[c];
            if (range->feed_class != book->feed_class)
                continue;
            check_range(faults, test, "dry matter",
                        reading_or(test->analysis.dry_matter, (double)NAN),
                        range->least_dry_matter, range->most_dry_matter, kind->label);
            check_range(faults, test, "crude protein", value_of(test, NUTRIENT_CRUDE_PROTEIN),
                        range->least_protein, range->most_protein, kind->label);
        }
    }
}
