/* Limits a ration stays within, read from models/coefficients/safety-limits.csv, so that an
 * adviser can tighten a line without a compiler. A limit on something no test is read for is
 * kept, and reported as not watched. */
#ifndef CATTLE_SAFETY_LIMIT_H
#define CATTLE_SAFETY_LIMIT_H

#include "base/source.h"
#include "cattle/herd_group.h"
#include "cattle/stage.h"
#include "cattle/winter.h"
#include "feedstuff/feedstuff.h"

typedef enum {
    LIMIT_CONCENTRATION, /* of the whole diet, with what the water adds */
    LIMIT_EACH_FEED,     /* of each feed alone; of nitrate with what the water adds */
    LIMIT_SHARE,         /* of dry matter, of some feeds */
    LIMIT_SHARE_ABOVE,   /* of dry matter, of feeds that hold more than a number of something */
    LIMIT_WEIGHT_SHARE,  /* kg of dry matter a day of some feeds per kg of live weight */
    LIMIT_RATIO,
    LIMIT_DAYS_KEPT, /* from the day a feed was put up, before any of it is fed */
    LIMIT_WATER,     /* cautioned; winter.csv refuses what no ration makes safe */
    LIMIT_FACILITY,  /* cautioned */
    LIMIT_KIND_COUNT
} LimitKind;

/* What a limit looks at. */
typedef enum {
    SUBJECT_NOT_WATCHED,
    SUBJECT_NUTRIENT,
    SUBJECT_SALT,
    SUBJECT_FEEDS, /* feeds for which limit_covers says yes */
    SUBJECT_CALCIUM_TO_PHOSPHORUS,
    SUBJECT_NPN_PROTEIN,    /* of crude protein, from non-protein nitrogen */
    SUBJECT_NPN_SUPPLEMENT, /* the same of what stands beside poor forage */
    SUBJECT_TETANY_RATIO,   /* K / (Ca + Mg), equivalents */
    SUBJECT_COPPER_TO_MOLYBDENUM,
    SUBJECT_SULFUR_LINE, /* sulfur, the water's too, of what the share of forage lets pass */
    SUBJECT_HEATED,      /* bales that heated and hold more nitrate than `above` */
    SUBJECT_UREA_BESIDE, /* urea, where other feed could take the diet above `above` */
    SUBJECT_WATER_SULFATE,
    SUBJECT_WATER_NITRATE,
    SUBJECT_WATER_SOLIDS,
    SUBJECT_BUNK /* cm a head */
} LimitSubject;

typedef enum { SIDE_MOST, SIDE_LEAST } LimitSide;

/* Under which condition a limit holds besides the stage. */
typedef enum {
    CONDITION_NONE,
    CONDITION_NOT_MIXED /* where cattle can pick one feed out */
} LimitCondition;

typedef struct {
    const char *id, *label;
    LimitKind kind;
    LimitSubject subject;
    const char *subject_text;
    Nutrient nutrient; /* SUBJECT_NUTRIENT */
    double above;      /* LIMIT_SHARE_ABOVE: in its unit; SUBJECT_HEATED, _UREA_BESIDE: % NO3 */
    StageSet stages;   /* for which it holds whatever practice is followed */
    StageSet practice_stages[PRACTICE_COUNT]; /* for which it holds under a practice besides */
    LimitCondition condition;
    double warn, hard; /* in the nutrient's unit, or shares */
    /* Dollars a head and day that a ration half way from warn to hard is reckoned dearer by
     * half of: no money, but what weighs a caution against money. 0: it only cautions. */
    double caution_price;
    LimitSide side;
    SourceKey source;
    HowKnown how_known;
} SafetyLimit;

typedef struct {
    const SafetyLimit *limits;
    int count;
} SafetyLimits;

SafetyLimits safety_limits_parse(Arena *arena, Faults *faults, const char *file,
                                 const char *bytes, size_t length);

/* The same limits with the stages of the practices this farm follows. */
SafetyLimits safety_limits_followed(Arena *arena, const SafetyLimits *limits,
                                    const Winter *winter);

/* true when the plan holds rations to it, or cautions. */
bool limit_is_watched(const SafetyLimit *limit);

/* true when it holds for cattle in any of these stages, fed in this way. */
bool limit_applies(const SafetyLimit *limit, StageSet stages, Delivery delivery);

/* SUBJECT_FEEDS: whether this feed is one of those (limit_feeds.c). */
bool limit_covers(const SafetyLimit *limit, const Feedstuff *feed);

/* LIMIT_DAYS_KEPT: the first day on which feed put up on a day may be fed. */
Day limit_kept_until(const SafetyLimit *limit, Day put_up);

/* What the water adds to each kg of dry matter, in the nutrient's unit: nitrate and sulfur
 * only. Winter cattle drink about 4 L per kg of dry matter [CSU_SULFUR]. */
#define WATER_PER_KG_DRY_MATTER 4.0
#define SULFUR_PER_SULFATE 0.33376 /* from the atomic weights */
double water_adds(Nutrient nutrient, double sulfate_mg_per_l, double nitrate_mg_per_l);

/* The most sulfur of a diet, %, by the share of its dry matter that is forage, straight between
 * 0.30 at 15 % and 0.50 at 40 % forage, and no more than that:
 *
 *     least of 0.18 + 0.80 F and 0.50      F 0..1 [SULFUR_FORAGE_SHARE]
 *
 * below 15 % forage it goes on down, on the safe side. The end at 40 % is from memory. */
#define SULFUR_WITHOUT_FORAGE 0.18
#define SULFUR_PER_FORAGE 0.80
#define SULFUR_AT_MOST 0.50
double sulfur_most_by_forage(double forage_share);

/* Forage with less crude protein, % of dry matter, is poor: of it alone cattle eat and digest
 * less [NMSU_583], and what stands beside it is its supplement. */
#define POOR_FORAGE_PROTEIN_PCT 7.0

/* Milliequivalents per kg of dry matter per 1 % [TETANY_REVIEW]. */
#define MEQ_POTASSIUM 255.74
#define MEQ_CALCIUM 499.00
#define MEQ_MAGNESIUM 822.64

#define SALT_PER_SODIUM 2.542 /* NaCl / Na */

/* What the water adds to the salt, % of dry matter. All its sodium counts as salt, as that of
 * the feed does: the careful side where it comes with sulfate. */
double water_adds_salt(double sodium_mg_per_l);

#endif
