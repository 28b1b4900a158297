#include "base/text.h"
#include "feedstuff/book_value.h"
#include "feedstuff/feed_sampling.h"
#include "feedstuff/feed_test_column.h"
#include <math.h>
#include <string.h>

static const SheetColumn COLUMNS[TEST_NUTRIENTS] = {
    {"stack", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"sample", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
    {"date", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
    {"basis", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"moisture", UNIT_PERCENT, COLUMN_OPTIONAL, 0, 95},
    {"dry_matter", UNIT_PERCENT, COLUMN_OPTIONAL, 5, 100},
    {"cores", UNIT_PLAIN, COLUMN_OPTIONAL, 1, 1000},
    {"laboratory", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
    {"note", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
    {"rfv", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
    {"rfq", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
    {"nfc", UNIT_PERCENT, COLUMN_OPTIONAL, 0, 0},
    {"nel", UNIT_ENERGY_DENSITY, COLUMN_OPTIONAL, 0, 0},
    {"me", UNIT_ENERGY_DENSITY, COLUMN_OPTIONAL, 0, 0},
    {"de", UNIT_ENERGY_DENSITY, COLUMN_OPTIONAL, 0, 0},
    {"salt", UNIT_PERCENT, COLUMN_OPTIONAL, 0, 100},
};

#define MOST_TESTS 5000 /* every sample is compared with every other */

static const char *const BASES[] = {"dry matter", "as fed"};

/* Both columns must agree. */
Reading feed_test_read_dry_matter(const Sheet *sheet, int row, bool is_needed) {
    double moisture;
    double dry_matter;
    const bool has_moisture = sheet_number(sheet, row, TEST_MOISTURE, &moisture);
    const bool has_dry_matter = sheet_number(sheet, row, TEST_DRY_MATTER, &dry_matter);
    if (has_moisture && has_dry_matter && fabs(moisture + dry_matter - 100.0) > 0.3) {
        fault_add(
            sheet_faults(sheet), sheet_place(sheet, row, TEST_DRY_MATTER),
            "dry_matter_pct: %g and moisture_pct %g do not add up to 100; keep the one the "
            "laboratory gave",
            dry_matter, moisture);
    }
    if (has_dry_matter)
        return (Reading){dry_matter, FROM_LABORATORY, SOURCE_NONE};
    if (has_moisture)
        return (Reading){100.0 - moisture, FROM_LABORATORY, SOURCE_NONE};
    if (is_needed && sheet_is_left_out(sheet, row, TEST_MOISTURE) &&
        sheet_is_left_out(sheet, row, TEST_DRY_MATTER)) {
        fault_add(sheet_faults(sheet), sheet_place(sheet, row, TEST_MOISTURE),
                  "moisture_pct: is empty and so is dry_matter_pct; one of them must be there");
    }
    return reading_nowhere();
}

/* A zero on a laboratory sheet means "not looked for" where the thing is never absent. */
static bool is_never_zero(Nutrient nutrient) {
    return !nutrient_is_hazard(nutrient) && nutrient != NUTRIENT_NITRATE &&
           nutrient != NUTRIENT_STARCH && nutrient != NUTRIENT_ADICP &&
           nutrient != NUTRIENT_MOLYBDENUM && nutrient != NUTRIENT_VITAMIN_A &&
           nutrient != NUTRIENT_VITAMIN_D && nutrient != NUTRIENT_VITAMIN_E &&
           nutrient != NUTRIENT_SODIUM && nutrient != NUTRIENT_COBALT &&
           nutrient != NUTRIENT_IODINE && nutrient != NUTRIENT_NEG &&
           nutrient != NUTRIENT_CHLORIDE;
}

/* What was in range as written may be more than the whole feed once the water is taken off. */
static bool check_scaled(const Sheet *sheet, int row, Nutrient nutrient, double value) {
    const NutrientKind *kind = nutrient_kind(nutrient);
    if (value <= kind->most)
        return true;
    fault_add(sheet_faults(sheet), sheet_place(sheet, row, TEST_NUTRIENTS + (int)nutrient),
              "%s: read as fed it is %.4g %s of dry matter, above %.10g; is the basis right?",
              sheet_heading(sheet, TEST_NUTRIENTS + (int)nutrient), value, kind->unit,
              kind->most);
    return false;
}

static void read_nutrients(const Sheet *sheet, int row, bool is_as_fed, Analysis *analysis) {
    for (int i = 0; i < NUTRIENT_COUNT; i++) {
        const NutrientKind *kind = nutrient_kind((Nutrient)i);
        double value;
        analysis->of[i] = reading_nowhere();
        if (!sheet_number(sheet, row, TEST_NUTRIENTS + i, &value))
            continue;
        if (value <= 0.0 && is_never_zero((Nutrient)i)) {
            fault_add(sheet_faults(sheet), sheet_place(sheet, row, TEST_NUTRIENTS + i),
                      "%s: 0 cannot be; leave the cell empty where it was not tested",
                      sheet_heading(sheet, TEST_NUTRIENTS + i));
            continue;
        }
        if (is_as_fed && kind->basis == BASIS_SCALES) {
            if (!reading_is_known(analysis->dry_matter))
                continue;
            value *= 100.0 / analysis->dry_matter.value;
            if (!check_scaled(sheet, row, (Nutrient)i, value))
                continue;
        }
        analysis->of[i] = (Reading){value, FROM_LABORATORY, SOURCE_NONE};
    }
}

/* Sodium and chlorine of salt, % [ATOMIC_WEIGHTS]. */
#define SODIUM_IN_SALT 39.34
#define CHLORIDE_IN_SALT 60.66

static void fill_from_salt(Analysis *analysis, Nutrient nutrient, double salt, double share) {
    if (!reading_is_known(analysis->of[nutrient]))
        analysis->of[nutrient] =
            (Reading){salt * share / 100.0, FROM_CALCULATION, SOURCE_ATOMIC_WEIGHTS};
}

/* Some sheets give salt in place of its sodium; a sodium beside it was measured, and stands. */
static void read_salt(const Sheet *sheet, int row, bool is_as_fed, Analysis *analysis) {
    double salt;
    if (!sheet_number(sheet, row, TEST_SALT, &salt) ||
        (is_as_fed && !reading_is_known(analysis->dry_matter)))
        return;
    if (is_as_fed)
        salt *= 100.0 / analysis->dry_matter.value;
    if (salt > 100.0) {
        fault_add(sheet_faults(sheet), sheet_place(sheet, row, TEST_SALT),
                  "%s: read as fed it is %.4g %% of dry matter, above 100; is the basis right?",
                  sheet_heading(sheet, TEST_SALT), salt);
        return;
    }
    fill_from_salt(analysis, NUTRIENT_SODIUM, salt, SODIUM_IN_SALT);
    fill_from_salt(analysis, NUTRIENT_CHLORIDE, salt, CHLORIDE_IN_SALT);
}

/* Prussic acid told of the feed as sampled is so much of its dry matter too, and the other way
 * round: both lines hold whichever the laboratory wrote. */
static void fill_prussic_acid(Analysis *analysis) {
    Reading *dry = &analysis->of[NUTRIENT_PRUSSIC_ACID_DRY];
    Reading *wet = &analysis->of[NUTRIENT_PRUSSIC_ACID_WET];
    if (!reading_is_known(analysis->dry_matter))
        return;
    const double share = analysis->dry_matter.value / 100.0;
    if (reading_is_known(*wet) && !reading_is_known(*dry))
        *dry = (Reading){wet->value / share, FROM_CALCULATION, SOURCE_NONE};
    else if (reading_is_known(*dry) && !reading_is_known(*wet))
        *wet = (Reading){dry->value * share, FROM_CALCULATION, SOURCE_NONE};
}

void feed_test_read_figures(const Sheet *sheet, int row, bool is_as_fed, Analysis *analysis) {
    read_nutrients(sheet, row, is_as_fed, analysis);
    read_salt(sheet, row, is_as_fed, analysis);
    fill_prussic_acid(analysis);
}

void feed_test_columns(SheetColumn *columns) {
    memcpy(columns, COLUMNS, sizeof COLUMNS);
    nutrient_columns(columns + TEST_NUTRIENTS);
}

static FeedTest read_test(const Sheet *sheet, int row) {
    FeedTest test = {
        .stack = sheet_text(sheet, row, TEST_STACK),
        .sample = sheet_text(sheet, row, TEST_SAMPLE),
        .place = sheet_place(sheet, row, TEST_STACK),
        .row = row,
    };
    sheet_require(sheet, row, TEST_STACK);
    test.has_date = sheet_date(sheet, row, TEST_DATE, &test.date);
    sheet_number(sheet, row, TEST_CORES, &test.cores);
    bool is_as_fed = false;
    if (sheet_require(sheet, row, TEST_BASIS))
        is_as_fed = sheet_choice(sheet, row, TEST_BASIS, BASES, 2) == 1;
    test.analysis.dry_matter = feed_test_read_dry_matter(sheet, row, true);
    feed_test_read_figures(sheet, row, is_as_fed, &test.analysis);
    feed_test_check_row(sheet, &test);
    return test;
}

FeedTests feed_tests_parse(Arena *arena, Faults *faults, const char *file, const char *bytes,
                           size_t length) {
    if (!bytes)
        return (FeedTests){NULL, NULL, 0};
    SheetColumn *columns = ARENA_ARRAY(arena, SheetColumn, TEST_COLUMN_COUNT);
    feed_test_columns(columns);
    const Sheet *sheet =
        sheet_parse(arena, faults, file, bytes, length, columns, TEST_COLUMN_COUNT);
    if (!sheet)
        return (FeedTests){NULL, NULL, 0};
    const int rows = sheet_row_count(sheet);
    if (rows > MOST_TESTS) {
        fault_add(faults, (Place){file, 0, 0},
                  "has %d rows; at most %d samples are read: is it the right file?", rows,
                  MOST_TESTS);
        return (FeedTests){NULL, NULL, 0};
    }
    FeedTest *tests = ARENA_ARRAY(arena, FeedTest, rows);
    int count = 0;
    for (int row = 0; row < rows; row++) {
        if (!sheet_row_is_empty(sheet, row))
            tests[count++] = read_test(sheet, row);
    }
    const FeedTests read = {sheet, tests, count};
    feed_tests_check_twins(faults, &read);
    return read;
}

double feed_test_weight(const FeedTest *test) { return test->cores > 0.0 ? test->cores : 1.0; }

typedef struct {
    double sum, weight;
    int count;
    bool is_calculated; /* one of them at least is */
} Mean;

static void add_to_mean(Mean *mean, Reading reading, double weight) {
    if (!reading_is_known(reading))
        return;
    mean->sum += reading.value * weight;
    mean->weight += weight;
    mean->count++;
    mean->is_calculated |= reading.origin == FROM_CALCULATION;
}

static Reading mean_reading(Mean mean) {
    if (mean.weight <= 0.0)
        return reading_nowhere();
    const Origin origin = mean.is_calculated ? FROM_CALCULATION : FROM_LABORATORY;
    return (Reading){mean.sum / mean.weight, origin,
                     mean.is_calculated ? SOURCE_ATOMIC_WEIGHTS : SOURCE_NONE};
}

static void add_nitrate(Tested *tested, Reading nitrate) {
    if (!reading_is_known(nitrate))
        return;
    tested->nitrate_sample_count++;
    tested->nitrate_highest = fmax(tested->nitrate_highest, nitrate.value); /* NAN at first */
}

/* The sample that found most of a poison. */
static Reading highest_reading(const FeedTests *tests, const char *name, Nutrient nutrient) {
    Reading highest = reading_nowhere();
    for (int i = 0; i < tests->count; i++) {
        const Reading reading = tests->tests[i].analysis.of[nutrient];
        if (reading_is_known(reading) && text_same_letters(tests->tests[i].stack, name) &&
            !(reading.value <= highest.value)) /* NAN at first */
            highest = reading;
    }
    return highest;
}

static void add_date(Tested *tested, const FeedTest *test) {
    if (!test->has_date)
        return;
    if (!tested->has_date || calendar_days_between(tested->newest, test->date) > 0)
        tested->newest = test->date;
    tested->has_date = true;
}

static double error_between(const FeedTests *tests, const char *name, Nutrient nutrient,
                            double mean) {
    Spread spread = {0.0, 0.0, 0};
    for (int i = 0; i < tests->count; i++) {
        const FeedTest *test = &tests->tests[i];
        const Reading reading = test->analysis.of[nutrient];
        if (reading_is_known(reading) && text_same_letters(test->stack, name))
            spread_add(&spread, reading.value - mean, feed_test_weight(test));
    }
    return spread_error(&spread);
}

Tested feed_tests_combined(const FeedTests *tests, const char *name) {
    Tested tested = {.nitrate_highest = (double)NAN};
    Mean dry_matter = {.count = 0};
    Mean of[NUTRIENT_COUNT] = {{.count = 0}};
    for (int i = 0; i < tests->count; i++) {
        const FeedTest *test = &tests->tests[i];
        if (!text_same_letters(test->stack, name))
            continue;
        const double weight = feed_test_weight(test);
        add_to_mean(&dry_matter, test->analysis.dry_matter, weight);
        for (int n = 0; n < NUTRIENT_COUNT; n++)
            add_to_mean(&of[n], test->analysis.of[n], weight);
        add_nitrate(&tested, test->analysis.of[NUTRIENT_NITRATE]);
        tested.sample_count++;
        tested.core_count += test->cores;
        tested.cores_said_count += test->cores > 0.0;
        add_date(&tested, test);
    }
    tested.mean.dry_matter = mean_reading(dry_matter);
    for (int n = 0; n < NUTRIENT_COUNT; n++) {
        tested.mean.of[n] = nutrient_is_hazard((Nutrient)n)
                                ? highest_reading(tests, name, (Nutrient)n)
                                : mean_reading(of[n]);
        tested.samples_behind[n] = of[n].count;
        tested.cores_behind[n] = of[n].weight;
        tested.error_between[n] =
            of[n].count > 1 ? error_between(tests, name, (Nutrient)n, tested.mean.of[n].value)
                            : (double)NAN;
    }
    return tested;
}
