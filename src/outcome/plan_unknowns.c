/* What a plan could not judge: lines of the safety table nothing tells of, and what is not
 * known of the feeds it uses. */
#include "base/text.h"
#include "outcome/plan_report.h"
#include <math.h>
#include <string.h>

/* "Ergot alkaloids of the whole diet; breeding cattle" without the cattle: one name a danger.
 */
static const char *danger_name(Arena *arena, const SafetyLimit *limit) {
    return arena_copy(arena, limit->label, strcspn(limit->label, ";"));
}

/* Dangers in the table of limits that no column tells of. */
static void add_not_watched(Report *report, const SafetyLimits *limits) {
    Text names = text_new(report->arena);
    const char *last = "";
    for (int i = 0; i < limits->count; i++) {
        const SafetyLimit *limit = &limits->limits[i];
        const char *name = danger_name(report->arena, limit);
        if (limit_is_watched(limit) || text_same(name, last))
            continue;
        text_print(&names, "%s%s", names.length > 0 ? "; " : "", name);
        last = name;
    }
    if (names.length > 0)
        report_paragraph(report,
                         "Not watched by this plan, because no column of the files tells of "
                         "it: %s.",
                         names.bytes);
}

static int count_fed_unknown(const WinterPlan *plan, Nutrient nutrient) {
    int count = 0;
    for (int f = 0; f < plan->question->feed_count; f++) {
        const PlanFeed *feed = &plan->question->feeds[f];
        count +=
            ration_feed_fills(feed) && plan->taken_kg[f] > 0.0 && isnan(feed->eaten[nutrient]);
    }
    return count;
}

static int count_fed(const WinterPlan *plan) {
    int count = 0;
    for (int f = 0; f < plan->question->feed_count; f++)
        count += ration_feed_fills(&plan->question->feeds[f]) && plan->taken_kg[f] > 0.0;
    return count;
}

/* An unknown counts as none toward a ceiling: the reader must know of which. Poisons that none
 * of the feeds was tested for are named together. */
static void add_unknown_toward_most(Report *report, const WinterPlan *plan) {
    const SafetyLimits *limits = &plan->question->farm->limits;
    bool is_told[NUTRIENT_COUNT] = {false};
    Text names = text_new(report->arena);
    Text untested = text_new(report->arena);
    const int fed = count_fed(plan);
    for (int i = 0; i < limits->count; i++) {
        const SafetyLimit *limit = &limits->limits[i];
        if (limit->kind != LIMIT_CONCENTRATION || limit->subject != SUBJECT_NUTRIENT ||
            limit->side != SIDE_MOST || is_told[limit->nutrient])
            continue;
        is_told[limit->nutrient] = true;
        const int count = count_fed_unknown(plan, limit->nutrient);
        if (count == fed && nutrient_is_hazard(limit->nutrient))
            text_print(&untested, "%s%s", untested.length > 0 ? "; " : "",
                       nutrient_kind(limit->nutrient)->label);
        else if (count > 0)
            text_print(&names, "%s%s (of %d %s)", names.length > 0 ? "; " : "",
                       nutrient_kind(limit->nutrient)->label, count,
                       count == 1 ? "feed" : "feeds");
    }
    if (names.length > 0)
        report_paragraph(report,
                         "Not known of feeds in these rations, and counted as none where it "
                         "is held under a most: %s.",
                         names.bytes);
    if (untested.length > 0)
        report_paragraph(report,
                         "No feed in these rations was tested for, so no ration is judged by: "
                         "%s.",
                         untested.bytes);
}

/* Names of the feeds fed whose figure is not a laboratory's. */
static const char *fed_untested(Arena *arena, const WinterPlan *plan, Nutrient nutrient) {
    Text names = text_new(arena);
    for (int f = 0; f < plan->question->feed_count; f++) {
        const PlanFeed *feed = &plan->question->feeds[f];
        if (ration_feed_fills(feed) && plan->taken_kg[f] > 0.0 && feed->eaten[nutrient] > 0.0 &&
            reading_stands_in(feed->feed->analysis.of[nutrient]))
            text_print(&names, "%s%s", names.length > 0 ? "; " : "", feed->name);
    }
    return names.bytes;
}

/* Rations are held to these two by figures that stand for a test. */
static void add_not_tested(Report *report, const WinterPlan *plan) {
    const char *sulfur = fed_untested(report->arena, plan, NUTRIENT_SULFUR);
    const char *nitrate = fed_untested(report->arena, plan, NUTRIENT_NITRATE);
    if (sulfur[0] != '\0')
        report_paragraph(
            report,
            "Sulfur is the book's and not a test's, and rations are held to it, of: %s.",
            sulfur);
    if (nitrate[0] != '\0')
        report_paragraph(
            report,
            "Nitrate is reckoned by the kind and not tested, and rations are held to it, "
            "of: %s.",
            nitrate);
}

void plan_report_unknowns(Report *report, const WinterPlan *plan) {
    add_not_watched(report, &plan->question->farm->limits);
    add_unknown_toward_most(report, plan);
    add_not_tested(report, plan);
}
