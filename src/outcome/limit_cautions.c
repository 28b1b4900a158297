#include "outcome/limit_cautions.h"
#include "base/text.h"
#include "cattle/limit_feeds.h"
#include "outcome/day_words.h"
#include "planner/ration_row.h"
#include <math.h>

/* Of its number: no test tells so little apart, and rations are planned right up to it. */
#define AT_THE_LINE 5e-3

bool is_beyond_warn(const LimitOutcome *outcome) {
    const RationLimit *limit = outcome->limit;
    if (!limit->safety || isnan(limit->warn) || isnan(outcome->supplied))
        return false;
    const double close = AT_THE_LINE * fabs(limit->warn);
    return limit->safety->side == SIDE_MOST ? outcome->supplied > limit->warn + close
                                            : outcome->supplied < limit->warn - close;
}

/* Where one limit goes beyond its caution line: the groups, and the furthest it goes, which is
 * by how many times the line of that group: 5 kg of grain are more to a cow than to a bull. */
typedef struct {
    const RationLimit *limit;
    double furthest, times_line;
    int block;
    bool *is_meant; /* [groups] */
} Beyond;

#define AS_FAR 1e-5 /* of the value: of days as bad the first is told */

/* One topic is told to those it is meant for: what there is to do about nitrate differs with
 * the way they are fed. */
static Delivery delivery_in(const PlanQuestion *question, int block) {
    return question->farm->herd.groups[question->blocks[block].group].delivery;
}

static Beyond find_beyond(const Cautions *cautions, const char *key, CautionTopic topic) {
    const PlanQuestion *question = cautions->plan->question;
    Beyond beyond = {.limit = NULL,
                     .is_meant =
                         ARENA_ARRAY(cautions->arena, bool, question->farm->herd.count)};
    for (int b = 0; b < question->block_count; b++) {
        const BlockOutcome *block = &cautions->plan->blocks[b];
        for (int i = 0; i < block->limit_count; i++) {
            const LimitOutcome *outcome = &block->limits[i];
            if (!text_same(outcome->limit->key, key) || !is_beyond_warn(outcome) ||
                caution_topic_as_fed(outcome->limit->safety, delivery_in(question, b)) != topic)
                continue;
            const bool is_most = outcome->limit->safety->side == SIDE_MOST;
            const double line = outcome->limit->warn;
            const double times_line = line > 0.0 ? outcome->supplied / line : outcome->supplied;
            const double further = (times_line - beyond.times_line) * (is_most ? 1.0 : -1.0);
            const double as_far = AS_FAR * fabs(beyond.times_line);
            const bool is_sooner =
                beyond.limit && calendar_days_between(question->blocks[b].from,
                                                      question->blocks[beyond.block].from) > 0;
            if (!beyond.limit || further > as_far || (further >= -as_far && is_sooner)) {
                beyond.limit = outcome->limit;
                beyond.furthest = outcome->supplied;
                beyond.times_line = times_line;
                beyond.block = b;
            }
            beyond.is_meant[question->blocks[b].group] = true;
        }
    }
    return beyond;
}

static const char *shown(const Cautions *cautions, const RationLimit *limit, double value) {
    return limit_value_words(cautions->arena, cautions->units, limit, value);
}

static bool is_of_many(const Beyond *beyond, const PlanQuestion *question) {
    int count = 0;
    for (int g = 0; g < question->farm->herd.count; g++)
        count += beyond->is_meant[g];
    return count > 1;
}

static bool is_nitrate(const SafetyLimit *limit) {
    return limit->subject == SUBJECT_NUTRIENT && limit->nutrient == NUTRIENT_NITRATE;
}

#define WORTH_TELLING 0.01 /* of what a limit looks at; own choice */

/* ", 60 % of it not from a test": of nitrate and sulfur, what the book or the plan's reckoning
 * of untested feed and water brings; "". */
static const char *not_tested_words(const Cautions *cautions, const Beyond *beyond) {
    const SafetyLimit *safety = beyond->limit->safety;
    const PlanQuestion *question = cautions->plan->question;
    const BlockOutcome *of = &cautions->plan->blocks[beyond->block];
    if (safety->kind != LIMIT_CONCENTRATION || safety->subject != SUBJECT_NUTRIENT ||
        (safety->nutrient != NUTRIENT_NITRATE && safety->nutrient != NUTRIENT_SULFUR))
        return "";
    const Winter *winter = &question->farm->winter;
    const bool water_is_assumed = safety->nutrient == NUTRIENT_SULFUR
                                      ? winter->sulfate_is_assumed
                                      : winter->nitrate_is_assumed;
    double untested = 0.0, base_kg = 0.0;
    for (int f = 0; f < question->feed_count; f++) {
        const PlanFeed *feed = &question->feeds[f];
        if (reading_stands_in(feed->feed->analysis.of[safety->nutrient]))
            untested += ration_known_or_none(feed->eaten[safety->nutrient]) * of->eaten[f];
        base_kg += beyond->limit->base[f] * of->eaten[f];
    }
    untested += water_is_assumed ? beyond->limit->added * base_kg : 0.0;
    const double share = untested / (beyond->furthest * base_kg);
    return share < WORTH_TELLING
               ? ""
               : arena_print(cautions->arena, ", %.0f %% of it not from a test", share * 100.0);
}

/* A share that may be all of a diet is weighed, and forbids nothing. */
static bool is_of_all(const SafetyLimit *limit) {
    return (limit->kind == LIMIT_SHARE || limit->kind == LIMIT_SHARE_ABOVE) &&
           limit->side == SIDE_MOST && limit->hard >= 1.0;
}

static void add_beyond(Cautions *cautions, const SafetyLimit *safety, CautionTopic topic) {
    const Beyond beyond = find_beyond(cautions, safety->id, topic);
    if (!beyond.limit)
        return;
    const RationLimit *limit = beyond.limit;
    const PlanQuestion *question = cautions->plan->question;
    const PlanBlock *block = &question->blocks[beyond.block];
    const double hard = safety->side == SIDE_MOST ? limit->most : limit->least;
    const char *from = limit->warn > 0.0
                           ? arena_print(cautions->arena, "%s %s",
                                         safety->side == SIDE_MOST ? "from" : "below",
                                         shown(cautions, limit, limit->warn))
                           : "for any of it";
    const char *fact = arena_print(
        cautions->arena, "%s: %s, %s%s at the worst%s, %sfrom %s (%scaution %s%s)",
        group_words(cautions->arena, question, beyond.is_meant), safety->label,
        shown(cautions, limit, beyond.furthest), limit_of_what(limit),
        not_tested_words(cautions, &beyond),
        is_of_many(&beyond, question)
            ? arena_print(cautions->arena, "%s ", question->farm->herd.names[block->group])
            : "",
        day_short(cautions->arena, block->from),
        safety->kind == LIMIT_WEIGHT_SHARE && is_of_many(&beyond, question)
            ? "by their weight, "
            : "",
        from,
        is_of_all(safety)
            ? ""
            : arena_print(cautions->arena, ", limit %s", shown(cautions, limit, hard)));
    const bool is_past_hard =
        safety->side == SIDE_MOST && beyond.furthest > hard * (1.0 + 1e-6);
    caution_add(cautions, topic,
                is_nitrate(safety) || is_past_hard ? SEVERITY_DANGER : SEVERITY_CAUTION, fact,
                safety->source);
}

static double nitrate_of_water(const PlanQuestion *question) {
    const Winter *winter = &question->farm->winter;
    return water_adds(NUTRIENT_NITRATE, winter->water_sulfate_mg_per_l,
                      winter->water_nitrate_mg_per_l);
}

/* Where it is the water that takes a feed over the line. */
static const char *water_words(const Cautions *cautions, const PlanFeed *feed,
                               const SafetyLimit *limit) {
    if (feed->feed->nitrate_for_safety > limit->hard)
        return "";
    return arena_print(cautions->arena, ", the water adds %.3f %%,",
                       nitrate_of_water(cautions->plan->question));
}

/* The strictest line on nitrate that keeps a feed from a group, and whether it has none of it
 * all winter. */
typedef struct {
    const SafetyLimit *limit; /* NULL: none does */
    bool is_all_winter;
} Barred;

static Barred barred_from(const PlanQuestion *question, int group, int feed) {
    Barred barred = {NULL, true};
    for (int b = 0; b < question->block_count; b++) {
        const int at = b * question->feed_count + feed;
        if (question->blocks[b].group != group)
            continue;
        const bool is_over = question->permission[at] == OVER_A_LIMIT;
        if (is_over && is_nitrate(question->barred_by[at]) &&
            (!barred.limit || question->barred_by[at]->hard < barred.limit->hard))
            barred.limit = question->barred_by[at];
        barred.is_all_winter = barred.is_all_winter && question->permission[at] != MAY_BE_FED;
    }
    return barred;
}

/* What else of it wants a test before it is fed. */
static const char *wants_besides(const Feedstuff *feed) {
    if (limit_feeds_hold("untested_sorghum", feed))
        return "; it has no test of prussic acid either, and wants both";
    if (limit_feeds_hold("untested_sweet_clover", feed))
        return "; it is sweet clover and has no test of dicoumarol either, and wants both";
    return "";
}

/* So many that a feed and the line it is over are not told as the same number. */
static int decimals_apart(double a, double b) {
    return lround(a * 100.0) == lround(b * 100.0) ? 3 : 2;
}

/* How long, and why. */
static const char *barred_words(const Cautions *cautions, const PlanFeed *of, Barred barred) {
    const Feedstuff *feed = of->feed;
    const SafetyLimit *limit = barred.limit;
    const char *how_long = barred.is_all_winter ? "all winter" : "for a part of the winter";
    if (feed->nitrate_is_assumed && feed->nitrate_for_safety > limit->hard)
        return arena_print(cautions->arena,
                           "%s: it has no nitrate test, and this kind of crop can carry so "
                           "much that it is reckoned at %.1f %% NO3%s",
                           how_long, feed->nitrate_for_safety, wants_besides(feed));
    const int decimals = decimals_apart(feed->nitrate_for_safety, limit->hard);
    return arena_print(
        cautions->arena,
        "%s: it %sis reckoned at %.*f %% NO3%s and the most for them in any one feed is "
        "%.*f %%%s",
        how_long, feed->nitrate_is_assumed ? "has no nitrate test and " : "", decimals,
        feed->nitrate_for_safety, water_words(cautions, of, limit), decimals, limit->hard,
        limit->condition == CONDITION_NOT_MIXED ? ", because they are not fed mixed" : "");
}

/* Groups that may not have a feed because of its nitrate: one fact for those of whom the same
 * is to be said. */
static void add_barred(Cautions *cautions, int feed) {
    const PlanQuestion *question = cautions->plan->question;
    const PlanFeed *of = &question->feeds[feed];
    const int groups = question->farm->herd.count;
    const char **words = ARENA_ARRAY(cautions->arena, const char *, groups);
    Barred *barred = ARENA_ARRAY(cautions->arena, Barred, groups);
    for (int g = 0; g < groups; g++) {
        barred[g] = barred_from(question, g, feed);
        words[g] = barred[g].limit ? barred_words(cautions, of, barred[g]) : "";
    }
    const char *where =
        of->is_own
            ? arena_print(cautions->arena, " (%s)",
                          weight_words(cautions->arena, cautions->units, of->available_kg))
            : ", for sale,";
    for (int g = 0; g < groups; g++) {
        if (words[g][0] == '\0')
            continue;
        const char *said = words[g];
        bool *is_meant = ARENA_ARRAY(cautions->arena, bool, groups);
        for (int other = g; other < groups; other++) {
            is_meant[other] = text_same(words[other], said);
            if (is_meant[other])
                words[other] = "";
        }
        caution_add(cautions, of->feed->nitrate_is_assumed ? CAUTION_UNTESTED : CAUTION_NITRATE,
                    of->is_own ? SEVERITY_DANGER : SEVERITY_CAUTION,
                    arena_print(cautions->arena, "%s%s is kept from %s %s", of->name, where,
                                group_words(cautions->arena, question, is_meant), said),
                    barred[g].limit->source);
        where = "";
    }
}

/* A feed high in nitrate that is in a ration is named, with the most there is of it. */
#define HOT_NITRATE                                                                            \
    0.664 /* % NO3: 1,500 ppm NO3-N, from where feeds are rationed [CLEMSON_NITRATE] */

/* The limit on each feed alone whose caution line it passes, with the water, furthest; NULL. */
static const SafetyLimit *warned_alone(const PlanQuestion *question, int block, int feed) {
    const Farm *farm = question->farm;
    const double nitrate = question->feeds[feed].eaten[NUTRIENT_NITRATE];
    const SafetyLimit *lowest = NULL;
    for (int i = 0; i < farm->limits.count; i++) {
        const SafetyLimit *limit = &farm->limits.limits[i];
        if (limit->kind == LIMIT_EACH_FEED && is_nitrate(limit) && nitrate > 0.0 &&
            limit_applies(limit, question->blocks[block].need.stages,
                          delivery_in(question, block)) &&
            nitrate + nitrate_of_water(question) > limit->warn &&
            (!lowest || limit->hard < lowest->hard))
            lowest = limit;
    }
    return lowest;
}

#define AS_MUCH 1e-3 /* of a share: the first of days that differ by less is told */

/* "for Main cows past the caution line of any one feed, 0.66 % (limit 0.89 %)" of those of one
 * way of feeding that are given it; "". */
static const char *alone_past_words(const Cautions *cautions, int feed, bool to_mixed) {
    const PlanQuestion *question = cautions->plan->question;
    bool *is_meant = ARENA_ARRAY(cautions->arena, bool, question->farm->herd.count);
    const SafetyLimit *limit = NULL;
    for (int b = 0; b < question->block_count; b++) {
        if (cautions->plan->blocks[b].eaten[feed] <= 0.0 ||
            (delivery_in(question, b) == DELIVERY_MIXED) != to_mixed)
            continue;
        const SafetyLimit *of = warned_alone(question, b, feed);
        is_meant[question->blocks[b].group] |= of != NULL;
        if (of && (!limit || of->hard < limit->hard))
            limit = of;
    }
    if (!limit)
        return "";
    const double water = nitrate_of_water(question);
    return arena_print(
        cautions->arena,
        "; %sfor %s that is past the caution line of any one feed, %.2f %% "
        "(limit %.2f %%)",
        water > 0.0 ? arena_print(cautions->arena, "with %.3f %% from the water, ", water) : "",
        group_words(cautions->arena, question, is_meant), limit->warn, limit->hard);
}

static void add_hot_feed(Cautions *cautions, int feed, bool to_mixed) {
    const WinterPlan *plan = cautions->plan;
    const PlanQuestion *question = plan->question;
    const PlanFeed *of = &question->feeds[feed];
    bool *is_meant = ARENA_ARRAY(cautions->arena, bool, question->farm->herd.count);
    bool is_hot = of->eaten[NUTRIENT_NITRATE] > HOT_NITRATE;
    double most = 0.0;
    int block = 0;
    int groups = 0;
    const Day *first = NULL;
    for (int b = 0; b < question->block_count; b++) {
        if (plan->blocks[b].eaten[feed] <= 0.0 ||
            (delivery_in(question, b) == DELIVERY_MIXED) != to_mixed)
            continue;
        if (!first || calendar_days_between(question->blocks[b].from, *first) > 0)
            first = &question->blocks[b].from;
        is_hot = is_hot || warned_alone(question, b, feed);
        groups += !is_meant[question->blocks[b].group];
        is_meant[question->blocks[b].group] = true;
        const double share = caution_share_eaten(cautions, b, feed);
        const bool is_as_much = share >= most * (1.0 - AS_MUCH);
        const bool is_sooner =
            calendar_days_between(question->blocks[b].from, question->blocks[block].from) > 0;
        if (share > most * (1.0 + AS_MUCH) || (is_as_much && is_sooner))
            block = b;
        most = fmax(most, share);
    }
    if (!is_hot || most <= 0.0 || !first)
        return;
    caution_add(
        cautions, to_mixed ? CAUTION_NITRATE : CAUTION_PICKED_NITRATE, SEVERITY_DANGER,
        arena_print(cautions->arena,
                    "%s, reckoned at %.2f %% NO3, is fed %sto %s, up to %.0f %% of the diet "
                    "(%sfrom %s)%s",
                    of->name, of->eaten[NUTRIENT_NITRATE],
                    calendar_days_between(*first, question->blocks[block].from) > 0
                        ? arena_print(cautions->arena, "from %s on ",
                                      day_short(cautions->arena, *first))
                        : "",
                    group_words(cautions->arena, question, is_meant), most * 100.0,
                    groups > 1
                        ? arena_print(cautions->arena, "%s ",
                                      question->farm->herd.names[question->blocks[block].group])
                        : "",
                    day_short(cautions->arena, question->blocks[block].from),
                    alone_past_words(cautions, feed, to_mixed)),
        SOURCE_CLEMSON_NITRATE);
}

void limit_cautions(Cautions *cautions) {
    const PlanQuestion *question = cautions->plan->question;
    for (int f = 0; f < question->feed_count; f++)
        add_barred(cautions, f);
    for (int f = 0; f < question->feed_count; f++) {
        add_hot_feed(cautions, f, true);
        add_hot_feed(cautions, f, false);
    }
    const SafetyLimits *limits = &question->farm->limits;
    for (int i = 0; i < limits->count; i++) {
        const SafetyLimit *limit = &limits->limits[i];
        if (!limit_is_watched(limit))
            continue;
        add_beyond(cautions, limit, caution_topic(limit));
        if (is_nitrate(limit))
            add_beyond(cautions, limit, CAUTION_PICKED_NITRATE);
    }
}
