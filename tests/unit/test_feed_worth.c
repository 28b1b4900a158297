#include "outcome/worth_report.h"
#include "planner/feed_worth.h"
#include "planner/price_range.h"
#include "present/present.h"
#include "support/hand_question.h"
#include "support/text_farm.h"
#include <string.h>

/* support/hand_question.h: a kg eaten takes 1 / 0.81 kg. 37.04 t are fed, and the near hay is
 * worth what the far hay would cost. */
static void a_tonne_is_worth_what_would_take_its_place(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    hand_offer(hand, "Near hay", 0.20);
    hand_offer(hand, "Far hay", 0.25);
    hand_group(hand, "Cows", 100, 12.0, 30);
    const WinterPlan plan = plan_least_cost(*state, &hand->question);
    assert_near(plan_worth_of_first(&plan, 0, 1000.0), 0.25, 1e-6);
    assert_near(plan_worth_of_first(&plan, 1, 1000.0), 0.20, 1e-6);
    /* Of 50 t only the 37.04 are eaten, 10 kg a head and day: the rest is worth nothing. */
    const double fed_kg = 100.0 * 10.0 * 30.0 / 0.81;
    assert_near(plan_worth_of_first(&plan, 0, 50000.0), 0.25 * fed_kg / 50000.0, 1e-6);
}

static void what_nothing_can_replace_is_worth_any_price(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    hand_offer(hand, "Hay", 0.20);
    hand_group(hand, "Cows", 100, 12.0, 30);
    const WinterPlan plan = plan_least_cost(*state, &hand->question);
    assert_true(isinf(plan_worth_of_first(&plan, 0, 1000.0)));
}

/* ---- a farm read from its files, and read again with other prices ---- */

static const Farm *farm_with(Arena *arena, double barley, double canola) {
    const char *const bytes[FARM_FILE_COUNT] = {
        [FARM_HERD] = "group,class,head,weight_kg,mature_weight_kg,calving_start,calving_end,"
                      "gain_kg_per_day,delivery\n"
                      "Cows,cow,60,610,,2027-04-01,2027-05-10,,mixed\n"
                      "Calves,replacement heifer,25,260,620,,,0.5,mixed\n",
        [FARM_STACKS] = "stack,kind,feed,total_tonnes,storage,feeding,value_per_tonne\n"
                        "Hay,round bales,brome hay,130,net wrap rows,unrolled,90\n"
                        "Straw,round bales,barley straw,40,net wrap rows,unrolled,45\n",
        [FARM_FOR_SALE] = arena_print(
            arena,
            "feed_for_sale,feed,price_per_tonne,feeding,load_tonnes,freight_distance_km,"
            "freight_rate_per_km\n"
            "Barley,barley grain,%.9g,bunk,20,100,4\n"
            "Canola meal,canola meal,%.9g,bunk,20,,\n"
            "Mineral,mineral 2:1,1900,bunk,,,\nLimestone,limestone,350,bunk,,,\n"
            "Oats,oat grain,330,bunk,,,\n",
            barley - 20.0, canola),
        [FARM_WINTER] = "setting,value\nfirst_day,2026-11-01\nlast_day,2027-03-31\n",
    };
    return text_farm(arena, bytes);
}

static const FeedWorths *worths_with(Arena *arena, double barley, double canola) {
    PlanQuestion *question = ARENA_NEW(arena, PlanQuestion);
    WinterPlan *plan = ARENA_NEW(arena, WinterPlan);
    FeedWorths *worths = ARENA_NEW(arena, FeedWorths);
    *question = plan_question(arena, farm_with(arena, barley, canola));
    *plan = plan_least_cost(arena, question);
    assert_int_equal(plan->verdict, PLAN_BALANCED);
    *worths = feed_worths(arena, plan);
    return worths;
}

static void freight_is_in_the_landed_price_and_off_what_may_be_asked_at_the_gate(void **state) {
    const FeedWorth *barley = &worths_with(*state, 260.0, 390.0)->offers[0];
    assert_near(barley->freight_per_kg, 100.0 * 4.0 / 20000.0, 1e-12);
    assert_near(barley->gate_per_kg, 0.240, 1e-12);
    assert_near(barley->landed_per_kg, 0.260, 1e-12);
    assert_near(feed_worth_at_gate(barley), barley->load_per_kg - 0.020, 1e-12);
    /* A load is worth no more a tonne than its first tonne. */
    assert_true(barley->load_per_kg <= barley->first_per_kg + 1e-9);
}

/* Planned anew from the files: just below the worth of its first tonne some is bought, just
 * above it not that much. */
static void the_worth_told_is_the_price_at_which_a_plan_made_anew_buys(void **state) {
    Arena *arena = *state;
    const double worth =
        worths_with(arena, 260.0, 390.0)->offers[0].first_per_kg * KG_PER_TONNE;
    assert_true(isfinite(worth) && worth > 100.0);
    assert_true(worths_with(arena, worth * 0.97, 390.0)->offers[0].bought_kg >= 999.0);
    assert_true(worths_with(arena, worth * 1.03, 390.0)->offers[0].bought_kg < 1000.0);
}

static void market_arithmetic_gives_its_two_references_their_own_price(void **state) {
    const FeedWorths *worths = worths_with(*state, 260.0, 390.0);
    assert_int_equal(worths->energy_offer, 0);
    assert_int_equal(worths->protein_offer, 1);
    assert_true(worths->market.is_solved);
    assert_near(worths->offers[0].market_per_kg, 0.260, 1e-9);
    assert_near(worths->offers[1].market_per_kg, 0.390, 1e-9);
    assert_true(isnan(worths->offers[2].market_per_kg)); /* a mineral has no TDN */
}

static void what_cannot_be_had_has_no_worth_and_not_a_worth_of_nothing(void **state) {
    PlanQuestion question = plan_question(*state, farm_with(*state, 260.0, 390.0));
    PlanFeed *feeds = ARENA_ARRAY(*state, PlanFeed, question.feed_count);
    memcpy(feeds, question.feeds, (size_t)question.feed_count * sizeof *feeds);
    const int oats = question.feed_count - 1;
    feeds[oats].available_kg = 0.0;
    question.feeds = feeds;
    const WinterPlan plan = plan_least_cost(*state, &question);
    const FeedWorths worths = feed_worths(*state, &plan);
    const FeedWorth *none = &worths.offers[oats - question.own_count];
    assert_true(isnan(none->first_per_kg) && isnan(feed_worth_at_gate(none)));
    assert_true(isfinite(none->per_tdn_kg)); /* what it costs is known */
}

static void a_feed_that_the_plan_buys_a_little_of_is_not_told_to_be_too_dear(void **state) {
    FeedWorths worths = *worths_with(*state, 250.0, 400.0);
    FeedWorth *offers = ARENA_ARRAY(*state, FeedWorth, worths.offer_count);
    memcpy(offers, worths.offers, (size_t)worths.offer_count * sizeof *offers);
    worths.offers = offers;
    for (int i = 0; i < worths.offer_count; i++) {
        offers[i].first_per_kg = offers[i].load_per_kg = 0.5 * offers[i].gate_per_kg;
        offers[i].bought_kg = 0.0;
    }
    Text text = text_new(*state);
    present_text(worth_report(*state, &worths, UNITS_METRIC), (TextStyle){.width = 100}, &text);
    assert_null(strstr(text.bytes, "a little pays\n"));
    offers[0].bought_kg = 200.0; /* of which each kg is worth its price, and a tonne is not */
    text = text_new(*state);
    present_text(worth_report(*state, &worths, UNITS_METRIC), (TextStyle){.width = 100}, &text);
    assert_non_null(strstr(text.bytes, "a little pays\n"));
}

static void references_that_are_too_alike_are_not_solved(void **state) {
    (void)state;
    const FeedReference one = {0.30, 0.80, 0.12};
    const FeedReference other = {0.31, 0.82, 0.125};
    assert_false(prices_of_two_references(one, other).is_solved);
}

/* A few bags in a winter: spread over a tonne they would seem not worth what is paid for them.
 */
static void what_is_bought_by_the_bag_is_worth_what_is_paid_for_it(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    hand_offer(hand, "Near hay", 0.20);
    hand_offer(hand, "Far hay", 0.25);
    hand_group(hand, "Cows", 1, 12.0, 30);
    hand->farm.inventory.for_sale.offers =
        (Offer[]){{.price_per_kg = 0.20}, {.price_per_kg = 0.25}};
    const WinterPlan plan = plan_least_cost(*state, &hand->question);
    const FeedWorths worths = feed_worths(*state, &plan);
    /* One cow: 10 kg a day for 30 days. */
    assert_near(worths.offers[0].bought_kg, 300.0 / 0.81, 1e-6);
    assert_near(worths.offers[0].first_per_kg, 0.25, 1e-6);
}

/* The load of a tonne saves what 370 kg of far hay would cost, 93 of the 200 it is sold for;
 * the 370 kg by themselves are worth their price. */
static void
a_feed_of_which_the_plan_buys_less_than_a_load_is_not_called_too_dear(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    hand_offer(hand, "Near hay", 0.20);
    hand_offer(hand, "Far hay", 0.25);
    hand_group(hand, "Cows", 1, 12.0, 30);
    hand->farm.winter.farm = hand->farm.winter.currency = "";
    hand->farm.inventory.for_sale.offers =
        (Offer[]){{.price_per_kg = 0.20, .load_kg = 1000.0}, {.price_per_kg = 0.25}};
    const WinterPlan plan = plan_least_cost(*state, &hand->question);
    const FeedWorths worths = feed_worths(*state, &plan);
    assert_near(worths.offers[0].load_per_kg, 0.25 * 300.0 / 0.81 / 1000.0, 1e-6);
    const Report *report = worth_report(*state, &worths, UNITS_METRIC);
    int found = 0;
    for (const ReportSection *of = report->first; of; of = of->next) {
        for (const ReportPiece *piece = of->first; piece; piece = piece->next) {
            if (piece->kind != PIECE_TABLE || strcmp(piece->table->key, "worth") != 0)
                continue;
            found++;
            assert_string_equal(piece->table->first->cells[6].text, "a little pays");
            assert_string_equal(piece->table->last->cells[6].text, "too dear");
        }
    }
    assert_int_equal(found, 1);
}

/* Of salt a plan bought 29 kg, and was told of a load of a tonne that it was too dear and that
 * the plan bought 0.0. */
static void a_few_bags_that_the_plan_buys_are_told_and_pay(void **state) {
    FeedWorths worths = *worths_with(*state, 250.0, 400.0);
    FeedWorth offer = worths.offers[0];
    worths.offers = &offer;
    worths.offer_count = 1;
    offer.bought_kg = 29.0;
    offer.first_per_kg = 8.0 * offer.gate_per_kg;
    offer.load_per_kg = 0.5 * offer.gate_per_kg;
    Text text = text_new(*state);
    present_text(worth_report(*state, &worths, UNITS_METRIC), (TextStyle){.width = 100}, &text);
    assert_non_null(strstr(text.bytes, "0.029  a little pays\n"));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_tonne_is_worth_what_would_take_its_place),
        UNIT_TEST(what_nothing_can_replace_is_worth_any_price),
        UNIT_TEST(freight_is_in_the_landed_price_and_off_what_may_be_asked_at_the_gate),
        UNIT_TEST(the_worth_told_is_the_price_at_which_a_plan_made_anew_buys),
        UNIT_TEST(market_arithmetic_gives_its_two_references_their_own_price),
        UNIT_TEST(what_cannot_be_had_has_no_worth_and_not_a_worth_of_nothing),
        UNIT_TEST(a_feed_that_the_plan_buys_a_little_of_is_not_told_to_be_too_dear),
        UNIT_TEST(references_that_are_too_alike_are_not_solved),
        UNIT_TEST(what_is_bought_by_the_bag_is_worth_what_is_paid_for_it),
        UNIT_TEST(a_feed_of_which_the_plan_buys_less_than_a_load_is_not_called_too_dear),
        UNIT_TEST(a_few_bags_that_the_plan_buys_are_told_and_pay),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
