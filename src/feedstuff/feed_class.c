#include "feedstuff/feed_class.h"
#include <assert.h>
#include <math.h>

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

#define NDICP_OF_SILAGE 1.8
#define ADICP_OF_SILAGE 0.8

BoundProtein feed_class_bound_protein(FeedClass feed_class, double dry_matter_pct) {
    const FeedClassKind *kind = feed_class_kind(feed_class);
    if (!kind->is_forage || dry_matter_pct >= MOST_DRY_MATTER_OF_SILAGE)
        return (BoundProtein){kind->ndicp_pct, kind->adicp_pct};
    return (BoundProtein){fmin(kind->ndicp_pct, NDICP_OF_SILAGE),
                          fmin(kind->adicp_pct, ADICP_OF_SILAGE)};
}

#define SOLUBLE_OF_HAY 30.0
#define SOLUBLE_OF_SILAGE 55.0 /* 50 to 60 */
#define SOLUBLE_OF_GRAIN 25.0  /* 20 to 30 */

double feed_class_soluble_share(FeedClass feed_class, double dry_matter_pct) {
    const bool is_wet = dry_matter_pct < MOST_DRY_MATTER_OF_SILAGE;
    if (feed_class == FEED_CLASS_GRAIN)
        return SOLUBLE_OF_GRAIN;
    if (!feed_class_kind(feed_class)->is_forage || feed_class == FEED_CLASS_STRAW)
        return (double)NAN;
    if (feed_class == FEED_CLASS_BRASSICA && is_wet) /* may be fresh tops and roots */
        return (double)NAN;
    return is_wet ? SOLUBLE_OF_SILAGE : SOLUBLE_OF_HAY;
}
