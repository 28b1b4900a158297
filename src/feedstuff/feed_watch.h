/* What is to be watched in a feed by the farmer's own word (feed_watch.def). A feed is taken
 * whole as what is named of it: nobody knows the share of vetch in a bale. */
#ifndef FEEDSTUFF_FEED_WATCH_H
#define FEEDSTUFF_FEED_WATCH_H

#include "base/sheet.h"

typedef enum {
#define FEED_WATCH(id, name) WATCH_##id,
#include "feedstuff/feed_watch.def"
#undef FEED_WATCH
    FEED_WATCH_COUNT
} FeedWatch;

typedef unsigned WatchSet; /* bit (1u << watch) */

#define WATCH_BIT(watch) (1u << (unsigned)(watch))

const char *feed_watch_name(FeedWatch watch); /* "sweet clover" */

/* The words of one cell, separated as in every list; a word that is none of them is a fault. */
WatchSet feed_watch_read(const Sheet *sheet, int row, int column);

#endif
