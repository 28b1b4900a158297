/* The farm as it is and each what-if, read, planned and set side by side. A what-if with a
 * fault is left out, and the others still print. */
#include "entry/compare_parts.h"
#include "entry/farm_reading.h"
#include "planner/yard_plan.h"
#include <math.h>

/* NULL with a fault where it could not be planned. */
static const WinterPlan *planned(Arena *arena, Faults *faults, const FarmRequest *request,
                                 const char *file, const Farm *farm) {
    PlanQuestion *question = ARENA_NEW(arena, PlanQuestion);
    *question = plan_question(arena, farm);
    WinterPlan *plan = ARENA_NEW(arena, WinterPlan);
    *plan = plan_with_yard_rules(arena, question);
    if (plan->verdict == PLAN_BALANCED && request->winters.count > 0)
        plan->winters = winters_by_workers(
            arena, hard_winter_model(arena, plan, request->winters.seed, USUAL_SPREAD),
            &request->winters);
    if (plan->verdict != PLAN_FAILED)
        return plan;
    fault_add(faults, (Place){file, 0, 0},
              "the winter could not be planned: %s; please report it with these files",
              plan->remark);
    return NULL;
}

static void add_words(Arena *arena, const FarmRequest *request, const WhatIf *what_if,
                      Future *future) {
    const char **words = ARENA_ARRAY(arena, const char *, what_if->count);
    for (int i = 0; i < what_if->count; i++)
        words[i] = change_words(arena, request, &what_if->changes[i]);
    future->words = words;
    future->word_count = what_if->count;
    future->cost_words = what_if->cost_words;
}

/* What a what-if would be, whatever may be wrong with it. */
static Future future_asked(Arena *arena, Faults *faults, const FarmRequest *request,
                           const FileBytes *file, Units units, WhatIf *what_if) {
    bool is_good = file->bytes != NULL;
    *what_if = (WhatIf){.name = file->name, .file = file->name, .cost_words = ""};
    if (is_good)
        is_good = what_if_parse(arena, faults, file, request->file[FARM_HERD].name, what_if);
    Farm *farm = ARENA_NEW(arena, Farm);
    if (!is_good)
        future_check(arena, faults, request, what_if->file, what_if->changes, what_if->count);
    if (is_good)
        is_good = future_read(arena, faults, request, what_if->file, what_if->changes,
                              what_if->count, farm);
    const WinterPlan *plan =
        is_good ? planned(arena, faults, request, what_if->file, farm) : NULL;
    Future future = {
        .name = what_if->name, .own_cost = what_if->own_cost, .chance_of_turnout = (double)NAN};
    if (plan)
        future = future_of(arena, what_if->name, plan, what_if->own_cost, units);
    add_words(arena, request, what_if, &future);
    return future;
}

static bool has_no_rules(const Future *future) { return future->plan && !future->plan->yard; }

/* Where no rules of the yard are on, each may settle where the farm as it is does, and that
 * where any of them does. */
static void find_least_costs(Arena *arena, Future *futures, int count) {
    WinterPlan *cheapest = ARENA_ARRAY(arena, WinterPlan, count);
    for (int i = 0; i < count; i++) {
        if (has_no_rules(&futures[i]))
            cheapest[i] = plan_least_cost(arena, futures[i].plan->question);
    }
    if (!has_no_rules(&futures[0]))
        return;
    futures[0].least = (LeastCost){cheapest[0].least_cost, cheapest[0].least_cautions};
    for (int i = 1; i < count; i++) {
        if (!has_no_rules(&futures[i]))
            continue;
        futures[i].least = least_cost_beside(&cheapest[i], &cheapest[0]);
        futures[0].least =
            lesser_cost(futures[0].least, least_cost_beside(&cheapest[0], &cheapest[i]));
    }
}

TaskResult task_compare(Arena *arena, Faults *faults, const FarmRequest *request) {
    const int count = request->what_if_count + 1;
    Farm *farm = ARENA_NEW(arena, Farm);
    const WinterPlan *as_it_is = NULL;
    if (farm_read(arena, faults, request, farm) && farm_is_from(arena, faults, request, farm))
        as_it_is = planned(arena, faults, request, request->file[FARM_HERD].name, farm);
    if (!as_it_is)
        return (TaskResult){.status = TASK_FAULTY};
    const Units units = farm_units(request, farm);
    Future *futures = ARENA_ARRAY(arena, Future, count);
    WhatIf *what_ifs = ARENA_ARRAY(arena, WhatIf, count);
    futures[0] = future_of(arena, "As it is", as_it_is, 0.0, units);
    what_ifs[0] = (WhatIf){.name = "As it is", .file = request->file[FARM_HERD].name};
    for (int i = 1; i < count; i++)
        futures[i] = future_asked(arena, faults, request, &request->what_ifs[i - 1], units,
                                  &what_ifs[i]);
    find_least_costs(arena, futures, count);
    const Comparison comparison = {futures, count, units};
    Report *report = comparison_report(arena, &comparison);
    bool is_faulty = false, is_short = false;
    for (int i = 0; i < count; i++) {
        is_faulty |= !futures[i].plan;
        is_short |= futures[i].plan && futures[i].plan->verdict == PLAN_SHORT;
    }
    if (request->vary)
        is_faulty |= !compare_varied(report, faults, request, &comparison, what_ifs);
    if (request->wants_ship)
        is_faulty |= !compare_shipped(report, faults, request, as_it_is->question);
    if (!report->first) /* only a number was asked for, and cannot be varied */
        report = NULL;
    return (TaskResult){.status = is_faulty  ? TASK_FAULTY
                                  : is_short ? TASK_SHORT
                                             : TASK_DONE,
                        .report = report};
}
