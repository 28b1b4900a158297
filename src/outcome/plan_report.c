#include "outcome/plan_report.h"
#include "base/text.h"
#include "outcome/day_words.h"
#include "outcome/own_need_words.h"
#include "outcome/plan_yard.h"
#include "outcome/practice_words.h"
#include "outcome/record_gap.h"
#include "outcome/weight_words.h"
#include "planner/plan_turnover.h"
#include <math.h>
#include <string.h>

#define COUNT(array) ((int)(sizeof(array) / sizeof((array)[0])))

const char *plan_title(Arena *arena, const Winter *winter, const char *kind) {
    return arena_print(arena, "Winter plan%s%s%s, %s to %s (%d days)", kind,
                       winter->farm[0] != '\0' ? ": " : "", winter->farm,
                       day_words(arena, winter->first_day), day_words(arena, winter->last_day),
                       winter_days(winter));
}

void plan_purchase_words(Text *text, const WinterPlan *plan, Units units) {
    for (int f = plan->question->own_count; f < plan->question->feed_count; f++) {
        if (!plan_buys(plan, f))
            continue;
        text_print(text, "%s%s of %s", text->length > 0 ? "; " : "",
                   weight_words(text->arena, units, plan->bought_kg[f]),
                   plan->question->feeds[f].name);
    }
}

/* A carry-over that is wanted is kept out of these days too. */
static const char *alone_words(const PlanFindings *findings, Arena *arena) {
    const DaysOnHand *days = &findings->days;
    if (days->lasts_all_winter || findings->is_brief)
        return "";
    if (days->balanced_days == 0)
        return arena_print(arena,
                           " Own feed alone, with minerals and supplements, does not balance "
                           "them on any day%s.",
                           findings->plan->question->farm->winter.carry_over_kg > 0.0
                               ? " if the carry-over is to be left"
                               : "");
    return arena_print(
        arena,
        " Own feed alone, with minerals and supplements, would keep them balanced "
        "for %d days, to %s.",
        days->balanced_days, day_words(arena, days->balanced_until));
}

/* A stack that may not be fed is feed paid for and money left lying. */
static const char *idle_words(const PlanFindings *findings, Arena *arena) {
    if (findings->days.barred_kg <= 0.0)
        return "";
    return arena_print(arena,
                       " %s of own feed lies idle, kept from cattle for their safety: see "
                       "Dangers.",
                       weight_words(arena, findings->units, findings->days.barred_kg));
}

void plan_report_verdict(Report *report, const PlanFindings *findings) {
    Arena *arena = report->arena;
    const WinterPlan *plan = findings->plan;
    if (plan->verdict == PLAN_SHORT) {
        report_verdict(report, SEVERITY_DANGER, "%s%s%s%s", shortfall_words(arena, findings),
                       cheapest_mend_words(arena, findings), alone_words(findings, arena),
                       idle_words(findings, arena));
        return;
    }
    Text buy = text_new(arena);
    plan_purchase_words(&buy, plan, findings->units);
    const double feeding = plan->cost.total - plan->cost.yardage;
    report_verdict(
        report, SEVERITY_NOTE,
        "Every group is balanced to %s. Feed and hauling come to %s, %s a head and day. "
        "%s%s.%s%s%s",
        day_words(arena, plan->question->farm->winter.last_day), money_words(arena, feeding, 0),
        money_words(arena, feeding / plan_head_days(plan->question), 2),
        buy.length > 0 ? "Buy " : "Nothing need be bought", buy.length > 0 ? buy.bytes : "",
        winters_verdict_words(arena, plan), alone_words(findings, arena),
        idle_words(findings, arena));
}

static int next_topic(const PlanFindings *findings, int first) {
    int next = first;
    while (next < findings->caution_count &&
           text_same(findings->cautions[next].topic, findings->cautions[first].topic))
        next++;
    return next;
}

/* One remark a topic: its facts, then its advice once. Returns the first of the next topic. */
static int add_topic(Report *report, const PlanFindings *findings, int first) {
    const Caution *of = &findings->cautions[first];
    const int next = next_topic(findings, first);
    Text text = text_new(report->arena);
    Text sources = text_new(report->arena);
    for (int i = first; i < next; i++) {
        const Caution *caution = &findings->cautions[i];
        text_print(&text, "%s. ", caution->fact);
        if (caution->source[0] != '\0' &&
            (sources.length == 0 || !strstr(sources.bytes, caution->source)))
            text_print(&sources, "%s%s", sources.length > 0 ? " " : "", caution->source);
    }
    text_add(&text, of->advice);
    report_remark(report, of->severity, of->topic, text.bytes,
                  sources.length > 0 ? sources.bytes : "");
    return next;
}

/* The topics that are a danger, or those that are not. */
static void add_topics(Report *report, const PlanFindings *findings, bool dangers) {
    int next = 0;
    while (next < findings->caution_count) {
        if ((findings->cautions[next].severity == SEVERITY_DANGER) == dangers)
            next = add_topic(report, findings, next);
        else
            next = next_topic(findings, next);
    }
}

void plan_report_dangers(Report *report, const PlanFindings *findings) {
    if (findings->caution_count == 0 || findings->cautions[0].severity != SEVERITY_DANGER)
        return;
    report_section(report, "dangers", "Dangers");
    add_topics(report, findings, true);
}

void plan_report_cautions(Report *report, const PlanFindings *findings) {
    report_section(report, "cautions", "Cautions");
    add_topics(report, findings, false);
    report_remark(
        report, SEVERITY_NOTE, "people",
        "Silo gas, a silage face, hot hay, bales and power take-offs kill people. Follow "
        "the manual and local fire and farm-safety rules; do not work alone.",
        "");
    report_remark(
        report, SEVERITY_NOTE, "horses",
        "Read the label of each mineral, pellet and supplement: an ionophore (monensin and the "
        "like) made for cattle kills horses. Keep horses away from feed that holds one or "
        "shares a bin with it, from wet-wrapped feed and from mould.",
        "");
    report_remark(report, SEVERITY_NOTE, "always",
                  "All lines are screening values for the feed tests entered; sampling error, "
                  "sorting and hungry cattle can make it worse. Ask your veterinarian or a "
                  "nutritionist before you feed what is marked here.",
                  "");
}

static void add_book_weights(Report *report, const PlanQuestion *question) {
    const char *by_book = book_weight_words(report->arena, question);
    if (by_book[0] != '\0')
        report_paragraph(
            report,
            "Measured and not weighed, so the book says how dense it lies: %s. Weigh "
            "some of it, or write its own density.",
            by_book);
}

static void add_untested(Report *report, const PlanFindings *findings) {
    const PlanQuestion *question = findings->plan->question;
    Text names = text_new(report->arena);
    for (int f = 0; f < question->own_count; f++) {
        if (question->feeds[f].feed->sample_count == 0)
            text_print(&names, "%s%s", names.length > 0 ? "; " : "", question->feeds[f].name);
    }
    if (names.length > 0)
        report_paragraph(report, "No laboratory test, so the book speaks for: %s.",
                         names.bytes);
    add_book_weights(report, question);
}

/* Cells left empty in the herd file, and what stands in for them. */
static void add_stand_ins(Report *report, const Farm *farm) {
    for (int g = 0; g < farm->herd.count; g++) {
        const HerdGroup *group = &farm->herd.groups[g];
        if (group->stand_ins[0] != '\0')
            report_paragraph(report, "Left empty for %s, so taken as: %s.", group->name,
                             group->stand_ins);
    }
}

static void add_own_needs(Report *report, const PlanFindings *findings) {
    const Farm *farm = findings->plan->question->farm;
    for (int g = 0; g < farm->herd.count; g++) {
        const char *own = own_need_words(report->arena, farm, findings->units, g);
        if (own[0] != '\0')
            report_paragraph(report,
                             "Your own figures for %s, from needs.csv, in the place of what "
                             "would be reckoned: %s.%s",
                             farm->herd.groups[g].name, own,
                             own_gain_words(report->arena, findings->plan, findings->units, g));
    }
}

/* Said where the farm asked for another form than the usual one. */
static void add_protein_form(Report *report, MicrobialForm form) {
    if (form == MICROBIAL_TEN_PERCENT)
        return;
    report_paragraph(report, "Microbial protein, as asked in winter.csv: %s.",
                     form == MICROBIAL_THIRTEEN_PERCENT
                         ? "13 % of the TDN eaten instead of 10"
                         : "8.7 % of the TDN eaten and 42.73 g, instead of 10 %");
}

static bool uses_normals(const Farm *farm) {
    for (Day day = farm->winter.first_day;
         calendar_days_between(day, farm->winter.last_day) >= 0;
         day = calendar_first_of_next_month(day)) {
        if (!farm->weather.month[calendar_month(day)].is_users)
            return true;
    }
    return false;
}

/* How to follow a number, and what needs are means of. */
static void add_how_reckoned(Report *report, const Farm *farm) {
    report_paragraph(report,
                     "To follow a number: what is put out, times 1 less the feeding waste, "
                     "times the dry matter "
                     "share, times the NEm that `winterstack feeds` shows, added over the "
                     "feeds, is the energy "
                     "eaten; `winterstack needs` shows what it has to cover, part by part.");
    report_paragraph(report,
                     "Needs are means over each period, and while cows calve, over "
                     "those that have and have not. "
                     "Cold%s is %s at the month's mean; "
                     "`winterstack needs` shows each "
                     "part and what a cold spell adds. Rations change by the month, at "
                     "a change of stage, and "
                     "where a feed comes or goes; a feed whose dates fall within a "
                     "week of such a day begins or "
                     "ends with it.",
                     farm->winter.needs_way == NEEDS_BY_TABLE ? ", where the equations hold,"
                                                              : "",
                     farm->weather.cold_way == COLD_BY_MODEL
                         ? "the heat balance of the animal, not the coat table,"
                         : "the coat and wind-chill table");
}

static void add_unsettled(Report *report, const WinterPlan *plan) {
    if (!plan->has_settled)
        report_remark(
            report, SEVERITY_CAUTION, "intake",
            arena_print(report->arena,
                        "What cattle can eat depends on what they eat, and the search "
                        "for both did not settle: a ration misses an intake limit or a gain "
                        "by %.1f %%.",
                        plan->residual * 100.0),
            "");
}

void plan_report_stand_ins(Report *report, const PlanFindings *findings) {
    const Farm *farm = findings->plan->question->farm;
    report_section(report, "basis", "What stands in for what is not known");
    add_untested(report, findings);
    add_stand_ins(report, farm);
    plan_report_unknowns(report, findings->plan);
    add_unsettled(report, findings->plan);
}

/* How far rations hold still, and what that may have cost. */
static void add_steadiness(Report *report, const WinterPlan *plan) {
    Arena *arena = report->arena;
    const double turnover = plan_turnover(plan);
    const char *turns_over =
        isfinite(turnover)
            ? arena_print(arena,
                          " From one period to the next %.0f %% of what they eat is other "
                          "feed, on the average.",
                          turnover * 100.0)
            : "";
    if (plan->is_steady)
        report_paragraph(
            report,
            "The least that feed and hauling can cost%s is %s; of the plans within "
            "%.3g %% of it, what caution lines weigh with it, this one changes rations little "
            "from period to period and uses few feeds.%s steady_cost_pct in winter.csv says "
            "how many %% more a "
            "steadier winter may cost (0.1 as usual, at most 5).",
            yard_keeps_any(plan) ? ", with the yard rules as they are kept," : "",
            money_words(arena, plan->least_cost, 0),
            plan->question->farm->winter.steady_cost_share * 100.0, turns_over);
}

static void add_assumptions(Report *report, const PlanFindings *findings) {
    const WinterPlan *plan = findings->plan;
    const Weather *weather = &plan->question->farm->weather;
    report_section(report, "basis", "What this rests on");
    if (plan->question->farm->is_rest_of_winter)
        report_paragraph(
            report, "Only the rest of winter is planned, from what the record, the counts and "
                    "the storage "
                    "loss leave. Cattle are taken as heavy and in flesh as they were to be by "
                    "now; where "
                    "they were weighed, say so in head-changes.csv. Steps up to grain and to "
                    "feed high in "
                    "nitrate begin anew: what they are used to need not be brought in again.");
    add_untested(report, findings);
    add_stand_ins(report, plan->question->farm);
    if (plan->question->farm->winter.needs_way == NEEDS_BY_TABLE)
        report_paragraph(
            report,
            "Energy, protein, calcium and phosphorus follow the published table of "
            "winter diets where it has a line for the cattle, instead of the "
            "equations. It is meant for winter: nothing is added to it for cold, nor for a "
            "gain or a condition that the herd file asks for.");
    add_own_needs(report, findings);
    add_protein_form(report, plan->question->farm->winter.microbial_form);
    report_paragraph(report, "%s",
                     practice_words(report->arena, &plan->question->farm->winter));
    plan_report_unknowns(report, plan);
    if (uses_normals(plan->question->farm))
        report_paragraph(report, "Months not in weather.csv are the published normals of %s.",
                         weather->normals_station);
    add_how_reckoned(report, plan->question->farm);
    add_steadiness(report, plan);
    add_unsettled(report, plan);
}

static void add_sources(Report *report, const PlanFindings *findings) {
    report_section(report, "sources", "Where the numbers come from");
    report_paragraph(report,
                     "The publications behind this page; docs/references.md lists all that "
                     "the program uses, docs/equations/ the equations.");
    for (int i = 0; i < findings->source_count; i++) {
        const SourceKey source = findings->sources[i];
        if (source_how_known(source) == KNOWN_AS_CHOICE)
            continue;
        report_remark(report, SEVERITY_NOTE, "source",
                      arena_print(report->arena, "%s%s", source_citation(source),
                                  source_how_known(source) == KNOWN_FROM_MEMORY
                                      ? " (named from memory)"
                                      : ""),
                      source_key(source));
    }
}

/* Only the rest of a winter goes by what was written down. */
void plan_report_record_gap(Report *report, const Farm *farm) {
    const Day evening = calendar_add(farm->winter.first_day, -1);
    if (!farm->is_rest_of_winter || !record_has_gap(farm, evening))
        return;
    report_section(report, "record", "The record");
    record_gap_remark(report, farm, evening);
}

Report *plan_report_of(Arena *arena, const PlanFindings *findings) {
    Report *report =
        report_new(arena, plan_title(arena, &findings->plan->question->farm->winter, ""));
    plan_report_summary(report, findings);
    plan_report_verdict(report, findings);
    plan_report_dangers(report, findings);
    plan_report_record_gap(report, findings->plan->question->farm);
    plan_report_mends(report, findings);
    plan_report_changes(report, findings);
    plan_report_cost(report, findings);
    plan_report_purchases(report, findings);
    plan_report_stock_chart(report, findings);
    plan_report_winters(report, findings->plan, findings->units, "");
    plan_report_cost_chart(report, findings);
    plan_report_yard(report, findings);
    plan_report_rations(report, findings);
    plan_report_cold_spell(report, findings);
    plan_report_step_ups(report, findings);
    plan_report_stock(report, findings);
    plan_report_cautions(report, findings);
    add_assumptions(report, findings);
    add_sources(report, findings);
    plan_figures(report->figures, findings);
    return report;
}

Report *plan_report(Arena *arena, const WinterPlan *plan, Units units) {
    const PlanFindings findings = plan_findings(arena, plan, units);
    return plan_report_of(arena, &findings);
}
