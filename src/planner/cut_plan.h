/* Next winter planned from the fields of next year: which fields to cut when and how, beside
 * what can be bought, so that the herd is fed at least cost; and the same where the days of
 * cutting, what may be bought, or the year are given. The herd, the days and the prices are
 * those of the winter asked for; stacks are this winter's feed and are left out.
 *
 * Costs are those of plan_least_cost: rations are not evened out and rules of the yard not
 * kept, which would cost each of these a little more. */
#ifndef PLANNER_CUT_PLAN_H
#define PLANNER_CUT_PLAN_H

#include "planner/field_columns.h"
#include "planner/winter_plan.h"

typedef enum {
    CUT_AS_PLANNED, /* any day and way of each field */
    CUT_EARLIEST,   /* each field on its first day */
    CUT_LATEST,     /* each field on its last */
    CUT_ON_DAY      /* each field on the day given, or its nearest to that */
} CutDays;

typedef struct {
    CutDays days;
    Day day;
    int barred_offer; /* of the inventory's offers: not to be bought; -1 none */
} CutFuture;

/* Of one year: made once, planned as often as is wanted. */
typedef struct {
    const Farm *farm; /* its stacks are what the cuts would make */
    GrowingYear year;
    PlanQuestion question;
} CutQuestion;

/* The farm has fields. */
CutQuestion cut_question(Arena *arena, const Farm *farm, GrowingYear year);

typedef struct {
    double growing; /* seed, cutting, land, putting up, hauling home */
    double grazing; /* what regrowth is worth */
    double surplus; /* what is left over fetches */
    double bought, hauling, yardage;
    double cautions; /* what passing caution lines weighs: no money */
    double total;    /* growing - grazing - surplus + bought + hauling + yardage + cautions */
} CutCost;

typedef struct {
    CutFuture future;
    PlanVerdict verdict;
    const PlanQuestion *question;
    WinterPlan plan;
    const double *hectares; /* [cut_count] */
    const double *made_kg;  /* [cut_count] as fed, what storage leaves of it */
    CutCost cost;
} CutPlan;

/* hectares: of each cut, as they are to be; NULL: those of the future that cost least.
 * price_per_kg of the offer that price_of names (-1: none) instead of its own. */
typedef struct {
    const double *hectares;
    int price_of;
    double price_per_kg;
} CutTerms;

CutPlan cut_plan(Arena *arena, const CutQuestion *of, CutFuture future,
                 const CutTerms *terms); /* terms NULL: none */

/* [feed_count] kg of dry matter a head and day that a group eats, the mean of its winter. */
const double *cut_mean_ration(Arena *arena, const CutPlan *plan, int group);

/* Whether a future lets a cut be made. */
bool cut_future_allows(const Fields *fields, CutFuture future, int cut);

/* The price of an offer at which two futures cost the same, nearest to its own between a
 * quarter and four times of it, found by planning again; NAN: there is none. */
typedef struct {
    double price_per_kg;            /* NAN: none */
    double low_per_kg, high_per_kg; /* what was looked at; where there is a price, just below
                                       and just above it */
    double first_low, second_low;   /* costs of both there */
    double first_high, second_high;
} CutTurn;

CutTurn cut_turn(const CutQuestion *of, CutFuture first, CutFuture second, int offer);

#endif
