#include "base/text.h"
#include "outcome/day_words.h"
#include "outcome/plan_purchases.h"
#include "outcome/plan_report.h"
#include "outcome/plan_yard.h"
#include <math.h>

#define COUNT(array) ((int)(sizeof(array) / sizeof((array)[0])))

static ReportColumn column(const char *key, const char *label, const char *unit,
                           int is_number) {
    return (ReportColumn){key, label, unit, is_number};
}

static const char *price_unit(const PlanFindings *findings, Arena *arena) {
    return arena_print(arena, "$ %s", measure_unit(findings->units, MEASURE_PRICE));
}

static Cell price_cell(const PlanFindings *findings, double per_kg) {
    return number_cell(measure_shown(findings->units, MEASURE_PRICE, per_kg), 0);
}

static const ReportColumn *kept(Arena *arena, const ReportColumn *columns, int count) {
    ReportColumn *copy = ARENA_ARRAY(arena, ReportColumn, count);
    for (int i = 0; i < count; i++)
        copy[i] = columns[i];
    return copy;
}

/* Where rules of the yard are kept, no price says anything of the plan that keeps them: which
 * plan the tables of prices are of, and which the column of feeds. */
static const char *of_prices(const PlanFindings *findings, const char *without_rules,
                             const char *plain) {
    return yard_keeps_any(findings->plan) ? without_rules : plain;
}

/* A feed that would have to be given away is no near miss. */
#define NEAR_MISS_SHARE 0.5

static bool is_near_miss(const PlanFindings *findings, int feed) {
    const double enters = findings->prices[feed].enters_below;
    return isfinite(enters) &&
           enters >= NEAR_MISS_SHARE * findings->plan->question->feeds[feed].price_per_kg;
}

/* Shown as what is asked it would be no lower price at all. */
static Cell entering_cell(const PlanFindings *findings, int feed) {
    const WinterPlan *plan = findings->plan;
    const Cell asked = price_cell(findings, plan->question->feeds[feed].price_per_kg);
    const Cell enters = price_cell(findings, findings->prices[feed].enters_below);
    return round(enters.number) < round(asked.number) ? enters : text_cell("about that price");
}

static void add_near_misses(Report *report, const PlanFindings *findings) {
    Arena *arena = report->arena;
    const WinterPlan *plan = findings->plan;
    bool has_any = false;
    for (int f = plan->question->own_count; f < plan->question->feed_count; f++)
        has_any |= is_near_miss(findings, f);
    if (!has_any)
        return;
    const ReportColumn columns[] = {
        column("feed", of_prices(findings, "Not bought without the rules", "Not bought"), "",
               0),
        column("price_now", "Asked", price_unit(findings, arena), 1),
        column("price_that_enters", "Comes in below", price_unit(findings, arena), 1),
    };
    ReportTable *table = report_table(report, "near_misses", "What would have to be cheaper",
                                      kept(arena, columns, COUNT(columns)), COUNT(columns));
    for (int f = plan->question->own_count; f < plan->question->feed_count; f++) {
        if (is_near_miss(findings, f))
            report_row(table,
                       (Cell[]){text_cell(plan->question->feeds[f].name),
                                price_cell(findings, plan->question->feeds[f].price_per_kg),
                                entering_cell(findings, f)});
    }
}

static bool has_dearer(const PriceRange *range) { return !isnan(range->less_above); }

static Cell dearer_cell(const PlanFindings *findings, int feed, double per_kg) {
    if (per_kg >= NO_LIMIT)
        return text_cell("at any");
    const Cell asked = price_cell(findings, findings->plan->question->feeds[feed].price_per_kg);
    const Cell above = price_cell(findings, per_kg);
    return round(above.number) > round(asked.number) ? above : text_cell("about that");
}

static void add_dearer(Report *report, const PlanFindings *findings) {
    Arena *arena = report->arena;
    const WinterPlan *plan = findings->plan;
    ReportTable *table = NULL;
    const ReportColumn columns[] = {
        column("feed", of_prices(findings, "Bought without the rules", "Bought"), "", 0),
        column("price_now", "Asked", price_unit(findings, arena), 1),
        column("less_above", "Less of it above", price_unit(findings, arena), 1),
        column("none_above", "None above", price_unit(findings, arena), 1),
    };
    for (int f = plan->question->own_count; f < plan->question->feed_count; f++) {
        const PriceRange *range = &findings->prices[f];
        if (!has_dearer(range))
            continue;
        if (!table)
            table = report_table(report, "dearer", "What would be bought if it were dearer",
                                 kept(arena, columns, COUNT(columns)), COUNT(columns));
        report_row(table, (Cell[]){text_cell(plan->question->feeds[f].name),
                                   price_cell(findings, plan->question->feeds[f].price_per_kg),
                                   dearer_cell(findings, f, range->less_above),
                                   dearer_cell(findings, f, range->leaves_above)});
    }
}

/* Which statement a price is. */
static void add_price_note(Report *report, const PlanFindings *findings) {
    bool has_any = false;
    bool is_needed = false;
    for (int f = 0; f < findings->plan->question->feed_count; f++) {
        has_any = has_any || has_dearer(&findings->prices[f]) || is_near_miss(findings, f);
        is_needed = is_needed || findings->prices[f].leaves_above >= NO_LIMIT;
    }
    if (has_any)
        report_paragraph(report,
                         "%s"
                         "Each price is for that feed alone, all else as it is, caution lines "
                         "weighed, with what "
                         "cattle can eat and how they gain held as in %s rations, before "
                         "they were evened out. Far from the prices asked, plan again.%s",
                         of_prices(findings,
                                   "These prices are of the plan without the yard rules, which "
                                   "may buy other feeds than those above: no price moves what "
                                   "a rule holds. ",
                                   ""),
                         of_prices(findings, "its", "these"),
                         is_needed ? " \"At any\": some of it is needed whatever it costs."
                                   : "");
}

void plan_report_purchases(Report *report, const PlanFindings *findings) {
    report_section(report, "purchases", "What to buy");
    if (plan_buys_anything(findings->plan))
        plan_purchases_table(report, findings);
    else if (findings->plan->verdict == PLAN_BALANCED)
        report_paragraph(report, "Nothing: own feed does it at least cost.");
    const char *hauling = hauling_words(report->arena, findings);
    if (hauling[0] != '\0')
        report_paragraph(report, "%s", hauling);
    if (findings->plan->verdict != PLAN_BALANCED && findings->is_brief)
        report_paragraph(report, "More than this is needed, and for-sale.csv offers nothing "
                                 "more that helps: the whole plan says what would mend it.");
    else if (findings->plan->verdict != PLAN_BALANCED)
        report_paragraph(report,
                         "More than this is needed, and for-sale.csv offers nothing more "
                         "that helps: see What would mend it, find it and add it there.");
    add_near_misses(report, findings);
    add_dearer(report, findings);
    add_price_note(report, findings);
}

static Cell end_cell(Arena *arena, const PlanFindings *findings, int feed) {
    const StackRunout *of = &findings->runouts[feed];
    if (!of->is_used)
        return text_cell("not fed");
    if (of->runs_out)
        return text_cell(day_words(arena, of->last_fed));
    return text_cell(of->left_kg > 1e-3 * findings->plan->question->feeds[feed].available_kg
                         ? "lasts"
                         : "all used");
}

/* What is left is worth no less than what is added; where it shows, who sells must know. */
static const char *dearer_to_sell_words(Arena *arena, const PlanFindings *findings) {
    const PlanQuestion *question = findings->plan->question;
    Text names = text_new(arena);
    for (int f = 0; f < question->own_count; f++) {
        const double value = question->feeds[f].value_per_kg;
        const double more = price_cell(findings, value + findings->worth_more[f]).number;
        const double less = price_cell(findings, value + findings->worth_less[f]).number;
        if (round(less) > round(more))
            text_print(&names, "%s%s, $%s %s", names.length > 0 ? "; " : "",
                       question->feeds[f].name, number_words(arena, less, 0),
                       measure_unit(findings->units, MEASURE_PRICE));
    }
    return names.length > 0
               ? arena_print(arena,
                             " One fewer would cost more than that, and to sell it for less "
                             "would lose money, of: %s.",
                             names.bytes)
               : "";
}

#define OF_WORTH 2 /* columns, the last */

static void add_stacks(Report *report, const PlanFindings *findings) {
    Arena *arena = report->arena;
    const char *tons = measure_unit(findings->units, MEASURE_TONNAGE);
    const ReportColumn columns[] = {
        column("stack", "Stack", "", 0),
        column("on_hand", "On hand", tons, 1),
        column("fed", "Put out", tons, 1),
        column("left", "Left", tons, 1),
        column("runs_out", "Ends", "", 0),
        column("value", "Valued at", price_unit(findings, arena), 1),
        column("worth", "Worth here", price_unit(findings, arena), 1),
    };
    const int count = COUNT(columns) - (findings->is_brief ? OF_WORTH : 0);
    ReportTable *table =
        report_table(report, "stacks", "As fed, storage loss to mid-winter taken off",
                     kept(arena, columns, count), count);
    const WinterPlan *plan = findings->plan;
    for (int f = 0; f < plan->question->own_count; f++) {
        const PlanFeed *feed = &plan->question->feeds[f];
        report_row(
            table,
            (Cell[]){
                text_cell(feed->name),
                measure_cell(findings->units, MEASURE_TONNAGE, feed->available_kg),
                measure_cell(findings->units, MEASURE_TONNAGE, plan->taken_kg[f]),
                measure_cell(findings->units, MEASURE_TONNAGE, findings->runouts[f].left_kg),
                end_cell(arena, findings, f), price_cell(findings, feed->value_per_kg),
                price_cell(findings, feed->value_per_kg + findings->worth_more[f])});
    }
    if (findings->is_brief)
        return;
    if (plan->verdict != PLAN_BALANCED)
        report_paragraph(report,
                         "The winter is short: more of any of these helps first of all to "
                         "keep cattle fed, so no worth is printed.");
    else
        report_paragraph(
            report,
            "\"Worth here\" is what this plan would save with one more of it, on top of its "
            "value: below that price it pays to own more.%s It is found by solving again, "
            "with what cattle can eat and how they gain held as in these rations.",
            dearer_to_sell_words(arena, findings));
}

/* What ends the days of own feed: a need, or what is kept for spring. */
static const char *stopper_words(Arena *arena, const PlanFindings *findings) {
    const DaysOnHand *days = &findings->days;
    const Farm *farm = findings->plan->question->farm;
    const char *when = days->balanced_days > 0 ? "from the next day" : "then";
    if (days->stopped_by.limit)
        return arena_print(arena, " What is lacking %s: %s for %s.", when,
                           days->stopped_by.limit->label,
                           farm->herd.names[days->stopped_by.group]);
    return farm->winter.carry_over_kg > 0.0
               ? arena_print(
                     arena,
                     " What is lacking %s: %s of dry matter of own forage to be left over.",
                     when, weight_words(arena, findings->units, farm->winter.carry_over_kg))
               : "";
}

static void add_days(Report *report, const PlanFindings *findings) {
    Arena *arena = report->arena;
    const DaysOnHand *days = &findings->days;
    const Farm *farm = findings->plan->question->farm;
    report_paragraph(
        report,
        "Days of feed on hand, gross: %.0f by weight alone. Own feed that can be eaten "
        "is %s of dry matter, and the herd fed enough eats %s of it a day.%s",
        days->gross_days,
        measure_words(arena, findings->units, MEASURE_TONNAGE, days->dry_matter_kg),
        weight_words(arena, findings->units, days->eaten_per_day_kg),
        days->barred_kg > 0.0
            ? arena_print(arena,
                          " %s as fed is not counted, because as things stand no "
                          "group may have it.",
                          weight_words(arena, findings->units, days->barred_kg))
            : "");
    if (days->lasts_all_winter) {
        report_paragraph(
            report,
            "Days of feed on hand, balanced: all %d of the winter. Own feed with only "
            "minerals and supplements bought can balance every group to %s.",
            days->balanced_days, day_words(arena, farm->winter.last_day));
        return;
    }
    const char *stopper = stopper_words(arena, findings);
    if (days->balanced_days == 0) {
        report_paragraph(
            report,
            "Days of feed on hand, balanced: none. Own feed with only minerals and "
            "supplements bought does not balance every group even on the first day.%s",
            stopper);
        return;
    }
    report_paragraph(
        report,
        "Days of feed on hand, balanced: %d, to %s, with only minerals and supplements "
        "bought.%s",
        days->balanced_days, day_words(arena, days->balanced_until), stopper);
}

void plan_report_stock(Report *report, const PlanFindings *findings) {
    report_section(report, "stock", "Feed on hand");
    if (findings->plan->question->own_count > 0)
        add_stacks(report, findings);
    if (!findings->is_brief)
        add_days(report, findings);
}
