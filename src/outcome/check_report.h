/* What was read, and whether it can be planned with. The faults themselves are printed by
 * whoever asked, with their places; here they are counted and listed as figures. */
#ifndef OUTCOME_CHECK_REPORT_H
#define OUTCOME_CHECK_REPORT_H

#include "base/fault.h"
#include "outcome/measure.h"
#include "planner/farm.h"

Report *check_report(Arena *arena, const Faults *faults, const Farm *farm);

#endif
