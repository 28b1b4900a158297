/* What runs out first and when, and what a recount may mean, as the page says it. */
#include "outcome/stock_report.h"

#include "support/record_yard.h"
#include "support/told_report.h"

static Day on(int month, int day) { return calendar_day(month > 6 ? 2026 : 2027, month, day); }

static StockFindings found(Arena *arena, const char *fed, const char *counts, Day day) {
    return stock_findings(arena, record_farm(arena, fed, counts, NULL), day);
}

static const StockStack *stock_of(const StockFindings *findings, int stack) {
    int place = 0;
    while (findings->stacks[place].stack != stack)
        place++;
    return &findings->stacks[place];
}

/* 70 bales in 14 days are 5 a day; the 30 that are left last 6 days more, to 20 November. */
#define FAST FED_HEADING "2026-11-01,Cows,Hay,35,bales,,1\n2026-11-14,Cows,Hay,35,bales,,2\n"

static void a_stack_fed_lately_runs_out_at_that_rate(void **state) {
    const StockFindings findings = found(*state, FAST, NULL, on(11, 14));
    const StockStack *hay = stock_of(&findings, HAY);
    assert_int_equal(hay->basis, RUNOUT_BY_RECENT);
    assert_int_equal(calendar_days_between(hay->last_fed, on(11, 20)), 0);
    assert_ptr_equal(hay, &findings.stacks[0]);
}

/* By the record the hay has 30 bales left and ends first, on 20 November. */
static void the_chart_says_what_is_left_of_each_and_until_when(void **state) {
    const StockFindings findings = found(*state, FAST, NULL, on(11, 14));
    const Report *report = stock_report(*state, &findings, UNITS_METRIC);
    const ReportPiece *piece = report->first ? report->first->first : NULL;
    while (piece && piece->kind != PIECE_CHART)
        piece = piece->next;
    if (!piece || !piece->chart->first_series || !piece->chart->first_category) {
        fail_msg("nothing is drawn");
        return;
    }
    const ReportChart *chart = piece->chart;
    const StockStack *hay = stock_of(&findings, HAY);
    assert_string_equal(chart->title, "Hay runs out first, on 20 Nov 2026");
    assert_int_equal(chart->first_series->count, findings.stack_count);
    assert_near(chart->first_series->points[0].y, hay->book.left_kg / 1000.0, 1e-9);
    assert_non_null(strstr(chart->first_category->value_words, " t, to 20 Nov 2026"));
}

static void a_stack_not_fed_lately_runs_out_by_the_plan_of_the_rest(void **state) {
    const StockFindings findings = found(*state, FAST, NULL, on(11, 14));
    const StackRunout *planned = stack_runouts(*state, findings.rest);
    for (int place = LOFT; place <= PIT; place++) {
        const StockStack *of = stock_of(&findings, place);
        assert_int_equal(of->basis, planned[place].runs_out ? RUNOUT_BY_PLAN : RUNOUT_NONE);
        assert_true(of->is_planned == planned[place].is_used);
    }
}

static void a_stack_fed_slowly_lasts(void **state) {
    const StockFindings findings = found(
        *state, FED_HEADING "2026-11-01,Cows,Hay,1,bales,,1\n2026-11-10,Cows,Hay,1,bales,,2\n",
        NULL, on(11, 14));
    assert_int_equal(stock_of(&findings, HAY)->basis, RUNOUT_NONE);
}

static void an_empty_stack_comes_last(void **state) {
    const StockFindings findings =
        found(*state, FAST, COUNTS_HEADING "2026-11-16,Hay,0,,,3\n", on(11, 20));
    assert_int_equal(findings.stacks[findings.stack_count - 1].stack, HAY);
    assert_int_equal(stock_of(&findings, HAY)->basis, RUNOUT_EMPTY);
}

static void what_is_needed_is_what_they_eat_to_the_last_day_and_the_carry_over(void **state) {
    const StockFindings findings = found(*state, NULL, NULL, on(2, 28));
    const Winter *rest = &findings.rest->question->farm->winter;
    assert_int_equal(winter_days(rest), 81); /* 1 March to 20 May */
    assert_near(findings.needed_kg, findings.days.eaten_per_day_kg * 81, 1e-6);
    double groups = 0.0;
    for (int g = 0; g < 2; g++)
        groups += group_eaten_per_day(findings.rest, g);
    assert_near(groups, findings.days.eaten_per_day_kg, 1e-9);
}

/* What balances the herd to a day balances each group of it alone to that day. */
static void no_group_alone_is_worse_off_than_the_herd(void **state) {
    const StockFindings findings = found(*state, NULL, NULL, on(2, 28));
    for (int g = 0; g < 2; g++) {
        const DaysOnHand *alone = &findings.group_days[g];
        assert_true(alone->balanced_days >= findings.days.balanced_days);
        assert_true(alone->lasts_all_winter == (alone->balanced_days == 81));
    }
}

static void before_the_winter_its_first_day_is_planned_from(void **state) {
    const StockFindings findings = found(*state, NULL, NULL, on(9, 1));
    assert_int_equal(winter_days(&findings.rest->question->farm->winter), 201);
}

static void on_the_last_days_nothing_is_left_to_plan(void **state) {
    assert_null(found(*state, NULL, NULL, on(5, 19)).rest);
    assert_null(found(*state, NULL, NULL, calendar_day(2027, 8, 1)).rest);
}

static const Report *report_of(Arena *arena, const char *fed, const char *counts, Day day) {
    StockFindings *findings = ARENA_NEW(arena, StockFindings);
    *findings = found(arena, fed, counts, day);
    return stock_report(arena, findings, UNITS_METRIC);
}

static void the_first_words_say_what_runs_out_first_and_when(void **state) {
    const Report *report = report_of(*state, FAST, NULL, on(11, 14));
    const char *first = "First to run out is Hay, on 20 Nov 2026 (6 days from now), fed as in "
                        "the last two weeks";
    assert_int_equal(strncmp(report->verdict, first, strlen(first)), 0);
}

/* 11 t were 20 bales of 550 kg: Loft, measured alike, then has 100 bales of 50 kg more, less
 * what storage took of it by 1 December. */
static void a_better_weight_is_offered_with_its_cell_and_what_it_means_elsewhere(void **state) {
    const Report *report = report_of(*state, FED_HEADING "2026-11-20,Cows,Hay,11,tonnes,,1\n",
                                     COUNTS_HEADING "2026-12-01,Hay,80,bales,,2\n", on(12, 1));
    assert_true(report_says(report, "Hay, counted on 1 Dec 2026: 40.0 t left where the record "
                                    "says 39.0 t, 1.0 t more."));
    assert_true(report_says(report, "They agree if a bale weighs 550 where bale_weight_kg has "
                                    "500: in that case write 550 at stacks.csv:2:61."));
    assert_true(report_says(report, "Measured in the same way, and not counted again: Loft. If "
                                    "they are off by as much, there is 5.0 t more of them"));
    assert_true(report_says(report, "Nothing in stacks.csv was changed"));
}

/* Nobody had written a feeding down, and 24 t fed in a month were bales of half the weight. */
static void feed_gone_that_nobody_wrote_down_is_not_first_a_lighter_bale(void **state) {
    const Report *report =
        report_of(*state, NULL, COUNTS_HEADING "2026-12-01,Hay,26,tonnes,,1\n", on(12, 1));
    assert_true(report_says(report,
                            "24.0 t less. Nothing of it is written down as fed by then. If "
                            "some was, that is the difference, or a part of it: write it down "
                            "with `winterstack fed --date`, and change no weight. If none was, "
                            "they agree if a bale weighs 260 where bale_weight_kg has 500"));
}

static void where_count_and_record_agree_nothing_is_said(void **state) {
    const Report *report = report_of(*state, FED_HEADING "2026-11-20,Cows,Hay,20,bales,,1\n",
                                     COUNTS_HEADING "2026-12-01,Hay,80,bales,,2\n", on(12, 1));
    for (const ReportSection *section = report->first; section; section = section->next)
        assert_string_not_equal(section->key, "recounts");
}

static const ReportTable *table_named(const Report *report, const char *key) {
    for (const ReportSection *section = report->first; section; section = section->next) {
        for (const ReportPiece *piece = section->first; piece; piece = piece->next) {
            if (piece->kind == PIECE_TABLE && text_same(piece->table->key, key))
                return piece->table;
        }
    }
    return NULL;
}

/* 20 bales of 500 kg, processed: a fifth is wasted of 10 t. */
static void the_books_say_how_much_of_what_was_fed_was_wasted(void **state) {
    const Report *report =
        report_of(*state, FED_HEADING "2026-11-20,Cows,Hay,20,bales,,1\n", NULL, on(12, 1));
    const Cell *hay = table_named(report, "books")->first->cells;
    assert_string_equal(hay[0].text, "Hay");
    assert_near(hay[1].number, 50, 1e-9);
    assert_near(hay[2].number, 10, 1e-9);
    assert_near(hay[3].number, 2, 1e-9);
    assert_near(hay[5].number, 40, 1e-9);
}

/* 1.5 t and 2,000 lb of 0.45359237 kg are 2.407 t; the third was fed a day later. */
static void bought_feed_that_was_fed_is_told_beside_the_books(void **state) {
    static const char FED[] = FED_HEADING "2026-11-20,Cows,Bought hay,1.5,tonnes,,1\n"
                                          "2026-12-01,Steers,bought hay,2000,lb,,2\n"
                                          "2026-12-02,Cows,Bought hay,9,tonnes,,3\n"
                                          "2026-11-20,Cows,Hay,1,tonnes,,4\n";
    const Report *report = report_of(*state, FED, NULL, on(12, 1));
    const ReportTable *table = table_named(report, "bought");
    assert_non_null(table);
    assert_string_equal(table->first->cells[0].text, "Bought hay");
    assert_near(table->first->cells[1].number, 1.5 + 2.0 * 0.45359237, 1e-9);
    assert_null(table->first->next);
    assert_null(table_named(report_of(*state, NULL, NULL, on(12, 1)), "bought"));
}

/* ---- beside the last plan ---- */

static const Report *replanned(Arena *arena, const char *fed, Day from) {
    FarmRequest request = record_request(fed, NULL, NULL);
    request.file[FARM_LAST_PLAN] =
        record_file("last-plan.csv", "from,to,group,feed,put_out_kg_per_day,cost_per_day\n"
                                     "2026-11-01,2026-11-30,Cows,Hay,500,50\n"
                                     "2026-12-01,2027-02-08,Cows,Hay,500,50\n"
                                     "2026-12-01,2027-02-08,Cows,Bought hay,1000,160\n");
    Farm *farm = ARENA_NEW(arena, Farm);
    Faults faults = faults_new(arena);
    assert_true(farm_read(arena, &faults, &request, farm));
    assert_true(task_plan(arena, &faults, &request).report != NULL);
    request.has_from = true;
    request.from = from;
    return task_plan(arena, &faults, &request).report;
}

/* Planned 30 days of 500 kg, 15 t; fed 40 bales of 500 kg, 20 t: 5 t faster. 70 days more were
 * to cost 210 a day. */
static void what_ran_faster_than_planned_is_told(void **state) {
    const Report *report =
        replanned(*state, FED_HEADING "2026-11-20,Cows,Hay,40,bales,,1\n", on(12, 1));
    const ReportTable *table = table_named(report, "since_last_plan");
    assert_non_null(table);
    const Cell *hay = table->first->cells;
    assert_string_equal(hay[0].text, "Hay");
    assert_near(hay[1].number, 15, 1e-9);
    assert_near(hay[2].number, 20, 1e-9);
    assert_near(hay[3].number, 5, 1e-9);
    assert_string_equal(hay[4].text, "8 Feb");
    assert_true(report_says(report, "1 Dec to 20 May 2027: $14,700 by the last plan"));
}

/* Read aloud it was taken for feed that is in the cattle already. */
static void bought_feed_beside_the_last_plan_is_said_to_be_still_to_feed(void **state) {
    const Report *report =
        replanned(*state, FED_HEADING "2026-11-20,Cows,Hay,40,bales,,1\n", on(12, 1));
    assert_true(report_says(report, "Of bought feed this plan feeds in those days to come, "
                                    "beside the last plan: "));
}

/* The page of what is on hand takes storage off by the day, the plan ahead of its days: on one
 * and the same day the plan had tonnes less, and did not say why. */
static void what_the_plan_has_less_than_is_on_hand_is_said_to_be_storage_loss(void **state) {
    const ReportTable *table = table_named(replanned(*state, NULL, on(12, 1)), "stock_left");
    assert_non_null(table);
    assert_string_equal(table->caption,
                        "Left on the morning of, less storage loss to mid-winter");
}

static void the_plan_of_a_whole_winter_is_held_against_none(void **state) {
    FarmRequest request = record_request(NULL, NULL, NULL);
    request.file[FARM_LAST_PLAN] =
        record_file("last-plan.csv", "from,to,group,feed,put_out_kg_per_day,cost_per_day\n"
                                     "2026-11-01,2026-11-30,Cows,Hay,500,50\n");
    Faults faults = faults_new(*state);
    assert_null(table_named(task_plan(*state, &faults, &request).report, "since_last_plan"));
}

static void cattle_that_go_and_come_are_told_by_their_days(void **state) {
    const FarmRequest request =
        record_request(NULL, NULL,
                       "date,group,head\n2026-12-01,Steers,0\n2027-02-10,Steers,9\n"
                       "2027-05-01,Steers,0\n2027-01-05,Cows,60\n");
    Faults faults = faults_new(*state);
    const Report *report = task_plan(*state, &faults, &request).report;
    static const char *const HEADINGS[] = {
        "Cows: 50 head, 60 from 5 Jan, fed mixed",
        "Steers: 20 head, none from 1 Dec, 9 from 10 Feb, none from 1 May, fed mixed"};
    int found = 0;
    for (const ReportSection *section = report->first; section; section = section->next)
        found += found < 2 && strcmp(section->heading, HEADINGS[found]) == 0;
    assert_int_equal(found, 2);
}

static void a_last_plan_that_cannot_be_read_is_done_without(void **state) {
    FarmRequest request = record_request(NULL, NULL, NULL);
    request.file[FARM_LAST_PLAN] =
        record_file("last-plan.csv", "from,to,group,feed,put_out_kg_per_day,cost_per_day\n"
                                     "1/11/2026,30/11/2026,Cows,Hay,500,50\n");
    request.has_from = true;
    request.from = on(12, 1);
    Faults faults = faults_new(*state);
    const TaskResult result = task_plan(*state, &faults, &request);
    assert_non_null(result.report);
    assert_int_equal(faults.wrong_count, 0);
    assert_non_null(strstr(unit_faults(&faults, *state),
                           "the last plan is not used, and plan --keep writes it anew"));
    assert_null(table_named(result.report, "since_last_plan"));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_stack_fed_lately_runs_out_at_that_rate),
        UNIT_TEST(the_chart_says_what_is_left_of_each_and_until_when),
        UNIT_TEST(a_stack_not_fed_lately_runs_out_by_the_plan_of_the_rest),
        UNIT_TEST(a_stack_fed_slowly_lasts),
        UNIT_TEST(an_empty_stack_comes_last),
        UNIT_TEST(what_is_needed_is_what_they_eat_to_the_last_day_and_the_carry_over),
        UNIT_TEST(no_group_alone_is_worse_off_than_the_herd),
        UNIT_TEST(before_the_winter_its_first_day_is_planned_from),
        UNIT_TEST(on_the_last_days_nothing_is_left_to_plan),
        UNIT_TEST(the_first_words_say_what_runs_out_first_and_when),
        UNIT_TEST(a_better_weight_is_offered_with_its_cell_and_what_it_means_elsewhere),
        UNIT_TEST(feed_gone_that_nobody_wrote_down_is_not_first_a_lighter_bale),
        UNIT_TEST(where_count_and_record_agree_nothing_is_said),
        UNIT_TEST(the_books_say_how_much_of_what_was_fed_was_wasted),
        UNIT_TEST(bought_feed_that_was_fed_is_told_beside_the_books),
        UNIT_TEST(what_ran_faster_than_planned_is_told),
        UNIT_TEST(bought_feed_beside_the_last_plan_is_said_to_be_still_to_feed),
        UNIT_TEST(what_the_plan_has_less_than_is_on_hand_is_said_to_be_storage_loss),
        UNIT_TEST(the_plan_of_a_whole_winter_is_held_against_none),
        UNIT_TEST(cattle_that_go_and_come_are_told_by_their_days),
        UNIT_TEST(a_last_plan_that_cannot_be_read_is_done_without),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
