/* What each stack and feed for sale is, by which route its energy was found, and where every
 * figure comes from. */
#ifndef OUTCOME_FEEDS_REPORT_H
#define OUTCOME_FEEDS_REPORT_H

#include "outcome/measure.h"
#include "planner/farm.h"

Report *feeds_report(Arena *arena, const Farm *farm, Units units);

#endif
