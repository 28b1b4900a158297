/* How far a test may be from the whole stack it was taken of. docs/equations/sampling.md */
#ifndef FEEDSTUFF_FEED_SAMPLING_H
#define FEEDSTUFF_FEED_SAMPLING_H

#include "feedstuff/feed_test.h"

/* Working deviations of one stack of forage, own choice within published error statements: of
 * one bale from the next, and of one laboratory result from the next. With 20 cores in one
 * sample they give 0.6 units of protein, 1.2 of TDN by one equation, and a quarter of the
 * nitrate. */
#define PROTEIN_BALE_DEVIATION 1.5 /* % of dry matter */
#define PROTEIN_LABORATORY_DEVIATION                                                           \
    0.5 /* laboratories: about 1 unit in 20 [HAY_LAB_ERRORS]                                   \
         */
#define TDN_BALE_DEVIATION 4.0
#define TDN_LABORATORY_DEVIATION 0.8     /* 1 unit of ADF by 88.9 - 0.779 ADF */
#define NITRATE_BALE_DEVIATION 1.0       /* share of the value */
#define NITRATE_LABORATORY_DEVIATION 0.1 /* share of the value */

/* sqrt(bale^2 / cores + laboratory^2 / samples): NAN without cores or samples. */
double sampling_error(double bale_deviation, double laboratory_deviation, double cores,
                      int samples);

/* Standard error of a mean by how its samples differ, weighed as the mean is. */
typedef struct {
    double squares, weight;
    int count;
} Spread;
void spread_add(Spread *spread, double off_mean, double weight);
double spread_error(const Spread *spread); /* NAN with fewer than two */

/* Of a completed feed, but for the samples' TDN among themselves. Forage only: the deviations
 * are of bales. */
Sampling sampling_of(const Feedstuff *feed, const Tested *tested);

/* All tests of one name combined and completed from the book, with the TDN each sample alone
 * would give by the same route. */
Feedstuff feed_tests_completed(const FeedTests *tests, const char *name, const BookFeed *book);

#endif
