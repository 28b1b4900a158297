/* A farm from its draft to its plan, and the loop of a law over many farms. */
#ifndef SUPPORT_PLANNED_FARM_H
#define SUPPORT_PLANNED_FARM_H

#include "base/text.h"
#include "planner/yard_plan.h"
#include "support/farm_maker.h"

typedef struct {
    unsigned long long seed;
    const FarmDraft *draft;
    Farm farm;
    PlanQuestion question;
    WinterPlan plan;
} PlannedFarm;

/* The draft written, read and asked about; and planned too. Ends the test when it has a fault.
 */
PlannedFarm *asked_farm(Arena *arena, const FarmDraft *draft);
PlannedFarm *planned_farm(Arena *arena, const FarmDraft *draft);
/* One of 100 days, of so many groups or up to two more, and 3 to 6 stacks; asked about. */
PlannedFarm *asked_farm_of(Arena *arena, int seed, int least_groups);

/* A farm with some of the yard's rules on, which by its seed: about one in three of them, a
 * least face and a dearer haul between yards too; and planned. */
PlannedFarm *ruled_farm(Arena *arena, const FarmDraft *draft, unsigned long long seed);

/* The states the plan's last program took, and the least cost of a question with given states:
 * NAN when it cannot be met. With states held the program is linear, so a law must hold
 * exactly. */
const BlockState *states_of(Arena *arena, const WinterPlan *plan);
double least_cost_with(Arena *arena, const PlanQuestion *question, const BlockState *states);

/* The program of a question whose laws stand at middling rations: the first states of a plan
 * are not given out. */
RationProgram program_of(Arena *arena, const PlanQuestion *question, ProgramAim aim);

/* NULL when the law holds for this farm, else what broke, as text of the arena. */
typedef const char *(*Law)(Arena *arena, const PlannedFarm *farm);

/* What became of some laws on many farms: each farm is planned once for all of them. */
typedef struct {
    Arena *arena;
    int farms, balanced;
    int *broken;   /* by law: how many farms break it */
    Text *reasons; /* by law: of the first ten, a line each with its seed */
} LawBook;

/* Farms 1 to `farms`, of 2 to 4 groups, 6 to 10 feeds and about 100 days, half of them
 * generous. */
LawBook *laws_tried(const Law *laws, int law_count, int farms);
/* The same farms with rules of the yard on. */
LawBook *laws_tried_with_rules(const Law *laws, int law_count, int farms);
void assert_law_held(const LawBook *book, int law);
void law_book_close(LawBook *book);

/* What a program of laws sets up and takes down: `tried` is one of the two above. */
#define LAW_BOOK(tried, laws, law_count, farms)                                                \
    static int try_laws(void **state) {                                                        \
        *state = tried(laws, law_count, farms);                                                \
        return 0;                                                                              \
    }                                                                                          \
    static int close_book(void **state) {                                                      \
        law_book_close(*state);                                                                \
        return 0;                                                                              \
    }

#endif
