/* Which practices a plan follows where advice differs, in words. */
#ifndef OUTCOME_PRACTICE_WORDS_H
#define OUTCOME_PRACTICE_WORDS_H

#include "cattle/winter.h"

const char *practice_words(Arena *arena, const Winter *winter);

#endif
