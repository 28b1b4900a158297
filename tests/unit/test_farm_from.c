/* The farm on a morning of the winter: what is left, who is there, and the days still to feed.
 */
#include "planner/farm_from.h"

#include "planner/kept_plan.h"
#include "planner/winter_plan.h"
#include "support/record_yard.h"

static Day on(int month, int day) { return calendar_day(month > 6 ? 2026 : 2027, month, day); }

static Farm *farm_on(Arena *arena, const char *fed, const char *counts, const char *heads,
                     Day from) {
    Farm *farm = record_farm(arena, fed, counts, heads);
    Faults faults = faults_new(arena);
    if (!farm_from(arena, &faults, (Place){"--from", 0, 0}, farm, from))
        fail_msg("%s", unit_faults(&faults, arena));
    return farm;
}

static int days_fed(const PlanQuestion *question, const char *group) {
    int days = 0;
    for (int b = 0; b < question->block_count; b++) {
        if (strcmp(question->farm->herd.names[question->blocks[b].group], group) == 0)
            days += question->blocks[b].days;
    }
    return days;
}

static const PlanBlock *block_on(const PlanQuestion *question, const char *group, Day day) {
    for (int b = 0; b < question->block_count; b++) {
        const PlanBlock *block = &question->blocks[b];
        if (strcmp(question->farm->herd.names[block->group], group) == 0 &&
            calendar_days_between(block->from, day) >= 0 &&
            calendar_days_between(day, block->to) >= 0)
            return block;
    }
    return NULL;
}

/* 25 of 50 t went out over a scale: the 10 % of 50 t are 20 % of what is left. */
static void what_is_left_is_known_less_well_until_it_is_counted_again(void **state) {
    static const char FED[] = FED_HEADING "2026-11-05,Cows,Hay,25,tonnes,,1\n";
    const Farm *left = farm_on(*state, FED, NULL, NULL, on(12, 1));
    assert_near(left->inventory.stacks.stacks[HAY].weight_error_share, 0.20, 1e-9);
    const Farm *counted =
        farm_on(*state, FED, COUNTS_HEADING "2026-11-30,Hay,25,tonnes,,2\n", NULL, on(12, 1));
    assert_near(counted->inventory.stacks.stacks[HAY].weight_error_share, 0.10, 1e-12);
}

static void the_days_still_to_feed_are_planned(void **state) {
    const Farm *farm = farm_on(*state, NULL, NULL, NULL, on(2, 1));
    const PlanQuestion question = plan_question(*state, farm);
    assert_int_equal(days_fed(&question, "Cows"), 109); /* 1 February to 20 May */
    assert_int_equal(calendar_days_between(question.blocks[0].from, on(2, 1)), 0);
}

/* What is fed on the day itself is of the plan that begins with it. */
static void a_stack_begins_with_what_is_left_that_morning(void **state) {
    const Farm *farm = farm_on(*state,
                               FED_HEADING "2026-12-05,Cows,Hay,30,bales,,1\n"
                                           "2027-02-01,Cows,Hay,8,bales,,2\n",
                               NULL, NULL, on(2, 1));
    const Stack *hay = &farm->inventory.stacks.stacks[HAY];
    assert_near(hay->counted_kg, 70 * 500, 1e-9);
    assert_near(hay->bale_count, 70, 1e-9);
    assert_near(stack_as_fed(hay).kg, 70 * 500, 1e-9); /* its loss is 0 */
    assert_near(farm->as_counted.stacks.stacks[HAY].counted_kg, 50000, 0);
}

static void an_empty_stack_is_no_feed_of_the_rest(void **state) {
    const Farm *farm =
        farm_on(*state, NULL, COUNTS_HEADING "2027-01-20,Hay,0,,,1\n", NULL, on(2, 1));
    const PlanQuestion question = plan_question(*state, farm);
    assert_near(question.feeds[HAY].available_kg, 0, 0);
    const WinterPlan plan = plan_winter(*state, &question);
    assert_true(plan.verdict != PLAN_FAILED);
    assert_near(plan.taken_kg[HAY], 0, 0);
}

/* A steer of 250 kg gains 0.5 kg a day: on 1 February 46 kg more. */
static void growing_cattle_are_as_heavy_as_they_have_grown(void **state) {
    const PlanQuestion question =
        plan_question(*state, farm_on(*state, NULL, NULL, NULL, on(2, 1)));
    const PlanBlock *steers = block_on(&question, "Steers", on(2, 1));
    const double middle = (steers->days - 1) / 2.0;
    assert_near(steers->need.live_weight.kg, 250 + 0.5 * (92 + middle), 1e-6);
}

static void the_needs_of_a_day_are_those_of_the_whole_winter(void **state) {
    const PlanQuestion whole = plan_question(*state, record_farm(*state, NULL, NULL, NULL));
    const PlanQuestion rest =
        plan_question(*state, farm_on(*state, NULL, NULL, NULL, on(2, 1)));
    for (int month = 3; month <= 5; month++) {
        const PlanBlock *a = block_on(&whole, "Cows", on(month, 19));
        const PlanBlock *b = block_on(&rest, "Cows", on(month, 19));
        assert_int_equal(calendar_days_between(a->from, b->from), 0);
        assert_near(requirement_nem(&a->need).mcal_per_day,
                    requirement_nem(&b->need).mcal_per_day, 1e-12);
    }
}

static void a_day_outside_of_the_winter_is_a_fault(void **state) {
    static const int OUTSIDE[][3] = {{2026, 10, 31}, {2027, 5, 20}, {2027, 8, 1}};
    for (int i = 0; i < 3; i++) {
        Farm *farm = record_farm(*state, NULL, NULL, NULL);
        Faults faults = faults_new(*state);
        assert_false(farm_from(*state, &faults, (Place){"--from", 0, 0}, farm,
                               calendar_day(OUTSIDE[i][0], OUTSIDE[i][1], OUTSIDE[i][2])));
        assert_string_equal(unit_faults(&faults, *state),
                            "--from: it is no day of this winter to plan from; one of "
                            "2026-11-01 to 2027-05-19 is\n");
    }
}

/* ---- cattle that come and go ---- */

#define HEADS "date,group,head,weight_kg,note\n"

static void those_there_now_are_fed(void **state) {
    const char *heads = HEADS "2026-12-10,Cows,48,,two died\n2027-03-01,Cows,60,,bought\n";
    const PlanQuestion whole = plan_question(*state, record_farm(*state, NULL, NULL, heads));
    assert_near(block_on(&whole, "Cows", on(12, 9))->head, 50, 0);
    assert_near(block_on(&whole, "Cows", on(12, 10))->head, 48, 0);
    assert_int_equal(
        calendar_days_between(block_on(&whole, "Cows", on(12, 10))->from, on(12, 10)), 0);
    assert_near(block_on(&whole, "Cows", on(3, 1))->head, 60, 0);
    const PlanQuestion rest =
        plan_question(*state, farm_on(*state, NULL, NULL, heads, on(2, 1)));
    assert_near(block_on(&rest, "Cows", on(2, 1))->head, 48, 0);
    assert_near(rest.farm->herd.groups[0].head, 48, 0);
    assert_near(block_on(&rest, "Cows", on(3, 1))->head, 60, 0);
}

static void cattle_that_are_sold_are_fed_to_the_day_before(void **state) {
    const char *heads = HEADS "2027-02-01,Steers,0,,sold\n";
    const PlanQuestion whole = plan_question(*state, record_farm(*state, NULL, NULL, heads));
    assert_int_equal(days_fed(&whole, "Steers"), 92);
    assert_int_equal(days_fed(&whole, "Cows"), 201);
    assert_int_equal(plan_winter(*state, &whole).verdict, PLAN_BALANCED);
    const Farm *rest = farm_on(*state, NULL, NULL, heads, on(2, 1));
    assert_int_equal(rest->herd.count, 1);
    assert_string_equal(rest->herd.names[0], "Cows");
}

static void cattle_still_to_come_are_fed_from_their_day(void **state) {
    const char *heads = HEADS "2026-11-01,Steers,0,,not bought yet\n2027-01-10,Steers,30,,\n";
    const PlanQuestion whole = plan_question(*state, record_farm(*state, NULL, NULL, heads));
    assert_null(block_on(&whole, "Steers", on(1, 9)));
    assert_near(block_on(&whole, "Steers", on(1, 10))->head, 30, 0);
}

/* A group that is there on no day has no ration to print. */
static void of_two_rows_of_one_day_the_later_holds(void **state) {
    const char *heads = HEADS "2026-11-01,Steers,0,,\n2027-01-10,Steers,30,,\n"
                              "2027-01-10,Steers,0,,not bought after all\n";
    const Farm *farm = record_farm(*state, NULL, NULL, heads);
    assert_int_equal(farm->herd.count, 1);
    assert_string_equal(farm->herd.names[0], "Cows");
}

static void a_farm_without_cattle_is_a_fault(void **state) {
    Farm *farm =
        record_farm(*state, NULL, NULL, HEADS "2027-01-10,Steers,0,,\n2027-01-10,Cows,0,,\n");
    Faults faults = faults_new(*state);
    assert_false(farm_from(*state, &faults, (Place){"--from", 0, 0}, farm, on(2, 1)));
    assert_string_equal(
        unit_faults(&faults, *state),
        "head-changes.csv:2:19: head: by this file no cattle are left to feed\n");
}

/* Weighed on 1 January at 320 kg, where 250 and 61 days of 0.5 would be 280.5. */
static void a_weighing_moves_the_path_of_growing_cattle(void **state) {
    const PlanQuestion rest =
        plan_question(*state, farm_on(*state, NULL, NULL,
                                      HEADS "2027-01-01,Steers,20,320,weighed\n", on(2, 1)));
    const PlanBlock *steers = block_on(&rest, "Steers", on(2, 1));
    const double middle = (steers->days - 1) / 2.0;
    assert_near(steers->need.live_weight.kg, 320 + 0.5 * (31 + middle), 1e-6);
}

static void head_changes_tell_what_is_wrong_with_them(void **state) {
    const FarmRequest request = record_request(NULL, NULL,
                                               HEADS "2026-10-01,Cows,48,,\n"
                                                     "2026-12-01,Cow,48,,\n"
                                                     "2026-12-01,Cows,-1,,\n"
                                                     "2026-12-01,Cows,500,,\n");
    Faults faults = faults_new(*state);
    Farm farm;
    assert_false(farm_read(*state, &faults, &request, &farm));
    assert_string_equal(
        strstr(unit_faults(&faults, *state), "head-changes.csv"),
        "head-changes.csv:2:1: date: 2026-10-01 is no feeding day of this winter; before the "
        "first, change the herd file; is the year right?\n"
        "head-changes.csv:3:12: doubt: group: this herd has no group named 'Cow'; did you mean "
        "'Cows'?; the row is not used\n"
        "head-changes.csv:4:17: head: -1 is outside 0 to 100000\n"
        "head-changes.csv:5:17: doubt: head: 500 where the herd file has 50; it is how many "
        "there are from that day on, not how many came\n");
}

/* ---- a plan that is kept ---- */

static void a_plan_is_kept_and_read_again(void **state) {
    const PlanQuestion question = plan_question(*state, record_farm(*state, NULL, NULL, NULL));
    const WinterPlan plan = plan_winter(*state, &question);
    assert_int_equal(plan.verdict, PLAN_BALANCED);
    const Text text = kept_plan_text(*state, &plan);
    Faults faults = faults_new(*state);
    const KeptPlan kept =
        kept_plan_parse(*state, &faults, "last-plan.csv", text.bytes, text.length);
    assert_string_equal(unit_faults(&faults, *state), "");
    const Day first = question.farm->winter.first_day;
    const Day last = question.farm->winter.last_day;
    for (int f = 0; f < question.feed_count; f++)
        assert_near(kept_plan_kg(&kept, question.feeds[f].name, first, last), plan.taken_kg[f],
                    0.001 * 201);
    assert_near(kept_plan_cost(&kept, first, last), plan.cost.total - plan.cost.yardage, 5.0);
    const double half =
        kept_plan_cost(&kept, first, on(1, 31)) + kept_plan_cost(&kept, on(2, 1), last);
    assert_near(half, kept_plan_cost(&kept, first, last), 1e-6);
    assert_near(kept_plan_cost(&kept, on(6, 1), on(6, 30)), 0, 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(what_is_left_is_known_less_well_until_it_is_counted_again),
        UNIT_TEST(the_days_still_to_feed_are_planned),
        UNIT_TEST(a_stack_begins_with_what_is_left_that_morning),
        UNIT_TEST(an_empty_stack_is_no_feed_of_the_rest),
        UNIT_TEST(growing_cattle_are_as_heavy_as_they_have_grown),
        UNIT_TEST(the_needs_of_a_day_are_those_of_the_whole_winter),
        UNIT_TEST(a_day_outside_of_the_winter_is_a_fault),
        UNIT_TEST(those_there_now_are_fed),
        UNIT_TEST(cattle_that_are_sold_are_fed_to_the_day_before),
        UNIT_TEST(cattle_still_to_come_are_fed_from_their_day),
        UNIT_TEST(of_two_rows_of_one_day_the_later_holds),
        UNIT_TEST(a_farm_without_cattle_is_a_fault),
        UNIT_TEST(a_weighing_moves_the_path_of_growing_cattle),
        UNIT_TEST(head_changes_tell_what_is_wrong_with_them),
        UNIT_TEST(a_plan_is_kept_and_read_again),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
