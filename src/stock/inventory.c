#include "stock/inventory.h"
#include "base/choice.h"
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
#define MOST_NAMES 8        /* in a message */

/* "; the names are: 'A', 'B' and 3 more" */
static const char *names_there(Arena *arena, const char *const *names, int count) {
    Text list = text_new(arena);
    int named = 0;
    int left = 0;
    for (int i = 0; i < count; i++) {
        if (names[i][0] == '\0')
            continue;
        if (named == MOST_NAMES) {
            left++;
            continue;
        }
        text_print(&list, "%s'%s'", named++ == 0 ? "; the names are: " : ", ",
                   text_excerpt(arena, names[i]));
    }
    if (left > 0)
        text_print(&list, " and %d more", left);
    return list.bytes;
}

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
    bool are_listed = false;
    for (int i = 0; i < inventory->tests.count; i++) {
        const FeedTest *test = &inventory->tests.tests[i];
        if (test->stack[0] == '\0' || find_name(test->stack, names, count) >= 0)
            continue;
        const char *guess = suggested++ < MOST_SUGGESTIONS
                                ? choice_guess(arena, test->stack, names, count)
                                : NULL;
        const char *list = guess || are_listed ? "" : names_there(arena, names, count);
        are_listed |= !guess;
        fault_add(faults, test->place, "stack: no stack or feed for sale is named '%s'%s%s%s",
                  text_excerpt(faults->arena, test->stack), guess ? "; " : "",
                  guess ? guess : "", list);
    }
}

void inventory_check(Faults *faults, Arena *arena, const Inventory *inventory) {
    check_offer_names(faults, inventory);
    if (inventory->has_all_names)
        check_tests(faults, arena, inventory);
}

/* Another herd of the farm may have the group: only a doubt. */
void allowance_check_groups(Faults *faults, const Allowance *allowance,
                            const char *const *group_names, int group_count) {
    int known = 0;
    for (int i = 0; i < allowance->group_count; i++) {
        const char *name = allowance->groups[i];
        if (find_name(name, group_names, group_count) >= 0) {
            known++;
            continue;
        }
        const char *guess = choice_guess(faults->arena, name, group_names, group_count);
        doubt_add(faults, allowance->groups_place,
                  "groups: this herd has no group named '%s'%s%s",
                  text_excerpt(faults->arena, name), guess ? "; " : "", guess ? guess : "");
    }
    if (allowance->group_count > 0 && known == 0)
        doubt_add(faults, allowance->groups_place,
                  "groups: no group of this herd may have it, so none of it is fed");
}

void inventory_check_groups(Faults *faults, const Inventory *inventory,
                            const char *const *group_names, int group_count) {
    bool has_name = false;
    for (int i = 0; i < group_count; i++)
        has_name |= group_names[i][0] != '\0';
    if (!has_name)
        return; /* the heading of the names is missing: that has been said */
    for (int i = 0; i < inventory->stacks.count; i++)
        allowance_check_groups(faults, &inventory->stacks.stacks[i].allowance, group_names,
                               group_count);
    for (int i = 0; i < inventory->for_sale.count; i++)
        allowance_check_groups(faults, &inventory->for_sale.offers[i].allowance, group_names,
                               group_count);
}
