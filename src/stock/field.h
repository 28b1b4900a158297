/* The fields of next year: for each field the days it could be cut and how it could be put up,
 * what it would then yield, what that would test, and what it costs. fields.csv,
 * docs/file-formats.md; docs/equations/cutting-date.md */
#ifndef STOCK_FIELD_H
#define STOCK_FIELD_H

#include "stock/growth_curve.h"
#include "stock/harvest_way.h"

/* Whose a figure of a cut is. */
typedef enum {
    GROWN_OWN,     /* the row's own */
    GROWN_BY_CURVE /* by the curve, through what the field's own rows say */
} GrownOrigin;

/* One day on which one field could be cut, and one way of putting it up: a row. */
typedef struct {
    const char *name; /* "Home quarter, 2027-07-20, hay" */
    const char *crop; /* "" not said */
    int field;        /* of the fields */
    Day cut;
    bool has_cut;
    double days; /* of growth; NAN where the seeding day is not known */
    const HarvestWay *way;
    const GrowthCurve *curve; /* NULL: none was named */
    const BookFeed *book;
    Tested tested;                   /* the row's own figures, then those by the curve */
    bool test_by_curve[GROWN_COUNT]; /* protein, NDF and TDN that are by the curve */
    bool has_own_test;               /* any of them is the row's own */
    double yield_kg_per_hectare;     /* dry matter that stands at cutting; NAN not known */
    GrownOrigin yield_origin;
    double dry_share; /* of what is put up */
    double field_loss_share, rain_chance, rain_loss_share, rain_tdn_loss;
    double yield_spread_share, protein_spread, tdn_spread; /* one standard deviation */
    double cost_per_hectare;                               /* seed, cutting, land and other */
    double cost_per_kg; /* as put up: baling or ensiling, wrapping, hauling home */
    double regrowth_kg_per_hectare, regrowth_use_share, grazing_value_per_kg; /* dry matter */
    const StorageKind *storage;
    const FeedingKind *feeding;
    double storage_loss_share; /* NAN: by the table */
    double waste_share, protein_left;
    double value_per_kg, haul_per_kg; /* as put up: what is left over fetches; feeding it out */
    WatchSet watch;
    Allowance allowance;
    Place place;
} FieldCut;

typedef struct {
    const char *name;
    double hectares;
} Field;

typedef struct {
    const Field *fields;
    int field_count;
    const FieldCut *cuts; /* in the order of the rows */
    int cut_count;
} Fields;

typedef struct {
    const StockContext *stock;
    const GrowthCurves *curves;
    const HarvestWays *ways;
} FieldContext;

#define MOST_FIELD_CUTS 200

/* bytes NULL, or a fault: no cuts. */
Fields fields_parse(Arena *arena, Faults *faults, const FieldContext *context, const char *file,
                    const char *bytes, size_t length);

/* How a year turns out. NAN rain: as often as each row says, on the whole; else 0 or 1. */
typedef struct {
    double rain;
    double yield_deviations, quality_deviations; /* standard deviations; 0 as expected */
} GrowingYear;

GrowingYear growing_year_expected(void);

/* kg as put up of a hectare. */
double field_cut_put_up(const FieldCut *cut, GrowingYear year);

/* Money for a hectare cut so, less what the regrowth is worth as grazing. */
double field_cut_cost(const FieldCut *cut, GrowingYear year);
double field_cut_grazing(const FieldCut *cut); /* that worth */

/* The stack the whole field would make. `middle` of the winter: storage losses are reckoned to
 * it. */
Stack field_cut_stack(const FieldCut *cut, const Field *field, GrowingYear year, Day middle);

#endif
