/* The chance that what is on hand lasts, on the page of what is on hand. */
#include "outcome/stock_report.h"
#include "planner/hard_winter.h"
#include "present/present.h"

#include "support/record_yard.h"
#include "support/told_report.h"

static FarmRequest asked(const char *fed, int month, int day, int winters) {
    FarmRequest request = record_request(fed, NULL, NULL);
    request.has_from = true;
    request.from = calendar_day(month > 6 ? 2026 : 2027, month, day);
    request.winters = (WinterJob){.count = winters, .seed = 7};
    return request;
}

static const char *json_of(Arena *arena, const Report *report) {
    Text text = text_new(arena);
    present_json(report, &text);
    return text.bytes;
}

/* From the object of this key on. */
static const char *from_key(const char *json, const char *key) {
    const char *found = strstr(json, key);
    assert_non_null(found);
    return found;
}

static const char *stock_json(Arena *arena, const FarmRequest *request) {
    Faults faults = faults_new(arena);
    return json_of(arena, task_stock(arena, &faults, request).report);
}

static void what_is_on_hand_says_how_likely_it_lasts(void **state) {
    const FarmRequest request = asked(NULL, 11, 30, 200);
    Faults faults = faults_new(*state);
    const Report *report = task_stock(*state, &faults, &request).report;
    assert_true(report_says(report, "The plan is that of `winterstack plan` with --from "
                                    "2026-12-01. It buys"));
    assert_non_null(strstr(report->verdict, "with what that buys, every group has enough to "
                                            "turnout"));
}

/* Of the same seed: the evening's chance is the chance of the plan of the next morning. */
static void the_chance_is_that_of_the_plan_from_the_next_morning(void **state) {
    const FarmRequest evening =
        asked(FED_HEADING "2026-11-20,Cows,Hay,20,bales,,1\n", 11, 30, 200);
    FarmRequest morning = evening;
    morning.from = calendar_add(evening.from, 1);
    Faults faults = faults_new(*state);
    const char *of_stock = from_key(stock_json(*state, &evening), "\"winters\": {");
    const char *of_plan = from_key(json_of(*state, task_plan(*state, &faults, &morning).report),
                                   "\"winters\": {");
    const size_t told = (size_t)(from_key(of_stock, "\"feeds\"") - of_stock);
    assert_int_equal(strncmp(of_stock, of_plan, told), 0);
    assert_non_null(strstr(of_stock, "\"drawn\": 200"));
}

/* 30 of the 50 t of hay went out over a scale: what is left is 2.5 times as far off. */
static void a_stack_fed_over_a_scale_for_long_is_asked_to_be_counted(void **state) {
    static const char COUNT[] = "Count it again: `winterstack fed` with --left-bales";
    FarmRequest request = asked(FED_HEADING "2026-11-20,Cows,Hay,30,tonnes,,1\n", 11, 30, 50);
    Faults faults = faults_new(*state);
    assert_true(report_says(task_stock(*state, &faults, &request).report, COUNT));
    request.file[FARM_COUNTS] =
        record_file("counts.csv", COUNTS_HEADING "2026-11-29,Hay,20,tonnes,,2\n");
    assert_false(report_says(task_stock(*state, &faults, &request).report, COUNT));
}

static void where_no_winters_are_asked_for_nothing_is_said_of_them(void **state) {
    const FarmRequest request = asked(NULL, 11, 30, 0);
    Faults faults = faults_new(*state);
    const Report *report = task_stock(*state, &faults, &request).report;
    assert_null(strstr(report->verdict, "Will it last"));
    assert_non_null(strstr(json_of(*state, report), "\"winters\": null"));
}

static void with_no_days_left_to_plan_there_is_no_chance_to_tell(void **state) {
    const FarmRequest request = asked(NULL, 5, 20, 200);
    assert_non_null(strstr(stock_json(*state, &request), "\"winters\": null"));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(what_is_on_hand_says_how_likely_it_lasts),
        UNIT_TEST(the_chance_is_that_of_the_plan_from_the_next_morning),
        UNIT_TEST(a_stack_fed_over_a_scale_for_long_is_asked_to_be_counted),
        UNIT_TEST(where_no_winters_are_asked_for_nothing_is_said_of_them),
        UNIT_TEST(with_no_days_left_to_plan_there_is_no_chance_to_tell),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
