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

/* A forage wetter than this went up as silage. */
#define MOST_DRY_MATTER_OF_SILAGE 65.0

/* Stand-ins for protein bound in fibre, % of dry matter: those of the class, or of silage,
 * whose protein is more soluble, where a forage is that wet. Own choice. */
typedef struct {
    double ndicp_pct, adicp_pct;
} BoundProtein;

BoundProtein feed_class_bound_protein(FeedClass feed_class, double dry_matter_pct);

/* Usual soluble protein, % of crude protein, for information: from memory, by what the feed is
 * and not by its stage [BOOK_MEMORY]. NAN where nothing is remembered. */
double feed_class_soluble_share(FeedClass feed_class, double dry_matter_pct);

/* The FEED_CLASS_COUNT keys, for sheet_choice. */
const char *const *feed_class_keys(void);

#endif
