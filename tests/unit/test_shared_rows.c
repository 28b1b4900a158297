#include "planner/shared_rows.h"

#include "support/unit.h"
#include <math.h>

static void rows_of_one_content_are_one(void **state) {
    SharedRows *rows = shared_rows(*state);
    const double terms[] = {1.0, 0.5, -2.0};
    const double same[] = {1.0, 0.5, -2.0};
    const double *kept = shared_rows_keep(rows, terms, 3);
    assert_ptr_not_equal(kept, terms);
    assert_ptr_equal(shared_rows_keep(rows, same, 3), kept);
    assert_near(kept[2], -2.0, 0.0);
}

static void rows_that_differ_in_the_last_bit_or_in_length_are_two(void **state) {
    SharedRows *rows = shared_rows(*state);
    const double terms[] = {1.0, 0.5, 0.0};
    const double other[] = {1.0, nextafter(0.5, 1.0), 0.0};
    const double *kept = shared_rows_keep(rows, terms, 3);
    const double *beside = shared_rows_keep(rows, other, 3);
    assert_ptr_not_equal(beside, kept);
    assert_near(beside[1], nextafter(0.5, 1.0), 0.0);
    assert_ptr_not_equal(shared_rows_keep(rows, terms, 2), kept);
}

/* More than there is room for at first, one of them longer than any room; then all of it again
 * in the same memory. */
static void many_rows_stay_as_they_are_until_they_are_forgotten(void **state) {
    enum { ROWS = 1000, LONG = 20000 };
    SharedRows *rows = shared_rows(*state);
    static const double *kept[ROWS];
    static double long_row[LONG];
    for (int time = 1; time <= 3; time++) {
        shared_rows_forget(rows);
        for (int i = 0; i < ROWS; i++) {
            const double terms[20] = {i, time, [19] = 1.0};
            if (i == ROWS / 2)
                shared_rows_keep(rows, long_row, LONG);
            kept[i] = shared_rows_keep(rows, terms, 20);
        }
        for (int i = 0; i < ROWS; i++) {
            const double terms[20] = {i, time, [19] = 1.0};
            assert_memory_equal(kept[i], terms, sizeof terms);
            assert_ptr_equal(shared_rows_keep(rows, terms, 20), kept[i]);
        }
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(rows_of_one_content_are_one),
        UNIT_TEST(rows_that_differ_in_the_last_bit_or_in_length_are_two),
        UNIT_TEST(many_rows_stay_as_they_are_until_they_are_forgotten),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
