#include "feedstuff/feed_test.h"
#include "feedstuff/feedstuff.h"
#include "support/own_tables.h"
#include <string.h>

#define HEAD "stack,basis,dry_matter_pct"

/* The stack "A" of these tests, whose nearest feed of the book is named. */
static Feedstuff completed(void **state, const char *book_feed, const char *bytes) {
    Faults faults = faults_new(*state);
    const FeedTests tests =
        feed_tests_parse(*state, &faults, "feed-tests.csv", bytes, strlen(bytes));
    assert_int_equal(faults.wrong_count, 0);
    const BookFeed *book = book_find(own_book(*state), book_feed);
    assert_non_null(book);
    const Tested tested = feed_tests_combined(&tests, "A");
    return feedstuff_complete("A", &tested, book);
}

static void a_laboratory_goes_before_the_book_and_the_book_fills_the_gaps(void **state) {
    const Feedstuff feed =
        completed(state, "oat_greenfeed", HEAD ",crude_protein_pct\nA,dry matter,86,12.3\n");
    const BookFeed *book = book_find(own_book(*state), "oat_greenfeed");
    assert_near(feed.analysis.dry_matter.value, 86, 1e-12);
    assert_near(feed.analysis.of[NUTRIENT_CRUDE_PROTEIN].value, 12.3, 1e-12);
    assert_int_equal(feed.analysis.of[NUTRIENT_CRUDE_PROTEIN].origin, FROM_LABORATORY);
    assert_near(feed.analysis.of[NUTRIENT_CALCIUM].value,
                book->analysis.of[NUTRIENT_CALCIUM].value, 0);
    assert_int_equal(feed.analysis.of[NUTRIENT_CALCIUM].origin, FROM_BOOK);
    assert_int_equal(feed.sample_count, 1);
}

static void what_nobody_knows_stays_unknown(void **state) {
    const Feedstuff feed = completed(state, "oat_greenfeed", HEAD "\nA,dry matter,86\n");
    assert_int_equal(feed.analysis.of[NUTRIENT_MOLYBDENUM].origin, FROM_NOWHERE);
    assert_true(isnan(feed.analysis.of[NUTRIENT_MOLYBDENUM].value));
}

static void energy_follows_from_fibre_and_never_from_the_laboratorys_net_energy(void **state) {
    /* 88.9 - 0.779 x 36 = 60.856 [NFTA_A3] */
    const Feedstuff feed = completed(state, "oat_greenfeed",
                                     HEAD ",adf_pct,nem_mcal_per_kg\nA,dry matter,86,36,1.2\n");
    assert_int_equal(feed.route, ROUTE_FIBRE);
    assert_near(feed.analysis.of[NUTRIENT_TDN].value, 60.856, 1e-6);
    assert_near(feed.analysis.of[NUTRIENT_NEM].value, nem_from_tdn(60.856).mcal_per_kg, 1e-9);
    assert_int_equal(feed.analysis.of[NUTRIENT_NEM].origin, FROM_CALCULATION);
}

static void the_best_route_the_report_allows_is_taken(void **state) {
    static const struct {
        const char *headings, *cells;
        EnergyRoute route;
    } CASES[] = {
        {"", "", ROUTE_BOOK},
        {",tdn_pct", ",58", ROUTE_LABORATORY},
        {",tdn_pct,adf_pct", ",58,38", ROUTE_FIBRE},
        {",tdn_pct,adf_pct,ndf_pct,crude_protein_pct,lignin_pct", ",58,38,60,11,5",
         ROUTE_LIGNIN},
        {",adf_pct,ndf_pct,crude_protein_pct,lignin_pct,ndf_digestibility_pct",
         ",38,60,11,5,55", ROUTE_DIGESTIBILITY},
        {",adf_pct,ndf_pct,lignin_pct", ",38,60,5", ROUTE_FIBRE}, /* no protein for the sum */
    };
    for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++) {
        const Feedstuff feed = completed(state, "oat_greenfeed",
                                         arena_print(*state, HEAD "%s\nA,dry matter,86%s\n",
                                                     CASES[i].headings, CASES[i].cells));
        assert_int_equal(feed.route, CASES[i].route);
        assert_true(isfinite(feed.analysis.of[NUTRIENT_TDN].value));
    }
}

static void straw_takes_no_fibre_equation(void **state) {
    const Feedstuff feed =
        completed(state, "barley_straw", HEAD ",adf_pct\nA,dry matter,90,49\n");
    assert_int_equal(feed.route, ROUTE_BOOK);
}

static void one_sample_of_nitrate_gets_a_margin_and_two_their_highest(void **state) {
    const Feedstuff one =
        completed(state, "oat_greenfeed", HEAD ",nitrate_no3_pct\nA,dry matter,86,0.40\n");
    assert_near(one.nitrate_for_safety, 0.46, 1e-9); /* 0.40 x 1.15 */
    const Feedstuff two =
        completed(state, "oat_greenfeed",
                  HEAD ",nitrate_no3_pct\nA,dry matter,86,0.40\nA,dry matter,86,0.90\n");
    assert_near(two.nitrate_for_safety, 0.90, 1e-12);
    assert_near(two.analysis.of[NUTRIENT_NITRATE].value, 0.65, 1e-12);
    assert_false(two.nitrate_is_assumed);
}

static void a_row_pasted_twice_does_not_take_the_margin_off(void **state) {
    const char *bytes = HEAD ",sample,adf_pct,nitrate_no3_pct\nA,dry matter,86,7,38,0.40\n"
                             "A,dry matter,86,7,38,0.40\n";
    Faults faults = faults_new(*state);
    feed_tests_parse(*state, &faults, "feed-tests.csv", bytes, strlen(bytes));
    assert_int_equal(faults.wrong_count, 1);
}

static void nitrate_nobody_tested_is_assumed_by_the_class_of_feed(void **state) {
    const Feedstuff greenfeed = completed(state, "oat_greenfeed", HEAD "\nA,dry matter,86\n");
    assert_true(greenfeed.nitrate_is_assumed);
    assert_near(greenfeed.nitrate_for_safety, 2.0, 1e-12); /* worst case, feed_class.def */
    const Feedstuff grain = completed(state, "barley_grain", HEAD "\nA,dry matter,86\n");
    assert_false(grain.nitrate_is_assumed);
    assert_near(grain.nitrate_for_safety, 0.0, 0);
}

static void samples_are_weighed_by_their_cores(void **state) {
    const Feedstuff feed = completed(
        state, "oat_greenfeed",
        HEAD ",cores,crude_protein_pct\nA,dry matter,86,20,12\na ,dry matter,88,10,9\n"
             "B,dry matter,50,20,20\n");
    assert_near(feed.analysis.of[NUTRIENT_CRUDE_PROTEIN].value, 11,
                1e-12); /* (20x12+10x9)/30 */
    assert_near(feed.analysis.dry_matter.value, 260.0 / 3, 1e-9);
    assert_near(feed.core_count, 30, 0);
    assert_int_equal(feed.sample_count, 2);
}

static void heated_forage_loses_its_bound_protein_and_distillers_grains_do_not(void **state) {
    const char *bytes = HEAD ",crude_protein_pct,adicp_pct\nA,dry matter,86,10,3\n";
    /* 30 % bound: all of it comes off [ADJUSTED_PROTEIN] */
    const Feedstuff hay = completed(state, "oat_greenfeed", bytes);
    assert_near(hay.analysis.of[NUTRIENT_CRUDE_PROTEIN].value, 7, 1e-9);
    const Feedstuff grains = completed(state, "wheat_ddgs", bytes);
    assert_near(grains.analysis.of[NUTRIENT_CRUDE_PROTEIN].value, 10, 1e-9);
}

static void a_mineral_has_no_energy(void **state) {
    const Feedstuff feed = completed(state, "limestone", HEAD ",calcium_pct\nA,as fed,98,36\n");
    assert_near(feed.analysis.of[NUTRIENT_NEM].value, 0, 0);
    assert_near(feed.analysis.of[NUTRIENT_CALCIUM].value, 36 / 0.98, 1e-9);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_laboratory_goes_before_the_book_and_the_book_fills_the_gaps),
        UNIT_TEST(what_nobody_knows_stays_unknown),
        UNIT_TEST(energy_follows_from_fibre_and_never_from_the_laboratorys_net_energy),
        UNIT_TEST(the_best_route_the_report_allows_is_taken),
        UNIT_TEST(straw_takes_no_fibre_equation),
        UNIT_TEST(one_sample_of_nitrate_gets_a_margin_and_two_their_highest),
        UNIT_TEST(a_row_pasted_twice_does_not_take_the_margin_off),
        UNIT_TEST(nitrate_nobody_tested_is_assumed_by_the_class_of_feed),
        UNIT_TEST(samples_are_weighed_by_their_cores),
        UNIT_TEST(heated_forage_loses_its_bound_protein_and_distillers_grains_do_not),
        UNIT_TEST(a_mineral_has_no_energy),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
