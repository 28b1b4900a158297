/* When each stack ends, and how long own feed lasts. */
#ifndef PLANNER_RUNOUT_H
#define PLANNER_RUNOUT_H

#include "planner/can_balance.h"

typedef struct {
    bool runs_out; /* before the last feeding day is over */
    Day last_fed;  /* the last day any of it is fed; meaningful when is_used */
    Day first_fed;
    bool is_used;
    double left_kg; /* as fed */
} StackRunout;

/* [own_count]. A ration is fed evenly through its period. A stack has run out when less than a
 * thousandth of it is left. */
const StackRunout *stack_runouts(Arena *arena, const WinterPlan *plan);

typedef struct {
    double gross_days;       /* dry_matter_kg / eaten_per_day_kg */
    double dry_matter_kg;    /* own, that can be eaten, of stacks that any group may have */
    double barred_kg;        /* as fed, of stacks that no group may have as things stand */
    double eaten_per_day_kg; /* by the herd when it is fed enough */
    int balanced_days;  /* from the first day, own feed with minerals and supplements bought */
    Day balanced_until; /* meaningful when balanced_days > 0 */
    bool lasts_all_winter;
    FirstShortage stopped_by; /* when it does not last: what falls short on the next day */
} DaysOnHand;

/* What the herd, or one group of it, eats a day when it is fed enough: what the plan gives it,
 * or, of a plan that is short, what it would eat. kg of dry matter, over the days there are
 * any. */
double eaten_per_day(const WinterPlan *plan);
double group_eaten_per_day(const WinterPlan *plan, int group);

/* How long own feed balances one group if no other had any of it. Only balanced_days and what
 * follows it are set. */
DaysOnHand group_days_on_hand(Arena *arena, const WinterPlan *plan, int group);

DaysOnHand days_on_hand(Arena *arena, const WinterPlan *plan);

/* By weight alone, which nothing is solved for: what stands before balanced_days. */
DaysOnHand days_by_weight(const WinterPlan *plan);

#endif
