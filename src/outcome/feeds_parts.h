/* The parts of the report of feeds, each a file of its own. */
#ifndef OUTCOME_FEEDS_PARTS_H
#define OUTCOME_FEEDS_PARTS_H

#include "outcome/measure.h"
#include "planner/farm.h"

typedef struct {
    Report *report;
    const Farm *farm;
    Units units;
} Feeds;

/* Own stacks first, then what is for sale. */
int feeds_count(const Farm *farm);
const Feedstuff *feeds_at(const Farm *farm, int place);

void feeds_add_trust(const Feeds *feeds);         /* how far to trust the tests */
void feeds_add_worth_testing(const Feeds *feeds); /* what to order from the laboratory */
void feeds_add_flags(const Feeds *feeds);
void feeds_add_figures(const Feeds *feeds); /* the root of the JSON */

#endif
