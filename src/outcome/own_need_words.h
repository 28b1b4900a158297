/* The figures of the farm's own that stand for a group's needs, in words. */
#ifndef OUTCOME_OWN_NEED_WORDS_H
#define OUTCOME_OWN_NEED_WORDS_H

#include "planner/farm.h"

/* "metabolizable protein 700 g from 1 January to 28 February; calcium 30 g"; "" when the group
 * has none. */
const char *own_need_words(Arena *arena, const Farm *farm, int group);

#endif
