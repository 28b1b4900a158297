#include "planner/ration_safety.h"
#include "base/text.h"
#include <assert.h>
#include <math.h>

/* Sulfur that the water brings, % of dry matter, from which it is to blame: a quarter of the
 * most there should be, water of 750 mg sulfate a litre. Own choice. */
#define WATER_BLAMED_PCT 0.10
/* Salt likewise: a quarter of the most, water of 740 mg of sodium a litre. */
#define WATER_BLAMED_SALT_PCT 0.75

/* What ratios are of in a kg of usual winter ration, for the way from their caution line to the
 * hard one (ration_caution.h). Own choice. */
#define USUAL_PHOSPHORUS_PCT 0.25
#define USUAL_PROTEIN_PCT 10.0
#define USUAL_SUPPLEMENT_PROTEIN_PCT 5.0 /* half of it, where the forage is poor */
#define USUAL_MOLYBDENUM_PPM 1.5
#define USUAL_CATIONS_MEQ 400.0 /* 0.5 % calcium and 0.2 % magnesium */
#define USUAL_SULFUR_LINE 0.8   /* four fifths forage */

/* Shares, sulfur and salt are of the dry matter that fills: limestone must not thin out straw,
 * nor the sulfur of a well. */
static const double *filling(Arena *arena, const PlanQuestion *question) {
    double *base = ration_row_numbers(arena, question);
    for (int feed = 0; feed < question->feed_count; feed++)
        base[feed] = ration_feed_fills(&question->feeds[feed]) ? 1.0 : 0.0;
    return base;
}

static const double *covered(Arena *arena, const PlanQuestion *question,
                             const SafetyLimit *safety) {
    double *values = ration_row_numbers(arena, question);
    for (int feed = 0; feed < question->feed_count; feed++) {
        const PlanFeed *of = &question->feeds[feed];
        const bool is_one =
            safety->kind == LIMIT_SHARE_ABOVE
                ? ration_known_or_none(of->eaten[safety->nutrient]) > safety->above
                : limit_covers(safety, of->feed);
        values[feed] = is_one ? 1.0 : 0.0;
    }
    return values;
}

static const double *weighted_sum(Arena *arena, const PlanQuestion *question,
                                  const Nutrient *nutrients, const double *factors, int count) {
    double *values = ration_row_numbers(arena, question);
    for (int feed = 0; feed < question->feed_count; feed++) {
        for (int i = 0; i < count; i++)
            values[feed] +=
                factors[i] * ration_known_or_none(question->feeds[feed].eaten[nutrients[i]]);
    }
    return values;
}

static double sulfur_of_water(const PlanQuestion *question) {
    const Winter *winter = &question->farm->winter;
    return water_adds(NUTRIENT_SULFUR, winter->water_sulfate_mg_per_l,
                      winter->water_nitrate_mg_per_l);
}

static const double *npn_protein(Arena *arena, const PlanQuestion *question) {
    double *values = ration_row_numbers(arena, question);
    for (int feed = 0; feed < question->feed_count; feed++) {
        const PlanFeed *of = &question->feeds[feed];
        values[feed] = of->feed->feed_class == FEED_CLASS_NPN
                           ? ration_known_or_none(of->eaten[NUTRIENT_CRUDE_PROTEIN])
                           : 0.0;
    }
    return values;
}

/* Of what supplements poor forage: of all feed where none is poor, so that the line says no
 * more there than the one on all protein does. */
static const double *supplement_protein(Arena *arena, const PlanQuestion *question) {
    double *values = ration_row_numbers(arena, question);
    for (int feed = 0; feed < question->feed_count; feed++) {
        const PlanFeed *of = &question->feeds[feed];
        const double protein = ration_known_or_none(of->eaten[NUTRIENT_CRUDE_PROTEIN]);
        const bool is_poor = feed_class_kind(of->feed->feed_class)->is_forage &&
                             protein < POOR_FORAGE_PROTEIN_PCT;
        values[feed] = is_poor ? 0.0 : protein;
    }
    return values;
}

/* Sulfur over the line sulfur_most_by_forage, without its level end, which is a limit of its
 * own: S X <= (0.18 + 0.80 F) X for dry matter X of which the share F is forage. */
static void set_sulfur_line(Arena *arena, const PlanQuestion *question, RationLimit *limit) {
    const double *fills = filling(arena, question);
    double *values = ration_row_numbers(arena, question);
    double *line = ration_row_numbers(arena, question);
    for (int feed = 0; feed < question->feed_count; feed++) {
        const PlanFeed *of = &question->feeds[feed];
        values[feed] = ration_known_or_none(of->eaten[NUTRIENT_SULFUR]) +
                       fills[feed] * sulfur_of_water(question);
        line[feed] =
            fills[feed] * SULFUR_WITHOUT_FORAGE +
            (feed_class_kind(of->feed->feed_class)->is_forage ? SULFUR_PER_FORAGE : 0.0);
    }
    limit->per_kg = values;
    limit->base = line;
    limit->usual_base = USUAL_SULFUR_LINE;
    limit->shown_times = 100.0;
}

static void set_ratio(Arena *arena, const PlanQuestion *question, const SafetyLimit *safety,
                      RationLimit *limit) {
    if (safety->subject == SUBJECT_SULFUR_LINE) {
        set_sulfur_line(arena, question, limit);
        return;
    }
    if (safety->subject == SUBJECT_COPPER_TO_MOLYBDENUM) {
        limit->per_kg = ration_row_eaten(arena, question, NUTRIENT_COPPER, 1.0);
        limit->base = ration_row_eaten(arena, question, NUTRIENT_MOLYBDENUM, 1.0);
        limit->usual_base = USUAL_MOLYBDENUM_PPM;
        return;
    }
    if (safety->subject == SUBJECT_CALCIUM_TO_PHOSPHORUS) {
        limit->per_kg = ration_row_eaten(arena, question, NUTRIENT_CALCIUM, 1.0);
        limit->base = ration_row_eaten(arena, question, NUTRIENT_PHOSPHORUS, 1.0);
        limit->usual_base = USUAL_PHOSPHORUS_PCT;
        return;
    }
    if (safety->subject == SUBJECT_NPN_PROTEIN) {
        limit->per_kg = npn_protein(arena, question);
        limit->base = ration_row_eaten(arena, question, NUTRIENT_CRUDE_PROTEIN, 1.0);
        limit->usual_base = USUAL_PROTEIN_PCT;
        return;
    }
    if (safety->subject == SUBJECT_NPN_SUPPLEMENT) {
        limit->per_kg = npn_protein(arena, question);
        limit->base = supplement_protein(arena, question);
        limit->usual_base = USUAL_SUPPLEMENT_PROTEIN_PCT;
        return;
    }
    static const Nutrient CATIONS[] = {NUTRIENT_CALCIUM, NUTRIENT_MAGNESIUM};
    static const double MEQ[] = {MEQ_CALCIUM, MEQ_MAGNESIUM};
    limit->per_kg = ration_row_eaten(arena, question, NUTRIENT_POTASSIUM, MEQ_POTASSIUM);
    limit->base = weighted_sum(arena, question, CATIONS, MEQ, 2);
    limit->usual_base = USUAL_CATIONS_MEQ;
}

/* Where water brings most of what there may be, all that thins it is dear to miss. */
static bool is_of_what_fills(const SafetyLimit *safety) {
    return safety->subject == SUBJECT_SALT ||
           (safety->subject == SUBJECT_NUTRIENT && safety->nutrient == NUTRIENT_SULFUR);
}

static void set_terms(Arena *arena, const PlanQuestion *question, const SafetyLimit *safety,
                      RationLimit *limit) {
    const Winter *winter = &question->farm->winter;
    switch (safety->kind) {
    case LIMIT_CONCENTRATION:
        limit->per_kg =
            safety->subject == SUBJECT_SALT
                ? ration_row_eaten(arena, question, NUTRIENT_SODIUM, SALT_PER_SODIUM)
                : ration_row_eaten(arena, question, safety->nutrient, 1.0);
        limit->base = is_of_what_fills(safety) ? filling(arena, question)
                                               : ration_row_ones(arena, question);
        if (safety->subject == SUBJECT_SALT)
            limit->added = water_adds_salt(winter->water_sodium_mg_per_l);
        if (safety->subject == SUBJECT_NUTRIENT)
            limit->added = water_adds(safety->nutrient, winter->water_sulfate_mg_per_l,
                                      winter->water_nitrate_mg_per_l);
        return;
    case LIMIT_SHARE:
    case LIMIT_SHARE_ABOVE:
        limit->per_kg = covered(arena, question, safety);
        limit->base = filling(arena, question);
        limit->shown_times = 100.0;
        return;
    case LIMIT_WEIGHT_SHARE:
        limit->per_kg = covered(arena, question, safety);
        return;
    case LIMIT_RATIO:
        set_ratio(arena, question, safety, limit);
        return;
    case LIMIT_DAYS_KEPT:
    case LIMIT_EACH_FEED:
    case LIMIT_WATER:
    case LIMIT_FACILITY:
    case LIMIT_KIND_COUNT:
        break;
    }
}

static bool is_of_npn(const SafetyLimit *safety) {
    return safety->subject == SUBJECT_NPN_PROTEIN || safety->subject == SUBJECT_NPN_SUPPLEMENT;
}

static const char *shown_unit(const SafetyLimit *safety) {
    switch (safety->kind) {
    case LIMIT_CONCENTRATION:
        return safety->subject == SUBJECT_NUTRIENT ? nutrient_kind(safety->nutrient)->unit
                                                   : "%";
    case LIMIT_SHARE:
    case LIMIT_SHARE_ABOVE:
        return "% of DM";
    case LIMIT_WEIGHT_SHARE:
        return "kg";
    case LIMIT_RATIO:
        return safety->subject == SUBJECT_SULFUR_LINE ? "% of the line" : "to 1";
    case LIMIT_DAYS_KEPT:
    case LIMIT_EACH_FEED:
    case LIMIT_WATER:
    case LIMIT_FACILITY:
    case LIMIT_KIND_COUNT:
        break;
    }
    return "";
}

static int shown_decimals(const SafetyLimit *safety) {
    switch (safety->kind) {
    case LIMIT_CONCENTRATION:
        return safety->subject == SUBJECT_NUTRIENT ? nutrient_kind(safety->nutrient)->decimals
                                                   : 1;
    case LIMIT_SHARE:
    case LIMIT_SHARE_ABOVE:
        return 0;
    case LIMIT_RATIO:
        if (is_of_npn(safety))
            return 2;
        return safety->subject == SUBJECT_SULFUR_LINE ? 0 : 1;
    case LIMIT_WEIGHT_SHARE:
    case LIMIT_DAYS_KEPT:
    case LIMIT_EACH_FEED:
    case LIMIT_WATER:
    case LIMIT_FACILITY:
    case LIMIT_KIND_COUNT:
        break;
    }
    return 1;
}

static bool has_any(const double *values, int count) {
    assert(values);
    for (int i = 0; i < count; i++) {
        if (values[i] != 0.0)
            return true;
    }
    return false;
}

/* Where there is little else, straw in the rumen is better than nothing in it: its share gives,
 * last near calving and in milk, and its weight, which they digest, does not. */
static double price_of_straw(const SafetyLimit *safety) {
    const StageSet in_need = STAGE_BIT(STAGE_LATE) | STAGE_BIT(STAGE_NURSING);
    if (safety->kind != LIMIT_SHARE || !text_same(safety->subject_text, "straw"))
        return NEVER_GIVES;
    return safety->stages & in_need ? GIVES_STRAW_LATE : GIVES_BALANCE;
}

/* Sulfur and salt that come with the water are drunk whatever is fed: starving cattle of feed
 * does not spare them these. Where tested water brings a good part of the limit, the limit
 * gives, dearly, and the report makes it a danger. What the feeds alone bring never gives. */
static double price_of_giving(const PlanQuestion *question, const SafetyLimit *safety) {
    if (safety->subject == SUBJECT_SALT)
        return water_adds_salt(question->farm->winter.water_sodium_mg_per_l) >
                       WATER_BLAMED_SALT_PCT
                   ? GIVES_SULFUR
                   : NEVER_GIVES;
    const bool is_sulfur =
        safety->subject == SUBJECT_SULFUR_LINE ||
        (safety->kind == LIMIT_CONCENTRATION && safety->subject == SUBJECT_NUTRIENT &&
         safety->nutrient == NUTRIENT_SULFUR);
    if (is_sulfur)
        return !question->farm->winter.sulfate_is_assumed &&
                       sulfur_of_water(question) > WATER_BLAMED_PCT
                   ? GIVES_SULFUR
                   : NEVER_GIVES;
    const bool is_balance = safety->kind == LIMIT_RATIO && !is_of_npn(safety);
    return is_balance ? GIVES_RATIO : price_of_straw(safety);
}

static double price_of_floor(const SafetyLimit *safety) {
    if (safety->kind == LIMIT_WEIGHT_SHARE)
        return GIVES_FORAGE;
    return safety->kind == LIMIT_RATIO ? GIVES_RATIO : GIVES_BALANCE;
}

/* A limit on what a ration holds, and not on a feed, the water or the bunk. */
static bool is_of_ration(const SafetyLimit *safety) {
    return safety->kind != LIMIT_EACH_FEED && safety->kind != LIMIT_WATER &&
           safety->kind != LIMIT_FACILITY && safety->kind != LIMIT_DAYS_KEPT;
}

/* Nothing to steer by: no feed is known to hold any of it, or any of what it is held against.
 */
static bool is_empty(const RationLimit *limit, int feed_count) {
    return (limit->base && !has_any(limit->base, feed_count)) ||
           (limit->safety->side == SIDE_MOST && !has_any(limit->per_kg, feed_count));
}

static void set_limit(Arena *arena, const PlanQuestion *question, const SafetyLimit *safety,
                      RationLimit *limit) {
    *limit = ration_row(safety->id, safety->label, shown_unit(safety), shown_decimals(safety));
    set_terms(arena, question, safety, limit);
    limit->safety = safety;
    limit->source = safety->source;
    limit->warn = safety->warn;
    limit->caution_price = safety->warn != safety->hard
                               ? safety->caution_price * question->farm->winter.caution_weight
                               : 0.0;
    *(safety->side == SIDE_MOST ? &limit->most : &limit->least) = safety->hard;
    if (safety->side == SIDE_MOST)
        limit->most_gives = price_of_giving(question, safety);
    else
        limit->least_gives = price_of_floor(safety);
    if (is_empty(limit, question->feed_count))
        limit->key = NULL;
}

const RationLimit *ration_safety_table(Arena *arena, const PlanQuestion *question) {
    const SafetyLimits *all = &question->farm->limits;
    RationLimit *table = ARENA_ARRAY(arena, RationLimit, all->count);
    for (int i = 0; i < all->count; i++) {
        if (limit_is_watched(&all->limits[i]) && is_of_ration(&all->limits[i]))
            set_limit(arena, question, &all->limits[i], &table[i]);
    }
    return table;
}

static void scale_bounds(RationLimit *limit, Mass live_weight) {
    limit->warn *= live_weight.kg;
    limit->least *= live_weight.kg;
    limit->most *= live_weight.kg;
}

void ration_safety_add(RationRows *rows) {
    const Farm *farm = rows->question->farm;
    const HerdGroup *group = &farm->herd.groups[rows->block->group];
    for (int i = 0; i < farm->limits.count; i++) {
        const SafetyLimit *safety = &farm->limits.limits[i];
        if (!rows->table->safety[i].key ||
            !limit_applies(safety, rows->block->need.stages, group->delivery))
            continue;
        const RationLimit *shared = &rows->table->safety[i];
        if (safety->kind == LIMIT_WEIGHT_SHARE)
            scale_bounds(ration_row_add(rows, *shared), rows->block->need.live_weight);
        else
            ration_row_list(rows, shared);
    }
}
