/* Will what is on hand last? The plan of the rest of winter, with what it buys, in winters
 * drawn as they come. */
#include "base/text.h"
#include "outcome/day_words.h"
#include "outcome/plan_report.h"
#include "outcome/stock_report.h"
#include "planner/hard_winter.h"

static const HardWinters *winters_of(const StockFindings *findings) {
    return findings->rest ? findings->rest->winters : NULL;
}

const char *stock_chance_words(Arena *arena, const StockFindings *findings) {
    const HardWinters *winters = winters_of(findings);
    if (!winters || winters->done == 0)
        return "";
    return arena_print(
        arena,
        " Fed by the plan of the rest of winter, with what that buys, every group has enough "
        "to turnout %s: see Will it last.",
        winters_share_words(arena, winters->share));
}

void stock_report_chance(Report *report, const StockFindings *findings, Units units) {
    Arena *arena = report->arena;
    if (!winters_of(findings))
        return;
    Text buy = text_new(arena);
    plan_purchase_words(&buy, findings->rest, units);
    plan_report_winters(
        report, findings->rest, units,
        arena_print(arena, "The plan is that of `winterstack plan` with --from %s. It buys %s.",
                    day_iso(arena, findings->rest->question->farm->winter.first_day),
                    buy.length > 0 ? buy.bytes : "nothing"));
}
