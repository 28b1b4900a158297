/* A farm with little but straw: cows near calving were planned nothing at all beside a stack of
 * it, because their share of it never gave. */
#include "base/text.h"
#include "outcome/day_words.h"
#include "outcome/plan_cautions.h"
#include "planner/condition_path.h"
#include "planner/winter_plan.h"
#include "support/text_farm.h"
#include "support/unit.h"

enum { STRAW = 0, OTHER = 1 }; /* stacks, in the order of the file */

#define STRAW_STACK "Straw,loose,barley straw,400,shed,bunk,60\n"

static const WinterPlan *plan_of(Arena *arena, const char *cattle, const char *stacks) {
    const char *bytes[FARM_FILE_COUNT] = {
        [FARM_HERD] = arena_print(arena,
                                  "group,class,head,weight_kg,mature_weight_kg,calving_start,"
                                  "calving_end,delivery\n%s",
                                  cattle),
        [FARM_STACKS] = arena_print(
            arena, "stack,kind,feed,total_tonnes,storage,feeding,value_per_tonne\n%s", stacks),
        [FARM_FEED_TESTS] = "stack,sample,basis,moisture_pct,nitrate_no3_pct\n"
                            "Straw,1,dry matter,10,0.05\n",
        [FARM_FOR_SALE] = "feed_for_sale,feed,price_per_tonne,feeding\n"
                          "Mineral,mineral_2:1,1500,bunk\n"
                          "Salt,trace_mineral_salt,600,bunk\n"
                          "Limestone,limestone,300,bunk\n"
                          "Magnesium oxide,magnesium_oxide,900,bunk\n",
        [FARM_WINTER] = "setting,value\nfirst_day,2026-12-01\nlast_day,2027-04-30\n"
                        "water_sulfate_mg_per_l,100\nwater_nitrate_mg_per_l,0\n",
    };
    PlanQuestion *question = ARENA_NEW(arena, PlanQuestion);
    *question = plan_question(arena, text_farm(arena, bytes));
    WinterPlan *plan = ARENA_NEW(arena, WinterPlan);
    *plan = plan_winter(arena, question);
    return plan;
}

#define COWS "Cows,cow,60,600,,2027-03-15,2027-05-10,mixed\n"

static bool is_in_need(const WinterPlan *plan, int block) {
    return (plan->question->blocks[block].need.stages &
            (STAGE_BIT(STAGE_LATE) | STAGE_BIT(STAGE_NURSING))) != 0;
}

static const Caution *caution_of(Arena *arena, const WinterPlan *plan, const char *topic) {
    const Caution *cautions;
    const int count = plan_cautions(arena, plan, UNITS_METRIC, &cautions);
    for (int i = 0; i < count; i++) {
        if (text_same(cautions[i].topic, topic))
            return &cautions[i];
    }
    return NULL;
}

static const Caution *danger_of(Arena *arena, const WinterPlan *plan) {
    return caution_of(arena, plan, "straw near calving");
}

/* 1.25 % of live weight, and 0.75 % near calving and in milk: all of it, and no more. */
static void assert_filled_with_straw(const WinterPlan *plan) {
    assert_int_equal(plan->verdict, PLAN_SHORT);
    for (int b = 0; b < plan->question->block_count; b++) {
        const double weight = plan->question->blocks[b].need.live_weight.kg;
        assert_near(plan->blocks[b].eaten[STRAW],
                    (is_in_need(plan, b) ? 0.0075 : 0.0125) * weight, 1e-4);
    }
}

static void a_farm_with_nothing_but_straw_leaves_no_cow_near_calving_empty(void **state) {
    const WinterPlan *plan = plan_of(*state, COWS, STRAW_STACK);
    assert_filled_with_straw(plan);
    const Caution *danger = danger_of(*state, plan);
    assert_non_null(danger);
    assert_int_equal(danger->severity, SEVERITY_DANGER);
    assert_non_null(strstr(danger->fact, "From 14 Jan Cows, near calving or in milk, get more "
                                         "straw than is safe for long"));
    assert_non_null(strstr(danger->advice, "block the rumen"));
    assert_non_null(strstr(danger->advice, "go down"));
    assert_non_null(strstr(danger->advice, "Buy better feed"));
    assert_non_null(strstr(danger->advice, "phone your veterinarian"));
}

static void nor_a_bred_heifer(void **state) {
    const WinterPlan *plan = plan_of(
        *state, "Heifers,bred heifer,20,450,600,2027-03-01,2027-04-10,mixed\n", STRAW_STACK);
    assert_filled_with_straw(plan);
    assert_non_null(danger_of(*state, plan));
}

/* 60 t of hay are a third of what they would eat. */
static void what_hay_there_is_goes_to_cows_near_calving_and_straw_to_the_others(void **state) {
    const WinterPlan *plan =
        plan_of(*state, COWS, STRAW_STACK "Hay,loose,brome_hay,60,shed,bunk,160\n");
    double straw[2] = {0.0, 0.0};
    double all[2] = {0.0, 0.0};
    for (int b = 0; b < plan->question->block_count; b++) {
        const double days = plan->question->blocks[b].days;
        straw[is_in_need(plan, b)] += days * plan->blocks[b].eaten[STRAW];
        all[is_in_need(plan, b)] += days * plan->blocks[b].filling_kg;
    }
    assert_true(straw[true] / all[true] + 0.1 < straw[false] / all[false]);
    assert_true(straw[true] / all[true] > 0.20);
    assert_non_null(danger_of(*state, plan));
}

static void barley_does_not_stand_alone_where_there_is_straw(void **state) {
    const WinterPlan *plan =
        plan_of(*state, COWS, STRAW_STACK "Barley,bin,barley_grain,30,grain bin,bunk,260\n");
    for (int b = 0; b < plan->question->block_count; b++) {
        if (is_in_need(plan, b))
            assert_true(plan->blocks[b].eaten[STRAW] > 0.5 * plan->blocks[b].eaten[OTHER]);
    }
}

/* At any price: hay of 160 beside straw of 60. */
static void a_farm_with_hay_enough_keeps_the_share_and_says_nothing(void **state) {
    const WinterPlan *plan =
        plan_of(*state, COWS, STRAW_STACK "Hay,loose,alfalfa_grass_hay,400,shed,bunk,160\n");
    assert_int_equal(plan->verdict, PLAN_BALANCED);
    for (int b = 0; b < plan->question->block_count; b++) {
        if (is_in_need(plan, b))
            assert_true(plan->blocks[b].eaten[STRAW] <=
                        0.20 * plan->blocks[b].filling_kg * (1.0 + 1e-6));
    }
    assert_null(danger_of(*state, plan));
}

/* Full of straw, at 70 % of their energy and less, they stood in no danger but of an empty
 * stomach in spring; the table alone had them at the lowest score. */
static void cows_that_waste_away_on_straw_are_a_danger_with_its_days(void **state) {
    const WinterPlan *plan =
        plan_of(*state, COWS, STRAW_STACK "Barley,bin,barley_grain,30,grain bin,bunk,260\n");
    const Condition *path = condition_path(*state, plan);
    int thin = 0;
    while (!(path[thin].given < 3.0))
        thin++;
    assert_true(thin > 0);
    const Caution *danger = caution_of(*state, plan, "starving");
    assert_non_null(danger);
    assert_int_equal(danger->severity, SEVERITY_DANGER);
    assert_non_null(
        strstr(danger->fact, arena_print(*state,
                                         "Cows waste away: they are down to a condition of "
                                         "%.1f of 9 by %s",
                                         path[thin].given,
                                         day_short(*state, plan->question->blocks[thin].to))));
    assert_non_null(
        strstr(danger->fact, "and 1.0 by 30 Apr, the lowest there is, at which cattle die"));
}

/* Their score of today is what was asked of it: a winter short till now left them thinner. */
static void the_rest_of_a_winter_says_that_thinner_cows_waste_away_sooner(void **state) {
    const WinterPlan *plan =
        plan_of(*state, COWS, STRAW_STACK "Barley,bin,barley_grain,30,grain bin,bunk,260\n");
    const char *const sooner = "; sooner, where they are thinner now";
    assert_null(strstr(caution_of(*state, plan, "starving")->fact, sooner));
    Farm farm = *plan->question->farm;
    farm.winter.days_since_weighed = 1;
    PlanQuestion question = *plan->question;
    question.farm = &farm;
    WinterPlan rest = *plan;
    rest.question = &question;
    assert_non_null(strstr(caution_of(*state, &rest, "starving")->fact, sooner));
}

/* Of the same cows at score 5.0 on hay. */
static void cows_that_hold_their_condition_are_not_told_to_waste_away(void **state) {
    const WinterPlan *plan =
        plan_of(*state, COWS, STRAW_STACK "Hay,loose,alfalfa_grass_hay,400,shed,bunk,160\n");
    assert_null(caution_of(*state, plan, "starving"));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_farm_with_nothing_but_straw_leaves_no_cow_near_calving_empty),
        UNIT_TEST(nor_a_bred_heifer),
        UNIT_TEST(what_hay_there_is_goes_to_cows_near_calving_and_straw_to_the_others),
        UNIT_TEST(barley_does_not_stand_alone_where_there_is_straw),
        UNIT_TEST(a_farm_with_hay_enough_keeps_the_share_and_says_nothing),
        UNIT_TEST(cows_that_waste_away_on_straw_are_a_danger_with_its_days),
        UNIT_TEST(the_rest_of_a_winter_says_that_thinner_cows_waste_away_sooner),
        UNIT_TEST(cows_that_hold_their_condition_are_not_told_to_waste_away),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
