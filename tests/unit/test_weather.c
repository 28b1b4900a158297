#include "cattle/weather_spread.h"
#include "support/own_tables.h"
#include "support/told.h"

static Weather parse(Arena *arena, Faults *faults, const char *bytes, size_t length) {
    const EmbeddedFile *normals = own_table("climate-normals.csv");
    return weather_parse(arena, faults, normals->bytes, normals->length, "weather.csv", bytes,
                         length);
}

static void read_weather(Arena *arena, Faults *faults, const char *bytes, size_t length) {
    parse(arena, faults, bytes, length);
}

/* As the farm is read: the winter runs from November to the middle of June. */
static void read_and_check(Arena *arena, Faults *faults, const char *bytes, size_t length) {
    const Weather weather = parse(arena, faults, bytes, length);
    weather_check(faults, "weather.csv", &weather, calendar_day(2026, 11, 1),
                  calendar_day(2027, 6, 15));
}

#define TOLD_READER read_weather
#define HEAD "month,mean_temperature_c,cold_spell_temperature_c,wind_km_per_h,wet_days\n"

static Weather read_plain(void **state, const char *bytes) {
    Faults faults = faults_new(*state);
    const Weather weather = parse(*state, &faults, bytes, bytes ? strlen(bytes) : 0);
    assert_string_equal(unit_faults(&faults, *state), "");
    return weather;
}

static void without_a_file_the_normals_stand(void **state) {
    const Weather weather = read_plain(state, NULL);
    /* Regina in January, climate-normals.csv */
    assert_near(weather.month[1].mean.celsius, -13.9, 1e-9);
    assert_near(weather.month[1].cold_spell.celsius, -27.5, 1e-9);
    assert_false(weather.month[1].is_users);
    assert_true(weather.is_known[11] && !weather.is_known[7]);
    assert_string_equal(weather.normals_station, DEFAULT_STATION);
}

static void a_month_of_the_farm_takes_the_place_of_the_normal(void **state) {
    const Weather weather = read_plain(state, HEAD "1,-18,-36,16,3\n");
    assert_near(weather.month[1].mean.celsius, -18, 1e-9);
    assert_near(weather.month[1].cold_spell.celsius, -36, 1e-9);
    assert_near(weather.month[1].wind.km_per_hour, 16, 1e-9);
    assert_near(weather.month[1].wet_share, 3 / 30.4, 1e-9);
    assert_true(weather.month[1].is_users);
    assert_false(weather.month[2].is_users);
}

static void fahrenheit_and_miles_are_brought_into_own_units(void **state) {
    const Weather weather = read_plain(
        state, "Month,Mean temperature F,Cold spell temperature F,Wind mph\n1,5,-31,10\n");
    assert_near(weather.month[1].mean.celsius, -15, 1e-9);
    assert_near(weather.month[1].cold_spell.celsius, -35, 1e-9);
    assert_near(weather.month[1].wind.km_per_hour, 16.09344, 1e-9);
}

static void a_cold_spell_left_out_is_as_far_below_the_mean_as_usual(void **state) {
    const Weather weather = read_plain(state, HEAD "1,-18,,,\n");
    assert_near(weather.month[1].cold_spell.celsius, -18 - 13.6, 1e-9); /* -13.9 to -27.5 */
    assert_near(weather.month[1].wind.km_per_hour, 18, 1e-9);           /* of the normal */
}

static void a_cold_spell_warmer_than_the_mean_is_a_fault(void **state) {
    assert_told(HEAD "1,-18,^-12,16,3\n", "are they swapped?");
}

static void a_month_that_is_none_or_there_twice_is_a_fault(void **state) {
    assert_told(HEAD "^13,-18,,,\n^0,-18,,,\n^1.5,-18,,,\n^Jan,-18,,,\n^,-18,,,\n",
                "outside 1 to 12", "outside 1 to 12", "not a whole number", "is not a number",
                "needed");
    assert_told(HEAD "1,-18,,,\n^1,-17,,,\n", "keep one of the lines");
    assert_told(HEAD "1,^,,,\n", "needed");
}

static void degrees_of_the_other_scale_are_doubted(void **state) {
    assert_told(HEAD "1,^7,-20,,\n", "doubt: above the normal of Jan");
    assert_told("month,mean_temperature_f\n1,^-18\n", "doubt: below the normal of Jan");
    assert_told(HEAD "1,^60,,,\n", "outside -60 to 40");
}

static void a_months_wind_that_no_month_has_is_doubted(void **state) {
    assert_told(HEAD "1,-18,,^0,\n2,-14,,^65,\n", "doubt: is the unit right?",
                "doubt: is the unit right?");
    assert_told(HEAD "1,-18,,^-5,^40\n", "outside 0 to 100", "outside 0 to 31");
}

static void a_month_of_the_farm_without_a_normal_is_not_without_wind(void **state) {
    const Weather weather = read_plain(state, HEAD "6,16,,,\n");
    assert_true(weather.is_known[6]);
    assert_true(weather.month[6].wind.km_per_hour > 0.0);
    assert_true(weather.month[6].cold_spell.celsius < 16.0);
}

static void a_feeding_month_nobody_knows_is_told_once(void **state) {
    told_check(*state, read_and_check, "@" HEAD "1,-18,,,\n",
               (const char *const[]){"write a line each for month 6, as", NULL}, __FILE__,
               __LINE__);
    told_check(*state, read_and_check, HEAD "6,16,,,\n", (const char *const[]){NULL}, __FILE__,
               __LINE__);
}

static void two_whole_years_tell_a_missing_month_once(void **state) {
    Faults faults = faults_new(*state);
    const Weather weather = parse(*state, &faults, NULL, 0);
    weather_check(&faults, "weather.csv", &weather, calendar_day(2026, 6, 20),
                  calendar_day(2027, 6, 20));
    assert_string_equal(
        unit_faults(&faults, *state),
        "weather.csv: no weather is known for the feeding days of Jun, Jul, Aug and Sep: below "
        "the headings 'month,mean_temperature_c' write a line each for month 6, 7, 8 and 9, as "
        "in "
        "'6,16' for a mean of 16 degrees C\n");
}

static void muddy_days_become_a_share_of_the_month(void **state) {
    const Weather weather =
        read_plain(state, "month,mean_temperature_c,muddy_days\n4,4,15.2\n11,-4,31\n");
    assert_near(weather.month[4].muddy_share, 0.5, 1e-9);
    assert_near(weather.month[11].muddy_share, 1.0, 0.0);
    assert_near(weather.month[12].muddy_share, 0.0, 0.0);
}

static Weather with_spread(void **state, const char *bytes) {
    Faults faults = faults_new(*state);
    const EmbeddedFile *spread = own_table("climate-spread.csv");
    Weather weather = read_plain(state, bytes);
    weather_spread_read(*state, &faults, spread->bytes, spread->length, &weather);
    assert_string_equal(unit_faults(&faults, *state), "");
    return weather;
}

static void years_differ_as_published_unless_the_farm_knows_better(void **state) {
    const Weather weather = with_spread(
        state, "month,mean_temperature_c,mean_spread_c,persistence\n1,-15,5,\n2,-13,,0.5\n");
    assert_near(weather.month[1].mean_spread_c, 5.0, 0.0);
    assert_near(weather.month[1].persistence, 0.3, 0.0);
    assert_near(weather.month[2].mean_spread_c, 4.3, 0.0);
    assert_near(weather.month[2].persistence, 0.5, 0.0);
    assert_near(weather.month[11].mean_spread_c, 3.5, 0.0);
    assert_near(weather.month[7].mean_spread_c, UNKNOWN_MEAN_SPREAD_C, 0.0);
    assert_near(weather.turnout_spread_days, 10.0, 0.0);
}

static void a_spread_is_a_difference_in_either_scale(void **state) {
    const Weather weather =
        with_spread(state, "month,mean_temperature_f,mean_spread_f\n1,5,9\n");
    assert_near(weather.month[1].mean_spread_c, 5.0, 1e-9);
    assert_told("month,mean_temperature_c,mean_spread_c\n1,-15,^40\n", "40");
    assert_told("month,mean_temperature_c,persistence\n1,-15,^1\n", "1");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(without_a_file_the_normals_stand),
        UNIT_TEST(a_month_of_the_farm_takes_the_place_of_the_normal),
        UNIT_TEST(fahrenheit_and_miles_are_brought_into_own_units),
        UNIT_TEST(a_cold_spell_left_out_is_as_far_below_the_mean_as_usual),
        UNIT_TEST(a_cold_spell_warmer_than_the_mean_is_a_fault),
        UNIT_TEST(a_month_that_is_none_or_there_twice_is_a_fault),
        UNIT_TEST(degrees_of_the_other_scale_are_doubted),
        UNIT_TEST(a_months_wind_that_no_month_has_is_doubted),
        UNIT_TEST(a_month_of_the_farm_without_a_normal_is_not_without_wind),
        UNIT_TEST(a_feeding_month_nobody_knows_is_told_once),
        UNIT_TEST(two_whole_years_tell_a_missing_month_once),
        UNIT_TEST(muddy_days_become_a_share_of_the_month),
        UNIT_TEST(years_differ_as_published_unless_the_farm_knows_better),
        UNIT_TEST(a_spread_is_a_difference_in_either_scale),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
