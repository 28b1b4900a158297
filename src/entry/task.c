#include "entry/task.h"
#include "entry/farm_reading.h"
#include "outcome/check_report.h"
#include "outcome/feed_sheets.h"
#include "outcome/feeds_report.h"
#include "outcome/needs_report.h"
#include "outcome/plan_report.h"
#include "outcome/reference_table.h"
#include "outcome/stock_report.h"
#include "planner/farm_from.h"
#include "planner/kept_plan.h"
#include "planner/yard_plan.h"

static const TaskResult FAULTY = {.status = TASK_FAULTY};

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
                        .report = feeds_report(arena, &farm, farm_units(request, &farm))};
}

TaskResult task_needs(Arena *arena, Faults *faults, const FarmRequest *request) {
    Farm farm;
    if (!farm_read(arena, faults, request, &farm))
        return FAULTY;
    const PlanQuestion question = plan_question(arena, &farm);
    const Units units = farm_units(request, &farm);
    Report *report = needs_report(arena, &question, units);
    if (request->wants_year_table)
        reference_tables_add(report, units);
    return (TaskResult){.status = TASK_DONE, .report = report};
}

/* A winter that cannot be fed as it is expected is not asked how often it can. */
static void draw_winters(Arena *arena, const FarmRequest *request, WinterPlan *plan) {
    if (plan->verdict != PLAN_BALANCED || request->winters.count == 0)
        return;
    plan->winters = winters_by_workers(
        arena, hard_winter_model(arena, plan, request->winters.seed, USUAL_SPREAD),
        &request->winters);
}

static const char FROM_OPTION[] = "--from";

TaskResult task_stock(Arena *arena, Faults *faults, const FarmRequest *request) {
    Farm farm;
    if (!farm_read(arena, faults, request, &farm))
        return FAULTY;
    const StockFindings findings = stock_findings(arena, &farm, request->from);
    if (findings.rest)
        draw_winters(arena, request, findings.rest);
    return (TaskResult){.status = stock_is_short(&findings) ? TASK_SHORT : TASK_DONE,
                        .report = stock_report(arena, &findings, farm_units(request, &farm))};
}

static FileBytes kept_file(Arena *arena, const FarmRequest *request, const WinterPlan *plan) {
    if (!request->wants_keeping)
        return (FileBytes){NULL, NULL, 0};
    const Text text = kept_plan_text(arena, plan);
    return (FileBytes){request->file[FARM_LAST_PLAN].name, text.bytes, text.length};
}

/* A page in brief asks nothing of the plan but what stands in it. */
static WinterPlan winter_asked_for(Arena *arena, const FarmRequest *request,
                                   const PlanQuestion *question) {
    if (request->wants_cheapest)
        return plan_least_cost_to_read(arena, question);
    const YardRules rules = yard_rules_asked(question);
    const bool is_read = request->wants_brief && request->winters.count == 0;
    return is_read && yard_rules_count(&rules) == 0 ? plan_winter_to_read(arena, question)
                                                    : plan_with_yard_rules(arena, question);
}

TaskResult task_plan(Arena *arena, Faults *faults, const FarmRequest *request) {
    Farm farm;
    if (!farm_read(arena, faults, request, &farm))
        return FAULTY;
    if (request->has_from &&
        !farm_from(arena, faults, (Place){FROM_OPTION, 0, 0}, &farm, request->from))
        return FAULTY;
    const PlanQuestion question = plan_question(arena, &farm);
    WinterPlan plan = winter_asked_for(arena, request, &question);
    if (plan.verdict == PLAN_FAILED) {
        fault_add(faults, (Place){request->file[FARM_HERD].name, 0, 0},
                  "the winter could not be planned: %s; please report it with these files",
                  plan.remark);
        return FAULTY;
    }
    draw_winters(arena, request, &plan);
    const Units units = farm_units(request, &farm);
    PlanFindings findings = request->wants_brief ? plan_findings_in_brief(arena, &plan, units)
                                                 : plan_findings(arena, &plan, units);
    findings.has_no_figures = request->is_to_be_read;
    findings.is_as_found = request->wants_cheapest;
    return (TaskResult){.status = plan.verdict == PLAN_BALANCED ? TASK_DONE : TASK_SHORT,
                        .written = kept_file(arena, request, &plan),
                        .report = request->wants_brief ? plan_brief_of(arena, &findings)
                                                       : plan_report_of(arena, &findings),
                        .sheets = request->wants_sheets ? feed_sheets(arena, &findings) : NULL};
}
