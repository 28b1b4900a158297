/* What is said of toxins, plants, water, bunks and ionophores, on winters of
 * support/hand_question.h. */
#include "outcome/practice_words.h"
#include "support/told_report.h"
#include "support/unit.h"
#include <string.h>

static HandQuestion *month(Arena *arena) {
    HandQuestion *hand = hand_question(arena, 30);
    hand_group(hand, "Cows", 10, 12.0, 30);
    return hand;
}

static PlanFeed *offer(HandQuestion *hand, const char *book_feed, FeedClass feed_class) {
    PlanFeed *feed = hand_offer(hand, "Feed", 0.20);
    Feedstuff *stuff = &hand->stuffs[hand->question.feed_count - 1];
    stuff->book_feed = book_feed;
    stuff->feed_class = feed_class;
    return feed;
}

static const Caution *caution_in(Arena *arena, const HandQuestion *hand, const char *topic) {
    return hand_caution(arena, hand, topic, "");
}

static void tested(HandQuestion *hand, Nutrient nutrient, double value) {
    hand->stuffs[0].analysis.of[nutrient] = (Reading){value, FROM_LABORATORY, SOURCE_NONE};
    hand->feeds[0].eaten[nutrient] = value;
}

static void rye_that_was_not_tested_is_named_and_tested_rye_is_not(void **state) {
    HandQuestion *hand = month(*state);
    offer(hand, "rye_grain", FEED_CLASS_GRASS);
    const Caution *caution = caution_in(*state, hand, "toxins");
    assert_non_null(caution);
    assert_non_null(strstr(caution->fact, "no test of ergot"));
    assert_int_equal(caution->severity, SEVERITY_DANGER); /* forage, and nothing holds it */
    assert_non_null(
        strstr(caution->fact, "at more than a fifth of the diet")); /* it is all of it */
    assert_non_null(strstr(caution->fact, "no test of ergot, nor of vomitoxin"));
    tested(hand, NUTRIENT_DON, 0.0);
    assert_null(strstr(caution_in(*state, hand, "toxins")->fact, "nor of vomitoxin"));
    tested(hand, NUTRIENT_ERGOT, 0.0);
    assert_null(caution_in(*state, hand, "toxins"));
}

static void rye_grain_that_was_not_tested_is_said_to_be_held_to_a_fifth(void **state) {
    HandQuestion *hand = month(*state);
    offer(hand, "rye_grain", FEED_CLASS_GRAIN)->available_kg = 500.0;
    hand_offer(hand, "Hay", 0.30);
    const Caution *caution = caution_in(*state, hand, "toxins");
    assert_non_null(caution);
    assert_int_equal(caution->severity, SEVERITY_CAUTION);
    assert_non_null(strstr(caution->fact, "held to a fifth of a diet"));
    tested(hand, NUTRIENT_ERGOT, 0.0);
    assert_null(strstr(caution_in(*state, hand, "toxins")->fact, "held to"));
}

/* The share was told of all dry matter: a fifth of what fills a cow was then less than a fifth
 * beside a mineral, and the page said another number than the limit did. */
static void what_a_feed_is_of_a_diet_is_told_without_minerals_as_its_limit_is(void **state) {
    HandQuestion *hand = month(*state);
    offer(hand, "rye_grain", FEED_CLASS_GRAIN);
    PlanFeed *mineral = hand_offer(hand, "Mineral", 0.01);
    hand->stuffs[hand->question.feed_count - 1].feed_class = FEED_CLASS_MINERAL;
    mineral->eaten[NUTRIENT_COPPER] = 1000.0;
    hand->feeds[0].eaten[NUTRIENT_COPPER] = 0.0;
    SafetyLimit *copper =
        hand_nutrient_limit(hand, "copper_least", NUTRIENT_COPPER, 100.0, 100.0);
    copper->side = SIDE_LEAST; /* a tenth of all they eat is the mineral */
    assert_non_null(
        strstr(caution_in(*state, hand, "toxins")->fact, "up to 100 % of the diet"));
}

static void hay_of_grass_is_not_blamed_for_what_rye_carries(void **state) {
    HandQuestion *hand = month(*state);
    offer(hand, "brome_hay", FEED_CLASS_GRASS);
    assert_null(caution_in(*state, hand, "toxins"));
    assert_null(caution_in(*state, hand, "prussic acid"));
    assert_null(caution_in(*state, hand, "sweet clover"));
}

static void sorghum_is_named_for_prussic_acid_and_millet_is_not(void **state) {
    HandQuestion *hand = month(*state);
    offer(hand, "sorghum_sudan_hay", FEED_CLASS_SORGHUM);
    assert_non_null(caution_in(*state, hand, "prussic acid"));
    tested(hand, NUTRIENT_PRUSSIC_ACID_DRY, 100.0);
    assert_null(caution_in(*state, hand, "prussic acid"));
    HandQuestion *millet = month(*state);
    offer(millet, "millet_hay", FEED_CLASS_SORGHUM);
    assert_null(caution_in(*state, millet, "prussic acid"));
}

/* Put up on 20 September: 56 days are over on 15 November. */
static void frosted_sorghum_that_has_to_wait_is_named_with_its_day(void **state) {
    HandQuestion *hand = month(*state);
    PlanFeed *feed = offer(hand, "sorghum_sudan_silage", FEED_CLASS_SORGHUM);
    hand_offer(hand, "Hay", 0.30);
    feed->put_up = calendar_day(2026, 9, 20);
    feed->put_up_is_told = true;
    hand->stuffs[0].watch = WATCH_BIT(WATCH_FROSTED);
    SafetyLimit *limit = hand_feeds_limit(hand, "cyanide_frosted", LIMIT_DAYS_KEPT,
                                          "frosted_sorghum", 56.0, 56.0);
    limit->side = SIDE_LEAST;
    hand_bar(hand, 0, 0, limit);
    const Caution *told = caution_in(*state, hand, "prussic acid");
    assert_non_null(told);
    assert_string_equal(
        told->fact,
        "Feed is kept from Cows until 15 Nov: it froze and has no test of prussic "
        "acid; such feed is not fed for 56 days, here from 20 Sep, when it was put up");
    hand->stuffs[0].book_feed = "sorghum_sudan_hay";
    hand->stuffs[0].analysis.dry_matter = (Reading){89.0, FROM_BOOK, SOURCE_NONE};
    assert_non_null(strstr(caution_in(*state, hand, "prussic acid")->fact,
                           "no test of prussic acid nor of moisture, so nobody knows that it "
                           "cured; such feed is not fed for 56 days"));
    feed->put_up_is_told = false;
    feed->is_own = true;
    const Caution *not_told = caution_in(*state, hand, "prussic acid");
    assert_non_null(
        strstr(not_told->fact, "its cut_date is not given: write it into stacks.csv"));
}

/* That it froze only the farmer can say. */
static void untested_sorghum_says_what_to_write_where_it_froze(void **state) {
    HandQuestion *hand = month(*state);
    offer(hand, "sorghum_sudan_hay", FEED_CLASS_SORGHUM);
    const char *words = "write frosted under watch_for, and its cut_date";
    const char *named = "If Feed froze before it was put up, ";
    assert_non_null(strstr(caution_in(*state, hand, "prussic acid")->fact, words));
    /* the facts of a topic stand in one paragraph, another stack's beside it */
    assert_non_null(strstr(caution_in(*state, hand, "prussic acid")->fact, named));
    hand->stuffs[0].watch = WATCH_BIT(WATCH_FROSTED);
    assert_null(strstr(caution_in(*state, hand, "prussic acid")->fact, words));
}

static void sweet_clover_without_a_test_is_a_danger_while_it_is_fed(void **state) {
    HandQuestion *hand = month(*state);
    offer(hand, "alfalfa_hay_mid", FEED_CLASS_LEGUME);
    assert_null(caution_in(*state, hand, "sweet clover"));
    hand->stuffs[0].watch = WATCH_BIT(WATCH_SWEET_CLOVER);
    const Caution *caution = caution_in(*state, hand, "sweet clover");
    assert_non_null(caution);
    assert_int_equal(caution->severity, SEVERITY_DANGER);
}

/* The caution came first: it must not stand apart from the danger, with the advice said twice.
 */
static void all_of_a_topic_stands_together_with_the_danger_in_front(void **state) {
    HandQuestion *hand = month(*state);
    offer(hand, "alfalfa_hay_mid", FEED_CLASS_LEGUME);
    hand->stuffs[0].watch = WATCH_BIT(WATCH_SWEET_CLOVER);
    hand_feeds_limit(hand, "sweet_clover_share", LIMIT_SHARE, "untested_sweet_clover", 0.0,
                     1.0);
    const Caution *first = caution_in(*state, hand, "sweet clover");
    assert_non_null(first);
    assert_int_equal(first[0].severity, SEVERITY_DANGER);
    assert_string_equal(first[1].topic, "sweet clover");
    assert_int_equal(first[1].severity, SEVERITY_CAUTION);
}

static void an_ionophore_is_a_danger_that_names_horses(void **state) {
    HandQuestion *hand = month(*state);
    offer(hand, "grain_screenings_pellets", FEED_CLASS_BYPRODUCT);
    assert_null(caution_in(*state, hand, "ionophore"));
    hand->stuffs[0].watch = WATCH_BIT(WATCH_IONOPHORE);
    const Caution *caution = caution_in(*state, hand, "ionophore");
    assert_non_null(caution);
    assert_int_equal(caution->severity, SEVERITY_DANGER);
    assert_non_null(strstr(caution->advice, "kills a horse"));
}

static void ammoniated_straw_that_is_fed_is_told_with_what_to_watch(void **state) {
    HandQuestion *hand = month(*state);
    offer(hand, "barley_straw", FEED_CLASS_STRAW);
    assert_null(caution_in(*state, hand, "ammoniated feed"));
    hand->stuffs[0].watch = WATCH_BIT(WATCH_AMMONIATED);
    const Caution *caution = caution_in(*state, hand, "ammoniated feed");
    assert_string_equal(caution->fact,
                        "Feed is ammoniated and is fed to Cows, up to 100 % of the diet");
    assert_non_null(strstr(caution->advice, "phone your veterinarian"));
    hand->feeds[0].eaten[NUTRIENT_CRUDE_PROTEIN] = 4.0;
    hand_offer(hand, "Urea", 0.01)->eaten[NUTRIENT_CRUDE_PROTEIN] = 280.0;
    hand->stuffs[1].feed_class = FEED_CLASS_NPN;
    SafetyLimit *floor =
        hand_nutrient_limit(hand, "protein_floor", NUTRIENT_CRUDE_PROTEIN, 7.0, 7.0);
    floor->side = SIDE_LEAST;
    assert_non_null(strstr(caution_in(*state, hand, "ammoniated feed")->fact,
                           "is not counted with that of the urea beside it"));
}

/* 10 kg of hay with 0.8 % of sodium hold 0.203 kg of salt: 8.5 L at 41.7 L a kg. */
static void salt_past_its_line_says_how_much_more_they_drink(void **state) {
    HandQuestion *hand = month(*state);
    offer(hand, "slough_hay", FEED_CLASS_GRASS)->eaten[NUTRIENT_SODIUM] = 0.8;
    hand_nutrient_limit(hand, "salt_most", NUTRIENT_SODIUM, 1.5, 3.0)->subject = SUBJECT_SALT;
    assert_non_null(hand_caution(*state, hand, "salt",
                                 "Cows eat up to 203 g of salt a head and day in their feed, "
                                 "and drink about 8 L more for it"));
}

/* 5,000 ppm of dissolved solids [CATTLENETWORK_SALT]. */
static void salt_holds_back_no_supplement_where_the_water_is_salty(void **state) {
    HandQuestion *hand = month(*state);
    offer(hand, "brome_hay", FEED_CLASS_GRASS);
    hand->farm.winter.solids_are_known = hand->farm.winter.sodium_is_known = true;
    hand->farm.winter.water_solids_mg_per_l = 4990.0;
    assert_null(caution_in(*state, hand, "salt"));
    hand->farm.winter.water_solids_mg_per_l = 5010.0;
    assert_non_null(
        strstr(caution_in(*state, hand, "salt")->fact, "no supplement may be held back"));
}

static void water_with_much_in_it_is_to_be_tested_for_sodium(void **state) {
    HandQuestion *hand = month(*state);
    offer(hand, "brome_hay", FEED_CLASS_GRASS);
    hand->farm.winter.solids_are_known = true;
    hand->farm.winter.water_solids_mg_per_l = 3500.0;
    const Caution *caution = caution_in(*state, hand, "water");
    assert_non_null(caution);
    assert_non_null(strstr(caution->fact, "no sodium test"));
    hand->farm.winter.sodium_is_known = true;
    assert_null(caution_in(*state, hand, "water"));
}

static SafetyLimit *mould_limit(HandQuestion *hand) {
    SafetyLimit *limit =
        hand_nutrient_limit(hand, "mould", NUTRIENT_MOULD, 500000.0, 1000000.0);
    limit->label = "Mould count of any one feed";
    limit->kind = LIMIT_EACH_FEED;
    return limit;
}

static void feed_past_the_caution_line_of_a_toxin_is_named_with_its_figure(void **state) {
    HandQuestion *hand = month(*state);
    offer(hand, "brome_hay", FEED_CLASS_GRASS);
    mould_limit(hand);
    tested(hand, NUTRIENT_MOULD, 700000.0);
    const Caution *caution = caution_in(*state, hand, "toxins");
    assert_non_null(caution);
    assert_int_equal(caution->severity, SEVERITY_CAUTION);
    assert_non_null(strstr(caution->fact, "700,000 cfu/g (caution from 500,000 cfu/g)"));
    tested(hand, NUTRIENT_MOULD, 400000.0);
    assert_null(caution_in(*state, hand, "toxins"));
}

static void feed_kept_out_for_a_toxin_is_not_said_to_be_kept_out_for_nitrate(void **state) {
    HandQuestion *hand = month(*state);
    offer(hand, "brome_hay", FEED_CLASS_GRASS);
    hand_offer(hand, "Clean hay", 0.30);
    const SafetyLimit *limit = mould_limit(hand);
    tested(hand, NUTRIENT_MOULD, 2000000.0);
    hand_bar(hand, 0, 0, limit);
    const Caution *caution = caution_in(*state, hand, "toxins");
    assert_non_null(caution);
    assert_int_equal(caution->severity, SEVERITY_DANGER);
    assert_non_null(strstr(caution->fact, "Feed is kept from Cows: Mould count"));
    assert_null(caution_in(*state, hand, "nitrate"));
}

/* It was held at none of it by a row, and no page said so. */
static void urea_kept_from_cattle_that_pick_is_named_with_the_reason(void **state) {
    HandQuestion *hand = month(*state);
    offer(hand, "urea", FEED_CLASS_NPN);
    hand_offer(hand, "Hay", 0.30);
    SafetyLimit *limit = hand_feeds_limit(hand, "urea_picked", LIMIT_SHARE, "urea", 0.0, 0.0);
    limit->condition = CONDITION_NOT_MIXED;
    hand_bar(hand, 0, 0, limit);
    const Caution *caution = caution_in(*state, hand, "urea");
    assert_non_null(caution);
    assert_int_equal(caution->severity, SEVERITY_CAUTION); /* nobody has bought it */
    assert_string_equal(caution->fact,
                        "Feed is kept from Cows: they are not fed mixed, and one "
                        "that picks it out can eat enough to die of it");
}

static void urea_kept_beside_nitrate_names_the_feed_it_is_kept_for(void **state) {
    HandQuestion *hand = month(*state);
    offer(hand, "urea", FEED_CLASS_NPN);
    hand_offer(hand, "Hay", 0.30)->eaten[NUTRIENT_NITRATE] = 0.1;
    hand_offer(hand, "Greenfeed", 0.30)->eaten[NUTRIENT_NITRATE] = 0.42;
    SafetyLimit *limit =
        hand_nutrient_limit(hand, "urea_beside_nitrate", NUTRIENT_NITRATE, 0.0, 0.0);
    limit->kind = LIMIT_EACH_FEED;
    limit->subject = SUBJECT_UREA_BESIDE;
    limit->above = 0.3;
    hand_bar(hand, 0, 0, limit);
    const Caution *caution = caution_in(*state, hand, "urea");
    assert_non_null(caution);
    assert_non_null(strstr(caution->fact,
                           "Feed is kept from Cows: Greenfeed, reckoned at 0.42 % "
                           "NO3, may be in their diet"));
}

/* 6 m of bunk: 60 cm for each of ten, where 56 are enough and 66 are better. */
static void a_bunk_all_can_eat_at_is_not_said_to_hold_ten_of_ten(void **state) {
    HandQuestion *hand = month(*state);
    hand_offer(hand, "Hay", 0.20);
    hand->groups[0].delivery = DELIVERY_MIXED;
    hand->groups[0].bunk_length_m = 6.0;
    hand_limit(hand, (SafetyLimit){.id = "bunk_space",
                                   .label = "Bunk",
                                   .kind = LIMIT_FACILITY,
                                   .subject = SUBJECT_BUNK,
                                   .stages = STAGE_ALL,
                                   .side = SIDE_LEAST,
                                   .warn = 66.0,
                                   .hard = 56.0});
    const Caution *caution = caution_in(*state, hand, "bunk space");
    assert_non_null(caution);
    assert_int_equal(caution->severity, SEVERITY_CAUTION);
    assert_non_null(strstr(caution->fact, "60 cm of bunk a head, where 56 to 66 is wanted; all "
                                          "can eat at once, with little room"));
    hand->groups[0].bunk_length_m = 5.5;
    const Caution *danger = caution_in(*state, hand, "bunk space");
    assert_int_equal(danger->severity, SEVERITY_DANGER);
    assert_non_null(strstr(danger->fact, "at most 9 of 10 can eat at once"));
}

static void the_practice_in_force_is_said_with_the_farmers_note(void **state) {
    Winter winter = {.farm = ""};
    assert_non_null(strstr(practice_words(*state, &winter), "strict practice"));
    winter.practice[CHOICE_NITRATE] = 1;
    winter.practice_note[CHOICE_NITRATE] = "Dr. Lund";
    const char *words = practice_words(*state, &winter);
    assert_non_null(strstr(words, "prairie practice"));
    assert_non_null(strstr(words, "Dr. Lund"));
    assert_null(strstr(words, "strict practice"));
    assert_null(strstr(words, "Sulfur"));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(rye_that_was_not_tested_is_named_and_tested_rye_is_not),
        UNIT_TEST(rye_grain_that_was_not_tested_is_said_to_be_held_to_a_fifth),
        UNIT_TEST(what_a_feed_is_of_a_diet_is_told_without_minerals_as_its_limit_is),
        UNIT_TEST(hay_of_grass_is_not_blamed_for_what_rye_carries),
        UNIT_TEST(sorghum_is_named_for_prussic_acid_and_millet_is_not),
        UNIT_TEST(frosted_sorghum_that_has_to_wait_is_named_with_its_day),
        UNIT_TEST(untested_sorghum_says_what_to_write_where_it_froze),
        UNIT_TEST(sweet_clover_without_a_test_is_a_danger_while_it_is_fed),
        UNIT_TEST(all_of_a_topic_stands_together_with_the_danger_in_front),
        UNIT_TEST(an_ionophore_is_a_danger_that_names_horses),
        UNIT_TEST(ammoniated_straw_that_is_fed_is_told_with_what_to_watch),
        UNIT_TEST(salt_past_its_line_says_how_much_more_they_drink),
        UNIT_TEST(salt_holds_back_no_supplement_where_the_water_is_salty),
        UNIT_TEST(water_with_much_in_it_is_to_be_tested_for_sodium),
        UNIT_TEST(feed_past_the_caution_line_of_a_toxin_is_named_with_its_figure),
        UNIT_TEST(feed_kept_out_for_a_toxin_is_not_said_to_be_kept_out_for_nitrate),
        UNIT_TEST(urea_kept_from_cattle_that_pick_is_named_with_the_reason),
        UNIT_TEST(urea_kept_beside_nitrate_names_the_feed_it_is_kept_for),
        UNIT_TEST(a_bunk_all_can_eat_at_is_not_said_to_hold_ten_of_ten),
        UNIT_TEST(the_practice_in_force_is_said_with_the_farmers_note),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
