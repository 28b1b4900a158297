#include "outcome/measure.h"

#include "support/unit.h"

static void a_kilogram_is_shown_in_pounds(void **state) {
    (void)state;
    /* the international pound is 0.45359237 kg by definition */
    assert_near(measure_shown(UNITS_IMPERIAL, MEASURE_FEED, 0.45359237), 1, 1e-9);
    assert_near(measure_shown(UNITS_METRIC, MEASURE_FEED, 0.45359237), 0.45359237, 1e-9);
    assert_string_equal(measure_unit(UNITS_IMPERIAL, MEASURE_FEED), "lb");
    assert_string_equal(measure_unit(UNITS_METRIC, MEASURE_FEED), "kg");
}

static void a_ton_is_two_thousand_pounds_and_a_tonne_a_thousand_kilograms(void **state) {
    (void)state;
    assert_near(measure_shown(UNITS_IMPERIAL, MEASURE_TONNAGE, 2000 * 0.45359237), 1, 1e-9);
    assert_near(measure_shown(UNITS_METRIC, MEASURE_TONNAGE, 1000), 1, 1e-9);
}

/* Fed by the pound and bought by the tonne. */
static void
mixed_units_take_pounds_for_what_is_fed_and_tonnes_for_what_lies_there(void **state) {
    assert_string_equal(measure_words(*state, UNITS_MIXED, MEASURE_FEED, 0.45359237), "1.0 lb");
    assert_string_equal(measure_words(*state, UNITS_MIXED, MEASURE_WEIGHT, 453.59237),
                        "1,000 lb");
    assert_string_equal(measure_words(*state, UNITS_MIXED, MEASURE_TONNAGE, 61500), "61.5 t");
    assert_string_equal(measure_unit(UNITS_MIXED, MEASURE_PRICE), "per t");
    assert_string_equal(measure_unit(UNITS_MIXED, MEASURE_TEMPERATURE), "C");
}

static void a_price_per_ton_is_less_than_per_tonne(void **state) {
    (void)state;
    /* 100 dollars a tonne are 0.10 a kg and 90.718474 a ton of 907.18474 kg */
    assert_near(measure_shown(UNITS_METRIC, MEASURE_PRICE, 0.10), 100, 1e-9);
    assert_near(measure_shown(UNITS_IMPERIAL, MEASURE_PRICE, 0.10), 90.718474, 1e-9);
}

static void energy_of_a_pound_is_less_than_of_a_kilogram(void **state) {
    (void)state;
    assert_near(measure_shown(UNITS_IMPERIAL, MEASURE_ENERGY_DENSITY, 1), 0.45359237, 1e-9);
}

static void minus_forty_is_the_same_in_both_scales(void **state) {
    (void)state;
    assert_near(measure_shown(UNITS_IMPERIAL, MEASURE_TEMPERATURE, -40), -40, 1e-9);
    assert_near(measure_shown(UNITS_IMPERIAL, MEASURE_TEMPERATURE, 100), 212, 1e-9);
    assert_near(measure_shown(UNITS_METRIC, MEASURE_TEMPERATURE, -40), -40, 1e-9);
}

static void grams_become_ounces_and_pounds(void **state) {
    (void)state;
    /* 28.349523125 g are an ounce, a sixteenth of a pound */
    assert_near(measure_shown(UNITS_METRIC, MEASURE_SMALL_FEED, 0.028349523125), 28.349523125,
                1e-9);
    assert_near(measure_shown(UNITS_IMPERIAL, MEASURE_SMALL_FEED, 0.028349523125), 1, 1e-9);
    assert_near(measure_shown(UNITS_IMPERIAL, MEASURE_PROTEIN, 453.59237), 1, 1e-9);
    assert_near(measure_shown(UNITS_IMPERIAL, MEASURE_MINERAL, 20), 20, 1e-9);
}

static void a_gallon_is_231_cubic_inches(void **state) {
    (void)state;
    const double litres_per_cubic_inch = 0.0254 * 0.0254 * 0.0254 * 1000;
    assert_near(measure_shown(UNITS_IMPERIAL, MEASURE_WATER, 231 * litres_per_cubic_inch), 1,
                1e-9);
}

static void tons_are_many_in_a_sentence_and_one_at_the_head_of_a_column(void **state) {
    const double kg = 7.5 * 2000 * 0.45359237;
    assert_string_equal(measure_words(*state, UNITS_IMPERIAL, MEASURE_TONNAGE, kg), "7.5 tons");
    assert_string_equal(measure_unit(UNITS_IMPERIAL, MEASURE_TONNAGE), "ton");
    assert_string_equal(measure_words(*state, UNITS_METRIC, MEASURE_TONNAGE, 7500), "7.5 t");
    assert_string_equal(measure_unit_of_words(UNITS_IMPERIAL, MEASURE_PRICE), "per ton");
}

static void a_few_bags_are_not_no_tonnes(void **state) {
    (void)state;
    assert_int_equal(tonnage_cell(UNITS_METRIC, 29.0).decimals, 3);
    assert_int_equal(tonnage_cell(UNITS_METRIC, 0.3).decimals, 6);
    assert_int_equal(tonnage_cell(UNITS_METRIC, 2900.0).decimals, 1);
    assert_int_equal(tonnage_cell(UNITS_METRIC, 0.0).decimals, 1);
    assert_near(tonnage_cell(UNITS_IMPERIAL, 907.18474).number, 1.0, 1e-12);
}

static void a_cell_carries_the_decimals_of_its_measure(void **state) {
    (void)state;
    const Cell cell = measure_cell(UNITS_IMPERIAL, MEASURE_PROTEIN, 453.59237);
    assert_int_equal(cell.kind, CELL_NUMBER);
    assert_int_equal(cell.decimals, measure_decimals(UNITS_IMPERIAL, MEASURE_PROTEIN));
    assert_near(cell.number, 1, 1e-9);
    assert_int_equal(measure_cell(UNITS_METRIC, MEASURE_FEED, NAN).kind, CELL_EMPTY);
    assert_int_equal(measure_cell(UNITS_IMPERIAL, MEASURE_TEMPERATURE, INFINITY).kind,
                     CELL_EMPTY);
}

static void words_of_a_measure_are_rounded_and_have_the_unit(void **state) {
    assert_string_equal(measure_words(*state, UNITS_METRIC, MEASURE_FEED, 1234.54),
                        "1,234.5 kg");
    assert_string_equal(measure_words(*state, UNITS_IMPERIAL, MEASURE_WEIGHT, 635.0293),
                        "1,400 lb");
    assert_string_equal(measure_words(*state, UNITS_METRIC, MEASURE_PERCENT, 12.54), "12.5%");
    assert_string_equal(measure_words(*state, UNITS_METRIC, MEASURE_TEMPERATURE, -0.4), "0 C");
    assert_string_equal(measure_words(*state, UNITS_METRIC, MEASURE_FEED, NAN), "not known");
}

static void money_has_its_minus_before_the_dollar(void **state) {
    assert_string_equal(money_words(*state, 12345, 0), "$12,345");
    assert_string_equal(money_words(*state, 1.5, 2), "$1.50");
    assert_string_equal(money_words(*state, -12.3, 2), "-$12.30");
    assert_string_equal(money_words(*state, -0.001, 2), "$0.00");
    assert_string_equal(money_words(*state, INFINITY, 2), "not known");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_kilogram_is_shown_in_pounds),
        UNIT_TEST(a_ton_is_two_thousand_pounds_and_a_tonne_a_thousand_kilograms),
        UNIT_TEST(mixed_units_take_pounds_for_what_is_fed_and_tonnes_for_what_lies_there),
        UNIT_TEST(a_price_per_ton_is_less_than_per_tonne),
        UNIT_TEST(energy_of_a_pound_is_less_than_of_a_kilogram),
        UNIT_TEST(minus_forty_is_the_same_in_both_scales),
        UNIT_TEST(grams_become_ounces_and_pounds),
        UNIT_TEST(a_gallon_is_231_cubic_inches),
        UNIT_TEST(tons_are_many_in_a_sentence_and_one_at_the_head_of_a_column),
        UNIT_TEST(a_few_bags_are_not_no_tonnes),
        UNIT_TEST(a_cell_carries_the_decimals_of_its_measure),
        UNIT_TEST(words_of_a_measure_are_rounded_and_have_the_unit),
        UNIT_TEST(money_has_its_minus_before_the_dollar),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
