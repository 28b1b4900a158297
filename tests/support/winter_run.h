/* Hard winters run one after the other, on invented farms whose plan is balanced. */
#ifndef SUPPORT_WINTER_RUN_H
#define SUPPORT_WINTER_RUN_H

#include "planner/hard_winter_model.h"
#include "support/planned_farm.h"
#include "support/unit.h"

#ifdef __SANITIZE_ADDRESS__
enum { FARMS = 3, WINTERS = 60, MANY = 400 };
#else
enum { FARMS = 12, WINTERS = 200, MANY = 2000 };
#endif

typedef struct {
    const HardWinterModel *model;
    const double *records;
    const HardWinters *told;
    int count;
} Run;

static inline Run run_of(Arena *arena, const WinterPlan *plan, WinterSpread spread,
                         uint64_t seed, int count) {
    Run run = {.model = hard_winter_model(arena, plan, seed, spread), .count = count};
    HardWinterWork *work = hard_winter_work(arena, run.model);
    const size_t length = (size_t)hard_winter_record_length(run.model);
    double *records = ARENA_ARRAY(arena, double, (size_t)count *length);
    bool *is_done = ARENA_ARRAY(arena, bool, count);
    for (int i = 0; i < count; i++) {
        hard_winter_run(run.model, (uint64_t)i, work, records + (size_t)i * length);
        is_done[i] = true;
    }
    run.records = records;
    run.told = hard_winters_told(arena, run.model, records, is_done, count);
    return run;
}

static inline double field(const Run *run, int winter, int at) {
    return run
        ->records[(size_t)winter * (size_t)hard_winter_record_length(run->model) + (size_t)at];
}

/* The balanced ones of FARMS drawn farms. */
typedef void Try(Arena *arena, const PlannedFarm *farm);
static inline void try_farms(Try *try) {
    int tried = 0;
    for (unsigned long long seed = 1; seed <= FARMS; seed++) {
        Arena *arena = arena_open();
        const FarmSize size = {3, 8, 7, 110, true};
        const PlannedFarm *farm = planned_farm(arena, farm_drafted(arena, seed, size));
        if (farm->plan.verdict == PLAN_BALANCED) {
            try(arena, farm);
            tried++;
        }
        arena_close(arena);
    }
    assert_true(tried > FARMS / 2);
}

#endif
