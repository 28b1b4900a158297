/* What the command fed has written down or taken back, and what is left of that stack. */
#ifndef OUTCOME_FED_REPORT_H
#define OUTCOME_FED_REPORT_H

#include "outcome/measure.h"
#include "planner/farm.h"

typedef struct {
    bool is_recount, is_undone;
    Day date;
    const char *group, *stack; /* by name */
    const char *number;        /* of the amount, as typed */
    AmountUnit unit;
    const char
        *removed; /* of an undone entry: its row as it stood; the four above are not set */
} FedEntry;

/* `farm` has the record as it is now. */
Report *fed_report(Arena *arena, const Farm *farm, Units units, const FedEntry *entry);

#endif
