/* What is shown of needs. The winters are those of support/hand_question.h. */
#include "outcome/needs_report.h"
#include "support/hand_question.h"
#include "support/unit.h"

#include <string.h>

/* -10 C that feel like -20 with the wind. */
static HandQuestion *windy_november(Arena *arena, ColdWay way) {
    HandQuestion *hand = hand_question(arena, 30);
    PlanBlock *block = hand_group(hand, "Cows", 10, 12.0, 30);
    block->need.air.celsius = -10.0;
    block->need.felt.celsius = way == COLD_BY_MODEL ? -10.0 : -20.0;
    hand->farm.weather.cold_way = way;
    return hand;
}

/* The row of the table of that key; NULL when it has none of that label. */
static const Cell *row_in(Arena *arena, const HandQuestion *hand, const char *key,
                          const char *label) {
    const Report *report = needs_report(arena, &hand->question, UNITS_METRIC);
    for (const ReportSection *section = report->first; section; section = section->next) {
        for (const ReportPiece *piece = section->first; piece; piece = piece->next) {
            if (piece->kind != PIECE_TABLE || strcmp(piece->table->key, key) != 0)
                continue;
            for (const ReportRow *row = piece->table->first; row; row = row->next) {
                if (strcmp(row->cells[0].text, label) == 0)
                    return row->cells;
            }
        }
    }
    return NULL;
}

static const Cell *row_of(Arena *arena, const HandQuestion *hand, const char *label) {
    return row_in(arena, hand, "needs", label);
}

static bool says(Arena *arena, const HandQuestion *hand, const char *words) {
    const Report *report = needs_report(arena, &hand->question, UNITS_METRIC);
    for (const ReportSection *section = report->first; section; section = section->next) {
        for (const ReportPiece *piece = section->first; piece; piece = piece->next) {
            if (piece->kind == PIECE_PARAGRAPH && strstr(piece->text, words))
                return true;
        }
    }
    return false;
}

static void by_the_coat_table_the_cold_felt_with_wind_has_a_row(void **state) {
    const Cell *row =
        row_of(*state, windy_november(*state, COLD_BY_TABLE), "Felt, with wind, C");
    assert_non_null(row);
    if (row)
        assert_near(row[1].number, -20.0, 1e-9);
}

/* It reckons with the wind itself: a row of what is felt would say the air again. */
static void by_the_heat_balance_no_cold_felt_with_wind_is_shown(void **state) {
    const HandQuestion *hand = windy_november(*state, COLD_BY_MODEL);
    assert_null(row_of(*state, hand, "Felt, with wind, C"));
    assert_non_null(row_of(*state, hand, "Air, C"));
}

/* A cow of 600 kg, 576 shrunk: 576^0.75 = 117.6, and 1.1^0.75 = 1.0741 of it a tenth heavier.
 * In a summer coat, critical at 59 F, 0 C are 27 F too cold: 0.077 x 117.6 x 0.0741 x 1.27 =
 * 0.852. */
static void what_a_tenth_more_weight_would_cost_is_told(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    hand_group(hand, "Cows", 10, 12.0, 30);
    const Cell *row = row_in(*state, hand, "changes", "a tenth heavier");
    assert_non_null(row);
    if (row) {
        assert_near(row[1].number, 0.852, 0.001);
        assert_near(row[2].number, 0.0, 1e-12);
        assert_near(row[3].number, 3.8 * 117.6 * 0.0741, 0.05);
    }
}

/* 260 kg and 29 days at 0.7 kg are 280 kg, 47 % of 600; at breeding 60 % are wanted. */
static void heifers_are_told_how_much_of_their_grown_weight_they_come_to(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    hand_group(hand, "Heifers", 10, 7.0, 30);
    hand->groups[0].cattle_class = CATTLE_REPLACEMENT_HEIFER;
    hand->groups[0].weight = (Mass){260.0};
    hand->groups[0].mature_weight = (Mass){600.0};
    hand->groups[0].gain = (FeedRate){0.7};
    assert_true(
        says(*state, hand, "280 kg on 30 Nov 2026, 47 % of what they weigh grown; 60 %"));
    hand->groups[0].cattle_class = CATTLE_STEER;
    assert_false(says(*state, hand, "of what they weigh grown"));
}

static void the_strictest_line_of_a_mineral_is_its_most(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    hand_group(hand, "Cows", 10, 12.0, 30);
    assert_false(says(*state, hand, "Most in it"));
    hand_nitrate_limit(hand, 40.0)->nutrient = NUTRIENT_COPPER;
    hand_nitrate_limit(hand, 30.0)->nutrient = NUTRIENT_COPPER;
    hand_nitrate_limit(hand, 0.5); /* no mineral */
    assert_true(says(*state, hand, "with what the water brings: Copper 30 ppm."));
}

static void what_no_ration_is_held_to_is_told_all_the_same(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    hand_group(hand, "Cows", 10, 12.0, 30);
    hand->minerals.guide[NUTRIENT_VITAMIN_E] = 35.0;
    hand->minerals.told[NUTRIENT_IRON] = 50.0;
    assert_true(
        says(*state, hand, "no ration is held to them: Iron 50 ppm, Vitamin E 35 IU/kg."));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(by_the_coat_table_the_cold_felt_with_wind_has_a_row),
        UNIT_TEST(what_a_tenth_more_weight_would_cost_is_told),
        UNIT_TEST(heifers_are_told_how_much_of_their_grown_weight_they_come_to),
        UNIT_TEST(the_strictest_line_of_a_mineral_is_its_most),
        UNIT_TEST(what_no_ration_is_held_to_is_told_all_the_same),
        UNIT_TEST(by_the_heat_balance_no_cold_felt_with_wind_is_shown),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
