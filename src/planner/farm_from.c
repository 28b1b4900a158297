#include "planner/farm_from.h"
#include "stock/stack_keeping.h"

/* ---- stacks ---- */

/* The loss still to come is reckoned to the middle of the days still to feed, as that of the
 * whole winter is to mid-winter. A stack that is counted later stands as its row says. */
Stack stack_left(const Farm *farm, int place, Day from) {
    const Stack *stack = &farm->inventory.stacks.stacks[place];
    Stack left = *stack;
    if (calendar_days_between(stack->counted, from) < 0)
        return left;
    const StackBook book =
        stack_book(&farm->inventory, &farm->record, place, from, BOOK_IN_THE_MORNING);
    const int half = calendar_days_between(from, farm->winter.last_day) / 2;
    const Day middle = calendar_add(from, half);
    left.counted = from;
    left.counted_kg = book.left_kg;
    left.bale_count = book.left_bales;
    left.weight_error_share = stack_left_error_share(stack, &book);
    left.loss_share = 1.0 - stack_keeps(stack, from, middle);
    left.age_months = stack_age_on(stack, from);
    left.wait_days = half;
    return left;
}

static void set_stacks(Arena *arena, Farm *farm, Day from) {
    Stacks *stacks = &farm->inventory.stacks;
    Stack *left = ARENA_ARRAY(arena, Stack, stacks->count);
    for (int i = 0; i < stacks->count; i++)
        left[i] = stack_left(farm, i, from);
    stacks->stacks = left;
}

/* ---- groups ---- */

static bool is_there_from(const Farm *farm, int group) {
    const Day first = farm->winter.first_day;
    if (head_on(&farm->head_changes, &farm->herd, group, first) > 0.0)
        return true;
    for (int i = 0; i < farm->head_changes.count; i++) {
        const HeadChange *change = &farm->head_changes.changes[i];
        if (change->group == group && calendar_days_between(first, change->date) > 0 &&
            head_on(&farm->head_changes, &farm->herd, group, change->date) > 0.0)
            return true;
    }
    return false;
}

/* The herd file's weights are of the day it was weighed; a weighing later moves the whole path,
 * of growing cattle by so much, of grown ones in proportion. */
static void weigh_again(const Farm *farm, HerdGroup *group, const HeadChange *change) {
    const Requirement then =
        requirement_of(group, &farm->weather, farm->minerals,
                       winter_weighing_day(&farm->winter), change->date, change->date);
    const double by_path = then.live_weight.kg;
    if (change->weight_kg <= 0.0 || by_path <= 0.0)
        return;
    if (cattle_class_kind(group->cattle_class)->grows)
        group->weight.kg += change->weight_kg - by_path;
    else
        group->weight.kg *= change->weight_kg / by_path;
}

static HerdGroup settled(const Farm *farm, int place) {
    HerdGroup group = farm->herd.groups[place];
    const Day first = farm->winter.first_day;
    for (int i = 0; i < farm->head_changes.count; i++) {
        const HeadChange *change = &farm->head_changes.changes[i];
        if (change->group == place && calendar_days_between(change->date, first) >= 0)
            weigh_again(farm, &group, change);
    }
    group.head = head_on(&farm->head_changes, &farm->herd, place, first);
    return group;
}

/* Rows of groups that are gone go too; the places of the others change. Changes up to the first
 * day are done with. */
static void keep_rows(Arena *arena, Farm *farm, const int *new_place) {
    OwnNeed *needs = ARENA_ARRAY(arena, OwnNeed, farm->own_needs.count);
    int need_count = 0;
    for (int i = 0; i < farm->own_needs.count; i++) {
        needs[need_count] = farm->own_needs.needs[i];
        needs[need_count].group = new_place[farm->own_needs.needs[i].group];
        need_count += needs[need_count].group >= 0;
    }
    farm->own_needs = (OwnNeeds){needs, need_count};
    HeadChange *changes = ARENA_ARRAY(arena, HeadChange, farm->head_changes.count);
    int change_count = 0;
    for (int i = 0; i < farm->head_changes.count; i++) {
        const HeadChange *change = &farm->head_changes.changes[i];
        if (calendar_days_between(change->date, farm->winter.first_day) >= 0)
            continue;
        changes[change_count] = *change;
        changes[change_count].group = new_place[change->group];
        change_count += changes[change_count].group >= 0;
    }
    farm->head_changes = (HeadChanges){changes, change_count};
}

bool farm_settle_heads(Arena *arena, Faults *faults, Farm *farm) {
    if (farm->head_changes.count == 0)
        return true;
    Herd *herd = &farm->herd;
    HerdGroup *groups = ARENA_ARRAY(arena, HerdGroup, herd->count);
    const char **names = ARENA_ARRAY(arena, const char *, herd->count);
    int *new_place = ARENA_ARRAY(arena, int, herd->count);
    int count = 0;
    for (int g = 0; g < herd->count; g++) {
        new_place[g] = -1;
        if (!is_there_from(farm, g))
            continue;
        groups[count] = settled(farm, g);
        names[count] = groups[count].name;
        new_place[g] = count++;
    }
    if (count == 0) {
        fault_add(faults, farm->head_changes.changes[0].place,
                  "head: by this file no cattle are left to feed");
        return false;
    }
    keep_rows(arena, farm, new_place);
    *herd = (Herd){groups, names, count};
    return true;
}

/* ---- days ---- */

bool farm_from(Arena *arena, Faults *faults, Place place, Farm *farm, Day from) {
    Winter *winter = &farm->winter;
    if (calendar_days_between(winter->first_day, from) < 0 ||
        calendar_days_between(from, winter->last_day) < 1) {
        char first[CALENDAR_TEXT_BYTES];
        char last[CALENDAR_TEXT_BYTES];
        calendar_print(winter->first_day, first);
        calendar_print(calendar_add(winter->last_day, -1), last);
        fault_add(faults, place, "it is no day of this winter to plan from; one of %s to %s is",
                  first, last);
        return false;
    }
    farm->is_rest_of_winter = true;
    farm->as_counted = farm->inventory;
    winter->days_since_weighed += calendar_days_between(winter->first_day, from);
    winter->first_day = from;
    set_stacks(arena, farm, from);
    return farm_settle_heads(arena, faults, farm);
}
