/* Amounts as they stand on the plan's page and on a feed sheet: what is too little to be shown,
 * and what is taken off before it is. */
#include "outcome/feed_sheets.h"
#include "outcome/plan_report.h"
#include "planner/winter_plan.h"

#include "support/record_yard.h"
#include "support/told_report.h"

static const ReportTable *table_with_key(const Report *report, const char *key) {
    static const Cell NO_CELLS[8];
    static ReportRow NO_ROW = {.cells = NO_CELLS};
    static const ReportTable NONE = {.caption = "", .first = &NO_ROW, .last = &NO_ROW};
    for (const ReportSection *of = report->first; of; of = of->next) {
        for (const ReportPiece *piece = of->first; piece; piece = piece->next) {
            if (piece->kind == PIECE_TABLE && strcmp(piece->table->key, key) == 0)
                return piece->table;
        }
    }
    fail_msg("no table is named %s", key);
    return &NONE;
}

/* Ten cows on hay, and of crumbs what a solver may leave: 0.1 g a head. */
static WinterPlan *plan_with_crumbs(Arena *arena) {
    HandQuestion *hand = hand_november(arena);
    hand_offer(hand, "Crumbs", 0.2);
    hand_offer(hand, "Hay", 0.1);
    hand_group(hand, "Cows", 10, 12.0, 30);
    hand->groups[0].yard = "";
    WinterPlan *plan = ARENA_NEW(arena, WinterPlan);
    *plan = plan_winter(arena, &hand->question);
    BlockOutcome *block = ARENA_NEW(arena, BlockOutcome);
    double *eaten = ARENA_ARRAY(arena, double, 2);
    *block = plan->blocks[0];
    eaten[0] = 1e-4;
    eaten[1] = block->eaten[1];
    block->eaten = eaten;
    plan->blocks = block;
    return plan;
}

static void what_the_scale_cannot_show_is_not_loaded(void **state) {
    const PlanFindings findings = plan_findings(*state, plan_with_crumbs(*state), UNITS_METRIC);
    const ReportTable *load = table_with_key(feed_sheets(*state, &findings), "load");
    assert_string_equal(load->first->cells[0].text, "Hay");
    assert_ptr_equal(load->first->next, load->last);
}

static void less_than_can_be_shown_is_shown_as_not_fed(void **state) {
    const ReportTable *ration =
        table_with_key(plan_report(*state, plan_with_crumbs(*state), UNITS_METRIC), "ration");
    assert_string_equal(ration->first->cells[0].text, "Crumbs");
    assert_int_equal(ration->first->cells[1].kind, CELL_EMPTY);
    assert_int_equal(ration->first->next->cells[1].kind, CELL_NUMBER);
}

/* A count of the day before says more than the first morning of this table. */
static void stacks_that_go_down_say_that_the_storage_loss_is_off(void **state) {
    WinterPlan *plan = ARENA_NEW(*state, WinterPlan);
    PlanQuestion *question = ARENA_NEW(*state, PlanQuestion);
    *question = plan_question(*state, record_farm(*state, NULL, NULL, NULL));
    *plan = plan_winter(*state, question);
    const ReportTable *left =
        table_with_key(plan_report(*state, plan, UNITS_METRIC), "stock_left");
    assert_non_null(strstr(left->caption, "less storage loss to mid-winter"));
}

/* Of a mineral for one cow 20 g of dry matter eaten are 24.7 put out: 0.0 kg. */
static void a_handful_for_one_cow_is_loaded_in_grams(void **state) {
    HandQuestion *hand = hand_november(*state);
    hand_offer(hand, "Hay", 0.1)->bale_kg = 2000.0;
    hand_offer(hand, "Mineral", 1.0);
    hand->stuffs[1].feed_class = FEED_CLASS_MINERAL;
    hand_group(hand, "House cow", 1, 12.0, 30);
    hand->groups[0].yard = "";
    WinterPlan *plan = ARENA_NEW(*state, WinterPlan);
    *plan = plan_winter(*state, &hand->question);
    BlockOutcome block = plan->blocks[0];
    block.eaten = (double[]){block.eaten[0], 0.020};
    plan->blocks = &block;
    const ReportTable *loads = table_with_key(plan_report(*state, plan, UNITS_METRIC), "loads");
    assert_string_equal(loads->last->cells[0].text, "Mineral (g)");
    assert_near(loads->last->cells[1].number, 24.69, 0.01);
    /* 12.35 kg of a bale of 2,000 kg are not 0.00 of it */
    assert_string_equal(loads->first->next->cells[0].text, "  in bales");
    assert_int_equal(loads->first->next->cells[1].decimals, 3);
}

/* 7 kg of the 9 that fill a cow, and energy enough in 5: her chart said that she got all she
 * needed. */
static void cattle_that_are_not_full_are_not_said_to_get_all_they_need(void **state) {
    HandQuestion *hand = hand_november(*state);
    hand_offer(hand, "Hay", 0.1)->available_kg = 7.0 * 10.0 * 30.0 / 0.81;
    hand_group(hand, "Cows", 10, 6.0, 30);
    hand->groups[0].yard = "";
    const Report *report = hand_report(*state, hand);
    const ReportTable *supply = table_with_key(report, "supply");
    assert_string_equal(supply->last->cells[0].text, "Dry matter, enough to be full");
    assert_near(supply->last->cells[5].number, 100.0 * 7.0 / 9.0, 0.1);
    for (const ReportSection *of = report->first; of; of = of->next) {
        for (const ReportPiece *piece = of->first; piece; piece = piece->next) {
            if (piece->kind == PIECE_CHART)
                assert_null(strstr(piece->chart->title, "get all they need"));
        }
    }
}

/* "Buy 0 kg of Magnesium oxide": a gram a day for nine cows. */
static void half_a_kilogram_to_buy_is_not_said_as_none(void **state) {
    assert_string_equal(weight_words(*state, UNITS_METRIC, 0.31), "310 g");
    assert_string_equal(weight_words(*state, UNITS_IMPERIAL, 0.31), "10.9 oz"); /* 28.35 g */
    assert_string_equal(weight_words(*state, UNITS_METRIC, 0.5), "500 g");
    assert_string_equal(weight_words(*state, UNITS_METRIC, 0.0), "0 kg");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(what_the_scale_cannot_show_is_not_loaded),
        UNIT_TEST(less_than_can_be_shown_is_shown_as_not_fed),
        UNIT_TEST(stacks_that_go_down_say_that_the_storage_loss_is_off),
        UNIT_TEST(a_handful_for_one_cow_is_loaded_in_grams),
        UNIT_TEST(half_a_kilogram_to_buy_is_not_said_as_none),
        UNIT_TEST(cattle_that_are_not_full_are_not_said_to_get_all_they_need),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
