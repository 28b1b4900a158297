/* Which analyses of a feed would tell most that is not known now. The order is this project's
 * own: first a test without which the feed is held back or may poison; then energy, for most of
 * a ration is bought for it; then sulfur; then minerals.
 */
#ifndef FEEDSTUFF_FEED_WORTH_TESTING_H
#define FEEDSTUFF_FEED_WORTH_TESTING_H

#include "feedstuff/feedstuff.h"

#define MOST_WORTH_TESTING 2

/* Whether an untested nitrate is reckoned so high that it holds the feed back. */
bool feed_is_held_by_nitrate(const Feedstuff *feed);

/* Their names, as one would order them; how many. poison: one its kind can hold and that was
 * not looked for, or NULL. Minerals and urea have none. */
int feed_worth_testing(const Feedstuff *feed, const char *poison,
                       const char *analyses[MOST_WORTH_TESTING]);

#endif
