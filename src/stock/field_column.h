/* The columns of fields.csv after those of a feed test, shared by its reader and what fills its
 * gaps. Of the test's own, `stack` is headed `field` and `date` is `cut_date`. */
#ifndef STOCK_FIELD_COLUMN_H
#define STOCK_FIELD_COLUMN_H

#include "feedstuff/feed_test_column.h"
#include "stock/field.h"

enum {
    FIELD_NAME = TEST_STACK,
    FIELD_CUT_DATE = TEST_DATE,
    FIELD_AREA = TEST_COLUMN_COUNT,
    FIELD_CROP,
    FIELD_FEED,
    FIELD_GROWTH,
    FIELD_SEEDED,
    FIELD_WAY,
    FIELD_YIELD,
    FIELD_YIELD_BASIS,
    FIELD_YIELD_SPREAD,
    FIELD_PROTEIN_SPREAD,
    FIELD_TDN_SPREAD,
    FIELD_LOSS,
    FIELD_RAIN_CHANCE,
    FIELD_RAIN_LOSS,
    FIELD_RAIN_TDN,
    FIELD_SEED,
    FIELD_CUTTING,
    FIELD_OTHER,
    FIELD_LAND,
    FIELD_PUTTING_UP,
    FIELD_WRAPPING,
    FIELD_HAULING,
    FIELD_BALE_WEIGHT,
    FIELD_BALING_BALE,
    FIELD_WRAPPING_BALE,
    FIELD_HAULING_BALE,
    FIELD_REGROWTH,
    FIELD_REGROWTH_USE,
    FIELD_GRAZING_VALUE,
    FIELD_STORAGE,
    FIELD_FEEDING,
    FIELD_STORAGE_LOSS,
    FIELD_FEEDING_WASTE,
    FIELD_VALUE,
    FIELD_HAUL,
    FIELD_GROUPS,
    FIELD_WATCH_FOR,
    FIELD_COLUMN_COUNT
};

/* Fills yields and tests that rows leave open by their curves, through the field's own rows
 * (field_curve.c); faults for what is then still missing. */
void field_cuts_fill(const Sheet *sheet, FieldCut *cuts, const int *rows, int count);

#endif
