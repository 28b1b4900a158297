/* Own figures as the page tells them. */
#include "outcome/own_need_words.h"
#include "support/hand_question.h"
#include "support/unit.h"

static const OwnNeed OWN[] = {
    {.kind = NEED_INTAKE_MOST, .need = "dry_matter_most", .value = 28.0 * 0.45359237},
    {.kind = NEED_NEM, .need = "net_energy_maintenance", .value = 13.14},
    {.kind = NEED_PROTEIN, .need = "metabolizable_protein", .value = 680.0, .group = 1},
    {.kind = NEED_CONCENTRATION, .nutrient = NUTRIENT_COPPER, .need = "copper", .value = 15.0},
};

static Farm farm_with_figures(void) {
    return (Farm){.own_needs = {OWN, sizeof OWN / sizeof OWN[0]}};
}

/* 28 lb in the file are 28 lb on an imperial page; they used to be 12.701 kg there too. */
static void own_figures_are_told_in_the_units_of_the_page(void **state) {
    const Farm farm = farm_with_figures();
    assert_string_equal(own_need_words(*state, &farm, UNITS_IMPERIAL, 0),
                        "dry matter at most 28 lb; net energy for maintenance, cold and all, "
                        "13.14 Mcal; Copper of the diet at least 15 ppm");
    assert_string_equal(own_need_words(*state, &farm, UNITS_METRIC, 0),
                        "dry matter at most 12.7 kg; net energy for maintenance, cold and all, "
                        "13.14 Mcal; Copper of the diet at least 15 ppm");
    assert_string_equal(own_need_words(*state, &farm, UNITS_METRIC, 1),
                        "metabolizable protein 680 g");
    assert_string_equal(own_need_words(*state, &farm, UNITS_METRIC, 2), "");
}

/* Of two periods the one that is farther off is told; without a figure of its own none is. */
static void another_gain_than_the_herd_file_asks_for_is_told(void **state) {
    HandQuestion *hand = hand_question(*state, 60);
    PlanBlock *early = hand_group(hand, "Heifers", 10, 6.0, 30);
    PlanBlock *late = hand_period(hand, 6.0, 30);
    early->need.gain.kg_per_day = late->need.gain.kg_per_day = 0.60;
    const BlockOutcome blocks[] = {{.gain_kg = 0.56}, {.gain_kg = 0.50}};
    const WinterPlan plan = {.question = &hand->question, .blocks = blocks};
    assert_string_equal(own_gain_words(*state, &plan, UNITS_METRIC, 0), "");
    early->need.own_kinds = late->need.own_kinds = NEED_BIT(NEED_NEG);
    assert_string_equal(own_gain_words(*state, &plan, UNITS_METRIC, 0),
                        " On the energy for gain they gain 0.50 kg a day from 1 Dec 2026, "
                        "where the herd file asks for 0.60; their weights in later periods "
                        "still follow the herd file.");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(own_figures_are_told_in_the_units_of_the_page),
        UNIT_TEST(another_gain_than_the_herd_file_asks_for_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
