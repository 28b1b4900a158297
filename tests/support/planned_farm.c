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
    planned->draft = draft;
    planned->question = plan_question(arena, &planned->farm);
    return planned;
}

PlannedFarm *asked_farm_of(Arena *arena, int seed, int least_groups) {
    const FarmSize size = {least_groups + seed % 3, 3 + seed % 4, 6, 100, seed % 2 == 0};
    return asked_farm(arena, farm_drafted(arena, (unsigned long long)seed, size));
}

PlannedFarm *planned_farm(Arena *arena, const FarmDraft *draft) {
    PlannedFarm *planned = asked_farm(arena, draft);
    planned->plan = plan_winter(arena, &planned->question);
    return planned;
}

/* Pits, bags and tubes lose a face of a hundredth a day; every second stack lies far away. */
static void rule_stacks(Arena *arena, Draws *draws, Farm *farm) {
    const int count = farm->inventory.stacks.count;
    Stack *stacks = ARENA_ARRAY(arena, Stack, count);
    const bool has_face = draw_chance(draws, 0.4);
    for (int s = 0; s < count; s++) {
        stacks[s] = farm->inventory.stacks.stacks[s];
        if (has_face && stack_has_face(&stacks[s]))
            stacks[s].least_face_kg_per_day = stack_as_fed(&stacks[s]).kg / 100.0;
        stacks[s].yard = s % 2 == 0 ? "Home" : "Far";
        stacks[s].other_yard_per_kg = draw_between(draws, 0.0, 0.03, 3);
    }
    farm->inventory.stacks.stacks = stacks;
    HerdGroup *groups = ARENA_ARRAY(arena, HerdGroup, farm->herd.count);
    for (int g = 0; g < farm->herd.count; g++) {
        groups[g] = farm->herd.groups[g];
        groups[g].yard = g == 0 ? "" : g % 2 == 0 ? "home" : "Far";
    }
    farm->herd.groups = groups;
}

PlannedFarm *ruled_farm(Arena *arena, const FarmDraft *draft, unsigned long long seed) {
    PlannedFarm *planned = asked_farm(arena, draft);
    Draws draws = draws_new(seed + 7000);
    FeedingRules *rules = &planned->farm.winter.rules;
    rules->most_feeds = draw_chance(&draws, 0.4) ? draw_whole(&draws, 2, 4) : 0;
    rules->least_share = draw_chance(&draws, 0.3) ? draw_between(&draws, 0.03, 0.15, 2) : 0.0;
    if (draw_chance(&draws, 0.3))
        rules->largest_change_share = draw_between(&draws, 0.1, 0.5, 2);
    else if (draw_chance(&draws, 0.2))
        rules->largest_change_kg = draw_between(&draws, 1.0, 6.0, 1);
    rules->whole_loads = draw_chance(&draws, 0.4);
    rules->whole_bales = draw_chance(&draws, 0.3);
    rules->one_face_open = draw_chance(&draws, 0.4);
    rule_stacks(arena, &draws, &planned->farm);
    planned->question = plan_question(arena, &planned->farm);
    planned->plan = plan_with_yard_rules(arena, &planned->question);
    return planned;
}

const BlockState *states_of(Arena *arena, const WinterPlan *plan) {
    BlockState *states = ARENA_ARRAY(arena, BlockState, plan->question->block_count);
    for (int b = 0; b < plan->question->block_count; b++)
        states[b] = plan->blocks[b].state;
    return states;
}

RationProgram program_of(Arena *arena, const PlanQuestion *question, ProgramAim aim) {
    BlockState *states = ARENA_ARRAY(arena, BlockState, question->block_count);
    for (int b = 0; b < question->block_count; b++) {
        states[b] = (BlockState){1.45, 0.58};
    }
    return ration_program(arena, question, states, aim);
}

double least_cost_with(Arena *arena, const PlanQuestion *question, const BlockState *states) {
    const RationProgram program = ration_program(arena, question, states, AIM_LEAST_COST);
    const LpSolution solution = lp_solve(program.lp, arena, START_COLD, NULL, 0);
    return solution.status == LP_OPTIMAL ? solution.cost : (double)NAN;
}

static FarmSize size_of(int seed) {
    const bool is_generous = seed % 2 == 0;
    return (FarmSize){2 + seed % 3, 3 + seed % 3, is_generous ? 6 : 3 + seed % 4,
                      80 + seed % 41, is_generous};
}

#ifdef __SANITIZE_ADDRESS__
#define FARMS_OF_EIGHT 1
#else
#define FARMS_OF_EIGHT 8
#endif

static LawBook *tried(const Law *laws, int law_count, int farms, bool with_rules) {
    Arena *arena = arena_open();
    LawBook *book = ARENA_NEW(arena, LawBook);
    *book = (LawBook){
        .arena = arena,
        .farms = farms * FARMS_OF_EIGHT / 8,
        .broken = ARENA_ARRAY(arena, int, law_count),
        .reasons = ARENA_ARRAY(arena, Text, law_count),
    };
    for (int law = 0; law < law_count; law++)
        book->reasons[law] = text_new(arena);
    for (int seed = 1; seed <= book->farms; seed++) {
        Arena *of_farm = arena_open();
        const unsigned long long as_seed = (unsigned long long)seed;
        const FarmDraft *draft = farm_drafted(of_farm, as_seed, size_of(seed));
        PlannedFarm *farm =
            with_rules ? ruled_farm(of_farm, draft, as_seed) : planned_farm(of_farm, draft);
        farm->seed = as_seed;
        book->balanced += farm->plan.verdict == PLAN_BALANCED;
        for (int law = 0; law < law_count; law++) {
            const char *why = laws[law](of_farm, farm);
            if (why && book->broken[law]++ < 10)
                text_print(&book->reasons[law], "seed %d: %s\n", seed, why);
        }
        arena_close(of_farm);
    }
    return book;
}

LawBook *laws_tried(const Law *laws, int law_count, int farms) {
    return tried(laws, law_count, farms, false);
}

LawBook *laws_tried_with_rules(const Law *laws, int law_count, int farms) {
    return tried(laws, law_count, farms, true);
}

void assert_law_held(const LawBook *book, int law) {
    if (book->broken[law] == 0)
        return;
    print_error("%s", book->reasons[law].bytes);
    fail_msg("%d farms break the law", book->broken[law]);
}

void law_book_close(LawBook *book) { arena_close(book->arena); }
