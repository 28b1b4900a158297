/* The list the cautions of a plan are gathered in, and their topics (caution.def). For
 * plan_cautions.c, limit_cautions.c, hazard_cautions.c and feed_sheet_words.c alone. */
#ifndef OUTCOME_CAUTION_LIST_H
#define OUTCOME_CAUTION_LIST_H

#include "outcome/plan_findings.h"

typedef enum {
#define CAUTION(id, topic, text) CAUTION_##id,
#include "outcome/caution.def"
#undef CAUTION
    CAUTION_COUNT
} CautionTopic;

typedef struct {
    Arena *arena;
    const WinterPlan *plan;
    Units units;
    Caution *list;
    int count, room;
} Cautions;

/* At the end; the list grows. */
void caution_add(Cautions *cautions, CautionTopic topic, Severity severity, const char *fact,
                 SourceKey source);

/* What a feed is of the dry matter that fills them: as the limits on shares reckon it, without
 * minerals and urea. */
double caution_share_eaten(const Cautions *cautions, int block, int feed);

/* What is said on a topic. */
const char *caution_advice(CautionTopic topic);

/* A value a limit looks at, in the units of the page. */
const char *limit_value_words(Arena *arena, Units units, const RationLimit *limit,
                              double value);
/* What its kilograms or pounds are of, to stand behind them; "" where it is no weight. */
const char *limit_of_what(const RationLimit *limit);

/* The topic of a limit: what its advice is about. To cattle that can pick one feed out nobody
 * says to mix it: what they may have is kept low by the limit on each feed. Other feed first is
 * common practice, no source. */
CautionTopic caution_topic(const SafetyLimit *safety);
CautionTopic caution_topic_as_fed(const SafetyLimit *safety, Delivery delivery);

#endif
