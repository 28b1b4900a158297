/* A whole feed of what a laboratory found and what the book says: measured before calculated
 * before book, one way to energy for all, and an unknown that is dangerous is never taken for
 * none. */
#include "feedstuff/book_value.h"
#include "feedstuff/feed_energy.h"
#include "feedstuff/feedstuff.h"

#include "entry/embedded.h"
#include "support/unit.h"

static const BookValues *book_of(Arena *arena) {
    Faults faults = faults_new(arena);
    const EmbeddedFile *file = embedded_find("book-feeds.csv");
    const BookValues *book = book_parse(arena, &faults, file->name, file->bytes, file->length);
    assert_string_equal(unit_faults(&faults, arena), "");
    return book;
}

static const BookFeed *feed_of_book(void **state, const char *name) {
    const BookFeed *feed = book_find(book_of(*state), name);
    assert_non_null(feed);
    return feed;
}

static Tested untested(void) {
    Tested tested = {.nitrate_highest = (double)NAN};
    tested.mean.dry_matter = reading_nowhere();
    for (int i = 0; i < NUTRIENT_COUNT; i++)
        tested.mean.of[i] = reading_nowhere();
    return tested;
}

static void tests(Tested *tested, Nutrient nutrient, double value) {
    tested->mean.of[nutrient] = (Reading){value, FROM_LABORATORY, SOURCE_NONE};
    tested->sample_count = 1;
}

static double value_of(const Feedstuff *feed, Nutrient nutrient) {
    assert_true(reading_is_known(feed->analysis.of[nutrient]));
    return feed->analysis.of[nutrient].value;
}

static Feedstuff complete(const Tested *tested, const BookFeed *book) {
    return feedstuff_complete("East stack", tested, book);
}

/* ---- gaps ---- */

static void the_laboratory_is_kept_and_the_book_fills_the_gaps(void **state) {
    const BookFeed *book = feed_of_book(state, "oat_greenfeed");
    Tested tested = untested();
    tests(&tested, NUTRIENT_CRUDE_PROTEIN, 12.4);
    const Feedstuff feed = complete(&tested, book);
    assert_near(value_of(&feed, NUTRIENT_CRUDE_PROTEIN), 12.4, 0.0);
    assert_int_equal(feed.analysis.of[NUTRIENT_CRUDE_PROTEIN].origin, FROM_LABORATORY);
    assert_near(value_of(&feed, NUTRIENT_CALCIUM), book->analysis.of[NUTRIENT_CALCIUM].value,
                0.0);
    assert_int_equal(feed.analysis.of[NUTRIENT_CALCIUM].origin, FROM_BOOK);
    assert_false(
        reading_is_known(feed.analysis.of[NUTRIENT_VITAMIN_A])); /* it fades: unknown */
}

/* ---- energy ---- */

static Tested full_report(void) {
    Tested tested = untested();
    tests(&tested, NUTRIENT_CRUDE_PROTEIN, 14.0);
    tests(&tested, NUTRIENT_NDF, 53.0);
    tests(&tested, NUTRIENT_ADF, 35.0);
    tests(&tested, NUTRIENT_LIGNIN, 4.8);
    tests(&tested, NUTRIENT_NDF_DIGESTIBILITY, 60.0);
    tests(&tested, NUTRIENT_TDN, 65.0);
    tests(&tested, NUTRIENT_NEM, 1.60);
    return tested;
}

static void the_best_route_the_report_allows_is_taken(void **state) {
    const BookFeed *book = feed_of_book(state, "cover_crop_hay_early");
    Tested tested = full_report();
    assert_int_equal(complete(&tested, book).route, ROUTE_DIGESTIBILITY);
    tested.mean.of[NUTRIENT_NDF_DIGESTIBILITY] = reading_nowhere();
    assert_int_equal(complete(&tested, book).route, ROUTE_LIGNIN);
    tested.mean.of[NUTRIENT_LIGNIN] = reading_nowhere();
    const Feedstuff by_fibre = complete(&tested, book);
    assert_int_equal(by_fibre.route, ROUTE_FIBRE);
    assert_near(value_of(&by_fibre, NUTRIENT_TDN), 88.9 - 0.779 * 35.0, 1e-9);
    tested.mean.of[NUTRIENT_ADF] = reading_nowhere();
    assert_int_equal(complete(&tested, book).route, ROUTE_LABORATORY);
    tested.mean.of[NUTRIENT_TDN] = reading_nowhere();
    const Feedstuff by_book = complete(&tested, book);
    assert_int_equal(by_book.route, ROUTE_BOOK);
    assert_near(value_of(&by_book, NUTRIENT_TDN), book->analysis.of[NUTRIENT_TDN].value, 0.0);
}

static void net_energy_follows_from_tdn_and_never_from_the_sheet(void **state) {
    const Tested tested = full_report();
    const Feedstuff feed = complete(&tested, feed_of_book(state, "cover_crop_hay_early"));
    const double tdn = value_of(&feed, NUTRIENT_TDN);
    assert_near(value_of(&feed, NUTRIENT_NEM), nem_from_tdn(tdn).mcal_per_kg, 1e-12);
    assert_near(value_of(&feed, NUTRIENT_NEG), neg_from_tdn(tdn).mcal_per_kg, 1e-12);
    assert_true(fabs(value_of(&feed, NUTRIENT_NEM) - 1.60) > 0.05);
}

/* Straw of ADF 49 would get TDN 50.7 from the hay equation; tables print 44. */
static void straw_and_grain_take_no_hay_equation(void **state) {
    Tested tested = untested();
    tests(&tested, NUTRIENT_ADF, 49.0);
    const Feedstuff straw = complete(&tested, feed_of_book(state, "barley_straw"));
    assert_int_equal(straw.route, ROUTE_BOOK);
    assert_near(value_of(&straw, NUTRIENT_TDN), 44.0, 0.0);
    tests(&tested, NUTRIENT_ADF, 7.0);
    const Feedstuff grain = complete(&tested, feed_of_book(state, "barley_grain"));
    assert_near(value_of(&grain, NUTRIENT_TDN), 83.0, 0.0);
}

static void a_mineral_has_no_energy_and_no_protein(void **state) {
    const Tested tested = untested();
    const BookValues *book = book_of(*state);
    for (int i = 0; i < book->count; i++) {
        if (book->feeds[i].feed_class != FEED_CLASS_MINERAL)
            continue;
        const Feedstuff feed = complete(&tested, &book->feeds[i]);
        assert_near(value_of(&feed, NUTRIENT_TDN), 0.0, 0.0);
        assert_near(value_of(&feed, NUTRIENT_NEM), 0.0, 0.0);
        assert_near(value_of(&feed, NUTRIENT_NEG), 0.0, 0.0);
        assert_near(value_of(&feed, NUTRIENT_CRUDE_PROTEIN), 0.0, 0.0);
    }
}

/* ---- protein ---- */

static void heat_takes_protein_from_forage_but_not_from_distillers_grains(void **state) {
    Tested tested = untested();
    tests(&tested, NUTRIENT_CRUDE_PROTEIN, 12.0);
    tests(&tested, NUTRIENT_ADICP, 3.0); /* a quarter of it is bound */
    const Feedstuff hay = complete(&tested, feed_of_book(state, "alfalfa_grass_hay"));
    assert_near(value_of(&hay, NUTRIENT_CRUDE_PROTEIN), 9.0, 1e-9);
    assert_int_equal(hay.analysis.of[NUTRIENT_CRUDE_PROTEIN].origin, FROM_CALCULATION);
    const Feedstuff grains = complete(&tested, feed_of_book(state, "wheat_ddgs"));
    assert_near(value_of(&grains, NUTRIENT_CRUDE_PROTEIN), 12.0, 0.0);
    tests(&tested, NUTRIENT_ADICP, 1.0); /* 8 % is natural */
    const Feedstuff sound = complete(&tested, feed_of_book(state, "alfalfa_grass_hay"));
    assert_near(value_of(&sound, NUTRIENT_CRUDE_PROTEIN), 12.0, 0.0);
}

/* ---- nitrate ---- */

static void an_untested_crop_that_gathers_nitrate_is_taken_for_the_worst(void **state) {
    static const char *const risky[] = {"oat_greenfeed",
                                        "barley_greenfeed",
                                        "barley_silage",
                                        "cover_crop_hay_late",
                                        "sorghum_sudan_hay",
                                        "millet_hay",
                                        "cover_crop_bale_silage",
                                        "canola_hay",
                                        "turnip_tops",
                                        "corn_silage"};
    const Tested tested = untested();
    for (size_t i = 0; i < sizeof risky / sizeof *risky; i++) {
        const Feedstuff feed = complete(&tested, feed_of_book(state, risky[i]));
        assert_near(feed.nitrate_for_safety, 2.0, 0.0);
        assert_true(feed.nitrate_is_assumed);
    }
    const Feedstuff hay = complete(&tested, feed_of_book(state, "grass_hay_average"));
    assert_near(hay.nitrate_for_safety, 0.2, 0.0);
    assert_true(hay.nitrate_is_assumed);
    const Feedstuff grain = complete(&tested, feed_of_book(state, "barley_grain"));
    assert_near(grain.nitrate_for_safety, 0.0, 0.0);
    assert_false(grain.nitrate_is_assumed);
}

static void one_sample_is_raised_and_of_several_the_highest_counts(void **state) {
    const BookFeed *book = feed_of_book(state, "oat_greenfeed");
    Tested tested = untested();
    tested.nitrate_highest = 0.60;
    tested.nitrate_sample_count = 1;
    assert_near(complete(&tested, book).nitrate_for_safety, 0.69, 1e-12);
    assert_false(complete(&tested, book).nitrate_is_assumed);
    tested.nitrate_sample_count = 2;
    assert_near(complete(&tested, book).nitrate_for_safety, 0.60, 0.0);
}

/* ---- the book ---- */

/* A need or a ceiling reads an unknown as none, so the book must know these of every feed that
 * is eaten by the kilogram. */
static void the_book_knows_of_every_feed_what_a_ceiling_asks(void **state) {
    static const Nutrient asked[] = {NUTRIENT_CRUDE_PROTEIN, NUTRIENT_DEGRADABLE_SHARE,
                                     NUTRIENT_TDN,           NUTRIENT_NDF,
                                     NUTRIENT_CRUDE_FAT,     NUTRIENT_CALCIUM,
                                     NUTRIENT_PHOSPHORUS,    NUTRIENT_MAGNESIUM,
                                     NUTRIENT_POTASSIUM,     NUTRIENT_SODIUM,
                                     NUTRIENT_SULFUR};
    const BookValues *book = book_of(*state);
    for (int i = 0; i < book->count; i++) {
        const BookFeed *feed = &book->feeds[i];
        if (feed->feed_class == FEED_CLASS_MINERAL || feed->feed_class == FEED_CLASS_NPN)
            continue;
        for (size_t n = 0; n < sizeof asked / sizeof *asked; n++) {
            if (!reading_is_known(feed->analysis.of[asked[n]]))
                fail_msg("%s: %s is not known", feed->feed, nutrient_kind(asked[n])->stem);
        }
    }
}

static void the_book_is_plausible(void **state) {
    const BookValues *book = book_of(*state);
    for (int i = 0; i < book->count; i++) {
        const BookFeed *feed = &book->feeds[i];
        if (feed->feed_class == FEED_CLASS_MINERAL || feed->feed_class == FEED_CLASS_NPN)
            continue;
        const Reading *of = feed->analysis.of;
        assert_true(of[NUTRIENT_ADF].value <= of[NUTRIENT_NDF].value);
        const double sum = of[NUTRIENT_CRUDE_PROTEIN].value + of[NUTRIENT_NDF].value +
                           of[NUTRIENT_CRUDE_FAT].value + of[NUTRIENT_ASH].value;
        if (sum > 103.0) /* fibre-bound protein is in it twice */
            fail_msg("%s: protein, fibre, fat and ash are %.1f %%", feed->feed, sum);
        if (feed_class_kind(feed->feed_class)->is_forage)
            assert_in_range((unsigned long)of[NUTRIENT_TDN].value, 35, 86);
        if (feed->feed_class == FEED_CLASS_GRAIN)
            assert_true(of[NUTRIENT_PHOSPHORUS].value > of[NUTRIENT_CALCIUM].value);
        if (feed->feed_class == FEED_CLASS_LEGUME)
            assert_true(of[NUTRIENT_CALCIUM].value > of[NUTRIENT_PHOSPHORUS].value);
    }
}

int main(void) {
    const struct CMUnitTest tests_of_completion[] = {
        UNIT_TEST(the_laboratory_is_kept_and_the_book_fills_the_gaps),
        UNIT_TEST(the_best_route_the_report_allows_is_taken),
        UNIT_TEST(net_energy_follows_from_tdn_and_never_from_the_sheet),
        UNIT_TEST(straw_and_grain_take_no_hay_equation),
        UNIT_TEST(a_mineral_has_no_energy_and_no_protein),
        UNIT_TEST(heat_takes_protein_from_forage_but_not_from_distillers_grains),
        UNIT_TEST(an_untested_crop_that_gathers_nitrate_is_taken_for_the_worst),
        UNIT_TEST(one_sample_is_raised_and_of_several_the_highest_counts),
        UNIT_TEST(the_book_knows_of_every_feed_what_a_ceiling_asks),
        UNIT_TEST(the_book_is_plausible),
    };
    return cmocka_run_group_tests_name("feed completion", tests_of_completion, NULL, NULL);
}
