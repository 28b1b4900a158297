/* One fact a limit, however many groups and periods it touches, and one advice a topic: a page
 * of repeated warnings is a page nobody reads. */
#include "outcome/plan_cautions.h"
#include "base/text.h"
#include "outcome/caution_list.h"
#include "outcome/day_words.h"
#include "outcome/hazard_cautions.h"
#include "outcome/limit_cautions.h"
#include "outcome/new_feed_cautions.h"
#include "outcome/picked_cautions.h"
#include "outcome/plan_guides.h"
#include "outcome/plan_yard.h"
#include "outcome/sampling_words.h"
#include "outcome/straw_cautions.h"
#include "planner/condition_path.h"
#include "planner/ration_row.h"
#include <math.h>

/* The need is a floor: cheap feed can carry a gain well past it, which a replacement heifer
 * does not want. */
#define MORE_THAN_ASKED 1.3 /* times the gain wanted; own choice */

static void add_fast_gain(Cautions *cautions) {
    const PlanQuestion *question = cautions->plan->question;
    for (int g = 0; g < question->farm->herd.count; g++) {
        int first;
        const int count = group_blocks(question, g, &first);
        for (int b = first; b < first + count; b++) {
            const double wanted = question->blocks[b].need.gain.kg_per_day;
            const double found = cautions->plan->blocks[b].gain_kg;
            if (wanted <= 0.0 || found < MORE_THAN_ASKED * wanted)
                continue;
            caution_add(
                cautions, CAUTION_GAIN, SEVERITY_CAUTION,
                arena_print(
                    cautions->arena,
                    "From %s the ration of %s carries a gain of %s a day, where %s was asked",
                    day_short(cautions->arena, question->blocks[b].from),
                    question->farm->herd.names[g],
                    measure_words(cautions->arena, cautions->units, MEASURE_FEED, found),
                    measure_words(cautions->arena, cautions->units, MEASURE_FEED, wanted)),
                SOURCE_NONE);
            break;
        }
    }
}

#define SCORE_MORE 0.5 /* of 9, above what is asked; own choice */

/* Mature cattle that put on flesh nobody asked for: what protein, fullness or a rule of the
 * yard makes of a ration. */
static void add_fattening(Cautions *cautions) {
    const WinterPlan *plan = cautions->plan;
    const Condition *path = condition_path(cautions->arena, plan);
    for (int g = 0; g < plan->question->farm->herd.count; g++) {
        int first;
        const int count = group_blocks(plan->question, g, &first);
        for (int b = first; b < first + count; b++) {
            if (!(path[b].given >= path[b].asked + SCORE_MORE))
                continue;
            const Condition last = path[first + count - 1];
            caution_add(cautions, CAUTION_CONDITION, SEVERITY_CAUTION,
                        arena_print(cautions->arena,
                                    "%s put on flesh from %s on and end the winter at a "
                                    "condition of %.1f of 9, where %.1f is asked",
                                    plan->question->farm->herd.names[g],
                                    day_short(cautions->arena, plan->question->blocks[b].from),
                                    last.given, last.asked),
                        SOURCE_NONE);
            break;
        }
    }
}

/* Cattle with hardly anything to eat: not a figure in a table, but the first thing to say. */
#define STARVING_SHARE 0.6 /* of what fills them; own choice */

static void add_starving(Cautions *cautions) {
    const PlanQuestion *question = cautions->plan->question;
    for (int g = 0; g < question->farm->herd.count; g++) {
        int first;
        const int count = group_blocks(question, g, &first);
        for (int b = first; b < first + count; b++) {
            const BlockOutcome *of = &cautions->plan->blocks[b];
            if (of->filling_kg >= STARVING_SHARE * of->intake_least)
                continue;
            caution_add(
                cautions, CAUTION_STARVING, SEVERITY_DANGER,
                arena_print(
                    cautions->arena,
                    "From %s %s have %s of dry matter a head and day, where %s fills them",
                    day_short(cautions->arena, question->blocks[b].from),
                    question->farm->herd.names[g],
                    measure_words(cautions->arena, cautions->units, MEASURE_FEED,
                                  of->filling_kg),
                    measure_words(cautions->arena, cautions->units, MEASURE_FEED,
                                  of->intake_least)),
                SOURCE_NONE);
            break;
        }
    }
}

#define THIN_SCORE 3.0 /* of 9, below which bones stand out all over; own choice */
#define SCORE_LOST                                                                             \
    0.5 /* below what is asked, so that the ration and not the fall is to blame */
#define LOWEST_SCORE 1.05 /* as shown */

/* A full stomach is no proof: on straw a cow can be full and waste away. */
static void add_wasting(Cautions *cautions) {
    const PlanQuestion *question = cautions->plan->question;
    const Condition *path = condition_path(cautions->arena, cautions->plan);
    for (int g = 0; g < question->farm->herd.count; g++) {
        int first;
        const int count = group_blocks(question, g, &first);
        int thin = -1;
        int lowest = -1;
        for (int b = first; b < first + count; b++) {
            if (!(path[b].given < THIN_SCORE && path[b].given <= path[b].asked - SCORE_LOST))
                continue;
            thin = thin < 0 ? b : thin;
            lowest = lowest < 0 || path[b].given < path[lowest].given ? b : lowest;
        }
        if (thin < 0)
            continue;
        Text fact = text_new(cautions->arena);
        text_print(&fact, "%s waste away: they are down to a condition of %.1f of 9 by %s",
                   question->farm->herd.names[g], path[thin].given,
                   day_short(cautions->arena, question->blocks[thin].to));
        if (lowest != thin)
            text_print(&fact, " and %.1f by %s", path[lowest].given,
                       day_short(cautions->arena, question->blocks[lowest].to));
        text_add(&fact, path[lowest].given <= LOWEST_SCORE
                            ? ", the lowest there is, at which cattle die"
                            : ", at which cattle go down in the cold");
        if (question->farm->winter.days_since_weighed > 0)
            text_add(&fact, "; sooner, where they are thinner now than they were to be");
        caution_add(cautions, CAUTION_STARVING, SEVERITY_DANGER, fact.bytes, SOURCE_NONE);
    }
}

/* Cattle at a ring pick for themselves; proportions hold only on the average, if at all. */
static void add_free_choice(Cautions *cautions) {
    const PlanQuestion *question = cautions->plan->question;
    bool *is_meant = ARENA_ARRAY(cautions->arena, bool, question->farm->herd.count);
    bool has_any = false;
    for (int g = 0; g < question->farm->herd.count; g++) {
        is_meant[g] = question->farm->herd.groups[g].delivery == DELIVERY_FREE_CHOICE;
        has_any = has_any || is_meant[g];
    }
    if (has_any)
        caution_add(
            cautions, CAUTION_FREE_CHOICE, SEVERITY_CAUTION,
            arena_print(
                cautions->arena,
                "%s: fed free choice, so the ration is what they should eat on the average, "
                "not what each will",
                group_words(cautions->arena, question, is_meant)),
            SOURCE_NONE);
}

/* Grain is worth a word wherever it is fed, beyond its caution line or not. */
static void add_grain(Cautions *cautions) {
    const PlanQuestion *question = cautions->plan->question;
    for (int f = 0; f < question->feed_count; f++) {
        if (question->feeds[f].feed->feed_class == FEED_CLASS_GRAIN &&
            cautions->plan->taken_kg[f] > 0.0) {
            caution_add(cautions, CAUTION_GRAIN, SEVERITY_CAUTION, "Grain is in this plan",
                        SOURCE_NONE);
            return;
        }
    }
}

/* Whether a ration holds what cattle have to be brought into. */
static bool wants_steps(const Cautions *cautions, int block) {
    const PlanQuestion *question = cautions->plan->question;
    for (int f = 0; f < question->feed_count; f++) {
        const PlanFeed *of = &question->feeds[f];
        const FeedClass feed_class = of->feed->feed_class;
        const bool is_rich = feed_class == FEED_CLASS_NPN ||
                             (ration_feed_fills(of) && !feed_class_kind(feed_class)->is_forage);
        if (cautions->plan->blocks[block].eaten[f] > 0.0 &&
            (is_rich || of->eaten[NUTRIENT_NITRATE] > NITRATE_OF_NO_RISE))
            return true;
    }
    return false;
}

/* Cattle that join others: the steps are of those that were there. */
static void add_new_cattle(Cautions *cautions) {
    const PlanQuestion *question = cautions->plan->question;
    Text text = text_new(cautions->arena);
    for (int b = 0; b < question->block_count; b++) {
        const PlanBlock *of = &question->blocks[b];
        if (plan_goes_on(question, b) && of->head > of[-1].head && wants_steps(cautions, b))
            text_print(&text, "%s%s are %.0f from %s, where they were %.0f",
                       text.length > 0 ? "; " : "", question->farm->herd.names[of->group],
                       of->head, day_short(cautions->arena, of->from), of[-1].head);
    }
    if (text.length > 0)
        caution_add(cautions, CAUTION_NEW_CATTLE, SEVERITY_CAUTION,
                    arena_print(cautions->arena,
                                "%s, and have grain, meal or feed high in nitrate then",
                                text.bytes),
                    SOURCE_NONE);
}

static void add_water(Cautions *cautions) {
    const Winter *winter = &cautions->plan->question->farm->winter;
    if (winter->sulfate_is_assumed)
        caution_add(
            cautions, CAUTION_WATER, SEVERITY_CAUTION,
            arena_print(
                cautions->arena,
                "The water has no sulfate test and is reckoned at %.0f mg/L, the livestock "
                "guideline",
                winter->water_sulfate_mg_per_l),
            SOURCE_SRC_WATER);
    if (winter->nitrate_is_assumed)
        caution_add(
            cautions, CAUTION_WATER, SEVERITY_CAUTION,
            "The water has no nitrate test and is reckoned to carry none; a shallow well or a "
            "dugout "
            "beside fertilized land can",
            SOURCE_NONE);
    if (!winter->solids_are_known && !winter->sodium_is_known)
        caution_add(
            cautions, CAUTION_WATER, SEVERITY_CAUTION,
            "The water has no test of dissolved solids or sodium, so the salt it brings "
            "is counted as none",
            SOURCE_SRC_WATER);
}

static void add_not_judged(Cautions *cautions) {
    const Nutrient *nutrients;
    const int count =
        nutrients_not_judged(cautions->arena, cautions->plan->question, &nutrients);
    if (count == 0)
        return;
    Text names = text_new(cautions->arena);
    for (int i = 0; i < count; i++)
        text_print(&names, "%s%s", i == 0 ? "" : ", ", nutrient_kind(nutrients[i])->label);
    caution_add(
        cautions, CAUTION_NOT_KNOWN, SEVERITY_CAUTION,
        arena_print(
            cautions->arena,
            "No mineral on hand or for sale brings these, so they are not planned for: %s",
            names.bytes),
        SOURCE_NONE);
}

static void add_sampling(Cautions *cautions) {
    const char *words = sampling_words(cautions->arena, cautions->plan);
    if (words[0] != '\0')
        caution_add(cautions, CAUTION_SAMPLING, SEVERITY_CAUTION, words, SOURCE_NFTA_SAMPLING);
}

static void add_yard_rules(Cautions *cautions) {
    const char *words = yard_not_kept_words(cautions->arena, cautions->plan);
    if (words[0] != '\0')
        caution_add(cautions, CAUTION_YARD_RULES, SEVERITY_CAUTION, words, SOURCE_NONE);
}

static void add_guides(Cautions *cautions) {
    SourceKey source;
    const char *words = plan_guide_words(cautions->arena, cautions->plan, &source);
    if (words[0] != '\0')
        caution_add(cautions, CAUTION_VITAMINS, SEVERITY_NOTE, words, source);
}

/* Dangers first; then each topic together, its most serious fact in front and the others in the
 * order they came. */
static const Caution *by_topic(const Cautions *cautions) {
    Caution *sorted = ARENA_ARRAY(cautions->arena, Caution, cautions->count);
    bool *is_taken = ARENA_ARRAY(cautions->arena, bool, cautions->count);
    int count = 0;
    for (int severity = SEVERITY_DANGER; severity >= (int)SEVERITY_NOTE; severity--) {
        for (int i = 0; i < cautions->count; i++) {
            if (is_taken[i] || (int)cautions->list[i].severity != severity)
                continue;
            sorted[count++] = cautions->list[i];
            is_taken[i] = true;
            for (int j = 0; j < cautions->count; j++) {
                if (is_taken[j] || !text_same(cautions->list[j].topic, cautions->list[i].topic))
                    continue;
                sorted[count++] = cautions->list[j];
                is_taken[j] = true;
            }
        }
    }
    return sorted;
}

int plan_cautions(Arena *arena, const WinterPlan *plan, Units units, const Caution **cautions) {
    Cautions found = {.arena = arena, .plan = plan, .units = units};
    add_starving(&found);
    add_wasting(&found);
    straw_beyond_cautions(&found);
    limit_cautions(&found);
    hazard_cautions(&found);
    add_fast_gain(&found);
    add_fattening(&found);
    add_free_choice(&found);
    picked_cautions(&found);
    add_grain(&found);
    straw_cautions(&found);
    new_feed_cautions(&found);
    add_new_cattle(&found);
    add_water(&found);
    add_not_judged(&found);
    add_sampling(&found);
    add_yard_rules(&found);
    add_guides(&found);
    *cautions = by_topic(&found);
    return found.count;
}
