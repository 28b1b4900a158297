/* What a thousand hard winters cost beside a thousand plans, in one run:
 *
 *     time_winters HERD FOLDER WINTERS PLANS
 *
 * Prints the seconds of WINTERS winters drawn in this process and in two others, and of one
 * plan made from nothing: the median of PLANS of them, multiplied by WINTERS and not run so
 * often. Fails when two ways come to another chance. */
#define _POSIX_C_SOURCE 200809L
#include "base/fault.h"
#include "entry/farm_reading.h"
#include "entry/file_bytes.h"
#include "entry/winter_workers.h"
#include "planner/yard_plan.h"
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

enum { MOST_PLANS = 51 };

static double now(void) {
    struct timespec at;
    clock_gettime(CLOCK_MONOTONIC, &at);
    return (double)at.tv_sec + 1e-9 * (double)at.tv_nsec;
}

static int by_size(const void *a, const void *b) {
    const double left = *(const double *)a;
    const double right = *(const double *)b;
    return (left > right) - (left < right);
}

static FileBytes file_at(Arena *arena, const char *path) {
    const ReadFile read = file_read(arena, path);
    return (FileBytes){path, read.outcome == READ_DONE ? read.bytes : NULL, read.length};
}

static bool read_farm(Arena *arena, const char *herd, const char *folder, Farm *farm) {
    FarmRequest request = {.units = UNITS_METRIC};
    Faults faults = faults_new(arena);
    request.file[FARM_HERD] = file_at(arena, herd);
    for (int file = FARM_STACKS; file < FARM_FILE_COUNT; file++)
        request.file[file] =
            file_at(arena, path_in_folder(arena, folder, FARM_FILE_NAME[file]));
    return farm_read(arena, &faults, &request, farm);
}

static double time_plans(const Farm *farm, int plans) {
    double seconds[MOST_PLANS];
    for (int i = 0; i < plans; i++) {
        Arena *arena = arena_open();
        const PlanQuestion question = plan_question(arena, farm);
        const double begun = now();
        plan_with_yard_rules(arena, &question);
        seconds[i] = now() - begun;
        arena_close(arena);
    }
    qsort(seconds, (size_t)plans, sizeof *seconds, by_size);
    return seconds[plans / 2];
}

static double time_winters(const WinterPlan *plan, int count, int workers, double *share) {
    Arena *arena = arena_open();
    const WinterJob job = {.count = count, .workers = workers, .seed = 1};
    const double begun = now();
    const HardWinterModel *model = hard_winter_model(arena, plan, job.seed, USUAL_SPREAD);
    *share = winters_by_workers(arena, model, &job)->share;
    const double seconds = now() - begun;
    arena_close(arena);
    return seconds;
}

int main(int argument_count, char **arguments) {
    const int winters = argument_count == 5 ? atoi(arguments[3]) : 0;
    const int plans = argument_count == 5 ? atoi(arguments[4]) : 0;
    if (winters < 1 || plans < 1 || plans > MOST_PLANS) {
        fprintf(stderr, "time_winters HERD FOLDER WINTERS PLANS\n");
        return 2;
    }
    Arena *arena = arena_open();
    Farm farm;
    if (!read_farm(arena, arguments[1], arguments[2], &farm)) {
        fprintf(stderr, "time_winters: the farm has faults\n");
        return 1;
    }
    const PlanQuestion question = plan_question(arena, &farm);
    const WinterPlan plan = plan_with_yard_rules(arena, &question);
    if (plan.verdict != PLAN_BALANCED) {
        fprintf(stderr, "time_winters: the winter is short\n");
        return 1;
    }
    double here_share;
    double shared_share;
    const double here = time_winters(&plan, winters, 0, &here_share);
    const double shared = time_winters(&plan, winters, 2, &shared_share);
    const double cold = time_plans(&farm, plans);
    printf("  %d winters, one process   %8.3f s\n", winters, here);
    printf("  %d winters, two workers   %8.3f s   %8.2f times one process\n", winters, shared,
           shared / here);
    printf("  one plan from nothing      %8.3f s   the median of %d; times %d: %.0f s\n", cold,
           plans, winters, cold * winters);
    printf("  a winter of a plan         1/%.0f\n", cold * winters / here);
    arena_close(arena);
    if (here_share == shared_share)
        return 0;
    printf("FAILED: %g of the winters last in one process, %g in two\n", here_share,
           shared_share);
    return 1;
}
