/* How yield and quality of an annual forage change with days of growth: the working curves of
 * models/coefficients/growth-stages.csv, with how far a field may be from them and what grows
 * again (growth-kinds.csv). docs/equations/cutting-date.md */
#ifndef STOCK_GROWTH_CURVE_H
#define STOCK_GROWTH_CURVE_H

#include "base/sheet.h"

/* What a curve tells of one day of growth; NAN where it does not know. */
typedef enum { GROWN_YIELD, GROWN_PROTEIN, GROWN_NDF, GROWN_TDN, GROWN_COUNT } Grown;

typedef struct {
    const char *stage;
    double days;            /* from seeding */
    double of[GROWN_COUNT]; /* share of the yield at soft dough; % of dry matter */
} GrowthStage;

typedef struct {
    const char *name;
    const GrowthStage *stages; /* in the order of their days */
    int count;
    double yield_spread_share, protein_spread, tdn_spread; /* one standard deviation */
    double regrowth_kg_per_hectare_day;                    /* dry matter, a normal year */
} GrowthCurve;

typedef struct {
    const GrowthCurve *curves;
    const char *const *names;
    int count;
} GrowthCurves;

/* NULL when faults were added. */
const GrowthCurves *growth_curves_parse(Arena *arena, Faults *faults, const char *stage_bytes,
                                        size_t stage_length, const char *kind_bytes,
                                        size_t kind_length);

/* A straight line between the stages; before the first and after the last, as there. */
double growth_at(const GrowthCurve *curve, Grown which, double days);

/* The stage nearest to that day. */
const char *growth_stage_name(const GrowthCurve *curve, double days);

/* Outside the stages the curve knows nothing. */
bool growth_covers(const GrowthCurve *curve, double days);

/* A figure of a field between two records of its own: what the curve says that day, moved by
 * how far the records are from the curve, in a straight line from one to the other; a yield is
 * multiplied and the rest added. NAN days: that record is not there; both missing: NAN. */
typedef struct {
    double days, value;
} GrowthRecord;
double growth_through_records(const GrowthCurve *curve, Grown which, double days,
                              GrowthRecord before, GrowthRecord after);

#endif
