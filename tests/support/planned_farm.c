#include "support/planned_farm.h"
#include "entry/farm_reading.h"
#include "support/unit.h"

PlannedFarm *asked_farm(Arena *arena, const FarmDraft *draft) {
    PlannedFarm *planned = ARENA_NEW(arena, PlannedFarm);
    FarmRequest request;
    Faults faults = faults_new(arena);
    farm_written(arena, draft, &request);
    if (!farm_read(arena, &faults, &request, &planned->farm)) {
        print_error("%s", unit_faults(&faults, arena));
        fail_msg("%s", "the farm has faults");
    }
    planned->question = plan_question(arena, &planned->farm);
    return planned;
}

PlannedFarm *planned_farm(Arena *arena, const FarmDraft *draft) {
    PlannedFarm *planned = asked_farm(arena, draft);
    planned->plan = plan_winter(arena, &planned->question);
    return planned;
}

const BlockState *states_of(Arena *arena, const WinterPlan *plan) {
    BlockState *states = ARENA_ARRAY(arena, BlockState, plan->question->block_count);
    for (int b = 0; b < plan->question->block_count; b++)
        states[b] = plan->blocks[b].state;
    return states;
}

double least_cost_with(Arena *arena, const PlanQuestion *question, const BlockState *states) {
    const RationProgram program = ration_program(arena, question, states, AIM_LEAST_COST);
    const LpSolution solution = lp_solve(program.lp, arena, START_COLD, NULL, 0);
    return solution.status == LP_OPTIMAL ? solution.cost : (double)NAN;
}

void assert_law(Law law, int count) {
    int broken = 0;
    for (int seed = 1; seed <= count; seed++) {
        Arena *arena = arena_open();
        const bool is_generous = seed % 2 == 0;
        const FarmSize size = {2 + seed % 3, 3 + seed % 3, is_generous ? 6 : 3 + seed % 4,
                               80 + seed % 41, is_generous};
        const char *why = law(arena, farm_drafted(arena, (unsigned long long)seed, size),
                              (unsigned long long)seed);
        if (why && broken++ < 10)
            print_error("seed %d: %s\n", seed, why);
        arena_close(arena);
    }
    if (broken > 0)
        fail_msg("%d of %d farms break the law", broken, count);
}
