/* Whether a winter can be balanced, for those who ask many times: days on hand, mends. */
#ifndef PLANNER_CAN_BALANCE_H
#define PLANNER_CAN_BALANCE_H

#include "planner/shortage_proof.h"
#include "planner/winter_plan.h"

/* What falls short first when a question cannot be balanced. */
typedef struct {
    int group;
    const RationLimit *limit; /* NULL when none was found */
} FirstShortage;

/* Where the next question of the same shape may begin: near the last one's answer. Zeroed at
 * first; its memory is the arena's. */
typedef struct {
    BlockState *states;
    BlockStart *blocks;
    BlockRoom *room;     /* NULL: programs are filled again within a question alone */
    ShortageProof proof; /* of the last question that was short and solved by prices */
} PlanStart;

/* Only whether the question can be balanced. `shortage`, when it is not NULL, is told what
 * falls short when it cannot. */
bool plan_can_be_balanced(Arena *arena, const PlanQuestion *question, PlanStart *start,
                          FirstShortage *shortage);

/* Whether the prices of the last question, which could not be balanced, prove by the laws as
 * they stood then that this one, with other days or stocks, cannot either. */
bool plan_must_be_short(const PlanQuestion *question, const PlanStart *start);

/* The question of one group's blocks, the whole yard its own. */
PlanQuestion question_of_group(const PlanQuestion *question, int group);

/* Whether a group cannot be balanced even with the whole yard to itself: then the herd cannot
 * either, and this is told many times sooner. False of a herd of that group alone, which is to
 * be asked itself. */
bool group_is_short_alone(const PlanQuestion *question, int group);

#endif
