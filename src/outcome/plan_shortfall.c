/* What a winter lacks that cannot be balanced, in the words of the verdict: the worst first,
 * and why there is not more of it. */
#include "base/text.h"
#include "outcome/day_words.h"
#include "outcome/plan_report.h"
#include <math.h>

/* How much of a need is met, 0..1; 1 where it is met or nothing is asked. */
static double share_met(const LimitOutcome *of) {
    if (of->short_by <= 0.0 || of->limit->is_inner)
        return 1.0;
    if (isnan(of->supplied))
        return 0.0;
    return isfinite(of->least) && of->supplied < of->least ? of->supplied / of->least
                                                           : of->most / of->supplied;
}

static bool is_passed(const LimitOutcome *of) {
    return !isnan(of->supplied) && isfinite(of->most) && of->supplied > of->most;
}

#define WORTH_NAMING 0.995 /* of a need, below it; own choice */

/* The lack of a group that is said first: energy before protein before the rest, then the
 * worst. */
typedef struct {
    const LimitOutcome *of;
    double met;
    int block, rank;
} Lack;

static Lack worst_lack(const WinterPlan *plan, int group, double met_below) {
    Lack worst = {NULL, 1.0, 0, 3};
    int first;
    const int count = group_blocks(plan->question, group, &first);
    for (int b = first; b < first + count; b++) {
        for (int i = 0; i < plan->blocks[b].limit_count; i++) {
            const LimitOutcome *of = &plan->blocks[b].limits[i];
            const double met = share_met(of);
            if (met >= met_below)
                continue;
            const int rank = ration_limit_is_energy(of->limit)                    ? 0
                             : text_same(of->limit->key, "metabolizable_protein") ? 1
                                                                                  : 2;
            if (rank < worst.rank || (rank == worst.rank && met < worst.met))
                worst = (Lack){of, met, b, rank};
        }
    }
    return worst;
}

/* Rounded down: who lacks anything does not get 100 %. */
static const char *met_words(Arena *arena, double met) {
    return met < WORTH_NAMING ? arena_print(arena, "%.0f %%", 100.0 * met)
                              : arena_print(arena, "%.1f %%", floor(1000.0 * met) / 10.0);
}

static void add_lacks(Text *text, const WinterPlan *plan, double met_below) {
    const PlanQuestion *question = plan->question;
    for (int g = 0; g < question->farm->herd.count; g++) {
        const Lack lack = worst_lack(plan, g, met_below);
        if (!lack.of)
            continue;
        const char *what = lack.rank == 0 ? "energy" : lack.of->limit->label;
        const char *from = day_short(text->arena, question->blocks[lack.block].from);
        text_print(text, "%s%s ", text->length > 0 ? "; " : "", question->farm->herd.names[g]);
        if (is_passed(lack.of))
            text_print(text, "pass the most there should be of %s at the worst from %s", what,
                       from);
        else
            text_print(text, "get %s of what they need of %s at the worst, from %s",
                       met_words(text->arena, lack.met), what, from);
    }
}

/* Crumbs beside a real lack are not named; where they are all there is, they are what makes
 * the winter short. */
static void lack_words(Text *text, const WinterPlan *plan) {
    add_lacks(text, plan, WORTH_NAMING);
    if (text->length == 0 && plan->carry_over_short_kg <= 0.0)
        add_lacks(text, plan, 1.0);
}

/* Nitrate, sulfur and salt come with the water and with any feed, toxins with any feed, and
 * another well or a test may mend it. */
static bool may_hold_down(const SafetyLimit *safety) {
    if (safety->subject == SUBJECT_SULFUR_LINE || safety->subject == SUBJECT_SALT)
        return true;
    return safety->kind == LIMIT_CONCENTRATION && safety->subject == SUBJECT_NUTRIENT &&
           safety->side == SIDE_MOST &&
           (safety->nutrient == NUTRIENT_NITRATE || safety->nutrient == NUTRIENT_SULFUR ||
            nutrient_is_hazard(safety->nutrient));
}

static bool holds_down(const PlanQuestion *question, int block, const LimitOutcome *of) {
    const RationLimit *limit = of->limit;
    if (!isnan(of->supplied))
        return of->supplied >= of->most * (1.0 - 1e-4);
    /* Nothing is eaten: does it forbid every feed there is for them? */
    bool has_any = false;
    for (int f = 0; f < question->feed_count; f++) {
        if (plan_permission(question, block, f) != MAY_BE_FED ||
            !ration_feed_fills(&question->feeds[f]))
            continue;
        has_any = true;
        if (limit->per_kg[f] <= (limit->most - limit->added) * limit->base[f])
            return false;
    }
    return has_any;
}

static bool lacks_energy(const BlockOutcome *block) {
    for (int i = 0; i < block->limit_count; i++) {
        if (ration_limit_is_energy(block->limits[i].limit) && block->limits[i].short_by > 0.0)
            return true;
    }
    return false;
}

/* The first limit of this kind that keeps food from cattle that are short of energy. */
static const RationLimit *found_holding(const WinterPlan *plan, const SafetyLimit *safety) {
    for (int b = 0; b < plan->question->block_count; b++) {
        const BlockOutcome *block = &plan->blocks[b];
        for (int i = 0; lacks_energy(block) && i < block->limit_count; i++) {
            if (block->limits[i].limit->safety == safety &&
                holds_down(plan->question, b, &block->limits[i]))
                return block->limits[i].limit;
        }
    }
    return NULL;
}

/* Returns whether the water alone brings more than half of one of them. */
static bool held_down_words(Text *text, const WinterPlan *plan) {
    const SafetyLimits *limits = &plan->question->farm->limits;
    bool is_water = false;
    for (int i = 0; i < limits->count; i++) {
        const SafetyLimit *safety = &limits->limits[i];
        const RationLimit *limit = may_hold_down(safety) ? found_holding(plan, safety) : NULL;
        if (!limit)
            continue;
        text_print(text, "%s%s, at most %.*f %s", text->length > 0 ? "; " : "", limit->label,
                   limit->decimals, limit->most * limit->shown_times, limit->unit);
        if (limit->added > 0.005)
            text_print(text, " (%.*f of it from the water alone)", limit->decimals,
                       limit->added);
        is_water = is_water || limit->added > 0.5 * limit->most;
    }
    return is_water;
}

/* Cattle that eat all they can are not helped by more of it. */
#define FULL_SHARE 0.995 /* of the most dry matter or NDF they can hold; own choice */

static bool is_full(const BlockOutcome *block) {
    const LimitOutcome *fibre = block_limit(block, "ndf");
    return block->dry_matter_kg >= FULL_SHARE * block->intake_most ||
           (fibre && fibre->supplied >= FULL_SHARE * fibre->most);
}

/* The energy that is missing where cattle could eat more, as hay of a middling 1.2 Mcal NEm a
 * kg and 88 % dry matter. */
static double missing_hay_kg(const WinterPlan *plan) {
    double mcal = 0.0;
    for (int b = 0; b < plan->question->block_count; b++) {
        const PlanBlock *block = &plan->question->blocks[b];
        if (is_full(&plan->blocks[b]))
            continue;
        for (int i = 0; i < plan->blocks[b].limit_count; i++) {
            const LimitOutcome *of = &plan->blocks[b].limits[i];
            if (ration_limit_is_energy(of->limit))
                mcal += of->short_by * block->head * block->days;
        }
    }
    return mcal / 1.2 / 0.88;
}

static const char *carry_over_words(Arena *arena, const PlanFindings *findings) {
    const double kg = findings->plan->carry_over_short_kg;
    if (kg <= 0.0)
        return "";
    return arena_print(arena, " The carry-over wanted is short by %s of dry matter.",
                       weight_words(arena, findings->units, kg));
}

#define WORTH_SAYING_KG                                                                        \
    50.0 /* a tenth of a bale: it is not energy then that lacks; own choice */

static const char *other_water_words(const PlanFindings *findings) {
    return findings->is_brief
               ? " Other water would help first."
               : " Other water would help first; it is not among what is tried below.";
}

/* Hay is no cure where it is the water that keeps feed from them. */
static const char *hay_words(Arena *arena, const PlanFindings *findings) {
    const double kg = missing_hay_kg(findings->plan);
    if (kg < WORTH_SAYING_KG)
        return "";
    return arena_print(
        arena, " The energy missing is that of about %s of middling hay, all of it eaten.",
        weight_words(arena, findings->units, kg));
}

/* Who lacks energy with all they can eat before them. */
static const char *full_words(Arena *arena, const WinterPlan *plan) {
    const Herd *herd = &plan->question->farm->herd;
    bool *is_meant = ARENA_ARRAY(arena, bool, herd->count);
    bool has_any = false;
    bool has_gain = false;
    for (int b = 0; b < plan->question->block_count; b++) {
        const PlanBlock *block = &plan->question->blocks[b];
        if (!lacks_energy(&plan->blocks[b]) || !is_full(&plan->blocks[b]))
            continue;
        has_any = is_meant[block->group] = true;
        has_gain = has_gain || block->need.retained.mcal_per_day > 0.0;
    }
    if (!has_any)
        return "";
    return arena_print(
        arena,
        " More of the same does not help %s, who eat all they can and still lack "
        "energy: only richer feed does, within the limits%s.",
        group_words(arena, plan->question, is_meant),
        has_gain ? ", or asking less gain of them" : "");
}

static bool lacks_anything(const BlockOutcome *block) {
    for (int i = 0; i < block->limit_count; i++) {
        if (block->limits[i].short_by > 0.0)
            return true;
    }
    return false;
}

/* Who lack something and eat all that a figure of needs.csv lets them: that figure may be what
 * makes the winter short. */
static const char *own_most_words(Arena *arena, const PlanFindings *findings) {
    const WinterPlan *plan = findings->plan;
    const Herd *herd = &plan->question->farm->herd;
    bool *is_meant = ARENA_ARRAY(arena, bool, herd->count);
    bool any = false;
    double least = NO_LIMIT;
    for (int b = 0; b < plan->question->block_count; b++) {
        const PlanBlock *block = &plan->question->blocks[b];
        const BlockOutcome *of = &plan->blocks[b];
        if (!(block->need.own_kinds & NEED_BIT(NEED_INTAKE_MOST)) || !lacks_anything(of) ||
            of->dry_matter_kg < FULL_SHARE * of->intake_most)
            continue;
        any = is_meant[block->group] = true;
        least = fmin(least, of->intake_most);
    }
    if (!any)
        return "";
    return arena_print(arena,
                       " needs.csv holds %s to the dry_matter_most it gives, %s at the least, "
                       "and they eat all "
                       "of it: that figure may be what makes the winter short.",
                       group_words(arena, plan->question, is_meant),
                       measure_words(arena, findings->units, MEASURE_FEED, least));
}

const char *short_headline(Arena *arena, const PlanFindings *findings) {
    const WinterPlan *plan = findings->plan;
    const char *last = day_words(arena, plan->question->farm->winter.last_day);
    Text lack = text_new(arena);
    lack_words(&lack, plan);
    if (lack.length == 0 && plan->carry_over_short_kg > 0.0)
        return arena_print(arena,
                           "Every group is balanced to %s, but not all that was to be "
                           "left over is left.",
                           last);
    return arena_print(arena, "The feed on hand and for sale does not balance the herd to %s.",
                       last);
}

const char *shortfall_words(Arena *arena, const PlanFindings *findings) {
    const WinterPlan *plan = findings->plan;
    const char *carry = carry_over_words(arena, findings);
    Text lack = text_new(arena);
    lack_words(&lack, plan);
    if (lack.length == 0 && carry[0] != '\0')
        return arena_print(arena, "%s%s", short_headline(arena, findings), carry);
    Text held = text_new(arena);
    const bool is_water = held_down_words(&held, plan);
    return arena_print(arena, "%s%s%s%s%s%s%s%s%s%s%s", short_headline(arena, findings),
                       held.length > 0 ? " What may be fed is held down by: " : "", held.bytes,
                       held.length > 0 ? "." : "",
                       is_water ? other_water_words(findings) : hay_words(arena, findings),
                       lack.length > 0 ? " The plan spreads the lack over the winter: " : "",
                       lack.bytes, lack.length > 0 ? "." : "", full_words(arena, plan),
                       own_most_words(arena, findings), carry);
}
