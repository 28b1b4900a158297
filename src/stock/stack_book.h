/* The book of one stack through the winter: what it started with, what was fed out of it, what
 * storage took, what a recount found more or less, and what is left. All in kg as it lies; of
 * dry matter it is the stack's share of that. On every day
 *
 *     started = fed + loss + missing + left
 *
 * Feeding waste is a part of what was fed. */
#ifndef STOCK_STACK_BOOK_H
#define STOCK_STACK_BOOK_H

#include "stock/feed_record.h"

typedef enum {
    BOOK_IN_THE_MORNING, /* before that day is fed; a recount of that day holds */
    BOOK_IN_THE_EVENING  /* when it was fed */
} BookHour;

typedef struct {
    double started_kg;
    double fed_kg;  /* out of the stack, waste and all */
    double loss_kg; /* in storage */
    /* Less there than the record says, found by a recount; below 0: more, or more was written
     * as fed than there was. */
    double missing_kg;
    double left_kg;
    double bale_kg;           /* one of its bales on that day; 0 not in bales */
    double left_bales;        /* of left_kg; 0 not in bales */
    double recent_kg_per_day; /* fed over the last BOOK_RECENT_DAYS, or since it was opened */
    bool was_fed_recently;
    bool is_marked_empty;                    /* by the last recount */
    const Recount *recount;                  /* the last; NULL: never recounted */
    double before_recount_kg, at_recount_kg; /* by the record, and as counted */
    double weighed_out_kg; /* fed since the last count and written as a weight, less what
                              storage would have taken of it by now */
} StackBook;

/* The span that says how fast a stack is fed now. Own choice: long enough to even out days
 * without a feeding, short enough to see a change. */
#define BOOK_RECENT_DAYS 14
/* A stack opened less long ago tells no rate: a week may be one entry. */
#define BOOK_FEWEST_DAYS 7

StackBook stack_book(const Inventory *inventory, const FeedRecord *record, int place, Day day,
                     BookHour hour);

/* Out of the stacks for a group between two days, both included, as written; kg as it lies. */
double feedings_kg(const Inventory *inventory, const FeedRecord *record, int place,
                   const char *group, Day from, Day to);

/* How far what is left may be from the book, one standard error as a share of it. What was
 * written in bales goes wrong with the weight of the stack; what went over a scale does not,
 * and leaves all the error of the stack on what is left, until that is counted again. */
double stack_left_error_share(const Stack *stack, const StackBook *book);

/* Of a feed for sale to the end of a day, by all groups, as written; kg as it lies. */
double bought_feedings_kg(const FeedRecord *record, int offer, Day to);

/* Doubts at the rows that take more than there is, at feedings from a stack marked empty, and
 * at recounts that find more than there ever was. */
void stack_books_doubt(Faults *faults, const Inventory *inventory, const FeedRecord *record);

#endif
