/* Caps that lean on mixing, on winters of support/hand_question.h: a month of ten cows and one
 * feed. */
#include "support/told_report.h"
#include "support/unit.h"
#include <string.h>

static HandQuestion *month_of(Arena *arena, FeedClass feed_class, Delivery delivery) {
    HandQuestion *hand = hand_question(arena, 30);
    hand_offer(hand, "Feed", 0.20);
    hand_offer(hand, "Hay", 0.90);
    hand->stuffs[0].feed_class = feed_class;
    hand_group(hand, "Cows", 10, 12.0, 30);
    hand->groups[0].delivery = delivery;
    return hand;
}

static const Caution *told(Arena *arena, const HandQuestion *hand) {
    return hand_caution(arena, hand, "free choice", "Feed ");
}

/* It was said of nitrate and urea only that cattle which pick are not held by a mean. */
static void a_cap_on_a_plant_is_said_to_hold_on_the_average_where_cattle_pick(void **state) {
    HandQuestion *hand = month_of(*state, FEED_CLASS_GRASS, DELIVERY_LAYERED);
    hand_feeds_limit(hand, "kochia_share", LIMIT_SHARE, "kochia", 0.30, 0.40);
    assert_null(told(*state, hand)); /* there is none in it */
    hand->stuffs[0].watch = WATCH_BIT(WATCH_KOCHIA);
    assert_string_equal(told(*state, hand)->fact,
                        "Feed is held to 40 % of the diet of Cows on the average only: they "
                        "are not fed mixed, and some eat more of it");
    hand->groups[0].delivery = DELIVERY_MIXED;
    assert_null(told(*state, hand));
}

static void the_strictest_of_its_caps_is_told(void **state) {
    HandQuestion *hand = month_of(*state, FEED_CLASS_BRASSICA, DELIVERY_FREE_CHOICE);
    hand->stuffs[0].book_feed = "canola_hay";
    hand_feeds_limit(hand, "brassica_share", LIMIT_SHARE, "brassica", 0.50, 0.67);
    hand_feeds_limit(hand, "canola_forage_share", LIMIT_SHARE, "canola_forage", 0.25, 0.50);
    assert_non_null(strstr(told(*state, hand)->fact, "held to 50 %"));
}

/* What only weighs has its caution line for a cap. */
static void a_share_that_forbids_nothing_is_told_by_its_caution_line(void **state) {
    HandQuestion *hand = month_of(*state, FEED_CLASS_CEREAL, DELIVERY_FREE_CHOICE);
    hand->stuffs[0].book_feed = "triticale_silage";
    hand_feeds_limit(hand, "toxins", LIMIT_SHARE, "untested_toxins", 0.20, 1.0);
    assert_non_null(strstr(told(*state, hand)->fact, "held to 20 %"));
}

/* Straw is a cap nobody picks past. */
static void straw_is_not_told_of_as_picked(void **state) {
    HandQuestion *hand = month_of(*state, FEED_CLASS_STRAW, DELIVERY_FREE_CHOICE);
    hand_feeds_limit(hand, "straw_share", LIMIT_SHARE, "straw", 0.50, 0.60);
    assert_null(told(*state, hand));
}

/* Distillers grains of 0.65 % beside hay of 0.10: 0.40 % in the mean. */
static void sulfur_of_one_feed_above_the_line_is_told_where_cattle_pick(void **state) {
    HandQuestion *hand = month_of(*state, FEED_CLASS_BYPRODUCT, DELIVERY_FREE_CHOICE);
    hand->feeds[0].eaten[NUTRIENT_SULFUR] = 0.65;
    hand->feeds[1].eaten[NUTRIENT_SULFUR] = 0.10;
    hand_nutrient_limit(hand, "sulfur_total", NUTRIENT_SULFUR, 0.30, 0.40);
    assert_string_equal(told(*state, hand)->fact,
                        "Feed holds 0.65 % sulfur, and Cows, not fed mixed, are within 0.40 % "
                        "of the diet with the water on the average only");
    hand->feeds[0].eaten[NUTRIENT_SULFUR] = 0.35;
    assert_null(told(*state, hand));
    hand->feeds[0].eaten[NUTRIENT_SULFUR] = 0.65;
    hand->groups[0].delivery = DELIVERY_MIXED;
    assert_null(told(*state, hand));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_cap_on_a_plant_is_said_to_hold_on_the_average_where_cattle_pick),
        UNIT_TEST(the_strictest_of_its_caps_is_told),
        UNIT_TEST(a_share_that_forbids_nothing_is_told_by_its_caution_line),
        UNIT_TEST(straw_is_not_told_of_as_picked),
        UNIT_TEST(sulfur_of_one_feed_above_the_line_is_told_where_cattle_pick),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
