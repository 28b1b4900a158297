/* Where a total counts what passing caution lines weighs, it says so. */
#ifndef OUTCOME_WEIGHED_WORDS_H
#define OUTCOME_WEIGHED_WORDS_H

#include "base/arena.h"

#define WORTH_WEIGHING 1.0 /* dollars of a winter: less is not told */

/* Of several totals, of which the least and the most weigh so many dollars; "" where it is not
 * worth telling. Begins with a blank. */
const char *weighed_words(Arena *arena, double least, double most);

/* " ($140 of it no money: what caution lines passed weigh)", or "". */
const char *weighed_part_words(Arena *arena, double dollars);

#endif
