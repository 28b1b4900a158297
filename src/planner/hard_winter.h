/* Will it last? Winters are drawn as they come, colder or milder, longer or shorter, with
 * stacks lighter or heavier, poorer or better than was thought, and the plan's rations are fed
 * through each, scaled to what the cattle then need. No plan is made anew: nobody knows the
 * winter before it is over.
 *
 * A winter depends on the seed and its own number alone, so any of them can be run anywhere, in
 * any order. docs/equations/hard-winters.md */
#ifndef PLANNER_HARD_WINTER_H
#define PLANNER_HARD_WINTER_H

#include "planner/winter_plan.h"
#include <stdint.h>

/* How many times its usual spread each thing has: 1 as it is, 0 as planned. `colder_c` takes
 * that much off every month of every winter. */
typedef struct {
    double temperature, turnout, weight, test, waste;
    double colder_c;
} WinterSpread;

#define USUAL_SPREAD ((WinterSpread){1.0, 1.0, 1.0, 1.0, 1.0, 0.0})

/* A balanced plan made ready. Read only, so that any number of processes may share it. */
typedef struct HardWinterModel HardWinterModel;
const HardWinterModel *hard_winter_model(Arena *arena, const WinterPlan *plan, uint64_t seed,
                                         WinterSpread spread);

/* What became of one winter, as bare numbers, so that it can be handed from one process to
 * another: `hard_winter_record_length` of them. */
int hard_winter_record_length(const HardWinterModel *model);

/* Room to work in, for one winter after the other. */
typedef struct HardWinterWork HardWinterWork;
HardWinterWork *hard_winter_work(Arena *arena, const HardWinterModel *model);

void hard_winter_run(const HardWinterModel *model, uint64_t winter, HardWinterWork *work,
                     double *record);

/* ---- what the winters come to ---- */

/* By when it has ended in one winter of ten, of two, and in nine of ten. */
enum { IN_ONE_OF_TEN, IN_HALF, IN_NINE_OF_TEN, RUNOUT_SHARES };
typedef struct {
    Day day[RUNOUT_SHARES];
    bool lasts[RUNOUT_SHARES]; /* to turnout: there is no day */
} RunoutDays;

typedef struct HardWinters {
    int asked, done; /* winters; fewer are done where a process was lost or stopped */
    uint64_t seed;
    double share;         /* of the winters: every group is fed to turnout */
    double share_error;   /* of drawing no more of them: sqrt(p (1 - p) / n) */
    const double *enough; /* [day_count] of the winters: nobody has been short by the
                             end of that day, 0 the first feeding day; a winter that
                             is over counts as it ended */
    int day_count;
    const double *group_share;      /* [groups] */
    const RunoutDays *group_short;  /* [groups] first day it is short */
    const double *group_cold_share; /* [groups] where cold at some time asks for more than they
                                       can eat of the ration */
    RunoutDays herd;                /* first day any group is short */
    const RunoutDays *feeds;        /* [feed_count] */
    const double *used_kg;          /* [feed_count] as fed, mean over the winters */
    double worst_short_kg; /* dry matter to put out, mean of the worst tenth of the winters */
    const double *share_with_load;   /* [feed_count] one load more bought now; NAN: none to buy,
                                        or it fills nobody */
    Day turnout_first, turnout_last; /* last feeding day in one of ten, and in nine */
    const char *remark;              /* "" or what became of those not done */
} HardWinters;

/* `records` of `asked` winters one after the other; is_done[i]: that one counts. */
const HardWinters *hard_winters_told(Arena *arena, const HardWinterModel *model,
                                     const double *records, const bool *is_done, int asked);

/* All in this process: model, winters and what they come to. */
const HardWinters *hard_winters(Arena *arena, const WinterPlan *plan, uint64_t seed, int count);

/* A group is short on a day on which it lacks more than this share of its energy: less than
 * weighing on a farm can show. Own choice. */
#define SHORT_DAY_SHARE 0.02

/* Standard deviation of what is wasted, as a share of it, all feeds of a winter together: deep
 * snow and wind come to every yard. Own choice beside measured 16 to 20 % of bale grazing and
 * 12 to 27 % of the ways of feeding on snow. */
#define WASTE_DEVIATION 0.25

/* TDN of a feed that only the book tells of: by how much feeds of one name differ. Own choice.
 */
#define BOOK_FORAGE_TDN_DEVIATION 5.0
#define BOOK_OTHER_TDN_DEVIATION 2.0

#endif
