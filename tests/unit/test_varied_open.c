/* Two futures whose costs meet: around there the difference is small, and how far it may be
 * trusted is told. */
#include "outcome/varied_report.h"

#include "support/unit.h"
#include <math.h>
#include <string.h>

#define COUNT 3
static const double GRID[COUNT] = {0.0, 100.0, 200.0};

typedef struct {
    CostPiece pieces[2];
    VariedFuture futures[2];
    VariedPair pair;
    VariedCost varied;
} Meeting;

/* 1,000 whatever the number, and 10 of it up to 100, then 5 of it and 500: they meet at 100. */
static Meeting *a_meeting(Arena *arena, double open) {
    static const double FLAT[COUNT] = {1000.0, 1000.0, 1000.0};
    static const double RISING[COUNT] = {0.0, 1000.0, 1500.0};
    static const CostPiece STRAIGHT[] = {
        {.from = 0.0, .to = 200.0, .cost_from = 1000.0, .cost_to = 1000.0}};
    static const CostPiece BENT[] = {
        {.from = 0.0, .to = 100.0, .cost_from = 0.0, .cost_to = 1000.0},
        {.from = 100.0, .to = 200.0, .cost_from = 1000.0, .cost_to = 1500.0}};
    Meeting *of = ARENA_NEW(arena, Meeting);
    of->futures[0] =
        (VariedFuture){.name = "flat", .pieces = STRAIGHT, .piece_count = 1, .cost = FLAT};
    of->futures[1] =
        (VariedFuture){.name = "rising", .pieces = BENT, .piece_count = 2, .cost = RISING};
    of->pair = (VariedPair){.a = 0,
                            .b = 1,
                            .count = 1,
                            .found = {{.at = 100.0, .before = 100.0, .behind = 100.0}},
                            .open = open};
    of->varied = (VariedCost){.what = "a number",
                              .heading = "number",
                              .range = {0.0, 200.0, false},
                              .grid = GRID,
                              .grid_count = COUNT,
                              .futures = of->futures,
                              .future_count = 2,
                              .pairs = &of->pair,
                              .pair_count = 1};
    return of;
}

static void around_a_break_even_the_values_that_are_left_open_are_told(void **state) {
    const Meeting *of = a_meeting(*state, 200.0);
    const CurveRange open = varied_open(&of->varied, &of->pair, of->pair.found);
    assert_near(open.from, 80.0, 1e-9); /* 10 a unit: 200 are 20 of them */
    assert_near(open.to, 140.0, 1e-9);  /* 5 a unit: 40 */
    assert_false(varied_is_open_everywhere(&of->varied, &of->pair));
}

static void what_is_left_open_ends_where_the_range_does(void **state) {
    const Meeting *of = a_meeting(*state, 600.0);
    const CurveRange open = varied_open(&of->varied, &of->pair, of->pair.found);
    assert_near(open.from, 40.0, 1e-9);
    assert_near(open.to, 200.0, 0.0);
}

static void a_pair_that_never_differs_by_more_is_open_everywhere(void **state) {
    const Meeting *of = a_meeting(*state, 1000.0);
    assert_true(varied_is_open_everywhere(&of->varied, &of->pair));
    const Meeting *unknown = a_meeting(*state, (double)NAN);
    assert_false(varied_is_open_everywhere(&unknown->varied, &unknown->pair));
}

static const char *told(Arena *arena, const Meeting *of) {
    Report *report = report_new(arena, "");
    varied_report_add(report, &of->varied, UNITS_METRIC);
    return report->first->first->text;
}

static void the_page_says_how_far_from_the_break_even_it_may_not_be_trusted(void **state) {
    assert_non_null(strstr(told(*state, a_meeting(*state, 200.0)),
                           "From about 80.00 to 140.00 they differ by no more than tests and "
                           "weights leave open ($200)"));
    assert_non_null(strstr(told(*state, a_meeting(*state, 1000.0)),
                           "At no value tried do they differ by more"));
    assert_null(strstr(told(*state, a_meeting(*state, 0.0)), "leave open"));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(around_a_break_even_the_values_that_are_left_open_are_told),
        UNIT_TEST(what_is_left_open_ends_where_the_range_does),
        UNIT_TEST(a_pair_that_never_differs_by_more_is_open_everywhere),
        UNIT_TEST(the_page_says_how_far_from_the_break_even_it_may_not_be_trusted),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
