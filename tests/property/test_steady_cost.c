/* What a steadier winter may cost is the farm's to say: never more is spent, and more buys
 * rations that change less. */
#include "planner/plan_turnover.h"
#include "support/planned_farm.h"
#include "support/unit.h"

#ifdef __SANITIZE_ADDRESS__
#define FARMS 4
#else
#define FARMS 16
#endif

static const FarmSize SIZE = {3, 4, 6, 150, true};

typedef struct {
    double turnover;
    int balanced;
} Winters;

/* Farms that spend this share; each is held to it. */
static Winters winters_that_spend(double share) {
    Winters of = {0};
    for (unsigned long long seed = 1; seed <= FARMS; seed++) {
        Arena *arena = arena_open();
        PlannedFarm *farm = asked_farm(arena, farm_drafted(arena, seed, SIZE));
        farm->farm.winter.steady_cost_share = share;
        const WinterPlan plan = plan_winter(arena, &farm->question);
        if (plan.verdict == PLAN_BALANCED) {
            const double least = plan_least(&plan);
            const double weighed =
                plan.cost.bought + plan.cost.own_feed + plan.cost.hauling + plan.cost.cautions;
            if (weighed > least * (1.0 + share) + 1e-6 * (1.0 + least))
                fail_msg("farm %llu: %.9g where %.9g is the least and %g of it may go to "
                         "steadiness",
                         seed, weighed, least, share);
            of.turnover += plan_turnover(&plan);
            of.balanced++;
        }
        arena_close(arena);
    }
    return of;
}

static void what_may_be_spent_on_steadiness_is_kept_to_and_buys_it(void **state) {
    (void)state;
    const Winters free = winters_that_spend(0.0);
    const Winters usual = winters_that_spend(USUAL_STEADY_COST_SHARE);
    const Winters dear = winters_that_spend(0.01);
    assert_true(usual.balanced >= FARMS / 2);
    assert_int_equal(free.balanced, usual.balanced);
    assert_int_equal(dear.balanced, usual.balanced);
    print_message("turnover for nothing %.1f %%, 0.1 %% of cost %.1f %%, 1 %% %.1f %%\n",
                  100.0 * free.turnover / free.balanced,
                  100.0 * usual.turnover / usual.balanced,
                  100.0 * dear.turnover / dear.balanced);
    assert_true(usual.turnover < free.turnover);
    assert_true(dear.turnover < usual.turnover);
}

/* Two periods of a plan set by hand: 1 kg of 10 is another feed, of 30 head, and none of 10. */
static void turnover_is_the_share_of_what_is_eaten_that_changed(void **state) {
    (void)state;
    PlanBlock blocks[] = {{.group = 0, .head = 30.0},
                          {.group = 0, .head = 30.0},
                          {.group = 1, .head = 10.0},
                          {.group = 1, .head = 10.0}};
    const double eaten[][2] = {{6.0, 4.0}, {5.0, 5.0}, {8.0, 0.0}, {8.0, 0.0}};
    BlockOutcome outcomes[4] = {0};
    for (int b = 0; b < 4; b++)
        outcomes[b].eaten = eaten[b];
    PlanQuestion question = {.blocks = blocks, .block_count = 4, .feed_count = 2};
    const WinterPlan plan = {.question = &question, .blocks = outcomes};
    assert_near(plan_turnover(&plan), 30.0 * 1.0 / (30.0 * 10.0 + 10.0 * 8.0), 1e-12);
    question.block_count = 1;
    assert_true(isnan(plan_turnover(&plan)));
}

/* Worked by hand: of the same mixture half as much is no other feed; then 1 of 4 kg is. */
static void less_of_the_same_mixture_is_no_other_feed(void **state) {
    (void)state;
    PlanBlock blocks[] = {{.head = 20.0}, {.head = 20.0}, {.head = 20.0}};
    const double eaten[][2] = {{6.0, 2.0}, {3.0, 1.0}, {2.0, 2.0}};
    BlockOutcome outcomes[3] = {0};
    for (int b = 0; b < 3; b++)
        outcomes[b].eaten = eaten[b];
    PlanQuestion question = {.blocks = blocks, .block_count = 2, .feed_count = 2};
    const WinterPlan plan = {.question = &question, .blocks = outcomes};
    assert_near(plan_turnover(&plan), 0.0, 1e-12);
    question.block_count = 3;
    assert_near(plan_turnover(&plan), 1.0 / 8.0, 1e-12);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_may_be_spent_on_steadiness_is_kept_to_and_buys_it),
        cmocka_unit_test(turnover_is_the_share_of_what_is_eaten_that_changed),
        cmocka_unit_test(less_of_the_same_mixture_is_no_other_feed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
