/* Weeks that nobody wrote down made a yard look full, and the winter sure. */
#include "outcome/record_gap.h"

#include "outcome/stock_report.h"
#include "support/record_yard.h"
#include "support/told_report.h"

static Day on(int month, int day) { return calendar_day(month > 6 ? 2026 : 2027, month, day); }

static int gap(Arena *arena, const char *fed, const char *counts, Day evening) {
    return record_gap_days(record_farm(arena, fed, counts, NULL), evening);
}

#define FED                                                                                    \
    FED_HEADING "2026-11-20,Cows,Hay,6,bales,,1\n2026-12-25,Cows,Bought hay,1,tonnes,,2\n"

static void days_without_a_row_are_counted_from_the_last_one(void **state) {
    assert_int_equal(gap(*state, FED, NULL, on(11, 20)), 0);
    assert_int_equal(gap(*state, FED, NULL, on(12, 5)), 15);
    assert_int_equal(gap(*state, FED, NULL, on(12, 27)), 2);
    assert_int_equal(gap(*state, FED, COUNTS_HEADING "2026-12-01,Hay,80,bales,,3\n", on(12, 5)),
                     4);
}

static void only_days_of_the_winter_count(void **state) {
    assert_int_equal(gap(*state, NULL, NULL, on(10, 20)), 0);
    assert_int_equal(gap(*state, NULL, NULL, on(11, 3)), 3);
    assert_int_equal(gap(*state, NULL, NULL, calendar_day(2027, 8, 1)), 201);
}

static TaskResult asked(Arena *arena,
                        TaskResult (*task)(Arena *, Faults *, const FarmRequest *), Day from) {
    FarmRequest request = record_request(FED, NULL, NULL);
    request.has_from = true;
    request.from = from;
    Faults faults = faults_new(arena);
    return task(arena, &faults, &request);
}

static const char SAID[] =
    "Nothing is written down for the 15 feeding days from 21 Nov to 5 Dec "
    "2026.";

static void what_is_on_hand_says_that_weeks_were_not_written_down(void **state) {
    const Report *late = asked(*state, task_stock, on(12, 5)).report;
    assert_true(report_says(late, SAID));
    assert_int_equal(strncmp(late->verdict, "Days of feeding are not written down", 36), 0);
    assert_false(
        report_says(asked(*state, task_stock, on(12, 4)).report, "Nothing is written"));
}

static void the_plan_of_the_rest_says_so_too(void **state) {
    assert_true(report_says(asked(*state, task_plan, on(12, 6)).report, SAID));
    assert_false(report_says(asked(*state, task_plan, on(12, 5)).report, "Nothing is written"));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(days_without_a_row_are_counted_from_the_last_one),
        UNIT_TEST(only_days_of_the_winter_count),
        UNIT_TEST(what_is_on_hand_says_that_weeks_were_not_written_down),
        UNIT_TEST(the_plan_of_the_rest_says_so_too),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
