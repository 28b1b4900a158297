/* What it may mean that a recount and the record disagree: other bales than were written in
 * stacks.csv, feedings nobody wrote down, or more waste. Offered, never applied. */
#ifndef STOCK_RECOUNT_MEANING_H
#define STOCK_RECOUNT_MEANING_H

#include "stock/stack_book.h"

typedef struct {
    double off_kg; /* less than the record says; below 0: more */
    bool is_unfed; /* by the record nothing of it was fed by then */
    /* Times what stacks.csv says of its weight, the record and the recount agree. NAN: no
     * weight of a bale, or of the pile, explains it. */
    double weight_times;
    double new_written; /* so much in the cell of weight_cell; NAN likewise */
    double bales_off;   /* bales gone that nobody wrote down; NAN: not all is in bales */
    double waste_share; /* if all that left was fed out and no more was eaten; NAN */
} RecountMeaning;

/* Of the last recount up to that day. false: there is none, or it is within
 * RECOUNT_AGREES_SHARE of what the stack started with. */
bool recount_meaning(const Inventory *inventory, const FeedRecord *record, int place, Day day,
                     RecountMeaning *meaning);

/* Own choice: nobody counts closer than this. */
#define RECOUNT_AGREES_SHARE 0.01

/* Whether another stack was measured in the same way, so that it may be off by as much: put up
 * the same, its weight from the same kind of cell, and never recounted. */
bool measured_alike(const Inventory *inventory, const FeedRecord *record, int a, int b);

#endif
