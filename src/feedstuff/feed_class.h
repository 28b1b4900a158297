/* Classes of feed (feed_class.def). */
#ifndef FEEDSTUFF_FEED_CLASS_H
#define FEEDSTUFF_FEED_CLASS_H

#include "feedstuff/feed_energy.h"
#include <stdbool.h>

typedef enum {
#define FEED_CLASS(id, key, label, forage, fibre, nitrate, ndicp, adicp, concentrate)          \
    FEED_CLASS_##id,
#include "feedstuff/feed_class.def"
#undef FEED_CLASS
    FEED_CLASS_COUNT
} FeedClass;

typedef struct {
    const char *key, *label;
    bool is_forage;
    FibreEquation fibre;
    double untested_nitrate_pct;
    double ndicp_pct, adicp_pct;
    bool is_concentrate;
} FeedClassKind;

const FeedClassKind *feed_class_kind(FeedClass feed_class);

/* The FEED_CLASS_COUNT keys, for sheet_choice. */
const char *const *feed_class_keys(void);

#endif
