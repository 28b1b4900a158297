#include "planner/condition_path.h"
#include "cattle/body_reserve.h"
#include <math.h>

static bool has_condition(const HerdGroup *group) {
    return !cattle_class_kind(group->cattle_class)->grows && group->condition >= 1.0 &&
           group->condition <= 9.0;
}

/* By the first day still to feed: as was asked, where nobody has scored them since. */
static double asked_before(const PlanQuestion *question, const HerdGroup *group) {
    const Farm *farm = question->farm;
    const int days = farm->winter.days_since_weighed;
    if (days == 0)
        return 0.0;
    const Day weighed = winter_weighing_day(&farm->winter);
    return days * requirement_of(group, &farm->weather, farm->minerals, weighed, weighed,
                                 calendar_add(farm->winter.first_day, -1))
                      .energy.condition;
}

const Condition *condition_path(Arena *arena, const WinterPlan *plan) {
    const PlanQuestion *question = plan->question;
    Condition *path = ARENA_ARRAY(arena, Condition, question->block_count);
    double asked_mcal = 0.0;
    double given_mcal = 0.0;
    for (int b = 0; b < question->block_count; b++) {
        const PlanBlock *block = &question->blocks[b];
        const HerdGroup *group = &question->farm->herd.groups[block->group];
        path[b] = (Condition){(double)NAN, (double)NAN};
        if (b == 0 || question->blocks[b - 1].group != block->group)
            asked_mcal = given_mcal = asked_before(question, group);
        if (!has_condition(group))
            continue;
        const double asked = block->need.energy.condition;
        asked_mcal += asked * block->days;
        given_mcal += (asked + plan->blocks[b].energy_left) * block->days;
        path[b] =
            (Condition){condition_after(group->weight, group->condition, (Energy){asked_mcal}),
                        condition_after(group->weight, group->condition, (Energy){given_mcal})};
    }
    return path;
}
