/* Which rules of the yard a farm has switched on: settings of winter.csv, and the least face of
 * a stack. */
#ifndef PLANNER_YARD_RULE_H
#define PLANNER_YARD_RULE_H

#include "planner/plan_question.h"

typedef enum {
#define YARD_RULE(id, key, words) YARD_RULE_##id,
#include "planner/yard_rule.def"
#undef YARD_RULE
    YARD_RULE_COUNT
} YardRule;

const char *yard_rule_key(YardRule rule);
const char *yard_rule_words(YardRule rule);

typedef struct {
    bool is_on[YARD_RULE_COUNT];
} YardRules;

YardRules yard_rules_asked(const PlanQuestion *question);
int yard_rules_count(const YardRules *rules);

/* Weeks in which a whole number of bales is given: one, but two or four where the group would
 * eat fewer than ten or five of them a week and nothing else, because half a bale is then much
 * of what it eats; never more than the period has. Own choice. */
int yard_bale_weeks(const PlanBlock *block, const PlanFeed *feed);

/* Bales of a feed in that time for one kg of dry matter eaten a head and day. */
double yard_bales_per_eaten(const PlanBlock *block, const PlanFeed *feed);

/* Doubts of rules that have nothing to hold: no load size, no bales, one face only. */
void yard_rules_doubt(Faults *faults, const Farm *farm);

#endif
