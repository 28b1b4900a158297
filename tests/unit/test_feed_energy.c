#include "feedstuff/feed_energy.h"

#include "support/unit.h"

static const FibreAnalysis ALFALFA = {.crude_protein = 19.0,
                                      .ndf = 43.0,
                                      .ash = 9.5,
                                      .crude_fat = 2.2,
                                      .ndicp = 2.6,
                                      .adicp = 1.3,
                                      .lignin = 7.0,
                                      .ndf_digestibility = (double)NAN,
                                      .processing_factor = 1.0,
                                      .is_concentrate = 0};

static void more_fibre_is_never_more_tdn(void **state) {
    (void)state;
    static const FibreEquation forages[] = {FIBRE_HAY, FIBRE_LEGUME, FIBRE_CORN_SILAGE};
    for (size_t kind = 0; kind < 3; kind++) {
        double before = tdn_from_adf(forages[kind], 10.0);
        for (double adf = 10.5; adf <= 80.0; adf += 0.5) {
            const double now = tdn_from_adf(forages[kind], adf);
            assert_true(now <= before);
            before = now;
        }
    }
}

static void tdn_of_forage_stays_between_38_and_72(void **state) {
    (void)state;
    assert_near(tdn_from_adf(FIBRE_HAY, 5.0), 72.0, 0.0);
    assert_near(tdn_from_adf(FIBRE_HAY, 75.0), 38.0, 0.0);
    assert_near(tdn_from_adf(FIBRE_CORN_SILAGE, 5.0), 72.0, 0.0);
    assert_near(tdn_from_adf(FIBRE_LEGUME, 75.0), 38.0, 0.0);
}

static void a_legume_takes_the_lower_of_two_lines(void **state) {
    (void)state;
    for (double adf = 20.0; adf <= 55.0; adf += 1.0) {
        const double tdn = tdn_from_adf(FIBRE_LEGUME, adf);
        assert_true(tdn <= fmax(tdn_nfta_hay(adf), 38.0));
        assert_true(tdn <= fmax(tdn_penn_state_legume(adf), 38.0));
    }
}

static void a_feed_that_is_no_forage_has_no_fibre_route(void **state) {
    (void)state;
    assert_true(isnan(tdn_from_adf(FIBRE_NONE, 30.0)));
}

static void more_tdn_is_more_energy_at_every_step(void **state) {
    (void)state;
    for (double tdn = 41.5; tdn < 91.0; tdn += 0.5) { /* ME 1.5 to 3.3 */
        assert_true(digestible_energy_from_tdn(tdn + 0.5).mcal_per_kg >
                    digestible_energy_from_tdn(tdn).mcal_per_kg);
        assert_true(nem_from_tdn(tdn + 0.5).mcal_per_kg > nem_from_tdn(tdn).mcal_per_kg);
        assert_true(neg_from_tdn(tdn + 0.5).mcal_per_kg > neg_from_tdn(tdn).mcal_per_kg);
    }
}

static void energy_is_lost_at_every_step(void **state) {
    (void)state;
    for (double tdn = 42.0; tdn <= 91.0; tdn += 1.0) {
        const EnergyDensity digestible = digestible_energy_from_tdn(tdn);
        const EnergyDensity metabolizable = metabolizable_energy(digestible);
        const EnergyDensity maintenance = net_energy_maintenance(metabolizable);
        assert_true(metabolizable.mcal_per_kg < digestible.mcal_per_kg);
        assert_true(maintenance.mcal_per_kg < metabolizable.mcal_per_kg);
        assert_true(net_energy_gain(metabolizable).mcal_per_kg < maintenance.mcal_per_kg);
    }
}

static void net_energy_is_never_below_nothing(void **state) {
    (void)state;
    for (double tdn = 0.0; tdn <= 45.0; tdn += 1.0) {
        assert_true(nem_from_tdn(tdn).mcal_per_kg >= 0.0);
        assert_true(neg_from_tdn(tdn).mcal_per_kg >= 0.0);
    }
    assert_near(nem_from_tdn(0.0).mcal_per_kg, 0.0, 0.0);
    assert_near(neg_from_tdn(30.0).mcal_per_kg, 0.0, 0.0);
}

static void the_three_steps_at_once_are_the_three_steps(void **state) {
    (void)state;
    const EnergyDensity metabolizable = metabolizable_energy(digestible_energy_from_tdn(61.0));
    assert_near(nem_from_tdn(61.0).mcal_per_kg,
                net_energy_maintenance(metabolizable).mcal_per_kg, 0.0);
    assert_near(neg_from_tdn(61.0).mcal_per_kg, net_energy_gain(metabolizable).mcal_per_kg,
                0.0);
}

static void more_lignin_is_less_tdn(void **state) {
    (void)state;
    FibreAnalysis analysis = ALFALFA;
    double before = INFINITY;
    for (analysis.lignin = 0.0; analysis.lignin <= 50.0; analysis.lignin += 1.0) {
        const double tdn = tdn_summative(analysis).tdn;
        assert_true(tdn <= before);
        before = tdn;
    }
}

static void measured_digestibility_comes_before_lignin(void **state) {
    (void)state;
    FibreAnalysis analysis = ALFALFA;
    analysis.ndf_digestibility = 50.0;
    assert_near(tdn_summative(analysis).digestible_ndf, (43.0 - 2.6) * 0.5, 1e-9);
    analysis.lignin = (double)NAN;
    assert_near(tdn_summative(analysis).digestible_ndf, (43.0 - 2.6) * 0.5, 1e-9);
}

static void bound_protein_costs_energy(void **state) {
    (void)state;
    FibreAnalysis heated = ALFALFA;
    heated.adicp = 4.0;
    assert_true(tdn_summative(heated).tdn < tdn_summative(ALFALFA).tdn);
    heated.is_concentrate = 1; /* a straight line is gentler than an exponential here */
    assert_true(tdn_summative(heated).digestible_protein > 19.0 * exp(-1.2 * 4.0 / 19.0));
}

static void an_impossible_analysis_gives_no_negative_parts(void **state) {
    (void)state;
    FibreAnalysis analysis = ALFALFA;
    analysis.ndf = 90.0; /* the parts now sum to more than 100 */
    analysis.crude_fat = 0.5;
    const SummativeResult result = tdn_summative(analysis);
    assert_near(result.nfc, 0.0, 0.0);
    assert_near(result.fatty_acids, 0.0, 0.0);
    analysis = (FibreAnalysis){.ndf = 1.0,
                               .ndicp = 2.0,
                               .ash = 99.0,
                               .ndf_digestibility = (double)NAN,
                               .processing_factor = 1.0};
    assert_near(tdn_summative(analysis).tdn, 0.0, 0.0);
    assert_near(tdn_summative(analysis).digestible_energy.mcal_per_kg, 0.0, 0.0);
}

static void feed_value_100_is_full_bloom_alfalfa(void **state) {
    (void)state;
    assert_near(relative_feed_value(41.0, 53.0), 100.0, 0.5);
    assert_true(relative_feed_value(30.0, 40.0) > relative_feed_value(35.0, 50.0));
}

static void heat_never_adds_protein(void **state) {
    (void)state;
    double before = 15.0;
    for (double bound = 0.0; bound <= 15.0; bound += 0.25) {
        const double left = adjusted_crude_protein(15.0, bound);
        assert_true(left <= before && left >= 0.0);
        before = left;
    }
    assert_near(adjusted_crude_protein(15.0, 0.0), 15.0, 0.0);
    assert_near(adjusted_crude_protein(0.0, 0.0), 0.0, 0.0);
    assert_near(adjusted_crude_protein(5.0, 9.0), 0.0, 0.0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(more_fibre_is_never_more_tdn),
        cmocka_unit_test(tdn_of_forage_stays_between_38_and_72),
        cmocka_unit_test(a_legume_takes_the_lower_of_two_lines),
        cmocka_unit_test(a_feed_that_is_no_forage_has_no_fibre_route),
        cmocka_unit_test(more_tdn_is_more_energy_at_every_step),
        cmocka_unit_test(energy_is_lost_at_every_step),
        cmocka_unit_test(net_energy_is_never_below_nothing),
        cmocka_unit_test(the_three_steps_at_once_are_the_three_steps),
        cmocka_unit_test(more_lignin_is_less_tdn),
        cmocka_unit_test(measured_digestibility_comes_before_lignin),
        cmocka_unit_test(bound_protein_costs_energy),
        cmocka_unit_test(an_impossible_analysis_gives_no_negative_parts),
        cmocka_unit_test(feed_value_100_is_full_bloom_alfalfa),
        cmocka_unit_test(heat_never_adds_protein),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
