/* Next year's cut with all the answers that come of it, worked out once: the futures side by
 * side, the price at which the cheaper of them changes, and the year turning out otherwise. */
#ifndef OUTCOME_CUT_FINDINGS_H
#define OUTCOME_CUT_FINDINGS_H

#include "planner/cut_plan.h"

typedef struct {
    Day dates[2]; /* of cutting, instead of each field's first and last */
    int date_count;
    int offer; /* of the inventory's offers: the feed bought or not; -1 none */
} CutWishes;

/* Those of the first day are even, those of the second odd. */
typedef enum {
    FUTURE_FIRST,      /* all on the first day, the offer not bought */
    FUTURE_SECOND,     /* all on the second */
    FUTURE_FIRST_BUY,  /* all on the first day, the offer bought where that is cheaper */
    FUTURE_SECOND_BUY, /* all on the second */
    FUTURE_PLANNED,    /* any days, anything bought */
    FUTURE_COUNT
} FutureName;

typedef enum {
    YEAR_EXPECTED,
    YEAR_DRY_CUTS,
    YEAR_WET_CUTS,
    YEAR_THIN,
    YEAR_HEAVY,
    YEAR_POOR_TESTS,
    YEAR_COUNT
} YearName;

typedef struct {
    CutWishes wishes;
    const Farm *farm;
    CutQuestion question;
    bool is_there[FUTURE_COUNT]; /* those of an offer are not, where there is none */
    CutPlan plans[FUTURE_COUNT];
    FutureName cheapest; /* of those with given days; FUTURE_COUNT: none is balanced */
    CutTurn turn;        /* of the two given days with buying; price NAN: none */
    bool has_turn;       /* it was looked for: there is an offer, and both are balanced */
    double
        offer_worth_per_kg; /* its first tonne in the mixed plan; NO_LIMIT at any price; NAN */
    double year_cost[YEAR_COUNT][FUTURE_COUNT]; /* hectares as planned; NAN not balanced */
    bool is_balanced;                           /* the planned one */
    bool has_failed;
    const char *remark;
} CutFindings;

CutFindings cut_findings(Arena *arena, const Farm *farm, const CutWishes *wishes);

/* The days a future cuts on, as cut_future_allows takes them. */
CutFuture cut_future(const CutWishes *wishes, FutureName name);

#endif
