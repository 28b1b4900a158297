/* The columns of stacks.csv, shared by its reader and the reader of weights. */
#ifndef STOCK_STACK_COLUMN_H
#define STOCK_STACK_COLUMN_H

#include "stock/stack.h"

enum {
    STACK_NAME,
    STACK_KIND_COLUMN,
    STACK_FEED,
    STACK_CUT_DATE,
    STACK_COUNTED_DATE,
    STACK_BALES,
    STACK_BALE_WEIGHT,
    STACK_TOTAL,
    STACK_DIAMETER,
    STACK_WIDTH,
    STACK_LENGTH,
    STACK_HEIGHT,
    STACK_DENSITY,
    STACK_DENSITY_BASIS,
    STACK_STORAGE,
    STACK_FEEDING,
    STACK_STORAGE_LOSS,
    STACK_FEEDING_WASTE,
    STACK_VALUE,
    STACK_HAUL,
    STACK_USE_FROM,
    STACK_USE_UNTIL,
    STACK_GROUPS,
    STACK_CROP,
    STACK_YARD,
    STACK_NOTE,
    STACK_COLUMN_COUNT
};

/* Weight as it lies, kg; sets the bale count. 0 with a placed fault when the row does not say, or
 * says it twice. The stack's kind and feed are already known. */
double stack_weight_read(const Sheet *sheet, int row, Stack *stack);

#endif
