/* The largest change from period to period beside rules of single rations: feeds are chosen
 * group by group, so that the change is not given up for them. */
#include "support/planned_farm.h"
#include "support/unit.h"
#include <math.h>
#include <stdlib.h>

static const FarmSize SIZE = {3, 6, 6, 150, true};

static PlannedFarm *farm_of(Arena *arena, int seed, FarmSize size, FeedingRules rules,
                            double caution_weight) {
    const unsigned long long as_seed = (unsigned long long)seed;
    FarmDraft *draft = farm_drafted(arena, as_seed, size);
    draft->ways.caution_weight = caution_weight;
    PlannedFarm *farm = asked_farm(arena, draft);
    farm->farm.winter.rules = rules;
    farm->question = plan_question(arena, &farm->farm);
    farm->plan = plan_with_yard_rules(arena, &farm->question);
    return farm;
}

static void check_changes(const PlannedFarm *farm, double share) {
    const PlanQuestion *question = &farm->question;
    for (int b = 1; b < question->block_count; b++) {
        for (int f = 0; question->blocks[b].group == question->blocks[b - 1].group &&
                        f < question->feed_count;
             f++) {
            if (ration_feed_fills(&question->feeds[f]))
                assert_true(
                    fabs(farm->plan.blocks[b].eaten[f] - farm->plan.blocks[b - 1].eaten[f]) <=
                    share * farm->plan.blocks[b].filling_kg + 1e-5);
        }
    }
}

static int feeds_in(const PlannedFarm *farm, int b) {
    int count = 0;
    for (int f = 0; f < farm->question.feed_count; f++)
        count +=
            ration_feed_fills(&farm->question.feeds[f]) && farm->plan.blocks[b].eaten[f] > 1e-5;
    return count;
}

static void check_feeds(const PlannedFarm *farm, int most) {
    for (int b = 0; b < farm->question.block_count; b++)
        assert_true(feeds_in(farm, b) <= most);
}

typedef struct {
    int balanced, kept, proved; /* farms; that keep the change; with little left open */
    double most_open;           /* of the cost */
} Tally;

#define LITTLE_OPEN 0.005 /* of the cost */

/* Each farm must keep to what it says. */
static Tally tally(FeedingRules rules, double caution_weight) {
    Tally of = {0};
    for (int seed = 2; seed <= 16; seed += 2) {
        Arena *arena = arena_open();
        const PlannedFarm *farm = farm_of(arena, seed, SIZE, rules, caution_weight);
        const struct YardOutcome *yard = farm->plan.yard;
        const bool is_balanced = farm->plan.verdict == PLAN_BALANCED;
        of.balanced += is_balanced;
        if (is_balanced && yard->kept.is_on[YARD_RULE_LARGEST_CHANGE]) {
            of.kept++;
            of.proved += yard->gap < LITTLE_OPEN;
            of.most_open = fmax(of.most_open, yard->gap);
            check_changes(farm, rules.largest_change_share);
            if (yard->kept.is_on[YARD_RULE_MOST_FEEDS])
                check_feeds(farm, rules.most_feeds);
        }
        arena_close(arena);
    }
    return of;
}

static void six_rules_at_once_do_not_cost_the_largest_change(void **state) {
    (void)state;
    const Tally of = tally((FeedingRules){.most_feeds = 4,
                                          .least_share = 0.05,
                                          .largest_change_share = 0.2,
                                          .whole_loads = true,
                                          .whole_bales = true,
                                          .one_face_open = true},
                           1.0);
    assert_true(of.balanced >= 6);
    assert_int_equal(of.kept, of.balanced);
    /* Whole bales at an eighth of what the winter costs were kept on one of them; they are let
     * go where keeping them costs more than a twentieth. */
    assert_true(of.most_open < 0.05);
}

/* Fixed over the whole program, one of these farms kept no feeds to their most, and another
 * left more than a hundredth open. */
static void few_feeds_beside_small_changes_are_kept_and_leave_little_open(void **state) {
    (void)state;
    const FeedingRules rules = {
        .most_feeds = 4, .least_share = 0.05, .largest_change_share = 0.2};
    const Tally of = tally(rules, 0.0);
    assert_true(of.balanced >= 6);
    assert_int_equal(of.kept, of.balanced);
    assert_true(of.proved >= of.balanced - 2); /* two leave 0.6 and 1.2 % open */
    /* Where cautions weigh too, a little less is proved of some: of half of the farms since
     * sulfur is of what fills, where one leaves a hundredth open. */
    const Tally with_cautions = tally(rules, 1.0);
    assert_int_equal(with_cautions.kept, with_cautions.balanced);
    assert_true(with_cautions.proved >= of.balanced - 4);
}

#define LARGE_ROWS 12000 /* from which on the change was given up, however easy to keep */
#define LARGE_OPEN 0.03  /* of the cost; 0.4 to 2.6 % were measured */

static void a_large_farm_keeps_few_feeds_beside_small_changes(void **state) {
    (void)state;
    if (!getenv("LARGE_YARD"))
        skip(); /* near a minute: make check-long asks for it */
    const FeedingRules rules = {.most_feeds = 4, .largest_change_share = 0.2};
    const FarmSize size = {9, 16, 8, 300, true};
    Arena *arena = arena_open();
    const PlannedFarm *farm = farm_of(arena, 3, size, rules, 1.0);
    const struct YardOutcome *yard = farm->plan.yard;
    assert_int_equal(farm->plan.verdict, PLAN_BALANCED);
    assert_true(lp_row_count(yard->program) > LARGE_ROWS);
    assert_true(yard->kept.is_on[YARD_RULE_LARGEST_CHANGE]);
    assert_true(yard->kept.is_on[YARD_RULE_MOST_FEEDS]);
    check_changes(farm, rules.largest_change_share);
    check_feeds(farm, rules.most_feeds);
    assert_true(yard->gap < LARGE_OPEN);
    arena_close(arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(six_rules_at_once_do_not_cost_the_largest_change),
        cmocka_unit_test(few_feeds_beside_small_changes_are_kept_and_leave_little_open),
        cmocka_unit_test(a_large_farm_keeps_few_feeds_beside_small_changes),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
