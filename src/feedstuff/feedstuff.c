/* Completion goes measured value first: TDN is recomputed from what the laboratory measured by
 * the best route its report allows, so that two laboratories with the same fibre get the same
 * energy; NEm and NEg always follow from that TDN. */
#include "feedstuff/feedstuff.h"
#include "feedstuff/book_value.h"
#include <math.h>

bool reading_is_known(Reading reading) { return reading.origin != FROM_NOWHERE; }

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

static double summative_tdn(const Analysis *tested, const Analysis *book,
                            const FeedClassKind *kind, bool by_digestibility) {
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
        .ndicp = reading_or(tested->of[NUTRIENT_NDICP], kind->ndicp_pct),
        .adicp = reading_or(tested->of[NUTRIENT_ADICP], kind->adicp_pct),
        .lignin = by_digestibility ? (double)NAN : tested->of[NUTRIENT_LIGNIN].value,
        .ndf_digestibility =
            by_digestibility ? tested->of[NUTRIENT_NDF_DIGESTIBILITY].value : (double)NAN,
        .processing_factor = 1.0,
        .is_concentrate = kind->is_concentrate,
    };
    return tdn_summative(analysis).tdn;
}

static void find_tdn(Feedstuff *feed, const Analysis *tested, const Analysis *book) {
    const FeedClassKind *kind = feed_class_kind(feed->feed_class);
    double *by = feed->tdn_by_route;
    by[ROUTE_DIGESTIBILITY] = summative_tdn(tested, book, kind, true);
    by[ROUTE_LIGNIN] = summative_tdn(tested, book, kind, false);
    by[ROUTE_FIBRE] = reading_is_known(tested->of[NUTRIENT_ADF])
                          ? tdn_from_adf(kind->fibre, tested->of[NUTRIENT_ADF].value)
                          : (double)NAN;
    by[ROUTE_LABORATORY] = reading_or(tested->of[NUTRIENT_TDN], (double)NAN);
    by[ROUTE_BOOK] = reading_or(book->of[NUTRIENT_TDN], (double)NAN);
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
    if (left < of[NUTRIENT_CRUDE_PROTEIN].value)
        of[NUTRIENT_CRUDE_PROTEIN] = (Reading){left, FROM_CALCULATION, SOURCE_OWN_CHOICE};
}

static void set_nitrate(Feedstuff *feed, const Tested *tested) {
    if (isfinite(tested->nitrate_highest)) {
        const double margin =
            tested->nitrate_sample_count > 1 ? 1.0 : NITRATE_SINGLE_SAMPLE_MARGIN;
        feed->nitrate_for_safety = tested->nitrate_highest * margin;
        return;
    }
    const double assumed = feed_class_kind(feed->feed_class)->untested_nitrate_pct;
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
    find_tdn(&feed, known, &book->analysis);
    set_energy(&feed, &book->analysis);
    take_off_heat_damage(&feed);
    set_nitrate(&feed, tested);
    return feed;
}
