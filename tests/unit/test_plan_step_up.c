/* How feeds are brought in, as the page has it. The winters are those of
 * support/hand_question.h. */
#include "outcome/plan_report.h"
#include "support/told_report.h"
#include "support/unit.h"

/* Of 12 kg that they can eat 0.75 kg must be barley of 2.0 Mcal instead of hay of 1.2 for 15
 * Mcal, and 2.0 kg for 16: 0.93 and 2.47 kg put out. */
static HandQuestion *twice_more_barley(Arena *arena) {
    HandQuestion *hand = hand_november(arena);
    hand_offer(hand, "Hay", 0.10);
    hand_offer(hand, "Barley", 0.40)->eaten[NUTRIENT_NEM] = 2.0;
    hand->stuffs[1].feed_class = FEED_CLASS_GRAIN;
    hand_group(hand, "Cows", 10, 15.0, 15);
    hand_period(hand, 16.0, 15);
    return hand;
}

static const ReportTable *step_table(const Report *report, int *count) {
    static const ReportTable NONE = {.key = ""};
    const ReportTable *found = &NONE;
    *count = 0;
    for (const ReportSection *section = report->first; section; section = section->next) {
        for (const ReportPiece *piece = section->first; piece; piece = piece->next) {
            if (piece->kind != PIECE_TABLE || strcmp(piece->table->key, "step_up") != 0)
                continue;
            found = piece->table;
            ++*count;
        }
    }
    return found;
}

static double barley_on(const ReportTable *table, const char *day) {
    for (const ReportRow *row = table->first; row; row = row->next) {
        if (strcmp(row->cells[0].text, day) == 0)
            return row->cells[2].number;
    }
    fail_msg("no row for %s", day);
    return 0.0;
}

/* A pound, then two which are all of 0.93 kg; from 16 Nov 1.38, 1.83, 2.29 and all. Evening out
 * may spend a thousandth on a little more barley. */
static void every_change_of_a_group_stands_in_one_table_day_by_day(void **state) {
    int count;
    const ReportTable *table =
        step_table(hand_report(*state, twice_more_barley(*state)), &count);
    assert_int_equal(count, 1);
    assert_int_equal(table->column_count, 3);
    int rows = 0;
    for (const ReportRow *row = table->first; row; row = row->next)
        rows++;
    assert_int_equal(rows, 3 + 7);
    assert_near(barley_on(table, "2 Nov"), 0.4536, 1e-3);
    assert_near(barley_on(table, "3 Nov"), 0.75 / 0.81, 0.03);
    assert_near(barley_on(table, "16 Nov"), 0.75 / 0.81 + 0.4536, 0.03);
    assert_near(barley_on(table, "22 Nov"), 2.0 / 0.81, 0.03);
}

static void what_stands_in_is_told_for_each_change(void **state) {
    const Report *report = hand_report(*state, twice_more_barley(*state));
    assert_true(report_says(report, "from 1 Nov Hay, "));
    assert_true(report_says(report, "in all beyond the plan and what it buys; from 16 Nov the "
                                    "same, "));
    assert_true(
        report_says(report, "Where they had some before 1 Nov, begin at what they had."));
}

static void cattle_that_come_again_are_said_to_begin_anew(void **state) {
    HandQuestion *hand = twice_more_barley(*state);
    assert_false(report_says(hand_report(*state, hand), "begin anew; where"));
    hand->blocks[1].from = calendar_add(hand->blocks[1].from, 5);
    hand->blocks[1].days -= 5;
    assert_true(report_says(hand_report(*state, hand),
                            "The cattle that come on 21 Nov begin anew; where they had some"));
}

/* 81 g of dry matter are 100 g put out, by quarters; the ration has them in grams too. */
static void urea_is_brought_in_in_grams_as_the_ration_has_it(void **state) {
    HandQuestion *hand = hand_november(*state);
    hand_offer(hand, "Hay", 0.10);
    hand_offer(hand, "Urea", 0.90);
    hand->stuffs[1].feed_class = FEED_CLASS_NPN;
    hand_group(hand, "Cows", 10, 12.0, 30);
    WinterPlan plan = plan_winter(*state, &hand->question);
    BlockOutcome block = plan.blocks[0];
    block.eaten = (double[]){block.eaten[0], 0.081};
    plan.blocks = &block;
    int count;
    const ReportTable *table = step_table(plan_report(*state, &plan, UNITS_METRIC), &count);
    assert_int_equal(count, 1);
    assert_string_equal(table->columns[table->column_count - 1].label, "Urea");
    assert_string_equal(table->columns[table->column_count - 1].unit, "g");
    assert_near(table->first->cells[table->column_count - 1].number, 25.0, 1e-9);
}

static void own_feed_that_stands_in_is_not_said_to_be_bought(void **state) {
    static const Stack LOOSE = {.loss_is_users = true, .waste_is_users = true};
    HandQuestion *hand = hand_november(*state);
    hand->farm.inventory.stacks.stacks = &LOOSE;
    hand_own(hand, "Hay", 0.10, 100000);
    hand_offer(hand, "Barley", 0.40)->eaten[NUTRIENT_NEM] = 2.0;
    hand->stuffs[1].feed_class = FEED_CLASS_GRAIN;
    hand_group(hand, "Cows", 10, 15.0, 30);
    const Report *report = hand_report(*state, hand);
    assert_true(report_says(report, "in all beyond the plan. Feeds that are not here"));
}

/* A hundredth of a cow: some grams of hay in all. */
static void a_handful_that_stands_in_is_not_told_as_none(void **state) {
    HandQuestion *hand = twice_more_barley(*state);
    hand->blocks[0].head = hand->blocks[1].head = 0.01;
    const Report *report = hand_report(*state, hand);
    assert_false(report_says(report, "In place of what is still held back"));
    assert_true(report_says(report, "Feeds that are not here, and days that are not here"));
}

/* Steps that one day of a period cuts off go on in the next. */
static void days_that_follow_are_one_stretch_in_brief(void **state) {
    HandQuestion *hand = hand_november(*state);
    hand_offer(hand, "Hay", 0.10);
    hand_offer(hand, "Barley", 0.40)->eaten[NUTRIENT_NEM] = 2.0;
    hand->stuffs[1].feed_class = FEED_CLASS_GRAIN;
    hand_group(hand, "Cows", 10, 16.0, 1);
    hand_period(hand, 16.0, 29);
    WinterPlan plan = plan_winter(*state, &hand->question);
    const PlanFindings in_brief = plan_findings_in_brief(*state, &plan, UNITS_METRIC);
    const Report *brief = plan_brief_of(*state, &in_brief);
    assert_true(report_says(brief, "Cows: Barley. Days: 1 Nov to "));
    assert_false(report_says(brief, "1 Nov to 1 Nov"));
}

static void a_feed_brought_in_by_common_practice_is_said_to_be(void **state) {
    HandQuestion *hand = twice_more_barley(*state);
    hand->stuffs[1].feed_class = FEED_CLASS_MEAL;
    const Report *report = hand_report(*state, hand);
    assert_true(report_says(report, "Meals and pellets go up by one pound (0.45 kg) a head"));
    for (const ReportSection *section = report->first; section; section = section->next) {
        for (const ReportPiece *piece = section->first; piece; piece = piece->next) {
            if (piece->text && strstr(piece->text, "Meals and pellets go up"))
                assert_string_equal(piece->source, "PRACTICE");
        }
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(every_change_of_a_group_stands_in_one_table_day_by_day),
        UNIT_TEST(what_stands_in_is_told_for_each_change),
        UNIT_TEST(cattle_that_come_again_are_said_to_begin_anew),
        UNIT_TEST(urea_is_brought_in_in_grams_as_the_ration_has_it),
        UNIT_TEST(own_feed_that_stands_in_is_not_said_to_be_bought),
        UNIT_TEST(a_handful_that_stands_in_is_not_told_as_none),
        UNIT_TEST(days_that_follow_are_one_stretch_in_brief),
        UNIT_TEST(a_feed_brought_in_by_common_practice_is_said_to_be),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
