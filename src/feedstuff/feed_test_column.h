/* The columns of feed-tests.csv, shared by its reader and its checks. */
#ifndef FEEDSTUFF_FEED_TEST_COLUMN_H
#define FEEDSTUFF_FEED_TEST_COLUMN_H

#include "feedstuff/feed_test.h"

enum {
    TEST_STACK,
    TEST_SAMPLE,
    TEST_DATE,
    TEST_BASIS,
    TEST_MOISTURE,
    TEST_DRY_MATTER,
    TEST_CORES,
    TEST_LABORATORY,
    TEST_NOTE,
    TEST_RFV,
    TEST_RFQ,
    TEST_NFC,
    TEST_NEL,
    TEST_ME,
    TEST_DE,
    TEST_SALT,
    TEST_NUTRIENTS, /* the first of NUTRIENT_COUNT */
    TEST_COLUMN_COUNT = TEST_NUTRIENTS + NUTRIENT_COUNT
};

/* The columns, [TEST_COLUMN_COUNT], and what of a row does not know whose sample it is: for
 * another sheet that has them at the same places. Dry matter from either column, a fault where
 * both are empty and it is needed; figures onto dry matter, which has to be known for those as
 * fed. */
void feed_test_columns(SheetColumn *columns);
Reading feed_test_read_dry_matter(const Sheet *sheet, int row, bool is_needed);
void feed_test_read_figures(const Sheet *sheet, int row, bool is_as_fed, Analysis *analysis);

/* Faults and doubts of one row whose analysis is on dry matter. */
void feed_test_check_row(const Sheet *sheet, const FeedTest *test);

/* Rows that are one and the same sample. */
void feed_tests_check_twins(Faults *faults, const FeedTests *tests);

/* NEm far from what this TDN gives (NAN: not judged): another unit, or another feed. True when
 * it is told. */
bool feed_test_check_net_energy_unit(const Sheet *sheet, const FeedTest *test, double tdn);

/* One figure of dry matter (NAN: not known), where it stands and what its column is headed. */
double feed_test_value(const FeedTest *test, Nutrient nutrient);
Place feed_test_place(const Sheet *sheet, const FeedTest *test, Nutrient nutrient);
const char *feed_test_heading(const Sheet *sheet, Nutrient nutrient);

#endif
