/* The plan in brief: what to feed, what to buy, what is left, and every danger and caution. Its
 * numbers are those of the whole plan; what that one asks besides is named at the end. */
#include "outcome/plan_report.h"

static void add_left_out(Report *report, const PlanFindings *findings) {
    const bool is_balanced = findings->plan->verdict == PLAN_BALANCED;
    report_section(report, "left_out", "What is left out here");
    report_paragraph(
        report,
        "The whole plan, without --brief, has the same rations and says besides: %show long "
        "own feed lasts, %swhat to load for all, how each need is met and what sets the "
        "ration, what to change on a cold day, each day of bringing feeds in, what the numbers "
        "rest on and "
        "where they come from.%s",
        is_balanced ? "" : "what would mend it, ",
        is_balanced ? "what each feed and price is worth, " : "",
        is_balanced && !findings->plan->winters
            ? " How often it lasts in hard winters: --winters 1000."
            : "");
}

Report *plan_brief_of(Arena *arena, const PlanFindings *findings) {
    const Farm *farm = findings->plan->question->farm;
    Report *report = report_new(arena, plan_title(arena, &farm->winter, " in brief"));
    plan_report_summary(report, findings);
    plan_report_verdict(report, findings);
    plan_report_dangers(report, findings);
    plan_report_record_gap(report, farm);
    plan_report_changes(report, findings);
    plan_report_purchases(report, findings);
    plan_report_winters(report, findings->plan, findings->units, "");
    plan_report_yard(report, findings);
    plan_report_rations(report, findings);
    plan_report_step_ups(report, findings);
    plan_report_stock(report, findings);
    plan_report_cautions(report, findings);
    plan_report_stand_ins(report, findings);
    add_left_out(report, findings);
    plan_figures(report->figures, findings);
    return report;
}
