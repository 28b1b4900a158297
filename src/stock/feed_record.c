#include "stock/feed_record.h"
#include "base/choice.h"
#include "base/text.h"

#define MOST_AMOUNT 1.0e7
#define MOST_ENTRY 1.0e9

const SheetColumn FED_COLUMNS[FED_COLUMN_COUNT] = {
    {"date", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"group", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"stack", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"amount", UNIT_PLAIN, COLUMN_REQUIRED, 0, MOST_AMOUNT},
    {"unit", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"note", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
    {"entry", UNIT_PLAIN, COLUMN_OPTIONAL, 1, MOST_ENTRY},
};

const SheetColumn RECOUNT_COLUMNS[RECOUNT_COLUMN_COUNT] = {
    {"date", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"stack", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"amount", UNIT_PLAIN, COLUMN_REQUIRED, 0, MOST_AMOUNT},
    {"unit", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"note", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
    {"entry", UNIT_PLAIN, COLUMN_OPTIONAL, 1, MOST_ENTRY},
};

/* Where the cells of one row stand, which both files share. */
typedef struct {
    const Sheet *sheet;
    const RecordContext *context;
    int date, stack, amount, unit, entry;
} Rows;

/* A day this far outside of the winter is of another year. Own choice. */
#define STRAY_DAYS 90

static bool read_date(const Rows *rows, int row, Day *date) {
    const Sheet *sheet = rows->sheet;
    const RecordContext *context = rows->context;
    if (!sheet_require(sheet, row, rows->date) || !sheet_date(sheet, row, rows->date, date))
        return false;
    if (calendar_days_between(context->first_day, context->last_day) < 0)
        return true;
    const int early = calendar_days_between(*date, context->first_day);
    const int late = calendar_days_between(context->last_day, *date);
    const Place place = sheet_place(sheet, row, rows->date);
    const char *written = sheet_text(sheet, row, rows->date);
    if (early > STRAY_DAYS || late > STRAY_DAYS) {
        fault_add(sheet_faults(sheet), place,
                  "date: %s is %d days %s feeding day; is the year right?", written,
                  early > late ? early : late,
                  early > late ? "before the first" : "after the last");
        return false;
    }
    if (early > 0 || late > 0)
        doubt_add(sheet_faults(sheet), place, "date: %s is %s feeding day", written,
                  early > 0 ? "before the first" : "after the last");
    return true;
}

static int name_among(const char *name, const char *const *names, int count) {
    for (int i = 0; i < count; i++) {
        if (text_same_letters(name, names[i]))
            return i;
    }
    return -1;
}

/* Stacks first, then what is for sale, which is fed but is no stock. -2: a fault was added. */
#define NO_STACK (-1)
#define NO_FEED (-2)
static int read_stack(const Rows *rows, int row, bool may_be_bought) {
    const Sheet *sheet = rows->sheet;
    const Inventory *inventory = rows->context->inventory;
    if (!sheet_require(sheet, row, rows->stack))
        return NO_FEED;
    const char *name = sheet_text(sheet, row, rows->stack);
    const int found = name_among(name, inventory->stacks.names, inventory->stacks.count);
    if (found >= 0)
        return found;
    if (may_be_bought &&
        name_among(name, inventory->for_sale.names, inventory->for_sale.count) >= 0)
        return NO_STACK;
    if (!inventory->has_all_names)
        return NO_FEED; /* a file of names has faults of its own */
    const char *guess = choice_guess(sheet_arena(sheet), name, inventory->stacks.names,
                                     inventory->stacks.count);
    fault_add(
        sheet_faults(sheet), sheet_place(sheet, row, rows->stack),
        "stack: no stack is named '%s'%s%s; keep the row of a stack in stacks.csv when it "
        "is empty",
        text_excerpt(sheet_arena(sheet), name), guess ? "; " : "", guess ? guess : "");
    return NO_FEED;
}

static bool read_amount(const Rows *rows, int row, int stack, FeedAmount *amount) {
    const Sheet *sheet = rows->sheet;
    if (!sheet_require(sheet, row, rows->amount) ||
        !sheet_number(sheet, row, rows->amount, &amount->number))
        return false;
    if (amount->number == 0.0 && sheet_is_left_out(sheet, row, rows->unit)) {
        amount->unit = AMOUNT_KG; /* nothing is nothing in any unit */
        return true;
    }
    if (!sheet_require(sheet, row, rows->unit))
        return false;
    const int unit = sheet_choice(sheet, row, rows->unit, AMOUNT_UNIT_NAME, AMOUNT_UNIT_COUNT);
    if (unit < 0)
        return false;
    amount->unit = (AmountUnit)unit;
    if (amount->unit != AMOUNT_BALES || amount->number == 0.0 || stack == NO_FEED ||
        (stack >= 0 && rows->context->inventory->stacks.stacks[stack].bale_count > 0.0))
        return true;
    fault_add(sheet_faults(sheet), sheet_place(sheet, row, rows->unit),
              stack >= 0 ? "unit: '%s' has no count of bales in stacks.csv; write a weight"
                         : "unit: '%s' is for sale, and nothing says what a bale of it weighs; "
                           "write a weight",
              text_excerpt(sheet_arena(sheet), sheet_text(sheet, row, rows->stack)));
    return false;
}

static int read_entry(const Rows *rows, int row, FeedRecord *record) {
    int entry = 0;
    sheet_whole_number(rows->sheet, row, rows->entry, &entry);
    if (entry > record->last_entry)
        record->last_entry = entry;
    return entry;
}

static void read_group(const Rows *rows, int row, int column, Feeding *feeding) {
    const Sheet *sheet = rows->sheet;
    const RecordContext *context = rows->context;
    feeding->group = sheet_text(sheet, row, column);
    if (!sheet_require(sheet, row, column) || context->group_count == 0 ||
        name_among(feeding->group, context->group_names, context->group_count) >= 0)
        return;
    doubt_add(sheet_faults(sheet), sheet_place(sheet, row, column),
              "group: this herd has no group named '%s'; it still counts as fed from the stack",
              text_excerpt(sheet_arena(sheet), feeding->group));
}

/* By date, kept in the order of the file within a day. Nearly in order already: insertion. */
static void sort_feedings(Feeding *feedings, int count) {
    for (int i = 1; i < count; i++) {
        const Feeding moved = feedings[i];
        int at = i;
        for (; at > 0 && calendar_days_between(moved.date, feedings[at - 1].date) > 0; at--)
            feedings[at] = feedings[at - 1];
        feedings[at] = moved;
    }
}

static void sort_recounts(Recount *recounts, int count) {
    for (int i = 1; i < count; i++) {
        const Recount moved = recounts[i];
        int at = i;
        for (; at > 0 && calendar_days_between(moved.date, recounts[at - 1].date) > 0; at--)
            recounts[at] = recounts[at - 1];
        recounts[at] = moved;
    }
}

void feedings_parse(Arena *arena, Faults *faults, const RecordContext *context,
                    const char *file, const char *bytes, size_t length, FeedRecord *record) {
    const Sheet *sheet =
        bytes ? sheet_parse(arena, faults, file, bytes, length, FED_COLUMNS, FED_COLUMN_COUNT)
              : NULL;
    if (!sheet)
        return;
    const Rows rows = {sheet, context, FED_DATE, FED_STACK, FED_AMOUNT, FED_UNIT, FED_ENTRY};
    Feeding *feedings = ARENA_ARRAY(arena, Feeding, sheet_row_count(sheet));
    int count = 0;
    for (int row = 0; row < sheet_row_count(sheet); row++) {
        if (sheet_row_is_empty(sheet, row))
            continue;
        Feeding feeding = {.place = sheet_place(sheet, row, FED_AMOUNT)};
        bool is_whole = read_date(&rows, row, &feeding.date);
        feeding.stack = read_stack(&rows, row, true);
        is_whole &= feeding.stack != NO_FEED;
        feeding.offer = feeding.stack == NO_STACK
                            ? name_among(sheet_text(sheet, row, FED_STACK),
                                         context->inventory->for_sale.names,
                                         context->inventory->for_sale.count)
                            : NO_STACK;
        is_whole &= read_amount(&rows, row, feeding.stack, &feeding.amount);
        read_group(&rows, row, FED_GROUP, &feeding);
        feeding.entry = read_entry(&rows, row, record);
        if (is_whole && feeding.amount.number == 0.0)
            doubt_add(faults, feeding.place,
                      "amount: nothing was fed; a stack that is empty is a row of counts.csv");
        if (is_whole)
            feedings[count++] = feeding;
    }
    sort_feedings(feedings, count);
    record->feedings = feedings;
    record->feeding_count = count;
}

static void doubt_same_day(Faults *faults, const Recount *recounts, int count) {
    for (int i = 1; i < count; i++) {
        for (int j = i - 1;
             j >= 0 && calendar_days_between(recounts[j].date, recounts[i].date) == 0; j--) {
            if (recounts[j].stack == recounts[i].stack)
                doubt_add(faults, recounts[i].place,
                          "amount: the stack is counted on line %d for the same day; the later "
                          "row holds",
                          recounts[j].place.line);
        }
    }
}

void recounts_parse(Arena *arena, Faults *faults, const RecordContext *context,
                    const char *file, const char *bytes, size_t length, FeedRecord *record) {
    const Sheet *sheet = bytes ? sheet_parse(arena, faults, file, bytes, length,
                                             RECOUNT_COLUMNS, RECOUNT_COLUMN_COUNT)
                               : NULL;
    if (!sheet)
        return;
    const Rows rows = {sheet,          context,      RECOUNT_DATE, RECOUNT_STACK,
                       RECOUNT_AMOUNT, RECOUNT_UNIT, RECOUNT_ENTRY};
    Recount *recounts = ARENA_ARRAY(arena, Recount, sheet_row_count(sheet));
    int count = 0;
    for (int row = 0; row < sheet_row_count(sheet); row++) {
        if (sheet_row_is_empty(sheet, row))
            continue;
        Recount recount = {.place = sheet_place(sheet, row, RECOUNT_AMOUNT)};
        bool is_whole = read_date(&rows, row, &recount.date);
        recount.stack = read_stack(&rows, row, false);
        is_whole &= recount.stack != NO_FEED;
        is_whole &= read_amount(&rows, row, recount.stack, &recount.left);
        recount.entry = read_entry(&rows, row, record);
        if (is_whole)
            recounts[count++] = recount;
    }
    sort_recounts(recounts, count);
    doubt_same_day(faults, recounts, count);
    record->recounts = recounts;
    record->recount_count = count;
}
