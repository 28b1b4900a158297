/* How a feed that can harm cattle not used to it is brought in: grain and meals by steps, feed
 * high in nitrate, brassicas and urea by quarters, with other forage of the ration in their
 * place meanwhile. Worked out of a plan after it is made: its rations are those fed once all is
 * in.
 *
 * Grain (and screenings) goes up by at most 1 lb a head each second day [UNL_LIMIT_FEEDING],
 * meals and other by-products with it; feed above the caution line for nitrate comes in over
 * two weeks [MB_NITRATE], a quarter every fourth day (own choice), full on the 13th. What is
 * put out less goes on at once. */
#ifndef PLANNER_STEP_UP_H
#define PLANNER_STEP_UP_H

#include "planner/winter_plan.h"

#define GRAIN_STEP_KG KG_PER_POUND /* as fed, a head */
#define GRAIN_STEP_DAYS 2
#define GRAIN_AT_ONCE_KG                                                                       \
    0.5 /* with meals; a rise of about a step needs no schedule; own choice */
#define QUARTER_COUNT 4
#define QUARTER_DAYS 4

typedef enum {
#define STEP_UP_REASON(id, key, pace, source) STEP_##id,
#include "planner/step_up_reason.def"
#undef STEP_UP_REASON
    STEP_REASON_COUNT
} StepUpReason;

const char *step_up_reason_key(StepUpReason reason); /* "grain" */
SourceKey step_up_source(StepUpReason reason);

typedef struct {
    int feed;
    StepUpReason reason;
    double from_kg, to_kg; /* as fed, put out a head and day */
} StepUpFeed;

/* One group, from one change of its ration on. */
typedef struct {
    int group, block;
    Day from;
    bool is_first;           /* the first ration of these cattle */
    bool is_used_to_some;    /* then: what they had before is known, and it begins there */
    const StepUpFeed *feeds; /* [feed_count] */
    int feed_count;
    int in_place;              /* the forage that is fed more of meanwhile; -1: none is fit */
    int days;                  /* until all is in, or the ration changes again before that */
    const double *put_out_kg;  /* [days * feed_count] as fed a head */
    const double *in_place_kg; /* [days] as fed a head */
    double
        more_kg; /* as fed, of the forage in their place, for the whole group, over the plan */
    double missing_kg; /* dry matter a head on the worst day, which no more straw may stand in
                          for */
} StepUp;

/* By group and day; how many. */
int step_ups(Arena *arena, const WinterPlan *plan, const StepUp **list);

/* What of a rise of grain and meals from 0 may be put out on a day (0 the first), as fed. */
double step_up_grain(double rise_kg, int day);
/* The same of a feed that comes in by quarters, from one amount to another. */
double step_up_quarter(double from_kg, double to_kg, int day);

#endif
