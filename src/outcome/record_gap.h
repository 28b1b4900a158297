/* Days on which cattle had to eat and nothing was written down: what is on hand is then less
 * than the record says, and who reads "it lasts" must know. */
#ifndef OUTCOME_RECORD_GAP_H
#define OUTCOME_RECORD_GAP_H

#include "outcome/report.h"
#include "planner/farm.h"

/* Feeding days without a row of fed.csv or counts.csv up to this evening. */
int record_gap_days(const Farm *farm, Day evening);

/* So many are told. Own choice: a week's feeding may be one entry, and one may be late. */
#define RECORD_GAP_TOLD_DAYS 14
bool record_has_gap(const Farm *farm, Day evening);

/* A caution in the section that is open. */
void record_gap_remark(Report *report, const Farm *farm, Day evening);

#endif
