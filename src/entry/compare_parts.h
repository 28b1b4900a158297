/* The parts of a comparison that plan anew many times: for task_compare.c alone. */
#ifndef ENTRY_COMPARE_PARTS_H
#define ENTRY_COMPARE_PARTS_H

#include "entry/future.h"
#include "outcome/comparison.h"

/* What each future that was planned costs as one number changes; what_ifs[count] beside the
 * futures, the first without changes. False when a fault was added: of the number that was
 * asked for. */
bool compare_varied(Report *report, Faults *faults, const FarmRequest *request,
                    const Comparison *comparison, const WhatIf *what_ifs);

/* What a head fewer saves, of each group, and a week more or less of winter. False when a fault
 * was added: on the day that was asked for the winter is over. */
bool compare_shipped(Report *report, Faults *faults, const FarmRequest *request,
                     const PlanQuestion *question);

#endif
