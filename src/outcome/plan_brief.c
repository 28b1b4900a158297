/* The plan in brief: what to feed, what to buy, what is left, and every danger and caution. Its
 * numbers are those of the whole plan; what that one asks besides is named at the end. */
#include "outcome/plan_report.h"

static void add_not_to_feed_by(Report *report, bool is_balanced) {
    report_section(report, "as_found", "Not to feed by");
    report_paragraph(
        report,
        "These are the rations that %s, as they are found. They are "
        "not evened out: a feed may come and go from one period to the next, and "
        "no rule of the yard is kept. They show %s; to feed by, plan without --cheapest.",
        is_balanced ? "cost the least" : "lack the least, and of those that cost the least",
        is_balanced ? "what the winter can cost at the least and which feeds make it so"
                    : "how short the winter is at the least");
}

static void add_left_out(Report *report, const PlanFindings *findings) {
    const bool is_balanced = findings->plan->verdict == PLAN_BALANCED;
    report_section(report, "left_out", "What is left out here");
    report_paragraph(
        report,
        "The whole plan, without %s and says besides: %show long "
        "own feed lasts, %swhat to load for all, how each need is met and what sets the "
        "ration, what to change on a cold day, each day of bringing feeds in, what the numbers "
        "rest on and "
        "where they come from.%s",
        findings->is_as_found ? "--cheapest, has its rations evened out"
                              : "--brief, has the same rations",
        is_balanced ? "" : "what would mend it, ",
        is_balanced ? "what each feed and price is worth, " : "",
        is_balanced && !findings->plan->winters
            ? " How often it lasts in hard winters: --winters 1000."
            : "");
}

Report *plan_brief_of(Arena *arena, const PlanFindings *findings) {
    const Farm *farm = findings->plan->question->farm;
    const char *kind = findings->is_as_found ? " as found, at the least cost" : " in brief";
    Report *report = report_new(arena, plan_title(arena, &farm->winter, kind));
    plan_report_summary(report, findings);
    plan_report_verdict(report, findings);
    if (findings->is_as_found)
        add_not_to_feed_by(report, findings->plan->verdict == PLAN_BALANCED);
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
