/* The sheets that go along in the tractor: one of each group and period, each a section with
 * what to load in order, the scale's running total, what changes in the cold or while a feed is
 * brought in, what matters most for safety, and lines to write on. */
#ifndef OUTCOME_FEED_SHEETS_H
#define OUTCOME_FEED_SHEETS_H

#include "outcome/plan_findings.h"

Report *feed_sheets(Arena *arena, const PlanFindings *findings);

#endif
