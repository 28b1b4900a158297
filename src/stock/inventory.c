#include "stock/inventory.h"
#include "base/text.h"

static int find_name(const char *name, const char *const *names, int count) {
    for (int i = 0; i < count; i++) {
        if (text_same_letters(name, names[i]))
            return i;
    }
    return -1;
}

static void check_offer_names(Faults *faults, const Inventory *inventory) {
    const PriceList *list = &inventory->for_sale;
    for (int i = 0; i < list->count; i++) {
        const Offer *offer = &list->offers[i];
        if (offer->name[0] == '\0')
            continue;
        if (find_name(offer->name, list->names, i) >= 0 ||
            find_name(offer->name, inventory->stacks.names, inventory->stacks.count) >= 0) {
            fault_add(
                faults, offer->place,
                "feed_for_sale: '%s' is already the name of a stack or of another feed for "
                "sale; give each its own",
                text_excerpt(faults->arena, offer->name));
        }
    }
}

#define MOST_SUGGESTIONS 50 /* nobody reads more of them, and they take long to find */

static void check_tests(Faults *faults, Arena *arena, const Inventory *inventory) {
    const int stacks = inventory->stacks.count;
    const int count = stacks + inventory->for_sale.count;
    const char **names = ARENA_ARRAY(arena, const char *, count);
    bool has_name = false;
    for (int i = 0; i < count; i++) {
        names[i] =
            i < stacks ? inventory->stacks.names[i] : inventory->for_sale.names[i - stacks];
        has_name |= names[i][0] != '\0';
    }
    if (!has_name)
        return; /* the headings of the names are missing: that has been said */
    int suggested = 0;
    for (int i = 0; i < inventory->tests.count; i++) {
        const FeedTest *test = &inventory->tests.tests[i];
        if (test->stack[0] == '\0' || find_name(test->stack, names, count) >= 0)
            continue;
        const char *nearest =
            suggested++ < MOST_SUGGESTIONS ? text_nearest(test->stack, names, count) : NULL;
        fault_add(faults, test->place, "stack: no stack or feed for sale is named '%s'%s%s%s",
                  text_excerpt(faults->arena, test->stack), nearest ? "; did you mean '" : "",
                  nearest ? nearest : "", nearest ? "'?" : "");
    }
}

void inventory_check(Faults *faults, Arena *arena, const Inventory *inventory) {
    check_offer_names(faults, inventory);
    if (inventory->has_all_names)
        check_tests(faults, arena, inventory);
}

/* Another herd of the farm may have the group: only a doubt. */
static void check_allowance(Faults *faults, const Allowance *allowance,
                            const char *const *group_names, int group_count) {
    int known = 0;
    for (int i = 0; i < allowance->group_count; i++) {
        const char *name = allowance->groups[i];
        if (find_name(name, group_names, group_count) >= 0) {
            known++;
            continue;
        }
        const char *nearest = text_nearest(name, group_names, group_count);
        doubt_add(faults, allowance->groups_place,
                  "groups: this herd has no group named '%s'%s%s%s",
                  text_excerpt(faults->arena, name), nearest ? "; did you mean '" : "",
                  nearest ? nearest : "", nearest ? "'?" : "");
    }
    if (allowance->group_count > 0 && known == 0)
        doubt_add(faults, allowance->groups_place,
                  "groups: no group of this herd may have it, so none of it is fed");
}

void inventory_check_groups(Faults *faults, const Inventory *inventory,
                            const char *const *group_names, int group_count) {
    for (int i = 0; i < inventory->stacks.count; i++)
        check_allowance(faults, &inventory->stacks.stacks[i].allowance, group_names,
                        group_count);
    for (int i = 0; i < inventory->for_sale.count; i++)
        check_allowance(faults, &inventory->for_sale.offers[i].allowance, group_names,
                        group_count);
}
