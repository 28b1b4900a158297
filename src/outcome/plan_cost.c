/* What the winter costs, and what keeping behind the caution lines has to do with it. */
#include "outcome/plan_report.h"
#include "outcome/weighed_words.h"

#define COUNT(array) ((int)(sizeof(array) / sizeof((array)[0])))

/* What the caution lines do to the cost, and what of them is no money. */
static void add_caution_cost(Report *report, const PlanFindings *findings) {
    Arena *arena = report->arena;
    const WinterPlan *plan = findings->plan;
    const double weight = plan->question->farm->winter.caution_weight;
    if (weight <= 0.0) {
        report_paragraph(report,
                         "Caution lines weigh nothing here (caution_weight in winter.csv is "
                         "0): where it is cheaper, rations go up to the hard limits.");
        return;
    }
    const char *kept =
        findings->caution_cost >= WORTH_WEIGHING
            ? arena_print(arena,
                          "Keeping behind the caution lines of safety costs about %s of it, "
                          "beside the cheapest rations within the hard limits. ",
                          money_words(arena, findings->caution_cost, 0))
            : "";
    const char *passed =
        plan->cost.cautions >= WORTH_WEIGHING
            ? arena_print(arena,
                          "Some lines are passed all the same (see Dangers and Cautions), "
                          "where keeping behind them would cost more than they weigh, or "
                          "cannot be done: %s, "
                          "which is no money and not in the table, but the prices and worths "
                          "below count it. ",
                          money_words(arena, plan->cost.cautions, 0))
            : "";
    if (kept[0] == '\0' && passed[0] == '\0')
        return;
    report_paragraph(report,
                     "%s%scaution_weight in winter.csv makes the lines weigh more or less (1 "
                     "as usual, 0 nothing).",
                     kept, passed);
}

void plan_report_cost(Report *report, const PlanFindings *findings) {
    static const ReportColumn COLUMNS[] = {
        {"item", "", "", 0},
        {"amount", "Winter", "$", 1},
        {"per_head_day", "A head and day", "$", 1},
    };
    const WinterPlan *plan = findings->plan;
    const double days = plan_head_days(plan->question);
    const struct {
        const char *label;
        double amount;
    } rows[] = {
        {"Feed bought", plan->cost.bought},
        {"Own feed, at what it would fetch", plan->cost.own_feed},
        {"Hauling and feeding out", plan->cost.hauling},
        {"Yardage", plan->cost.yardage},
    };
    report_section(report, "cost", "What it costs");
    ReportTable *table = report_table(report, "cost", "", COLUMNS, COUNT(COLUMNS));
    for (int i = 0; i < COUNT(rows); i++)
        report_row(table, (Cell[]){text_cell(rows[i].label), number_cell(rows[i].amount, 0),
                                   number_cell(rows[i].amount / days, 2)});
    report_total_row(table, (Cell[]){text_cell("Total"), number_cell(plan->cost.total, 0),
                                     number_cell(plan->cost.total / days, 2)});
    const char *currency = plan->question->farm->winter.currency;
    report_paragraph(
        report,
        "Money that leaves the farm for feed is the first line; own feed is reckoned "
        "at the value given for each stack.%s%s%s",
        currency[0] != '$' ? " Amounts are in " : "", currency[0] != '$' ? currency : "",
        currency[0] != '$' ? "." : "");
    if (plan->verdict == PLAN_BALANCED)
        add_caution_cost(report, findings);
}
