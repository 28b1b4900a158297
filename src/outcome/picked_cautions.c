/* Nitrate, urea, prussic acid, ergot and mycotoxins are judged feed by feed where cattle can
 * pick (delivery=free_choice in the table of limits). A cap on a plant cannot be: of itself it
 * is all of that plant, and would be kept from every yard without a mixer. So it is told. */
#include "outcome/picked_cautions.h"
#include "base/text.h"
#include <math.h>

/* Feeds that harm who eats more of them than their cap: not straw, which nobody picks out, nor
 * grain, which has a caution of its own. */
static bool is_cap_on_picking(const SafetyLimit *limit) {
    static const char *const FEEDS[] = {"vetch",
                                        "kochia",
                                        "buckwheat",
                                        "untested_sweet_clover",
                                        "untested_ergot",
                                        "untested_toxins",
                                        "brassica",
                                        "canola_forage",
                                        "frozen_lumps",
                                        "distillers_grains",
                                        "screenings_pellets"};
    if (limit->kind != LIMIT_SHARE || limit->side != SIDE_MOST || limit->hard <= 0.0)
        return false;
    for (size_t i = 0; i < sizeof FEEDS / sizeof FEEDS[0]; i++) {
        if (text_same(limit->subject_text, FEEDS[i]))
            return true;
    }
    return false;
}

/* What may be all of a diet is told of from its caution line. */
static double cap_of(const SafetyLimit *limit) {
    return limit->hard < 1.0 ? limit->hard : limit->warn;
}

static bool holds_above_line(const SafetyLimit *limit, const PlanFeed *feed) {
    const FeedClass of = feed->feed->feed_class;
    return limit->kind == LIMIT_CONCENTRATION && limit->subject == SUBJECT_NUTRIENT &&
           limit->nutrient == NUTRIENT_SULFUR && of != FEED_CLASS_MINERAL &&
           of != FEED_CLASS_NPN && feed->eaten[NUTRIENT_SULFUR] > limit->hard;
}

/* The strictest line of a kind that leans on mixing for a feed, and the groups that are given
 * it unmixed. */
typedef struct {
    const SafetyLimit *limit; /* NULL: none does */
    bool *is_meant;
} Picked;

static Picked picked(const Cautions *cautions, int feed, bool is_of_sulfur) {
    const PlanQuestion *question = cautions->plan->question;
    const Farm *farm = question->farm;
    Picked found = {NULL, ARENA_ARRAY(cautions->arena, bool, farm->herd.count)};
    for (int b = 0; b < question->block_count; b++) {
        const PlanBlock *block = &question->blocks[b];
        const Delivery delivery = farm->herd.groups[block->group].delivery;
        if (delivery == DELIVERY_MIXED || cautions->plan->blocks[b].eaten[feed] <= 0.0)
            continue;
        for (int i = 0; i < farm->limits.count; i++) {
            const SafetyLimit *limit = &farm->limits.limits[i];
            const PlanFeed *of = &question->feeds[feed];
            const bool is_one = is_of_sulfur
                                    ? holds_above_line(limit, of)
                                    : is_cap_on_picking(limit) && limit_covers(limit, of->feed);
            if (!is_one || !limit_applies(limit, block->need.stages, delivery))
                continue;
            found.is_meant[block->group] = true;
            if (!found.limit || cap_of(limit) < cap_of(found.limit))
                found.limit = limit;
        }
    }
    return found;
}

static bool add_cap(Cautions *cautions, int feed) {
    const PlanQuestion *question = cautions->plan->question;
    const Picked cap = picked(cautions, feed, false);
    if (!cap.limit)
        return false;
    caution_add(cautions, CAUTION_FREE_CHOICE, SEVERITY_CAUTION,
                arena_print(cautions->arena,
                            "%s is held to %.0f %% of the diet of %s on the average only: "
                            "they are not fed mixed, and some eat more of it",
                            question->feeds[feed].name, cap_of(cap.limit) * 100.0,
                            group_words(cautions->arena, question, cap.is_meant)),
                cap.limit->source);
    return true;
}

static void add_sulfur(Cautions *cautions, int feed) {
    const PlanQuestion *question = cautions->plan->question;
    const PlanFeed *of = &question->feeds[feed];
    const Picked line = picked(cautions, feed, true);
    if (line.limit)
        caution_add(cautions, CAUTION_FREE_CHOICE, SEVERITY_CAUTION,
                    arena_print(cautions->arena,
                                "%s holds %.2f %% sulfur, and %s, not fed mixed, are within "
                                "%.2f %% of the diet with the water on the average only",
                                of->name, of->eaten[NUTRIENT_SULFUR],
                                group_words(cautions->arena, question, line.is_meant),
                                line.limit->hard),
                    line.limit->source);
}

/* Of a feed that has a cap its sulfur, which may be why, is not told besides. */
void picked_cautions(Cautions *cautions) {
    for (int f = 0; f < cautions->plan->question->feed_count; f++) {
        if (!add_cap(cautions, f))
            add_sulfur(cautions, f);
    }
}
