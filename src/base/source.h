/* The publications cited: one list (source.def). An equation or a table row names its key in
 * square brackets in a comment or in a `source` column; `make check-sources` compares. */
#ifndef BASE_SOURCE_H
#define BASE_SOURCE_H

#include <stdbool.h>

typedef enum {
    SOURCE_NONE,
#define SOURCE(id, how_known, citation) SOURCE_##id,
#include "base/source.def"
#undef SOURCE
    SOURCE_COUNT
} SourceKey;

/* How the project knows what it takes from there. */
typedef enum {
    KNOWN_FROM_PAGE,   /* the number was read on a published page */
    KNOWN_FROM_MEMORY, /* named from memory, page not seen */
    KNOWN_AS_PRACTICE, /* common practice, no source */
    KNOWN_AS_CHOICE    /* this project's own choice */
} HowKnown;

const char *source_key(SourceKey source);      /* "NRC_2000"; "" for SOURCE_NONE */
const char *source_citation(SourceKey source); /* the publication, place and address */
HowKnown source_how_known(SourceKey source);
bool source_find(const char *key, SourceKey *source);
SourceKey
source_first(const char *keys); /* of keys with blanks between; SOURCE_NONE: not known */

#endif
