#include "stock/price_list.h"
#include "support/own_tables.h"
#include "support/told.h"

static PriceList parse(Arena *arena, Faults *faults, const char *bytes, size_t length) {
    const FeedTests none = {NULL, NULL, 0};
    const StockContext context = {own_book(arena),           own_handling(arena),       &none,
                                  calendar_day(2026, 11, 1), calendar_day(2027, 5, 15), NULL};
    return price_list_parse(arena, faults, &context, "for-sale.csv", bytes, length);
}

static void read_offers(Arena *arena, Faults *faults, const char *bytes, size_t length) {
    parse(arena, faults, bytes, length);
}

#define TOLD_READER read_offers
#define HEAD "feed_for_sale,feed,feeding,price_per_tonne"
#define BARLEY "Barley,barley grain,bunk,270"

static Offer only_offer(void **state, const char *bytes) {
    Faults faults = faults_new(*state);
    const PriceList list = parse(*state, &faults, bytes, strlen(bytes));
    assert_string_equal(unit_faults(&faults, *state), "");
    assert_int_equal(list.count, 1);
    return list.offers[0];
}

static void an_offer_without_limits_has_none(void **state) {
    const Offer offer = only_offer(state, HEAD "\n" BARLEY "\n");
    assert_string_equal(offer.name, "Barley");
    assert_near(offer.price_per_kg, 0.270, 1e-12);
    assert_true(isinf(offer.most_kg));
    assert_near(offer.load_kg, 0, 0);
    assert_false(offer.is_supplement);
    assert_int_equal(calendar_days_between(offer.allowance.from, calendar_day(2026, 11, 1)), 0);
    assert_int_equal(calendar_days_between(offer.allowance.until, calendar_day(2027, 5, 15)),
                     0);
}

static void what_is_to_be_watched_for_is_a_list_of_known_words(void **state) {
    assert_int_equal(only_offer(state, HEAD "\n" BARLEY "\n").feed.watch, 0);
    const Offer offer =
        only_offer(state, HEAD ",watch_for\n" BARLEY ",Ionophore | sweet-clover\n");
    assert_int_equal(offer.feed.watch,
                     WATCH_BIT(WATCH_IONOPHORE) | WATCH_BIT(WATCH_SWEET_CLOVER));
    assert_told(HEAD ",watch_for\n" BARLEY ",^vech\n", "did you mean 'vetch'?");
    assert_told(HEAD ",watch_for\n" BARLEY ",^nothing\n", "it may be 'vetch', 'kochia'");
}

/* 64 km at $4 and a load of 16 t: $16 a tonne on the 149 of the gate. */
static void freight_by_distance_rate_and_load_is_added_to_the_price_at_the_gate(void **state) {
    const Offer offer =
        only_offer(state, "feed_for_sale,feed,feeding,price_per_tonne,"
                          "load_tonnes,freight_distance_km,freight_rate_per_km\n"
                          "Barley,barley grain,bunk,149,16,64,4\n");
    assert_near(offer.freight_per_kg, 0.016, 1e-12);
    assert_near(offer.price_per_kg, 0.165, 1e-12);
    const Offer miles = only_offer(state, "feed_for_sale,feed,feeding,price_per_ton,load_tons,"
                                          "freight_distance_miles,freight_rate_per_mile\n"
                                          "Barley,barley grain,bunk,200,20,100,4\n");
    assert_near(miles.freight_per_kg, 20.0 / 907.18474, 1e-9);
    const Offer flat = only_offer(state, HEAD ",freight_per_tonne\n" BARLEY ",18\n");
    assert_near(flat.price_per_kg, 0.288, 1e-12);
    assert_told(HEAD ",load_tonnes,freight_distance_km,freight_rate_per_km\n" BARLEY ",^,64,4\n"
                     "Barley two,barley grain,bunk,270,16,^,4\n",
                "load_tonnes: is empty beside the distance",
                "freight_distance_km: is empty beside the rate");
    assert_told(
        HEAD ",load_tonnes,freight_distance_km,freight_rate_per_km,freight_per_tonne\n" BARLEY
             ",16,64,4,^18\n",
        "keep one way");
}

static void prices_by_the_ton_and_the_pound_come_out_by_the_kilogram(void **state) {
    const Offer ton =
        only_offer(state, "feed_for_sale,feed,feeding,price_per_ton,most_tons,load_tons\n"
                          "Barley,barley grain,bunk,244.94,100,20\n");
    assert_near(ton.price_per_kg, 0.270, 1e-5); /* 244.94 / 907.185 */
    assert_near(ton.most_kg, 90718.474, 1e-6);
    assert_near(ton.load_kg, 18143.6948, 1e-6);
    const Offer pound = only_offer(state, "feed_for_sale,feed,feeding,price_per_lb\n"
                                          "Barley,barley grain,bunk,0.1225\n");
    assert_near(pound.price_per_kg, 0.2701, 1e-4);
}

static void what_is_needed_is_told_all_at_once(void **state) {
    assert_told(HEAD ",note\n^,^,^,^,mine\n", "feed_for_sale: the cell is empty",
                "feed: the cell is empty", "feeding: the cell is empty",
                "price_per_tonne: the cell is empty");
    assert_told(HEAD ",supplement\nB,^barly grain,^bumk,270,^maybe\n", "did you mean",
                "did you mean 'bunk'?", "is none of: no, yes");
}

static void a_price_of_nothing_or_below_is_a_fault(void **state) {
    assert_told(HEAD "\nB,barley grain,bunk,^0\nC,barley grain,bunk,^-5\n"
                     "D,barley grain,bunk,^$270\nE,barley grain,bunk,^270/t\n",
                "outside 1 to", "outside 1 to", "write 270", "write the number alone");
}

static void a_price_in_the_other_unit_is_told(void **state) {
    assert_told(HEAD "\nB,barley grain,bunk,^0.12\n", "outside 1 to"); /* a lb under a tonne */
    assert_told(HEAD "\nB,barley grain,bunk,^7\n", "doubt: is the unit right?"); /* a bushel */
    assert_told("feed_for_sale,feed,feeding,price_per_lb\nB,barley grain,bunk,^270\n",
                "outside");
    assert_tells_nothing(HEAD "\nM,mineral 2:1,bunk,2080\n");
    /* a bag of 25 kg at 52 is 2,080 a tonne; a slip of one digit in a price of barley */
    assert_told(HEAD "\nM,mineral 2:1,bunk,^52\nB,barley grain,bunk,^2700\n",
                "doubt: runs from 150 to 6000", "doubt: runs from 80 to 800");
}

static void amounts_that_make_no_purchase_are_doubted(void **state) {
    assert_told(HEAD ",most_tonnes\n" BARLEY ",^0\n", "doubt: leave the cell empty");
    assert_told(HEAD ",most_tonnes,load_tonnes\n" BARLEY ",^10,38\n",
                "doubt: less than one load");
    assert_told(HEAD ",most_tonnes,load_tonnes\n" BARLEY ",^-1,^0\n", "outside", "outside");
}

static void delivery_dates_in_an_impossible_order_are_a_fault(void **state) {
    const char *const head = HEAD ",available_from,available_until\n" BARLEY;
    assert_told(arena_print(*state, "%s,2027-02-01,^2026-12-01\n", head),
                "is before available_from, 2027-02-01");
    assert_told(arena_print(*state, "%s,^Dec 1,\n", head), "lacks its day or its year");
    assert_told(arena_print(*state, "%s,,^2025-12-01\n", head), "doubt: is the year right?");
}

/* A road ban ends what can be hauled in and not what is fed: it was one date for both. */
static void the_last_day_of_hauling_is_not_the_last_day_of_feeding(void **state) {
    const Offer offer = only_offer(state, HEAD ",delivered_until\n" BARLEY ",2027-03-10\n");
    assert_true(offer.has_delivered_until);
    assert_int_equal(offer.delivered_until.number, calendar_day(2027, 3, 10).number);
    assert_int_equal(offer.allowance.until.number, calendar_day(2027, 5, 15).number);
    assert_false(only_offer(state, HEAD ",delivered_until\n" BARLEY ",\n").has_delivered_until);
}

static void a_last_day_of_hauling_that_cannot_be_is_told_at_its_place(void **state) {
    const char *const head = HEAD ",available_from,available_until,delivered_until\n" BARLEY;
    assert_told(arena_print(*state, "%s,,,^Mar 10\n", head), "lacks its day or its year");
    assert_told(arena_print(*state, "%s,,,^2027-02-30\n", head), "delivered_until");
    assert_told(arena_print(*state, "%s,2027-02-01,,^2026-12-01\n", head),
                "delivered_until: 2026-12-01 is before available_from, 2027-02-01");
    assert_tells_nothing(arena_print(*state, "%s,2027-02-01,,2027-02-01\n", head));
    assert_told(arena_print(*state, "%s,,2027-02-01,^2027-03-01\n", head),
                "doubt: is after available_until");
    assert_told(arena_print(*state, "%s,,,^2026-10-01\n", head),
                "doubt: is before the first feeding day");
}

/* A road ban of the spring after was no ban, and nobody was told. */
static void a_last_day_of_hauling_of_the_year_after_is_doubted(void **state) {
    const char *const head = HEAD ",delivered_until\n" BARLEY;
    assert_told(arena_print(*state, "%s,^2028-03-10\n", head), "doubt: is the year right?");
    assert_tells_nothing(arena_print(*state, "%s,2027-06-30\n", head));
}

static void shares_typed_for_percentages_are_doubted(void **state) {
    assert_told(HEAD ",shrink_pct,feeding_waste_pct\n" BARLEY ",^0.03,^0.05\n",
                "doubt: write 3", "doubt: write 5");
    assert_told(HEAD ",shrink_pct,feeding_waste_pct\n" BARLEY ",^45,^-2\n", "outside 0 to 40",
                "outside 0 to 60");
    assert_tells_nothing(HEAD ",shrink_pct,feeding_waste_pct\n" BARLEY ",0,0\n");
}

static void no_file_is_no_offer_and_an_unreadable_one_is_told(void **state) {
    Faults faults = faults_new(*state);
    assert_int_equal(parse(*state, &faults, NULL, 0).count, 0);
    assert_int_equal(faults.wrong_count, 0);
    assert_told("@", "the file is empty");
    assert_tells_nothing(HEAD "\n");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(an_offer_without_limits_has_none),
        UNIT_TEST(what_is_to_be_watched_for_is_a_list_of_known_words),
        UNIT_TEST(freight_by_distance_rate_and_load_is_added_to_the_price_at_the_gate),
        UNIT_TEST(prices_by_the_ton_and_the_pound_come_out_by_the_kilogram),
        UNIT_TEST(what_is_needed_is_told_all_at_once),
        UNIT_TEST(a_price_of_nothing_or_below_is_a_fault),
        UNIT_TEST(a_price_in_the_other_unit_is_told),
        UNIT_TEST(amounts_that_make_no_purchase_are_doubted),
        UNIT_TEST(delivery_dates_in_an_impossible_order_are_a_fault),
        UNIT_TEST(the_last_day_of_hauling_is_not_the_last_day_of_feeding),
        UNIT_TEST(a_last_day_of_hauling_that_cannot_be_is_told_at_its_place),
        UNIT_TEST(a_last_day_of_hauling_of_the_year_after_is_doubted),
        UNIT_TEST(shares_typed_for_percentages_are_doubted),
        UNIT_TEST(no_file_is_no_offer_and_an_unreadable_one_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
