/* The winter as one linear program: every group in every period, tied together by the stacks
 * they share. models/winter-plan.mod states the same program as a book would. */
#ifndef PLANNER_RATION_PROGRAM_H
#define PLANNER_RATION_PROGRAM_H

#include "planner/block_program.h"
#include "planner/ration_limit.h"

/* Falling short is priced in tiers, each dearer than the one before, so that a lack is shared
 * by many before it is borne by few: the first tenth, the next fifth, the next three tenths,
 * the rest. Own choice. */
#define SHORT_TIERS 4

typedef enum {
    AIM_LEAST_COST,     /* every need met */
    AIM_LEAST_SHORTAGE, /* needs may fall short, at the prices of ration_limit.c; feed costs
                           nothing, and no caution line is held */
    AIM_SHORTAGE_FIRST  /* the same with the caution lines there, at no price yet: the least
                           cost of being no shorter is asked next */
} ProgramAim;

typedef struct {
    const RationLimit *const *limits; /* [count] */
    int count;
    int *least_row, *most_row;     /* -1 where there is none */
    int *least_short, *most_short; /* first of SHORT_TIERS columns, shares of the bound; -1 */
    int *warn_row, *beyond;        /* of caution lines; columns, shares of caution_way; -1 */
} BlockLimits;

typedef struct {
    const PlanQuestion *question;
    Arena *of_rows; /* of all below but for the limits */
    LinearProgram *lp;
    ProgramAim aim;
    BlockLimits *blocks;
    int *eaten; /* [block_count * feed_count] columns, kg DM a head and day; -1 not allowed */
    int *microbial; /* [block_count] columns, kg a head and day */
    int *bought;    /* [feed_count] columns, tonnes as fed; -1 of own feed */
    int *stock;     /* [feed_count] rows, tonnes as fed */
    int *hectares;  /* columns of field_columns.h; NULL: own feed lies in stacks */
    int carry_over_row, carry_over_short; /* -1 when none is wanted */
    BlockShape
        shape; /* a ration of a group in a period each, a family some periods of a group */
} RationProgram;

RationProgram ration_program(Arena *arena, const PlanQuestion *question,
                             const BlockState *states, ProgramAim aim);

/* Gives back the memory of all of a program but its limits, and the program is no more. */
void ration_program_let_go(RationProgram *program);

/* By prices, from what another solve left (NULL: nothing), to within a share of its own cost
 * (0: as near as prices come); the whole program at once where prices do not settle: *blocks is
 * then NULL. */
LpSolution ration_program_solve(Arena *arena, const RationProgram *program,
                                const BlockStart *start, double content_share,
                                BlockProgram **blocks);
/* The same in *blocks, built of this program or filled with it; NULL: whole. */
LpSolution ration_program_solve_in(Arena *arena, const RationProgram *program,
                                   const BlockStart *start, double content_share,
                                   BlockProgram **blocks);

/* Whether what is left of an own feed counts toward the forage wanted at the end. */
bool ration_program_carries_over(const PlanQuestion *question, int feed);
/* Tonnes of dry matter of it that may be used, so that as much is left as is wanted. */
double ration_program_carry_over_most(const PlanQuestion *question);

/* What passing caution lines weighs of the cost of given values of the columns, dollars. */
double ration_program_caution(const RationProgram *program, const double *value);

/* Share of a limit's bound that a solution falls short by; first_column as in BlockLimits. */
double ration_program_short_share(int first_column, const double *value);

/* Turns a shortage program into a least-cost one that may be as short as `shortage` found,
 * [column] values of its optimal solution, and a share `slack` shorter, without which it would
 * be feasible by rounding alone. */
void ration_program_hold_shortage(RationProgram *program, const double *shortage, double slack);

#endif
