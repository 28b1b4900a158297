#include "planner/linear_program.h"

#include "base/quantity.h"
#include "support/unit.h"
#include <string.h>

#define NONE (-NO_LIMIT)

/* A shop's program: 3 a door and 5 a window, hours of three plants. Best: 2 doors, 6
 * windows, 36. */
static LinearProgram *shop(Arena *arena) {
    LinearProgram *lp = lp_new(arena);
    const int doors = lp_add_column(lp, -3.0, 0.0, NO_LIMIT);
    const int windows = lp_add_column(lp, -5.0, 0.0, NO_LIMIT);
    const int first = lp_add_row(lp, NONE, 4.0);
    const int second = lp_add_row(lp, NONE, 12.0);
    const int third = lp_add_row(lp, NONE, 18.0);
    lp_add_term(lp, first, doors, 1.0);
    lp_add_term(lp, second, windows, 2.0);
    lp_add_term(lp, third, doors, 3.0);
    lp_add_term(lp, third, windows, 2.0);
    return lp;
}

static LpSolution solved(const LinearProgram *lp, Arena *arena) {
    return lp_solve(lp, arena, START_COLD, NULL, 0);
}

/* An hour more of the second plant is half a window and a third of a door less: 2.5 less 1. */
static void values_activities_and_shadow_prices_are_those_worked_by_hand(void **state) {
    const LpSolution solution = solved(shop(*state), *state);
    assert_int_equal(solution.status, LP_OPTIMAL);
    assert_string_equal(solution.remark, "");
    assert_near(solution.cost, -36.0, 1e-9);
    assert_near(solution.value[0], 2.0, 1e-9);
    assert_near(solution.value[1], 6.0, 1e-9);
    assert_near(solution.activity[0], 2.0, 1e-9);
    assert_near(solution.activity[1], 12.0, 1e-9);
    assert_near(solution.activity[2], 18.0, 1e-9);
    assert_near(solution.shadow_price[0], 0.0, 1e-9);
    assert_near(solution.shadow_price[1], -1.5, 1e-9);
    assert_near(solution.shadow_price[2], -1.0, 1e-9);
    assert_near(solution.reduced_cost[0], 0.0, 1e-9);
    assert_near(solution.reduced_cost[1], 0.0, 1e-9);
}

/* At least 4 of two things at 2 and 3: the dearer stays out, and would have to fall by 1. */
static void the_reduced_cost_is_how_much_too_dear_an_unused_column_is(void **state) {
    LinearProgram *lp = lp_new(*state);
    const int cheap = lp_add_column(lp, 2.0, 0.0, NO_LIMIT);
    const int dear = lp_add_column(lp, 3.0, 0.0, NO_LIMIT);
    const int need = lp_add_row(lp, 4.0, NO_LIMIT);
    lp_add_term(lp, need, cheap, 1.0);
    lp_add_term(lp, need, dear, 1.0);
    const LpSolution solution = solved(lp, *state);
    assert_near(solution.cost, 8.0, 1e-9);
    assert_near(solution.value[dear], 0.0, 1e-12);
    assert_near(solution.reduced_cost[dear], 1.0, 1e-9);
    assert_near(solution.shadow_price[need], 2.0, 1e-9);
}

static void columns_keep_to_their_own_bounds(void **state) {
    LinearProgram *lp = lp_new(*state);
    lp_add_column(lp, 1.0, 3.0, 9.0);
    lp_add_column(lp, -1.0, NONE, 7.0);
    lp_add_column(lp, 5.0, 2.0, 2.0);
    lp_add_row(lp, NONE, NO_LIMIT);
    const LpSolution solution = solved(lp, *state);
    assert_near(solution.value[0], 3.0, 1e-9);
    assert_near(solution.value[1], 7.0, 1e-9);
    assert_near(solution.value[2], 2.0, 1e-9);
    assert_near(solution.cost, 3.0 - 7.0 + 10.0, 1e-9);
}

static void a_range_holds_from_both_sides(void **state) {
    LinearProgram *lp = lp_new(*state);
    const int a = lp_add_column(lp, 1.0, 0.0, NO_LIMIT);
    const int row = lp_add_row(lp, 2.0, 5.0);
    lp_add_term(lp, row, a, 1.0);
    assert_near(solved(lp, *state).activity[row], 2.0, 1e-9);
    lp_set_cost(lp, a, -1.0);
    assert_near(solved(lp, *state).activity[row], 5.0, 1e-9);
    lp_set_row_bounds(lp, row, 4.0, 4.0);
    assert_near(solved(lp, *state).activity[row], 4.0, 1e-9);
}

static void terms_of_one_place_add_up(void **state) {
    LinearProgram *lp = lp_new(*state);
    const int a = lp_add_column(lp, 1.0, 0.0, NO_LIMIT);
    const int row = lp_add_row(lp, 6.0, NO_LIMIT);
    lp_add_term(lp, row, a, 1.0);
    lp_add_term(lp, row, a, 2.0);
    assert_near(solved(lp, *state).value[a], 2.0, 1e-9);
    lp_add_term(lp, row, a, -3.0); /* nothing is left of it */
    assert_int_equal(solved(lp, *state).status, LP_INFEASIBLE);
}

static void what_cannot_be_met_is_infeasible(void **state) {
    LinearProgram *lp = shop(*state);
    const int row = lp_add_row(lp, 5.0, NO_LIMIT);
    lp_add_term(lp, row, 0, 1.0); /* five doors where the first plant has hours for four */
    const LpSolution solution = solved(lp, *state);
    assert_int_equal(solution.status, LP_INFEASIBLE);
    assert_string_not_equal(solution.remark, "");
}

static void what_can_get_better_for_ever_is_unbounded(void **state) {
    LinearProgram *lp = lp_new(*state);
    const int a = lp_add_column(lp, -1.0, 0.0, NO_LIMIT);
    const int b = lp_add_column(lp, 0.0, 0.0, NO_LIMIT);
    const int row = lp_add_row(lp, NONE, 1.0);
    lp_add_term(lp, row, a, 1.0);
    lp_add_term(lp, row, b, -1.0);
    assert_int_equal(solved(lp, *state).status, LP_UNBOUNDED);
}

/* Three rows meet in the best corner of two columns. */
static void a_degenerate_corner_is_found(void **state) {
    LinearProgram *lp = lp_new(*state);
    const int a = lp_add_column(lp, -1.0, 0.0, NO_LIMIT);
    const int b = lp_add_column(lp, -1.0, 0.0, NO_LIMIT);
    const int both = lp_add_row(lp, NONE, 2.0);
    const int one = lp_add_row(lp, NONE, 1.0);
    const int other = lp_add_row(lp, NONE, 1.0);
    lp_add_term(lp, both, a, 1.0);
    lp_add_term(lp, both, b, 1.0);
    lp_add_term(lp, one, a, 1.0);
    lp_add_term(lp, other, b, 1.0);
    const LpSolution solution = solved(lp, *state);
    assert_near(solution.cost, -2.0, 1e-9);
    assert_near(solution.value[a], 1.0, 1e-9);
    assert_near(solution.value[b], 1.0, 1e-9);
}

static void a_program_without_columns_fails_and_says_so(void **state) {
    const LpSolution solution = solved(lp_new(*state), *state);
    assert_int_equal(solution.status, LP_FAILED);
    assert_string_not_equal(solution.remark, "");
}

/* ---- starts ---- */

static void
a_start_from_the_last_basis_after_other_costs_ends_where_a_cold_one_does(void **state) {
    LinearProgram *lp = shop(*state);
    const LpSolution before = solved(lp, *state);
    lp_set_cost(lp, 0, -9.0); /* doors at 9: four of them, three windows */
    const LpSolution warm = lp_solve(lp, *state, START_COSTS_CHANGED, &before.basis, 0);
    assert_near(warm.cost, -51.0, 1e-9);
    assert_near(solved(lp, *state).cost, -51.0, 1e-9);
}

static void
a_start_from_the_last_basis_after_other_bounds_ends_where_a_cold_one_does(void **state) {
    LinearProgram *lp = shop(*state);
    const LpSolution before = solved(lp, *state);
    lp_set_row_bounds(lp, 1, NONE, 8.0); /* 4 windows, 10/3 doors */
    const LpSolution warm = lp_solve(lp, *state, START_BOUNDS_CHANGED, &before.basis, 0);
    assert_near(warm.cost, -30.0, 1e-9);
    assert_near(solved(lp, *state).cost, -30.0, 1e-9);
    lp_set_column_bounds(lp, 0, 0.0, 1.0);
    const LpSolution fewer = lp_solve(lp, *state, START_BOUNDS_CHANGED, &warm.basis, 0);
    assert_near(fewer.cost, -23.0, 1e-9);
}

static void a_start_from_its_own_basis_needs_no_step(void **state) {
    LinearProgram *lp = shop(*state);
    const LpSolution before = solved(lp, *state);
    assert_true(before.iterations > 0);
    const LpSolution again = lp_solve(lp, *state, START_COSTS_CHANGED, &before.basis, 0);
    assert_int_equal(again.iterations, 0);
    assert_near(again.cost, before.cost, 1e-12);
}

static void a_basis_of_another_size_is_dropped(void **state) {
    LinearProgram *lp = shop(*state);
    const LpSolution before = solved(lp, *state);
    const int row = lp_add_row(lp, NONE, 5.0);
    lp_add_term(lp, row, 1, 1.0);
    const LpSolution warm = lp_solve(lp, *state, START_COSTS_CHANGED, &before.basis, 0);
    assert_int_equal(warm.status, LP_OPTIMAL);
    assert_near(warm.cost, -3.0 * 8.0 / 3.0 - 25.0, 1e-9);
}

static void a_basis_that_is_none_is_dropped(void **state) {
    LinearProgram *lp = shop(*state);
    unsigned char row[] = {AT_MOST, AT_MOST, AT_MOST};
    unsigned char column[] = {AT_LEAST, AT_LEAST};
    const LpBasis nothing_basic = {3, 2, row, column};
    assert_near(lp_solve(lp, *state, START_COSTS_CHANGED, &nothing_basic, 0).cost, -36.0, 1e-9);
    assert_near(lp_solve(lp, *state, START_BOUNDS_CHANGED, NULL, 0).cost, -36.0, 1e-9);
}

/* Ten needs of ten feeds take more than one step. */
static void a_limit_on_steps_fails(void **state) {
    LinearProgram *lp = lp_new(*state);
    for (int j = 0; j < 10; j++)
        lp_add_column(lp, 1.0 + 0.1 * j, 0.0, NO_LIMIT);
    for (int i = 0; i < 10; i++) {
        const int row = lp_add_row(lp, 1.0 + i, NO_LIMIT);
        for (int j = 0; j < 10; j++)
            lp_add_term(lp, row, j, i == j ? 2.0 : 0.1);
    }
    assert_int_equal(lp_solve(lp, *state, START_COLD, NULL, 1).status, LP_FAILED);
    assert_int_equal(lp_solve(lp, *state, START_COLD, NULL, 1000).status, LP_OPTIMAL);
}

/* ---- programs as values ---- */

static void a_copy_goes_its_own_way(void **state) {
    LinearProgram *lp = shop(*state);
    LinearProgram *copy = lp_copy(lp, *state);
    lp_set_cost(copy, 0, -9.0);
    lp_set_row_bounds(copy, 2, NONE, 12.0);
    const int more = lp_add_row(copy, 1.0, NO_LIMIT);
    lp_add_term(copy, more, 1, 1.0);
    assert_near(solved(copy, *state).cost, -35.0, 1e-9); /* one window, ten thirds of a door */
    assert_near(solved(lp, *state).cost, -36.0, 1e-9);
    assert_int_equal(lp_row_count(lp), 3);
    assert_int_equal(lp_row_count(copy), 4);
    assert_int_equal(lp_column_count(copy), 2);
    assert_near(lp_cost(lp, 0), -3.0, 0.0);
    assert_near(lp_row_most(lp, 2), 18.0, 0.0);
    assert_near(lp_row_most(copy, 2), 12.0, 0.0);
}

/* More rows, columns and terms than the first room for them. */
static void a_program_grows_as_it_is_built(void **state) {
    LinearProgram *lp = lp_new(*state);
    for (int j = 0; j < 1000; j++) {
        const int column = lp_add_column(lp, 1.0, 0.0, NO_LIMIT);
        const int row = lp_add_row(lp, 1.0 + j, NO_LIMIT);
        lp_add_term(lp, row, column, 1.0);
    }
    assert_near(solved(lp, *state).cost, 500500.0, 1e-6); /* 1 + 2 + ... + 1000 */
}

/* Two rows of one array: at least 4 and at most 7 of a + 3 c; what stands at 0 is no term. */
static void rows_that_share_their_terms_are_each_a_row(void **state) {
    static const int column[] = {0, 1, 2};
    static const double coefficient[] = {1.0, 0.0, 3.0};
    LinearProgram *lp = lp_new(*state);
    for (int j = 0; j < 3; j++)
        lp_add_column(lp, j == 1 ? 1.0 : -1.0, 0.0, NO_LIMIT);
    lp_add_row_terms(lp, lp_add_row(lp, 4.0, NO_LIMIT), 3, column, coefficient);
    lp_add_row_terms(lp, lp_add_row(lp, NONE, 7.0), 3, column, coefficient);
    lp_add_term(lp, 1, 2, -1.0);
    const LpTerms terms = lp_terms(lp, *state);
    assert_int_equal(terms.start[3], 4);
    assert_int_equal(terms.start[1], terms.start[2]);
    const LpSolution found = solved(lp, *state); /* 7 a, since c at most brings 3.5 */
    assert_near(found.cost, -7.0, 1e-9);
    assert_near(solved(lp_copy(lp, *state), *state).cost, -7.0, 1e-9);
    double activity[2] = {0.0, 0.0};
    const double value[] = {2.0, 5.0, 1.0};
    lp_add_activities(lp, value, activity);
    assert_near(activity[0], 5.0, 1e-12);
    assert_near(activity[1], 4.0, 1e-12);
}

static void free_mps_says_the_whole_program(void **state) {
    LinearProgram *lp = lp_new(*state);
    const int a = lp_add_column(lp, 1.5, 0.0, 8.0);
    const int b = lp_add_column(lp, -2.0, 1.0, NO_LIMIT);
    const int c = lp_add_column(lp, 0.0, NONE, NO_LIMIT);
    const int d = lp_add_column(lp, 0.0, NONE, 4.0);
    const int least = lp_add_row(lp, 2.0, NO_LIMIT);
    const int most = lp_add_row(lp, NONE, 9.0);
    const int equal = lp_add_row(lp, 0.0, 0.0);
    const int range = lp_add_row(lp, 1.0, 5.0);
    lp_add_term(lp, least, a, 1.0);
    lp_add_term(lp, most, a, 0.25);
    lp_add_term(lp, most, b, 2.0);
    lp_add_term(lp, most, b, 1.0);
    lp_add_term(lp, equal, b, 1.0);
    lp_add_term(lp, equal, c, -1.0);
    lp_add_term(lp, range, d, 1.0);
    Text text = text_new(*state);
    lp_mps_text(lp, &text);
    assert_string_equal(text.bytes,
                        "NAME WINTER FREE\n"
                        "ROWS\n N COST\n G r1\n L r2\n E r3\n L r4\n"
                        "COLUMNS\n"
                        " x1 COST 1.5\n x1 r1 1\n x1 r2 0.25\n"
                        " x2 COST -2\n x2 r2 3\n x2 r3 1\n"
                        " x3 COST 0\n x3 r3 -1\n"
                        " x4 COST 0\n x4 r4 1\n"
                        "RHS\n RHS r1 2\n RHS r2 9\n RHS r4 5\n"
                        "RANGES\n RANGE r4 4\n"
                        "BOUNDS\n UP B x1 8\n LO B x2 1\n FR B x3\n MI B x4\n UP B x4 4\n"
                        "ENDATA\n");
}

/* ---- whole numbers ---- */

static const LpEffort ENOUGH = {1000, 100000, 0.0};

/* A trailer of 10 t and loads of 6, 5 and 4 t that pay 9, 8 and 7: by halves the best is 5 + 4
 * and a sixth of 6 t, 16.5; by wholes 6 + 4 pays 16 and 5 + 4 pays 15. */
static LinearProgram *trailer(Arena *arena) {
    static const double TONNES[] = {6, 5, 4};
    static const double PAYS[] = {9, 8, 7};
    LinearProgram *lp = lp_new(arena);
    const int room = lp_add_row(lp, NONE, 10.0);
    for (int i = 0; i < 3; i++) {
        const int load = lp_add_column(lp, -PAYS[i], 0.0, 1.0);
        lp_add_term(lp, room, load, TONNES[i]);
        lp_set_whole(lp, load, true);
    }
    return lp;
}

static void whole_columns_take_the_best_whole_numbers(void **state) {
    LinearProgram *lp = trailer(*state);
    assert_near(solved(lp, *state).cost, -16.5, 1e-9);
    const LpWhole whole = lp_solve_whole(lp, *state, NULL, NULL, ENOUGH);
    assert_int_equal(whole.status, LP_OPTIMAL);
    assert_near(whole.cost, -16.0, 1e-9);
    assert_near(whole.bound, -16.0, 1e-9); /* proved */
    assert_true(whole.value[0] == 1.0 && whole.value[1] == 0.0 && whole.value[2] == 1.0);
    lp_set_whole(lp, 0, false); /* now the sixth of 6 t may go again */
    assert_near(lp_solve_whole(lp, *state, NULL, NULL, ENOUGH).cost, -16.5, 1e-9);
}

/* Twice a whole number is never an odd one. */
static void where_no_whole_number_fits_none_is_found(void **state) {
    LinearProgram *lp = lp_new(*state);
    const int pairs = lp_add_column(lp, 1.0, 0.0, 10.0);
    lp_add_term(lp, lp_add_row(lp, 7.0, 7.0), pairs, 2.0);
    lp_set_whole(lp, pairs, true);
    const LpWhole whole = lp_solve_whole(lp, *state, NULL, NULL, ENOUGH);
    assert_int_not_equal(whole.status, LP_OPTIMAL);
    assert_null(whole.value);
    assert_true(whole.remark[0] != '\0');
}

/* 5 + 4 t pay 15; the search is ended at its first node. */
static void a_search_cut_short_keeps_what_was_known_and_tells_the_bound(void **state) {
    static const double KNOWN[] = {0, 1, 1};
    const LpWhole whole =
        lp_solve_whole(trailer(*state), *state, NULL, KNOWN, (LpEffort){0, 100000, 0.0});
    assert_true(whole.bound <= -16.0 + 1e-9 && whole.bound >= -16.5 - 1e-9);
    assert_int_equal(whole.status, LP_OPTIMAL);
    assert_near(whole.cost, -15.0, 1e-9);
    assert_memory_equal(whole.value, KNOWN, sizeof KNOWN);
}

static void the_same_effort_gives_the_same_answer(void **state) {
    const LpEffort little = {2, 100000, 0.0};
    const LpWhole once = lp_solve_whole(trailer(*state), *state, NULL, NULL, little);
    const LpWhole twice = lp_solve_whole(trailer(*state), *state, NULL, NULL, little);
    assert_int_equal(once.status, twice.status);
    assert_true(once.cost == twice.cost && once.bound == twice.bound);
    assert_int_equal(once.nodes, twice.nodes);
}

static void free_mps_marks_whole_columns(void **state) {
    LinearProgram *lp = lp_new(*state);
    const int row = lp_add_row(lp, NONE, 3.0);
    const int a = lp_add_column(lp, 1.0, 0.0, NO_LIMIT);
    const int b = lp_add_column(lp, 1.0, 0.0, 4.0);
    lp_add_term(lp, row, a, 1.0);
    lp_add_term(lp, row, b, 1.0);
    lp_set_whole(lp, a, true);
    Text first = text_new(*state);
    lp_mps_text(lp, &first);
    assert_string_equal(first.bytes,
                        "NAME WINTER FREE\nROWS\n N COST\n L r1\nCOLUMNS\n"
                        " MARK 'MARKER' 'INTORG'\n x1 COST 1\n x1 r1 1\n"
                        " MARK 'MARKER' 'INTEND'\n x2 COST 1\n x2 r1 1\n"
                        "RHS\n RHS r1 3\nRANGES\nBOUNDS\n PL B x1\n UP B x2 4\nENDATA\n");
    lp_set_whole(lp, b, true);
    Text last = text_new(*state);
    lp_mps_text(lp, &last);
    assert_non_null(strstr(last.bytes, " x2 r1 1\n MARK 'MARKER' 'INTEND'\nRHS\n"));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(values_activities_and_shadow_prices_are_those_worked_by_hand),
        UNIT_TEST(the_reduced_cost_is_how_much_too_dear_an_unused_column_is),
        UNIT_TEST(columns_keep_to_their_own_bounds),
        UNIT_TEST(a_range_holds_from_both_sides),
        UNIT_TEST(terms_of_one_place_add_up),
        UNIT_TEST(what_cannot_be_met_is_infeasible),
        UNIT_TEST(what_can_get_better_for_ever_is_unbounded),
        UNIT_TEST(a_degenerate_corner_is_found),
        UNIT_TEST(a_program_without_columns_fails_and_says_so),
        UNIT_TEST(a_start_from_the_last_basis_after_other_costs_ends_where_a_cold_one_does),
        UNIT_TEST(a_start_from_the_last_basis_after_other_bounds_ends_where_a_cold_one_does),
        UNIT_TEST(a_start_from_its_own_basis_needs_no_step),
        UNIT_TEST(a_basis_of_another_size_is_dropped),
        UNIT_TEST(a_basis_that_is_none_is_dropped),
        UNIT_TEST(a_limit_on_steps_fails),
        UNIT_TEST(a_copy_goes_its_own_way),
        UNIT_TEST(a_program_grows_as_it_is_built),
        UNIT_TEST(rows_that_share_their_terms_are_each_a_row),
        UNIT_TEST(free_mps_says_the_whole_program),
        UNIT_TEST(whole_columns_take_the_best_whole_numbers),
        UNIT_TEST(where_no_whole_number_fits_none_is_found),
        UNIT_TEST(a_search_cut_short_keeps_what_was_known_and_tells_the_bound),
        UNIT_TEST(the_same_effort_gives_the_same_answer),
        UNIT_TEST(free_mps_marks_whole_columns),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
