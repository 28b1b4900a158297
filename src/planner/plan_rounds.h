/* The rounds in which the two curved laws are followed: a program is solved with the laws
 * straightened at given rations, then again at the rations it found. For winter_plan.c and
 * can_balance.c alone. */
#ifndef PLANNER_PLAN_ROUNDS_H
#define PLANNER_PLAN_ROUNDS_H

#include "planner/winter_plan.h"

#define NOTHING_SHORT 1e-6 /* of the weighted shortage: below the solver's tolerance */
#define SETTLED 1e-4       /* relative change of an intake limit or a share */

typedef struct {
    RationProgram program;
    LpSolution solution;
    BlockState *states;
    BlockProgram *blocks;     /* of the last program; NULL: it was solved whole */
    Arena *of_blocks;         /* theirs alone; NULL: they lie beside other things */
    BlockStart *start;        /* what the last solve of a program left */
    const BlockStart *answer; /* what the solution's own solve left; NULL: ask its blocks */
    BlockRoom *room;          /* where its program is filled again; NULL: each is built */
    double content;   /* share of its cost to which one in a room is solved; 0: as near as
                         prices come */
    bool only_states; /* of what is solved only states, cost and how it ended are kept */
    bool is_verdict;  /* only whether there is a shortage is asked, not how much */
    int rounds;
    double change;
} PlanRounds;

/* None yet. */
PlanRounds plan_rounds(BlockStart *start);
/* Gives back the blocks where they have an arena of their own. */
void rounds_let_blocks_go(PlanRounds *at);
/* Leaves no program: its memory is about to be given back. */
void rounds_forget_program(PlanRounds *at);

/* By the blocks given, built of the program (NULL: whole), from what the last solve left, which
 * leaves its own; the whole program at once where prices do not settle. */
LpSolution round_solve_built(Arena *arena, const RationProgram *program, BlockStart *start,
                             BlockProgram **blocks);

/* The program of the states in `at`, of `arena`, solved; of `of_solution`, which may be the
 * same. */
LpSolution round_solve(Arena *arena, Arena *of_solution, PlanRounds *at,
                       const PlanQuestion *question, ProgramAim aim);

/* Iterates to a ration that agrees with what it was taken to be, from the states in `at` or,
 * when it has none, the first states. False when a program had no solution: `at` then holds the
 * failure. When a later round fails where an earlier did not, the states are drawn back toward
 * the last that worked, a few times; where only the verdict is asked and the last of these
 * fails, `at` has no program. */
bool rounds_iterate(Arena *arena, PlanRounds *at, const PlanQuestion *question, ProgramAim aim);

/* The states become those of the rations found, or half way there after many rounds; how far
 * that moves the limits they set. */
double round_move_states(Arena *arena, PlanRounds *at, const PlanQuestion *question);
/* The states that given column values make. */
void round_states_from_values(Arena *arena, PlanRounds *at, const PlanQuestion *question,
                              const double *value);
/* Whether the cost is what it was in the round before and no limit moves by much. */
bool round_has_stood_still(const PlanRounds *at, double last_cost);
BlockState *rounds_copied_states(Arena *arena, const PlanRounds *at,
                                 const PlanQuestion *question);
BlockState round_halfway(BlockState a, BlockState b, double share_of_b);

#endif
