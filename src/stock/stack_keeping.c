#include "stock/stack_keeping.h"
#include <math.h>

#define MOST_LOST 0.95   /* as in storage_loss.c: something is always left to count */
#define LITTLE_LOST 1e-9 /* by the table: it tells no shape then */

static int days_since_count(const Stack *stack, Day day) {
    const int days = calendar_days_between(stack->counted, day);
    return days > 0 ? days : 0;
}

double stack_age_on(const Stack *stack, Day day) {
    return stack->age_months + days_since_count(stack, day) / STORAGE_DAYS_PER_MONTH;
}

static double lost_by_table(const Stack *stack, int days) {
    if (!stack->storage)
        return 0.0; /* it could not be read, and a fault says so */
    return storage_loss_between(stack->storage->loss, stack->age_months,
                                stack->age_months + days / STORAGE_DAYS_PER_MONTH);
}

/* Of what was counted. */
static double lost_since_count(const Stack *stack, int days) {
    if (!stack->loss_is_users)
        return lost_by_table(stack, days);
    if (stack->wait_days == 0)
        return days == 0 ? 0.0 : stack->loss_share;
    const double by_middle = lost_by_table(stack, stack->wait_days);
    const double risen = by_middle > LITTLE_LOST ? lost_by_table(stack, days) / by_middle
                                                 : (double)days / stack->wait_days;
    return fmin(stack->loss_share * risen, MOST_LOST);
}

double stack_keeps(const Stack *stack, Day from, Day to) {
    return (1.0 - lost_since_count(stack, days_since_count(stack, to))) /
           (1.0 - lost_since_count(stack, days_since_count(stack, from)));
}
