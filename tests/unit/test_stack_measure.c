#include "stock/stack_measure.h"
#include "stock/storage_loss.h"

#include "support/unit.h"

static const StorageLoss TWINE_OUTSIDE = {0.12, 0.01};

/* A round thing just fits into its box: pi/4 of it. */
static void a_round_bale_is_less_than_its_box(void **state) {
    (void)state;
    const double box = box_volume(1.8, 1.8, 1.5).cubic_metres;
    assert_near(round_bale_volume(1.8, 1.5).cubic_metres / box, atan(1.0), 1e-12);
}

static void a_bag_is_a_long_bale(void **state) {
    (void)state;
    assert_near(bag_volume(2.7, 40.0).cubic_metres, round_bale_volume(2.7, 40.0).cubic_metres,
                0.0);
}

static void a_pit_with_walls_and_faces_is_a_box(void **state) {
    (void)state;
    const Pit pit = {
        .floor_width_m = 9.0, .top_width_m = 9.0, .height_m = 3.0, .full_length_m = 30.0};
    assert_near(pit_volume(pit).cubic_metres, box_volume(30.0, 9.0, 3.0).cubic_metres, 1e-9);
}

static void two_ramps_hold_what_one_ramp_length_would(void **state) {
    (void)state;
    Pit pit = {
        .floor_width_m = 8.0, .top_width_m = 10.0, .height_m = 2.8, .full_length_m = 40.0};
    Pit longer = pit;
    pit.first_ramp_m = pit.second_ramp_m = 6.0;
    longer.full_length_m = 46.0;
    assert_near(pit_volume(pit).cubic_metres, pit_volume(longer).cubic_metres, 1e-9);
}

static void a_cone_of_grain_holds_a_third_of_its_cylinder(void **state) {
    (void)state;
    const double flat = bin_volume(5.0, 3.0, 0.0).cubic_metres;
    assert_near(bin_volume(5.0, 3.0, 3.0).cubic_metres, flat * 4.0 / 3.0, 1e-9);
}

static void drying_loses_no_dry_matter(void **state) {
    (void)state;
    const Mass dried = weight_at_moisture((Mass){640.0}, 0.18, 0.12);
    assert_near(dried.kg * (1.0 - 0.12), 640.0 * (1.0 - 0.18), 1e-9);
    assert_near(weight_at_moisture(dried, 0.12, 0.18).kg, 640.0, 1e-9);
    assert_near(weight_at_moisture((Mass){640.0}, 0.15, 0.15).kg, 640.0, 1e-9);
}

static void the_skin_of_a_bale_runs_from_nothing_to_all(void **state) {
    (void)state;
    assert_near(weathered_share(1.5, 0.0), 0.0, 0.0);
    assert_near(weathered_share(1.5, 0.75), 1.0, 1e-12);
    assert_near(weathered_share(1.5, 2.0), 1.0, 1e-12); /* thicker than the bale */
    assert_true(weathered_share(1.2, 0.05) > weathered_share(1.8, 0.05));
}

static void loss_never_falls_with_time(void **state) {
    (void)state;
    double before = 0.0;
    for (double months = 0.0; months <= 120.0; months += 0.25) {
        const double lost = storage_loss_share(TWINE_OUTSIDE, months);
        assert_true(lost >= before && lost <= 0.95);
        before = lost;
    }
}

static void loss_starts_at_nothing_and_meets_the_table(void **state) {
    (void)state;
    assert_near(storage_loss_share(TWINE_OUTSIDE, 0.0), 0.0, 0.0);
    assert_near(storage_loss_share(TWINE_OUTSIDE, -2.0), 0.0, 0.0); /* not put up yet */
    assert_near(storage_loss_share(TWINE_OUTSIDE, 8.0), 0.12, 1e-12);
    assert_near(storage_loss_share(TWINE_OUTSIDE, 8.0 + 1e-9), 0.12, 1e-9);
    assert_near(storage_loss_share(TWINE_OUTSIDE, 12.0), 0.16, 1e-12);
}

static void most_is_lost_in_the_first_months(void **state) {
    (void)state;
    const double early = storage_loss_share(TWINE_OUTSIDE, 4.0);
    assert_true(early > TWINE_OUTSIDE.share_by_month_8 / 2.0);
}

static void something_is_always_left(void **state) {
    (void)state;
    const StorageLoss rotten = {0.9, 0.5};
    assert_near(storage_loss_share(rotten, 24.0), 0.95, 0.0);
    assert_near(storage_loss_between(rotten, 24.0, 36.0), 0.0, 0.0);
}

static void losses_before_and_after_counting_multiply(void **state) {
    (void)state;
    for (double counted = 0.0; counted <= 20.0; counted += 1.5) {
        for (double used = counted; used <= 24.0; used += 1.5) {
            const double left = (1.0 - storage_loss_share(TWINE_OUTSIDE, counted)) *
                                (1.0 - storage_loss_between(TWINE_OUTSIDE, counted, used));
            assert_near(left, 1.0 - storage_loss_share(TWINE_OUTSIDE, used), 1e-12);
        }
    }
}

static void nothing_is_lost_on_the_day_of_counting(void **state) {
    (void)state;
    assert_near(storage_loss_between(TWINE_OUTSIDE, 5.0, 5.0), 0.0, 1e-12);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_round_bale_is_less_than_its_box),
        cmocka_unit_test(a_bag_is_a_long_bale),
        cmocka_unit_test(a_pit_with_walls_and_faces_is_a_box),
        cmocka_unit_test(two_ramps_hold_what_one_ramp_length_would),
        cmocka_unit_test(a_cone_of_grain_holds_a_third_of_its_cylinder),
        cmocka_unit_test(drying_loses_no_dry_matter),
        cmocka_unit_test(the_skin_of_a_bale_runs_from_nothing_to_all),
        cmocka_unit_test(loss_never_falls_with_time),
        cmocka_unit_test(loss_starts_at_nothing_and_meets_the_table),
        cmocka_unit_test(most_is_lost_in_the_first_months),
        cmocka_unit_test(something_is_always_left),
        cmocka_unit_test(losses_before_and_after_counting_multiply),
        cmocka_unit_test(nothing_is_lost_on_the_day_of_counting),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
