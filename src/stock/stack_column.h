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
    STACK_TOP_WIDTH,
    STACK_RAMPS,
    STACK_OVER,
    STACK_AROUND,
    STACK_CONE,
    STACK_HOPPER,
    STACK_DENSITY,
    STACK_DENSITY_BASIS,
    STACK_WEIGHED,
    STACK_WEIGHT_ERROR,
    STACK_STORAGE,
    STACK_FEEDING,
    STACK_STORAGE_LOSS,
    STACK_FEEDING_WASTE,
    STACK_VALUE,
    STACK_HAUL,
    STACK_OTHER_YARD,
    STACK_FACE,
    STACK_USE_FROM,
    STACK_USE_UNTIL,
    STACK_GROUPS,
    STACK_WATCH_FOR,
    STACK_CROP,
    STACK_YARD,
    STACK_NOTE,
    STACK_COLUMN_COUNT
};

/* Weight as it lies, kg; sets the bale count and the error of the weight. 0 with a placed fault
 * when the row does not say, or says it twice. Reads every number of the row even when the kind
 * or the feed (dry matter 0) could not be read, for their faults. */
double stack_weight_read(const Sheet *sheet, int row, bool kind_is_known,
                         const BookDensities *densities, Stack *stack);

/* A loss typed by the farmer, against the table's; below least_percent it looks like a slip. */
typedef struct {
    double table_share, least_percent;
} StockShare;
void stock_check_share(const Sheet *sheet, int row, int column, double own_share,
                       StockShare usual);

/* Doubts of what the row's feed is worth and costs to move, which other stock shares. */
void stock_check_haul(const Sheet *sheet, int row, int column, double haul_per_kg);
void stock_check_price(const Sheet *sheet, int row, int column, FeedClass feed_class,
                       double price_per_kg);

/* Doubts a word of watch_for that says nothing of such feed. */
void stock_check_watch(const Sheet *sheet, int row, int column, const Feedstuff *feed);

/* By its kind, its storage and the class of its feed. */
Keeping stack_keeping(const Stack *stack);

/* What more than one column tells together, once the feed is known. */
void stack_check_yard(const Sheet *sheet, int row, const Stack *stack); /* stack_yard_check.c */
void stack_check(const Sheet *sheet, int row, const Stack *stack);

#endif
