#include "feedstuff/feed_class.h"
#include <assert.h>

static const FeedClassKind KINDS[FEED_CLASS_COUNT] = {
#define FEED_CLASS(id, key, label, forage, fibre, nitrate, ndicp, adicp, concentrate)          \
    {key, label, forage, FIBRE_##fibre, nitrate, ndicp, adicp, concentrate},
#include "feedstuff/feed_class.def"
#undef FEED_CLASS
};

static const char *const KEYS[FEED_CLASS_COUNT] = {
#define FEED_CLASS(id, key, label, forage, fibre, nitrate, ndicp, adicp, concentrate) key,
#include "feedstuff/feed_class.def"
#undef FEED_CLASS
};

const FeedClassKind *feed_class_kind(FeedClass feed_class) {
    assert(feed_class < FEED_CLASS_COUNT);
    return &KINDS[feed_class];
}

const char *const *feed_class_keys(void) { return KEYS; }
