#include "support/told_report.h"
#include "outcome/plan_cautions.h"

const Caution *hand_caution(Arena *arena, const HandQuestion *hand, const char *topic,
                            const char *part) {
    WinterPlan *plan = ARENA_NEW(arena, WinterPlan);
    *plan = plan_winter(arena, &hand->question);
    const Caution *cautions;
    const int count = plan_cautions(arena, plan, UNITS_METRIC, &cautions);
    for (int i = 0; i < count; i++) {
        if (strcmp(cautions[i].topic, topic) == 0 && strstr(cautions[i].fact, part))
            return &cautions[i];
    }
    return NULL;
}
