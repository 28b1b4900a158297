/* All feed a farm has or can buy, and the checks that need more than one file. */
#ifndef STOCK_INVENTORY_H
#define STOCK_INVENTORY_H

#include "stock/price_list.h"

typedef struct {
    Stacks stacks;
    PriceList for_sale;
    FeedTests tests;
    bool has_all_names; /* false: a file of names could not be read; tests are not held against
                           it */
} Inventory;

/* Adds faults for: two feeds of one name, a test of a feed nobody has. */
void inventory_check(Faults *faults, Arena *arena, const Inventory *inventory);

/* Adds doubts for groups named in stacks.csv or for-sale.csv that the herd does not have:
 * another herd fed from the same yard may. */
void inventory_check_groups(Faults *faults, const Inventory *inventory,
                            const char *const *group_names, int group_count);

/* The same of one list of groups; the herd has at least one name. */
void allowance_check_groups(Faults *faults, const Allowance *allowance,
                            const char *const *group_names, int group_count);

#endif
