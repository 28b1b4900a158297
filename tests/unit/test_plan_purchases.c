/* The table of what to buy. The winters are those of support/hand_question.h. */
#include "base/text.h"
#include "planner/farm_from.h"
#include "planner/mend.h"
#include "support/text_farm.h"
#include "support/told_report.h"
#include "support/unit.h"

/* Ten cows for 30 days on bought hay without calcium, and so many g of it wanted a head and
 * day, which a mineral of 10 % brings: 10 g of dry matter for each, 10 / 0.81 as it is bought.
 */
static HandQuestion *wanting_calcium(Arena *arena, double grams) {
    HandQuestion *hand = hand_november(arena);
    hand_offer(hand, "Hay", 0.10);
    PlanFeed *mineral = hand_offer(hand, "Mineral", 1.0);
    hand->stuffs[1].feed_class = FEED_CLASS_MINERAL;
    for (int n = 0; n < NUTRIENT_COUNT; n++)
        mineral->eaten[n] = 0.0;
    mineral->degraded = mineral->undegraded = 0.0;
    mineral->eaten[NUTRIENT_CALCIUM] = 10.0;
    hand_group(hand, "Cows", 10, 12.0, 30)->need.calcium.g_per_day = grams;
    return hand;
}

static const ReportTable *purchases_of(const Report *report) {
    for (const ReportSection *section = report->first; section; section = section->next) {
        for (const ReportPiece *piece = section->first; piece; piece = piece->next) {
            if (piece->table && text_same(piece->table->key, "purchases"))
                return piece->table;
        }
    }
    return NULL;
}

/* 0.081 g are 0.81 g of it, 1 g bought: 300 g for 300 days of a head, 10.6 oz. */
static void a_handful_of_mineral_is_not_bought_as_0_000_t(void **state) {
    const ReportTable *table =
        purchases_of(hand_report(*state, wanting_calcium(*state, 0.081)));
    assert_non_null(table);
    assert_string_equal(table->first->next->cells[0].text, "Mineral (g)");
    assert_near(table->first->next->cells[1].number, 300.0, 0.5);
    assert_int_equal(table->first->next->cells[1].decimals, 0);
}

/* A hundred times that is 30 kg. */
static void a_bag_of_mineral_is_bought_in_tonnes(void **state) {
    const ReportTable *table = purchases_of(hand_report(*state, wanting_calcium(*state, 8.1)));
    assert_non_null(table);
    assert_string_equal(table->first->next->cells[0].text, "Mineral");
    assert_near(table->first->next->cells[1].number, 0.030, 1e-4);
    assert_int_equal(table->first->next->cells[1].decimals, 3);
}

/* 0.3 g in all. */
static void what_no_scale_shows_is_not_bought(void **state) {
    const ReportTable *table =
        purchases_of(hand_report(*state, wanting_calcium(*state, 0.000081)));
    assert_non_null(table);
    assert_string_equal(table->first->cells[0].text, "Hay");
    assert_string_equal(table->first->next->cells[0].text, "Total");
}

/* A thousandth of a gram in the first half of the winter, which no ration shows, had 30 kg of
 * it in the yard a month before it is fed. */
static void what_no_ration_shows_need_not_be_in_the_yard(void **state) {
    HandQuestion *hand = wanting_calcium(*state, 0.0001);
    hand->blocks[0].to = calendar_day(2026, 11, 15);
    hand->blocks[0].days = 15;
    hand_period(hand, 12.0, 15)->need.calcium.g_per_day = 8.1;
    const ReportTable *table = purchases_of(hand_report(*state, hand));
    assert_string_equal(table->first->cells[5].text, "1 Nov 2026");
    assert_string_equal(table->first->next->cells[0].text, "Mineral");
    assert_string_equal(table->first->next->cells[5].text, "16 Nov 2026");
}

/* ---- what can be hauled in to a day only ---- */

/* Ten cows eat 100 kg of dry matter a day, 123.46 kg as fed, 137.17 with a tenth of shrink: 30
 * days of hay, of which 20 are after 10 November. */
static HandQuestion *hauled_to_10_november(Arena *arena) {
    HandQuestion *hand = hand_november(arena);
    PlanFeed *hay = hand_offer(hand, "Hay", 0.10);
    Day *until = ARENA_NEW(arena, Day);
    *until = calendar_day(2026, 11, 10);
    hay->delivered_until = until;
    hay->shrink_share = 0.1;
    hand_group(hand, "Cows", 10, 12.0, 30);
    return hand;
}

static void hay_fed_after_it_can_be_hauled_in_is_told_to_be_here_by_then(void **state) {
    const Report *report = hand_report(*state, hauled_to_10_november(*state));
    assert_true(report_says(report,
                            "Have all 4.1 t of Hay here by 10 Nov 2026, the last day it "
                            "can be hauled in: 2.7 t of it is fed after that day."));
    assert_string_equal(purchases_of(report)->first->cells[5].text, "1 Nov 2026");
}

static void hay_first_fed_after_that_day_is_told_to_be_here_by_that_day(void **state) {
    HandQuestion *hand = hauled_to_10_november(*state);
    hand_offer(hand, "Dear hay", 0.50);
    hand->blocks[0].to = calendar_day(2026, 11, 15);
    hand->blocks[0].days = 15;
    hand_period(hand, 12.0, 15);
    hand_not_then(hand, 0, 0);
    const Report *report = hand_report(*state, hand);
    assert_string_equal(purchases_of(report)->first->cells[0].text, "Hay");
    assert_string_equal(purchases_of(report)->first->cells[5].text, "10 Nov 2026");
    assert_true(report_says(report, "Have all 2.1 t of Hay here by 10 Nov 2026"));
}

static void hay_that_can_be_hauled_in_all_winter_is_told_no_such_day(void **state) {
    HandQuestion *hand = hauled_to_10_november(*state);
    hand->feeds[0].delivered_until = NULL;
    assert_false(report_says(hand_report(*state, hand), "hauled in"));
}

static void more_of_it_that_would_mend_a_winter_is_told_with_its_day(void **state) {
    HandQuestion *hand = hauled_to_10_november(*state);
    hand->feeds[0].available_kg = 1000.0;
    assert_non_null(strstr(hand_report(*state, hand)->verdict,
                           "more of Hay, at $100 per t, hauled in by 10 Nov 2026"));
}

/* Hay for sale to 10 March, as the files of a farm have it, planned from a day on. */
static const WinterPlan *plan_from(Arena *arena, Day from) {
    const char *bytes[FARM_FILE_COUNT] = {
        [FARM_HERD] = "group,class,head,weight_kg,delivery\nCows,cow,10,600,mixed\n",
        [FARM_STACKS] = "stack,kind,feed,total_tonnes,storage,feeding,value_per_tonne\n"
                        "Hay,round bales,brome hay,2,twine rows,processed,80\n",
        [FARM_FEED_TESTS] = "stack,sample,basis,moisture_pct\nHay,1,dry matter,12\n",
        [FARM_FOR_SALE] = "feed_for_sale,feed,price_per_tonne,feeding,delivered_until\n"
                          "Bought hay,alfalfa grass hay,150,bunk,2027-03-10\n",
        [FARM_WINTER] = "setting,value\nfirst_day,2026-11-01\nlast_day,2027-05-15\n"
                        "water_sulfate_mg_per_l,100\nwater_nitrate_mg_per_l,0\n",
    };
    Farm *farm = ARENA_NEW(arena, Farm);
    *farm = *text_farm(arena, bytes);
    Faults faults = faults_new(arena);
    assert_true(calendar_days_between(farm->winter.first_day, from) == 0 ||
                farm_from(arena, &faults, (Place){"", 0, 0}, farm, from));
    PlanQuestion *question = ARENA_NEW(arena, PlanQuestion);
    *question = plan_question(arena, farm);
    WinterPlan *plan = ARENA_NEW(arena, WinterPlan);
    *plan = plan_winter(arena, question);
    return plan;
}

/* It was fed to the end of its delivery and no day longer. */
static void hay_hauled_in_before_a_road_ban_is_fed_after_it(void **state) {
    const WinterPlan *plan = plan_from(*state, calendar_day(2026, 11, 1));
    const int last = plan->question->block_count - 1;
    assert_int_equal(plan->question->blocks[last].to.number, calendar_day(2027, 5, 15).number);
    assert_true(plan->blocks[last].eaten[1] > 1.0);
    assert_true(plan->bought_kg[1] > 10000.0);
}

static void the_rest_of_a_winter_after_that_day_can_buy_none_of_it(void **state) {
    assert_true(plan_from(*state, calendar_day(2027, 3, 10))->bought_kg[1] > 1000.0);
    const WinterPlan *plan = plan_from(*state, calendar_day(2027, 3, 11));
    assert_near(plan->bought_kg[1], 0.0, 0.0);
    assert_true(plan_is_past_hauling(plan->question, 1));
    assert_true(report_says(plan_report(*state, plan, UNITS_METRIC),
                            "Can be hauled in no more, so that none is bought: Bought hay, "
                            "until 10 Mar 2027."));
    const Mend *mends;
    const int count = mends_of(*state, plan, &mends);
    for (int i = 0; i < count; i++)
        assert_int_not_equal(mends[i].kind, MEND_MORE_FOR_SALE);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_handful_of_mineral_is_not_bought_as_0_000_t),
        UNIT_TEST(a_bag_of_mineral_is_bought_in_tonnes),
        UNIT_TEST(what_no_scale_shows_is_not_bought),
        UNIT_TEST(what_no_ration_shows_need_not_be_in_the_yard),
        UNIT_TEST(hay_fed_after_it_can_be_hauled_in_is_told_to_be_here_by_then),
        UNIT_TEST(hay_first_fed_after_that_day_is_told_to_be_here_by_that_day),
        UNIT_TEST(hay_that_can_be_hauled_in_all_winter_is_told_no_such_day),
        UNIT_TEST(more_of_it_that_would_mend_a_winter_is_told_with_its_day),
        UNIT_TEST(hay_hauled_in_before_a_road_ban_is_fed_after_it),
        UNIT_TEST(the_rest_of_a_winter_after_that_day_can_buy_none_of_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
