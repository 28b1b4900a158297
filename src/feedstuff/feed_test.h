/* Laboratory reports: feed-tests.csv read onto dry matter, checked for what cannot be, and the
 * samples of one stack combined. */
#ifndef FEEDSTUFF_FEED_TEST_H
#define FEEDSTUFF_FEED_TEST_H

#include "feedstuff/feedstuff.h"

typedef struct {
    const char *stack; /* the stack or offer it was taken from, as written */
    const char *sample;
    Day date;
    bool has_date;
    double cores;      /* 0 when nobody said */
    Analysis analysis; /* dry matter basis, FROM_LABORATORY, FROM_NOWHERE, or FROM_CALCULATION
                          of its salt */
    Place place;       /* of the stack's name */
    int row;
} FeedTest;

typedef struct {
    const Sheet *sheet; /* NULL when the farm has no feed tests */
    const FeedTest *tests;
    int count;
} FeedTests;

/* bytes NULL: no tests. Adds faults (impossible) and doubts (strange). */
FeedTests feed_tests_parse(Arena *arena, Faults *faults, const char *file, const char *bytes,
                           size_t length);

/* Its cores; one where nobody said. */
double feed_test_weight(const FeedTest *test);

/* All tests of one name combined: mean by cores, one where nobody said; the highest nitrate,
 * and of a poison the highest sample. */
Tested feed_tests_combined(const FeedTests *tests, const char *name);

/* How a feed is kept, as far as that tells how wet it may be. */
typedef enum {
    KEPT_ANYHOW, /* not said, or in a way that tells nothing */
    KEPT_AS_HAY, /* bales or a loose stack, not wrapped */
    KEPT_AS_BALE_SILAGE,
    KEPT_AS_CHOPPED_SILAGE,
    KEPT_AS_DRY_GRAIN
} Keeping;

/* What can only be judged once the kind of feed is known: dry matter for the class and for the
 * way it is kept, fibre, energy units, energy far from the equation. Adds doubts at the tests'
 * places. */
void feed_tests_check_class(Faults *faults, const FeedTests *tests, const char *name,
                            const BookFeed *book, Keeping keeping);

/* A sample taken before the crop was cut is of another crop, one of more than a year before
 * feeding begins is stale, and one after the last feeding day is of another year: doubts at
 * their dates. NULL: that day is not known. */
#define MOST_TEST_DAYS 365
void feed_tests_check_dates(Faults *faults, const FeedTests *tests, const char *name,
                            const Day *cut, const Day *first_day, const Day *last_day);

#endif
