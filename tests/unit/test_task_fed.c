/* The command fed from bytes to bytes: what it writes, refuses, doubts and takes back. */
#include "entry/task.h"

#include "support/record_yard.h"
#include "support/told_report.h"

static RecordWish feeding(const char *group, const char *stack, const char *number,
                          AmountUnit unit) {
    return (RecordWish){.date = calendar_day(2026, 11, 20),
                        .group = group,
                        .stack = stack,
                        .number = number,
                        .unit = unit};
}

static RecordWish count_of(const char *stack, const char *number, AmountUnit unit) {
    RecordWish wish = feeding(NULL, stack, number, unit);
    wish.is_recount = true;
    return wish;
}

static TaskResult asked(Arena *arena, const char *fed, const char *counts, RecordWish wish) {
    FarmRequest request = record_request(fed, counts, NULL);
    request.record = wish;
    Faults faults = faults_new(arena);
    const TaskResult result = task_fed(arena, &faults, &request);
    if (result.status == TASK_FAULTY)
        fail_msg("%s", unit_faults(&faults, arena));
    return result;
}

static const char *refused(Arena *arena, const char *fed, RecordWish wish) {
    FarmRequest request = record_request(fed, NULL, NULL);
    request.record = wish;
    Faults faults = faults_new(arena);
    const TaskResult result = task_fed(arena, &faults, &request);
    assert_int_equal(result.status, TASK_FAULTY);
    assert_null(result.written.name);
    const Fault **sorted = faults_sorted(&faults, arena);
    for (int i = 0; i < faults.wrong_count + faults.doubt_count; i++) {
        if (sorted[i]->kind == FAULT_WRONG)
            return arena_print(arena, "%s%s", place_text(sorted[i]->place, arena),
                               sorted[i]->text);
    }
    return "";
}

static void a_first_feeding_begins_the_file(void **state) {
    const TaskResult result =
        asked(*state, NULL, NULL, feeding("cow", "hay", "6", AMOUNT_BALES));
    assert_string_equal(result.written.name, "fed.csv");
    assert_non_null(strstr(result.written.bytes, "\ndate,group,stack,amount,unit,note,entry\n"
                                                 "2026-11-20,Cows,Hay,6,bales,,1\n"));
    assert_string_equal(result.report->verdict, "Fed on 20 Nov 2026: 6 bales of Hay to Cows.");
}

static void units_as_entered_are_kept(void **state) {
    const TaskResult result =
        asked(*state, FED_HEADING, NULL, feeding("Cows", "Pit", "2600.50", AMOUNT_LB));
    assert_string_equal(result.written.bytes,
                        FED_HEADING "2026-11-20,Cows,Pit,2600.50,lb,,1\n");
}

static void a_count_goes_to_its_own_file_and_numbers_run_through_both(void **state) {
    const TaskResult result = asked(*state, FED_HEADING "2026-11-02,Cows,Hay,6,bales,,7\n",
                                    COUNTS_HEADING "2026-11-03,Pit,190,tonnes,,5\n",
                                    count_of("Hay", "93", AMOUNT_BALES));
    assert_string_equal(result.written.name, "counts.csv");
    assert_string_equal(result.written.bytes, COUNTS_HEADING
                        "2026-11-03,Pit,190,tonnes,,5\n2026-11-20,Hay,93,bales,,8\n");
}

static void what_was_bought_may_be_fed_and_is_no_stack(void **state) {
    const TaskResult result =
        asked(*state, FED_HEADING, NULL, feeding("Cows", "Barley", "300", AMOUNT_KG));
    assert_non_null(strstr(result.written.bytes, "Cows,Barley,300,kg,,1"));
    assert_true(report_says(result.report, "Barley is for sale and not a stack of the yard"));
}

static void what_cannot_be_is_refused_with_the_cure(void **state) {
    assert_string_equal(refused(*state, NULL, feeding("Cows", "Hya", "6", AMOUNT_BALES)),
                        "--stack: no stack is named 'Hya'; did you mean 'Hay'?");
    assert_string_equal(refused(*state, NULL, feeding("Bulls", "Hay", "6", AMOUNT_BALES)),
                        "--group: no group is named 'Bulls'; there are: Cows; Steers");
    assert_string_equal(refused(*state, NULL, feeding("Cows", "Pit", "6", AMOUNT_BALES)),
                        "this entry: unit: 'Pit' has no count of bales in stacks.csv; write a "
                        "weight");
    assert_string_equal(
        refused(*state, NULL, feeding("Cows", "Bought hay", "3", AMOUNT_BALES)),
        "this entry: unit: 'Bought hay' is for sale, and nothing says what a bale of it "
        "weighs; write a weight");
    RecordWish late = feeding("Cows", "Hay", "6", AMOUNT_BALES);
    late.date = calendar_day(2027, 11, 20);
    assert_string_equal(refused(*state, NULL, late),
                        "this entry: date: 2027-11-20 is 184 days after the last feeding day; "
                        "is the year right?");
}

/* A file that has a fault is not written to: nobody knows what its rows mean. */
static void a_file_with_a_fault_is_mended_first(void **state) {
    assert_string_equal(refused(*state, FED_HEADING "2026-11-02,Cows,Hay,x,bales,,1\n",
                                feeding("Cows", "Hay", "6", AMOUNT_BALES)),
                        "fed.csv:2:21: amount: 'x' is not a number");
}

static void more_than_there_is_is_written_and_doubted(void **state) {
    const TaskResult result =
        asked(*state, FED_HEADING, NULL, feeding("Cows", "Hay", "101", AMOUNT_BALES));
    assert_non_null(strstr(result.written.bytes, "Cows,Hay,101,bales,,1"));
    assert_true(report_says(result.report,
                            "Written, but look again. amount: 101 bales is 500 "
                            "kg (1102 lb) more than the record leaves of 'Hay'"));
}

/* The pit lies idle: chop that was never tested for nitrate. */
static void feed_that_is_kept_from_them_is_told_at_once(void **state) {
    const TaskResult result =
        asked(*state, FED_HEADING, NULL, feeding("Steers", "Pit", "300", AMOUNT_KG));
    assert_non_null(strstr(result.written.bytes, "Steers,Pit,300,kg,,1"));
    assert_true(report_says(result.report, "Pit is kept from Steers for their safety: "));
    const TaskResult hay =
        asked(*state, FED_HEADING, NULL, feeding("Steers", "Hay", "1", AMOUNT_BALES));
    assert_false(report_says(hay.report, "is kept from"));
}

static RecordWish undo(void) {
    RecordWish wish = {0};
    wish.is_given[RECORD_OPTION_UNDO] = true;
    return wish;
}

static void the_last_entry_of_both_files_is_taken_back(void **state) {
    static const char FED[] = FED_HEADING "2026-11-09,Cows,Hay,6,bales,,2\n"
                                          "2026-11-02,Cows,Hay,5,bales,back,3\n"
                                          "2026-11-10,Cows,Hay,7,bales,by hand,\n";
    const TaskResult first =
        asked(*state, FED, COUNTS_HEADING "2026-11-12,Hay,80,bales,,4\n", undo());
    assert_string_equal(first.written.name, "counts.csv");
    assert_string_equal(first.written.bytes, COUNTS_HEADING);
    const TaskResult second = asked(*state, FED, COUNTS_HEADING, undo());
    assert_string_equal(second.written.name, "fed.csv");
    assert_string_equal(second.written.bytes,
                        FED_HEADING "2026-11-09,Cows,Hay,6,bales,,2\n"
                                    "2026-11-10,Cows,Hay,7,bales,by hand,\n");
    assert_string_equal(second.report->verdict,
                        "Taken back, from fed.csv: 2026-11-02,Cows,Hay,5,bales,back,3");
}

static void what_was_typed_in_a_spreadsheet_is_not_taken_back(void **state) {
    assert_string_equal(
        refused(*state, FED_HEADING "2026-11-10,Cows,Hay,7,bales,,\n", undo()),
        "--undo: there is no entry that winterstack fed has written; a row typed "
        "in a spreadsheet is taken out there");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_first_feeding_begins_the_file),
        UNIT_TEST(units_as_entered_are_kept),
        UNIT_TEST(a_count_goes_to_its_own_file_and_numbers_run_through_both),
        UNIT_TEST(what_was_bought_may_be_fed_and_is_no_stack),
        UNIT_TEST(what_cannot_be_is_refused_with_the_cure),
        UNIT_TEST(a_file_with_a_fault_is_mended_first),
        UNIT_TEST(more_than_there_is_is_written_and_doubted),
        UNIT_TEST(feed_that_is_kept_from_them_is_told_at_once),
        UNIT_TEST(the_last_entry_of_both_files_is_taken_back),
        UNIT_TEST(what_was_typed_in_a_spreadsheet_is_not_taken_back),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
