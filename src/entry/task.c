#include "entry/task.h"
#include "entry/farm_reading.h"
#include "outcome/check_report.h"
#include "outcome/feed_sheets.h"
#include "outcome/feeds_report.h"
#include "outcome/needs_report.h"
#include "outcome/plan_report.h"
#include "outcome/reference_table.h"
#include "planner/yard_plan.h"

static const TaskResult FAULTY = {.status = TASK_FAULTY};

static Units units_of(const FarmRequest *request, const Farm *farm) {
    if (request->units_were_asked)
        return request->units;
    return farm->winter.is_imperial ? UNITS_IMPERIAL
           : farm->winter.is_mixed  ? UNITS_MIXED
                                    : UNITS_METRIC;
}

TaskResult task_check(Arena *arena, Faults *faults, const FarmRequest *request) {
    Farm farm;
    farm_read(arena, faults, request, &farm);
    return (TaskResult){.status = faults->wrong_count > 0 ? TASK_FAULTY : TASK_DONE,
                        .report = check_report(arena, faults, &farm)};
}

TaskResult task_feeds(Arena *arena, Faults *faults, const FarmRequest *request) {
    Farm farm;
    if (!farm_read(arena, faults, request, &farm))
        return FAULTY;
    return (TaskResult){.status = TASK_DONE,
                        .report = feeds_report(arena, &farm, units_of(request, &farm))};
}

TaskResult task_needs(Arena *arena, Faults *faults, const FarmRequest *request) {
    Farm farm;
    if (!farm_read(arena, faults, request, &farm))
        return FAULTY;
    const PlanQuestion question = plan_question(arena, &farm);
    const Units units = units_of(request, &farm);
    Report *report = needs_report(arena, &question, units);
    if (request->wants_year_table)
        reference_tables_add(report, units);
    return (TaskResult){.status = TASK_DONE, .report = report};
}

TaskResult task_plan(Arena *arena, Faults *faults, const FarmRequest *request) {
    Farm farm;
    if (!farm_read(arena, faults, request, &farm))
        return FAULTY;
    const PlanQuestion question = plan_question(arena, &farm);
    const WinterPlan plan = plan_with_yard_rules(arena, &question);
    if (plan.verdict == PLAN_FAILED) {
        fault_add(faults, (Place){request->file[FARM_HERD].name, 0, 0},
                  "the winter could not be planned: %s; please report it with these files",
                  plan.remark);
        return FAULTY;
    }
    const PlanFindings findings = plan_findings(arena, &plan, units_of(request, &farm));
    return (TaskResult){.status = plan.verdict == PLAN_BALANCED ? TASK_DONE : TASK_SHORT,
                        .report = plan_report_of(arena, &findings),
                        .sheets = request->wants_sheets ? feed_sheets(arena, &findings) : NULL};
}
