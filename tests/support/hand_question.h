/* A winter small enough to be worked by hand: plain round numbers instead of a farm that was
 * read.
 *
 * Unless a test says otherwise a feed is a grass hay of 90 % dry matter with NEm 1.2 and NEg
 * 0.6 Mcal a kg and a tenth wasted, so that one kg eaten takes 1 / 0.81 kg of the stack; and a
 * cow needs energy only, and eats between 9 and 12 kg whatever it is. */
#ifndef SUPPORT_HAND_QUESTION_H
#define SUPPORT_HAND_QUESTION_H

#include "planner/plan_question.h"

#define HAND_MOST 6

typedef struct {
    Farm farm;
    MineralNeeds minerals;
    HerdGroup groups[HAND_MOST];
    const char *names[HAND_MOST];
    SafetyLimit limits[HAND_MOST];
    Feedstuff stuffs[HAND_MOST];
    Allowance always;
    PlanFeed feeds[HAND_MOST];
    PlanBlock blocks[HAND_MOST];
    Permission permission[HAND_MOST * HAND_MOST];
    const SafetyLimit *barred_by[HAND_MOST * HAND_MOST];
    PlanQuestion question;
} HandQuestion;

/* From 1 November, both days fed. */
HandQuestion *hand_question(Arena *arena, int days);

/* Own feeds before those for sale; money is per kg as fed. */
PlanFeed *hand_own(HandQuestion *hand, const char *name, double value, double available_kg);
PlanFeed *hand_offer(HandQuestion *hand, const char *name, double price);

/* The next period, `days` long, of the last group added, or the first of a new one. */
PlanBlock *hand_group(HandQuestion *hand, const char *name, double head, double energy_mcal,
                      int days);
PlanBlock *hand_period(HandQuestion *hand, double energy_mcal, int days);

/* Lines of the safety table: as given; a most of a nutrient in the diet, or of feeds that the
 * table calls so, for all cattle, whose label is the id. */
SafetyLimit *hand_limit(HandQuestion *hand, SafetyLimit limit);
SafetyLimit *hand_nutrient_limit(HandQuestion *hand, const char *id, Nutrient nutrient,
                                 double warn, double hard);
SafetyLimit *hand_feeds_limit(HandQuestion *hand, const char *id, LimitKind kind,
                              const char *feeds, double warn, double hard);
SafetyLimit *hand_nitrate_limit(HandQuestion *hand, double hard_pct);

/* When all feeds are there: keeps one from a period for a limit, or outside its dates. */
void hand_bar(HandQuestion *hand, int block, int feed, const SafetyLimit *limit);
void hand_not_then(HandQuestion *hand, int block, int feed);

#endif
