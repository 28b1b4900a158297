#include "planner/feeding_period.h"

#include "support/unit.h"
#include <string.h>

static Farm winter_from(Day first, Day last) {
    Farm farm = {0};
    farm.winter.first_day = first;
    farm.winter.last_day = last;
    return farm;
}

static Farm common_winter(void) {
    return winter_from(calendar_day(2026, 11, 1), calendar_day(2027, 4, 30));
}

/* The first days, a line: "11-01 12-01 ...". Fails where a period does not follow on the last.
 */
static const char *periods_of(Arena *arena, const Farm *farm, const HerdGroup *group) {
    const FeedingPeriod *periods;
    const int count = feeding_periods(arena, farm, group, &periods);
    Text text = text_new(arena);
    Day next = farm->winter.first_day;
    for (int p = 0; p < count; p++) {
        assert_int_equal(periods[p].from.number, next.number);
        assert_true(calendar_days_between(periods[p].from, periods[p].to) >= 0);
        text_print(&text, "%s%02d-%02d", p > 0 ? " " : "", calendar_month(periods[p].from),
                   calendar_day_of_month(periods[p].from));
        next = calendar_add(periods[p].to, 1);
    }
    assert_int_equal(next.number, calendar_add(farm->winter.last_day, 1).number);
    return text.bytes;
}

static HerdGroup cows(void) { return (HerdGroup){.name = "Cows"}; }

static void a_group_that_stays_the_same_has_a_period_a_month(void **state) {
    const Farm farm = common_winter();
    const HerdGroup group = cows();
    assert_string_equal(periods_of(*state, &farm, &group),
                        "11-01 12-01 01-01 02-01 03-01 04-01");
}

static void a_month_that_turns_within_a_week_of_either_end_makes_no_period(void **state) {
    const Farm farm = winter_from(calendar_day(2026, 10, 28), calendar_day(2027, 2, 4));
    const HerdGroup group = cows();
    assert_string_equal(periods_of(*state, &farm, &group), "10-28 12-01 01-01");
}

static void a_month_that_turns_a_week_from_the_end_makes_one(void **state) {
    const Farm farm = winter_from(calendar_day(2026, 10, 25), calendar_day(2027, 2, 7));
    const HerdGroup group = cows();
    assert_string_equal(periods_of(*state, &farm, &group), "10-25 11-01 12-01 01-01 02-01");
}

/* 60 days before 20 March is 19 January; the window closes on 9 April, the day after the last
 * calf is 10 April. */
static void a_bred_group_is_cut_where_it_changes_stage(void **state) {
    const Farm farm = common_winter();
    HerdGroup group = cows();
    group.is_bred = true;
    group.calving_start = calendar_day(2027, 3, 20);
    group.calving_end = calendar_day(2027, 4, 9);
    assert_string_equal(periods_of(*state, &farm, &group),
                        "11-01 12-01 01-01 01-19 02-01 03-01 03-20 04-01 04-10");
    group.has_weaning = true;
    group.weaning = calendar_day(2027, 4, 20);
    assert_string_equal(periods_of(*state, &farm, &group),
                        "11-01 12-01 01-01 01-19 02-01 03-01 03-20 04-01 04-10 04-20");
}

static void a_month_near_a_change_of_stage_gives_way_to_it(void **state) {
    const Farm farm = common_winter();
    HerdGroup group = cows();
    group.has_target = true;
    group.target_date = calendar_day(2027, 2, 5);
    assert_string_equal(periods_of(*state, &farm, &group),
                        "11-01 12-01 01-01 02-05 03-01 04-01");
}

static void a_day_outside_the_winter_cuts_nothing(void **state) {
    const Farm farm = common_winter();
    HerdGroup group = cows();
    group.has_target = true;
    group.target_date = calendar_day(2027, 6, 1);
    assert_string_equal(periods_of(*state, &farm, &group),
                        "11-01 12-01 01-01 02-01 03-01 04-01");
    group.target_date = farm.winter.first_day;
    assert_string_equal(periods_of(*state, &farm, &group),
                        "11-01 12-01 01-01 02-01 03-01 04-01");
}

/* ---- feeds that come and go ---- */

static const char *with_stacks(Arena *arena, const Stack *stacks, int count) {
    Farm farm = common_winter();
    farm.inventory.stacks.stacks = stacks;
    farm.inventory.stacks.count = count;
    const HerdGroup group = cows();
    return periods_of(arena, &farm, &group);
}

static Stack stack_between(Day from, Day until) {
    return (Stack){.allowance = {.from = from, .until = until}};
}

static void a_feed_that_comes_and_goes_cuts_on_its_first_day_and_after_its_last(void **state) {
    const Stack stack = stack_between(calendar_day(2026, 12, 15), calendar_day(2027, 2, 14));
    assert_string_equal(with_stacks(*state, &stack, 1),
                        "11-01 12-01 12-15 01-01 02-01 02-15 03-01 04-01");
}

static void a_feed_that_is_there_all_winter_cuts_nothing(void **state) {
    const Stack stack = stack_between(calendar_day(2026, 11, 1), calendar_day(2027, 4, 30));
    assert_string_equal(with_stacks(*state, &stack, 1), "11-01 12-01 01-01 02-01 03-01 04-01");
}

/* Being late with a feed is never wrong, so the later day stands for both that come, and the
 * earlier for both that go. */
static void feeds_that_come_or_go_within_a_week_cut_once(void **state) {
    const Stack comes[] = {
        stack_between(calendar_day(2026, 12, 13), calendar_day(2027, 4, 30)),
        stack_between(calendar_day(2026, 12, 16), calendar_day(2027, 4, 30))};
    assert_string_equal(with_stacks(*state, comes, 2),
                        "11-01 12-01 12-16 01-01 02-01 03-01 04-01");
    const Stack goes[] = {stack_between(calendar_day(2026, 11, 1), calendar_day(2027, 2, 13)),
                          stack_between(calendar_day(2026, 11, 1), calendar_day(2027, 2, 16))};
    assert_string_equal(with_stacks(*state, goes, 2),
                        "11-01 12-01 01-01 02-01 02-14 03-01 04-01");
}

static void feeds_a_week_apart_cut_twice(void **state) {
    const Stack comes[] = {
        stack_between(calendar_day(2026, 12, 11), calendar_day(2027, 4, 30)),
        stack_between(calendar_day(2026, 12, 18), calendar_day(2027, 4, 30))};
    assert_string_equal(with_stacks(*state, comes, 2),
                        "11-01 12-01 12-11 12-18 01-01 02-01 03-01 04-01");
}

static void a_feed_of_other_groups_cuts_nothing(void **state) {
    const char *const others[] = {"Bulls"};
    Stack stack = stack_between(calendar_day(2026, 12, 15), calendar_day(2027, 2, 14));
    stack.allowance.groups = others;
    stack.allowance.group_count = 1;
    assert_string_equal(with_stacks(*state, &stack, 1), "11-01 12-01 01-01 02-01 03-01 04-01");
}

static void what_is_for_sale_cuts_as_a_stack_does(void **state) {
    Farm farm = common_winter();
    const Offer offer = {
        .allowance = {.from = calendar_day(2026, 12, 15), .until = calendar_day(2027, 4, 30)}};
    farm.inventory.for_sale.offers = &offer;
    farm.inventory.for_sale.count = 1;
    const HerdGroup group = cows();
    assert_string_equal(periods_of(*state, &farm, &group),
                        "11-01 12-01 12-15 01-01 02-01 03-01 04-01");
}

/* ---- figures of the farm's own ---- */

static const char *with_figures(Arena *arena, const OwnNeed *needs, int count) {
    Farm farm = common_winter();
    const HerdGroup groups[] = {cows(), {.name = "Bulls"}};
    farm.herd = (Herd){.groups = groups, .count = 2};
    farm.own_needs = (OwnNeeds){needs, count};
    return periods_of(arena, &farm, &farm.herd.groups[0]);
}

static OwnNeed figure_between(Day from, Day until) {
    return (OwnNeed){.kind = NEED_PROTEIN, .from = from, .until = until};
}

/* From 10 January to 20 February: the day after is 21 February. */
static void a_figure_cuts_on_its_first_day_and_after_its_last(void **state) {
    const OwnNeed figure = figure_between(calendar_day(2027, 1, 10), calendar_day(2027, 2, 20));
    assert_string_equal(with_figures(*state, &figure, 1),
                        "11-01 12-01 01-01 01-10 02-01 02-21 03-01 04-01");
}

static void a_figure_for_all_winter_cuts_nothing(void **state) {
    const OwnNeed figure = figure_between(calendar_day(1900, 1, 1), calendar_day(2199, 12, 31));
    assert_string_equal(with_figures(*state, &figure, 1),
                        "11-01 12-01 01-01 02-01 03-01 04-01");
}

static void a_figure_of_another_group_cuts_nothing(void **state) {
    OwnNeed figure = figure_between(calendar_day(2027, 1, 10), calendar_day(2027, 2, 20));
    figure.group = 1;
    assert_string_equal(with_figures(*state, &figure, 1),
                        "11-01 12-01 01-01 02-01 03-01 04-01");
}

/* 29 January is three days before the month's turn, which gives way. */
static void a_month_near_the_first_day_of_a_figure_gives_way_to_it(void **state) {
    const OwnNeed figure =
        figure_between(calendar_day(2027, 1, 29), calendar_day(2199, 12, 31));
    assert_string_equal(with_figures(*state, &figure, 1),
                        "11-01 12-01 01-01 01-29 03-01 04-01");
}

/* As a change of stage always stands: 3 days at one figure, then 27 at the next, which ends 8
 * days after the month's turn, so that both stand. */
static void figures_a_few_days_apart_each_cut(void **state) {
    const OwnNeed figures[] = {
        figure_between(calendar_day(2027, 1, 10), calendar_day(2027, 1, 12)),
        figure_between(calendar_day(2027, 1, 13), calendar_day(2027, 2, 8))};
    assert_string_equal(with_figures(*state, figures, 2),
                        "11-01 12-01 01-01 01-10 01-13 02-01 02-09 03-01 04-01");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_group_that_stays_the_same_has_a_period_a_month),
        UNIT_TEST(a_month_that_turns_within_a_week_of_either_end_makes_no_period),
        UNIT_TEST(a_month_that_turns_a_week_from_the_end_makes_one),
        UNIT_TEST(a_bred_group_is_cut_where_it_changes_stage),
        UNIT_TEST(a_month_near_a_change_of_stage_gives_way_to_it),
        UNIT_TEST(a_day_outside_the_winter_cuts_nothing),
        UNIT_TEST(a_feed_that_comes_and_goes_cuts_on_its_first_day_and_after_its_last),
        UNIT_TEST(a_feed_that_is_there_all_winter_cuts_nothing),
        UNIT_TEST(feeds_that_come_or_go_within_a_week_cut_once),
        UNIT_TEST(feeds_a_week_apart_cut_twice),
        UNIT_TEST(a_feed_of_other_groups_cuts_nothing),
        UNIT_TEST(what_is_for_sale_cuts_as_a_stack_does),
        UNIT_TEST(a_figure_cuts_on_its_first_day_and_after_its_last),
        UNIT_TEST(a_figure_for_all_winter_cuts_nothing),
        UNIT_TEST(a_figure_of_another_group_cuts_nothing),
        UNIT_TEST(a_month_near_the_first_day_of_a_figure_gives_way_to_it),
        UNIT_TEST(figures_a_few_days_apart_each_cut),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
