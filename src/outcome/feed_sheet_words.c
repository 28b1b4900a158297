#include "outcome/feed_sheet_words.h"

#include "base/text.h"
#include "cattle/limit_feeds.h"
#include "outcome/caution_list.h"
#include "outcome/day_words.h"
#include "outcome/limit_cautions.h"
#include "outcome/plan_report.h"
#include "outcome/straw_cautions.h"
#include <math.h>
#include <string.h>

static void add_side(Text *text, const PlanFindings *findings, const ColdSpell *spell,
                     bool is_more) {
    const PlanQuestion *question = findings->plan->question;
    const double head = question->blocks[spell->block].head;
    bool has_any = false;
    for (int f = 0; f < question->feed_count; f++) {
        const double kg = cold_change_kg(findings, spell, f) * (is_more ? 1.0 : -1.0);
        if (kg < WORTH_WEIGHING_KG)
            continue;
        if (has_any)
            text_add(text, ", ");
        else
            text_print(text, "%s%s ", text->length > 0 ? "; " : "",
                       is_more ? "add" : "leave out");
        text_print(text, "%s of %s",
                   measure_words(text->arena, findings->units, MEASURE_WEIGHT, kg * head),
                   question->feeds[f].name);
        has_any = true;
    }
}

const char *sheet_cold_words(Arena *arena, const PlanFindings *findings, int block) {
    const ColdSpell spell = cold_spell_in(arena, findings->plan, block);
    if (spell.block < 0)
        return "";
    Text text = text_new(arena);
    add_side(&text, findings, &spell, true);
    add_side(&text, findings, &spell, false);
    const char *air =
        measure_words(arena, findings->units, MEASURE_TEMPERATURE, spell.air.celsius);
    if (text.length == 0)
        return arena_print(arena, "In a cold spell (%s): %s.%s", air,
                           cold_unchanged_words(arena, findings, &spell),
                           cold_lack_words(arena, findings, &spell));
    return arena_print(arena,
                       "In a cold spell (%s), for all of them a day: %s. Begin a day before "
                       "it, and go back in the same steps.",
                       air, text.bytes);
}

/* Topics of what kills within hours or days, before those of what is only near a limit. */
static bool is_pressing(CautionTopic topic) {
    return topic <= CAUTION_STRAW || topic == CAUTION_UREA || topic >= CAUTION_TOXIN;
}

/* Of the limits whose caution line this ration passes, the topic that stands first in the list
 * of topics. */
static const LimitOutcome *foremost_limit(const BlockOutcome *block, bool pressing) {
    const LimitOutcome *first = NULL;
    for (int i = 0; i < block->limit_count; i++) {
        const LimitOutcome *of = &block->limits[i];
        if (!is_beyond_warn(of) || is_pressing(caution_topic(of->limit->safety)) != pressing)
            continue;
        if (!first || caution_topic(of->limit->safety) < caution_topic(first->limit->safety))
            first = of;
    }
    return first;
}

static Delivery delivery_of(const PlanFindings *findings, int block) {
    const PlanQuestion *question = findings->plan->question;
    return question->farm->herd.groups[question->blocks[block].group].delivery;
}

static const char *limit_words(Arena *arena, const PlanFindings *findings, int block,
                               const LimitOutcome *of) {
    return arena_print(
        arena, "%.*s: %s%s here. %s", (int)strcspn(of->limit->label, ";"), of->limit->label,
        limit_value_words(arena, findings->units, of->limit, of->supplied),
        limit_of_what(of->limit),
        caution_advice(caution_topic_as_fed(of->limit->safety, delivery_of(findings, block))));
}

/* The feed of the ration that is highest in nitrate, where it is so high that it has to be
 * brought in and mixed; -1. */
static int nitrate_feed(const PlanFindings *findings, int block) {
    const PlanQuestion *question = findings->plan->question;
    double most = NITRATE_OF_NO_RISE;
    int found = -1;
    for (int f = 0; f < question->feed_count; f++) {
        const double nitrate = question->feeds[f].eaten[NUTRIENT_NITRATE];
        if (findings->plan->blocks[block].eaten[f] <= 0.0 || !(nitrate > most))
            continue;
        most = nitrate;
        found = f;
    }
    return found;
}

static const char *nitrate_words(Arena *arena, const PlanFindings *findings, int block,
                                 const PlanFeed *feed) {
    return arena_print(arena, "%s carries nitrate, %.2f %% NO3. %s", feed->name,
                       feed->eaten[NUTRIENT_NITRATE],
                       caution_advice(delivery_of(findings, block) == DELIVERY_MIXED
                                          ? CAUTION_NITRATE
                                          : CAUTION_PICKED_NITRATE));
}

static bool feeds_class(const PlanFindings *findings, int block, FeedClass feed_class) {
    const PlanQuestion *question = findings->plan->question;
    for (int f = 0; f < question->feed_count; f++) {
        if (findings->plan->blocks[block].eaten[f] > 0.0 &&
            question->feeds[f].feed->feed_class == feed_class)
            return true;
    }
    return false;
}

const char *sheet_caution_words(Arena *arena, const PlanFindings *findings, int block) {
    const BlockOutcome *of = &findings->plan->blocks[block];
    const int nitrate = nitrate_feed(findings, block);
    const char *straw = straw_is_beyond_share(of)
                            ? arena_print(arena, "More straw than is safe for long. %s",
                                          caution_advice(CAUTION_STRAW_LATE))
                            : "";
    if (nitrate >= 0)
        return arena_print(
            arena, "%s%s%s",
            nitrate_words(arena, findings, block, &findings->plan->question->feeds[nitrate]),
            straw[0] ? " " : "", straw);
    if (straw[0])
        return straw;
    if (foremost_limit(of, true))
        return limit_words(arena, findings, block, foremost_limit(of, true));
    if (feeds_class(findings, block, FEED_CLASS_GRAIN) ||
        feeds_class(findings, block, FEED_CLASS_BYPRODUCT))
        return caution_advice(CAUTION_GRAIN);
    if (feeds_class(findings, block, FEED_CLASS_STRAW))
        return caution_advice(CAUTION_STRAW);
    if (foremost_limit(of, false))
        return limit_words(arena, findings, block, foremost_limit(of, false));
    return "If any go off feed, scour, bloat or stagger, stop and phone your veterinarian.";
}

/* Tested past the caution line for these cattle; or not tested, and silage or frosted: cured
 * hay seldom holds much. */
static bool may_hold_prussic_acid(const PlanQuestion *question, int block, int feed) {
    const HerdGroup *group = &question->farm->herd.groups[question->blocks[block].group];
    const SafetyLimits *limits = &question->farm->limits;
    for (int i = 0; i < limits->count; i++) {
        const SafetyLimit *limit = &limits->limits[i];
        if (limit->kind == LIMIT_EACH_FEED && limit->subject == SUBJECT_NUTRIENT &&
            caution_topic(limit) == CAUTION_PRUSSIC_ACID &&
            limit_applies(limit, question->blocks[block].need.stages, group->delivery) &&
            question->feeds[feed].eaten[limit->nutrient] > limit->warn)
            return true;
    }
    const Feedstuff *of = question->feeds[feed].feed;
    return limit_feeds_hold("untested_sorghum_silage", of) ||
           (limit_feeds_hold("untested_sorghum", of) && (of->watch & WATCH_BIT(WATCH_FROSTED)));
}

static void add_names(Text *text, const char *names, const char *words) {
    if (names[0] != '\0')
        text_print(text, "%s%s %s", text->length > 0 ? " " : "", names, words);
}

const char *sheet_poison_words(Arena *arena, const PlanFindings *findings, int block) {
    const PlanQuestion *question = findings->plan->question;
    Text acid = text_new(arena), clover = text_new(arena), ionophore = text_new(arena);
    for (int f = 0; f < question->feed_count; f++) {
        const PlanFeed *of = &question->feeds[f];
        if (findings->plan->blocks[block].eaten[f] <= 0.0)
            continue;
        if (may_hold_prussic_acid(question, block, f))
            text_print(&acid, "%s%s", acid.length > 0 ? ", " : "", of->name);
        if (limit_feeds_hold("untested_sweet_clover", of->feed))
            text_print(&clover, "%s%s", clover.length > 0 ? ", " : "", of->name);
        if (of->feed->watch & WATCH_BIT(WATCH_IONOPHORE))
            text_print(&ionophore, "%s%s", ionophore.length > 0 ? ", " : "", of->name);
    }
    Text text = text_new(arena);
    add_names(&text, acid.bytes,
              "can hold prussic acid: on fast breathing and bright red blood stop, and phone "
              "your veterinarian at once.");
    add_names(
        &text, clover.bytes,
        "can thin the blood (sweet clover, not tested): on bleeding or lameness stop, and "
        "phone your veterinarian.");
    add_names(&text, ionophore.bytes, "kills horses (ionophore): keep it from them.");
    return text.bytes;
}

const char *sheet_forbidden_words(Arena *arena, const PlanFindings *findings, int block) {
    const PlanQuestion *question = findings->plan->question;
    Text names = text_new(arena), waits = text_new(arena);
    for (int f = 0; f < question->feed_count; f++) {
        const bool lies_there = question->feeds[f].is_own || findings->plan->taken_kg[f] > 0.0;
        const SafetyLimit *limit = plan_limit_against(question, block, f);
        if (!lies_there || !limit || plan_permission(question, block, f) == NOT_FOR_THAT_GROUP)
            continue;
        if (limit->kind == LIMIT_DAYS_KEPT)
            text_print(&waits, " Not before %s, for its safety: %s.",
                       day_short(arena, limit_kept_until(limit, question->feeds[f].put_up)),
                       question->feeds[f].name);
        else
            text_print(&names, "%s%s", names.length > 0 ? "; " : "", question->feeds[f].name);
    }
    if (names.length == 0)
        return waits.length > 0 ? waits.bytes + 1 : "";
    return arena_print(arena, "Never to this group, for its safety: %s.%s", names.bytes,
                       waits.length > 0 ? waits.bytes : "");
}

static int waste_pct(const PlanFindings *findings, int block, int feed) {
    const bool is_fed = findings->plan->blocks[block].eaten[feed] > 0.0;
    const double share = findings->plan->question->feeds[feed].waste_share;
    return is_fed ? (int)round(100.0 * share) : 0;
}

/* The feeds of one and the same waste are named together. */
const char *sheet_waste_words(Arena *arena, const PlanFindings *findings, int block) {
    const PlanQuestion *question = findings->plan->question;
    Text feeds = text_new(arena);
    for (int pct = 100; pct > 0; pct--) {
        bool has_any = false;
        for (int f = 0; f < question->feed_count; f++) {
            if (waste_pct(findings, block, f) != pct)
                continue;
            if (has_any)
                text_print(&feeds, ", %s", question->feeds[f].name);
            else
                text_print(&feeds, "%s%d %% of %s", feeds.length > 0 ? "; " : "", pct,
                           question->feeds[f].name);
            has_any = true;
        }
    }
    return feeds.length > 0
               ? arena_print(arena, "The amounts allow for waste: %s.", feeds.bytes)
               : "";
}
