/* The search for how much of one mend is enough. For mend.c alone. */
#ifndef PLANNER_MEND_SEARCH_H
#define PLANNER_MEND_SEARCH_H

#include "planner/mend.h"

typedef struct {
    const PlanQuestion *question;
    const ShortageProof *asked; /* of the question itself */
    Arena *arena;               /* of the start */
    PlanStart *start;           /* where the last question of this shape ended */
    int short_alone; /* a group short with the whole yard to itself, asked first; -1: none */
    Mend mend;
} MendSearch;

/* The least amount up to `most` that mends, into the search's mend: a plan with it is balanced,
 * with `not_enough` it is short. False where none up to `most` does. */
bool mend_search(MendSearch *search, double most);

#endif
