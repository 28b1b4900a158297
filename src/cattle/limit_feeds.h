/* The names a line of the safety table has for some feeds together: "straw", "vetch". */
#ifndef CATTLE_LIMIT_FEEDS_H
#define CATTLE_LIMIT_FEEDS_H

#include "feedstuff/feedstuff.h"

bool limit_feeds_find(const char *name);

/* Whether a feed is one of those of this name; false where nothing is named so. */
bool limit_feeds_hold(const char *name, const Feedstuff *feed);

/* The poison its kind can hold and no laboratory looked for: "prussic acid", "dicoumarol",
 * "ergot and vomitoxin (DON)"; NULL. */
const char *limit_feeds_untested(const Feedstuff *feed);

#endif
