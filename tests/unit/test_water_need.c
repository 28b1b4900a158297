/* Water by class, weight and month, against the printed table [MSU_WATER] in US gallons. */
#include "cattle/water_need.h"
#include "support/unit.h"

#define LITRES 3.785411784

static double gallons(WaterClass water_class, double pounds, double fahrenheit) {
    return water_need_l(water_class, (Mass){pounds * KG_PER_POUND},
                        (Temperature){celsius_from_fahrenheit(fahrenheit)}) /
           LITRES;
}

static void the_printed_rows_come_out(void **state) {
    (void)state;
    assert_near(gallons(WATER_NURSING_COW, 1300, 40), 11.5, 1e-9);
    assert_near(gallons(WATER_DRY_COW, 1300, 64), 8.0, 1e-9);
    assert_near(gallons(WATER_BULL, 2000, 52), 9.0, 1e-9);
    assert_near(gallons(WATER_GROWING, 400, 50), 4.5, 1e-9);
    assert_near(gallons(WATER_GROWING, 800, 90), 15.0, 1e-9);
}

/* 13.0 + (57 - 52) / (64 - 52) x 2.5; the worked example of docs/equations/water.md */
static void between_two_months_the_line_is_straight(void **state) {
    (void)state;
    assert_near(gallons(WATER_NURSING_COW, 1300, 57), 13.0 + 5.0 / 12.0 * 2.5, 1e-9);
}

static void between_two_weights_the_line_is_straight(void **state) {
    (void)state;
    assert_near(gallons(WATER_GROWING, 500, 40), 4.75, 1e-9); /* of 4.0 and 5.5 */
    assert_near(gallons(WATER_GROWING, 1000, 40), 7.5, 1e-9); /* 6.5 and one step of 1.0 */
    assert_near(gallons(WATER_GROWING, 100, 40), 2.0, 1e-9);  /* half of 4.0 */
}

static void colder_than_40_f_is_as_at_40_f(void **state) {
    (void)state;
    assert_near(gallons(WATER_DRY_COW, 1300, -20), 6.0, 1e-9);
    assert_near(gallons(WATER_NURSING_COW, 1300, 36), 11.5, 1e-9);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(the_printed_rows_come_out),
        UNIT_TEST(between_two_months_the_line_is_straight),
        UNIT_TEST(between_two_weights_the_line_is_straight),
        UNIT_TEST(colder_than_40_f_is_as_at_40_f),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
