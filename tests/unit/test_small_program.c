#include "planner/small_program.h"

#include "base/quantity.h"
#include "support/unit.h"

#define NONE (-NO_LIMIT)

/* Two feeds and two needs: hay of 1 Mcal and 100 g at 10 cents, grain of 2 Mcal and 100 g at
 * 30; at least 12 Mcal and 1,000 g, at most 11 kg. All hay would be 12 kg: one kilogram of
 * grain for two of hay makes room. 10 hay and 1 grain: 1.30. */
typedef struct {
    SmallProgram program;
    double cost[2];
    SmallBasis basis;
    SmallWork *work;
} Ration;

static Ration ration(Arena *arena) {
    static const double energy[] = {1.0, 2.0};
    static const double protein[] = {100.0, 100.0};
    static const double room[] = {1.0, 1.0};
    static const double *const term[] = {energy, protein, room};
    static double row_least[] = {12.0, 1000.0, NONE};
    static double row_most[] = {NO_LIMIT, NO_LIMIT, 11.0};
    static double least[] = {0.0, 0.0};
    static double most[] = {NO_LIMIT, NO_LIMIT};
    Ration made = {
        .program = {3, 2, term, row_least, row_most, least, most, 0, NULL, NULL},
        .cost = {0.10, 0.30},
        .basis = {ARENA_ARRAY(arena, unsigned char, 3), ARENA_ARRAY(arena, unsigned char, 2),
                  false, small_kept(arena)},
        .work = small_work(arena, 3, 2),
    };
    row_least[0] = 12.0;
    row_most[2] = 11.0;
    small_basis_reset(&made.program, &made.basis);
    return made;
}

static LpStatus solved(Ration *of) {
    return small_solve(of->work, &of->program, of->cost, &of->basis);
}

static void a_ration_is_the_one_worked_by_hand(void **state) {
    Ration of = ration(*state);
    assert_int_equal(solved(&of), LP_OPTIMAL);
    assert_near(small_values(of.work)[0], 10.0, 1e-12);
    assert_near(small_values(of.work)[1], 1.0, 1e-12);
    assert_near(small_cost(of.work), 1.30, 1e-12);
}

/* One Mcal more: a kilogram of grain in place of one of hay, 20 cents. One kilogram of room
 * more: two of hay for one of grain, 10 cents saved. Protein is not tight. */
static void prices_of_rows_are_those_of_one_unit_more(void **state) {
    Ration of = ration(*state);
    assert_int_equal(solved(&of), LP_OPTIMAL);
    assert_near(small_row_prices(of.work)[0], 0.20, 1e-12);
    assert_near(small_row_prices(of.work)[1], 0.0, 1e-12);
    assert_near(small_row_prices(of.work)[2], -0.10, 1e-12);
}

static void an_answer_solved_again_takes_no_step(void **state) {
    Ration of = ration(*state);
    assert_int_equal(solved(&of), LP_OPTIMAL);
    const long steps = small_steps(of.work);
    assert_true(steps > 0);
    assert_int_equal(solved(&of), LP_OPTIMAL);
    assert_int_equal(small_steps(of.work), steps);
}

/* At 4 cents grain alone is cheapest: 10 kg for the protein. */
static void another_price_is_reached_from_the_last_answer(void **state) {
    Ration of = ration(*state);
    assert_int_equal(solved(&of), LP_OPTIMAL);
    of.cost[1] = 0.04;
    assert_int_equal(solved(&of), LP_OPTIMAL);
    assert_near(small_values(of.work)[1], 10.0, 1e-12);
    assert_near(small_cost(of.work), 0.40, 1e-12);
}

/* 14 Mcal in 11 kg: 8 hay and 3 grain. */
static void another_need_is_reached_from_the_last_answer(void **state) {
    Ration of = ration(*state);
    assert_int_equal(solved(&of), LP_OPTIMAL);
    of.program.row_least[0] = 14.0;
    assert_int_equal(solved(&of), LP_OPTIMAL);
    assert_near(small_values(of.work)[0], 8.0, 1e-12);
    assert_near(small_values(of.work)[1], 3.0, 1e-12);
}

/* 23 Mcal would be 11.5 kg of grain. */
static void a_need_beyond_the_room_is_infeasible(void **state) {
    Ration of = ration(*state);
    of.program.row_least[0] = 23.0;
    assert_int_equal(solved(&of), LP_INFEASIBLE);
}

static void a_feed_that_pays_without_end_is_unbounded(void **state) {
    Ration of = ration(*state);
    of.program.row_most[2] = NO_LIMIT;
    of.cost[0] = -0.01;
    assert_int_equal(solved(&of), LP_UNBOUNDED);
}

/* Hay at most 4 kg: 4 hay and 6 grain for the protein, 16 Mcal. */
static void a_column_stops_at_its_most(void **state) {
    Ration of = ration(*state);
    double most[] = {4.0, NO_LIMIT};
    of.program.most = most;
    assert_int_equal(solved(&of), LP_OPTIMAL);
    assert_near(small_values(of.work)[0], 4.0, 1e-12);
    assert_near(small_values(of.work)[1], 6.0, 1e-12);
    assert_near(small_reduced_costs(of.work)[0], -0.20, 1e-12);
}

/* All columns basic and no row tight is no basis. */
static void a_basis_that_is_none_is_dropped(void **state) {
    Ration of = ration(*state);
    of.basis.column[0] = of.basis.column[1] = BASIC;
    assert_int_equal(solved(&of), LP_OPTIMAL);
    assert_near(small_cost(of.work), 1.30, 1e-12);
}

/* A dearer need gives exact ties: at no price of either feed are all rations equal, and any
 * step may be one of many; the solver must still end. */
static void equal_feeds_end_in_an_answer(void **state) {
    Ration of = ration(*state);
    static const double energy[] = {1.0, 1.0};
    const double *const same[] = {energy, of.program.term[1], of.program.term[2]};
    of.program.term = same;
    of.program.row_least[0] = 10.0;
    of.cost[0] = of.cost[1] = 0.0;
    assert_int_equal(solved(&of), LP_OPTIMAL);
    assert_near(small_values(of.work)[0] + small_values(of.work)[1], 10.0, 1e-12);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_ration_is_the_one_worked_by_hand),
        UNIT_TEST(prices_of_rows_are_those_of_one_unit_more),
        UNIT_TEST(an_answer_solved_again_takes_no_step),
        UNIT_TEST(another_price_is_reached_from_the_last_answer),
        UNIT_TEST(another_need_is_reached_from_the_last_answer),
        UNIT_TEST(a_need_beyond_the_room_is_infeasible),
        UNIT_TEST(a_feed_that_pays_without_end_is_unbounded),
        UNIT_TEST(a_column_stops_at_its_most),
        UNIT_TEST(a_basis_that_is_none_is_dropped),
        UNIT_TEST(equal_feeds_end_in_an_answer),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
