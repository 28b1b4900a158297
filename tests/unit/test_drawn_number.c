#include "base/drawn_number.h"
#include "support/unit.h"

/* The first five of seed 1234567, as they are commonly printed for this generator. */
static void it_is_the_published_generator(void **state) {
    (void)state;
    static const uint64_t PRINTED[] = {6457827717110365317u, 3203168211198807973u,
                                       9817491932198370423u, 4593380528125082431u,
                                       16408922859458223821u};
    for (uint64_t i = 0; i < 5; i++)
        assert_true(drawn_bits(1234567, i) == PRINTED[i]);
}

enum { DRAWS = 40000 };

static void shares_are_even(void **state) {
    (void)state;
    double sum = 0.0;
    double squares = 0.0;
    for (uint64_t i = 0; i < DRAWS; i++) {
        const double share = drawn_share(draw_source(7, i), 3);
        assert_true(share > 0.0 && share < 1.0);
        sum += share;
        squares += share * share;
    }
    /* mean 1/2 and mean square 1/3, within five standard errors of so many */
    assert_near(sum / DRAWS, 0.5, 5.0 * sqrt(1.0 / 12.0 / DRAWS));
    assert_near(squares / DRAWS, 1.0 / 3.0, 5.0 * sqrt(4.0 / 45.0 / DRAWS));
}

static void normals_have_mean_nought_and_deviation_one(void **state) {
    (void)state;
    double sum = 0.0;
    double squares = 0.0;
    int within_one = 0;
    for (uint64_t i = 0; i < DRAWS; i++) {
        const double normal = drawn_normal(draw_source(11, i), 0);
        assert_true(fabs(normal) <= MOST_DEVIATIONS);
        sum += normal;
        squares += normal * normal;
        within_one += fabs(normal) < 1.0;
    }
    assert_near(sum / DRAWS, 0.0, 5.0 / sqrt(DRAWS));
    assert_near(squares / DRAWS, 1.0, 5.0 * sqrt(2.0 / DRAWS));
    assert_near((double)within_one / DRAWS, 0.682689, 5.0 * sqrt(0.6827 * 0.3173 / DRAWS));
}

static void neighbours_have_nothing_to_do_with_each_other(void **state) {
    (void)state;
    double winters = 0.0;
    double places = 0.0;
    for (uint64_t i = 0; i < DRAWS; i++) {
        const DrawSource source = draw_source(5, i);
        winters += drawn_normal(source, 1) * drawn_normal(draw_source(5, i + 1), 1);
        places += drawn_normal(source, 1) * drawn_normal(source, 2);
    }
    assert_near(winters / DRAWS, 0.0, 5.0 / sqrt(DRAWS));
    assert_near(places / DRAWS, 0.0, 5.0 / sqrt(DRAWS));
}

static void another_name_is_another_source(void **state) {
    (void)state;
    const DrawSource source = draw_source(1, 1);
    const DrawSource named = draw_source_named(source, "North stack");
    assert_true(named.key == draw_source_named(source, "North stack").key);
    assert_true(named.key != draw_source_named(source, "North stacl").key);
    assert_true(named.key != draw_source_named(draw_source(1, 2), "North stack").key);
    assert_true(named.key != draw_source_at(source, 0).key);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(it_is_the_published_generator),
        cmocka_unit_test(shares_are_even),
        cmocka_unit_test(normals_have_mean_nought_and_deviation_one),
        cmocka_unit_test(neighbours_have_nothing_to_do_with_each_other),
        cmocka_unit_test(another_name_is_another_source),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
