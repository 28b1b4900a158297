/* What is said of the yard's rules. The winters are those of support/hand_question.h. */
#include "outcome/plan_cautions.h"
#include "outcome/plan_report.h"
#include "outcome/plan_yard.h"
#include "planner/yard_plan.h"
#include "support/hand_question.h"
#include "support/unit.h"
#include <string.h>

static HandQuestion *november(Arena *arena) {
    HandQuestion *hand = hand_question(arena, 30);
    hand->farm.winter.farm = "";
    hand->farm.winter.currency = "$";
    hand->farm.weather.normals_station = "nowhere";
    for (int g = 0; g < HAND_MOST; g++) {
        hand->groups[g].stand_ins = "";
        hand->groups[g].yard = "";
    }
    return hand;
}

static const WinterPlan *planned(Arena *arena, const HandQuestion *hand) {
    WinterPlan *plan = ARENA_NEW(arena, WinterPlan);
    *plan = plan_with_yard_rules(arena, &hand->question);
    return plan;
}

static const ReportSection *section_of(const Report *report, const char *key) {
    for (const ReportSection *section = report->first; section; section = section->next) {
        if (strcmp(section->key, key) == 0)
            return section;
    }
    return NULL;
}

static bool says(const ReportSection *section, const char *words) {
    if (!section)
        return false;
    for (const ReportPiece *piece = section->first; piece; piece = piece->next) {
        if (piece->text && strstr(piece->text, words))
            return true;
    }
    return false;
}

static bool has_column(const ReportSection *section, const char *label) {
    if (!section)
        return false;
    for (const ReportPiece *piece = section->first; piece; piece = piece->next) {
        if (piece->kind == PIECE_TABLE && strcmp(piece->table->columns[0].label, label) == 0)
            return true;
    }
    return false;
}

static const Figure *member(const Figure *of, const char *key) {
    for (const Figure *at = of->first; at; at = at->next) {
        if (strcmp(at->key, key) == 0)
            return at;
    }
    fail_msg("no figure is named %s", key);
    return of;
}

/* Four loads of which 667 kg are left: tests/unit/test_yard_plan.c. */
static HandQuestion *by_the_load(Arena *arena) {
    HandQuestion *hand = november(arena);
    hand_offer(hand, "hay", 0.20)->load_kg = 1000.0;
    hand_group(hand, "Cows", 10, 10.0, 30);
    hand->farm.winter.rules.whole_loads = true;
    return hand;
}

static void a_plan_without_rules_has_no_section_of_them(void **state) {
    HandQuestion *hand = by_the_load(*state);
    hand->farm.winter.rules.whole_loads = false;
    const Report *report = plan_report(*state, planned(*state, hand), UNITS_METRIC);
    assert_null(section_of(report, "yard_rules"));
    assert_int_equal(member(report->figures, "yard_rules")->kind, FIGURE_NOTHING);
}

/* In brief neither worths of stacks nor days of feed are told, nor what holds of them. */
static void rules_in_brief_speak_of_no_worth_or_days_that_are_left_out(void **state) {
    const WinterPlan *plan = planned(*state, by_the_load(*state));
    const PlanFindings in_brief = plan_findings_in_brief(*state, plan, UNITS_METRIC);
    const ReportSection *section = section_of(plan_brief_of(*state, &in_brief), "yard_rules");
    assert_true(says(section, "Kept, as asked: feed is bought by whole loads"));
    assert_false(says(section, "what a stack is worth"));
    assert_true(says(section_of(plan_report(*state, plan, UNITS_METRIC), "yard_rules"),
                     "what a stack is worth"));
}

/* $800 instead of $666.67. */
static void whole_loads_are_said_with_what_they_cost_and_leave(void **state) {
    const Report *report =
        plan_report(*state, planned(*state, by_the_load(*state)), UNITS_METRIC);
    const ReportSection *section = section_of(report, "yard_rules");
    assert_non_null(section);
    assert_true(says(section, "Kept, as asked: feed is bought by whole loads"));
    assert_true(says(section, "cost $133 more than the plan without them, $667"));
    assert_true(says(section, "0.7 t of hay"));
    assert_true(says(section, "$133, and is yours next winter if it keeps"));
    assert_false(says(section, "not kept"));
    const Figure *bought = member(report->figures, "purchases")->first;
    assert_near(member(bought, "loads")->number, 4.0, 0.0);
    assert_near(member(bought, "as_fed_kg")->number, 4000.0, 1e-9);
    const Figure *rules = member(report->figures, "yard_rules");
    assert_near(member(rules, "cost")->number, 800.0 - 2700.0 / 0.81 * 0.20, 0.7);
    assert_true(member(rules, "proved")->truth);
    assert_true(member(member(rules, "rules")->first, "kept")->truth);
}

/* With whole loads the prices are still those of the plan by the kilogram, which may buy other
 * feeds: they once stood as if they were of the plan shown. */
/* Hay alone is one feed, and the rule lets a ration have five. */
static void rules_that_change_nothing_are_said_to_cost_nothing(void **state) {
    HandQuestion *hand = november(*state);
    hand_offer(hand, "hay", 0.20);
    hand_group(hand, "Cows", 10, 10.0, 30);
    hand->farm.winter.rules.most_feeds = 5;
    const Report *report = plan_report(*state, planned(*state, hand), UNITS_METRIC);
    assert_true(says(section_of(report, "yard_rules"), "Keeping them costs nothing: the winter "
                                                       "costs $"));
}

static void prices_under_rules_are_said_to_be_of_the_plan_without_them(void **state) {
    HandQuestion *hand = by_the_load(*state);
    const ReportSection *section =
        section_of(plan_report(*state, planned(*state, hand), UNITS_METRIC), "purchases");
    assert_true(says(section, "of the plan without the yard rules"));
    assert_true(has_column(section, "Bought without the rules"));
    hand->farm.winter.rules.whole_loads = false;
    section = section_of(plan_report(*state, planned(*state, hand), UNITS_METRIC), "purchases");
    assert_false(says(section, "without the yard rules"));
    assert_true(has_column(section, "Bought"));
}

/* Two periods of one feed that are not in whole bales are one phrase. */
static void bales_that_are_not_whole_are_named_once_with_their_days(void **state) {
    HandQuestion *hand = november(*state);
    hand_own(hand, "hay", 0.10, 100000.0);
    hand_group(hand, "Cows", 10, 12.0, 15);
    hand_period(hand, 12.0, 15);
    WinterPlan plan = plan_winter(*state, &hand->question);
    const bool not_whole[] = {true, true};
    const struct YardOutcome yard = {.kept = {.is_on = {[YARD_RULE_WHOLE_BALES] = true}},
                                     .not_whole = not_whole};
    plan.yard = &yard;
    assert_string_equal(yard_not_whole_words(*state, &plan), "hay for Cows from 1 Nov, 16 Nov");
}

static void a_rule_not_kept_is_a_caution(void **state) {
    HandQuestion *hand = by_the_load(*state);
    hand->feeds[0].available_kg = 3500.0; /* three loads are too few, a fourth is not there */
    const WinterPlan *plan = planned(*state, hand);
    const Report *report = plan_report(*state, plan, UNITS_METRIC);
    assert_true(says(section_of(report, "yard_rules"),
                     "Asked for and not kept in this plan: whole loads of what is bought. No "
                     "balanced plan that keeps it was found."));
    const Caution *cautions;
    const int count = plan_cautions(*state, plan, UNITS_METRIC, &cautions);
    bool is_said = false;
    for (int i = 0; i < count; i++)
        is_said |= strcmp(cautions[i].topic, "yard rules") == 0 &&
                   cautions[i].severity == SEVERITY_CAUTION;
    assert_true(is_said);
}

static void in_a_short_winter_cattle_come_before_rules(void **state) {
    HandQuestion *hand = november(*state);
    hand_own(hand, "hay", 0.10, 1000.0);
    hand_own(hand, "greenfeed", 0.10, 500.0);
    hand_group(hand, "Cows", 10, 10.0, 30);
    hand->farm.winter.rules.most_feeds = 1;
    const char *words = yard_not_kept_words(*state, planned(*state, hand));
    assert_non_null(strstr(words, "the most feeds in a ration"));
    assert_non_null(strstr(words, "lets the cattle lack no more than they must"));
}

static void a_search_not_ended_tells_what_might_be_saved(void **state) {
    HandQuestion *hand = by_the_load(*state);
    WinterPlan plan = *planned(*state, hand);
    struct YardOutcome yard = *plan.yard;
    yard.gap = 0.0123;
    yard.is_proved = false;
    plan.yard = &yard;
    const Report *report = plan_report(*state, &plan, UNITS_METRIC);
    assert_true(says(section_of(report, "yard_rules"), "save up to 1.2 %"));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_plan_without_rules_has_no_section_of_them),
        UNIT_TEST(rules_in_brief_speak_of_no_worth_or_days_that_are_left_out),
        UNIT_TEST(whole_loads_are_said_with_what_they_cost_and_leave),
        UNIT_TEST(rules_that_change_nothing_are_said_to_cost_nothing),
        UNIT_TEST(prices_under_rules_are_said_to_be_of_the_plan_without_them),
        UNIT_TEST(bales_that_are_not_whole_are_named_once_with_their_days),
        UNIT_TEST(a_rule_not_kept_is_a_caution),
        UNIT_TEST(in_a_short_winter_cattle_come_before_rules),
        UNIT_TEST(a_search_not_ended_tells_what_might_be_saved),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
