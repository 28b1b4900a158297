#include "feedstuff/feed_sampling.h"
#include "base/text.h"
#include "feedstuff/book_value.h"
#include <math.h>

double sampling_error(double bale_deviation, double laboratory_deviation, double cores,
                      int samples) {
    if (!(cores > 0.0) || samples < 1)
        return (double)NAN;
    return sqrt(bale_deviation * bale_deviation / cores +
                laboratory_deviation * laboratory_deviation / samples);
}

void spread_add(Spread *spread, double off_mean, double weight) {
    spread->squares += weight * off_mean * weight * off_mean;
    spread->weight += weight;
    spread->count++;
}

double spread_error(const Spread *spread) {
    if (spread->count < 2)
        return (double)NAN;
    const double count = spread->count;
    return sqrt(count / (count - 1.0) * spread->squares) / spread->weight;
}

static double working_error(const Tested *tested, Nutrient nutrient, double bale_deviation,
                            double laboratory_deviation) {
    return sampling_error(bale_deviation, laboratory_deviation, tested->cores_behind[nutrient],
                          tested->samples_behind[nutrient]);
}

static double between(const Tested *tested, Nutrient nutrient) {
    return tested->samples_behind[nutrient] > 1 ? tested->error_between[nutrient] : (double)NAN;
}

/* What a route stands on: without a test of it the route is not taken. */
static Nutrient key_of_route(EnergyRoute route) {
    switch (route) {
    case ROUTE_DIGESTIBILITY:
        return NUTRIENT_NDF_DIGESTIBILITY;
    case ROUTE_LIGNIN:
        return NUTRIENT_LIGNIN;
    case ROUTE_FIBRE:
        return NUTRIENT_ADF;
    case ROUTE_LABORATORY:
        return NUTRIENT_TDN;
    case ROUTE_BOOK:
    case ROUTE_COUNT:
        break;
    }
    return NUTRIENT_COUNT;
}

Sampling sampling_of(const Feedstuff *feed, const Tested *tested) {
    const SampleError unknown = {(double)NAN, (double)NAN};
    Sampling sampling = {unknown,        unknown,         unknown, tested->cores_said_count,
                         tested->newest, tested->has_date};
    if (!feed_class_kind(feed->feed_class)->is_forage)
        return sampling;
    sampling.crude_protein.working = working_error(
        tested, NUTRIENT_CRUDE_PROTEIN, PROTEIN_BALE_DEVIATION, PROTEIN_LABORATORY_DEVIATION);
    sampling.crude_protein.between = between(tested, NUTRIENT_CRUDE_PROTEIN);
    const double nitrate = reading_or(feed->analysis.of[NUTRIENT_NITRATE], 0.0);
    sampling.nitrate.working =
        nitrate * working_error(tested, NUTRIENT_NITRATE, NITRATE_BALE_DEVIATION,
                                NITRATE_LABORATORY_DEVIATION);
    sampling.nitrate.between = between(tested, NUTRIENT_NITRATE);
    const Nutrient key = key_of_route(feed->route);
    if (key != NUTRIENT_COUNT)
        sampling.tdn.working =
            working_error(tested, key, TDN_BALE_DEVIATION, TDN_LABORATORY_DEVIATION);
    return sampling;
}

/* TDN of the samples among themselves, each alone by the route of the whole. */
static double tdn_between(const FeedTests *tests, const Feedstuff *feed, const BookFeed *book) {
    if (feed->route >= ROUTE_BOOK || !feed_class_kind(feed->feed_class)->is_forage)
        return (double)NAN;
    Spread spread = {0.0, 0.0, 0};
    for (int i = 0; i < tests->count; i++) {
        const FeedTest *test = &tests->tests[i];
        if (!text_same_letters(test->stack, feed->name))
            continue;
        const Tested alone = {
            .mean = test->analysis, .sample_count = 1, .nitrate_highest = (double)NAN};
        const double tdn =
            feedstuff_complete(feed->name, &alone, book).tdn_by_route[feed->route];
        if (isfinite(tdn))
            spread_add(&spread, tdn - feed->tdn_by_route[feed->route], feed_test_weight(test));
    }
    return spread_error(&spread);
}

Feedstuff feed_tests_completed(const FeedTests *tests, const char *name, const BookFeed *book) {
    const Tested tested = feed_tests_combined(tests, name);
    Feedstuff feed = feedstuff_complete(name, &tested, book);
    feed.sampling.tdn.between = tdn_between(tests, &feed, book);
    return feed;
}
