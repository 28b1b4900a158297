/* The question of a winter: which feeds, which groups in which periods, what each needs, and
 * what may be fed to whom. A what-if is a function from question to question; nothing here is
 * solved. */
#ifndef PLANNER_PLAN_QUESTION_H
#define PLANNER_PLAN_QUESTION_H

#include "cattle/requirement.h"
#include "planner/feeding_period.h"

/* A feed as cattle meet it: an own stack or something for sale. */
typedef struct {
    const char *name;
    bool is_own;
    int place; /* in the inventory's stacks or offers */
    const Feedstuff *feed;
    double dry_share;                 /* dry matter of what is fed, 0..1 */
    double waste_share, shrink_share; /* of the dry matter offered; of what is bought */
    double eaten[NUTRIENT_COUNT]; /* of the dry matter eaten, unit of the list; NAN unknown */
    double degraded, undegraded;  /* protein, g per kg of dry matter eaten */
    double price_per_kg;          /* as fed, of a feed for sale; 0 for own */
    double value_per_kg;          /* as fed, what own feed would fetch; 0 for bought */
    double haul_per_kg;           /* as fed */
    const char *yard;             /* where own feed lies; "" or NULL not said */
    double other_yard_per_kg;     /* as fed, more than the haul to a group of another yard */
    Day put_up;                   /* when it lay there at the latest, the seller's feed too */
    bool put_up_is_told;          /* false: only by when it was counted, or is for sale */
    double available_kg;          /* as fed: on hand after storage loss, or most for sale */
    double weight_error_share;    /* standard error of the next; 0 of what is bought */
    double bale_kg;               /* as fed, of one bale after storage loss; 0 not in bales */
    bool has_face;                /* own, of a pit, a bag or a tube */
    double least_face_kg_per_day; /* as fed, to be taken while it is open; 0 none */
    double load_kg;               /* as fed, of one load for sale; 0 not known, or own */
    const Allowance *allowance;
    const Day *delivered_until; /* last day it can be hauled in; NULL: any, or own */
    bool is_supplement;         /* for sale, and reckoned with while own feed lasts */
} PlanFeed;

/* One group in one period. */
typedef struct {
    int group;
    Day from, to;
    int days;
    double head;
    Requirement need;
    Requirement by_equations; /* before the table and the farm's own figures */
    TableNeed by_table;
} PlanBlock;

/* Why a feed is not in a ration. */
typedef enum { MAY_BE_FED, NOT_AT_THAT_TIME, NOT_FOR_THAT_GROUP, OVER_A_LIMIT } Permission;

struct FieldChoices;

typedef struct {
    const Farm *farm;
    const PlanFeed *feeds; /* own stacks first */
    int feed_count, own_count;
    const PlanBlock *blocks; /* by group, then by period */
    int block_count;
    const Permission *permission;        /* [block_count * feed_count] */
    const SafetyLimit *const *barred_by; /* same shape; NULL unless OVER_A_LIMIT */
    const struct FieldChoices *choices;  /* field_columns.h: own feed is what is cut; NULL: it
                                            lies in stacks */
} PlanQuestion;

PlanQuestion plan_question(Arena *arena, const Farm *farm);

/* Whether it could be hauled in before the first feeding day and no more from then on. */
bool plan_is_past_hauling(const PlanQuestion *question, int feed);

/* The same question when the winter ends on `last_day`, its needs those of the whole periods.
 * Blocks after it stay, with no days, so that questions of different last days have programs of
 * one shape. */
PlanQuestion plan_question_until(Arena *arena, const PlanQuestion *whole, Day last_day);

/* With one thing more for sale, last of the feeds. */
PlanQuestion plan_question_with_offer(Arena *arena, const PlanQuestion *whole,
                                      const Offer *offer);

/* With a feed of it as told instead, and what may then be fed to whom. */
PlanQuestion plan_question_with_feed(Arena *arena, const PlanQuestion *whole, int feed,
                                     const PlanFeed *as_told);

/* The same question when the winter ends on `last_day` and only supplements and minerals may be
 * bought: for the days of own feed on hand. */
PlanQuestion plan_question_own_feed_until(Arena *arena, const PlanQuestion *whole,
                                          Day last_day);

/* The same where passing a caution line weighs nothing. */
PlanQuestion plan_question_without_cautions(Arena *arena, const PlanQuestion *whole);

/* How many blocks from `first` on are of its group: they stand together. */
int plan_blocks_of_group(const PlanQuestion *question, int first);

Permission plan_permission(const PlanQuestion *question, int block, int feed);

/* Whether the block before is of the same group and ends the day before. Cattle that come where
 * a group had gone are others. */
bool plan_goes_on(const PlanQuestion *question, int block);
/* Whether the block's group may have it, whatever the day: feed that was bought lies in the
 * yard after the seller's road is closed. */
bool plan_suits_group(const PlanQuestion *question, int block, int feed);
/* The limit that keeps it from the block's group altogether (feed_permission.h), whatever its
 * dates and whoever else it is for; NULL. A feed does not get safer when its dates are over. */
const SafetyLimit *plan_limit_against(const PlanQuestion *question, int block, int feed);
/* Whether any group may have the feed at any time. */
bool plan_may_be_fed(const PlanQuestion *question, int feed);

/* kg as fed that must be taken from the stack (or truck) for one kg of dry matter eaten. */
double plan_taken_per_eaten(const PlanFeed *feed);
/* Money to haul a kg as fed to the block's group: more where it lies in another yard. */
double plan_haul_per_kg(const PlanQuestion *question, int block, int feed);
/* Money per kg of dry matter eaten, all in: value or price, haul, waste and shrink. */
double plan_cost_per_eaten(const PlanQuestion *question, int block, int feed);

#endif
