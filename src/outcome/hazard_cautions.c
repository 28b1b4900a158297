/* A feed that was not tested is neither barred nor blessed: where its kind carries the danger,
 * that is said. */
#include "outcome/hazard_cautions.h"
#include "base/text.h"
#include "cattle/limit_feeds.h"
#include "cattle/water_need.h"
#include "outcome/kept_cautions.h"
#include "outcome/limit_cautions.h"
#include <math.h>

static const PlanFeed *feed_at(const Cautions *cautions, int feed) {
    return &cautions->plan->question->feeds[feed];
}

static bool is_fed(const Cautions *cautions, int feed) {
    return cautions->plan->taken_kg[feed] > 0.0;
}

static bool *nobody(const Cautions *cautions) {
    return ARENA_ARRAY(cautions->arena, bool, cautions->plan->question->farm->herd.count);
}

/* Who is fed it, and the most that it is of the dry matter that fills them. */
typedef struct {
    const char *groups;
    double most_share;
} FedTo;

static FedTo fed_to(const Cautions *cautions, int feed) {
    const WinterPlan *plan = cautions->plan;
    bool *is_meant = nobody(cautions);
    double most = 0.0;
    for (int b = 0; b < plan->question->block_count; b++) {
        if (plan->blocks[b].eaten[feed] <= 0.0)
            continue;
        is_meant[plan->question->blocks[b].group] = true;
        most = fmax(most, caution_share_eaten(cautions, b, feed));
    }
    return (FedTo){group_words(cautions->arena, plan->question, is_meant), most};
}

/* ---- limits on each feed alone, nitrate aside, which limit_cautions.c tells of ---- */

/* Past the caution line for one of those who are fed it. */
static bool is_past_warn(const Cautions *cautions, const SafetyLimit *limit, int feed) {
    const PlanQuestion *question = cautions->plan->question;
    for (int b = 0; b < question->block_count; b++) {
        const PlanBlock *block = &question->blocks[b];
        const HerdGroup *group = &question->farm->herd.groups[block->group];
        if (cautions->plan->blocks[b].eaten[feed] > 0.0 &&
            limit_applies(limit, block->need.stages, group->delivery) &&
            question->feeds[feed].eaten[limit->nutrient] > limit->warn)
            return true;
    }
    return false;
}

static void add_fed_past_warn(Cautions *cautions, const SafetyLimit *limit, int feed) {
    if (limit->subject != SUBJECT_NUTRIENT || !is_past_warn(cautions, limit, feed))
        return;
    const PlanFeed *of = feed_at(cautions, feed);
    const FedTo to = fed_to(cautions, feed);
    caution_add(
        cautions, caution_topic(limit), SEVERITY_CAUTION,
        arena_print(cautions->arena,
                    "%s, fed to %s, up to %.0f %% of the diet: %s, %s (caution from %s)",
                    of->name, to.groups, to.most_share * 100.0, limit->label,
                    kept_value_words(cautions, limit, of->eaten[limit->nutrient]),
                    kept_value_words(cautions, limit, limit->warn)),
        limit->source);
}

/* ---- kinds that carry a danger nobody looked for ---- */

static bool may_be_sour_too_little(const Cautions *cautions, const PlanFeed *of) {
    if (!of->is_own || !feed_lacks(of->feed, NUTRIENT_BALED_SILAGE_PH))
        return false;
    const Stack *stack = &cautions->plan->question->farm->inventory.stacks.stacks[of->place];
    return (stack->kind == STACK_BALE_TUBE || stack->kind == STACK_ROUND_BALES ||
            stack->kind == STACK_SQUARE_BALES) &&
           of->feed->analysis.dry_matter.value < MOST_DRY_MATTER_OF_SILAGE;
}

#define UNTESTED_SHARE 0.20 /* of the diet, of a feed that may carry ergot; own choice */

static const char *ergot_words(const Feedstuff *feed, double most_share) {
    if (limit_feeds_hold("untested_ergot", feed))
        return "; until it is tested for ergot, such grain and screenings together are held to "
               "a "
               "fifth of a diet";
    return most_share > UNTESTED_SHARE
               ? "; at more than a fifth of the diet have it tested before it is fed"
               : "";
}

/* Of forage nothing is held back, so more of it is said the louder. */
static void add_ergot(Cautions *cautions, int feed) {
    const FedTo to = fed_to(cautions, feed);
    const PlanFeed *of = feed_at(cautions, feed);
    const bool lacks_ergot = feed_lacks(of->feed, NUTRIENT_ERGOT);
    caution_add(
        cautions, CAUTION_TOXIN,
        lacks_ergot && to.most_share > UNTESTED_SHARE * (1.0 + 1e-6) ? SEVERITY_DANGER
                                                                     : SEVERITY_CAUTION,
        arena_print(
            cautions->arena,
            "%s, fed to %s, up to %.0f %% of the diet, is of a kind that can carry ergot "
            "and vomitoxin and has no test of %s%s",
            of->name, to.groups, to.most_share * 100.0,
            !lacks_ergot                         ? "vomitoxin"
            : feed_lacks(of->feed, NUTRIENT_DON) ? "ergot, nor of vomitoxin"
                                                 : "ergot",
            ergot_words(of->feed, to.most_share)),
        SOURCE_ERGOT_SASKTODAY);
}

/* That it froze only the farmer knows: where he did not say so, what to write. */
static void add_prussic_acid(Cautions *cautions, const PlanFeed *of) {
    const bool is_frosted = of->feed->watch & WATCH_BIT(WATCH_FROSTED);
    caution_add(cautions, CAUTION_PRUSSIC_ACID, SEVERITY_CAUTION,
                arena_print(cautions->arena,
                            "%s has no test of prussic acid; well cured hay seldom holds much, "
                            "silage, frosted or damp feed can%s",
                            of->name,
                            is_frosted ? ""
                                       : arena_print(cautions->arena,
                                                     ". If %s froze before it was put up, "
                                                     "write frosted under watch_for, and its "
                                                     "cut_date",
                                                     of->name)),
                SOURCE_HCN_WARD);
}

static void add_untested(Cautions *cautions, int feed) {
    const PlanFeed *of = feed_at(cautions, feed);
    if (limit_feeds_hold("untested_toxins", of->feed))
        add_ergot(cautions, feed);
    if (limit_feeds_hold("untested_sorghum", of->feed))
        add_prussic_acid(cautions, of);
    if (limit_feeds_hold("untested_sweet_clover", of->feed))
        caution_add(cautions, CAUTION_SWEET_CLOVER, SEVERITY_DANGER,
                    arena_print(cautions->arena,
                                "%s holds sweet clover and has no test of "
                                "dicoumarol; it is at most half of a diet",
                                of->name),
                    SOURCE_MERCK_SWEETCLOVER);
    if (may_be_sour_too_little(cautions, of))
        caution_add(cautions, CAUTION_BALED_SILAGE, SEVERITY_CAUTION,
                    arena_print(cautions->arena,
                                "%s has no test of its pH (4.5 or less is wanted)", of->name),
                    SOURCE_BALEAGE_KENTUCKY);
}

static bool has_urea_beside(const Cautions *cautions, int feed) {
    const PlanQuestion *question = cautions->plan->question;
    for (int b = 0; b < question->block_count; b++) {
        const double *eaten = cautions->plan->blocks[b].eaten;
        for (int f = 0; eaten[feed] > 0.0 && f < question->feed_count; f++) {
            if (eaten[f] > 0.0 && question->feeds[f].feed->feed_class == FEED_CLASS_NPN)
                return true;
        }
    }
    return false;
}

/* Straw that is treated aright is fed, and watched. */
static void add_ammoniated(Cautions *cautions, int feed) {
    const PlanFeed *of = feed_at(cautions, feed);
    const FedTo to = fed_to(cautions, feed);
    if (limit_feeds_hold("ammoniated", of->feed))
        caution_add(
            cautions, CAUTION_AMMONIATED, SEVERITY_CAUTION,
            arena_print(cautions->arena,
                        "%s is ammoniated and is fed to %s, up to %.0f %% of the diet%s",
                        of->name, to.groups, to.most_share * 100.0,
                        has_urea_beside(cautions, feed)
                            ? "; the nitrogen of its ammonia is not counted with that "
                              "of the urea beside it"
                            : ""),
            SOURCE_AMMONIATED_NADIS);
}

static void add_ionophore(Cautions *cautions, int feed) {
    const PlanFeed *of = feed_at(cautions, feed);
    if (of->feed->watch & WATCH_BIT(WATCH_IONOPHORE))
        caution_add(cautions, CAUTION_IONOPHORE, SEVERITY_DANGER,
                    arena_print(cautions->arena, "%s holds an ionophore and is fed to %s",
                                of->name, fed_to(cautions, feed).groups),
                    SOURCE_MONENSIN_WCVM);
}

/* ---- water and bunk ---- */

static bool water_value(const Winter *winter, const SafetyLimit *limit, double *mg_per_l) {
    switch (limit->subject) {
    case SUBJECT_WATER_SULFATE:
        *mg_per_l = winter->water_sulfate_mg_per_l;
        return !winter->sulfate_is_assumed;
    case SUBJECT_WATER_NITRATE:
        *mg_per_l = winter->water_nitrate_mg_per_l;
        return !winter->nitrate_is_assumed;
    case SUBJECT_WATER_SOLIDS:
        *mg_per_l = winter->water_solids_mg_per_l;
        return winter->solids_are_known;
    case SUBJECT_NOT_WATCHED:
    case SUBJECT_NUTRIENT:
    case SUBJECT_SALT:
    case SUBJECT_FEEDS:
    case SUBJECT_CALCIUM_TO_PHOSPHORUS:
    case SUBJECT_NPN_PROTEIN:
    case SUBJECT_NPN_SUPPLEMENT:
    case SUBJECT_TETANY_RATIO:
    case SUBJECT_COPPER_TO_MOLYBDENUM:
    case SUBJECT_SULFUR_LINE:
    case SUBJECT_HEATED:
    case SUBJECT_UREA_BESIDE:
    case SUBJECT_BUNK:
        break;
    }
    return false;
}

/* Groups some of whose cattle are at some time in a stage the limit holds for. */
static bool find_groups(const Cautions *cautions, const SafetyLimit *limit, bool *is_meant) {
    const PlanQuestion *question = cautions->plan->question;
    bool any = false;
    for (int b = 0; b < question->block_count; b++) {
        const PlanBlock *block = &question->blocks[b];
        const HerdGroup *group = &question->farm->herd.groups[block->group];
        if (limit_applies(limit, block->need.stages, group->delivery))
            any = is_meant[block->group] = true;
    }
    return any;
}

static void add_water(Cautions *cautions, const SafetyLimit *limit) {
    bool *is_meant = nobody(cautions);
    double value;
    if (!water_value(&cautions->plan->question->farm->winter, limit, &value) ||
        value <= limit->warn || !find_groups(cautions, limit, is_meant))
        return;
    caution_add(
        cautions, CAUTION_BAD_WATER, value > limit->hard ? SEVERITY_DANGER : SEVERITY_CAUTION,
        arena_print(cautions->arena, "%s: %.0f mg/L for %s (caution from %.0f, not above %.0f)",
                    limit->label, value,
                    group_words(cautions->arena, cautions->plan->question, is_meant),
                    limit->warn, limit->hard),
        limit->source);
}

/* Where salt is past its caution line: what of it is in the feed, and what that makes the
 * cattle drink. The worst period of each group. */
static void add_thirst_of(Cautions *cautions, int group) {
    const PlanQuestion *question = cautions->plan->question;
    double salt_kg = 0.0;
    for (int b = 0; b < question->block_count; b++) {
        const BlockOutcome *of = &cautions->plan->blocks[b];
        for (int i = 0; question->blocks[b].group == group && i < of->limit_count; i++) {
            const LimitOutcome *outcome = &of->limits[i];
            if (outcome->limit->safety && outcome->limit->safety->subject == SUBJECT_SALT &&
                is_beyond_warn(outcome))
                salt_kg = fmax(salt_kg, (outcome->supplied - outcome->limit->added) / 100.0 *
                                            of->filling_kg);
        }
    }
    if (salt_kg > 0.0)
        caution_add(
            cautions, CAUTION_SALT, SEVERITY_CAUTION,
            arena_print(
                cautions->arena,
                "%s eat up to %s of salt a head and day in their feed, and drink about %s more "
                "for it",
                question->farm->herd.names[group],
                measure_words(cautions->arena, cautions->units, MEASURE_SMALL_FEED, salt_kg),
                measure_words(cautions->arena, cautions->units, MEASURE_WATER,
                              water_for_salt_l((Mass){salt_kg}))),
            SOURCE_OKSTATE_SALT);
}

/* Salt of water that is known to be hard, and was not tested for sodium, is counted nowhere. */
#define SALTY_SOLIDS_MG_PER_L 3000.0 /* [SRC_WATER] */

/* Above so much dissolved in the water salt is no safe brake on a supplement
 * [CATTLENETWORK_SALT]. */
#define SOLIDS_AGAINST_SALT_MG_PER_L 5000.0

static void add_salt(Cautions *cautions) {
    const Winter *winter = &cautions->plan->question->farm->winter;
    for (int g = 0; g < cautions->plan->question->farm->herd.count; g++)
        add_thirst_of(cautions, g);
    if (winter->solids_are_known &&
        winter->water_solids_mg_per_l > SOLIDS_AGAINST_SALT_MG_PER_L)
        caution_add(cautions, CAUTION_SALT, SEVERITY_CAUTION,
                    "The water holds so much that no supplement may be held back with salt",
                    SOURCE_CATTLENETWORK_SALT);
    if (winter->solids_are_known && !winter->sodium_is_known &&
        winter->water_solids_mg_per_l > SALTY_SOLIDS_MG_PER_L)
        caution_add(
            cautions, CAUTION_WATER, SEVERITY_CAUTION,
            "The water has much dissolved in it and no sodium test, so the salt it brings "
            "is not counted: write water_sodium_mg_per_l into winter.csv",
            SOURCE_SRC_WATER);
}

#define CM_PER_METRE 100.0
#define CM_PER_INCH 2.54

/* On the day there are most of them. */
static double most_head(const PlanQuestion *question, int group) {
    double most = 0.0;
    for (int b = 0; b < question->block_count; b++) {
        if (question->blocks[b].group == group)
            most = fmax(most, question->blocks[b].head);
    }
    return most;
}

/* Where cattle are fed once a day and all want to eat at once; at a ring they take turns. */
static void add_bunk(Cautions *cautions, const SafetyLimit *limit) {
    const PlanQuestion *question = cautions->plan->question;
    bool *is_meant = nobody(cautions);
    find_groups(cautions, limit, is_meant);
    for (int g = 0; g < question->farm->herd.count; g++) {
        const HerdGroup *group = &question->farm->herd.groups[g];
        const double head = most_head(question, g);
        const double cm = group->bunk_length_m * CM_PER_METRE / head;
        if (!is_meant[g] || cm <= 0.0 || cm >= limit->warn ||
            group->delivery == DELIVERY_FREE_CHOICE)
            continue;
        const bool is_metric = cautions->units == UNITS_METRIC;
        const double shown = is_metric ? 1.0 : 1.0 / CM_PER_INCH;
        const double at_once = floor(group->bunk_length_m * CM_PER_METRE / limit->hard);
        const char *room =
            at_once < head ? arena_print(cautions->arena,
                                         "at most %.0f of %.0f can eat at once", at_once, head)
                           : "all can eat at once, with little room";
        caution_add(cautions, CAUTION_BUNK,
                    cm < limit->hard ? SEVERITY_DANGER : SEVERITY_CAUTION,
                    arena_print(cautions->arena,
                                "%s: %.0f %s of bunk a head, where %.0f to %.0f is wanted; %s",
                                group->name, cm * shown, is_metric ? "cm" : "in",
                                limit->hard * shown, limit->warn * shown, room),
                    limit->source);
    }
}

static void add_limit(Cautions *cautions, const SafetyLimit *limit) {
    if (limit->kind == LIMIT_WATER)
        add_water(cautions, limit);
    if (limit->kind == LIMIT_FACILITY && limit->subject == SUBJECT_BUNK)
        add_bunk(cautions, limit);
    for (int f = 0; f < cautions->plan->question->feed_count; f++) {
        kept_caution(cautions, limit, f);
        if (kept_is_hazard(limit))
            add_fed_past_warn(cautions, limit, f);
    }
}

void hazard_cautions(Cautions *cautions) {
    const PlanQuestion *question = cautions->plan->question;
    for (int i = 0; i < question->farm->limits.count; i++)
        add_limit(cautions, &question->farm->limits.limits[i]);
    add_salt(cautions);
    for (int f = 0; f < question->feed_count; f++) {
        if (!is_fed(cautions, f))
            continue;
        add_untested(cautions, f);
        add_ammoniated(cautions, f);
        add_ionophore(cautions, f);
    }
}
