#include "outcome/caution_list.h"
#include "base/text.h"
#include <string.h>

static const char *const TOPICS[CAUTION_COUNT] = {
#define CAUTION(id, topic, text) topic,
#include "outcome/caution.def"
#undef CAUTION
};
static const char *const ADVICE[CAUTION_COUNT] = {
#define CAUTION(id, topic, text) text,
#include "outcome/caution.def"
#undef CAUTION
};

const char *caution_advice(CautionTopic topic) { return ADVICE[topic]; }

#define FIRST_ROOM 32

static void make_room(Cautions *cautions) {
    const int room = cautions->room > 0 ? 2 * cautions->room : FIRST_ROOM;
    Caution *list = ARENA_ARRAY(cautions->arena, Caution, room);
    if (cautions->count > 0)
        memcpy(list, cautions->list, (size_t)cautions->count * sizeof *list);
    cautions->list = list;
    cautions->room = room;
}

void caution_add(Cautions *cautions, CautionTopic topic, Severity severity, const char *fact,
                 SourceKey source) {
    if (cautions->count == cautions->room)
        make_room(cautions);
    cautions->list[cautions->count++] =
        (Caution){TOPICS[topic], severity, fact, ADVICE[topic],
                  source == SOURCE_NONE ? "" : source_key(source)};
}

double caution_share_eaten(const Cautions *cautions, int block, int feed) {
    const BlockOutcome *of = &cautions->plan->blocks[block];
    return of->eaten[feed] > 0.0 ? of->eaten[feed] / of->filling_kg : 0.0;
}

static CautionTopic topic_of_feeds(const SafetyLimit *safety) {
    static const struct {
        const char *subject;
        CautionTopic topic;
    } TOPIC_OF[] = {
        {"straw", CAUTION_STRAW},
        {"grain", CAUTION_GRAIN},
        {"forage", CAUTION_FORAGE},
        {"urea", CAUTION_UREA},
        {"vetch", CAUTION_PLANTS},
        {"kochia", CAUTION_PLANTS},
        {"buckwheat", CAUTION_PLANTS},
        {"ammoniated", CAUTION_AMMONIATED},
        {"ammoniated_amiss", CAUTION_AMMONIATED},
        {"frozen_lumps", CAUTION_FROZEN},
        {"untested_sweet_clover", CAUTION_SWEET_CLOVER},
        {"mouldy_sweet_clover", CAUTION_SWEET_CLOVER},
        {"untested_ergot", CAUTION_TOXIN},
        {"untested_toxins", CAUTION_TOXIN},
        {"frosted_sorghum", CAUTION_PRUSSIC_ACID},
        {"untested_sorghum_silage", CAUTION_PRUSSIC_ACID},
    };
    for (size_t i = 0; i < sizeof TOPIC_OF / sizeof TOPIC_OF[0]; i++) {
        if (text_same(safety->subject_text, TOPIC_OF[i].subject))
            return TOPIC_OF[i].topic;
    }
    return CAUTION_SHARE;
}

static CautionTopic topic_of_nutrient(Nutrient nutrient) {
    static const struct {
        Nutrient nutrient;
        CautionTopic topic;
    } TOPIC_OF[] = {
        {NUTRIENT_NITRATE, CAUTION_NITRATE},
        {NUTRIENT_SULFUR, CAUTION_SULFUR},
        {NUTRIENT_CRUDE_FAT, CAUTION_FAT},
        {NUTRIENT_CRUDE_PROTEIN, CAUTION_PROTEIN},
        {NUTRIENT_MAGNESIUM, CAUTION_BALANCE},
        {NUTRIENT_PRUSSIC_ACID_DRY, CAUTION_PRUSSIC_ACID},
        {NUTRIENT_PRUSSIC_ACID_WET, CAUTION_PRUSSIC_ACID},
        {NUTRIENT_DICOUMAROL, CAUTION_SWEET_CLOVER},
        {NUTRIENT_BALED_SILAGE_PH, CAUTION_BALED_SILAGE},
    };
    for (size_t i = 0; i < sizeof TOPIC_OF / sizeof TOPIC_OF[0]; i++) {
        if (TOPIC_OF[i].nutrient == nutrient)
            return TOPIC_OF[i].topic;
    }
    return nutrient_is_hazard(nutrient) ? CAUTION_TOXIN : CAUTION_MINERAL;
}

CautionTopic caution_topic(const SafetyLimit *safety) {
    switch (safety->subject) {
    case SUBJECT_FEEDS:
        return topic_of_feeds(safety);
    case SUBJECT_SALT:
        return CAUTION_SALT;
    case SUBJECT_NPN_PROTEIN:
    case SUBJECT_NPN_SUPPLEMENT:
    case SUBJECT_UREA_BESIDE:
        return CAUTION_UREA;
    case SUBJECT_CALCIUM_TO_PHOSPHORUS:
        return CAUTION_CALCIUM;
    case SUBJECT_TETANY_RATIO:
        return CAUTION_BALANCE;
    case SUBJECT_SULFUR_LINE:
        return CAUTION_SULFUR;
    case SUBJECT_COPPER_TO_MOLYBDENUM:
        return CAUTION_COPPER;
    case SUBJECT_HEATED:
        return CAUTION_HEATED;
    case SUBJECT_WATER_SULFATE:
    case SUBJECT_WATER_NITRATE:
    case SUBJECT_WATER_SOLIDS:
        return CAUTION_BAD_WATER;
    case SUBJECT_BUNK:
        return CAUTION_BUNK;
    case SUBJECT_NUTRIENT:
    case SUBJECT_NOT_WATCHED:
        break;
    }
    return topic_of_nutrient(safety->nutrient);
}

CautionTopic caution_topic_as_fed(const SafetyLimit *safety, Delivery delivery) {
    const CautionTopic topic = caution_topic(safety);
    return topic == CAUTION_NITRATE && delivery != DELIVERY_MIXED ? CAUTION_PICKED_NITRATE
                                                                  : topic;
}

#define HANDFUL_KG 1.0 /* a limit below it is told in grams or ounces */

const char *limit_value_words(Arena *arena, Units units, const RationLimit *limit,
                              double value) {
    if (text_same(limit->unit, "kg"))
        return measure_words(
            arena, units, limit->most < HANDFUL_KG ? MEASURE_SMALL_FEED : MEASURE_FEED, value);
    return arena_print(arena, "%.*f %s", limit->decimals, value * limit->shown_times,
                       limit->unit);
}

const char *limit_of_what(const RationLimit *limit) {
    return text_same(limit->unit, "kg") ? " of dry matter eaten" : "";
}
