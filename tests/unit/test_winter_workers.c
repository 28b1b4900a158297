#include "entry/winter_workers.h"
#include "planner/hard_winter_model.h"
#include "support/planned_farm.h"
#include "support/unit.h"
#include <signal.h>
#include <string.h>

static const HardWinterModel *model_of(Arena *arena) {
    const FarmSize size = {2, 6, 7, 90, true};
    const PlannedFarm *farm = planned_farm(arena, farm_drafted(arena, 2, size));
    assert_int_equal(farm->plan.verdict, PLAN_BALANCED);
    return hard_winter_model(arena, &farm->plan, 7, USUAL_SPREAD);
}

static void assert_same(const HardWinterModel *model, const HardWinters *a,
                        const HardWinters *b) {
    assert_int_equal(a->done, b->done);
    assert_true(memcmp(&a->share, &b->share, sizeof a->share) == 0);
    assert_true(memcmp(&a->worst_short_kg, &b->worst_short_kg, sizeof(double)) == 0);
    const size_t feeds = (size_t)model->feed_count;
    assert_memory_equal(a->used_kg, b->used_kg, feeds * sizeof *a->used_kg);
    for (size_t f = 0; f < feeds; f++) {
        for (int share = 0; share < RUNOUT_SHARES; share++) {
            assert_int_equal(a->feeds[f].lasts[share], b->feeds[f].lasts[share]);
            assert_int_equal(a->feeds[f].day[share].number, b->feeds[f].day[share].number);
        }
    }
}

static void any_number_of_workers_comes_to_the_same(void **state) {
    const HardWinterModel *model = model_of(*state);
    const WinterJob here = {.count = 203};
    const HardWinters *alone = winters_by_workers(*state, model, &here);
    assert_int_equal(alone->done, 203);
    assert_string_equal(alone->remark, "");
    static const int WORKERS[] = {1, 2, 5};
    for (int i = 0; i < 3; i++) {
        const WinterJob job = {.count = 203, .workers = WORKERS[i]};
        const HardWinters *shared = winters_by_workers(*state, model, &job);
        assert_string_equal(shared->remark, "");
        assert_same(model, alone, shared);
    }
}

/* So many that a pipe that nobody reads is full before a worker is through with its own. */
enum { MORE_THAN_A_PIPE_HOLDS = 6000 };

static void kill_first(void *context, const WinterProgress *progress) {
    int *killed = context;
    if (*killed == 0) {
        assert_int_equal(progress->done, 0);
        assert_int_equal(progress->worker_count, 3);
        kill(progress->workers[0], SIGKILL);
    }
    (*killed)++;
}

static void a_worker_that_dies_takes_only_its_own_winters(void **state) {
    const HardWinterModel *model = model_of(*state);
    int killed = 0;
    const WinterJob job = {
        .count = MORE_THAN_A_PIPE_HOLDS, .workers = 3, .watch = kill_first, .context = &killed};
    const HardWinters *winters = winters_by_workers(*state, model, &job);
    assert_true(killed > 1);
    assert_true(winters->done >= 2 * MORE_THAN_A_PIPE_HOLDS / 3);
    assert_true(winters->done < MORE_THAN_A_PIPE_HOLDS);
    assert_int_equal(winters->asked, MORE_THAN_A_PIPE_HOLDS);
    assert_non_null(strstr(winters->remark, "1 of 3 worker processes died"));
    assert_non_null(strstr(winters->remark, "signal 9"));
    /* what is left is of the same winters */
    const WinterJob here = {.count = MORE_THAN_A_PIPE_HOLDS};
    const HardWinters *all = winters_by_workers(*state, model, &here);
    assert_near(winters->share, all->share,
                5.0 * (all->share_error + winters->share_error) + 1e-9);
}

static void interrupt(void *context, const WinterProgress *progress) {
    (void)context;
    if (progress->done >= 100)
        raise(SIGINT);
}

static void ctrl_c_ends_the_drawing_and_not_the_program(void **state) {
    const HardWinterModel *model = model_of(*state);
    static const int WORKERS[] = {0, 2};
    for (int i = 0; i < 2; i++) {
        const WinterJob job = {
            .count = MORE_THAN_A_PIPE_HOLDS, .workers = WORKERS[i], .watch = interrupt};
        const HardWinters *winters = winters_by_workers(*state, model, &job);
        assert_true(winters->done >= 100);
        assert_true(winters->done < MORE_THAN_A_PIPE_HOLDS);
        assert_non_null(strstr(winters->remark, "was stopped"));
    }
}

static void kill_first_and_interrupt(void *context, const WinterProgress *progress) {
    int *told = context;
    if ((*told)++ == 0)
        kill(progress->workers[0], SIGKILL);
    if (progress->done >= 1000)
        raise(SIGINT);
}

/* Those that are ended when the drawing is stopped have not died. */
static void a_worker_that_died_is_told_where_the_drawing_was_stopped_too(void **state) {
    const HardWinterModel *model = model_of(*state);
    int told = 0;
    const WinterJob job = {.count = MORE_THAN_A_PIPE_HOLDS,
                           .workers = 3,
                           .watch = kill_first_and_interrupt,
                           .context = &told};
    const HardWinters *winters = winters_by_workers(*state, model, &job);
    assert_non_null(strstr(winters->remark, "was stopped"));
    assert_non_null(strstr(winters->remark, "Before that 1 of 3 worker processes died (the "
                                            "last by signal 9)"));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(any_number_of_workers_comes_to_the_same),
        UNIT_TEST(a_worker_that_dies_takes_only_its_own_winters),
        UNIT_TEST(ctrl_c_ends_the_drawing_and_not_the_program),
        UNIT_TEST(a_worker_that_died_is_told_where_the_drawing_was_stopped_too),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
