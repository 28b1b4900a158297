/* Laws of cold: tables and heat balance. The numbers of the books are cases of tests/published.
 */
#include "cattle/cold_stress.h"
#include "cattle/maintenance.h"

#include "support/unit.h"

#define HAIR_BREADTH 1e-12 /* of the value: nothing but the last binary digits */

static bool is_same(double a, double b) {
    return fabs(a - b) <= HAIR_BREADTH * fmax(1.0, fabs(b));
}

static Temperature fahrenheit(double value) {
    return (Temperature){celsius_from_fahrenheit(value)};
}
static Speed miles_per_hour(double value) { return (Speed){value * KM_PER_MILE}; }

/* A dry cow of 566 kg on 12.7 lb TDN, 235 days with calf, clean, calm. */
static ColdBody clean_cow(void) {
    return (ColdBody){.shrunk = {566.0},
                      .metabolizable_intake = {20.83},
                      .retained = {0.59},
                      .condition_score_9 = 5.0,
                      .hair_cm = 2.0,
                      .wind = {1.6},
                      .mud = 1.0,
                      .hide = 1.0,
                      .is_yearling = false};
}

static void a_colder_month_before_never_needs_less(void **state) {
    (void)state;
    for (double celsius = -40.0; celsius < 40.0; celsius += 1.0) {
        assert_true(
            acclimatisation_energy((Mass){500.0}, (Temperature){celsius}).mcal_per_day >=
            acclimatisation_energy((Mass){500.0}, (Temperature){celsius + 1.0}).mcal_per_day);
    }
    assert_true(acclimatisation_energy((Mass){500.0}, (Temperature){20.0}).mcal_per_day == 0.0);
    assert_true(acclimatisation_energy((Mass){500.0}, (Temperature){30.0}).mcal_per_day == 0.0);
}

static void colder_air_never_feels_warmer(void **state) {
    (void)state;
    for (double mph = 0.0; mph <= 45.0; mph += 1.5) {
        for (double air = -50.0; air < 60.0; air += 1.0) {
            assert_true(wind_chill(fahrenheit(air), miles_per_hour(mph)).celsius <
                        wind_chill(fahrenheit(air + 1.0), miles_per_hour(mph)).celsius);
        }
    }
}

static void more_wind_never_feels_warmer(void **state) {
    (void)state;
    for (double air = -50.0; air <= 60.0; air += 1.0) {
        for (double mph = 0.0; mph < 45.0; mph += 0.5) {
            assert_true(wind_chill(fahrenheit(air), miles_per_hour(mph + 0.5)).celsius <=
                        wind_chill(fahrenheit(air), miles_per_hour(mph)).celsius + 1e-9);
        }
    }
}

static void calm_air_feels_as_it_is(void **state) {
    (void)state;
    for (double celsius = -45.0; celsius <= 15.0; celsius += 2.5) {
        assert_true(fabs(wind_chill((Temperature){celsius}, (Speed){0.0}).celsius - celsius) <
                    1e-9);
    }
}

static void a_storm_counts_as_thirty_miles(void **state) {
    (void)state;
    assert_true(is_same(wind_chill(fahrenheit(0.0), miles_per_hour(60.0)).celsius,
                        wind_chill(fahrenheit(0.0), miles_per_hour(30.0)).celsius));
}

/* -46 F at -10 F of air, slope 1 F per F between -10 and -5: -20 F feels like -56 F. */
static void below_the_table_its_slope_goes_on(void **state) {
    (void)state;
    const Temperature felt = wind_chill(fahrenheit(-20.0), miles_per_hour(30.0));
    assert_true(fabs(fahrenheit_from_celsius(felt.celsius) + 56.0) < 1e-9);
}

static void a_better_coat_and_more_flesh_never_need_warmer_air(void **state) {
    (void)state;
    for (int wet = 0; wet <= 1; wet++) {
        for (int coat = COAT_SUMMER; coat <= COAT_HEAVY; coat++) {
            for (double score = 1.0; score <= 9.0; score += 0.5) {
                const double here =
                    lower_critical_temperature((Coat)coat, wet == 1, score).celsius;
                assert_true(
                    lower_critical_temperature((Coat)coat, wet == 1, fmin(score + 0.5, 9.0))
                        .celsius <= here);
                assert_true(lower_critical_temperature((Coat)coat, true, score).celsius >=
                            here);
                if (coat < COAT_HEAVY) {
                    assert_true(
                        lower_critical_temperature((Coat)(coat + 1), wet == 1, score).celsius <
                        here);
                }
            }
        }
    }
}

static void flesh_steps_at_five_and_at_seven(void **state) {
    (void)state;
    const double thin = lower_critical_temperature(COAT_HEAVY, false, 4.99).celsius;
    const double average = lower_critical_temperature(COAT_HEAVY, false, 5.0).celsius;
    const double fleshy = lower_critical_temperature(COAT_HEAVY, false, 7.0).celsius;
    assert_true(thin > average && average > fleshy);
    assert_true(is_same(lower_critical_temperature(COAT_HEAVY, false, 6.99).celsius, average));
}

static void mild_air_adds_nothing(void **state) {
    (void)state;
    assert_true(cold_extra_share(fahrenheit(40.0), fahrenheit(19.0), true) == 0.0);
    assert_true(cold_extra_share(fahrenheit(19.0), fahrenheit(19.0), false) == 0.0);
}

static void wet_cattle_need_twice_the_extra(void **state) {
    (void)state;
    assert_true(is_same(cold_extra_share(fahrenheit(0.0), fahrenheit(19.0), true),
                        2.0 * cold_extra_share(fahrenheit(0.0), fahrenheit(19.0), false)));
}

static void the_heat_balance_never_needs_less_in_the_cold(void **state) {
    (void)state;
    const ColdBody cow = clean_cow();
    for (double celsius = -50.0; celsius < 20.0; celsius += 1.0) {
        assert_true(mechanistic_cold_energy(&cow, (Temperature){celsius}).mcal_per_day >=
                    mechanistic_cold_energy(&cow, (Temperature){celsius + 1.0}).mcal_per_day);
    }
    assert_true(mechanistic_cold_energy(&cow, (Temperature){20.0}).mcal_per_day == 0.0);
}

static void a_thin_or_dirty_or_windblown_cow_never_needs_less(void **state) {
    (void)state;
    const Temperature night = {-35.0};
    const ColdBody cow = clean_cow();
    const double clean = mechanistic_cold_energy(&cow, night).mcal_per_day;
    ColdBody thin = cow;
    thin.condition_score_9 = 3.0;
    ColdBody caked = cow;
    caked.mud = 0.2;
    ColdBody windblown = cow;
    windblown.wind = (Speed){24.0};
    assert_true(mechanistic_cold_energy(&thin, night).mcal_per_day > clean);
    assert_true(mechanistic_cold_energy(&caked, night).mcal_per_day > clean);
    assert_true(mechanistic_cold_energy(&windblown, night).mcal_per_day > clean);
}

static void a_gale_takes_the_coat_away_but_nothing_more(void **state) {
    (void)state;
    ColdBody cow = clean_cow();
    cow.hair_cm = 0.5;
    cow.wind = (Speed){60.0};
    assert_true(external_insulation(&cow) == 0.0);
    assert_true(isfinite(mechanistic_cold_energy(&cow, (Temperature){-30.0}).mcal_per_day));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_colder_month_before_never_needs_less),
        UNIT_TEST(colder_air_never_feels_warmer),
        UNIT_TEST(more_wind_never_feels_warmer),
        UNIT_TEST(calm_air_feels_as_it_is),
        UNIT_TEST(a_storm_counts_as_thirty_miles),
        UNIT_TEST(below_the_table_its_slope_goes_on),
        UNIT_TEST(a_better_coat_and_more_flesh_never_need_warmer_air),
        UNIT_TEST(flesh_steps_at_five_and_at_seven),
        UNIT_TEST(mild_air_adds_nothing),
        UNIT_TEST(wet_cattle_need_twice_the_extra),
        UNIT_TEST(the_heat_balance_never_needs_less_in_the_cold),
        UNIT_TEST(a_thin_or_dirty_or_windblown_cow_never_needs_less),
        UNIT_TEST(a_gale_takes_the_coat_away_but_nothing_more),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
