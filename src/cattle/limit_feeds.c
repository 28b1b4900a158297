#include "cattle/limit_feeds.h"
#include "base/text.h"
#include <string.h>

static bool name_begins(const Feedstuff *feed, const char *begin) {
    return strncmp(feed->book_feed, begin, strlen(begin)) == 0;
}

static bool is_watched_for(const Feedstuff *feed, FeedWatch watch) {
    return (feed->watch & WATCH_BIT(watch)) != 0;
}

static bool is_straw(const Feedstuff *feed) { return feed->feed_class == FEED_CLASS_STRAW; }
static bool is_grain(const Feedstuff *feed) { return feed->feed_class == FEED_CLASS_GRAIN; }
static bool is_meal(const Feedstuff *feed) { return feed->feed_class == FEED_CLASS_MEAL; }
static bool is_mineral(const Feedstuff *feed) { return feed->feed_class == FEED_CLASS_MINERAL; }
static bool is_forage(const Feedstuff *feed) {
    return feed_class_kind(feed->feed_class)->is_forage;
}
static bool is_brassica(const Feedstuff *feed) {
    return feed->feed_class == FEED_CLASS_BRASSICA;
}
static bool is_urea(const Feedstuff *feed) { return feed->feed_class == FEED_CLASS_NPN; }
static bool is_canola_forage(const Feedstuff *feed) {
    return is_brassica(feed) && name_begins(feed, "canola");
}
static bool is_distillers_grains(const Feedstuff *feed) {
    return name_begins(feed, "wheat_ddgs") || name_begins(feed, "corn_ddgs");
}
static bool is_screenings_pellets(const Feedstuff *feed) {
    return name_begins(feed, "grain_screenings_pellets");
}
static bool is_vetch(const Feedstuff *feed) { return is_watched_for(feed, WATCH_VETCH); }
static bool is_kochia(const Feedstuff *feed) { return is_watched_for(feed, WATCH_KOCHIA); }
static bool is_buckwheat(const Feedstuff *feed) {
    return is_watched_for(feed, WATCH_BUCKWHEAT);
}
/* Of sweet clover that was tested the dicoumarol counts, and not how much of it is fed. */
static bool is_untested_sweet_clover(const Feedstuff *feed) {
    return is_watched_for(feed, WATCH_SWEET_CLOVER) && feed_lacks(feed, NUTRIENT_DICOUMAROL);
}

/* Hay put up with more than 18 % of water was not cured. Own choice of the number. */
#define LEAST_DRY_MATTER_OF_CURED_HAY 82.0

/* Mould makes the dicoumarol, and grows where it was baled damp or heated. Silage seldom has
 * it. From so many to the gram mould is to be thinned [MB_MOULD]. */
#define MOULDY_CFU_PER_G 500000.0
static bool is_mouldy(const Feedstuff *feed) {
    return reading_or(feed->analysis.of[NUTRIENT_MOULD], 0.0) > MOULDY_CFU_PER_G;
}
static bool is_mouldy_sweet_clover(const Feedstuff *feed) {
    const double dry_matter = feed->analysis.dry_matter.value;
    const bool is_damp =
        dry_matter >= MOST_DRY_MATTER_OF_SILAGE && dry_matter < LEAST_DRY_MATTER_OF_CURED_HAY;
    return is_untested_sweet_clover(feed) &&
           (is_damp || is_watched_for(feed, WATCH_HEATED) || is_mouldy(feed));
}

/* Ammonia makes a nerve poison of the sugar of hay and greenfeed; straw has next to none
 * [AMMONIATED_NADIS]. Nor is straw fit for it that moulds or heated. */
static bool is_ammoniated(const Feedstuff *feed) {
    return is_watched_for(feed, WATCH_AMMONIATED);
}
static bool is_ammoniated_amiss(const Feedstuff *feed) {
    return is_ammoniated(feed) &&
           (!is_straw(feed) || is_watched_for(feed, WATCH_HEATED) || is_mouldy(feed));
}
static bool is_frozen_lumps(const Feedstuff *feed) {
    return is_watched_for(feed, WATCH_FROZEN_LUMPS);
}

/* Late heads of rye and triticale, durum, and what is screened out of grain, carry most ergot
 * and vomitoxin. Straw has hardly a head left on it. */
static bool may_hold_toxins(const Feedstuff *feed) {
    return is_screenings_pellets(feed) || name_begins(feed, "rye") ||
           name_begins(feed, "triticale") ||
           (is_watched_for(feed, WATCH_DURUM) && !is_straw(feed));
}
static bool is_untested_toxins(const Feedstuff *feed) {
    return may_hold_toxins(feed) &&
           (feed_lacks(feed, NUTRIENT_ERGOT) || feed_lacks(feed, NUTRIENT_DON));
}
/* Grain and screenings of these are held back for ergot besides; forage may be all a farm has.
 */
static bool is_untested_ergot(const Feedstuff *feed) {
    return may_hold_toxins(feed) && !is_forage(feed) && feed_lacks(feed, NUTRIENT_ERGOT);
}

/* Sorghum, sudangrass and their crosses hold prussic acid; millets have next to none
 * [HFG_SORGHUM]. Of what was tested the figure counts, and not how long it has lain. */
static bool is_untested_sorghum(const Feedstuff *feed) {
    return feed->feed_class == FEED_CLASS_SORGHUM && !name_begins(feed, "millet") &&
           feed_lacks(feed, NUTRIENT_PRUSSIC_ACID_DRY);
}
/* What lies wrapped or shut away counts as silage until a laboratory finds it dry. */
static bool is_untested_sorghum_silage(const Feedstuff *feed) {
    const Reading dry_matter = feed->analysis.dry_matter;
    return is_untested_sorghum(feed) &&
           (dry_matter.value < MOST_DRY_MATTER_OF_SILAGE ||
            (feed->is_kept_as_silage && dry_matter.origin != FROM_LABORATORY));
}
/* The gas leaves hay as it cures, and hay that did not is to be tested [SEEDWAY_SORGHUM]. That
 * it cured a laboratory says: the book's hay is dry, and this one nobody knows. */
static bool is_cured_hay(const Feedstuff *feed) {
    const Reading dry_matter = feed->analysis.dry_matter;
    return dry_matter.origin == FROM_LABORATORY &&
           dry_matter.value >= LEAST_DRY_MATTER_OF_CURED_HAY;
}
static bool is_frosted_sorghum(const Feedstuff *feed) {
    return is_untested_sorghum(feed) && is_watched_for(feed, WATCH_FROSTED) &&
           !is_cured_hay(feed);
}

static const struct {
    const char *name;
    bool (*holds)(const Feedstuff *feed);
} NAMED[] = {
    {"straw", is_straw},
    {"grain", is_grain},
    {"meal", is_meal},
    {"mineral", is_mineral},
    {"forage", is_forage},
    {"brassica", is_brassica},
    {"urea", is_urea},
    {"canola_forage", is_canola_forage},
    {"distillers_grains", is_distillers_grains},
    {"screenings_pellets", is_screenings_pellets},
    {"vetch", is_vetch},
    {"kochia", is_kochia},
    {"buckwheat", is_buckwheat},
    {"ammoniated", is_ammoniated},
    {"ammoniated_amiss", is_ammoniated_amiss},
    {"frozen_lumps", is_frozen_lumps},
    {"untested_sweet_clover", is_untested_sweet_clover},
    {"mouldy_sweet_clover", is_mouldy_sweet_clover},
    {"untested_ergot", is_untested_ergot},
    {"untested_toxins", is_untested_toxins},
    {"untested_sorghum", is_untested_sorghum},
    {"untested_sorghum_silage", is_untested_sorghum_silage},
    {"frosted_sorghum", is_frosted_sorghum},
};

#define NAMED_COUNT (sizeof NAMED / sizeof NAMED[0])

bool limit_feeds_find(const char *name) {
    for (size_t i = 0; i < NAMED_COUNT; i++) {
        if (text_same(NAMED[i].name, name))
            return true;
    }
    return false;
}

bool limit_feeds_hold(const char *name, const Feedstuff *feed) {
    for (size_t i = 0; i < NAMED_COUNT; i++) {
        if (text_same(NAMED[i].name, name))
            return NAMED[i].holds(feed);
    }
    return false;
}

const char *limit_feeds_untested(const Feedstuff *feed) {
    if (is_untested_sorghum(feed))
        return "prussic acid";
    if (is_untested_sweet_clover(feed))
        return "dicoumarol";
    return is_untested_toxins(feed) ? "ergot and vomitoxin (DON)" : NULL;
}
