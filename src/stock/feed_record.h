/* What was written down through the winter: fed.csv, a row a feeding, and counts.csv, a row a
 * recount of one stack. docs/file-formats.md
 *
 * A day is: the count of stacks.csv in the morning, then what is fed, then a recount of what is
 * left. */
#ifndef STOCK_FEED_RECORD_H
#define STOCK_FEED_RECORD_H

#include "stock/feed_amount.h"
#include "stock/inventory.h"

typedef struct {
    Day date;
    int stack;         /* of the inventory's stacks; -1: a feed for sale, which is no stock */
    int offer;         /* of what is for sale, then; else -1 */
    const char *group; /* as written */
    FeedAmount amount;
    int entry; /* the number the program gave the row; 0: typed in a spreadsheet */
    Place place;
} Feeding;

typedef struct {
    Day date;
    int stack;
    FeedAmount left;
    int entry;
    Place place;
} Recount;

typedef struct {
    const Feeding *feedings; /* by date; of one date in the order of the file */
    int feeding_count;
    const Recount *recounts; /* likewise */
    int recount_count;
    int last_entry; /* the highest number given, 0 where there is none */
} FeedRecord;

/* What rows are held against. */
typedef struct {
    const Inventory *inventory;
    const char *const *group_names;
    int group_count;
    Day first_day, last_day; /* of the winter; the last before the first: not known */
} RecordContext;

/* The columns of both files, for who writes a row into one of them. */
enum {
    FED_DATE,
    FED_GROUP,
    FED_STACK,
    FED_AMOUNT,
    FED_UNIT,
    FED_NOTE,
    FED_ENTRY,
    FED_COLUMN_COUNT
};
enum {
    RECOUNT_DATE,
    RECOUNT_STACK,
    RECOUNT_AMOUNT,
    RECOUNT_UNIT,
    RECOUNT_NOTE,
    RECOUNT_ENTRY,
    RECOUNT_COLUMN_COUNT
};
extern const SheetColumn FED_COLUMNS[FED_COLUMN_COUNT];
extern const SheetColumn RECOUNT_COLUMNS[RECOUNT_COLUMN_COUNT];

/* Adds what it reads to the record, which begins zeroed. bytes NULL: there is no such file. */
void feedings_parse(Arena *arena, Faults *faults, const RecordContext *context,
                    const char *file, const char *bytes, size_t length, FeedRecord *record);
void recounts_parse(Arena *arena, Faults *faults, const RecordContext *context,
                    const char *file, const char *bytes, size_t length, FeedRecord *record);

#endif
