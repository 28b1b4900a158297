/* Laws of the cattle equations, and their behaviour at the edges. The numbers of the books are
 * cases of tests/published. Cold and intake have files of their own. */
#include "cattle/body_reserve.h"
#include "cattle/growth.h"
#include "cattle/lactation.h"
#include "cattle/maintenance.h"
#include "cattle/mineral_requirement.h"
#include "cattle/pregnancy.h"
#include "cattle/protein_requirement.h"

#include "support/unit.h"

#define HAIR_BREADTH 1e-12 /* of the value: nothing but the last binary digits */

static bool is_same(double a, double b) {
    return fabs(a - b) <= HAIR_BREADTH * fmax(1.0, fabs(b));
}

/* ---- weight ---- */
static void a_heavier_animal_never_needs_less(void **state) {
    (void)state;
    for (double kg = 150.0; kg < 1000.0; kg += 5.0) {
        const Mass lighter = {kg};
        const Mass heavier = {kg + 5.0};
        assert_true(fasting_energy(heavier).mcal_per_day >
                    fasting_energy(lighter).mcal_per_day);
        assert_true(maintenance_protein(heavier).g_per_day >
                    maintenance_protein(lighter).g_per_day);
        const MineralState light = {.shrunk = lighter};
        const MineralState heavy = {.shrunk = heavier};
        assert_true(calcium_requirement(&heavy).g_per_day >
                    calcium_requirement(&light).g_per_day);
        assert_true(phosphorus_requirement(&heavy).g_per_day >
                    phosphorus_requirement(&light).g_per_day);
    }
}

static void plain_factors_change_nothing(void **state) {
    (void)state;
    const MaintenanceFactors plain = {1.0, 1.0, 1.0, compensation_factor(5.0)};
    assert_true(is_same(maintenance_energy((Mass){500.0}, plain).mcal_per_day,
                        fasting_energy((Mass){500.0}).mcal_per_day));
}

static void each_factor_multiplies(void **state) {
    (void)state;
    const MaintenanceFactors all = {1.2, 1.15, 1.2, 0.9};
    assert_true(is_same(maintenance_energy((Mass){500.0}, all).mcal_per_day,
                        1.2 * 1.15 * 1.2 * 0.9 * fasting_energy((Mass){500.0}).mcal_per_day));
}

static void a_fleshier_animal_never_has_a_smaller_compensation(void **state) {
    (void)state;
    assert_true(is_same(compensation_factor(1.0), 0.80));
    assert_true(is_same(compensation_factor(9.0), 1.20));
}

static void cattle_that_eat_nothing_off_the_land_do_not_walk_for_it(void **state) {
    (void)state;
    assert_true(
        grazing_activity_energy((Mass){600.0}, (FeedRate){0.0}, 0.5, 2.0, 1.0).mcal_per_day ==
        0.0);
}

/* Past 90% TDN the bracket turns negative: eating it costs nothing, it never gives energy back.
 */
static void eating_never_gives_energy_back(void **state) {
    (void)state;
    const FeedRate grazed = {10.0};
    assert_true(
        is_same(grazing_activity_energy((Mass){600.0}, grazed, 0.95, 1.0, 2.0).mcal_per_day,
                grazing_activity_energy((Mass){600.0}, grazed, 0.90, 1.0, 2.0).mcal_per_day));
}

/* ---- calf and milk ---- */
static void a_later_day_of_gestation_never_needs_less(void **state) {
    (void)state;
    const Mass calf = {DEFAULT_CALF_BIRTH_WEIGHT_KG};
    for (double day = 0.0; day < 300.0; day += 1.0) {
        assert_true(pregnancy_energy(calf, day + 1.0).mcal_per_day >=
                    pregnancy_energy(calf, day).mcal_per_day);
        assert_true(pregnancy_protein(calf, day + 1.0).g_per_day >=
                    pregnancy_protein(calf, day).g_per_day);
        assert_true(conceptus_weight(calf, day + 1.0).kg >= conceptus_weight(calf, day).kg);
        assert_true(conceptus_gain(calf, day + 1.0).kg_per_day >=
                    conceptus_gain(calf, day).kg_per_day);
    }
}

static void an_open_cow_needs_nothing_for_a_calf(void **state) {
    (void)state;
    const Mass calf = {40.0};
    assert_true(pregnancy_energy(calf, 0.0).mcal_per_day == 0.0);
    assert_true(pregnancy_energy(calf, -20.0).mcal_per_day == 0.0);
    assert_true(pregnancy_protein(calf, -20.0).g_per_day == 0.0);
    assert_true(conceptus_weight(calf, -20.0).kg == 0.0);
    assert_true(conceptus_gain(calf, -20.0).kg_per_day == 0.0);
    assert_true(pregnancy_energy((Mass){0.0}, 200.0).mcal_per_day == 0.0);
}

static void an_overdue_cow_is_held_at_the_last_day(void **state) {
    (void)state;
    const Mass calf = {40.0};
    assert_true(is_same(pregnancy_energy(calf, 300.0).mcal_per_day,
                        pregnancy_energy(calf, GESTATION_DAYS).mcal_per_day));
    assert_true(is_same(pregnancy_protein(calf, 300.0).g_per_day,
                        pregnancy_protein(calf, GESTATION_DAYS).g_per_day));
    assert_true(is_same(conceptus_gain(calf, 300.0).kg_per_day,
                        conceptus_gain(calf, GESTATION_DAYS).kg_per_day));
}

/* Days added up give the weight: within half a day's gain of either end. */
static void the_gain_of_the_uterus_adds_up_to_its_weight(void **state) {
    (void)state;
    const Mass calf = {40.0};
    double sum_kg = 0.0;
    for (int day = 100; day < 280; day++) {
        sum_kg += conceptus_gain(calf, day + 0.5).kg_per_day;
    }
    const double grown_kg = conceptus_weight(calf, 280.0).kg - conceptus_weight(calf, 100.0).kg;
    assert_true(fabs(sum_kg - grown_kg) < 0.01);
}

static void a_heavier_calf_needs_in_proportion(void **state) {
    (void)state;
    assert_true(is_same(pregnancy_energy((Mass){48.0}, 250.0).mcal_per_day,
                        1.5 * pregnancy_energy((Mass){32.0}, 250.0).mcal_per_day));
}

static void milk_rises_to_its_peak_and_falls_after(void **state) {
    (void)state;
    const FeedRate peak = {9.0};
    for (double day = 0.0; day < 250.0; day += 1.0) {
        const double here = milk_yield(peak, day).kg_per_day;
        const double next = milk_yield(peak, day + 1.0).kg_per_day;
        assert_true(here <= peak.kg_per_day);
        assert_true(day + 1.0 <= 7.0 * WEEKS_TO_PEAK_MILK ? next > here
                    : day >= 7.0 * WEEKS_TO_PEAK_MILK     ? next < here
                                                          : true);
    }
}

static void there_is_no_milk_before_the_first_day(void **state) {
    (void)state;
    assert_true(milk_yield((FeedRate){9.0}, 0.0).kg_per_day == 0.0);
    assert_true(milk_yield((FeedRate){9.0}, -30.0).kg_per_day == 0.0);
    assert_true(lactation_energy((FeedRate){0.0}, MILK_OF_BEEF_COW).mcal_per_day == 0.0);
    assert_true(lactation_protein((FeedRate){0.0}, MILK_OF_BEEF_COW).g_per_day == 0.0);
}

/* ---- growth ---- */
/* The printed pair has rounded constants: back it gives up to 0.44% less, and never more. */
static void gain_and_energy_are_inverse_within_half_a_per_cent(void **state) {
    (void)state;
    for (double kg = 150.0; kg <= 550.0; kg += 10.0) {
        for (double gain = 0.2; gain <= 1.5; gain += 0.05) {
            const Mass equivalent = {kg};
            const EnergyRate kept = retained_energy(equivalent, (FeedRate){gain});
            const double back = gain_from_energy(equivalent, kept).kg_per_day;
            assert_true(fabs(back - gain) <= 0.005 * gain);
        }
    }
}

static void more_gain_never_keeps_less_energy(void **state) {
    (void)state;
    for (double gain = 0.0; gain < 2.5; gain += 0.1) {
        assert_true(retained_energy((Mass){300.0}, (FeedRate){gain + 0.1}).mcal_per_day >
                    retained_energy((Mass){300.0}, (FeedRate){gain}).mcal_per_day);
    }
}

static void the_same_gain_on_a_fatter_animal_keeps_more_energy(void **state) {
    (void)state;
    const FeedRate gain = {1.0};
    const Mass shrunk = {400.0};
    const Mass small_frame = equivalent_weight(shrunk, (Mass){480.0});
    const Mass large_frame = equivalent_weight(shrunk, (Mass){640.0});
    assert_true(retained_energy(small_frame, gain).mcal_per_day >
                retained_energy(large_frame, gain).mcal_per_day);
}

static void no_gain_keeps_no_energy(void **state) {
    (void)state;
    const Mass equivalent = {300.0};
    assert_true(retained_energy(equivalent, (FeedRate){0.0}).mcal_per_day == 0.0);
    assert_true(retained_energy(equivalent, (FeedRate){-0.5}).mcal_per_day == 0.0);
    assert_true(gain_from_energy(equivalent, (EnergyRate){0.0}).kg_per_day == 0.0);
    assert_true(gain_from_energy(equivalent, (EnergyRate){-1.0}).kg_per_day == 0.0);
    assert_true(gain_protein(equivalent, (EnergyRate){0.0}, (FeedRate){0.0}).g_per_day == 0.0);
}

/* 268 / 29.4 = 9.1 Mcal per kg of gain is where the bracket ends. */
static void protein_in_a_very_fat_gain_is_nothing_and_not_less(void **state) {
    (void)state;
    assert_true(protein_in_gain((EnergyRate){9.0}, (FeedRate){1.0}).g_per_day > 0.0);
    assert_true(protein_in_gain((EnergyRate){9.2}, (FeedRate){1.0}).g_per_day == 0.0);
}

static void protein_for_gain_has_no_step_at_300_kg(void **state) {
    (void)state;
    const EnergyRate kept = {4.0};
    const FeedRate gain = {1.0};
    const double below = gain_protein((Mass){299.999}, kept, gain).g_per_day;
    const double above = gain_protein((Mass){300.001}, kept, gain).g_per_day;
    assert_true(fabs(below - above) < 0.01);
    assert_true(is_same(gain_protein((Mass){450.0}, kept, gain).g_per_day,
                        gain_protein((Mass){300.0}, kept, gain).g_per_day));
}

static void an_animal_of_its_final_weight_weighs_478(void **state) {
    (void)state;
    assert_true(is_same(equivalent_weight((Mass){610.0}, (Mass){610.0}).kg, 478.0));
}

static void a_heifer_past_her_target_need_not_gain(void **state) {
    (void)state;
    assert_true(gain_to_target((Mass){380.0}, (Mass){360.0}, 60).kg_per_day == 0.0);
    assert_true(is_same(gain_to_target((Mass){300.0}, (Mass){360.0}, 60).kg_per_day, 1.0));
}

/* ---- condition ---- */
static void weight_comes_back_with_its_score(void **state) {
    (void)state;
    for (double now = 1.0; now <= 9.0; now += 0.5) {
        for (double then = 1.0; then <= 9.0; then += 0.5) {
            const Mass there = weight_at_condition((Mass){600.0}, now, then);
            assert_true(is_same(weight_at_condition(there, then, now).kg, 600.0));
            assert_true((then > now) == (there.kg > 600.0));
        }
    }
}

static void going_up_and_down_again_loses_a_fifth(void **state) {
    (void)state;
    const Mass cow = {600.0};
    const Mass fatter = weight_at_condition(cow, 4.0, 6.0);
    const double up = condition_change_energy(cow, 4.0, 6.0).mcal;
    const double down = condition_change_energy(fatter, 6.0, 4.0).mcal;
    assert_true(up > 0.0 && down < 0.0);
    assert_true(is_same(down, -0.80 * up));
    assert_true(is_same(reserve_difference(fatter, 6.0, 4.0).mcal,
                        -reserve_difference(cow, 4.0, 6.0).mcal));
}

static void two_steps_of_condition_cost_what_one_does(void **state) {
    (void)state;
    const Mass cow = {600.0};
    const Mass between = weight_at_condition(cow, 4.0, 5.0);
    assert_true(is_same(condition_change_energy(cow, 4.0, 5.0).mcal +
                            condition_change_energy(between, 5.0, 6.0).mcal,
                        condition_change_energy(cow, 4.0, 6.0).mcal));
    assert_true(condition_change_energy(cow, 5.0, 5.0).mcal == 0.0);
}

/* From 4 to 5 takes 207 Mcal of a cow of 498.95 kg shrunk at 5, as printed [UNL_RESERVES]; the
 * way back saves 0.80 of it; no score is beyond the ends. */
static void the_energy_of_one_score_leads_to_the_next(void **state) {
    (void)state;
    const Mass at_five = {498.9516 / 0.96};
    const Mass at_four = weight_at_condition(at_five, 5.0, 4.0);
    assert_near(condition_after(at_four, 4.0, (Energy){207.0}), 5.0, 0.005);
    assert_near(condition_after(at_five, 5.0, (Energy){-0.80 * 207.0}), 4.0, 0.005);
    assert_near(condition_after(at_five, 5.0, (Energy){0.0}), 5.0, 1e-9);
    assert_near(condition_after(at_five, 5.0, (Energy){1e6}), 9.0, 1e-9);
    assert_near(condition_after(at_five, 5.0, (Energy){-1e6}), 1.0, 1e-9);
}

static void the_five_point_scale_meets_both_ends(void **state) {
    (void)state;
    assert_true(is_same(condition_from_five_point(1.0), 1.0));
    assert_true(is_same(condition_from_five_point(2.5), 4.0));
    assert_true(is_same(condition_from_five_point(5.0), 9.0));
}

/* ---- protein and minerals ---- */
static void microbes_are_held_by_the_scarcer_of_energy_and_protein(void **state) {
    (void)state;
    const GramRate plenty = {900.0};
    const GramRate scarce = {600.0};
    const GramRate none = {0.0};
    assert_true(is_same(metabolizable_protein_supply(plenty, scarce, none).g_per_day,
                        metabolizable_protein_supply(scarce, plenty, none).g_per_day));
    assert_true(is_same(metabolizable_protein_supply(scarce, plenty, none).g_per_day,
                        MP_PER_MICROBIAL_PROTEIN * 600.0));
}

static void the_default_microbial_form_is_the_careful_one_of_the_first_two(void **state) {
    (void)state;
    const FeedRate tdn = {6.0};
    assert_true(microbial_protein(MICROBIAL_TEN_PERCENT, tdn).g_per_day <
                microbial_protein(MICROBIAL_THIRTEEN_PERCENT, tdn).g_per_day);
}

static void the_calf_counts_in_the_last_ninety_days_only(void **state) {
    (void)state;
    MineralState cow = {.shrunk = {566.0}, .calf_birth_weight = {38.5}, .days_pregnant = 193.0};
    const double before_ca = calcium_requirement(&cow).g_per_day;
    const double before_p = phosphorus_requirement(&cow).g_per_day;
    cow.days_pregnant = 194.0;
    assert_true(
        is_same(calcium_requirement(&cow).g_per_day - before_ca, 13.7 * 38.5 / 90.0 / 0.50));
    assert_true(
        is_same(phosphorus_requirement(&cow).g_per_day - before_p, 7.6 * 38.5 / 90.0 / 0.68));
    cow.calf_birth_weight = (Mass){0.0};
    assert_true(is_same(calcium_requirement(&cow).g_per_day, before_ca));
}

static void milk_and_gain_take_minerals(void **state) {
    (void)state;
    const MineralState dry = {.shrunk = {400.0}};
    const MineralState milking = {.shrunk = {400.0}, .milk = {8.0}};
    const MineralState growing = {.shrunk = {400.0}, .protein_gain = {150.0}};
    assert_true(calcium_requirement(&milking).g_per_day > calcium_requirement(&dry).g_per_day);
    assert_true(calcium_requirement(&growing).g_per_day > calcium_requirement(&dry).g_per_day);
    assert_true(phosphorus_requirement(&milking).g_per_day >
                phosphorus_requirement(&dry).g_per_day);
    assert_true(phosphorus_requirement(&growing).g_per_day >
                phosphorus_requirement(&dry).g_per_day);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_heavier_animal_never_needs_less),
        UNIT_TEST(plain_factors_change_nothing),
        UNIT_TEST(each_factor_multiplies),
        UNIT_TEST(a_fleshier_animal_never_has_a_smaller_compensation),
        UNIT_TEST(cattle_that_eat_nothing_off_the_land_do_not_walk_for_it),
        UNIT_TEST(eating_never_gives_energy_back),
        UNIT_TEST(a_later_day_of_gestation_never_needs_less),
        UNIT_TEST(an_open_cow_needs_nothing_for_a_calf),
        UNIT_TEST(an_overdue_cow_is_held_at_the_last_day),
        UNIT_TEST(the_gain_of_the_uterus_adds_up_to_its_weight),
        UNIT_TEST(a_heavier_calf_needs_in_proportion),
        UNIT_TEST(milk_rises_to_its_peak_and_falls_after),
        UNIT_TEST(there_is_no_milk_before_the_first_day),
        UNIT_TEST(gain_and_energy_are_inverse_within_half_a_per_cent),
        UNIT_TEST(more_gain_never_keeps_less_energy),
        UNIT_TEST(the_same_gain_on_a_fatter_animal_keeps_more_energy),
        UNIT_TEST(no_gain_keeps_no_energy),
        UNIT_TEST(protein_in_a_very_fat_gain_is_nothing_and_not_less),
        UNIT_TEST(protein_for_gain_has_no_step_at_300_kg),
        UNIT_TEST(an_animal_of_its_final_weight_weighs_478),
        UNIT_TEST(a_heifer_past_her_target_need_not_gain),
        UNIT_TEST(weight_comes_back_with_its_score),
        UNIT_TEST(going_up_and_down_again_loses_a_fifth),
        UNIT_TEST(two_steps_of_condition_cost_what_one_does),
        UNIT_TEST(the_energy_of_one_score_leads_to_the_next),
        UNIT_TEST(the_five_point_scale_meets_both_ends),
        UNIT_TEST(microbes_are_held_by_the_scarcer_of_energy_and_protein),
        UNIT_TEST(the_default_microbial_form_is_the_careful_one_of_the_first_two),
        UNIT_TEST(the_calf_counts_in_the_last_ninety_days_only),
        UNIT_TEST(milk_and_gain_take_minerals),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
