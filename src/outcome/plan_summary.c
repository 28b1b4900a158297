/* What stands first: the verdict in one sentence, the few figures that are read from across the
 * room, and the most serious caution. */
#include "base/text.h"
#include "outcome/day_words.h"
#include "outcome/plan_report.h"
#include "planner/hard_winter.h"
#include <math.h>

double plan_head_days(const PlanQuestion *question) {
    double sum = 0.0;
    for (int b = 0; b < question->block_count; b++)
        sum += question->blocks[b].head * question->blocks[b].days;
    return sum;
}

static void add_cost_fact(Report *report, const PlanFindings *findings) {
    const WinterPlan *plan = findings->plan;
    const double feeding = plan->cost.total - plan->cost.yardage;
    report_fact(
        report, "feed_and_hauling", "Feed and hauling, all winter", number_cell(feeding, 0),
        "$",
        arena_print(report->arena,
                    "%s a head and day. With yardage %s. Of this, %s for feed bought.",
                    money_words(report->arena, feeding / plan_head_days(plan->question), 2),
                    money_words(report->arena, plan->cost.total, 0),
                    money_words(report->arena, plan->cost.bought, 0)));
}

static void add_days_fact(Report *report, const PlanFindings *findings) {
    const DaysOnHand *days = &findings->days;
    if (findings->is_brief)
        return;
    const Winter *winter = &findings->plan->question->farm->winter;
    const char *note =
        days->lasts_all_winter ? "All winter, with minerals and supplements bought."
        : days->balanced_days == 0
            ? arena_print(report->arena,
                          "On no day are all groups balanced by it, even with minerals and "
                          "supplements. %d days are to be fed.",
                          winter_days(winter))
            : arena_print(report->arena,
                          "Balanced to %s, with minerals and supplements bought; %d days are "
                          "to be fed.",
                          day_words(report->arena, days->balanced_until), winter_days(winter));
    report_fact(report, "days_on_hand", "Own feed alone lasts",
                number_cell(days->balanced_days, 0), days->balanced_days == 1 ? "day" : "days",
                note);
}

static void add_chance_fact(Report *report, const PlanFindings *findings) {
    const HardWinters *winters = findings->plan->winters;
    if (!winters || winters->done == 0)
        return;
    const RunoutDays *herd = &winters->herd;
    report_fact(report, "chance", "Fed as planned, it lasts in",
                number_cell(winters_of_a_hundred(winters->share), 0), "of 100 winters",
                herd->lasts[IN_HALF]
                    ? "To turnout, every group, own feed and what is bought."
                    : arena_print(report->arena,
                                  "To turnout, every group, own feed and what is bought. In "
                                  "half of them some are short by %s.",
                                  day_words(report->arena, herd->day[IN_HALF])));
}

/* Whether all that is bought is wanted by one day, and which. */
static bool is_one_day(const WinterPlan *plan, Day *day) {
    bool has_any = false;
    for (int f = plan->question->own_count; f < plan->question->feed_count; f++) {
        Day of = {0};
        if (!plan_buys(plan, f))
            continue;
        if (!bought_by(plan, f, &of) || (has_any && of.number != day->number))
            return false;
        *day = of;
        has_any = true;
    }
    return has_any;
}

static const char *buy_words(Arena *arena, const PlanFindings *findings, bool with_days) {
    const WinterPlan *plan = findings->plan;
    Text text = text_new(arena);
    for (int f = plan->question->own_count; f < plan->question->feed_count; f++) {
        Day day = {0};
        if (!plan_buys(plan, f))
            continue;
        text_print(&text, "%s%s of %s", text.length > 0 ? "; " : "",
                   weight_words(arena, findings->units, plan->bought_kg[f]),
                   plan->question->feeds[f].name);
        if (with_days && bought_by(plan, f, &day))
            text_print(&text, " by %s", day_short(arena, day));
    }
    return text.length > 0 ? arena_print(arena, "%s.", text.bytes) : "";
}

static void add_buy_fact(Report *report, const PlanFindings *findings) {
    Day day = {0};
    const bool is_one = is_one_day(findings->plan, &day);
    const char *words = buy_words(report->arena, findings, !is_one);
    if (words[0] != '\0')
        report_fact(report, "buy",
                    is_one
                        ? arena_print(report->arena, "Buy by %s", day_words(report->arena, day))
                        : "Buy",
                    number_cell(findings->plan->cost.bought, 0), "$", words);
    else if (findings->plan->verdict == PLAN_BALANCED)
        report_fact(report, "buy", "Buy", text_cell("nothing"), "",
                    "Own feed does it at least cost.");
}

static void add_foremost(Report *report, const PlanFindings *findings) {
    if (findings->caution_count == 0)
        return;
    const Caution *first = &findings->cautions[0];
    report_foremost(report, first->severity,
                    arena_print(report->arena, "%s.%s%s", first->fact,
                                first->advice[0] != '\0' ? " " : "", first->advice));
}

void plan_report_summary(Report *report, const PlanFindings *findings) {
    const Winter *winter = &findings->plan->question->farm->winter;
    if (findings->plan->verdict == PLAN_SHORT)
        report_headline(report, "%s", short_headline(report->arena, findings));
    else
        report_headline(report, "Every group is balanced to %s.",
                        day_words(report->arena, winter->last_day));
    add_cost_fact(report, findings);
    add_days_fact(report, findings);
    add_chance_fact(report, findings);
    add_buy_fact(report, findings);
    add_foremost(report, findings);
}
