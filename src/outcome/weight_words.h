/* What the weights of the stacks rest on, in words. Text in the arena. */
#ifndef OUTCOME_WEIGHT_WORDS_H
#define OUTCOME_WEIGHT_WORDS_H

#include "planner/plan_question.h"

/* "Slough hay (give or take 9 %); Oats (give or take 4 %)": measured, and the book says how
 * dense they lie; "" where there are none. */
const char *book_weight_words(Arena *arena, const PlanQuestion *question);

#endif
