/* How the files that say what a ration must hold to write their limits: a list of an arena that
 * grows, values by feed, and the prices of giving. For ration_limit.c and ration_safety.c
 * alone.
 */
#ifndef PLANNER_RATION_ROW_H
#define PLANNER_RATION_ROW_H

#include "planner/ration_limit.h"

/* Prices of falling short by the whole of a need, per head and day: only their order matters.
 * Feed for warmth and calf comes first, then protein and a full stomach, then what keeps the
 * rumen going, then bones, and the other minerals. All twelve of those together, even at the
 * ninefold price of being wholly short, stay below the stomach: a concentration is short by
 * less in a smaller ration, and cattle must not be starved to mend a vitamin. Own choice. */
#define GIVES_SULFUR 30.0 /* and salt, of water */
#define GIVES_FORAGE 40.0
#define GIVES_ENERGY 30.0
#define GIVES_PROTEIN 20.0
#define GIVES_FILL 18.0
#define GIVES_BALANCE 12.0
/* Of one mineral to another, measured by what fills cattle and not by a mineral on offer: some
 * of the energy is given up for it, about a tenth of the need where half of the ratio lacks. */
#define GIVES_RATIO 2.0
/* Of a third of the share: by the kilogram half as dear again as of mid pregnancy, so that
 * these have the straw first, and no cow near calving is left empty beside it. */
#define GIVES_STRAW_LATE 6.0
#define GIVES_DEGRADABLE 10.0
#define GIVES_MACROMINERAL 6.0
#define GIVES_MINERAL 0.15
#define NEVER_GIVES 0.0

enum { MOST_SHARED_LEASTS = 8, MICROBE_ROWS = 3 };

/* Limits of one mineral that blocks share: as many as there are numbers to keep. */
typedef struct {
    const RationLimit *limit[MOST_SHARED_LEASTS];
    int count;
} SharedLimits;

/* Values by feed of a line of a law that stays (law_line.c), which a and b tell. */
typedef struct LineValues {
    RationLaw law;
    double a, b;
    const double *per_kg;
    const struct LineValues *next;
} LineValues;

/* What the limits of all blocks have in common: values by feed, [feed_count] each, and the
 * lines of the safety table as limits. */
struct RationTable {
    Arena *arena;
    const PlanQuestion *question;
    const double *undegraded, *degraded, *microbial, *ones, *nem, *ndf, *calcium, *phosphorus;
    double microbial_constant;
    const double *mineral[NUTRIENT_COUNT]; /* NULL: not planned for */
    const RationLimit *microbes;           /* the same MICROBE_ROWS for all */
    SharedLimits *mineral_limits;          /* [NUTRIENT_COUNT] made so far */
    const LineValues **line_values;        /* made so far; NULL: none */
    const RationLimit
        *safety; /* [limits of the farm] key NULL: no limit of a ration of these. Whole but
                    for those of live weight, whose bounds are for each kg of it */
};

typedef struct {
    Arena *arena;
    const RationTable *table;
    const PlanQuestion *question;
    const PlanBlock *block;
    const RationLimit **limits;
    int count;
} RationRows;

enum { MOST_RATION_ROWS = 128 };

/* A limit without bounds or values. */
RationLimit ration_row(const char *key, const char *label, const char *unit, int decimals);

/* The next of the list, of the arena; or one that stands elsewhere. */
RationLimit *ration_row_add(RationRows *rows, RationLimit limit);
void ration_row_list(RationRows *rows, const RationLimit *limit);

/* [feed_count] of the arena: zeros; ones; times what a kg of dry matter holds of a nutrient. */
double *ration_row_numbers(Arena *arena, const PlanQuestion *question);
const double *ration_row_ones(Arena *arena, const PlanQuestion *question);
const double *ration_row_eaten(Arena *arena, const PlanQuestion *question, Nutrient nutrient,
                               double times);

/* An unknown counts as none toward a need; toward a ceiling too, and the report names it. */
double ration_known_or_none(double value);

#endif
