/* What can only be judged of a laboratory row once the kind of feed is known. The ranges are
 * this project's own choice, drawn wide of published composition: a feed outside them is read,
 * and said to be strange. */
#include "base/text.h"
#include "feedstuff/book_value.h"
#include "feedstuff/feed_test_column.h"
#include <math.h>

static bool is_mineral(FeedClass feed_class) {
    return feed_class == FEED_CLASS_MINERAL || feed_class == FEED_CLASS_NPN;
}

/* ---- percentages typed as shares of one ---- */

static const Nutrient NEVER_BELOW_ONE[] = {NUTRIENT_CRUDE_PROTEIN, NUTRIENT_ADF, NUTRIENT_NDF,
                                           NUTRIENT_TDN};

static bool is_typed_as_share(double value) { return value > 0.0 && value < 1.0; }

/* "0.12" protein: nothing but a mineral or molasses has less than one per cent of these. */
static void check_shares(Faults *faults, const Sheet *sheet, const FeedTest *test) {
    for (size_t i = 0; i < sizeof NEVER_BELOW_ONE / sizeof NEVER_BELOW_ONE[0]; i++) {
        const Nutrient nutrient = NEVER_BELOW_ONE[i];
        const double value = feed_test_value(test, nutrient);
        if (is_typed_as_share(value)) {
            fault_add(
                faults, feed_test_place(sheet, test, nutrient),
                "%s: %.3g%% of dry matter cannot be; was a share of one typed? the column "
                "holds percentages",
                feed_test_heading(sheet, nutrient), value);
        }
    }
}

/* ---- dry matter ---- */

static int dry_matter_column(const Sheet *sheet, const FeedTest *test) {
    const bool is_moisture = sheet_text(sheet, test->row, TEST_MOISTURE)[0] != '\0';
    return is_moisture ? TEST_MOISTURE : TEST_DRY_MATTER;
}

/* Dry matter and protein by class. */
typedef struct {
    FeedClass feed_class;
    double least_dry_matter, most_dry_matter, least_protein, most_protein;
} ClassRange;

static const ClassRange CLASS_RANGES[] = {
    {FEED_CLASS_CEREAL, 20, 95, 3, 26},       {FEED_CLASS_COVER_CROP, 20, 95, 4, 30},
    {FEED_CLASS_LEGUME, 20, 95, 7, 30},       {FEED_CLASS_GRASS, 20, 95, 3, 22},
    {FEED_CLASS_LEGUME_GRASS, 20, 95, 4, 27}, {FEED_CLASS_CORN_SILAGE, 18, 60, 4, 14},
    {FEED_CLASS_SORGHUM, 15, 95, 4, 22},      {FEED_CLASS_BRASSICA, 6, 95, 5, 34},
    {FEED_CLASS_STRAW, 70, 96, 1, 9},         {FEED_CLASS_GRAIN, 75, 95, 6, 35},
    {FEED_CLASS_MEAL, 82, 96, 20, 60},        {FEED_CLASS_BYPRODUCT, 20, 97, 4, 55},
    {FEED_CLASS_MOLASSES, 60, 85, 2, 15},
};

/* How wet it may be where it is kept as it is: a line each side, and what goes wrong past it.
 * Own choice [OWN_CHOICE]; greenfeed of annual crops is coarse, and baled a little wetter. */
typedef struct {
    const char *as;
    double least, most;
    const char *too_wet, *too_dry;
} KeptRange;

static bool is_annual(FeedClass feed_class) {
    return feed_class == FEED_CLASS_CEREAL || feed_class == FEED_CLASS_COVER_CROP ||
           feed_class == FEED_CLASS_SORGHUM || feed_class == FEED_CLASS_BRASSICA;
}

static KeptRange kept_range(Keeping keeping, FeedClass feed_class) {
    static const KeptRange DRY_GRAIN = {
        "dry grain", 80.0, 100.0, "it would heat in the bin; is it ensiled, in a bag or a pit?",
        ""};
    static const KeptRange BALE_SILAGE = {
        "wrapped bales", 40.0, 70.0, "it sours badly and seeps; is the moisture right?",
        "it is hay that moulds under wrap; is the storage or the moisture another?"};
    static const KeptRange CHOPPED = {
        "chopped silage", 28.0, 50.0, "it seeps and sours badly; is the moisture right?",
        "it packs badly and heats; are moisture and dry matter mixed up?"};
    switch (keeping) {
    case KEPT_AS_HAY:
        return (KeptRange){"hay that is not wrapped", is_annual(feed_class) ? 75.0 : 80.0,
                           100.0,
                           "it would heat and mould; is it wrapped, or the moisture another? "
                           "look for heat in the stack",
                           ""};
    case KEPT_AS_BALE_SILAGE:
        return BALE_SILAGE;
    case KEPT_AS_CHOPPED_SILAGE:
        return CHOPPED;
    case KEPT_AS_DRY_GRAIN:
        return DRY_GRAIN;
    case KEPT_ANYHOW:
        break;
    }
    return (KeptRange){"", 0.0, 100.0, "", ""};
}

static void check_keeping(Faults *faults, const Sheet *sheet, const FeedTest *test,
                          const KeptRange *range) {
    const double dry_matter = reading_or(test->analysis.dry_matter, (double)NAN);
    const int column = dry_matter_column(sheet, test);
    const bool is_wet = dry_matter < range->least;
    if (is_wet || dry_matter > range->most)
        doubt_add(faults, sheet_place(sheet, test->row, column),
                  "%s: %.3g%% dry matter (%.3g%% water) is too %s for %s, %.3g%% at the %s: %s",
                  sheet_heading(sheet, column), dry_matter, 100.0 - dry_matter,
                  is_wet ? "wet" : "dry", range->as, is_wet ? range->least : range->most,
                  is_wet ? "least" : "most", is_wet ? range->too_wet : range->too_dry);
}

/* What no feed of the class has is told as that, and not once more for how it is kept. */
static void check_dry_matter(Faults *faults, const Sheet *sheet, const FeedTest *test,
                             const ClassRange *range, const KeptRange *kept) {
    const double dry_matter = reading_or(test->analysis.dry_matter, (double)NAN);
    const int column = dry_matter_column(sheet, test);
    const Place place = sheet_place(sheet, test->row, column);
    const char *heading = sheet_heading(sheet, column);
    const char *label = feed_class_kind(range->feed_class)->label;
    if (dry_matter > 99.0) {
        fault_add(
            faults, place,
            "%s: %.4g%% dry matter cannot be of %s as it lies; write the percentage as the "
            "sample was received",
            heading, dry_matter, label);
    } else if (dry_matter < range->least_dry_matter || dry_matter > range->most_dry_matter) {
        doubt_add(faults, place,
                  "%s: %.3g%% dry matter is unusual for %s, which runs from %g to %g; are "
                  "moisture and dry matter mixed up?",
                  heading, dry_matter, label, range->least_dry_matter, range->most_dry_matter);
    } else {
        check_keeping(faults, sheet, test, kept);
    }
}

static void check_protein(Faults *faults, const Sheet *sheet, const FeedTest *test,
                          const ClassRange *range, const char *label) {
    const double protein = feed_test_value(test, NUTRIENT_CRUDE_PROTEIN);
    if (is_typed_as_share(protein) ||
        !(protein < range->least_protein || protein > range->most_protein))
        return;
    doubt_add(faults, feed_test_place(sheet, test, NUTRIENT_CRUDE_PROTEIN),
              "%s: %.3g%% of dry matter is unusual for %s, which runs from %g to %g",
              feed_test_heading(sheet, NUTRIENT_CRUDE_PROTEIN), protein, label,
              range->least_protein, range->most_protein);
}

static void check_range(Faults *faults, const Sheet *sheet, const FeedTest *test,
                        FeedClass feed_class, Keeping keeping) {
    const KeptRange kept = kept_range(keeping, feed_class);
    for (size_t i = 0; i < sizeof CLASS_RANGES / sizeof CLASS_RANGES[0]; i++) {
        const ClassRange *range = &CLASS_RANGES[i];
        if (range->feed_class != feed_class)
            continue;
        const char *label = feed_class_kind(feed_class)->label;
        check_dry_matter(faults, sheet, test, range, &kept);
        check_protein(faults, sheet, test, range, label);
    }
}

/* ---- single figures ---- */

typedef struct {
    Nutrient nutrient;
    double least, most; /* of dry matter */
    const char *hint;
} UsualRange;

static const UsualRange USUAL_IN_FEED[] = {
    {NUTRIENT_CRUDE_FAT, 0.3, 12.0, "whole oilseeds only go higher"},
    {NUTRIENT_CALCIUM, 0.02, 3.0, "is the unit right?"},
    {NUTRIENT_PHOSPHORUS, 0.03, 1.6, "is the unit right?"},
    {NUTRIENT_MAGNESIUM, 0.04, 0.9, "is the unit right?"},
    {NUTRIENT_POTASSIUM, 0.2, 6.0, "is the unit right?"},
    {NUTRIENT_SODIUM, 0.0, 3.0, "is the unit right?"},
    {NUTRIENT_CHLORIDE, 0.0, 5.0, "is the unit right?"},
    {NUTRIENT_SULFUR, 0.04, 1.4, "is the unit right?"},
    {NUTRIENT_COPPER, 1.0, 60.0, "is the unit right?"},
    {NUTRIENT_ZINC, 4.0, 200.0, "is the unit right?"},
    {NUTRIENT_MANGANESE, 4.0, 500.0, "is the unit right?"},
    {NUTRIENT_MOLYBDENUM, 0.0, 20.0, "is the unit right?"},
    {NUTRIENT_SELENIUM, 0.01, 6.0, "is the unit right?"},
};

static const UsualRange USUAL_IN_FORAGE[] = {
    {NUTRIENT_ADF, 10.0, 60.0, "is the basis right?"},
    {NUTRIENT_NDF, 15.0, 85.0, "is the basis right?"},
    {NUTRIENT_LIGNIN, 1.0, 20.0, "is the basis right?"},
    {NUTRIENT_ASH, 2.0, 14.0, "soil in the sample?"},
    {NUTRIENT_IRON, 15.0, 600.0, "soil in the sample?"},
};

static const UsualRange USUAL_IN_CONCENTRATE[] = {
    {NUTRIENT_ASH, 1.0, 20.0, "soil in the sample?"},
    {NUTRIENT_IRON, 15.0, 3000.0, "soil in the sample?"},
};

static void check_usual(Faults *faults, const Sheet *sheet, const FeedTest *test,
                        const UsualRange *ranges, size_t count) {
    for (size_t i = 0; i < count; i++) {
        const UsualRange *range = &ranges[i];
        const double value = feed_test_value(test, range->nutrient);
        if (value < range->least || value > range->most) {
            doubt_add(faults, feed_test_place(sheet, test, range->nutrient),
                      "%s: %.4g %s of dry matter is outside the usual %g to %g; %s",
                      feed_test_heading(sheet, range->nutrient), value,
                      nutrient_kind(range->nutrient)->unit, range->least, range->most,
                      range->hint);
        }
    }
}

/* ---- figures against each other ---- */

#define LEAST_LIGNIN_OF_NDF 0.04
#define MOST_LIGNIN_OF_NDF 0.25

static void check_lignin_share(Faults *faults, const Sheet *sheet, const FeedTest *test,
                               const FeedClassKind *kind) {
    const double share =
        feed_test_value(test, NUTRIENT_LIGNIN) / feed_test_value(test, NUTRIENT_NDF);
    if (kind->is_forage && (share < LEAST_LIGNIN_OF_NDF || share > MOST_LIGNIN_OF_NDF))
        doubt_add(faults, feed_test_place(sheet, test, NUTRIENT_LIGNIN),
                  "%s: %.0f%% of the NDF would be lignin, which runs from %.0f to %.0f; is it "
                  "%% of dry matter?",
                  feed_test_heading(sheet, NUTRIENT_LIGNIN), share * 100.0,
                  LEAST_LIGNIN_OF_NDF * 100.0, MOST_LIGNIN_OF_NDF * 100.0);
}

/* What NDF holds beside ADF is hemicellulose: much of it in grasses and cereals, less in
 * legumes, little in brassicas. Own choice [OWN_CHOICE], wide enough for every forage of the
 * book; mixtures lie between what they are mixed of. */
typedef struct {
    FeedClass feed_class;
    double least, most; /* % of dry matter */
} FibreGap;

static const FibreGap FIBRE_GAPS[] = {
    {FEED_CLASS_CEREAL, 14, 32},  {FEED_CLASS_COVER_CROP, 8, 32},
    {FEED_CLASS_LEGUME, 6, 16},   {FEED_CLASS_GRASS, 14, 34},
    {FEED_CLASS_SORGHUM, 14, 32}, {FEED_CLASS_LEGUME_GRASS, 8, 28},
    {FEED_CLASS_STRAW, 12, 34},   {FEED_CLASS_CORN_SILAGE, 12, 32},
    {FEED_CLASS_BRASSICA, 3, 14},
};

static void check_fibre_gap(Faults *faults, const Sheet *sheet, const FeedTest *test,
                            FeedClass feed_class) {
    const double ndf = feed_test_value(test, NUTRIENT_NDF);
    const double gap = ndf - feed_test_value(test, NUTRIENT_ADF);
    if (is_typed_as_share(ndf))
        return;
    for (size_t i = 0; i < sizeof FIBRE_GAPS / sizeof FIBRE_GAPS[0]; i++) {
        const FibreGap *usual = &FIBRE_GAPS[i];
        const bool is_odd = gap < usual->least || gap > usual->most;
        if (usual->feed_class == feed_class && gap >= 0.0 && is_odd)
            doubt_add(faults, feed_test_place(sheet, test, NUTRIENT_NDF),
                      "%s: is %.3g units above ADF, which is unusual for %s, %g to %g; is one "
                      "of the two mistyped, or the feed another?",
                      feed_test_heading(sheet, NUTRIENT_NDF), gap,
                      feed_class_kind(feed_class)->label, usual->least, usual->most);
    }
}

/* A legume always holds more calcium than phosphorus, a grain always less. */
static void check_bone_minerals(Faults *faults, const Sheet *sheet, const FeedTest *test,
                                FeedClass feed_class) {
    const double calcium = feed_test_value(test, NUTRIENT_CALCIUM);
    const double phosphorus = feed_test_value(test, NUTRIENT_PHOSPHORUS);
    const bool is_legume =
        feed_class == FEED_CLASS_LEGUME || feed_class == FEED_CLASS_LEGUME_GRASS;
    if ((is_legume && calcium < phosphorus) ||
        (feed_class == FEED_CLASS_GRAIN && calcium > phosphorus))
        doubt_add(faults, feed_test_place(sheet, test, NUTRIENT_CALCIUM),
                  "%s: %.3g%% beside %.3g%% phosphorus is the wrong way about for %s; are the "
                  "columns swapped?",
                  feed_test_heading(sheet, NUTRIENT_CALCIUM), calcium, phosphorus,
                  feed_class_kind(feed_class)->label);
}

/* ---- energy ---- */

/* The laboratory's TDN beside the equation's: far apart means another equation. */
static void check_tdn(Faults *faults, const Sheet *sheet, const FeedTest *test,
                      const FeedClassKind *kind) {
    const double tdn = feed_test_value(test, NUTRIENT_TDN);
    const double adf = feed_test_value(test, NUTRIENT_ADF);
    const Place place = feed_test_place(sheet, test, NUTRIENT_TDN);
    if (!isfinite(tdn) || is_typed_as_share(tdn))
        return;
    if (tdn < (kind->is_forage ? 35.0 : 45.0) || tdn > (kind->is_forage ? 78.0 : 105.0)) {
        doubt_add(faults, place, "tdn_pct: %.3g%% is unusual for %s", tdn, kind->label);
        return;
    }
    const double expected = isfinite(adf) ? tdn_from_adf(kind->fibre, adf) : (double)NAN;
    if (fabs(tdn - expected) > 6.0) {
        doubt_add(
            faults, place,
            "tdn_pct: %.3g%% is more than 6 units from the %.1f%% that ADF %.3g%% gives; ask "
            "the laboratory for its equation",
            tdn, expected, adf);
    }
}

/* Where the sheet has no TDN, net energy is judged by the fibre: for its unit, and no nearer.
 */
static void check_net_energy(const Sheet *sheet, const FeedTest *test,
                             const FeedClassKind *kind) {
    const double adf = feed_test_value(test, NUTRIENT_ADF);
    if (!isfinite(feed_test_value(test, NUTRIENT_TDN)) && isfinite(adf))
        feed_test_check_net_energy_unit(sheet, test, tdn_from_adf(kind->fibre, adf));
}

#define COUNT(array) (sizeof(array) / sizeof((array)[0]))

static void check_test(Faults *faults, const Sheet *sheet, const FeedTest *test,
                       FeedClass feed_class, Keeping keeping) {
    const FeedClassKind *kind = feed_class_kind(feed_class);
    if (is_mineral(feed_class))
        return;
    if (feed_class != FEED_CLASS_MOLASSES)
        check_shares(faults, sheet, test);
    check_range(faults, sheet, test, feed_class, keeping);
    check_usual(faults, sheet, test, USUAL_IN_FEED, COUNT(USUAL_IN_FEED));
    if (kind->is_forage)
        check_usual(faults, sheet, test, USUAL_IN_FORAGE, COUNT(USUAL_IN_FORAGE));
    else
        check_usual(faults, sheet, test, USUAL_IN_CONCENTRATE, COUNT(USUAL_IN_CONCENTRATE));
    check_lignin_share(faults, sheet, test, kind);
    check_fibre_gap(faults, sheet, test, feed_class);
    check_bone_minerals(faults, sheet, test, feed_class);
    check_tdn(faults, sheet, test, kind);
    check_net_energy(sheet, test, kind);
}

void feed_tests_check_class(Faults *faults, const FeedTests *tests, const char *name,
                            const BookFeed *book, Keeping keeping) {
    for (int i = 0; i < tests->count; i++) {
        const FeedTest *test = &tests->tests[i];
        if (text_same_letters(test->stack, name))
            check_test(faults, tests->sheet, test, book->feed_class, keeping);
    }
}

void feed_tests_check_dates(Faults *faults, const FeedTests *tests, const char *name,
                            const Day *cut, const Day *first_day, const Day *last_day) {
    for (int i = 0; i < tests->count; i++) {
        const FeedTest *test = &tests->tests[i];
        if (!test->has_date || !text_same_letters(test->stack, name))
            continue;
        const Place place = sheet_place(tests->sheet, test->row, TEST_DATE);
        const char *written = sheet_text(tests->sheet, test->row, TEST_DATE);
        if (cut && calendar_days_between(*cut, test->date) < 0)
            doubt_add(faults, place,
                      "date: %s is before the stack was cut: is it a test of last year's feed?",
                      written);
        else if (first_day && calendar_days_between(test->date, *first_day) > MOST_TEST_DAYS)
            doubt_add(
                faults, place,
                "date: %s is more than a year before feeding begins; have the feed tested "
                "again",
                written);
        if (last_day && calendar_days_between(*last_day, test->date) > 0)
            doubt_add(faults, place,
                      "date: %s is after the last feeding day; is the year right?", written);
    }
}
