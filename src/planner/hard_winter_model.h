/* The inside of a hard-winter model, shared by what builds it, runs it and tells of it. */
#ifndef PLANNER_HARD_WINTER_MODEL_H
#define PLANNER_HARD_WINTER_MODEL_H

#include "cattle/cold_need.h"
#include "planner/hard_winter.h"

/* One feed of a ration, minerals and urea aside: these are taken as bought again. */
typedef struct {
    int feed;
    double eaten_kg; /* dry matter a head and day, as planned */
    double nem, neg; /* Mcal per kg, as the plan has it */
    bool is_forage;
} Serving;

typedef struct {
    int group;
    double head;
    double upkeep, gain; /* Mcal a head and day: NEm needed, NEg wanted */
    double nem, neg;     /* Mcal a head and day the ration brings */
    double filling_kg;   /* dry matter a head and day */
    double put_out_kg;   /* the same as it is put out, planned waste included */
    double most_kg;      /* they can eat of it */
    const Serving *servings;
    int serving_count;
    const Serving *reserves; /* other forage they may have then; eaten_kg 0 */
    int reserve_count;
    ColdAnimal animal;
} FedBlock;

/* Days of one group with one ration in one month. */
typedef struct {
    int block, month; /* place in `months` */
    int from, to;     /* both are fed; 0 the first feeding day */
} FedSpan;

typedef struct {
    const FedSpan *spans;
    int count;
} GroupSpans;

typedef struct {
    const char *luck; /* what its weight and test are drawn by */
    double stock_kg;  /* as fed: on hand, or bought */
    double extra_kg;  /* as fed, of one load more; 0: none */
    double dry_share, waste_share;
    double weight_error, nem_error, neg_error; /* standard deviations, as shares */
} FedStock;

struct HardWinterModel {
    const PlanQuestion *question;
    uint64_t seed;
    WinterSpread spread;
    const FedBlock *blocks;
    const GroupSpans *groups;
    int group_count;
    const FedStock *stocks; /* [feed_count] */
    int feed_count;
    const MonthWeather *const *months; /* in the order they are fed in */
    int month_count;
    int planned_days, most_days;
    double turnout_spread_days;
};

/* A record: the last day fed, the first day any group is short, the dry matter lacking; then by
 * group its first short day and whether cold asked for more than it can eat; then by feed the
 * day it ended, what was taken, and whether one load more of it would have fed every group. */
enum { RECORD_LAST_DAY, RECORD_SHORT_DAY, RECORD_SHORT_KG, RECORD_GROUPS };
enum { GROUP_SHORT_DAY, GROUP_COLD, GROUP_FIELDS };
enum { FEED_END_DAY, FEED_TAKEN, FEED_WITH_LOAD, FEED_FIELDS };
#define NO_DAY 1.0e9

static inline int record_group(int group, int field) {
    return RECORD_GROUPS + group * GROUP_FIELDS + field;
}
static inline int record_feed(const HardWinterModel *model, int feed, int field) {
    return RECORD_GROUPS + model->group_count * GROUP_FIELDS + feed * FEED_FIELDS + field;
}

#endif
