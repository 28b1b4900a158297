#include "cattle/winter.h"
#include "support/told.h"

static Winter parse(Arena *arena, Faults *faults, const char *bytes, size_t length) {
    return winter_parse(arena, faults, "winter.csv", bytes, length);
}

static void read_winter(Arena *arena, Faults *faults, const char *bytes, size_t length) {
    parse(arena, faults, bytes, length);
}

#define TOLD_READER read_winter
#define DAYS "setting,value\nfirst_day,2026-11-01\nlast_day,2027-05-15\n"

static Winter read_plain(void **state, const char *bytes) {
    Faults faults = faults_new(*state);
    const Winter winter = parse(*state, &faults, bytes, strlen(bytes));
    assert_string_equal(unit_faults(&faults, *state), "");
    return winter;
}

static void a_winter_has_both_its_days_and_the_rest_is_assumed(void **state) {
    const Winter winter = read_plain(state, DAYS);
    assert_true(winter.is_readable);
    assert_int_equal(winter_days(&winter),
                     196); /* Nov 30, Dec 31, Jan 31, Feb 28, Mar 31, Apr 30, 15 */
    assert_true(winter.sulfate_is_assumed && winter.nitrate_is_assumed);
    assert_near(winter.water_sulfate_mg_per_l, ASSUMED_WATER_SULFATE, 0);
    assert_near(winter.carry_over_kg, 0, 0);
    assert_false(winter.is_imperial);
    assert_string_equal(winter.currency, "$");
}

static void settings_are_read_in_any_order_case_and_separator(void **state) {
    const Winter winter = read_plain(
        state, "\xEF\xBB\xBFsetting;value\r\nUnits;imperial\r\nCarry over tons;12,5\r\n"
               "last_day;2027-05-15\r\nfirst day;2026-11-01\r\nyardage_per_head_day;1,10\r\n"
               "water_sulfate_mg_per_l;420\r\nwater_nitrate_mg_per_l;0\r\nfarm;Three Bluffs\r\n"
               "currency;CAD\r\nnote;one\r\nnote;two\r\n");
    assert_true(winter.is_imperial);
    assert_near(winter.carry_over_kg, 12.5 * 907.18474, 1e-6);
    assert_near(winter.yardage_per_head_day, 1.10, 1e-12);
    assert_near(winter.water_sulfate_mg_per_l, 420, 0);
    assert_false(winter.sulfate_is_assumed || winter.nitrate_is_assumed);
    assert_string_equal(winter.farm, "Three Bluffs");
    assert_string_equal(winter.currency, "CAD");
}

static void a_day_that_is_missing_is_told_with_a_line_to_add(void **state) {
    assert_told("@@setting,value\n", "add a line 'first_day,2026-11-01'",
                "add a line 'last_day,2027-05-15'");
    assert_told("@setting,value\nlast_day,2027-05-15\n", "first_day is missing");
    assert_told("setting,value\nfirst_day,^\nlast_day,2027-05-15\n", "needed");
    assert_told("setting,value\nfirst_day,^2026-11-31\nlast_day,^Nov 1\n",
                "Nov 2026 has 30 days", "lacks its day or its year");
}

static void a_winter_that_ends_before_it_begins_or_lasts_over_a_year_is_a_fault(void **state) {
    assert_told("setting,value\nfirst_day,2026-11-05\nlast_day,^2026-11-01\n",
                "2026-11-01 is not after first_day, 2026-11-05");
    assert_told("setting,value\nfirst_day,2026-11-05\nlast_day,^2026-11-05\n",
                "is not after first_day");
    assert_told("setting,value\nfirst_day,2025-11-01\nlast_day,^2027-05-15\n",
                "may have at most 366: is the year right?");
}

static void a_setting_that_is_not_known_names_the_nearest(void **state) {
    assert_told(DAYS "^yardage_per_head,1.10\n", "did you mean 'yardage_per_head_day'?");
    assert_told(DAYS "^bedding,1.10\n^paint,1\n", "is none of: first_day",
                "is none of those listed for line");
    assert_told(DAYS "^start date,2026-11-01\n", "did you mean 'first_day'?");
    assert_told(DAYS "^,1.10\n", "needed");
}

static void a_setting_twice_names_the_first_line(void **state) {
    assert_told(DAYS "^first day,2026-12-01\n", "is set twice, on line 2 first");
    assert_told(DAYS "carry_over_tonnes,5\n^carry_over_tons,5\n", "keep one");
}

static void numbers_out_of_range_or_with_signs_are_told(void **state) {
    assert_told(DAYS "yardage_per_head_day,^$1.10\nwater_sulfate_mg_per_l,^-5\n"
                     "carry_over_tonnes,^-1\n",
                "write 1.10", "outside 0 to 30000", "outside 0 to");
    assert_told(DAYS "units,^metrical\n", "did you mean 'metric'?");
    assert_true(read_plain(state, DAYS "units,Pounds\n").is_imperial);
    assert_false(read_plain(state, DAYS "units,kg\n").is_imperial);
    assert_true(read_plain(state, DAYS "units,mixed\n").is_mixed);
    assert_false(read_plain(state, DAYS "units,mixed\n").is_imperial);
}

static void nitrate_nitrogen_of_water_is_not_taken_for_nitrate(void **state) {
    assert_told(DAYS "^water_nitrate_n_mg_per_l,10\n", "multiply nitrate nitrogen by 4.427");
    assert_told(DAYS "^water nitrate,10\n^NO3-N,10\n^nitrate nitrogen,10\n", "is as NO3",
                "is as NO3", "is as NO3");
}

static void sulfate_of_zero_is_doubted_and_an_empty_cell_is_not_known(void **state) {
    assert_told(DAYS "water_sulfate_mg_per_l,^0\n", "doubt: none found");
    assert_told(DAYS "water_sulfate_mg_per_l,^0.42\n", "doubt: is it grams a litre?");
    const Winter winter = read_plain(state, DAYS "water_sulfate_mg_per_l,\n");
    assert_true(winter.sulfate_is_assumed);
}

static void a_comma_for_thousands_that_falls_into_the_note_is_doubted(void **state) {
    assert_told("setting,value,note\nfirst_day,2026-11-01,\nlast_day,2027-05-15,\n"
                "carry_over_tonnes,1,^500\n",
                "doubt: was 1,500 meant?");
    assert_told(DAYS "carry_over_tonnes,1,^500\n", "beyond the last heading");
}

static void empty_files_are_told(void **state) {
    assert_told("@", "the file is empty");
    assert_told("~a,b\n", "the first line must be 'setting,value'");
    assert_told("~first_day,2026-11-01\nlast_day,2027-05-15\n",
                "the first line must be 'setting,value'");
}

static void practices_are_the_cautious_ones_unless_asked_and_talked_over(void **state) {
    const Winter plain = read_plain(state, DAYS);
    assert_true(winter_follows(&plain, PRACTICE_STRICT));
    assert_true(winter_follows(&plain, PRACTICE_SULFUR_USUAL));
    assert_false(winter_follows(&plain, PRACTICE_PRAIRIE));
    const Winter asked = read_plain(
        state, "setting,value,note\nfirst_day,2026-11-01,\nlast_day,2027-05-15,\n"
               "nitrate_practice,Prairie,Dr. Lund 3 October\nsulfur_practice,forage,same\n");
    assert_true(winter_follows(&asked, PRACTICE_PRAIRIE));
    assert_false(winter_follows(&asked, PRACTICE_STRICT));
    assert_true(winter_follows(&asked, PRACTICE_SULFUR_FORAGE));
    assert_string_equal(asked.practice_note[CHOICE_NITRATE], "Dr. Lund 3 October");
    const Winter strict = read_plain(state, DAYS "nitrate_practice,strict\n");
    assert_true(winter_follows(&strict, PRACTICE_STRICT));
    assert_told("setting,value,note\nfirst_day,2026-11-01,\nlast_day,2027-05-15,\n"
                "nitrate_practice,prairie,^\n",
                "write here with whom");
    assert_told(DAYS "~sulfur_practice,forage\n", "write here with whom");
    assert_told(DAYS "nitrate_practice,^lax\n", "strict, prairie");
}

static void
sodium_of_the_water_counts_where_it_was_tested_and_too_much_is_refused(void **state) {
    const Winter untested = read_plain(state, DAYS);
    assert_false(untested.sodium_is_known);
    assert_near(untested.water_sodium_mg_per_l, 0, 0);
    const Winter winter = read_plain(state, DAYS "water_sodium_mg_per_l,640\n");
    assert_true(winter.sodium_is_known);
    assert_near(winter.water_sodium_mg_per_l, 640, 0);
    assert_told(DAYS "water_sodium_mg_per_l,^-1\n", "outside 0 to");
    assert_told(DAYS "water_sodium_mg_per_l,^2950\n", "find other water");
}

static void dissolved_solids_are_known_where_they_were_tested(void **state) {
    assert_false(read_plain(state, DAYS).solids_are_known);
    const Winter winter = read_plain(state, DAYS "water_dissolved_solids_mg_per_l,3400\n");
    assert_true(winter.solids_are_known);
    assert_near(winter.water_solids_mg_per_l, 3400, 0);
    assert_told(DAYS "water_dissolved_solids_mg_per_l,^-1\n", "outside 0 to");
}

static void cold_and_protein_may_be_asked_for_in_another_form(void **state) {
    Faults faults = faults_new(*state);
    const char *plain = "setting,value\nfirst_day,2026-11-01\nlast_day,2027-05-15\n";
    const Winter usual = winter_parse(*state, &faults, "winter.csv", plain, strlen(plain));
    assert_int_equal(usual.cold_way, COLD_BY_TABLE);
    assert_int_equal(usual.microbial_form, MICROBIAL_TEN_PERCENT);
    const char *asked = "setting,value\nfirst_day,2026-11-01\nlast_day,2027-05-15\n"
                        "cold,model\nprotein,2016\n";
    const Winter winter = winter_parse(*state, &faults, "winter.csv", asked, strlen(asked));
    assert_string_equal(unit_faults(&faults, *state), "");
    assert_int_equal(winter.cold_way, COLD_BY_MODEL);
    assert_int_equal(winter.microbial_form, MICROBIAL_2016);
    assert_told(DAYS "cold,^modl\n", "did you mean 'model'");
    assert_told(DAYS "protein,^12\n", "ten");
}

static void a_winter_has_no_rules_of_the_yard_until_they_are_set(void **state) {
    const FeedingRules rules = read_plain(state, DAYS).rules;
    assert_int_equal(rules.most_feeds, 0);
    assert_near(rules.least_share + rules.largest_change_share + rules.largest_change_kg, 0, 0);
    assert_false(rules.whole_loads || rules.whole_bales || rules.one_face_open);
    const FeedingRules off =
        read_plain(state, DAYS "whole_loads,no\nwhole_bales,\none_face_open,no\n").rules;
    assert_false(off.whole_loads || off.whole_bales || off.one_face_open);
}

static void rules_of_the_yard_are_read(void **state) {
    const FeedingRules rules =
        read_plain(state, DAYS "most_feeds_in_a_ration,4\nleast_share_of_a_feed_pct,5\n"
                               "largest_change_pct,20\nlargest_change_lb_per_day,10\n"
                               "whole_loads,yes\nwhole_bales,Yes\none_face_open,yes\n")
            .rules;
    assert_int_equal(rules.most_feeds, 4);
    assert_near(rules.least_share, 0.05, 1e-12);
    assert_near(rules.largest_change_share, 0.20, 1e-12);
    assert_near(rules.largest_change_kg, 4.5359237, 1e-12);
    assert_true(rules.whole_loads && rules.whole_bales && rules.one_face_open);
    assert_near(
        read_plain(state, DAYS "largest_change_kg_per_day,2.5\n").rules.largest_change_kg, 2.5,
        0);
}

static void a_rule_of_the_yard_that_cannot_be_is_a_fault_with_its_place(void **state) {
    assert_told(DAYS "most_feeds_in_a_ration,^0\n",
                "leave the line out where there is no such rule");
    assert_told(DAYS "most_feeds_in_a_ration,^2.5\n", "no whole number of feeds");
    assert_told(DAYS "most_feeds_in_a_ration,^50\n", "50 is outside");
    assert_told(DAYS "most_feeds_in_a_ration,^four\n", "number");
    assert_told(DAYS "least_share_of_a_feed_pct,^60\n", "60 is outside");
    assert_told(DAYS "largest_change_pct,^-5\n", "-5 is outside");
    assert_told(DAYS "largest_change_kg_per_day,2\nlargest_change_lb_per_day,^4\n",
                "in kg and in lb; keep one");
    assert_told(DAYS "whole_loads,^maybe\n", "yes");
    assert_told(DAYS "whole_loads,yes\n^whole_loads,no\n", "is set twice");
}

static void a_share_of_one_for_a_percentage_is_doubted(void **state) {
    assert_told(DAYS "least_share_of_a_feed_pct,^0.05\n",
                "doubt: least_share_of_a_feed_pct: 0.05% is next to nothing; for a share of "
                "one write 5");
    assert_told(
        DAYS "largest_change_pct,^0.2\n",
        "doubt: largest_change_pct: 0.2% is next to nothing; for a share of one write 20");
}

static void a_farm_may_say_how_sure_its_turnout_is(void **state) {
    assert_false(read_plain(state, DAYS).turnout_spread_is_set);
    const Winter winter = read_plain(state, DAYS "turnout_spread_days,4\n");
    assert_true(winter.turnout_spread_is_set);
    assert_near(winter.turnout_spread_days, 4.0, 0.0);
    assert_told(DAYS "turnout_spread_days,^90\n", "90 is outside 0 to 40");
}

static void a_farm_may_say_how_heavily_cautions_weigh(void **state) {
    assert_near(read_plain(state, DAYS).caution_weight, 1.0, 0.0);
    assert_near(read_plain(state, DAYS "caution_weight,0\n").caution_weight, 0.0, 0.0);
    assert_near(read_plain(state, DAYS "caution_weight,2.5\n").caution_weight, 2.5, 0.0);
    assert_told(DAYS "caution_weight,^21\n", "21 is outside 0 to 20");
    assert_told(DAYS "caution_weight,^-1\n", "-1 is outside 0 to 20");
}

static void a_farm_may_say_what_steadier_rations_may_cost(void **state) {
    assert_near(read_plain(state, DAYS).steady_cost_share, 0.001, 1e-15);
    assert_near(read_plain(state, DAYS "steady_cost_pct,0\n").steady_cost_share, 0.0, 0.0);
    assert_near(read_plain(state, DAYS "steady_cost_pct,0.5\n").steady_cost_share, 0.005,
                1e-15);
    assert_told(DAYS "steady_cost_pct,^6\n", "6 is outside 0 to 5");
    assert_told(DAYS "steady_cost_pct,^-1\n", "-1 is outside 0 to 5");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_winter_has_both_its_days_and_the_rest_is_assumed),
        UNIT_TEST(settings_are_read_in_any_order_case_and_separator),
        UNIT_TEST(a_day_that_is_missing_is_told_with_a_line_to_add),
        UNIT_TEST(a_winter_that_ends_before_it_begins_or_lasts_over_a_year_is_a_fault),
        UNIT_TEST(a_setting_that_is_not_known_names_the_nearest),
        UNIT_TEST(a_setting_twice_names_the_first_line),
        UNIT_TEST(numbers_out_of_range_or_with_signs_are_told),
        UNIT_TEST(nitrate_nitrogen_of_water_is_not_taken_for_nitrate),
        UNIT_TEST(sulfate_of_zero_is_doubted_and_an_empty_cell_is_not_known),
        UNIT_TEST(a_comma_for_thousands_that_falls_into_the_note_is_doubted),
        UNIT_TEST(empty_files_are_told),
        UNIT_TEST(practices_are_the_cautious_ones_unless_asked_and_talked_over),
        UNIT_TEST(sodium_of_the_water_counts_where_it_was_tested_and_too_much_is_refused),
        UNIT_TEST(dissolved_solids_are_known_where_they_were_tested),
        UNIT_TEST(cold_and_protein_may_be_asked_for_in_another_form),
        UNIT_TEST(a_winter_has_no_rules_of_the_yard_until_they_are_set),
        UNIT_TEST(rules_of_the_yard_are_read),
        UNIT_TEST(a_rule_of_the_yard_that_cannot_be_is_a_fault_with_its_place),
        UNIT_TEST(a_share_of_one_for_a_percentage_is_doubted),
        UNIT_TEST(a_farm_may_say_how_sure_its_turnout_is),
        UNIT_TEST(a_farm_may_say_how_heavily_cautions_weigh),
        UNIT_TEST(a_farm_may_say_what_steadier_rations_may_cost),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
