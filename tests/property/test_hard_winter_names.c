/* What a stack is called and where its row stands draws no other hard winter. */
#include "support/winter_run.h"

/* The same plan, its feeds called otherwise; in the same order, so that of several stacks of a
 * kind each keeps its place. */
static void same_by_other_names(Arena *arena, const PlannedFarm *farm) {
    PlanQuestion renamed = farm->question;
    PlanFeed *feeds = ARENA_ARRAY(arena, PlanFeed, renamed.feed_count);
    for (int f = 0; f < renamed.feed_count; f++) {
        feeds[f] = farm->question.feeds[f];
        feeds[f].name = arena_print(arena, "The %s by the road", feeds[f].name);
    }
    renamed.feeds = feeds;
    WinterPlan plan = farm->plan;
    plan.question = &renamed;
    const Run before = run_of(arena, &farm->plan, USUAL_SPREAD, 3, WINTERS / 4);
    const Run after = run_of(arena, &plan, USUAL_SPREAD, 3, WINTERS / 4);
    assert_memory_equal(before.records, after.records,
                        (size_t)before.count * (size_t)hard_winter_record_length(before.model) *
                            sizeof(double));
}

/* It once moved the printed chance by as much as another seed does. */
static void a_new_name_draws_no_other_winter(void **state) {
    (void)state;
    try_farms(same_by_other_names);
}

static void same_by_other_rows(Arena *arena, const PlannedFarm *farm) {
    PlanQuestion turned = farm->question;
    const int count = turned.feed_count;
    PlanFeed *feeds = ARENA_ARRAY(arena, PlanFeed, count);
    for (int f = 0; f < count; f++)
        feeds[f] = farm->question.feeds[count - 1 - f];
    turned.feeds = feeds;
    WinterPlan plan = farm->plan;
    plan.question = &turned;
    const HardWinterModel *before = hard_winter_model(arena, &farm->plan, 3, USUAL_SPREAD);
    const HardWinterModel *after = hard_winter_model(arena, &plan, 3, USUAL_SPREAD);
    for (int f = 0; f < count; f++)
        assert_string_equal(before->stocks[f].luck, after->stocks[count - 1 - f].luck);
}

static void the_order_of_rows_draws_no_other_winter(void **state) {
    (void)state;
    try_farms(same_by_other_rows);
}

static void no_two_feeds_are_drawn_alike(Arena *arena, const PlannedFarm *farm) {
    const HardWinterModel *model = hard_winter_model(arena, &farm->plan, 3, USUAL_SPREAD);
    for (int f = 0; f < model->feed_count; f++) {
        for (int other = 0; other < f; other++)
            assert_string_not_equal(model->stocks[f].luck, model->stocks[other].luck);
    }
}

static void two_stacks_of_a_kind_have_each_their_luck(void **state) {
    (void)state;
    try_farms(no_two_feeds_are_drawn_alike);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_new_name_draws_no_other_winter),
        cmocka_unit_test(the_order_of_rows_draws_no_other_winter),
        cmocka_unit_test(two_stacks_of_a_kind_have_each_their_luck),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
