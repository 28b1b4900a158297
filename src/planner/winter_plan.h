/* The plan of a winter: cheapest rations that meet every need, or, when that cannot be, the
 * rations that fall least short, what they lack, and what it costs. Pure: same question, same
 * plan. */
#ifndef PLANNER_WINTER_PLAN_H
#define PLANNER_WINTER_PLAN_H

#include "planner/ration_program.h"

struct YardOutcome;
struct HardWinters;

typedef enum { PLAN_BALANCED, PLAN_SHORT, PLAN_FAILED } PlanVerdict;

/* One limit of one block as the plan leaves it. */
typedef struct {
    const RationLimit *limit;
    double supplied;      /* in the limit's own terms; NAN when nothing is eaten */
    double least, most;   /* the limit's bounds, or those of its law at this very ration */
    double shadow_price;  /* dollars a head and day for one unit more of the binding bound; 0
                             loose */
    double short_by;      /* beyond the bound, >= 0 */
    double caution_price; /* the shadow price of its caution line, kept to the brim; 0 where the
                             ration is within it or beyond */
} LimitOutcome;

typedef struct {
    const double *eaten; /* [feed_count] kg DM a head and day */
    double microbial_kg;
    double dry_matter_kg, filling_kg; /* a head and day; the second without minerals */
    double diet_nem;                  /* Mcal per kg DM */
    double intake_most, intake_least; /* by the law at this diet */
    BlockState state;                 /* as the last program took it */
    const LimitOutcome *limits;
    int limit_count;
    double cost_per_head_day; /* feed and haul, without yardage */
    /* Recomputed from the ration by the forward equations: */
    double nem_kept;    /* Mcal a day of NEm that upkeep takes, at most what it needs */
    double gain_energy; /* Mcal a day of NEg left for gain */
    double gain_kg;     /* growing cattle, a day, of live weight */
    double energy_left; /* Mcal NEm a day above need; draws on the body when negative */
} BlockOutcome;

typedef struct {
    double bought, own_feed, hauling, yardage, total;
    double cautions; /* what the caution lines that rations pass weigh (ration_caution.h): no
                        money, and not in the total */
} PlanCost;

typedef struct {
    PlanVerdict verdict;
    const PlanQuestion *question;
    const BlockOutcome *blocks;
    PlanCost cost;
    double least_cost;          /* of feed and hauling, before rations were made steadier */
    double least_cautions;      /* what those rations weigh beside it; the sum is the least */
    const double *taken_kg;     /* [feed_count] as fed, from the stack or the truck */
    const double *bought_kg;    /* [feed_count] as fed, paid for */
    double carry_over_short_kg; /* dry matter */
    int rounds;                 /* of the intake iteration */
    double residual; /* largest relative miss of the intake and gain laws by a ration */
    bool has_settled;
    bool is_steady; /* rations were evened out within the farm's steady_cost_share */
    const RationProgram *program; /* the last program: for re-solves and other solvers; NULL of
                                     a plan that is only read */
    LpSolution solution;          /* of it, before evening out */
    BlockProgram *by_price;       /* of it, to solve again with other stocks; NULL: whole, or
                                     of a plan that is only read */
    const BlockStart *answer;     /* what by_price left when it was solved */
    const char *remark;           /* PLAN_FAILED: why */
    const struct HardWinters *winters; /* hard_winter.h; NULL: none were drawn */
    const struct YardOutcome *yard;    /* yard_plan.h; NULL: no rule of the yard is on */
} WinterPlan;

/* What the search makes least: dollars of feed and hauling, and what cautions weigh. */
static inline double plan_least(const WinterPlan *plan) {
    return plan->least_cost + plan->least_cautions;
}

WinterPlan plan_winter(Arena *arena, const PlanQuestion *question);

/* The same without evening rations out: its cost is the least, its rations are one of many that
 * cost so. For comparing one question with another. */
WinterPlan plan_least_cost(Arena *arena, const PlanQuestion *question);

/* The same two for who asks nothing more of them: no program and no by_price, which are most of
 * the memory of a large farm. */
WinterPlan plan_winter_to_read(Arena *arena, const PlanQuestion *question);
WinterPlan plan_least_cost_to_read(Arena *arena, const PlanQuestion *question);

/* Only the verdict that plan_winter would come to, without its evening out, and without caution
 * lines, which make no winter short. */
PlanVerdict plan_verdict(const PlanQuestion *question);
/* With caution lines, whose rounds go another way: at the very edge the two may differ. */
PlanVerdict plan_verdict_as_planned(const PlanQuestion *question);

#endif
