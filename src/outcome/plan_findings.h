/* A plan with the answers that come of it, worked out once for every way of showing it. */
#ifndef OUTCOME_PLAN_FINDINGS_H
#define OUTCOME_PLAN_FINDINGS_H

#include "outcome/measure.h"
#include "planner/cold_spell.h"
#include "planner/condition_path.h"
#include "planner/mend.h"
#include "planner/price_range.h"
#include "planner/runout.h"
#include "planner/step_up.h"

typedef struct {
    const char *topic; /* of caution.def: "nitrate" */
    Severity severity;
    const char *fact; /* what is so, here */
    const char
        *advice; /* what to do about it; the same for all of a topic; "" when there is none */
    const char *source; /* key, "" where the fact is this project's own */
} Caution;

typedef struct {
    const WinterPlan *plan;
    Units units;
    bool is_brief;       /* no question beside the plan was asked: see plan_findings_in_brief */
    bool is_as_found;    /* the cheapest plan before it is evened out and held to yard rules */
    bool has_no_figures; /* its report is to be read alone; of a large farm they are many */
    const StackRunout *runouts; /* [own_count] */
    DaysOnHand days;
    const double *worth_more, *worth_less; /* [own_count] dollars per kg as fed; NAN unknown */
    const PriceRange *prices;              /* [feed_count] */
    double caution_cost;            /* dollars that keeping behind caution lines costs; NAN */
    const ColdSpell *spells;        /* [groups] */
    const ColdSpell *period_spells; /* [block_count], or NULL: too many to read */
    const Condition *conditions;    /* [block_count] */
    const Mend *mends;              /* of a short plan, tests before the rest */
    int mend_count;
    const Caution *cautions;
    int caution_count;
    const StepUp *step_ups;
    int step_up_count;
    const SourceKey *sources; /* cited by what the plan used */
    int source_count;
} PlanFindings;

PlanFindings plan_findings(Arena *arena, const WinterPlan *plan, Units units);

/* Only what the plan itself tells. What it takes more solves to know is left unasked: the days
 * that own feed balances, worths and prices (NAN), cold days (block -1, NULL) and mends (none).
 */
PlanFindings plan_findings_in_brief(Arena *arena, const WinterPlan *plan, Units units);

/* "3.4 t", or "124 kg" when it is little, or "310 g" to half a kilogram. */
Measure weight_measure(double kg);
const char *weight_words(Arena *arena, Units units, double kg);

/* "all groups", or the names with semicolons: a name may have a comma in it. */
const char *group_words(Arena *arena, const PlanQuestion *question, const bool *is_meant);

/* The blocks of a group: [*first, *first + count). */
int group_blocks(const PlanQuestion *question, int group, int *first);

/* The limit of this key; NULL: the block has none. */
const LimitOutcome *block_limit(const BlockOutcome *block, const char *key);

/* kg as fed put out a head and day, waste included. */
double put_out_kg(const WinterPlan *plan, int block, int feed);

/* Whether a feed is bought in the winter, by more than reads as none in grams and in ounces. */
bool plan_buys(const WinterPlan *plan, int feed);

/* The day by which the first of what is bought has to be there: before it is fed, or while it
 * can still be hauled in. */
bool bought_by(const WinterPlan *plan, int feed, Day *day);

/* The first day that a ration shows a feed, else the first that it is fed; false when it never
 * is. */
bool first_day_fed(const WinterPlan *plan, int feed, Day *day);

#endif
