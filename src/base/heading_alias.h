/* Other words for headings: heading_alias.def. */
#ifndef BASE_HEADING_ALIAS_H
#define BASE_HEADING_ALIAS_H

#include "base/arena.h"
#include <stdbool.h>

typedef struct {
    const char *heading; /* plain, with what followed the other word: "calcium_pct" */
    bool is_same;        /* may be read for it; else only suggested */
} HeadingAlias;

#define HEADING_ALIASES_MOST 4

/* What the longest other word that a plain heading begins with stands for; 0 when there is
 * none. */
int heading_aliases(Arena *arena, const char *plain, HeadingAlias found[HEADING_ALIASES_MOST]);

#endif
