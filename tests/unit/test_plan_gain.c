/* What is said to set a ration that brings more gain than was asked. Plans are put together by
 * hand: a hay and a mineral, one need that holds the ration up, or none. */
#include "outcome/plan_gain.h"
#include "support/hand_question.h"
#include "support/unit.h"

enum { HAY, MINERAL, FEEDS };
enum { MOST_PERIODS = 3, NEEDS = 2 };

typedef struct {
    HandQuestion *hand;
    RationLimit energy, fill, vitamin;
    double hay[FEEDS], of_mineral[FEEDS], eaten[FEEDS];
    LimitOutcome limits[MOST_PERIODS][NEEDS];
    BlockOutcome blocks[MOST_PERIODS];
    WinterPlan plan;
} Planned;

/* 0.5 kg asked and 0.6 brought; 9 kg of dry matter are needed and eaten, at ten cents a kg. */
static Planned *planned(Arena *arena, int periods) {
    Planned *of = ARENA_NEW(arena, Planned);
    *of = (Planned){
        .hand = hand_question(arena, 30),
        .energy = {.key = "net_energy", .label = "Net energy", .law = LAW_GAIN},
        .fill = {.key = "dry_matter_fill", .label = "Dry matter, enough to be full"},
        .vitamin = {.key = "vitamin_a", .label = "Vitamin A"},
        .hay = {1.0, 0.0},
        .of_mineral = {0.0, 1e6},
        .eaten = {9.0, 0.05},
    };
    of->energy.per_kg = of->fill.per_kg = of->hay;
    of->vitamin.per_kg = of->of_mineral;
    hand_own(of->hand, "Hay", 0.1, 1e6);
    hand_own(of->hand, "Mineral", 1.0, 1e6);
    of->hand->stuffs[MINERAL].feed_class = FEED_CLASS_MINERAL;
    for (int b = 0; b < periods; b++) {
        PlanBlock *block = b == 0 ? hand_group(of->hand, "Steers", 10, 6.0, 10)
                                  : hand_period(of->hand, 6.0, 10);
        block->need.retained.mcal_per_day = 1.5;
        block->need.gain.kg_per_day = 0.5;
        of->limits[b][0] = (LimitOutcome){&of->energy, 8.0, 7.5, NO_LIMIT, 0.2, 0.0, 0.0};
        of->limits[b][1] = (LimitOutcome){&of->fill, 9.0, 9.0, NO_LIMIT, 0.1, 0.0, 0.0};
        of->blocks[b] = (BlockOutcome){
            .eaten = of->eaten, .limits = of->limits[b], .limit_count = NEEDS, .gain_kg = 0.6};
    }
    of->plan = (WinterPlan){
        .verdict = PLAN_BALANCED, .question = &of->hand->question, .blocks = of->blocks};
    return of;
}

static const char *words(Arena *arena, const Planned *of) {
    return plan_gain_words(arena, &of->plan, 0, of->hand->question.block_count);
}

static void a_need_at_its_least_sets_the_ration_and_is_named_with_its_days(void **state) {
    const Planned *of = planned(*state, 2);
    const RationLimit *limit;
    assert_int_equal(plan_gain_cause(&of->plan, 0, &limit), GAIN_BY_LIMIT);
    assert_string_equal(limit->key, "dry_matter_fill");
    assert_string_equal(words(*state, of),
                        "More gain than asked: \"Dry matter, enough to be full\" sets the "
                        "ration from 1 Nov, 11 Nov.");
}

/* 0.505 kg is one per cent above. */
static void within_a_hundredth_of_what_was_asked_nothing_is_said(void **state) {
    Planned *of = planned(*state, 1);
    of->blocks[0].gain_kg = 0.5049;
    assert_string_equal(words(*state, of), "");
    of->blocks[0].gain_kg = 0.5051;
    assert_string_not_equal(words(*state, of), "");
}

/* 9.5 kg where 9 would do: no need holds the ration there. */
static void a_ration_above_every_need_was_evened_out(void **state) {
    Planned *of = planned(*state, 2);
    of->limits[1][1].supplied = 9.5;
    const RationLimit *limit;
    assert_int_equal(plan_gain_cause(&of->plan, 1, &limit), GAIN_BY_EVENING);
    assert_null(limit);
    assert_string_equal(words(*state, of),
                        "More gain than asked: \"Dry matter, enough to be full\" sets the "
                        "ration from 1 Nov; evened out with the rations beside it from 11 "
                        "Nov.");
}

/* However dear: a pinch more of a mineral brings no energy. */
static void what_a_mineral_brings_sets_no_gain(void **state) {
    Planned *of = planned(*state, 1);
    of->limits[0][1] = (LimitOutcome){&of->vitamin, 5e4, 5e4, NO_LIMIT, 1.0, 0.0, 0.0};
    const RationLimit *limit;
    assert_int_equal(plan_gain_cause(&of->plan, 0, &limit), GAIN_BY_EVENING);
}

static void cattle_that_do_not_grow_and_a_winter_that_is_short_are_told_nothing(void **state) {
    Planned *of = planned(*state, 1);
    of->plan.verdict = PLAN_SHORT;
    assert_string_equal(words(*state, of), "");
    of->plan.verdict = PLAN_BALANCED;
    of->hand->blocks[0].need.retained.mcal_per_day = 0.0;
    assert_string_equal(words(*state, of), "");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_need_at_its_least_sets_the_ration_and_is_named_with_its_days),
        UNIT_TEST(within_a_hundredth_of_what_was_asked_nothing_is_said),
        UNIT_TEST(a_ration_above_every_need_was_evened_out),
        UNIT_TEST(what_a_mineral_brings_sets_no_gain),
        UNIT_TEST(cattle_that_do_not_grow_and_a_winter_that_is_short_are_told_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
