/* Values that can be read but would make a wrong plan: the ranges are this project's own
 * choice, wide of what is met on farms. */
#include "base/text.h"
#include "stock/stack_column.h"

#define LITTLE_SHARE 0.02 /* a shed or a bin loses so little that less can be measured */

/* A percentage below what anybody measures: a share of one, or a zero that means "not known".
 */
void stock_check_share(const Sheet *sheet, int row, int column, double own_share,
                       StockShare usual) {
    const Place place = sheet_place(sheet, row, column);
    const char *heading = sheet_heading(sheet, column);
    const double percent = own_share * 100.0;
    if (percent >= usual.least_percent ||
        (usual.table_share > 0.0 && usual.table_share < LITTLE_SHARE))
        return;
    if (percent <= 0.0 && usual.table_share > 0.0) {
        doubt_add(
            sheet_faults(sheet), place,
            "%s: 0 is read as nothing lost; leave the cell empty to reckon with the table",
            heading);
    } else if (percent > 0.0) {
        doubt_add(sheet_faults(sheet), place,
                  "%s: %.3g%% is next to nothing; for a share of one write %.3g", heading,
                  percent, percent * 100.0);
    }
}

/* Hauling a tonne for more than a tonne of hay is worth: a price by the load. */
#define MOST_HAUL_PER_KG 0.1

void stock_check_haul(const Sheet *sheet, int row, int column, double haul_per_kg) {
    if (haul_per_kg <= MOST_HAUL_PER_KG)
        return;
    doubt_add(sheet_faults(sheet), sheet_place(sheet, row, column),
              "%s: %.4g a tonne is more than hauling costs; is it by the load?",
              sheet_heading(sheet, column), haul_per_kg * KG_PER_TONNE);
}

/* What a tonne of each class is sold for, drawn wide: a price outside is by the pound, the bag,
 * the bushel, the bale or the load, or a slip [OWN_CHOICE]. Silage is as it lies, more than
 * half of it water. */
typedef struct {
    double least, most;
} UsualPrice;

static UsualPrice usual_price_per_tonne(FeedClass feed_class) {
    switch (feed_class) {
    case FEED_CLASS_STRAW:
        return (UsualPrice){10, 250};
    case FEED_CLASS_GRAIN:
        return (UsualPrice){80, 800};
    case FEED_CLASS_MEAL:
        return (UsualPrice){150, 1200};
    case FEED_CLASS_BYPRODUCT:
    case FEED_CLASS_MOLASSES:
        return (UsualPrice){100, 700};
    case FEED_CLASS_MINERAL:
    case FEED_CLASS_NPN:
        return (UsualPrice){150, 6000};
    case FEED_CLASS_CEREAL:
    case FEED_CLASS_COVER_CROP:
    case FEED_CLASS_LEGUME:
    case FEED_CLASS_GRASS:
    case FEED_CLASS_LEGUME_GRASS:
    case FEED_CLASS_CORN_SILAGE:
    case FEED_CLASS_SORGHUM:
    case FEED_CLASS_BRASSICA:
    case FEED_CLASS_COUNT:
        break;
    }
    return (UsualPrice){20, 450};
}

void stock_check_price(const Sheet *sheet, int row, int column, FeedClass feed_class,
                       double price_per_kg) {
    const UsualPrice usual = usual_price_per_tonne(feed_class);
    const double price = price_per_kg * KG_PER_TONNE;
    if (price <= 0.0 || (price >= usual.least && price <= usual.most))
        return;
    doubt_add(sheet_faults(sheet), sheet_place(sheet, row, column),
              "%s: %.2f a tonne (%.2f a ton) is unusual for %s, which runs from %g to %g a "
              "tonne; is the "
              "unit right? a price by the bag, bushel or bale has to be brought to it",
              sheet_heading(sheet, column), price, price_per_kg * KG_PER_SHORT_TON,
              feed_class_kind(feed_class)->label, usual.least, usual.most);
}

static bool is_dry(const Feedstuff *feed) {
    return feed->analysis.dry_matter.value >= MOST_DRY_MATTER_OF_SILAGE;
}

void stock_check_watch(const Sheet *sheet, int row, int column, const Feedstuff *feed) {
    const char *kind = feed_class_kind(feed->feed_class)->label;
    const Place place = sheet_place(sheet, row, column);
    const char *heading = sheet_heading(sheet, column);
    Faults *faults = sheet_faults(sheet);
    if ((feed->watch & WATCH_BIT(WATCH_FROSTED)) && feed->feed_class != FEED_CLASS_SORGHUM)
        doubt_add(faults, place,
                  "%s: 'frosted' is of sorghum and sudangrass and changes nothing of %s; other "
                  "crops gather nitrate when they freeze: have it tested for that",
                  heading, kind);
    if ((feed->watch & WATCH_BIT(WATCH_AMMONIATED)) && feed->feed_class != FEED_CLASS_STRAW)
        doubt_add(faults, place,
                  "%s: 'ammoniated' is of straw; %s that was treated can poison cattle and is "
                  "fed to nobody: ask your veterinarian what to do with it",
                  heading, kind);
    if ((feed->watch & WATCH_BIT(WATCH_FROZEN_LUMPS)) && is_dry(feed))
        doubt_add(faults, place,
                  "%s: 'frozen lumps' is of wet feed, and this one holds %.3g%% dry matter; of "
                  "a crop that froze on the field write 'frosted', or nothing",
                  heading, feed->analysis.dry_matter.value);
    if ((feed->watch & WATCH_BIT(WATCH_BRASSICA)) && feed->feed_class == FEED_CLASS_BRASSICA)
        doubt_add(faults, place,
                  "%s: 'brassica' is of a mix that holds some; this feed is reckoned as one "
                  "already",
                  heading);
    if ((feed->watch & WATCH_BIT(WATCH_DURUM)) && feed->feed_class == FEED_CLASS_STRAW)
        doubt_add(faults, place,
                  "%s: 'durum' is told for the ergot and vomitoxin of its heads and changes "
                  "nothing of straw",
                  heading);
}

Keeping stack_keeping(const Stack *stack) {
    const char *storage = stack->storage ? stack->storage->name : "";
    const bool is_chopped = stack->kind == STACK_PIT || stack->kind == STACK_BAG ||
                            stack->kind == STACK_PILE || stack->kind == STACK_WEDGE ||
                            stack->kind == STACK_SILO || text_same(storage, "covered pile") ||
                            text_same(storage, "upright silo");
    if (!stack->storage)
        return KEPT_ANYHOW;
    if (stack->feed.feed_class == FEED_CLASS_GRAIN)
        return stack->kind == STACK_BIN && !is_chopped ? KEPT_AS_DRY_GRAIN : KEPT_ANYHOW;
    if (!feed_class_kind(stack->feed.feed_class)->is_forage)
        return KEPT_ANYHOW;
    if (is_chopped)
        return KEPT_AS_CHOPPED_SILAGE;
    if (stack->kind == STACK_BALE_TUBE || text_same(storage, "wrapped"))
        return KEPT_AS_BALE_SILAGE;
    const bool is_baled = stack->kind == STACK_ROUND_BALES || stack->kind == STACK_SQUARE_BALES;
    return is_baled ? KEPT_AS_HAY : KEPT_ANYHOW;
}

/* Hay keeps below about 20 % water; silage is chopped at 55 to 70 %. */
#define LEAST_DRY_MATTER_OF_HAY 70.0

/* What was tested is judged sample by sample, where it stands in the laboratory's file. */
static void doubt_moisture(const Sheet *sheet, int row, const Stack *stack) {
    const Reading dry_matter = stack->feed.analysis.dry_matter;
    const Keeping keeping = stack_keeping(stack);
    if (dry_matter.origin != FROM_BOOK)
        return;
    if (keeping == KEPT_AS_HAY && dry_matter.value < LEAST_DRY_MATTER_OF_HAY) {
        doubt_add(sheet_faults(sheet), sheet_place(sheet, row, STACK_STORAGE),
                  "storage: bales of %.0f%% dry matter (of the book) do not keep unwrapped; is "
                  "the feed or the storage another?",
                  dry_matter.value);
    } else if (keeping == KEPT_AS_CHOPPED_SILAGE &&
               dry_matter.value > MOST_DRY_MATTER_OF_SILAGE) {
        doubt_add(sheet_faults(sheet), sheet_place(sheet, row, STACK_KIND_COLUMN),
                  "kind: %.0f%% dry matter (of the book) is too dry for silage; is the feed or "
                  "the kind another?",
                  dry_matter.value);
    }
}

void stack_check(const Sheet *sheet, int row, const Stack *stack) {
    doubt_moisture(sheet, row, stack);
    stock_check_price(sheet, row, STACK_VALUE, stack->feed.feed_class, stack->value_per_kg);
}
