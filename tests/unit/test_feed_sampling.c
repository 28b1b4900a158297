#include "feedstuff/feed_sampling.h"
#include "support/own_tables.h"
#include <string.h>

#define HEAD "stack,basis,dry_matter_pct,cores"

static Feedstuff completed(void **state, const char *book_feed, const char *bytes) {
    Faults faults = faults_new(*state);
    const FeedTests tests =
        feed_tests_parse(*state, &faults, "feed-tests.csv", bytes, strlen(bytes));
    assert_string_equal(unit_faults(&faults, *state), "");
    const BookFeed *book = book_find(own_book(*state), book_feed);
    assert_non_null(book);
    return feed_tests_completed(&tests, "A", book);
}

/* sqrt(1.5^2 / n + 0.5^2), by hand; the worked example of docs/equations/sampling.md */
static void more_cores_bring_protein_nearer_the_whole_stacks(void **state) {
    (void)state;
    assert_near(sampling_error(1.5, 0.5, 20, 1), 0.602, 0.001);
    assert_near(sampling_error(1.5, 0.5, 5, 1), 0.837, 0.001);
    assert_near(sampling_error(1.5, 0.5, 1, 1), 1.581, 0.001);
    assert_true(isnan(sampling_error(1.5, 0.5, 0, 0)));
}

/* What docs/equations/sampling.md says of 20 cores in one sample. */
static void the_working_deviations_are_those_of_a_sample_of_twenty_cores(void **state) {
    const Feedstuff feed =
        completed(state, "brome_hay",
                  HEAD ",crude_protein_pct,adf_pct,nitrate_no3_pct\nA,dry matter,88,20,10,38,"
                       "0.4\n");
    assert_near(feed.sampling.crude_protein.working, 0.60, 0.005);
    assert_near(feed.sampling.tdn.working, 1.20, 0.005);
    assert_near(feed.sampling.nitrate.working, 0.25 * 0.4, 0.005);
    assert_true(isnan(feed.sampling.crude_protein.between)); /* one sample */
}

static void two_samples_say_how_far_they_lie_apart(void **state) {
    /* 9 and 11: deviation 1.414 over the root of 2; TDN 0.779 x 4 apart, half of it 1.558 */
    const Feedstuff feed = completed(
        state, "brome_hay",
        HEAD ",crude_protein_pct,adf_pct\nA,dry matter,88,10,9,36\nA,dry matter,88,10,11,40\n");
    assert_near(feed.sampling.crude_protein.between, 1.0, 1e-9);
    assert_near(feed.sampling.tdn.between, 1.558, 1e-9);
    /* 20 cores and two laboratory results: sqrt(2.25 / 20 + 0.25 / 2) */
    assert_near(feed.sampling.crude_protein.working, sqrt(0.2375), 1e-9);
}

static void samples_alike_have_no_error_between_them(void **state) {
    const Feedstuff feed =
        completed(state, "brome_hay",
                  HEAD ",crude_protein_pct\nA,dry matter,88,20,10\nA,dry matter,88,5,10\n");
    assert_near(feed.sampling.crude_protein.between, 0.0, 1e-12);
}

static void what_nobody_sampled_has_no_error(void **state) {
    const Feedstuff untested = completed(state, "brome_hay", HEAD "\nB,dry matter,88,20\n");
    assert_true(isnan(untested.sampling.crude_protein.working));
    assert_true(isnan(untested.sampling.tdn.working));
    const Feedstuff grain =
        completed(state, "barley_grain", HEAD ",crude_protein_pct\nA,dry matter,88,20,12\n");
    assert_true(isnan(grain.sampling.crude_protein.working)); /* the figures are of bales */
}

static void the_newest_test_and_the_samples_that_say_their_cores_are_known(void **state) {
    const Feedstuff feed =
        completed(state, "brome_hay",
                  HEAD ",date,ash_pct\nA,dry matter,88,20,2026-08-01,8\n"
                       "A,dry matter,88,,2026-10-01,9\nA,dry matter,88,,2026-09-01,7\n");
    assert_int_equal(feed.sampling.cores_said_count, 1);
    assert_true(feed.sampling.has_date);
    assert_int_equal(calendar_days_between(calendar_day(2026, 10, 1), feed.sampling.newest), 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(more_cores_bring_protein_nearer_the_whole_stacks),
        UNIT_TEST(the_working_deviations_are_those_of_a_sample_of_twenty_cores),
        UNIT_TEST(two_samples_say_how_far_they_lie_apart),
        UNIT_TEST(samples_alike_have_no_error_between_them),
        UNIT_TEST(what_nobody_sampled_has_no_error),
        UNIT_TEST(the_newest_test_and_the_samples_that_say_their_cores_are_known),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
