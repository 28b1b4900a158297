/* A word of a cell among the words it may be. */
#ifndef BASE_CHOICE_H
#define BASE_CHOICE_H

#include "base/arena.h"

/* The place of a word among the choices; case, blanks, dashes, underscores and a plural aside,
 * or by another word that plainly says the same (choice_alias.def); -1 when it is none of them.
 */
int choice_find(const char *written, const char *const *choices, int count);

/* What a word that is no choice may have meant: "did you mean 'unrolled'?", "is it 'oat_straw'
 * or 'pea_straw'?"; at most six, NULL when nothing is like it. */
const char *choice_guess(Arena *arena, const char *written, const char *const *choices,
                         int count);

#endif
