/* Completion goes measured value first: TDN is recomputed from what the laboratory measured by
 * the best route its report allows, so that two laboratories with the same fibre get the same
 * energy; NEm and NEg always follow from that TDN. */
#include "feedstuff/feedstuff.h"
#include "feedstuff/book_value.h"
#include "feedstuff/feed_sampling.h"
#include <math.h>

bool reading_is_known(Reading reading) { return reading.origin != FROM_NOWHERE; }

bool feed_lacks(const Feedstuff *feed, Nutrient nutrient) {
    return !reading_is_known(feed->analysis.of[nutrient]);
}

bool reading_stands_in(Reading reading) {
    return reading.origin == FROM_BOOK || reading.origin == FROM_ASSUMPTION;
}

Reading reading_nowhere(void) { return (Reading){(double)NAN, FROM_NOWHERE, SOURCE_NONE}; }

double reading_or(Reading reading, double otherwise) {
    return reading_is_known(reading) ? reading.value : otherwise;
}

const char *origin_name(Origin origin) {
    switch (origin) {
    case FROM_NOWHERE:
        return "not known";
    case FROM_LABORATORY:
        return "laboratory";
    case FROM_CALCULATION:
        return "calculated";
    case FROM_BOOK:
        return "book";
    case FROM_ASSUMPTION:
        return "assumed";
    }
    return "";
}

const char *energy_route_name(EnergyRoute route) {
    switch (route) {
    case ROUTE_DIGESTIBILITY:
        return "summative equation, NDF digestibility";
    case ROUTE_LIGNIN:
        return "summative equation, lignin";
    case ROUTE_FIBRE:
        return "ADF equation";
    case ROUTE_LABORATORY:
        return "laboratory TDN, method unknown";
    case ROUTE_BOOK:
        return "book";
    case ROUTE_COUNT:
        return "none";
    }
    return "";
}

/* The summative equation wants ash and fat too; the book or these stand in. Own choice. */
#define STAND_IN_CRUDE_FAT 2.5
#define STAND_IN_ASH 8.0

static double first_known(Reading tested, Reading book, double stand_in) {
    return reading_or(tested, reading_or(book, stand_in));
}

static double summative_tdn(const Feedstuff *feed, const Analysis *tested,
                            const BookFeed *of_book, bool by_digestibility) {
    const Analysis *book = &of_book->analysis;
    const BoundProtein bound =
        feed_class_bound_protein(feed->feed_class, feed->analysis.dry_matter.value);
    const Nutrient key = by_digestibility ? NUTRIENT_NDF_DIGESTIBILITY : NUTRIENT_LIGNIN;
    if (!reading_is_known(tested->of[key]) || !reading_is_known(tested->of[NUTRIENT_NDF]) ||
        !reading_is_known(tested->of[NUTRIENT_CRUDE_PROTEIN]))
        return (double)NAN;
    const FibreAnalysis analysis = {
        .crude_protein = tested->of[NUTRIENT_CRUDE_PROTEIN].value,
        .ndf = tested->of[NUTRIENT_NDF].value,
        .ash = first_known(tested->of[NUTRIENT_ASH], book->of[NUTRIENT_ASH], STAND_IN_ASH),
        .crude_fat = first_known(tested->of[NUTRIENT_CRUDE_FAT], book->of[NUTRIENT_CRUDE_FAT],
                                 STAND_IN_CRUDE_FAT),
        .ndicp = reading_or(tested->of[NUTRIENT_NDICP], bound.ndicp_pct),
        .adicp = reading_or(tested->of[NUTRIENT_ADICP], bound.adicp_pct),
        .lignin = by_digestibility ? (double)NAN : tested->of[NUTRIENT_LIGNIN].value,
        .ndf_digestibility =
            by_digestibility ? tested->of[NUTRIENT_NDF_DIGESTIBILITY].value : (double)NAN,
        .processing_factor = of_book->processing_factor,
        .is_concentrate = feed_class_kind(feed->feed_class)->is_concentrate,
    };
    return tdn_summative(analysis).tdn;
}

/* Of what the ADF equation says: it knows nothing of soil. */
static double soil_in_test(const Analysis *tested) {
    return tdn_lost_to_soil(reading_or(tested->of[NUTRIENT_ASH], 0.0));
}

static void find_tdn(Feedstuff *feed, const Analysis *tested, const BookFeed *book) {
    const FeedClassKind *kind = feed_class_kind(feed->feed_class);
    double *by = feed->tdn_by_route;
    by[ROUTE_DIGESTIBILITY] = summative_tdn(feed, tested, book, true);
    by[ROUTE_LIGNIN] = summative_tdn(feed, tested, book, false);
    by[ROUTE_FIBRE] =
        reading_is_known(tested->of[NUTRIENT_ADF])
            ? tdn_from_adf(kind->fibre, tested->of[NUTRIENT_ADF].value) - soil_in_test(tested)
            : (double)NAN;
    by[ROUTE_LABORATORY] = reading_or(tested->of[NUTRIENT_TDN], (double)NAN);
    by[ROUTE_BOOK] = reading_or(book->analysis.of[NUTRIENT_TDN], (double)NAN);
    feed->route = ROUTE_NONE;
    for (int route = 0; route < ROUTE_COUNT && feed->route == ROUTE_NONE; route++) {
        if (isfinite(by[route]))
            feed->route = (EnergyRoute)route;
    }
}

static SourceKey route_source(EnergyRoute route, FeedClass feed_class, SourceKey book) {
    switch (route) {
    case ROUTE_DIGESTIBILITY:
    case ROUTE_LIGNIN:
        return SOURCE_WEISS_1992;
    case ROUTE_FIBRE:
        return feed_class_kind(feed_class)->fibre == FIBRE_LEGUME ? SOURCE_PENN_STATE_1980
                                                                  : SOURCE_NFTA_A3;
    case ROUTE_BOOK:
        return book;
    case ROUTE_LABORATORY:
    case ROUTE_COUNT:
        return SOURCE_NONE;
    }
    return SOURCE_NONE;
}

static void set_energy(Feedstuff *feed, const Analysis *book) {
    Reading *of = feed->analysis.of;
    if (feed->route == ROUTE_NONE) {
        const Reading none = {0.0, FROM_BOOK, SOURCE_NONE};
        of[NUTRIENT_TDN] = of[NUTRIENT_NEM] = of[NUTRIENT_NEG] = none;
        return;
    }
    const double tdn = fmax(feed->tdn_by_route[feed->route], 0.0);
    Origin origin = FROM_CALCULATION;
    if (feed->route == ROUTE_LABORATORY)
        origin = FROM_LABORATORY;
    if (feed->route == ROUTE_BOOK)
        origin = FROM_BOOK;
    of[NUTRIENT_TDN] =
        (Reading){tdn, origin,
                  route_source(feed->route, feed->feed_class, book->of[NUTRIENT_TDN].source)};
    of[NUTRIENT_NEM] =
        (Reading){nem_from_tdn(tdn).mcal_per_kg, FROM_CALCULATION, SOURCE_GARRETT_1980};
    of[NUTRIENT_NEG] =
        (Reading){neg_from_tdn(tdn).mcal_per_kg, FROM_CALCULATION, SOURCE_GARRETT_1980};
}

/* Bound protein is only a loss in forages: distillers grains test high and feed well. */
static void take_off_heat_damage(Feedstuff *feed) {
    Reading *of = feed->analysis.of;
    if (of[NUTRIENT_ADICP].origin != FROM_LABORATORY ||
        of[NUTRIENT_CRUDE_PROTEIN].origin != FROM_LABORATORY ||
        !feed_class_kind(feed->feed_class)->is_forage)
        return;
    const double left =
        adjusted_crude_protein(of[NUTRIENT_CRUDE_PROTEIN].value, of[NUTRIENT_ADICP].value);
    if (left >= of[NUTRIENT_CRUDE_PROTEIN].value)
        return;
    feed->protein_lost_to_heat = of[NUTRIENT_CRUDE_PROTEIN].value - left;
    of[NUTRIENT_CRUDE_PROTEIN] = (Reading){left, FROM_CALCULATION, SOURCE_ADJUSTED_PROTEIN};
}

/* Kinds that gather sulfur, and that no laboratory looked at, are reckoned with what such a
 * feed may well hold: too much of it harms, and the book's is an average. */
static void set_sulfur(Feedstuff *feed, const BookFeed *book) {
    Reading *sulfur = &feed->analysis.of[NUTRIENT_SULFUR];
    if (sulfur->origin == FROM_LABORATORY || book->untested_sulfur <= reading_or(*sulfur, 0.0))
        return;
    *sulfur = (Reading){book->untested_sulfur, FROM_ASSUMPTION, SOURCE_OWN_CHOICE};
    feed->sulfur_is_assumed = true;
}

/* A figure worked out of others is no better known than the worst of them. */
static Origin worked_out_of(const Reading *of, const Nutrient *parts, int count) {
    Origin origin = FROM_CALCULATION;
    for (int i = 0; i < count; i++) {
        if (!reading_is_known(of[parts[i]]))
            return FROM_NOWHERE;
        if (of[parts[i]].origin == FROM_BOOK)
            origin = FROM_BOOK;
    }
    return origin;
}

static Reading nfc_of(const Feedstuff *feed) {
    static const Nutrient PARTS[] = {NUTRIENT_CRUDE_PROTEIN, NUTRIENT_NDF, NUTRIENT_CRUDE_FAT,
                                     NUTRIENT_ASH};
    const Reading *of = feed->analysis.of;
    const Origin origin = worked_out_of(of, PARTS, 4);
    if (origin == FROM_NOWHERE || feed->feed_class == FEED_CLASS_MINERAL ||
        feed->feed_class == FEED_CLASS_NPN)
        return reading_nowhere();
    return (Reading){
        non_fibre_carbohydrate(of[NUTRIENT_CRUDE_PROTEIN].value, of[NUTRIENT_NDF].value,
                               of[NUTRIENT_CRUDE_FAT].value, of[NUTRIENT_ASH].value),
        origin, SOURCE_HAY_NFC_2023};
}

/* Its scale is alfalfa's: it says nothing of straw, corn silage or annual crops. */
static Reading rfv_of(const Feedstuff *feed) {
    static const Nutrient PARTS[] = {NUTRIENT_ADF, NUTRIENT_NDF};
    const Reading *of = feed->analysis.of;
    const Origin origin = worked_out_of(of, PARTS, 2);
    const bool is_meant = feed->feed_class == FEED_CLASS_LEGUME ||
                          feed->feed_class == FEED_CLASS_LEGUME_GRASS ||
                          feed->feed_class == FEED_CLASS_GRASS;
    if (origin == FROM_NOWHERE || !is_meant || of[NUTRIENT_NDF].value <= 0.0)
        return reading_nowhere();
    return (Reading){relative_feed_value(of[NUTRIENT_ADF].value, of[NUTRIENT_NDF].value),
                     origin, SOURCE_WARD_2008};
}

static Reading rup_of(const Feedstuff *feed) {
    const Reading rdp = feed->analysis.of[NUTRIENT_DEGRADABLE_SHARE];
    if (!reading_is_known(rdp))
        return reading_nowhere();
    const Origin origin = rdp.origin == FROM_LABORATORY ? FROM_CALCULATION : rdp.origin;
    return (Reading){100.0 - rdp.value, origin, rdp.source};
}

/* A grain with more is a pulse, whose protein dissolves unlike that of a cereal. Own choice. */
#define MOST_PROTEIN_OF_CEREAL 20.0

/* Shown, and used by nothing: never above what is degradable, of which it is a part. */
static void set_soluble(Feedstuff *feed) {
    Reading *of = feed->analysis.of;
    const double usual =
        feed_class_soluble_share(feed->feed_class, feed->analysis.dry_matter.value);
    const double protein = reading_or(of[NUTRIENT_CRUDE_PROTEIN], (double)NAN);
    if (reading_is_known(of[NUTRIENT_SOLUBLE_SHARE]) ||
        !(usual <= reading_or(of[NUTRIENT_DEGRADABLE_SHARE], 100.0)) ||
        (feed->feed_class == FEED_CLASS_GRAIN && !(protein <= MOST_PROTEIN_OF_CEREAL)))
        return;
    of[NUTRIENT_SOLUBLE_SHARE] = (Reading){usual, FROM_ASSUMPTION, SOURCE_BOOK_MEMORY};
}

static void set_nitrate(Feedstuff *feed, const Tested *tested, const BookFeed *book) {
    if (isfinite(tested->nitrate_highest)) {
        const double margin =
            tested->nitrate_sample_count > 1 ? 1.0 : NITRATE_SINGLE_SAMPLE_MARGIN;
        feed->nitrate_for_safety = tested->nitrate_highest * margin;
        return;
    }
    const double assumed =
        fmax(feed_class_kind(feed->feed_class)->untested_nitrate_pct, book->untested_nitrate);
    feed->nitrate_for_safety = assumed;
    feed->nitrate_is_assumed = assumed > 0.0;
    feed->analysis.of[NUTRIENT_NITRATE] =
        (Reading){assumed, FROM_ASSUMPTION, SOURCE_OWN_CHOICE};
}

Feedstuff feedstuff_complete(const char *name, const Tested *tested, const BookFeed *book) {
    Feedstuff feed = {
        .name = name,
        .label = book->label,
        .book_feed = book->feed,
        .feed_class = book->feed_class,
        .sample_count = tested->sample_count,
        .core_count = tested->core_count,
    };
    const Analysis *known = &tested->mean;
    feed.analysis.dry_matter =
        reading_is_known(known->dry_matter) ? known->dry_matter : book->analysis.dry_matter;
    for (int i = 0; i < NUTRIENT_COUNT; i++) {
        feed.analysis.of[i] =
            reading_is_known(known->of[i]) ? known->of[i] : book->analysis.of[i];
    }
    find_tdn(&feed, known, book);
    set_energy(&feed, &book->analysis);
    feed.nfc = nfc_of(&feed); /* of the protein as tested: bound protein is no carbohydrate */
    feed.rfv = rfv_of(&feed);
    feed.rup = rup_of(&feed);
    set_soluble(&feed);
    take_off_heat_damage(&feed);
    set_nitrate(&feed, tested, book);
    set_sulfur(&feed, book);
    feed.sampling = sampling_of(&feed, tested);
    return feed;
}

#define GATHERS_NITRATE                                                                        \
    (WATCH_BIT(WATCH_KOCHIA) | WATCH_BIT(WATCH_SWEET_CLOVER) | WATCH_BIT(WATCH_BRASSICA))

static void watch_nitrate(Feedstuff *feed) {
    Reading *nitrate = &feed->analysis.of[NUTRIENT_NITRATE];
    if ((feed->watch & GATHERS_NITRATE) == 0 || nitrate->origin != FROM_ASSUMPTION ||
        feed->nitrate_for_safety >= UNTESTED_WEED_NITRATE)
        return;
    *nitrate = (Reading){UNTESTED_WEED_NITRATE, FROM_ASSUMPTION, SOURCE_OWN_CHOICE};
    feed->nitrate_for_safety = UNTESTED_WEED_NITRATE;
    feed->nitrate_is_assumed = true;
}

static void watch_sulfur(Feedstuff *feed) {
    Reading *sulfur = &feed->analysis.of[NUTRIENT_SULFUR];
    if ((feed->watch & WATCH_BIT(WATCH_BRASSICA)) == 0 || sulfur->origin == FROM_LABORATORY ||
        reading_or(*sulfur, 0.0) >= UNTESTED_BRASSICA_SULFUR)
        return;
    *sulfur = (Reading){UNTESTED_BRASSICA_SULFUR, FROM_ASSUMPTION, SOURCE_OWN_CHOICE};
    feed->sulfur_is_assumed = true;
}

void feedstuff_watch(Feedstuff *feed, WatchSet watch) {
    feed->watch = watch;
    watch_nitrate(feed);
    watch_sulfur(feed);
}
