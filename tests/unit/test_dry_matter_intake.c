/* Laws of intake. The numbers of the books are cases of tests/published. */
#include "cattle/dry_matter_intake.h"

#include "support/unit.h"

#define HAIR_BREADTH 1e-12 /* of the value: nothing but the last binary digits */

static bool is_same(double a, double b) {
    return fabs(a - b) <= HAIR_BREADTH * fmax(1.0, fabs(b));
}

/* The pregnant cow's law is lowest at n = sqrt(0.04631 / 0.04997) = 0.963. */
static void a_richer_diet_raises_intake_within_its_range(void **state) {
    (void)state;
    static const struct {
        IntakeForm form;
        double from, to;
    } ranges[] = {
        {INTAKE_PREGNANT_COW, 0.97, 1.8}, {INTAKE_OPEN_COW, 0.95, 1.8},
        {INTAKE_NURSING_COW, 0.95, 1.8},  {INTAKE_CALF, 1.0, 1.54},
        {INTAKE_YEARLING, 1.0, 1.35},
    };
    for (size_t i = 0; i < sizeof ranges / sizeof *ranges; i++) {
        const IntakeLaw law = intake_law(ranges[i].form, (FeedRate){8.0}, 1.0);
        for (double n = ranges[i].from; n + 0.01 <= ranges[i].to; n += 0.01) {
            assert_true(intake_at(law, (Mass){500.0}, (EnergyDensity){n + 0.01}).kg_per_day >
                        intake_at(law, (Mass){500.0}, (EnergyDensity){n}).kg_per_day);
        }
    }
}

static void poorer_straw_is_never_eaten_more(void **state) {
    (void)state;
    const IntakeLaw law = intake_law(INTAKE_PREGNANT_COW, (FeedRate){0.0}, 1.0);
    for (double n = 0.0; n < 0.95; n += 0.05) {
        assert_true(
            intake_at(law, (Mass){566.0}, (EnergyDensity){n}).kg_per_day <
            intake_at(law, (Mass){566.0}, (EnergyDensity){fmin(n + 0.05, 0.95)}).kg_per_day);
    }
}

static void a_calf_on_worthless_feed_eats_nothing_and_not_less(void **state) {
    (void)state;
    const IntakeLaw law = intake_law(INTAKE_CALF, (FeedRate){0.0}, 1.0);
    assert_true(intake_at(law, (Mass){200.0}, (EnergyDensity){0.2}).kg_per_day == 0.0);
    assert_true(intake_at(law, (Mass){200.0}, (EnergyDensity){-1.0}).kg_per_day == 0.0);
}

static void milk_makes_a_cow_eat_a_fifth_of_it_more(void **state) {
    (void)state;
    const EnergyDensity hay = {1.25};
    const Mass cow = {520.0};
    const IntakeLaw open = intake_law(INTAKE_OPEN_COW, (FeedRate){10.0}, 1.0);
    const IntakeLaw nursing = intake_law(INTAKE_NURSING_COW, (FeedRate){10.0}, 1.0);
    assert_true(is_same(intake_at(nursing, cow, hay).kg_per_day,
                        intake_at(open, cow, hay).kg_per_day + 2.0));
}

static void a_correction_multiplies_the_whole_intake(void **state) {
    (void)state;
    const EnergyDensity hay = {1.25};
    const IntakeLaw plain = intake_law(INTAKE_NURSING_COW, (FeedRate){10.0}, 1.0);
    const IntakeLaw more =
        intake_law(INTAKE_NURSING_COW, (FeedRate){10.0}, INTAKE_CORRECTION_NURSING);
    assert_true(is_same(intake_at(more, (Mass){520.0}, hay).kg_per_day,
                        1.17 * intake_at(plain, (Mass){520.0}, hay).kg_per_day));
}

static void a_mean_of_laws_is_the_mean_of_intakes(void **state) {
    (void)state;
    const Mass cow = {520.0};
    const EnergyDensity hay = {1.1};
    const IntakeLaw dry = intake_law(INTAKE_PREGNANT_COW, (FeedRate){0.0}, 1.14);
    const IntakeLaw nursing = intake_law(INTAKE_NURSING_COW, (FeedRate){9.0}, 1.17);
    const IntakeLaw none = {0.0, 0.0, 0.0, 0.0};
    const IntakeLaw mean = intake_law_add(intake_law_add(none, dry, 0.7), nursing, 0.3);
    assert_true(is_same(intake_at(mean, cow, hay).kg_per_day,
                        0.7 * intake_at(dry, cow, hay).kg_per_day +
                            0.3 * intake_at(nursing, cow, hay).kg_per_day));
}

static void fat_cattle_never_eat_more(void **state) {
    (void)state;
    for (double kg = 200.0; kg < 700.0; kg += 5.0) {
        const double here = fatness_intake_factor((Mass){kg});
        const double next = fatness_intake_factor((Mass){kg + 5.0});
        assert_true(next <= here && here - next < 0.01);
    }
    assert_true(fatness_intake_factor((Mass){200.0}) == 1.0);
    assert_true(fatness_intake_factor((Mass){900.0}) == 0.73);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_richer_diet_raises_intake_within_its_range),
        UNIT_TEST(poorer_straw_is_never_eaten_more),
        UNIT_TEST(a_calf_on_worthless_feed_eats_nothing_and_not_less),
        UNIT_TEST(milk_makes_a_cow_eat_a_fifth_of_it_more),
        UNIT_TEST(a_correction_multiplies_the_whole_intake),
        UNIT_TEST(a_mean_of_laws_is_the_mean_of_intakes),
        UNIT_TEST(fat_cattle_never_eat_more),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
