/* What a group's cost hangs on: each need and limit that binds, at the time it is dearest, with
 * what a little more of it would cost or save. */
#include "base/text.h"
#include "outcome/limit_cautions.h"
#include "outcome/plan_report.h"
#include <math.h>
#include <string.h>

#define WORTH_SAYING 0.01 /* dollars a head and day */
#define A_TENTH 0.1       /* of a share or concentration: the step that is said of those */

/* Whether its caution line says more than the limit itself, and is money: a line that the
 * ration is beyond costs what it weighs. */
static bool is_caution(const LimitOutcome *of) {
    return fabs(of->caution_price) > fabs(of->shadow_price) && !is_beyond_warn(of);
}

/* What one unit of it is worth: of its caution line where the ration is kept behind that. */
static double unit_price(const LimitOutcome *of) {
    return is_caution(of) ? of->caution_price : of->shadow_price;
}

/* "Nitrate of the whole diet, cows nursing": for whom it holds tells two lines apart. */
static const char *name_of(Arena *arena, const RationLimit *limit) {
    const size_t length = strcspn(limit->label, ";");
    if (limit->label[length] == '\0')
        return limit->label;
    return arena_print(arena, "%.*s,%s", (int)length, limit->label, limit->label + length + 1);
}

/* This limit where one unit of it is worth most. */
static const LimitOutcome *dearest_of(const WinterPlan *plan, int first, int count,
                                      const char *key) {
    const LimitOutcome *dearest = NULL;
    for (int b = first; b < first + count; b++) {
        const LimitOutcome *of = block_limit(&plan->blocks[b], key);
        if (of && !of->limit->is_inner &&
            (!dearest || fabs(unit_price(of)) > fabs(unit_price(dearest))))
            dearest = of;
    }
    return dearest;
}

static bool was_met_before(const WinterPlan *plan, int first, int block, const char *key) {
    for (int b = first; b < block; b++) {
        if (block_limit(&plan->blocks[b], key))
            return true;
    }
    return false;
}

/* A need costs what more of it would; a limit on how much, what more room would save. Returns
 * whether anything was said. A price of a side that is not there is the solver's rounding. */
static bool say_ratio(Text *text, const LimitOutcome *of) {
    const RationLimit *limit = of->limit;
    const bool is_least = unit_price(of) > 0.0;
    const double bound = is_caution(of) ? limit->warn : is_least ? limit->least : limit->most;
    const double dollars = isfinite(bound) ? fabs(unit_price(of) * A_TENTH * bound) : 0.0;
    if (dollars < WORTH_SAYING)
        return false;
    text_print(text, "%s%s, %s %.*f %s%s: a tenth %s would %s $%.2f",
               text->length > 0 ? "; " : "", name_of(text->arena, limit),
               is_least ? "at least" : "at most", limit->decimals, bound * limit->shown_times,
               limit->unit, is_caution(of) ? " (its caution line)" : "",
               is_least ? "more" : "more room", is_least ? "cost" : "save", dollars);
    return true;
}

static bool say_amount(Text *text, const PlanFindings *findings, const LimitOutcome *of) {
    double dollars = fabs(unit_price(of));
    const char *unit = arena_print(text->arena, "one %s", of->limit->unit);
    if (text_same(of->limit->unit, "kg")) {
        dollars /= measure_shown(findings->units, MEASURE_FEED, 1.0);
        unit = arena_print(text->arena, "one %s", measure_unit(findings->units, MEASURE_FEED));
    } else if (text_same(of->limit->unit, "g")) {
        const bool is_metric = findings->units != UNITS_IMPERIAL;
        dollars *= is_metric ? 100.0 : GRAMS_PER_KG * KG_PER_POUND / 16.0;
        unit = is_metric ? "100 g" : "one oz";
    }
    if (!(dollars >= WORTH_SAYING)) /* of a bound that does not bind there is none */
        return false;
    text_print(text, "%s%s%s: %s%s more would %s $%.2f", text->length > 0 ? "; " : "",
               name_of(text->arena, of->limit), is_caution(of) ? " (its caution line)" : "",
               unit_price(of) > 0.0 ? "" : "room for ", unit,
               unit_price(of) > 0.0 ? "cost" : "save", dollars);
    return true;
}

const char *binding_words(Arena *arena, const PlanFindings *findings, int first, int count) {
    const WinterPlan *plan = findings->plan;
    Text text = text_new(arena);
    bool is_safety = false;
    if (plan->verdict != PLAN_BALANCED)
        return "";
    for (int b = first; b < first + count; b++) {
        for (int i = 0; i < plan->blocks[b].limit_count; i++) {
            const char *key = plan->blocks[b].limits[i].limit->key;
            const LimitOutcome *of = was_met_before(plan, first, b, key)
                                         ? NULL
                                         : dearest_of(plan, first, count, key);
            if (!of)
                continue;
            const bool is_said =
                of->limit->base ? say_ratio(&text, of) : say_amount(&text, findings, of);
            is_safety = is_safety || (is_said && of->limit->safety);
        }
    }
    if (text.length == 0)
        return "";
    return arena_print(
        arena, "What sets the cost, a head and day, when it weighs most: %s.%s", text.bytes,
        is_safety ? " A limit that is there for safety is no place to save." : "");
}
