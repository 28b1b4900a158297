/* The book of a stack, worked by hand: what was fed, lost, found missing, and is left. */
#include "stock/stack_book.h"

#include "stock/stack_keeping.h"
#include "support/record_yard.h"

static StackBook book_on(Arena *arena, const char *fed, const char *counts, int stack, Day day,
                         BookHour hour) {
    const Farm *farm = record_farm(arena, fed, counts, NULL);
    return stack_book(&farm->inventory, &farm->record, stack, day, hour);
}

static Day november(int day) { return calendar_day(2026, 11, day); }

static void nothing_written_leaves_what_was_counted(void **state) {
    const StackBook book = book_on(*state, NULL, NULL, HAY, november(30), BOOK_IN_THE_EVENING);
    assert_near(book.started_kg, 50000, 0);
    assert_near(book.left_kg, 50000, 1e-9);
    assert_near(book.left_bales, 100, 1e-12);
    assert_null(book.recount);
    assert_false(book.was_fed_recently);
}

/* 6 of 100 bales of 500 kg, and 2.2 thousand pounds of 453.59237 kg. */
static void bales_and_weights_are_taken_off_in_their_own_units(void **state) {
    const StackBook book = book_on(*state,
                                   FED_HEADING "2026-11-05,Cows,Hay,6,bales,,1\n"
                                               "2026-11-06,Cows,Hay,2200,lb,,2\n",
                                   NULL, HAY, november(10), BOOK_IN_THE_EVENING);
    assert_near(book.fed_kg, 3000 + 2200 * 0.45359237, 1e-9);
    assert_near(book.left_kg, 50000 - 3000 - 2200 * 0.45359237, 1e-9);
}

static void a_morning_is_before_that_day_is_fed_and_an_evening_after(void **state) {
    static const char FED[] = FED_HEADING "2026-11-05,Cows,Hay,6,bales,,1\n";
    const StackBook morning = book_on(*state, FED, NULL, HAY, november(5), BOOK_IN_THE_MORNING);
    const StackBook evening = book_on(*state, FED, NULL, HAY, november(5), BOOK_IN_THE_EVENING);
    assert_near(morning.left_bales, 100, 1e-9);
    assert_near(evening.left_bales, 94, 1e-9);
}

static void rows_out_of_order_are_the_same_book(void **state) {
    const StackBook book = book_on(*state,
                                   FED_HEADING "2026-11-09,Cows,Hay,1,bales,,2\n"
                                               "2026-11-05,Cows,Hay,6,bales,,1\n",
                                   COUNTS_HEADING "2026-11-07,Hay,90,bales,,3\n", HAY,
                                   november(10), BOOK_IN_THE_EVENING);
    assert_near(book.left_bales, 89, 1e-9);
    assert_near(book.missing_kg, 4 * 500, 1e-9); /* 94 by the record, 90 counted */
}

/* Twine rows lose 9 % by month 8: between ages of 4.046 and 4.046 + 30/30.4 months. */
static void a_bale_weighs_less_the_later_it_is_fed(void **state) {
    const Farm *farm =
        record_farm(*state, FED_HEADING "2026-12-01,Cows,Loft,10,bales,,1\n", NULL, NULL);
    const Stack *loft = &farm->inventory.stacks.stacks[LOFT];
    const double months = 123 / 30.4;
    const double rise = 1 - exp(-2.0);
    const double at_count = 1 - 0.09 * (1 - exp(-months / 4)) / rise;
    const double later = 1 - 0.09 * (1 - exp(-(months + 30 / 30.4) / 4)) / rise;
    const double keeps = later / at_count;
    assert_near(stack_keeps(loft, november(1), calendar_day(2026, 12, 1)), keeps, 1e-12);
    const StackBook book = stack_book(&farm->inventory, &farm->record, LOFT,
                                      calendar_day(2026, 12, 1), BOOK_IN_THE_EVENING);
    assert_near(book.fed_kg, 10 * 500 * keeps, 1e-9);
    assert_near(book.loss_kg, 50000 * (1 - keeps), 1e-9);
    assert_near(book.left_kg, 90 * 500 * keeps, 1e-9);
    assert_near(book.left_bales, 90, 1e-9);
}

static void keeping_is_one_stretch_after_another(void **state) {
    const Farm *farm = record_farm(*state, NULL, NULL, NULL);
    for (int place = HAY; place <= PIT; place++) {
        const Stack *stack = &farm->inventory.stacks.stacks[place];
        const Day a = november(4), b = calendar_day(2027, 1, 9), c = calendar_day(2027, 4, 30);
        assert_near(stack_keeps(stack, a, b) * stack_keeps(stack, b, c),
                    stack_keeps(stack, a, c), 1e-12);
        const Day middle = calendar_add(november(1), 100); /* of 201 days */
        assert_near(1 - stack_keeps(stack, november(1), middle), stack->loss_share, 1e-12);
    }
}

static void a_stack_marked_empty_is_empty_whatever_the_record_says(void **state) {
    static const char COUNTS[] = COUNTS_HEADING "2026-11-20,Pit,0,,,3\n";
    static const char FED[] = FED_HEADING "2026-11-05,Cows,Pit,20,tonnes,,1\n"
                                          "2026-11-25,Cows,Pit,1,tonnes,,4\n";
    const StackBook book = book_on(*state, FED, COUNTS, PIT, november(30), BOOK_IN_THE_EVENING);
    assert_true(book.is_marked_empty);
    assert_near(book.left_kg, 0, 0);
    assert_near(book.fed_kg, 21000, 1e-9);
    assert_near(book.missing_kg, 179000, 1e-6);
}

static void more_than_there_is_leaves_nothing_and_is_doubted(void **state) {
    static const char FED[] = FED_HEADING "2026-11-05,Cows,Hay,99,bales,,1\n"
                                          "2026-11-06,Cows,Hay,3,bales,,2\n";
    const StackBook book = book_on(*state, FED, NULL, HAY, november(30), BOOK_IN_THE_EVENING);
    assert_near(book.left_kg, 0, 1e-9);
    assert_near(book.missing_kg, -1000, 1e-9);
    const FarmRequest request = record_request(FED, NULL, NULL);
    Faults faults = faults_new(*state);
    Farm farm;
    assert_true(farm_read(*state, &faults, &request, &farm));
    assert_non_null(
        strstr(unit_faults(&faults, *state),
               "fed.csv:3:21: doubt: amount: 3 bales is 1000 kg (2205 lb) more than "
               "the record leaves of 'Hay', which is 500 kg"));
}

static void a_feeding_before_the_count_is_in_the_count(void **state) {
    const StackBook book = book_on(*state, FED_HEADING "2026-10-20,Cows,Hay,6,bales,,1\n", NULL,
                                   HAY, november(9), BOOK_IN_THE_EVENING);
    assert_near(book.left_bales, 100, 1e-9);
}

static void a_feeding_before_the_count_is_doubted(void **state) {
    const FarmRequest request =
        record_request(FED_HEADING "2026-10-20,Cows,Hay,6,bales,,1\n", NULL, NULL);
    Faults faults = faults_new(*state);
    Farm farm;
    assert_true(farm_read(*state, &faults, &request, &farm));
    assert_non_null(strstr(unit_faults(&faults, *state),
                           "fed.csv:2:21: doubt: amount: it is of a day before 'Hay' was "
                           "counted, 2026-11-01 by stacks.csv"));
}

/* 90 t were written down for a bin of 28 t, and nothing was said. 50 t are 50,000 kg; one per
 * cent more is what nobody counts closer than. */
static void a_recount_of_more_than_there_ever_was_is_doubted(void **state) {
    static const char *const WRITTEN[] = {"2026-11-05,Hay,90,tonnes,,1\n",
                                          "2026-11-05,Hay,102,bales,,1\n",
                                          "2026-11-05,Hay,50.4,tonnes,,1\n"};
    for (int i = 0; i < 3; i++) {
        const FarmRequest request =
            record_request(NULL, arena_print(*state, "%s%s", COUNTS_HEADING, WRITTEN[i]), NULL);
        Faults faults = faults_new(*state);
        Farm farm;
        assert_true(farm_read(*state, &faults, &request, &farm));
        const char *told = strstr(unit_faults(&faults, *state),
                                  "is more than there ever was of 'Hay', 50000 kg (110231 lb) "
                                  "by stacks.csv");
        assert_true((told != NULL) == (i < 2));
    }
}

static double left_error_on(Arena *arena, const char *fed, const char *counts, Day day) {
    const Farm *farm = record_farm(arena, fed, counts, NULL);
    const StackBook book =
        stack_book(&farm->inventory, &farm->record, HAY, day, BOOK_IN_THE_EVENING);
    return stack_left_error_share(&farm->inventory.stacks.stacks[HAY], &book);
}

/* 50 t, nobody weighed a bale: 10 %, or 5 t. With 25 t out over a scale the 5 t lie on the 25 t
 * that are left, 20 %; of 50 bales that are left each is off by the same 10 %. */
static void what_went_over_a_scale_leaves_all_the_error_on_what_is_left(void **state) {
    const Day day = november(30);
    assert_near(left_error_on(*state, NULL, NULL, day), 0.10, 1e-12);
    assert_near(
        left_error_on(*state, FED_HEADING "2026-11-05,Cows,Hay,25,tonnes,,1\n", NULL, day),
        0.20, 1e-9);
    assert_near(
        left_error_on(*state, FED_HEADING "2026-11-05,Cows,Hay,50,bales,,1\n", NULL, day), 0.10,
        1e-12);
    assert_near(
        left_error_on(*state, FED_HEADING "2026-11-05,Cows,Hay,49,tonnes,,1\n", NULL, day), 0.5,
        1e-12);
}

static void a_recount_takes_that_error_off_again(void **state) {
    static const char FED[] = FED_HEADING "2026-11-05,Cows,Hay,25,tonnes,,1\n"
                                          "2026-11-20,Cows,Hay,5,tonnes,,2\n";
    static const char COUNTS[] = COUNTS_HEADING "2026-11-10,Hay,25,tonnes,,3\n";
    assert_near(left_error_on(*state, FED, COUNTS, november(10)), 0.10, 1e-12);
    assert_near(left_error_on(*state, FED, COUNTS, november(20)), 0.10 * 25 / 20, 1e-9);
}

/* 14 bales over the 14 days to 20 November; what was fed before does not count. */
static void how_fast_it_is_fed_is_of_the_last_two_weeks(void **state) {
    const StackBook book = book_on(*state,
                                   FED_HEADING "2026-11-02,Cows,Hay,30,bales,,1\n"
                                               "2026-11-08,Cows,Hay,6,bales,,2\n"
                                               "2026-11-20,Cows,Hay,8,bales,,3\n",
                                   NULL, HAY, november(20), BOOK_IN_THE_EVENING);
    assert_true(book.was_fed_recently);
    assert_near(book.recent_kg_per_day, 14 * 500 / 14.0, 1e-9);
}

static void a_stack_opened_this_week_tells_no_rate(void **state) {
    static const char FED[] = FED_HEADING "2026-11-10,Cows,Hay,7,bales,,1\n";
    assert_false(
        book_on(*state, FED, NULL, HAY, november(15), BOOK_IN_THE_EVENING).was_fed_recently);
    const StackBook later = book_on(*state, FED, NULL, HAY, november(16), BOOK_IN_THE_EVENING);
    assert_near(later.recent_kg_per_day, 500, 1e-9);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(nothing_written_leaves_what_was_counted),
        UNIT_TEST(bales_and_weights_are_taken_off_in_their_own_units),
        UNIT_TEST(a_morning_is_before_that_day_is_fed_and_an_evening_after),
        UNIT_TEST(rows_out_of_order_are_the_same_book),
        UNIT_TEST(a_bale_weighs_less_the_later_it_is_fed),
        UNIT_TEST(keeping_is_one_stretch_after_another),
        UNIT_TEST(a_stack_marked_empty_is_empty_whatever_the_record_says),
        UNIT_TEST(more_than_there_is_leaves_nothing_and_is_doubted),
        UNIT_TEST(a_feeding_before_the_count_is_in_the_count),
        UNIT_TEST(a_feeding_before_the_count_is_doubted),
        UNIT_TEST(a_recount_of_more_than_there_ever_was_is_doubted),
        UNIT_TEST(what_went_over_a_scale_leaves_all_the_error_on_what_is_left),
        UNIT_TEST(a_recount_takes_that_error_off_again),
        UNIT_TEST(how_fast_it_is_fed_is_of_the_last_two_weeks),
        UNIT_TEST(a_stack_opened_this_week_tells_no_rate),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
