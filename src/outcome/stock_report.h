/* What is on hand on a day of the winter: of each stack what is left by the record and when it
 * runs out, how long own feed lasts, and what the recounts say of the stacks' weights. */
#ifndef OUTCOME_STOCK_REPORT_H
#define OUTCOME_STOCK_REPORT_H

#include "outcome/measure.h"
#include "planner/runout.h"

/* What says when a stack runs out. */
typedef enum {
    RUNOUT_BY_RECENT, /* fed on at the rate of the last BOOK_RECENT_DAYS */
    RUNOUT_BY_PLAN,   /* the plan of the rest of winter, made from what is left */
    RUNOUT_EMPTY,     /* it has run out */
    RUNOUT_NONE       /* it is not fed, or lasts past the last feeding day */
} RunoutBasis;

typedef struct {
    int stack;
    StackBook book; /* of the evening */
    RunoutBasis basis;
    bool is_planned; /* the plan of the rest of winter feeds it */
    Day last_fed; /* of RUNOUT_BY_RECENT and RUNOUT_BY_PLAN: the last day there is enough of it
                   */
} StockStack;

typedef struct {
    const Farm *farm; /* the whole winter, as counted */
    Day day;
    const StockStack *stacks; /* what runs out first, first; then what lasts; then the empty */
    int stack_count;
    /* The rest of winter, from the next morning; NULL where no two feeding days are left. */
    WinterPlan *rest; /* its `winters` are drawn by who asks for them */
    DaysOnHand days;
    const DaysOnHand *group_days; /* [groups of the rest] each group alone */
    double needed_kg; /* dry matter to reach the last day with the carry-over wanted */
} StockFindings;

StockFindings stock_findings(Arena *arena, const Farm *farm, Day day);

/* Whether the rest of winter cannot be balanced, all that is for sale included. */
bool stock_is_short(const StockFindings *findings);

/* Of what was fed out of a stack, wasted by the share of its way of feeding. */
double stock_wasted_kg(const StockFindings *findings, const StockStack *of);

Report *stock_report(Arena *arena, const StockFindings *findings, Units units);

/* stock_chance.c: the chance that the plan of the rest of winter lasts, where it was drawn */
const char *stock_chance_words(Arena *arena, const StockFindings *findings);
void stock_report_chance(Report *report, const StockFindings *findings, Units units);

/* stock_bought.c: after the books */
void stock_report_bought(Report *report, const StockFindings *findings, Units units);
void stock_bought_figures(Figure *root, const StockFindings *findings);

/* stock_recounts.c, stock_figures.c */
void stock_report_recounts(Report *report, const StockFindings *findings, Units units);
void stock_figures(Figure *root, const StockFindings *findings);

#endif
