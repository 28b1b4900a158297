/* Curves whose corners are known beforehand: no winter is planned here. */
#include "planner/break_even.h"

#include "support/unit.h"

/* The least of some straight lines: concave, as a least cost is in a price. */
typedef struct {
    double constant[4], slope[4];
    int lines;
    bool tells_slope;
    double unfed_from; /* cannot be balanced from here on */
    int asked;
} Lines;

static CostPoint least_line(void *asked, double at) {
    Lines *lines = asked;
    static const FeedUse USES[4] = {USE_NONE, USE_SOME, USE_ALL, USE_NONE};
    CostPoint point = {.at = at, .slope = (double)NAN, .feed_count = 1};
    int least = 0;
    lines->asked++;
    for (int i = 1; i < lines->lines; i++) {
        if (lines->constant[i] + lines->slope[i] * at <
            lines->constant[least] + lines->slope[least] * at)
            least = i;
    }
    point.is_balanced = at < lines->unfed_from;
    point.cost = lines->constant[least] + lines->slope[least] * at;
    point.use = &USES[least];
    if (lines->tells_slope)
        point.slope = lines->slope[least];
    return point;
}

/* 50 tonnes up to $200, 20 up to $300, then none: 5,000 + 50 p, 11,000 + 20 p, 17,000. */
static Lines tonnes_at_a_price(void) {
    return (Lines){.constant = {5000.0, 11000.0, 17000.0},
                   .slope = {50.0, 20.0, 0.0},
                   .lines = 3,
                   .tells_slope = true,
                   .unfed_from = HUGE_VAL};
}

static const CurveRange PRICES = {100.0, 401.0, false};

static void the_corners_of_a_price_are_found_where_lines_meet(void **state) {
    Lines lines = tonnes_at_a_price();
    const CostPiece *pieces;
    assert_int_equal(cost_pieces(*state, least_line, &lines, PRICES, &pieces), 3);
    assert_near(pieces[0].from, 100.0, 0.0);
    assert_near(pieces[0].to, 200.0, 1e-9);
    assert_near(pieces[1].to, 300.0, 1e-9);
    assert_near(pieces[2].to, 401.0, 0.0);
    assert_near(pieces[1].cost_from, 15000.0, 1e-6);
    assert_near(pieces[1].within.slope, 20.0, 0.0);
}

static void without_slopes_corners_are_where_another_feed_is_used(void **state) {
    Lines lines = tonnes_at_a_price();
    lines.tells_slope = false;
    const CostPiece *pieces;
    assert_int_equal(cost_pieces(*state, least_line, &lines, PRICES, &pieces), 3);
    assert_near(pieces[0].to, 200.0, 0.6); /* a five-hundredth of the range */
    assert_near(pieces[1].to, 300.0, 0.6);
}

static void of_whole_numbers_a_piece_begins_one_after_the_last(void **state) {
    Lines lines = tonnes_at_a_price();
    lines.tells_slope = false;
    const CostPiece *pieces;
    const CurveRange whole = {100.0, 401.0, true};
    assert_int_equal(cost_pieces(*state, least_line, &lines, whole, &pieces), 3);
    assert_near(pieces[0].to, 200.0, 0.0);
    assert_near(pieces[1].from, 201.0, 0.0);
    assert_near(pieces[1].to, 300.0, 0.0);
    assert_near(pieces[2].from, 301.0, 0.0);
}

static void where_a_winter_cannot_be_fed_a_piece_says_so(void **state) {
    Lines lines = tonnes_at_a_price();
    lines.unfed_from = 350.0;
    const CostPiece *pieces;
    const int count = cost_pieces(*state, least_line, &lines, PRICES, &pieces);
    assert_true(count >= 3);
    assert_false(pieces[count - 1].within.is_balanced);
    assert_near(pieces[count - 1].from, 350.0, 0.6);
    assert_true(isnan(pieces[count - 1].cost_to));
}

/* A future that does not buy: 13,750 whatever the price; the two meet where 5,000 + 50 p does,
 * at $175. */
static Lines a_flat_future(double cost) {
    return (Lines){.constant = {cost}, .lines = 1, .tells_slope = true, .unfed_from = HUGE_VAL};
}

static void the_break_even_is_where_both_cost_the_same(void **state) {
    (void)state;
    Lines buys = tonnes_at_a_price(), flat = a_flat_future(13750.0);
    BreakEven found[2];
    assert_int_equal(break_evens(least_line, &buys, &flat, PRICES, NULL, found, 2), 1);
    assert_near(found[0].at, 175.0, 1e-3);
    assert_near(found[0].cost, 13750.0, 0.01);
    assert_true(found[0].a_is_cheaper_below);
}

static void the_break_even_is_the_same_from_either_side(void **state) {
    (void)state;
    Lines buys = tonnes_at_a_price(), flat = a_flat_future(14321.0);
    BreakEven one[2], other[2];
    assert_int_equal(break_evens(least_line, &buys, &flat, PRICES, NULL, one, 2), 1);
    assert_int_equal(break_evens(least_line, &flat, &buys, PRICES, NULL, other, 2), 1);
    assert_near(one[0].at, other[0].at, 0.0);
    assert_true(one[0].a_is_cheaper_below && !other[0].a_is_cheaper_below);
}

static void two_futures_may_change_places_more_than_once(void **state) {
    (void)state;
    /* Least of 4,000 + 40 p and 20,000 - 20 p: above 12,000 from 200 to 400. */
    Lines tent = {.constant = {4000.0, 20000.0},
                  .slope = {40.0, -20.0},
                  .lines = 2,
                  .tells_slope = true,
                  .unfed_from = HUGE_VAL};
    Lines flat = a_flat_future(12000.0);
    BreakEven found[4];
    const CurveRange range = {100.0, 500.0, false};
    assert_int_equal(break_evens(least_line, &tent, &flat, range, NULL, found, 4), 2);
    assert_near(found[0].at, 200.0, 1e-3);
    assert_near(found[1].at, 400.0, 1e-3);
    assert_true(found[0].a_is_cheaper_below && !found[1].a_is_cheaper_below);
}

static void
two_break_evens_between_neighbours_of_the_grid_are_found_by_the_pieces(void **state) {
    /* Least of 1,600 + 40 p and 23,600 - 40 p: above 12,000 from 260 to 290, and the grid has
     * 250 and 300. */
    Lines tent = {.constant = {1600.0, 23600.0},
                  .slope = {40.0, -40.0},
                  .lines = 2,
                  .tells_slope = true,
                  .unfed_from = HUGE_VAL};
    Lines flat = a_flat_future(12000.0);
    BreakEven found[4];
    const CurveRange range = {100.0, 500.0, false};
    PairPieces pieces;
    pieces.a_count = cost_pieces(*state, least_line, &tent, range, &pieces.a);
    pieces.b_count = cost_pieces(*state, least_line, &flat, range, &pieces.b);
    assert_int_equal(break_evens(least_line, &tent, &flat, range, &pieces, found, 4), 2);
    assert_near(found[0].at, 260.0, 1e-3);
    assert_near(found[1].at, 290.0, 1e-3);
    const PairPieces turned = {pieces.b, pieces.a, pieces.b_count, pieces.a_count};
    assert_int_equal(break_evens(least_line, &flat, &tent, range, &turned, found, 4), 2);
    assert_near(found[0].at, 260.0, 1e-3);
}

static void between_its_pieces_a_cost_is_read_off_straight(void **state) {
    (void)state;
    const CostPiece pieces[] = {{.from = 0.0, .to = 10.0, .cost_from = 5.0, .cost_to = 25.0},
                                {.from = 11.0, .to = 20.0, .cost_from = 27.0, .cost_to = 36.0}};
    assert_near(cost_by_pieces(pieces, 2, 5.0), 15.0, 1e-12);
    assert_near(cost_by_pieces(pieces, 2, 10.5), 26.0, 1e-12);
    assert_near(cost_by_pieces(pieces, 2, 14.0), 30.0, 1e-12);
    assert_true(isnan(cost_by_pieces(pieces, 2, 20.5)));
}

static void of_whole_numbers_the_two_around_the_break_even_are_told(void **state) {
    (void)state;
    Lines buys = tonnes_at_a_price(), flat = a_flat_future(13770.0); /* at 175.4 */
    const CurveRange whole = {100.0, 401.0, true};
    BreakEven found[2];
    assert_int_equal(break_evens(least_line, &buys, &flat, whole, NULL, found, 2), 1);
    assert_near(found[0].before, 175.0, 0.0);
    assert_near(found[0].behind, 176.0, 0.0);
}

static void futures_that_cost_the_same_have_no_break_even(void **state) {
    (void)state;
    Lines one = tonnes_at_a_price(), same = tonnes_at_a_price();
    BreakEven found[2];
    assert_int_equal(break_evens(least_line, &one, &same, PRICES, NULL, found, 2), 0);
}

static void there_is_none_where_one_of_them_cannot_be_fed(void **state) {
    (void)state;
    Lines buys = tonnes_at_a_price(), flat = a_flat_future(13750.0);
    flat.unfed_from = 150.0;
    BreakEven found[2];
    assert_int_equal(break_evens(least_line, &buys, &flat, PRICES, NULL, found, 2), 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(the_corners_of_a_price_are_found_where_lines_meet),
        UNIT_TEST(without_slopes_corners_are_where_another_feed_is_used),
        UNIT_TEST(of_whole_numbers_a_piece_begins_one_after_the_last),
        UNIT_TEST(where_a_winter_cannot_be_fed_a_piece_says_so),
        UNIT_TEST(the_break_even_is_where_both_cost_the_same),
        UNIT_TEST(the_break_even_is_the_same_from_either_side),
        UNIT_TEST(two_futures_may_change_places_more_than_once),
        UNIT_TEST(two_break_evens_between_neighbours_of_the_grid_are_found_by_the_pieces),
        UNIT_TEST(between_its_pieces_a_cost_is_read_off_straight),
        UNIT_TEST(of_whole_numbers_the_two_around_the_break_even_are_told),
        UNIT_TEST(futures_that_cost_the_same_have_no_break_even),
        UNIT_TEST(there_is_none_where_one_of_them_cannot_be_fed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
