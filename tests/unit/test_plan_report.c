/* What is said of a plan. The winters are those of support/hand_question.h. */
#include "outcome/plan_cautions.h"
#include "support/told_report.h"
#include "support/unit.h"
#include <math.h>

static const Figure *member(const Figure *of, const char *key) {
    for (const Figure *at = of->first; at; at = at->next) {
        if (strcmp(at->key, key) == 0)
            return at;
    }
    static const Figure NOTHING = {.text = ""};
    fail_msg("no figure is named %s", key);
    return &NOTHING;
}

/* The only group's only period. */
static double price_in_figures(const Report *report, const char *nutrient) {
    const Figure *group = member(report->figures, "groups")->first;
    assert_non_null(group);
    const Figure *period = member(group, "periods")->first;
    assert_non_null(period);
    for (const Figure *at = member(period, "nutrients")->first; at; at = at->next) {
        if (strcmp(member(at, "nutrient")->text, nutrient) == 0)
            return member(at, "shadow_price")->number;
    }
    fail_msg("no limit is named %s", nutrient);
    return 0.0;
}

/* 2,900 mg/L of sulfate bring 0.39 % of sulfur; hay of 0.15 % passes 0.40 with it. */
static void a_winter_that_the_water_makes_short_says_so(void **state) {
    HandQuestion *hand = hand_november(*state);
    hand_offer(hand, "Hay", 0.20)->eaten[NUTRIENT_SULFUR] = 0.15;
    hand_group(hand, "Cows", 10, 12.0, 30);
    hand_nutrient_limit(hand, "Sulfur of the whole diet", NUTRIENT_SULFUR, 0.3, 0.4);
    hand->farm.winter.water_sulfate_mg_per_l = 2900.0;
    const Report *report = hand_report(*state, hand);
    assert_int_equal(report->verdict_severity, SEVERITY_DANGER);
    assert_non_null(strstr(report->verdict,
                           "Cows pass the most there should be of Sulfur of the "
                           "whole diet"));
    assert_null(strstr(report->verdict, "middling hay"));
}

/* The water brings 0.1335 of the 0.26 % there may be, so that of hay with 0.15 % only three
 * parts in four may stand beside the little there is with 0.05: no feed mends that as water
 * does. */
static HandQuestion *hand_held_down_by_water(Arena *arena) {
    HandQuestion *hand = hand_november(arena);
    PlanFeed *low = hand_offer(hand, "Low hay", 0.10);
    low->eaten[NUTRIENT_SULFUR] = 0.05;
    low->available_kg = 300.0;
    hand_offer(hand, "Hay", 0.20)->eaten[NUTRIENT_SULFUR] = 0.15;
    hand_group(hand, "Cows", 10, 12.0, 30);
    hand_nutrient_limit(hand, "Sulfur", NUTRIENT_SULFUR, 0.2, 0.26);
    hand->farm.winter.water_sulfate_mg_per_l = 1000.0;
    hand->farm.winter.sulfate_is_assumed = true;
    return hand;
}

static void a_winter_held_down_by_the_water_is_told_of_other_water_first(void **state) {
    const char *verdict = hand_report(*state, hand_held_down_by_water(*state))->verdict;
    assert_non_null(strstr(verdict, "held down by: Sulfur, at most 0.26 % (0.13 of it from the "
                                    "water alone). Other water would help first"));
    assert_null(strstr(verdict, "middling hay"));
}

static void a_plan_in_brief_points_at_nothing_that_only_the_whole_plan_has(void **state) {
    const HandQuestion *hand = hand_held_down_by_water(*state);
    const WinterPlan plan = plan_winter(*state, &hand->question);
    const PlanFindings in_brief = plan_findings_in_brief(*state, &plan, UNITS_METRIC);
    const char *verdict = plan_brief_of(*state, &in_brief)->verdict;
    assert_non_null(strstr(verdict, "Other water would help first."));
    assert_null(strstr(verdict, "tried below"));
}

/* All the hay there is holds 9 ppm, and 5 are the most of a diet: not hunger, but the toxin. */
static void a_winter_that_a_toxin_makes_short_says_so(void **state) {
    HandQuestion *hand = hand_november(*state);
    hand_offer(hand, "Hay", 0.20)->eaten[NUTRIENT_DON] = 9.0;
    hand_group(hand, "Cows", 10, 12.0, 30);
    hand_nutrient_limit(hand, "Deoxynivalenol of the whole diet", NUTRIENT_DON, 2.0, 5.0);
    const Report *report = hand_report(*state, hand);
    assert_int_equal(report->verdict_severity, SEVERITY_DANGER);
    assert_non_null(strstr(report->verdict, "held down by: Deoxynivalenol of the whole diet, "
                                            "at most 5.00 ppm"));
}

/* 18 Mcal are 15 kg of hay, and 12 are all they can eat: they were once told to buy hay. */
static void cattle_that_eat_all_they_can_are_not_said_to_want_hay(void **state) {
    HandQuestion *hand = hand_november(*state);
    hand_offer(hand, "Hay", 0.20);
    hand_group(hand, "Cows", 10, 18.0, 30);
    const Report *report = hand_report(*state, hand);
    assert_null(strstr(report->verdict, "middling hay"));
    assert_non_null(strstr(report->verdict, "More of the same does not help Cows, who eat all "
                                            "they can and still lack energy"));
    assert_null(strstr(report->verdict, "less gain"));
}

/* 3,680 kg are 3,577 Mcal where 3,600 are wanted: 22 kg of hay are not what a winter lacks. */
static void a_few_pounds_of_hay_are_not_said_to_be_missing(void **state) {
    HandQuestion *hand = hand_november(*state);
    hand_offer(hand, "Hay", 0.20)->available_kg = 3680.0;
    hand_group(hand, "Cows", 10, 12.0, 30);
    const Report *report = hand_report(*state, hand);
    assert_int_equal(report->verdict_severity, SEVERITY_DANGER);
    assert_null(strstr(report->verdict, "middling hay"));
}

static void a_winter_short_of_hay_alone_blames_no_limit(void **state) {
    HandQuestion *hand = hand_november(*state);
    hand_offer(hand, "Hay", 0.20)->available_kg = 2000.0;
    hand_group(hand, "Cows", 10, 12.0, 30);
    hand_nitrate_limit(hand, 0.5);
    const Report *report = hand_report(*state, hand);
    assert_null(strstr(report->verdict, "held down"));
    /* 300 cow-days of 12 Mcal less 1,620 kg of hay of 1.2: 1,656 Mcal, of 1.2 in 0.88 */
    assert_non_null(strstr(report->verdict, "about 1.6 t of middling hay"));
}

/* 10 t are there, 3.7 t are fed: no 90 t of dry matter can be left. */
static void a_herd_that_is_fed_is_called_balanced_when_only_the_carry_over_lacks(void **state) {
    HandQuestion *hand = hand_november(*state);
    static const Stack LOOSE = {.loss_is_users = true, .waste_is_users = true};
    hand->farm.inventory.stacks.stacks = &LOOSE;
    hand_own(hand, "Hay", 0.10, 10000.0);
    hand_group(hand, "Cows", 10, 12.0, 30);
    hand->farm.winter.carry_over_kg = 90000.0;
    const Report *report = hand_report(*state, hand);
    assert_non_null(strstr(report->verdict, "Every group is balanced to 30 Nov 2026, but"));
    assert_non_null(strstr(report->verdict, "The carry-over wanted is short by"));
    assert_null(strstr(report->verdict, "does not balance the herd"));
}

/* Half grain at 10 cents, half hay at 20, 10 kg of both: one per cent more grain is 0.1 kg. */
static void the_price_of_a_share_is_that_of_one_per_cent(void **state) {
    HandQuestion *hand = hand_november(*state);
    hand_offer(hand, "Hay", 0.20);
    hand_offer(hand, "Barley", 0.10);
    hand->stuffs[1].feed_class = FEED_CLASS_GRAIN;
    hand_group(hand, "Cows", 10, 12.0, 30);
    hand_feeds_limit(hand, "grain_share", LIMIT_SHARE, "grain", 0.5, 0.5);
    const Report *report = hand_report(*state, hand);
    assert_near(price_in_figures(report, "grain_share"), -0.1 * 0.10 / 0.81, 1e-7);
}

/* Coarse hay of 80 % NDF at 10 cents, fine of 40 % at 20: room for a kilogram more of NDF
 * turns 2.5 kg of fine hay into coarse. */
static void a_limit_on_how_much_is_said_to_save(void **state) {
    HandQuestion *hand = hand_november(*state);
    hand_offer(hand, "Coarse hay", 0.10)->eaten[NUTRIENT_NDF] = 80.0;
    hand_offer(hand, "Fine hay", 0.20)->eaten[NUTRIENT_NDF] = 40.0;
    hand_group(hand, "Cows", 10, 12.0, 30)->need.ndf_most_kg = 6.0;
    const Report *report = hand_report(*state, hand);
    assert_true(report_says(report, "NDF (fill): room for one kg more would save $0.31"));
}

static void what_no_column_tells_of_is_named_as_not_watched(void **state) {
    HandQuestion *hand = hand_november(*state);
    hand_offer(hand, "Hay", 0.20);
    hand_group(hand, "Cows", 10, 12.0, 30);
    hand_nitrate_limit(hand, 0.5);
    const char *const labels[] = {"Ergot; cows", "Ergot; calves", "Mould"};
    for (int i = 0; i < 3; i++)
        hand_limit(hand, (SafetyLimit){.id = labels[i],
                                       .label = labels[i],
                                       .kind = LIMIT_EACH_FEED,
                                       .subject = SUBJECT_NOT_WATCHED,
                                       .stages = STAGE_ALL});
    hand_limit(hand, (SafetyLimit){.id = "bunk", .label = "Bunk", .kind = LIMIT_FACILITY});
    assert_true(report_says(hand_report(*state, hand),
                            "no column of the files tells of it: Ergot; Mould; Bunk."));
}

/* Straw is not known too, but is in no ration. */
static void what_is_not_known_of_a_feed_fed_and_held_under_a_most_is_named(void **state) {
    HandQuestion *hand = hand_november(*state);
    hand_offer(hand, "Hay", 0.20)->eaten[NUTRIENT_MOLYBDENUM] = (double)NAN;
    hand_offer(hand, "Straw", 0.90)->eaten[NUTRIENT_MOLYBDENUM] = (double)NAN;
    hand_group(hand, "Cows", 10, 12.0, 30);
    hand_nutrient_limit(hand, "molybdenum_most", NUTRIENT_MOLYBDENUM, 2.0, 5.0);
    assert_true(
        report_says(hand_report(*state, hand), "held under a most: Molybdenum (of 1 feed)."));
}

static const char *fact_with(Arena *arena, const HandQuestion *hand, const char *part) {
    const WinterPlan plan = plan_winter(arena, &hand->question);
    const Caution *cautions;
    const int count = plan_cautions(arena, &plan, UNITS_METRIC, &cautions);
    for (int i = 0; i < count; i++) {
        if (strstr(cautions[i].fact, part))
            return cautions[i].fact;
    }
    fail_msg("no caution says %s", part);
    return "";
}

/* Cows of 500 kg eat 10 kg of it, twice their line; bulls of 900 kg eat 12, a third more than
 * theirs. The most kilograms were once told as the worst, with the bulls' limit for the cows.
 */
static void the_worst_of_a_limit_by_weight_is_the_one_furthest_past_its_own_line(void **state) {
    HandQuestion *hand = hand_november(*state);
    hand_offer(hand, "Barley", 0.20);
    hand->stuffs[0].feed_class = FEED_CLASS_GRAIN;
    hand_group(hand, "Cows", 10, 12.0, 30)->need.live_weight = (Mass){500.0};
    hand_group(hand, "Bulls", 10, 14.4, 30)->need.live_weight = (Mass){900.0};
    hand_feeds_limit(hand, "Grain a head and day", LIMIT_WEIGHT_SHARE, "grain", 0.01, 0.03);
    assert_string_equal(fact_with(*state, hand, "Grain a head and day"),
                        "all groups: Grain a head and day, 10.0 kg of dry matter eaten at the "
                        "worst, Cows from 1 Nov (by their weight, caution from 5.0 kg, limit "
                        "15.0 kg)");
}

/* 500 kg may have 150 g of the cheaper feed. In tenths of a kilogram it read as 0.1 of 0.1. */
static void a_limit_of_a_handful_is_told_in_grams(void **state) {
    HandQuestion *hand = hand_november(*state);
    hand_offer(hand, "Barley", 0.10);
    hand_offer(hand, "Hay", 0.20);
    hand->stuffs[0].feed_class = FEED_CLASS_GRAIN;
    hand_group(hand, "Cows", 10, 12.0, 30)->need.live_weight = (Mass){500.0};
    hand_feeds_limit(hand, "Grain a head and day", LIMIT_WEIGHT_SHARE, "grain", 0.0001, 0.0003);
    assert_string_equal(fact_with(*state, hand, "Grain a head and day"),
                        "Cows: Grain a head and day, 150 g of dry matter eaten at the worst, "
                        "from 1 Nov (caution from 50 g, limit 150 g)");
}

static void a_feed_kept_from_cattle_that_pick_is_said_to_be_for_that(void **state) {
    HandQuestion *hand = hand_november(*state);
    hand_own(hand, "Greenfeed", 0.10, 1000.0);
    hand->stuffs[0].nitrate_for_safety = 0.86;
    hand_offer(hand, "Hay", 0.20);
    hand_group(hand, "Cows", 10, 12.0, 30);
    SafetyLimit *limit = hand_nitrate_limit(hand, 0.5);
    hand->farm.limits.count = 0;
    hand_bar(hand, 0, 0, limit);
    assert_null(strstr(fact_with(*state, hand, "is kept from"), "because"));
    limit->condition = CONDITION_NOT_MIXED;
    assert_non_null(strstr(fact_with(*state, hand, "is kept from"),
                           "in any one feed is 0.50 %, because they are not fed mixed"));
}

/* Feeds kept out come before the water, which must not be crowded out. */
static void no_caution_is_lost_on_a_large_farm(void **state) {
    enum { FEEDS = 450 };
    HandQuestion *hand = hand_november(*state);
    hand_own(hand, "Greenfeed", 0.10, 1000.0);
    hand_group(hand, "Cows", 10, 12.0, 30);
    const SafetyLimit *limit = hand_nitrate_limit(hand, 0.5);
    hand->farm.winter.sulfate_is_assumed = hand->farm.winter.solids_are_known = true;
    PlanFeed *feeds = ARENA_ARRAY(*state, PlanFeed, FEEDS);
    Permission *permission = ARENA_ARRAY(*state, Permission, FEEDS);
    const SafetyLimit **barred_by = ARENA_ARRAY(*state, const SafetyLimit *, FEEDS);
    for (int f = 0; f < FEEDS; f++) {
        feeds[f] = hand->feeds[0];
        permission[f] = OVER_A_LIMIT;
        barred_by[f] = limit;
    }
    PlanQuestion question = hand->question;
    question.feeds = feeds;
    question.permission = permission;
    question.barred_by = barred_by;
    question.feed_count = question.own_count = FEEDS;
    const BlockOutcome block = {
        .eaten = ARENA_ARRAY(*state, double, FEEDS), .filling_kg = 10.0, .intake_least = 9.0};
    const WinterPlan plan = {.question = &question,
                             .blocks = &block,
                             .taken_kg = ARENA_ARRAY(*state, double, FEEDS)};
    const Caution *cautions;
    int barred = 0;
    int water = 0;
    const int count = plan_cautions(*state, &plan, UNITS_METRIC, &cautions);
    for (int i = 0; i < count; i++) {
        barred += strstr(cautions[i].fact, "is kept from") != NULL;
        water += strcmp(cautions[i].topic, "water") == 0;
    }
    assert_int_equal(barred, FEEDS);
    assert_int_equal(water, 1);
}

/* The cell of a table by its column's key, in the row that begins with a name. */
static Cell cell_of(const Report *report, const char *table, const char *row_name,
                    const char *column) {
    for (const ReportSection *section = report->first; section; section = section->next) {
        for (const ReportPiece *piece = section->first; piece; piece = piece->next) {
            if (piece->kind != PIECE_TABLE || strcmp(piece->table->key, table) != 0)
                continue;
            for (const ReportRow *row = piece->table->first; row; row = row->next) {
                for (int c = 0; c < piece->table->column_count; c++) {
                    if (row->cells[0].text && strcmp(row->cells[0].text, row_name) == 0 &&
                        strcmp(piece->table->columns[c].key, column) == 0)
                        return row->cells[c];
                }
            }
        }
    }
    fail_msg("no %s of %s in %s", column, row_name, table);
    return empty_cell();
}

/* Hay at 100 a tonne; the same at 120, and at 100.3, which is shown as 100 too: it is not said
 * to come in below what is asked for it. */
static void a_price_that_comes_in_at_what_is_asked_is_not_shown_as_lower(void **state) {
    HandQuestion *hand = hand_november(*state);
    hand_offer(hand, "Hay", 0.10);
    hand_offer(hand, "Dear hay", 0.12);
    hand_offer(hand, "Near hay", 0.1003);
    hand_group(hand, "Cows", 10, 12.0, 30);
    const Report *report = hand_report(*state, hand);
    assert_near(cell_of(report, "near_misses", "Dear hay", "price_that_enters").number, 100.0,
                1e-3);
    assert_string_equal(cell_of(report, "near_misses", "Near hay", "price_that_enters").text,
                        "about that price");
}

/* Filled by 9 kg, 10.8 Mcal, a cow of 6 Mcal keeps 4.8 a day: 288 in 60 days, well over the 125
 * of half a score at 600 kg (249 from 4 to 5). One that needs what fills her keeps none. */
static void mature_cattle_that_put_on_flesh_nobody_asked_for_are_cautioned(void **state) {
    for (int fat = 0; fat < 2; fat++) {
        HandQuestion *hand = hand_november(*state);
        hand_offer(hand, "Hay", 0.10);
        hand_group(hand, "Cows", 10, fat ? 6.0 : 10.8, 60);
        hand->groups[0].weight = (Mass){600.0};
        hand->groups[0].condition = 5.0;
        const WinterPlan plan = plan_winter(*state, &hand->question);
        const Caution *cautions;
        const int count = plan_cautions(*state, &plan, UNITS_METRIC, &cautions);
        bool is_told = false;
        for (int i = 0; i < count; i++)
            is_told |= strstr(cautions[i].fact, "Cows put on flesh") != NULL;
        assert_int_equal(is_told, fat);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(mature_cattle_that_put_on_flesh_nobody_asked_for_are_cautioned),
        UNIT_TEST(a_winter_that_the_water_makes_short_says_so),
        UNIT_TEST(a_winter_held_down_by_the_water_is_told_of_other_water_first),
        UNIT_TEST(a_plan_in_brief_points_at_nothing_that_only_the_whole_plan_has),
        UNIT_TEST(a_winter_that_a_toxin_makes_short_says_so),
        UNIT_TEST(a_few_pounds_of_hay_are_not_said_to_be_missing),
        UNIT_TEST(a_winter_short_of_hay_alone_blames_no_limit),
        UNIT_TEST(cattle_that_eat_all_they_can_are_not_said_to_want_hay),
        UNIT_TEST(the_worst_of_a_limit_by_weight_is_the_one_furthest_past_its_own_line),
        UNIT_TEST(a_limit_of_a_handful_is_told_in_grams),
        UNIT_TEST(a_feed_kept_from_cattle_that_pick_is_said_to_be_for_that),
        UNIT_TEST(a_herd_that_is_fed_is_called_balanced_when_only_the_carry_over_lacks),
        UNIT_TEST(the_price_of_a_share_is_that_of_one_per_cent),
        UNIT_TEST(a_limit_on_how_much_is_said_to_save),
        UNIT_TEST(what_no_column_tells_of_is_named_as_not_watched),
        UNIT_TEST(what_is_not_known_of_a_feed_fed_and_held_under_a_most_is_named),
        UNIT_TEST(no_caution_is_lost_on_a_large_farm),
        UNIT_TEST(a_price_that_comes_in_at_what_is_asked_is_not_shown_as_lower),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
