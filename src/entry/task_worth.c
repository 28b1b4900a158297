/* What feed for sale is worth: the plan, and the report. */
#include "entry/farm_reading.h"
#include "entry/task.h"
#include "outcome/worth_report.h"

TaskResult task_worth(Arena *arena, Faults *faults, const FarmRequest *request) {
    static const TaskResult faulty = {.status = TASK_FAULTY};
    Farm farm;
    if (!farm_read(arena, faults, request, &farm))
        return faulty;
    if (farm.inventory.for_sale.count == 0) {
        fault_add(faults, (Place){request->file[FARM_FOR_SALE].name, 0, 0},
                  "nothing is for sale: there is nothing to price");
        return faulty;
    }
    const PlanQuestion question = plan_question(arena, &farm);
    const WinterPlan plan = plan_least_cost(arena, &question);
    if (plan.verdict == PLAN_FAILED) {
        fault_add(faults, (Place){request->file[FARM_HERD].name, 0, 0},
                  "the winter could not be planned: %s; please report it with these files",
                  plan.remark);
        return faulty;
    }
    const FeedWorths worths = feed_worths(arena, &plan);
    return (TaskResult){.status = plan.verdict == PLAN_BALANCED ? TASK_DONE : TASK_SHORT,
                        .report = worth_report(arena, &worths, farm_units(request, &farm))};
}
