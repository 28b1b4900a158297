/* All feed a farm has or can buy, and the checks that need more than one file. */
#ifndef STOCK_INVENTORY_H
#define STOCK_INVENTORY_H

#include "stock/price_list.h"

typedef struct {
    Stacks stacks;
    PriceList for_sale;
    FeedTests tests;
} Inventory;

/* Adds faults for: two feeds of one name, a test of a feed nobody has, no stack and no offer. */
void inventory_check(Faults *faults, Arena *arena, const Inventory *inventory);

/* Adds faults for groups named in stacks.csv or for-sale.csv that the herd does not have. */
void inventory_check_groups(Faults *faults, const Inventory *inventory,
                            const char *const *group_names, int group_count);

#endif
