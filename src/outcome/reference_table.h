/* Tables to hold against those in books: what a mature cow needs in each month since calving,
 * and a growing animal at each weight and gain. The same for every farm. */
#ifndef OUTCOME_REFERENCE_TABLE_H
#define OUTCOME_REFERENCE_TABLE_H

#include "outcome/measure.h"

/* Adds a section to the report and `reference_tables` to its figures. */
void reference_tables_add(Report *report, Units units);

#endif
