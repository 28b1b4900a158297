/* What can be bought: for-sale.csv, docs/file-formats.md */
#ifndef STOCK_PRICE_LIST_H
#define STOCK_PRICE_LIST_H

#include "stock/stack.h"

typedef struct {
    const char *name;
    Feedstuff feed;
    double price_per_kg, haul_per_kg; /* as fed, delivered; feeding it out */
    double freight_per_kg;            /* of that price; 0 where the price asked is delivered */
    double most_kg, load_kg;          /* as fed; NO_LIMIT where there is no limit; 0 no load */
    double shrink_share;              /* of what is paid for, lost before it is fed */
    double waste_share, protein_left;
    const FeedingKind *feeding;
    bool is_supplement; /* may be bought while the days of own feed on hand are reckoned */
    Allowance allowance;
    bool has_delivered_until;
    Day delivered_until; /* last day it can be hauled in; it lies in the yard after that */
    Place place;
} Offer;

typedef struct {
    const Offer *offers;
    const char *const *names;
    int count;
} PriceList;

/* bytes NULL: nothing is for sale. offers NULL though there are bytes: the file could not be
 * read, and a fault says why. */
PriceList price_list_parse(Arena *arena, Faults *faults, const StockContext *context,
                           const char *file, const char *bytes, size_t length);

#endif
