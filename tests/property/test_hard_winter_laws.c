/* Laws of hard winters, on invented farms whose plan is balanced. The same seed and number draw
 * the same winter whatever is asked of it, so two runs differ by what was changed alone. */
#include "planner/runout.h"
#include "support/winter_run.h"
#include <string.h>

/* ---- nothing spread is the plan ---- */

/* kg as fed that the plan takes of a feed after a day. */
static double taken_after(const WinterPlan *plan, int feed, Day day) {
    double kg = 0.0;
    for (int b = 0; b < plan->question->block_count; b++) {
        const PlanBlock *block = &plan->question->blocks[b];
        const int days = calendar_days_between(day, block->to);
        if (days > 0)
            kg += plan->blocks[b].eaten[feed] * block->head *
                  (days < block->days ? days : block->days) *
                  plan_taken_per_eaten(&plan->question->feeds[feed]);
    }
    return kg;
}

/* A stack has ended when a thousandth of it is left: where less than that is taken on its last
 * days, it ends before them. */
static void ends_as_planned(const WinterPlan *plan, int feed, const StackRunout *runout,
                            const RunoutDays *ends) {
    assert_int_equal(ends->lasts[IN_HALF], !runout->runs_out);
    if (!runout->runs_out)
        return;
    const Day day = ends->day[IN_HALF];
    assert_true(calendar_days_between(day, runout->last_fed) >= 0);
    assert_true(taken_after(plan, feed, day) <=
                1.001e-3 * plan->question->feeds[feed].available_kg);
}

static void fed_as_planned(Arena *arena, const PlannedFarm *farm) {
    const WinterPlan *plan = &farm->plan;
    const Run run = run_of(arena, plan, (WinterSpread){0}, 5, 2);
    const StackRunout *runouts = stack_runouts(arena, plan);
    assert_near(run.told->share, 1.0, 0.0);
    assert_near(field(&run, 1, RECORD_LAST_DAY), winter_days(&farm->farm.winter) - 1, 0.0);
    assert_near(field(&run, 1, RECORD_SHORT_KG), 0.0, 0.0);
    for (int f = 0; f < plan->question->feed_count; f++) {
        const PlanFeed *feed = &plan->question->feeds[f];
        if (!ration_feed_fills(feed))
            continue;
        assert_near(field(&run, 1, record_feed(run.model, f, FEED_TAKEN)), plan->taken_kg[f],
                    1e-6 * fmax(plan->taken_kg[f], 1.0));
        if (!feed->is_own || feed->available_kg <= 0.0 || !runouts[f].is_used)
            continue;
        ends_as_planned(plan, f, &runouts[f], &run.told->feeds[f]);
    }
}

static void a_winter_without_spread_is_the_plan(void **state) {
    (void)state;
    try_farms(fed_as_planned);
}

/* ---- the same again ---- */

static void the_same_again(Arena *arena, const PlannedFarm *farm) {
    const Run first = run_of(arena, &farm->plan, USUAL_SPREAD, 9, WINTERS);
    const Run second = run_of(arena, &farm->plan, USUAL_SPREAD, 9, WINTERS);
    const Run other = run_of(arena, &farm->plan, USUAL_SPREAD, 10, WINTERS);
    const size_t length = (size_t)hard_winter_record_length(first.model);
    const size_t bytes = (size_t)WINTERS * length * sizeof(double);
    assert_memory_equal(first.records, second.records, bytes);
    assert_true(memcmp(first.records, other.records, bytes) != 0);
    double *alone = ARENA_ARRAY(arena, double, length);
    hard_winter_run(first.model, WINTERS / 2, hard_winter_work(arena, first.model), alone);
    assert_memory_equal(alone, first.records + (size_t)(WINTERS / 2) * length,
                        length * sizeof(double));
}

static void a_seed_and_a_number_are_a_winter(void **state) {
    (void)state;
    try_farms(the_same_again);
}

/* ---- the mean ---- */

typedef struct {
    double mean, error;
} Mean;

static Mean mean_of(const Run *run, int at) {
    double sum = 0.0;
    double squares = 0.0;
    for (int i = 0; i < run->count; i++) {
        sum += field(run, i, at);
        squares += field(run, i, at) * field(run, i, at);
    }
    const double mean = sum / run->count;
    const double variance = fmax(squares / run->count - mean * mean, 0.0);
    return (Mean){mean, sqrt(variance / run->count)};
}

/* So many times as much in the yard and bought. */
static WinterPlan with_stock_times(Arena *arena, const WinterPlan *plan, double times) {
    WinterPlan other = *plan;
    PlanQuestion *question = ARENA_NEW(arena, PlanQuestion);
    *question = *plan->question;
    PlanFeed *feeds = ARENA_ARRAY(arena, PlanFeed, question->feed_count);
    double *bought_kg = ARENA_ARRAY(arena, double, question->feed_count);
    double *taken_kg = ARENA_ARRAY(arena, double, question->feed_count);
    for (int f = 0; f < question->feed_count; f++) {
        feeds[f] = question->feeds[f];
        if (feeds[f].is_own)
            feeds[f].available_kg *= times;
        bought_kg[f] = plan->bought_kg[f] * times;
        taken_kg[f] = plan->taken_kg[f] * times;
    }
    question->feeds = feeds;
    other.question = question;
    other.bought_kg = bought_kg;
    other.taken_kg = taken_kg;
    return other;
}

/* Ten times as much, so that nothing ends and what is taken is what is wanted; and cattle that
 * can eat whatever the cold asks for: what they cannot is not taken. */
static WinterPlan with_plenty(Arena *arena, const WinterPlan *plan) {
    WinterPlan other = with_stock_times(arena, plan, 10.0);
    BlockOutcome *blocks = ARENA_ARRAY(arena, BlockOutcome, plan->question->block_count);
    for (int b = 0; b < plan->question->block_count; b++) {
        blocks[b] = plan->blocks[b];
        blocks[b].intake_most *= 10.0;
    }
    other.blocks = blocks;
    return other;
}

/* A spread bends upwards: a test off by s takes 1 / (1 + s), waste off by s 1 / (1 - s), and
 * cold adds nothing above the critical temperature. Each leaves the mean above the plan by
 * about its square, which these bounds are. */
static void mean_is_plan(Arena *arena, const PlannedFarm *farm, WinterSpread spread,
                         double bend) {
    const WinterPlan plenty = with_plenty(arena, &farm->plan);
    const Run run = run_of(arena, &plenty, spread, 3, MANY);
    for (int f = 0; f < plenty.question->feed_count; f++) {
        if (!ration_feed_fills(&plenty.question->feeds[f]) || farm->plan.taken_kg[f] < 1.0)
            continue;
        const Mean taken = mean_of(&run, record_feed(run.model, f, FEED_TAKEN));
        const double planned = farm->plan.taken_kg[f];
        assert_true(taken.mean >= planned - 5.0 * taken.error - 1e-6 * planned);
        assert_true(taken.mean <= planned * (1.0 + bend) + 5.0 * taken.error + 1e-6 * planned);
    }
}

static void means_are_plan(Arena *arena, const PlannedFarm *farm) {
    mean_is_plan(arena, farm, (WinterSpread){.weight = 1.0}, 0.0);
    mean_is_plan(arena, farm, (WinterSpread){.waste = 1.0}, 0.03);
    mean_is_plan(arena, farm, (WinterSpread){.test = 1.0}, 0.02);
    mean_is_plan(arena, farm, (WinterSpread){.temperature = 1.0}, 0.03);
    const Run run = run_of(arena, &farm->plan, USUAL_SPREAD, 3, MANY);
    const Mean last = mean_of(&run, RECORD_LAST_DAY);
    assert_true(last.error > 0.0);
    assert_near(last.mean, winter_days(&farm->farm.winter) - 1, 5.0 * last.error);
}

static void the_mean_winter_is_the_plan(void **state) {
    (void)state;
    try_farms(means_are_plan);
}

/* Each winter beside itself with every month 5 degrees colder. */
static void colder_takes_more(Arena *arena, const PlannedFarm *farm) {
    const WinterPlan plenty = with_plenty(arena, &farm->plan);
    const Run mild = run_of(arena, &plenty, (WinterSpread){.temperature = 1.0}, 3, MANY);
    const Run cold =
        run_of(arena, &plenty, (WinterSpread){.temperature = 1.0, .colder_c = 5.0}, 3, MANY);
    for (int i = 0; i < MANY; i++) {
        for (int f = 0; f < plenty.question->feed_count; f++) {
            const int at = record_feed(mild.model, f, FEED_TAKEN);
            assert_true(field(&cold, i, at) >= field(&mild, i, at) * (1.0 - 1e-9));
        }
    }
}

static void colder_takes_more_of_every_feed_in_every_winter(void **state) {
    (void)state;
    try_farms(colder_takes_more);
}

/* ---- the right way ---- */

static double day_number(const RunoutDays *runout, int share) {
    return runout->lasts[share] ? NO_DAY : runout->day[share].number;
}

/* In no winter and for no feed better, and somewhere worse if anything could be. */
static void assert_worse(const Run *better, const Run *worse) {
    assert_true(worse->told->share <= better->told->share + 1e-12);
    assert_true(worse->told->worst_short_kg >= better->told->worst_short_kg * (1.0 - 1e-9));
    for (int share = 0; share < RUNOUT_SHARES; share++) {
        assert_true(day_number(&worse->told->herd, share) <=
                    day_number(&better->told->herd, share));
        for (int f = 0; f < better->model->feed_count; f++)
            assert_true(day_number(&worse->told->feeds[f], share) <=
                        day_number(&better->told->feeds[f], share));
    }
}

static WinterPlan with_waste(Arena *arena, const WinterPlan *plan, double more) {
    WinterPlan other = with_stock_times(arena, plan, 1.0);
    PlanQuestion *question = ARENA_NEW(arena, PlanQuestion);
    *question = *other.question;
    PlanFeed *feeds = ARENA_ARRAY(arena, PlanFeed, question->feed_count);
    for (int f = 0; f < question->feed_count; f++) {
        feeds[f] = question->feeds[f];
        feeds[f].waste_share = fmin(feeds[f].waste_share + more, 0.6);
    }
    question->feeds = feeds;
    other.question = question;
    return other;
}

static WinterPlan with_later_turnout(Arena *arena, const WinterPlan *plan, int days) {
    WinterPlan other = with_stock_times(arena, plan, 1.0);
    PlanQuestion *question = ARENA_NEW(arena, PlanQuestion);
    Farm *farm = ARENA_NEW(arena, Farm);
    *question = *other.question;
    *farm = *question->farm;
    farm->winter.last_day = calendar_add(farm->winter.last_day, days);
    question->farm = farm;
    other.question = question;
    return other;
}

static void move_inputs(Arena *arena, const PlannedFarm *farm) {
    const WinterPlan *plan = &farm->plan;
    const Run usual = run_of(arena, plan, USUAL_SPREAD, 4, WINTERS);
    WinterSpread colder_spread = USUAL_SPREAD;
    colder_spread.colder_c = 4.0;
    const Run colder = run_of(arena, plan, colder_spread, 4, WINTERS);
    assert_worse(&usual, &colder);
    const WinterPlan later = with_later_turnout(arena, plan, 14);
    const Run longer = run_of(arena, &later, USUAL_SPREAD, 4, WINTERS);
    assert_true(longer.told->share <= usual.told->share);
    assert_true(longer.told->worst_short_kg >= usual.told->worst_short_kg);
    const WinterPlan lighter = with_stock_times(arena, plan, 0.9);
    const Run less = run_of(arena, &lighter, USUAL_SPREAD, 4, WINTERS);
    assert_worse(&usual, &less);
    const WinterPlan heavier = with_stock_times(arena, plan, 1.1);
    const Run more = run_of(arena, &heavier, USUAL_SPREAD, 4, WINTERS);
    assert_worse(&more, &usual);
    const WinterPlan wasteful = with_waste(arena, plan, 0.06);
    const Run wasted = run_of(arena, &wasteful, USUAL_SPREAD, 4, WINTERS);
    assert_worse(&usual, &wasted);
    assert_true(less.told->share < more.told->share);
}

static void days_move_the_right_way_with_every_input(void **state) {
    (void)state;
    try_farms(move_inputs);
}

static void loads_never_hurt(Arena *arena, const PlannedFarm *farm) {
    const Run run = run_of(arena, &farm->plan, USUAL_SPREAD, 6, WINTERS);
    for (int f = 0; f < farm->question.feed_count; f++) {
        if (isfinite(run.told->share_with_load[f]))
            assert_true(run.told->share_with_load[f] >= run.told->share - 1e-12);
    }
}

static void a_load_more_never_lowers_the_chance(void **state) {
    (void)state;
    try_farms(loads_never_hurt);
}

/* The winter of the same numbers whose yard held that load from the first day. */
static bool lasts_with(Arena *arena, const Run *run, int winter, int feed) {
    HardWinterModel model = *run->model;
    FedStock *stocks = ARENA_ARRAY(arena, FedStock, model.feed_count);
    memcpy(stocks, model.stocks, (size_t)model.feed_count * sizeof *stocks);
    stocks[feed].stock_kg += stocks[feed].extra_kg;
    model.stocks = stocks;
    double *record = ARENA_ARRAY(arena, double, (size_t)hard_winter_record_length(run->model));
    hard_winter_run(&model, (uint64_t)winter, hard_winter_work(arena, &model), record);
    return record[RECORD_SHORT_DAY] >= NO_DAY;
}

static int loads_that_help, loads_that_do_not;

static void loads_are_there_from_the_start(Arena *arena, const PlannedFarm *farm) {
    WinterSpread spread = USUAL_SPREAD;
    spread.weight = 0.0; /* so that the load is as heavy as the stack it is added to */
    const Run run = run_of(arena, &farm->plan, spread, 8, WINTERS / 4);
    for (int i = 0; i < run.count; i++) {
        if (field(&run, i, RECORD_SHORT_DAY) >= NO_DAY)
            continue; /* who has enough need not open it */
        for (int f = 0; f < farm->question.feed_count; f++) {
            if (run.model->stocks[f].extra_kg <= 0.0)
                continue;
            const bool lasts = field(&run, i, record_feed(run.model, f, FEED_WITH_LOAD)) > 0.0;
            assert_int_equal(lasts, lasts_with(arena, &run, i, f));
            *(lasts ? &loads_that_help : &loads_that_do_not) += 1;
        }
    }
}

static void a_load_more_feeds_as_if_it_had_lain_there_from_the_first_day(void **state) {
    (void)state;
    try_farms(loads_are_there_from_the_start);
    assert_true(FARMS < 12 || (loads_that_help > 0 && loads_that_do_not > 0));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_winter_without_spread_is_the_plan),
        cmocka_unit_test(a_seed_and_a_number_are_a_winter),
        cmocka_unit_test(the_mean_winter_is_the_plan),
        cmocka_unit_test(colder_takes_more_of_every_feed_in_every_winter),
        cmocka_unit_test(days_move_the_right_way_with_every_input),
        cmocka_unit_test(a_load_more_never_lowers_the_chance),
        cmocka_unit_test(a_load_more_feeds_as_if_it_had_lain_there_from_the_first_day),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
