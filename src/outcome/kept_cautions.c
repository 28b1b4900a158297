#include "outcome/kept_cautions.h"
#include "base/text.h"
#include "cattle/limit_feeds.h"
#include "outcome/day_words.h"
#include "planner/feed_permission.h"

bool kept_is_hazard(const SafetyLimit *limit) {
    return limit->kind == LIMIT_EACH_FEED &&
           (limit->subject == SUBJECT_HEATED ||
            (limit->subject == SUBJECT_NUTRIENT && nutrient_is_hazard(limit->nutrient)));
}

const char *kept_value_words(const Cautions *cautions, const SafetyLimit *limit, double value) {
    const NutrientKind *kind = nutrient_kind(limit->nutrient);
    return arena_print(cautions->arena, "%s %s",
                       number_words(cautions->arena, value, kind->decimals), kind->unit);
}

/* The groups it is kept from, and whether they may have it at another time. */
typedef struct {
    bool *is_meant;
    bool any, is_for_a_part;
} Kept;

static Kept kept_by(const Cautions *cautions, const SafetyLimit *limit, int feed) {
    const PlanQuestion *question = cautions->plan->question;
    Kept kept = {.is_meant = ARENA_ARRAY(cautions->arena, bool, question->farm->herd.count)};
    for (int b = 0; b < question->block_count; b++) {
        if (question->barred_by[b * question->feed_count + feed] == limit)
            kept.any = kept.is_meant[question->blocks[b].group] = true;
    }
    for (int b = 0; b < question->block_count; b++) {
        if (kept.is_meant[question->blocks[b].group] &&
            question->permission[b * question->feed_count + feed] == MAY_BE_FED)
            kept.is_for_a_part = true;
    }
    return kept;
}

/* The feed, of those they may have, that could take the diet furthest above the line. */
static int hottest(const PlanQuestion *question, const SafetyLimit *limit, int feed) {
    int most = -1;
    for (int b = 0; b < question->block_count; b++) {
        if (question->barred_by[b * question->feed_count + feed] != limit)
            continue;
        const int hot = feed_above(question, b, limit->above);
        if (hot >= 0 && (most < 0 || question->feeds[hot].eaten[NUTRIENT_NITRATE] >
                                         question->feeds[most].eaten[NUTRIENT_NITRATE]))
            most = hot;
    }
    return most;
}

static const char *beside_words(const Cautions *cautions, const SafetyLimit *limit, int feed) {
    const PlanQuestion *question = cautions->plan->question;
    const int hot = hottest(question, limit, feed);
    if (hot < 0)
        return limit->label;
    return arena_print(cautions->arena,
                       "%s, reckoned at %.2f %% NO3, may be in their diet, and with the water "
                       "could take it above %.1f %%. Where that feed is kept for other groups, "
                       "urea is planned again",
                       question->feeds[hot].name, question->feeds[hot].eaten[NUTRIENT_NITRATE],
                       limit->above);
}

/* Where nobody said when it was put up, the days run from when it lay there at the latest. */
static const char *waits_words(const Cautions *cautions, const SafetyLimit *limit,
                               const PlanFeed *of) {
    const char *since = of->put_up_is_told ? "when it was put up"
                        : of->is_own       ? "when it was counted, because its cut_date is not "
                                             "given: write it into stacks.csv"
                                           : "since when it is for sale, because nobody says "
                                             "when it was put up: ask the seller";
    const bool may_have_cured = of->feed->analysis.dry_matter.origin != FROM_LABORATORY &&
                                !limit_feeds_hold("untested_sorghum_silage", of->feed);
    return arena_print(cautions->arena,
                       "it %shas no test of prussic acid%s; such feed is not fed for %.0f "
                       "days, here from %s, %s",
                       of->feed->watch & WATCH_BIT(WATCH_FROSTED) ? "froze and " : "",
                       may_have_cured ? " nor of moisture, so nobody knows that it cured" : "",
                       limit->hard, day_short(cautions->arena, of->put_up), since);
}

static const char *why_words(const Cautions *cautions, const SafetyLimit *limit, int feed) {
    const PlanFeed *of = &cautions->plan->question->feeds[feed];
    if (limit->subject == SUBJECT_UREA_BESIDE)
        return beside_words(cautions, limit, feed);
    if (limit->kind == LIMIT_DAYS_KEPT)
        return waits_words(cautions, limit, of);
    if (limit->subject == SUBJECT_HEATED)
        return arena_print(cautions->arena, "it heated and is reckoned at %.2f %% NO3",
                           of->eaten[NUTRIENT_NITRATE]);
    if (limit->kind == LIMIT_SHARE && limit->condition == CONDITION_NOT_MIXED &&
        text_same(limit->subject_text, "urea"))
        return "they are not fed mixed, and one that picks it out can eat enough to die of it";
    if (limit->kind == LIMIT_SHARE)
        return arena_print(cautions->arena, "they may have none (%s)", limit->label);
    return arena_print(cautions->arena, "%s: %s, and the most is %s", limit->label,
                       kept_value_words(cautions, limit, of->eaten[limit->nutrient]),
                       kept_value_words(cautions, limit, limit->hard));
}

static bool is_told_here(const SafetyLimit *limit) {
    return kept_is_hazard(limit) || limit->kind == LIMIT_SHARE ||
           limit->subject == SUBJECT_UREA_BESIDE || limit->kind == LIMIT_DAYS_KEPT;
}

/* What nobody has bought yet is no danger in the yard, unless it holds a poison. */
static Severity severity_of(const SafetyLimit *limit, const PlanFeed *of) {
    return of->is_own || kept_is_hazard(limit) ? SEVERITY_DANGER : SEVERITY_CAUTION;
}

static const char *how_long_words(const Cautions *cautions, const SafetyLimit *limit,
                                  const PlanFeed *of, bool is_for_a_part) {
    if (limit->kind == LIMIT_DAYS_KEPT)
        return arena_print(cautions->arena, " until %s",
                           day_short(cautions->arena, limit_kept_until(limit, of->put_up)));
    return is_for_a_part ? " for a part of the winter" : "";
}

void kept_caution(Cautions *cautions, const SafetyLimit *limit, int feed) {
    if (!is_told_here(limit))
        return;
    const PlanQuestion *question = cautions->plan->question;
    const PlanFeed *of = &question->feeds[feed];
    const Kept kept = kept_by(cautions, limit, feed);
    if (kept.any)
        caution_add(cautions, caution_topic(limit), severity_of(limit, of),
                    arena_print(cautions->arena, "%s is kept from %s%s: %s", of->name,
                                group_words(cautions->arena, question, kept.is_meant),
                                how_long_words(cautions, limit, of, kept.is_for_a_part),
                                why_words(cautions, limit, feed)),
                    limit->source);
}
