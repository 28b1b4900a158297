/* Feed the cattle or sell some: what a head fewer from a day on saves this winter, how many
 * fewer would need nothing bought, and what a week more or less of winter costs. */
#ifndef OUTCOME_SHIP_REPORT_H
#define OUTCOME_SHIP_REPORT_H

#include "outcome/measure.h"
#include "planner/head_worth.h"

/* A day of the farm's files, moved a week. */
typedef struct {
    const char *what; /* "Last feeding day", "Weaning of Main cows" */
    Day day;
    double sooner, later; /* dollars the winter then costs more, yardage with it; NAN: it cannot
                             be planned */
} MovedDay;

typedef struct {
    const Herd *herd;
    Day from;
    const HeadWorth *worth; /* [herd->count] */
    const MovedDay *days;
    int day_count;
} Shipping;

void ship_report_add(Report *report, const Shipping *shipping);

#endif
