/* What a ration of one group in one period must hold to, each limit as numbers over the feeds:
 *
 *     amount      sum of per_kg[f] x[f] + microbial_factor * m        between least and most
 *     ratio       sum of per_kg[f] x[f] / (sum of base[f] x[f] + base_constant) + added
 *                                                                     between least and most
 *
 * with x the kg of dry matter eaten per head and day and m the microbial protein, kg a day. A
 * concentration is a ratio to dry matter; `added` is what the water brings. Both become linear
 * rows. Sides that may give, and only those, may fall short when the winter cannot be balanced.
 */
#ifndef PLANNER_RATION_LIMIT_H
#define PLANNER_RATION_LIMIT_H

#include "planner/plan_question.h"

/* Limits that are not linear: their rows are straight lines touching the law at a ration, and
 * what is shown of them is the law itself. */
typedef enum { LAW_NONE, LAW_GAIN, LAW_INTAKE_MOST, LAW_INTAKE_LEAST } RationLaw;

typedef struct {
    const char *key;   /* "net_energy_maintenance", or the id of a safety limit */
    const char *label; /* "Net energy" */
    const char *unit;  /* as the limit is shown: "Mcal", "g", "kg", "%" ... */
    int decimals;
    double shown_times;   /* number shown = number inside * shown_times */
    const double *per_kg; /* [feed_count] */
    const double *base;   /* [feed_count]; NULL for an amount */
    double base_constant; /* of a ratio: what it is of beside the feeds */
    double microbial_factor;
    double added;
    double least, most;   /* -NO_LIMIT, NO_LIMIT where there is none */
    double warn;          /* a caution beyond it; NAN when there is none */
    double caution_price; /* dollars a head and day that going from warn to the bound weighs;
                             0: nothing */
    double usual_base;    /* of a ratio: what it is of in a usual kg of ration */
    double least_gives,
        most_gives;            /* price of falling short by the whole bound; 0: never gives */
    const SafetyLimit *safety; /* NULL for a need */
    SourceKey source;
    RationLaw law;
    RationLaw line_of; /* a line beside the law's own row (law_line.h), which gives with it;
                          LAW_NONE: none */
    double row_times;  /* of a line: what a unit of the law's own row is of its own */
    bool is_inner;     /* not shown */
} RationLimit;

/* The mix around which the two laws that are not linear are taken as straight in one round:
 * what cattle can eat of it, and how growing cattle split it between upkeep and gain. The rows
 * are exact for as much of this mix as just keeps the law, and off only by the square of the
 * way to another mix. */
typedef struct {
    double diet_nem; /* n = E / F, Mcal per kg; E its NEm, F what of it fills: not minerals */
    double gain_per_upkeep; /* r = G / E; G its NEg */
} BlockState;

/* What of the limits is the same for all blocks of a question: worked out once for them all. */
typedef struct RationTable RationTable;

const RationTable *ration_table(Arena *arena, const PlanQuestion *question);

/* All limits of a block: [count], of the arena or the table's, which blocks share. */
const RationLimit *const *ration_limits_by(Arena *arena, const RationTable *table, int block,
                                           BlockState state, int *count);
/* The same for one block alone. */
const RationLimit *const *ration_limits(Arena *arena, const PlanQuestion *question, int block,
                                        BlockState state, int *count);

/* The state that a ration gives; the old one where nothing is eaten. */
BlockState ration_state(const PlanQuestion *question, const double *eaten, BlockState old);

/* Whether it is that the energy of the ration covers upkeep, and gain. */
bool ration_limit_is_energy(const RationLimit *limit);

/* kg of dry matter a day per kg of live weight, where a rate must not depend on the ration. Own
 * choice; what cattle on roughage eat. */
#define USUAL_INTAKE_SHARE 0.02

/* Whether it stills hunger: minerals and urea do not. */
bool ration_feed_fills(const PlanFeed *feed);

/* What a ration supplies against a limit, and how much the microbial column may be. */
double ration_supply(const RationLimit *limit, int feed_count, const double *eaten,
                     double microbial_kg);
double ration_microbial_kg(const PlanQuestion *question, const double *eaten);

/* Nutrients with a least concentration that are not planned for, because no mineral, own or for
 * sale, brings them; returns how many. */
int nutrients_not_judged(Arena *arena, const PlanQuestion *question,
                         const Nutrient **nutrients);

#endif
