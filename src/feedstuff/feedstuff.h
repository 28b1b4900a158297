/* A feed and its analysis. A value never travels without where it came from, and a value that
 * is not known is FROM_NOWHERE, never zero. All values per unit of dry matter, in the unit of
 * nutrient.def. */
#ifndef FEEDSTUFF_FEEDSTUFF_H
#define FEEDSTUFF_FEEDSTUFF_H

#include "base/calendar.h"
#include "base/source.h"
#include "feedstuff/feed_class.h"
#include "feedstuff/feed_watch.h"
#include "feedstuff/nutrient.h"

typedef enum {
    FROM_NOWHERE,
    FROM_LABORATORY,
    FROM_CALCULATION,
    FROM_BOOK,
    FROM_ASSUMPTION
} Origin;

typedef struct {
    double value; /* meaningless when FROM_NOWHERE */
    Origin origin;
    SourceKey source;
} Reading;

typedef struct {
    Reading dry_matter; /* % as received */
    Reading of[NUTRIENT_COUNT];
} Analysis;

/* Which way TDN was found, best first. */
typedef enum {
    ROUTE_DIGESTIBILITY, /* summative equation with laboratory NDF digestibility */
    ROUTE_LIGNIN,        /* summative equation with lignin */
    ROUTE_FIBRE,         /* from ADF by the class's equation */
    ROUTE_LABORATORY,    /* the laboratory's own TDN, method unknown */
    ROUTE_BOOK,
    ROUTE_COUNT,
    ROUTE_NONE = ROUTE_COUNT /* a mineral: no energy */
} EnergyRoute;

/* How far a figure may be from the whole stack's: its standard error, by the working deviations
 * of feed_sampling.h, and by how the samples differ among themselves. NAN: cannot be said. */
typedef struct {
    double working, between;
} SampleError;

typedef struct {
    SampleError crude_protein, tdn, nitrate; /* in the figure's own unit */
    int cores_said_count;                    /* samples that say how many cores they are of */
    Day newest;                              /* sampling day of the newest sample */
    bool has_date;
} Sampling;

typedef struct {
    const char *name;
    const char *label; /* of the book feed */
    const char *book_feed;
    FeedClass feed_class;
    Analysis analysis; /* complete */
    EnergyRoute route;
    double tdn_by_route[ROUTE_COUNT]; /* NAN where a route cannot be taken */
    int sample_count;
    double core_count;         /* cores behind the samples; 0 when nobody said */
    double nitrate_for_safety; /* % NO3: highest sample, or the only one with its margin, or
                                  assumed */
    bool nitrate_is_assumed;
    bool sulfur_is_assumed;
    double protein_lost_to_heat; /* % of dry matter, off what was tested */
    WatchSet watch;              /* what the farmer says is in it, or was done to it */
    bool is_kept_as_silage;      /* it lies wrapped, or shut in a pit, bag or silo */
    Reading nfc, rfv; /* for information: no plan uses them. nfc in % of dry matter */
    Reading rup;      /* what the rumen leaves of the crude protein, % of it: 100 less RDP */
    Sampling sampling;
} Feedstuff;

/* What the farmer says is in it. Kochia, sweet clover and brassicas gather nitrate in whatever
 * they grow [MONTANA_NITRATE]: where nobody tested for it the feed is reckoned with the worst
 * of its kind, as in feed_class.def, % NO3. Brassicas gather sulfur too: a mix of half turnip
 * tops at the book's 0.85 % and half of feed at 0.2 holds 0.53 [OWN_CHOICE]. */
#define UNTESTED_WEED_NITRATE 2.0
#define UNTESTED_BRASSICA_SULFUR 0.55
void feedstuff_watch(Feedstuff *feed, WatchSet watch);

bool reading_is_known(Reading reading);
bool feed_lacks(const Feedstuff *feed, Nutrient nutrient); /* nobody says how much it holds */
bool reading_stands_in(Reading reading); /* the book's, or assumed, where a test is wanted */
Reading reading_nowhere(void);

/* The value, or `otherwise` when it is not known. */
double reading_or(Reading reading, double otherwise);

const char *origin_name(Origin origin);           /* "laboratory", "book" ... */
const char *energy_route_name(EnergyRoute route); /* "ADF equation" ... */

/* Makes a complete feed of what the laboratory found (may be all FROM_NOWHERE) and the book's
 * feed: fills gaps laboratory > calculated > book and never overwrites. nitrate_highest is NAN
 * when no sample looked for it. */
typedef struct BookFeed BookFeed;
typedef struct {
    Analysis mean; /* of the samples, weighed by cores */
    int sample_count;
    double core_count;
    double nitrate_highest; /* % NO3; NAN when no sample looked */
    int nitrate_sample_count;
    /* Of each nutrient: the samples that looked for it, the cores behind them (one where nobody
     * said), and the standard error of the mean by how they differ (NAN with fewer than two).
     */
    int samples_behind[NUTRIENT_COUNT];
    double cores_behind[NUTRIENT_COUNT], error_between[NUTRIENT_COUNT];
    int cores_said_count;
    Day newest;
    bool has_date;
} Tested;
Feedstuff feedstuff_complete(const char *name, const Tested *tested, const BookFeed *book);

/* One sample says little of a whole stack: its nitrate is raised by this much. Own choice. */
#define NITRATE_SINGLE_SAMPLE_MARGIN 1.15

#endif
