#include "cattle/head_change.h"
#include "base/choice.h"
#include "base/text.h"

enum {
    CHANGE_DATE,
    CHANGE_GROUP,
    CHANGE_HEAD,
    CHANGE_WEIGHT,
    CHANGE_NOTE,
    CHANGE_COLUMN_COUNT
};

static const SheetColumn COLUMNS[CHANGE_COLUMN_COUNT] = {
    {"date", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"group", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"head", UNIT_PLAIN, COLUMN_REQUIRED, 0, 100000},
    {"weight", UNIT_MASS, COLUMN_OPTIONAL, 100, 1300},
    {"note", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
};

static int group_named(const Herd *herd, const char *name) {
    for (int g = 0; g < herd->count; g++) {
        if (text_same_letters(herd->names[g], name))
            return g;
    }
    return -1;
}

static bool read_group(const Sheet *sheet, int row, const Herd *herd, int *group) {
    if (!sheet_require(sheet, row, CHANGE_GROUP))
        return false;
    const char *name = sheet_text(sheet, row, CHANGE_GROUP);
    *group = group_named(herd, name);
    if (*group >= 0)
        return true;
    const char *guess = choice_guess(sheet_arena(sheet), name, herd->names, herd->count);
    doubt_add(sheet_faults(sheet), sheet_place(sheet, row, CHANGE_GROUP),
              "group: this herd has no group named '%s'%s%s; the row is not used",
              text_excerpt(sheet_arena(sheet), name), guess ? "; " : "", guess ? guess : "");
    return false;
}

static bool read_date(const Sheet *sheet, int row, Day first_day, Day last_day, Day *date) {
    if (!sheet_require(sheet, row, CHANGE_DATE) || !sheet_date(sheet, row, CHANGE_DATE, date))
        return false;
    const bool days_are_known = calendar_days_between(first_day, last_day) >= 0;
    if (days_are_known && (calendar_days_between(first_day, *date) < 0 ||
                           calendar_days_between(*date, last_day) < 0)) {
        fault_add(
            sheet_faults(sheet), sheet_place(sheet, row, CHANGE_DATE),
            "date: %s is no feeding day of this winter; before the first, change the herd "
            "file; is the year right?",
            sheet_text(sheet, row, CHANGE_DATE));
        return false;
    }
    return true;
}

/* Half a group may be sold at once, but hardly ever does one become three times as large. */
#define MANY_TIMES 3.0

static void doubt_head(const Sheet *sheet, int row, const HerdGroup *group, double head) {
    if (head > group->head * MANY_TIMES)
        doubt_add(sheet_faults(sheet), sheet_place(sheet, row, CHANGE_HEAD),
                  "head: %.0f where the herd file has %.0f; it is how many there are from that "
                  "day on, not how many came",
                  head, group->head);
}

static void sort_changes(HeadChange *changes, int count) {
    for (int i = 1; i < count; i++) {
        const HeadChange moved = changes[i];
        int at = i;
        for (; at > 0 && calendar_days_between(moved.date, changes[at - 1].date) > 0; at--)
            changes[at] = changes[at - 1];
        changes[at] = moved;
    }
}

HeadChanges head_changes_parse(Arena *arena, Faults *faults, const Herd *herd, Day first_day,
                               Day last_day, const char *file, const char *bytes,
                               size_t length) {
    const Sheet *sheet = bytes && herd->groups ? sheet_parse(arena, faults, file, bytes, length,
                                                             COLUMNS, CHANGE_COLUMN_COUNT)
                                               : NULL;
    if (!sheet)
        return (HeadChanges){NULL, 0};
    HeadChange *changes = ARENA_ARRAY(arena, HeadChange, sheet_row_count(sheet));
    int count = 0;
    for (int row = 0; row < sheet_row_count(sheet); row++) {
        if (sheet_row_is_empty(sheet, row))
            continue;
        HeadChange change = {.note = sheet_text(sheet, row, CHANGE_NOTE),
                             .place = sheet_place(sheet, row, CHANGE_HEAD)};
        int head = 0;
        bool is_whole = read_date(sheet, row, first_day, last_day, &change.date);
        is_whole &= sheet_require(sheet, row, CHANGE_HEAD) &&
                    sheet_whole_number(sheet, row, CHANGE_HEAD, &head);
        sheet_number(sheet, row, CHANGE_WEIGHT, &change.weight_kg);
        if (!read_group(sheet, row, herd, &change.group) || !is_whole)
            continue;
        change.head = head;
        doubt_head(sheet, row, &herd->groups[change.group], change.head);
        changes[count++] = change;
    }
    sort_changes(changes, count);
    return (HeadChanges){changes, count};
}

double head_on(const HeadChanges *changes, const Herd *herd, int group, Day day) {
    double head = herd->groups[group].head;
    for (int i = 0; i < changes->count; i++) {
        if (changes->changes[i].group == group &&
            calendar_days_between(changes->changes[i].date, day) >= 0)
            head = changes->changes[i].head;
    }
    return head;
}
