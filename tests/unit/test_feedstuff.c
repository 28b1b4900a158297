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

/* Worked by hand: NFC 41.7, of which 0.98 x 0.94 counts, 38.41; protein 8.5 e^(-1.2 x 0.8
 * / 8.5) = 7.59; fat 2.25 x 2.1 = 4.73; fibre 0.75 x 39.2 (1 - 0.0711^0.667) = 24.36; less 7.
 * The cob and the whole kernels that pass through are the 6 % [NRC_DAIRY_2001]. */
static void corn_silage_is_summed_with_its_processing_factor(void **state) {
    const Feedstuff silage =
        completed(state, "corn_silage",
                  HEAD ",crude_protein_pct,ndf_pct,lignin_pct,crude_fat_pct,ash_pct\n"
                       "A,dry matter,35,8.5,44,3.0,3.1,4.5\n");
    assert_int_equal(silage.route, ROUTE_LIGNIN);
    assert_near(silage.analysis.of[NUTRIENT_TDN].value, 68.09, 0.01);
}

/* 88.9 - 0.779 x 36 = 60.86; 18 % ash is 4 units of soil, 3.92 of TDN. */
static void soil_takes_energy_off_what_adf_says(void **state) {
    const Feedstuff clean =
        completed(state, "brome_hay", HEAD ",adf_pct,ash_pct\nA,dry matter,88,36,14\n");
    assert_near(clean.analysis.of[NUTRIENT_TDN].value, 60.856, 1e-9);
    const Feedstuff dirty =
        completed(state, "brome_hay", HEAD ",adf_pct,ash_pct\nA,dry matter,88,36,18\n");
    assert_near(dirty.analysis.of[NUTRIENT_TDN].value, 56.936, 1e-9);
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

static void nfc_is_what_the_five_tests_leave_and_carries_their_worst_origin(void **state) {
    /* 100 - (58 + 12 + 3 + 9) = 18 */
    const Feedstuff tested = completed(state, "oat_greenfeed",
                                       HEAD ",ndf_pct,crude_protein_pct,crude_fat_pct,ash_pct\n"
                                            "A,dry matter,86,58,12,3,9\n");
    assert_near(tested.nfc.value, 18.0, 1e-9);
    assert_int_equal(tested.nfc.origin, FROM_CALCULATION);
    const Feedstuff partly =
        completed(state, "oat_greenfeed", HEAD ",ndf_pct\nA,dry matter,86,58\n");
    assert_int_equal(partly.nfc.origin, FROM_BOOK);
    const Feedstuff salt = completed(state, "white_salt", HEAD "\nA,as fed,99\n");
    assert_false(reading_is_known(salt.nfc));
}

static void rfv_is_of_perennial_forage_only(void **state) {
    /* full-bloom alfalfa, ADF 41 and NDF 53, is 100 [WARD_2008] */
    const char *bytes = HEAD ",adf_pct,ndf_pct\nA,dry matter,86,41,53\n";
    static const char *const MEANT[] = {"alfalfa_hay_late", "alfalfa_grass_hay", "brome_hay"};
    static const char *const NOT_MEANT[] = {"oat_greenfeed", "barley_straw", "corn_silage",
                                            "barley_grain"};
    for (size_t i = 0; i < sizeof MEANT / sizeof MEANT[0]; i++)
        assert_near(completed(state, MEANT[i], bytes).rfv.value, 100.0, 0.5);
    for (size_t i = 0; i < sizeof NOT_MEANT / sizeof NOT_MEANT[0]; i++)
        assert_false(reading_is_known(completed(state, NOT_MEANT[i], bytes).rfv));
}

static void soluble_protein_is_kept_and_never_made_into_degradable(void **state) {
    const Feedstuff feed =
        completed(state, "barley_silage", HEAD ",soluble_protein_pct_of_cp\nA,as fed,37,55\n");
    assert_near(feed.analysis.of[NUTRIENT_SOLUBLE_SHARE].value, 55, 1e-12);
    assert_int_equal(feed.analysis.of[NUTRIENT_DEGRADABLE_SHARE].origin, FROM_BOOK);
}

static void what_is_not_degraded_is_the_rest_and_of_the_same_origin(void **state) {
    const Feedstuff tested =
        completed(state, "barley_silage", HEAD ",rdp_pct_of_cp\nA,dry matter,37,78\n");
    assert_near(tested.rup.value, 22.0, 1e-12);
    assert_int_equal(tested.rup.origin, FROM_CALCULATION);
    const Feedstuff straw = completed(state, "barley_straw", HEAD "\nA,dry matter,90\n");
    assert_near(straw.rup.value, 45.0, 1e-12); /* the book has 55 % degradable */
    assert_int_equal(straw.rup.origin, FROM_BOOK);
    const Feedstuff salt = completed(state, "white_salt", HEAD "\nA,as fed,99\n");
    assert_false(reading_is_known(salt.rup));
}

static Reading soluble_of(void **state, const char *book_feed, const char *row) {
    return completed(state, book_feed, row).analysis.of[NUTRIENT_SOLUBLE_SHARE];
}

/* Hay 30, silage 50 to 60, grain 20 to 30 % of the protein, from memory [BOOK_MEMORY]. */
static void soluble_protein_nobody_tested_is_assumed_by_kind_or_left_unknown(void **state) {
    const char *dry = HEAD "\nA,dry matter,88\n", *wet = HEAD "\nA,dry matter,37\n";
    assert_near(soluble_of(state, "brome_hay", dry).value, 30.0, 1e-12);
    assert_near(soluble_of(state, "barley_silage", wet).value, 55.0, 1e-12);
    assert_near(soluble_of(state, "barley_grain", dry).value, 25.0, 1e-12);
    assert_int_equal(soluble_of(state, "brome_hay", dry).origin, FROM_ASSUMPTION);
    assert_int_equal(soluble_of(state, "brome_hay", dry).source, SOURCE_BOOK_MEMORY);
    static const char *const UNKNOWN[] = {"pea_grain", "barley_straw", "canola_meal",
                                          "corn_ddgs", "white_salt"};
    for (size_t i = 0; i < sizeof UNKNOWN / sizeof UNKNOWN[0]; i++)
        assert_false(reading_is_known(soluble_of(state, UNKNOWN[i], dry)));
    assert_false(reading_is_known(soluble_of(state, "turnip_tops", wet)));
    /* a part is never shown above its whole */
    assert_false(reading_is_known(
        soluble_of(state, "brome_hay", HEAD ",rdp_pct_of_cp\nA,dry matter,88,28\n")));
}

static void sulfur_nobody_tested_is_assumed_of_kinds_that_gather_it(void **state) {
    const char *untested = HEAD "\nA,dry matter,86\n";
    const Feedstuff slough = completed(state, "slough_hay", untested);
    assert_near(slough.analysis.of[NUTRIENT_SULFUR].value, 0.30, 1e-12);
    assert_int_equal(slough.analysis.of[NUTRIENT_SULFUR].origin, FROM_ASSUMPTION);
    assert_true(slough.sulfur_is_assumed);
    const Feedstuff canola = completed(state, "canola_hay", untested);
    assert_near(canola.analysis.of[NUTRIENT_SULFUR].value, 0.65, 1e-12);
    const Feedstuff tops = completed(state, "turnip_tops", untested);
    assert_int_equal(tops.analysis.of[NUTRIENT_SULFUR].origin, FROM_BOOK); /* 0.85: higher */
    const Feedstuff brome = completed(state, "brome_hay", untested);
    assert_false(brome.sulfur_is_assumed);
    const Feedstuff tested =
        completed(state, "slough_hay", HEAD ",sulfur_pct\nA,dry matter,86,0.12\n");
    assert_near(tested.analysis.of[NUTRIENT_SULFUR].value, 0.12, 1e-12);
}

/* The policy is by kind: a new row of these kinds must say what is reckoned of it. */
static void
the_book_says_of_every_legume_brassica_and_mix_what_its_untested_sulfur_is(void **state) {
    const BookValues *book = own_book(*state);
    for (int i = 0; i < book->count; i++) {
        const BookFeed *feed = &book->feeds[i];
        if (feed->feed_class == FEED_CLASS_LEGUME || feed->feed_class == FEED_CLASS_BRASSICA ||
            feed->feed_class == FEED_CLASS_COVER_CROP)
            assert_true(feed->untested_sulfur >= 0.30);
    }
}

static void a_forage_as_wet_as_silage_has_silages_bound_protein(void **state) {
    const BookFeed *book = book_find(own_book(*state), "cover_crop_hay_early");
    static const struct {
        const char *bytes;
        double ndicp, adicp;
    } CASES[] = {
        {HEAD ",crude_protein_pct,ndf_pct,lignin_pct\nA,dry matter,65,12,55,5\n", 2.5, 1.0},
        {HEAD ",crude_protein_pct,ndf_pct,lignin_pct\nA,dry matter,64,12,55,5\n", 1.8, 0.8},
    };
    for (size_t i = 0; i < 2; i++) {
        const Feedstuff feed = completed(state, "cover_crop_hay_early", CASES[i].bytes);
        const FibreAnalysis by_hand = {
            .crude_protein = 12,
            .ndf = 55,
            .ash = book->analysis.of[NUTRIENT_ASH].value,
            .crude_fat = book->analysis.of[NUTRIENT_CRUDE_FAT].value,
            .ndicp = CASES[i].ndicp,
            .adicp = CASES[i].adicp,
            .lignin = 5,
            .ndf_digestibility = (double)NAN,
            .processing_factor = 1.0,
        };
        assert_near(feed.tdn_by_route[ROUTE_LIGNIN], tdn_summative(by_hand).tdn, 1e-9);
    }
    const BoundProtein straw = feed_class_bound_protein(FEED_CLASS_STRAW, 50);
    assert_near(straw.ndicp_pct, 1.2, 1e-12); /* lower already */
    const BoundProtein brewers = feed_class_bound_protein(FEED_CLASS_BYPRODUCT, 25);
    assert_near(brewers.adicp_pct, 0.4, 1e-12); /* no forage */
}

static void salt_is_read_as_its_sodium_and_chloride_where_those_are_not_given(void **state) {
    /* NaCl: 22.990 / (22.990 + 35.453) = 0.3934 [ATOMIC_WEIGHTS] */
    const Feedstuff salt =
        completed(state, "mineral_2:1", HEAD ",salt_pct\nA,dry matter,97,20\n");
    assert_near(salt.analysis.of[NUTRIENT_SODIUM].value, 7.868, 0.001);
    assert_near(salt.analysis.of[NUTRIENT_CHLORIDE].value, 12.132, 0.001);
    assert_int_equal(salt.analysis.of[NUTRIENT_SODIUM].origin, FROM_CALCULATION);
    const Feedstuff both =
        completed(state, "mineral_2:1", HEAD ",salt_pct,sodium_pct\nA,dry matter,97,20,8.5\n");
    assert_near(both.analysis.of[NUTRIENT_SODIUM].value, 8.5, 1e-12);
    const Feedstuff wet = completed(state, "mineral_2:1", HEAD ",salt_pct\nA,as fed,50,10\n");
    assert_near(wet.analysis.of[NUTRIENT_SODIUM].value, 7.868, 0.001);
}

/* Kochia in grass hay was once reckoned as the grass, at 0.2 %. */
static void nitrate_of_hay_with_kochia_or_sweet_clover_is_reckoned_as_theirs(void **state) {
    static const FeedWatch GATHERING[] = {WATCH_KOCHIA, WATCH_SWEET_CLOVER};
    for (size_t i = 0; i < sizeof GATHERING / sizeof GATHERING[0]; i++) {
        Feedstuff hay = completed(state, "brome_hay", HEAD "\n");
        assert_near(hay.nitrate_for_safety, 0.2, 1e-12);
        feedstuff_watch(&hay, WATCH_BIT(GATHERING[i]) | WATCH_BIT(WATCH_VETCH));
        assert_near(hay.nitrate_for_safety, 2.0, 1e-12);
        assert_near(hay.analysis.of[NUTRIENT_NITRATE].value, 2.0, 1e-12);
        assert_true(hay.nitrate_is_assumed);
        Feedstuff tested =
            completed(state, "brome_hay", HEAD ",nitrate_no3_pct\nA,dry matter,86,0.10\n");
        feedstuff_watch(&tested, WATCH_BIT(GATHERING[i]));
        assert_near(tested.nitrate_for_safety, 0.115, 1e-9); /* 0.10 x 1.15 */
    }
    Feedstuff vetch = completed(state, "brome_hay", HEAD "\n");
    feedstuff_watch(&vetch, WATCH_BIT(WATCH_VETCH));
    assert_near(vetch.nitrate_for_safety, 0.2, 1e-12);
}

/* Turnip in a mix was once reckoned as the oats beside it, at the book's 0.18 % of sulfur. */
static void sulfur_of_a_mix_with_brassica_is_reckoned_with_theirs(void **state) {
    const WatchSet brassica = WATCH_BIT(WATCH_BRASSICA);
    Feedstuff mix = completed(state, "oat_greenfeed", HEAD "\n");
    assert_false(mix.sulfur_is_assumed);
    feedstuff_watch(&mix, brassica);
    assert_near(mix.analysis.of[NUTRIENT_SULFUR].value, 0.55, 1e-12);
    assert_int_equal(mix.analysis.of[NUTRIENT_SULFUR].origin, FROM_ASSUMPTION);
    assert_true(mix.sulfur_is_assumed);
    Feedstuff tested =
        completed(state, "oat_greenfeed", HEAD ",sulfur_pct\nA,dry matter,86,0.21\n");
    feedstuff_watch(&tested, brassica);
    assert_near(tested.analysis.of[NUTRIENT_SULFUR].value, 0.21, 1e-12);
    assert_false(tested.sulfur_is_assumed);
    Feedstuff tops = completed(state, "turnip_tops", HEAD "\n");
    feedstuff_watch(&tops, brassica);
    assert_near(tops.analysis.of[NUTRIENT_SULFUR].value, 0.85, 1e-12); /* higher already */
}

/* They were reckoned at no nitrate, as clean grain is. */
static void screenings_are_reckoned_with_the_nitrate_of_weeds(void **state) {
    const Feedstuff pellets = completed(state, "grain_screenings_pellets", HEAD "\n");
    assert_near(pellets.nitrate_for_safety, 0.2, 1e-12);
    assert_true(pellets.nitrate_is_assumed);
    const Feedstuff tested = completed(state, "grain_screenings_pellets",
                                       HEAD ",nitrate_no3_pct\nA,dry matter,86,0.02\n");
    assert_near(tested.nitrate_for_safety, 0.023, 1e-12); /* 0.02 x 1.15 */
    assert_near(completed(state, "barley_grain", HEAD "\n").nitrate_for_safety, 0.0, 0.0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(sulfur_of_a_mix_with_brassica_is_reckoned_with_theirs),
        UNIT_TEST(screenings_are_reckoned_with_the_nitrate_of_weeds),
        UNIT_TEST(a_laboratory_goes_before_the_book_and_the_book_fills_the_gaps),
        UNIT_TEST(what_nobody_knows_stays_unknown),
        UNIT_TEST(energy_follows_from_fibre_and_never_from_the_laboratorys_net_energy),
        UNIT_TEST(the_best_route_the_report_allows_is_taken),
        UNIT_TEST(straw_takes_no_fibre_equation),
        UNIT_TEST(corn_silage_is_summed_with_its_processing_factor),
        UNIT_TEST(soil_takes_energy_off_what_adf_says),
        UNIT_TEST(one_sample_of_nitrate_gets_a_margin_and_two_their_highest),
        UNIT_TEST(a_row_pasted_twice_does_not_take_the_margin_off),
        UNIT_TEST(nitrate_nobody_tested_is_assumed_by_the_class_of_feed),
        UNIT_TEST(nitrate_of_hay_with_kochia_or_sweet_clover_is_reckoned_as_theirs),
        UNIT_TEST(samples_are_weighed_by_their_cores),
        UNIT_TEST(heated_forage_loses_its_bound_protein_and_distillers_grains_do_not),
        UNIT_TEST(a_mineral_has_no_energy),
        UNIT_TEST(nfc_is_what_the_five_tests_leave_and_carries_their_worst_origin),
        UNIT_TEST(rfv_is_of_perennial_forage_only),
        UNIT_TEST(what_is_not_degraded_is_the_rest_and_of_the_same_origin),
        UNIT_TEST(soluble_protein_nobody_tested_is_assumed_by_kind_or_left_unknown),
        UNIT_TEST(soluble_protein_is_kept_and_never_made_into_degradable),
        UNIT_TEST(sulfur_nobody_tested_is_assumed_of_kinds_that_gather_it),
        UNIT_TEST(the_book_says_of_every_legume_brassica_and_mix_what_its_untested_sulfur_is),
        UNIT_TEST(a_forage_as_wet_as_silage_has_silages_bound_protein),
        UNIT_TEST(salt_is_read_as_its_sodium_and_chloride_where_those_are_not_given),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
