#include "outcome/plan_yard.h"
#include "base/text.h"
#include "outcome/day_words.h"
#include "outcome/plan_report.h"
#include "planner/yard_plan.h"
#include <math.h>

bool yard_keeps_any(const WinterPlan *plan) {
    return plan->yard && yard_rules_count(&plan->yard->kept) > 0;
}

bool yard_keeps_whole_bales(const WinterPlan *plan) {
    return plan->yard && plan->yard->kept.is_on[YARD_RULE_WHOLE_BALES];
}

double yard_loads(const WinterPlan *plan, int feed) {
    return plan->yard ? plan->yard->loads[feed] : (double)NAN;
}

/* ---- the rules in words ---- */

static const char *change_words(Arena *arena, Units units, const FeedingRules *rules) {
    const char *share = rules->largest_change_share > 0.0
                            ? arena_print(arena, "%.3g %% of the dry matter",
                                          rules->largest_change_share * 100.0)
                            : "";
    const char *weight =
        rules->largest_change_kg > 0.0
            ? arena_print(arena, "%s as fed a head and day",
                          measure_words(arena, units, MEASURE_FEED, rules->largest_change_kg))
            : "";
    return arena_print(
        arena, "no feed changes from one period to the next by more than %s%s%s", share,
        share[0] != '\0' && weight[0] != '\0' ? ", nor by more than " : "", weight);
}

static const char *face_words(Arena *arena, const PlanFindings *findings) {
    const PlanQuestion *question = findings->plan->question;
    Text text = text_new(arena);
    text_add(&text, "while it is open, at least ");
    bool is_first = true;
    for (int f = 0; f < question->own_count; f++) {
        const double least = question->feeds[f].least_face_kg_per_day;
        if (least <= 0.0)
            continue;
        text_print(&text, "%s%s of %s", is_first ? "" : ", ",
                   measure_words(arena, findings->units, MEASURE_WEIGHT, least),
                   question->feeds[f].name);
        is_first = false;
    }
    text_add(&text, " is taken a day, and it is opened once");
    return text.bytes;
}

static const char *rule_words(Arena *arena, const PlanFindings *findings, YardRule rule) {
    const FeedingRules *rules = &findings->plan->question->farm->winter.rules;
    switch (rule) {
    case YARD_RULE_MOST_FEEDS:
        return arena_print(arena, "at most %d %s in a ration, minerals and urea aside",
                           rules->most_feeds, rules->most_feeds == 1 ? "feed" : "feeds");
    case YARD_RULE_LEAST_SHARE:
        return arena_print(arena,
                           "a feed is at least %.3g %% of a ration's dry matter or not in it, "
                           "minerals and urea aside",
                           rules->least_share * 100.0);
    case YARD_RULE_LARGEST_CHANGE:
        return change_words(arena, findings->units, rules);
    case YARD_RULE_WHOLE_LOADS:
        return "feed is bought by whole loads, where for-sale.csv gives the load";
    case YARD_RULE_WHOLE_BALES:
        return "bales come out whole a week for each group, or in two or four weeks for a "
               "group "
               "that would eat fewer than ten or five a week";
    case YARD_RULE_LEAST_FACE:
        return face_words(arena, findings);
    case YARD_RULE_ONE_FACE:
        return "one pit, bag or tube is open at a time, and each is opened once";
    case YARD_RULE_COUNT:
        break;
    }
    return "";
}

const char *yard_not_kept_words(Arena *arena, const WinterPlan *plan) {
    Text names = text_new(arena);
    for (int rule = 0; plan->yard && rule < YARD_RULE_COUNT; rule++) {
        if (plan->yard->asked.is_on[rule] && !plan->yard->kept.is_on[rule])
            text_print(&names, "%s%s", names.length > 0 ? "; " : "",
                       yard_rule_words((YardRule)rule));
    }
    if (names.length == 0)
        return "";
    return arena_print(arena, "Asked for and not kept in this plan: %s. %s", names.bytes,
                       plan->verdict == PLAN_BALANCED
                           ? "No balanced plan that keeps it was found"
                           : "The winter is short: no plan was found that keeps it and lets "
                             "the cattle lack no more than they must");
}

/* "Straw for Cows from 1 Nov, 1 Dec", of one group and feed. */
static void add_not_whole_days(Text *names, const WinterPlan *plan, int group, int feed) {
    const PlanQuestion *question = plan->question;
    int first;
    const int count = group_blocks(question, group, &first);
    bool is_named = false;
    for (int b = first; b < first + count; b++) {
        if (!plan->yard->not_whole[b * question->feed_count + feed] ||
            plan->blocks[b].eaten[feed] <= 0.0)
            continue;
        if (is_named)
            text_add(names, ", ");
        else
            text_print(names, "%s%s for %s from ", names->length > 0 ? "; " : "",
                       question->feeds[feed].name, question->farm->herd.names[group]);
        text_add(names, day_short(names->arena, question->blocks[b].from));
        is_named = true;
    }
}

const char *yard_not_whole_words(Arena *arena, const WinterPlan *plan) {
    const PlanQuestion *question = plan->question;
    Text names = text_new(arena);
    if (!yard_keeps_whole_bales(plan))
        return "";
    for (int g = 0; g < question->farm->herd.count; g++) {
        for (int f = 0; f < question->own_count; f++)
            add_not_whole_days(&names, plan, g, f);
    }
    return names.bytes;
}

/* ---- the section ---- */

static double left_cost(const WinterPlan *plan, int feed) {
    const PlanFeed *of = &plan->question->feeds[feed];
    return plan->yard->left_kg[feed] / (1.0 - of->shrink_share) * of->price_per_kg;
}

static void add_left(Report *report, const PlanFindings *findings) {
    const WinterPlan *plan = findings->plan;
    Text text = text_new(report->arena);
    double cost = 0.0;
    for (int f = plan->question->own_count; f < plan->question->feed_count; f++) {
        if (plan->yard->left_kg[f] < 1.0)
            continue;
        cost += left_cost(plan, f);
        text_print(&text, "%s%s of %s", text.length > 0 ? "; " : "",
                   weight_words(report->arena, findings->units, plan->yard->left_kg[f]),
                   plan->question->feeds[f].name);
    }
    if (text.length > 0)
        report_paragraph(
            report,
            "Bought by the load and not fed by the end: %s. It is in the cost with "
            "%s, and is yours next winter if it keeps.",
            text.bytes, money_words(report->arena, cost, 0));
}

static void add_kept(Report *report, const PlanFindings *findings) {
    const WinterPlan *plan = findings->plan;
    const double more = plan->cost.total - plan->yard->without->cost.total;
    const char *without = money_words(report->arena, plan->yard->without->cost.total, 0);
    if (fabs(more) < 0.5)
        report_paragraph(
            report, "Keeping them costs nothing: the winter costs %s without them.", without);
    else
        report_paragraph(
            report, "Keeping them makes the winter cost %s %s than the plan without them, %s.",
            money_words(report->arena, fabs(more), 0), more < 0.0 ? "less" : "more", without);
    if (!plan->yard->is_proved)
        report_paragraph(report,
                         "The best way to keep them was not searched to the end: another might "
                         "save up to %.1f %% of what feed and hauling cost. Part of that may "
                         "be had only by feeding a group two rations in one period, some days "
                         "the one and some the other, each of which keeps the rules: that is "
                         "counted as possible there, and this plan gives each period one.",
                         plan->yard->gap * 100.0);
    const char *not_whole = yard_not_whole_words(report->arena, plan);
    if (not_whole[0] != '\0')
        report_paragraph(
            report,
            "Not in whole bales, because no balanced plan was found with them beside the "
            "other rules: %s.",
            not_whole);
    add_left(report, findings);
    if (!findings->is_brief)
        report_paragraph(
            report,
            "What sets the cost, and what a stack is worth, hold with the feeds, faces, "
            "bales and loads as they are chosen here. Days of feed on hand keep to who may "
            "have a feed and when, and to what is kept for spring, but not to these rules: "
            "with them the balanced days may be fewer.");
    if (plan->cost.total < plan->yard->without->cost.total)
        report_paragraph(report,
                         "Both plans may cost up to %.3g %% more than the least, for steadier "
                         "rations: that is why one with rules can be the cheaper of the two.",
                         plan->question->farm->winter.steady_cost_share * 100.0);
}

void plan_report_yard(Report *report, const PlanFindings *findings) {
    const WinterPlan *plan = findings->plan;
    if (!plan->yard)
        return;
    Text text = text_new(report->arena);
    report_section(report, "yard_rules", "Yard rules");
    for (int rule = 0; rule < YARD_RULE_COUNT; rule++) {
        if (plan->yard->kept.is_on[rule])
            text_print(&text, "%s%s", text.length > 0 ? "; " : "",
                       rule_words(report->arena, findings, (YardRule)rule));
    }
    if (text.length > 0) {
        report_paragraph(report, "Kept, as asked: %s.", text.bytes);
        add_kept(report, findings);
    }
    const char *not_kept = yard_not_kept_words(report->arena, plan);
    if (not_kept[0] != '\0')
        report_paragraph(report, "%s.", not_kept);
}

/* ---- figures ---- */

static void add_rules(Figure *of, const PlanFindings *findings) {
    const struct YardOutcome *yard = findings->plan->yard;
    Figure *rules = figure_list(of, "rules");
    for (int rule = 0; rule < YARD_RULE_COUNT; rule++) {
        if (!yard->asked.is_on[rule])
            continue;
        Figure *row = figure_list_object(rules);
        figure_text(row, "rule", yard_rule_key((YardRule)rule));
        figure_text(row, "words", rule_words(of->arena, findings, (YardRule)rule));
        figure_truth(row, "kept", yard->kept.is_on[rule]);
    }
}

static void add_not_whole(Figure *of, const WinterPlan *plan) {
    const PlanQuestion *question = plan->question;
    Figure *list = figure_list(of, "not_in_whole_bales");
    for (int i = 0;
         yard_keeps_whole_bales(plan) && i < question->block_count * question->feed_count;
         i++) {
        const PlanBlock *block = &question->blocks[i / question->feed_count];
        if (!plan->yard->not_whole[i])
            continue;
        Figure *row = figure_list_object(list);
        figure_text(row, "group", question->farm->herd.groups[block->group].name);
        figure_text(row, "from", day_iso(of->arena, block->from));
        figure_text(row, "feed", question->feeds[i % question->feed_count].name);
    }
}

void plan_yard_figures(Figure *root, const PlanFindings *findings) {
    const WinterPlan *plan = findings->plan;
    const struct YardOutcome *yard = plan->yard;
    if (!yard) {
        figure_nothing(root, "yard_rules");
        return;
    }
    const FeedingRules *asked = &plan->question->farm->winter.rules;
    const bool any = yard_keeps_any(plan);
    Figure *of = figure_child(root, "yard_rules");
    add_rules(of, findings);
    figure_number(of, "most_feeds", asked->most_feeds);
    figure_number(of, "least_share_pct", asked->least_share * 100.0);
    figure_number(of, "largest_change_pct", asked->largest_change_share * 100.0);
    figure_number(of, "largest_change_kg", asked->largest_change_kg);
    figure_number(of, "cost", plan->cost.total - yard->without->cost.total);
    figure_number(of, "total_without", yard->without->cost.total);
    figure_number(of, "gap_pct", any ? yard->gap * 100.0 : (double)NAN);
    figure_truth(of, "proved", any && yard->is_proved);
    add_not_whole(of, plan);
}
