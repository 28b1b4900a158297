/* The farm as it is and as it might be, planned and set side by side. */
#ifndef OUTCOME_COMPARISON_H
#define OUTCOME_COMPARISON_H

#include "outcome/plan_findings.h"
#include "planner/cost_error.h"
#include "planner/least_cost.h"

typedef struct {
    const char *name;         /* "As it is", or that of the what-if */
    const char *const *words; /* of each change */
    int word_count;
    double own_cost; /* dollars that the what-if brings besides; below 0 income */
    const char *cost_words;
    const WinterPlan *plan; /* NULL: the what-if has faults, and nothing below is known */
    LeastCost least;        /* beside the others; of a balanced plan */
    const CostError *errors;
    DaysOnHand days;
    const Caution *cautions;
    int caution_count;
    int danger_topics, caution_topics; /* as the page of its plan tells them */
    double on_hand_value;              /* dollars its own feed would fetch on the first day */
    double left_kg;                    /* own feed, as fed */
    double head_days;
    double chance_of_turnout; /* share of winters that its feed lasts through; NAN: not
                                 reckoned */
} Future;

/* Plans nothing: works out what is set beside that of others. */
Future future_of(Arena *arena, const char *name, const WinterPlan *plan, double own_cost,
                 Units units);

/* Dollars: feed and hauling at the least, yardage, what the what-if brings besides, and what
 * passing caution lines weighs. NAN where no balanced plan is known. Of the least cost, not of
 * rations evened out within the farm's share of it: a difference of two futures must not be one
 * of evenness. */
double future_cost(const Future *future);

typedef struct {
    const Future *futures; /* the first is the farm as it is */
    int count;
    Units units;
} Comparison;

/* Whether it feeds as many days of cattle as the farm as it is: fewer cattle, or fewer days,
 * cost less without being fed any cheaper. */
bool comparison_is_same_herd(const Comparison *comparison, const Future *future);

/* Whether it is ranked with it: it feeds the same herd, and weighs caution lines alike. */
bool comparison_is_ranked(const Comparison *comparison, const Future *future);

/* The place of the cheapest, from `first` on, of those that are balanced and ranked with
 * the farm as it is, the earlier of equals; -1: none is. */
int comparison_cheapest(const Comparison *comparison, int first);

#define ERRORS_OF_A_DIFFERENCE 2.0 /* about 19 times in 20, were errors as a bell has them */

/* Whether a difference is one: more than twice its standard error. */
typedef enum { DIFFERENCE_NONE, DIFFERENCE_WITHIN_ERROR, DIFFERENCE_BEYOND_ERROR } Difference;
typedef struct {
    double more;     /* dollars that b costs more than a; NAN */
    double standard; /* its standard error; NAN */
    Difference is;
} CostDifference;
CostDifference comparison_difference(const Future *a, const Future *b);

Report *comparison_report(Arena *arena, const Comparison *comparison);

/* kg as fed of a feed put out a head and day, the mean over the group's days. */
double comparison_mean_kg(const WinterPlan *plan, int group, const char *feed);

/* A first column, and one of numbers a future. */
const ReportColumn *comparison_columns(Arena *arena, const Comparison *comparison,
                                       const char *key, const char *label, const char *unit);

/* Parts: comparison_pairs.c, comparison_purchases.c, comparison_rations.c,
 * comparison_cautions.c, comparison_remarks.c, comparison_figures.c */
void comparison_add_remarks(Report *report, const Comparison *comparison);
void comparison_add_purchases(Report *report, const Comparison *comparison);
void comparison_add_pairs(Report *report, const Comparison *comparison);
void comparison_add_rations(Report *report, const Comparison *comparison);
void comparison_add_cautions(Report *report, const Comparison *comparison);
void comparison_figures(Figure *root, const Comparison *comparison);

#endif
