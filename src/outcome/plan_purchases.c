#include "outcome/plan_purchases.h"
#include "base/text.h"
#include "outcome/day_words.h"
#include "outcome/plan_report.h"
#include "outcome/plan_yard.h"
#include <math.h>

#define COUNT(array) ((int)(sizeof(array) / sizeof((array)[0])))

static Cell price_cell(Units units, double per_kg) {
    return number_cell(measure_shown(units, MEASURE_PRICE, per_kg), 0);
}

static Cell loads_cell(const PlanFindings *findings, int feed) {
    const double whole = yard_loads(findings->plan, feed);
    if (isfinite(whole))
        return number_cell(whole, 0);
    const double load_kg = findings->plan->question->feeds[feed].load_kg;
    return load_kg > 0.0 ? number_cell(findings->plan->bought_kg[feed] / load_kg, 1)
                         : empty_cell();
}

bool plan_buys_anything(const WinterPlan *plan) {
    for (int f = plan->question->own_count; f < plan->question->feed_count; f++) {
        if (plan_buys(plan, f))
            return true;
    }
    return false;
}

/* What tonnes would show as 0.000 is in grams or ounces, with the unit behind the name. */
static bool is_handful(const WinterPlan *plan, int feed) {
    return weight_measure(plan->bought_kg[feed]) == MEASURE_SMALL_FEED;
}

static const char *bought_name(const PlanFindings *findings, Arena *arena, int feed) {
    return load_name(arena, findings->units, &findings->plan->question->feeds[feed],
                     is_handful(findings->plan, feed) ? MEASURE_SMALL_FEED : MEASURE_TONNAGE);
}

static Cell bought_cell(const PlanFindings *findings, int feed) {
    const double kg = findings->plan->bought_kg[feed];
    return is_handful(findings->plan, feed)
               ? measure_cell(findings->units, MEASURE_SMALL_FEED, kg)
               : tonnage_cell(findings->units, kg);
}

double bought_for_after_hauling_kg(const WinterPlan *plan, int feed) {
    const PlanQuestion *question = plan->question;
    const PlanFeed *of = &question->feeds[feed];
    double kg = 0.0;
    for (int b = 0; of->delivered_until && b < question->block_count; b++) {
        const PlanBlock *block = &question->blocks[b];
        const int days = calendar_days_between(*of->delivered_until, block->to);
        kg += put_out_kg(plan, b, feed) * block->head * fmin(fmax(days, 0.0), block->days);
    }
    return kg / (1.0 - of->shrink_share);
}

const char *hauling_words(Arena *arena, const PlanFindings *findings) {
    const WinterPlan *plan = findings->plan;
    Text text = text_new(arena);
    Text past = text_new(arena);
    for (int f = plan->question->own_count; f < plan->question->feed_count; f++) {
        const PlanFeed *feed = &plan->question->feeds[f];
        const double after_kg = bought_for_after_hauling_kg(plan, f);
        if (plan_is_past_hauling(plan->question, f))
            text_print(&past, "%s%s, until %s", past.length > 0 ? "; " : "", feed->name,
                       day_words(arena, *feed->delivered_until));
        else if (plan_buys(plan, f) && after_kg > 0.0)
            text_print(
                &text,
                "%sHave all %s of %s here by %s, the last day it can be hauled in: %s of "
                "it is fed after that day.",
                text.length > 0 ? " " : "",
                weight_words(arena, findings->units, plan->bought_kg[f]), feed->name,
                day_words(arena, *feed->delivered_until),
                weight_words(arena, findings->units, after_kg));
    }
    if (past.length > 0)
        text_print(&text, "%sCan be hauled in no more, so that none is bought: %s.",
                   text.length > 0 ? " " : "", past.bytes);
    return text.bytes;
}

void plan_purchases_table(Report *report, const PlanFindings *findings) {
    Arena *arena = report->arena;
    const char *price =
        arena_print(arena, "$ %s", measure_unit(findings->units, MEASURE_PRICE));
    const char *tons = measure_unit(findings->units, MEASURE_TONNAGE);
    const ReportColumn columns[] = {
        {"feed", "Feed", "", 0},  {"amount", "Buy", tons, 1}, {"price", "At", price, 1},
        {"cost", "Cost", "$", 1}, {"loads", "Loads", "", 1},  {"by", "In the yard by", "", 0},
    };
    ReportTable *table = report_table(report, "purchases", "", columns, COUNT(columns));
    const WinterPlan *plan = findings->plan;
    for (int f = plan->question->own_count; f < plan->question->feed_count; f++) {
        Day day = {0};
        if (!plan_buys(plan, f))
            continue;
        const bool is_fed = bought_by(plan, f, &day);
        report_row(
            table,
            (Cell[]){text_cell(bought_name(findings, arena, f)), bought_cell(findings, f),
                     price_cell(findings->units, plan->question->feeds[f].price_per_kg),
                     number_cell(plan->bought_kg[f] * plan->question->feeds[f].price_per_kg, 0),
                     loads_cell(findings, f),
                     is_fed ? text_cell(day_words(arena, day)) : empty_cell()});
    }
    report_total_row(table,
                     (Cell[]){text_cell("Total"), empty_cell(), empty_cell(),
                              number_cell(plan->cost.bought, 0), empty_cell(), empty_cell()});
}
