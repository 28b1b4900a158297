/* What storage takes of a stack between two days: the loss that stack.h reckons to mid-winter,
 * day by day. docs/equations/inventory.md */
#ifndef STOCK_STACK_KEEPING_H
#define STOCK_STACK_KEEPING_H

#include "stock/stack.h"

/* Share of what lay there on `from` that still does on `to`; a day before the count is the day
 * of the count. Three stretches multiply: keeps from a to b, times b to c, is a to c. Where the
 * loss is the farmer's own figure, it is that at mid-winter, and rises as the table's does. */
double stack_keeps(const Stack *stack, Day from, Day to);

/* Its age in months on a day. */
double stack_age_on(const Stack *stack, Day day);

#endif
