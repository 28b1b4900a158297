/* The weight of a stack comes from exactly one of three ways: bales counted and weighed, a
 * total weight, or size and density. Losses multiply: what cattle eat is counted * dry matter *
 * (1 - storage loss) * (1 - feeding waste). */
#include "stock/stack.h"
#include "base/text.h"
#include "feedstuff/feed_sampling.h"
#include "stock/stack_column.h"
#include <math.h>

#define MOST_STACKS 500 /* what a plan can be made of in reasonable time */

static const char *const KIND_NAMES[STACK_KIND_COUNT] = {
#define STACK_KIND(id, name) name,
#include "stock/stack_kind.def"
#undef STACK_KIND
};

static const SheetColumn COLUMNS[STACK_COLUMN_COUNT] = {
    {"stack", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"kind", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"feed", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"cut_date", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
    {"counted_date", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
    {"count", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 100000},
    {"bale_weight", UNIT_MASS, COLUMN_OPTIONAL, 10, 1500},
    {"total", UNIT_TONNAGE, COLUMN_OPTIONAL, 0, 2.0e7},
    {"diameter", UNIT_LENGTH, COLUMN_OPTIONAL, 0.5, 40},
    {"width", UNIT_LENGTH, COLUMN_OPTIONAL, 0.3, 60},
    {"length", UNIT_LENGTH, COLUMN_OPTIONAL, 0.3, 300},
    {"height", UNIT_LENGTH, COLUMN_OPTIONAL, 0.3, 30},
    {"top_width", UNIT_LENGTH, COLUMN_OPTIONAL, 0, 60},
    {"ramps", UNIT_LENGTH, COLUMN_OPTIONAL, 0, 200},
    {"over", UNIT_LENGTH, COLUMN_OPTIONAL, 1, 120},
    {"around", UNIT_LENGTH, COLUMN_OPTIONAL, 3, 200},
    {"cone_height", UNIT_LENGTH, COLUMN_OPTIONAL, 0, 12},
    {"hopper_height", UNIT_LENGTH, COLUMN_OPTIONAL, 0, 15},
    {"density", UNIT_BULK_DENSITY, COLUMN_OPTIONAL, 30, 1000},
    {"density_basis", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
    {"weighed", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 100000},
    {"weight_error", UNIT_PERCENT, COLUMN_OPTIONAL, 0, 50},
    {"storage", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"feeding", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"storage_loss", UNIT_PERCENT, COLUMN_OPTIONAL, 0, 60},
    {"feeding_waste", UNIT_PERCENT, COLUMN_OPTIONAL, 0, 60},
    {"value", UNIT_PRICE, COLUMN_REQUIRED, 0, 5},
    {"haul", UNIT_PRICE, COLUMN_OPTIONAL, 0, 1},
    {"haul_to_other_yard", UNIT_PRICE, COLUMN_OPTIONAL, 0, 1},
    {"least_face", UNIT_DAILY_MASS, COLUMN_OPTIONAL, 0, 1.0e6},
    {"use_from", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
    {"use_until", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
    {"groups", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
    {"watch_for", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
    {"crop", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
    {"yard", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
    {"note", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
};

const char *stack_kind_name(StackKind kind) { return KIND_NAMES[kind]; }

bool stack_has_face(const Stack *stack) {
    return stack->kind == STACK_PIT || stack->kind == STACK_BAG ||
           stack->kind == STACK_BALE_TUBE || stack->kind == STACK_PILE ||
           stack->kind == STACK_WEDGE;
}

Mass stack_counted_dry_matter(const Stack *stack) {
    return (Mass){stack->counted_kg * stack->feed.analysis.dry_matter.value / 100.0};
}

Mass stack_dry_matter(const Stack *stack) {
    return (Mass){stack_counted_dry_matter(stack).kg * (1.0 - stack->loss_share)};
}

Mass stack_as_fed(const Stack *stack) {
    return (Mass){stack->counted_kg * (1.0 - stack->loss_share)};
}

bool stock_days_are_known(const StockContext *context) {
    return calendar_days_between(context->first_day, context->last_day) >= 0;
}

/* A date a year off would quietly keep the feed out of the whole winter. */
static void doubt_outside(const Sheet *sheet, int row, int column, const char *which) {
    doubt_add(sheet_faults(sheet), sheet_place(sheet, row, column),
              "%s: %s is %s feeding day: nothing of it is fed this winter; is the year right?",
              sheet_heading(sheet, column), sheet_text(sheet, row, column), which);
}

Allowance allowance_read(const Sheet *sheet, int row, int from_column, int until_column,
                         int groups_column, const StockContext *context) {
    Allowance allowance = {.from = context->first_day, .until = context->last_day};
    const char **groups;
    const bool has_from = sheet_date(sheet, row, from_column, &allowance.from);
    const bool has_until = sheet_date(sheet, row, until_column, &allowance.until);
    allowance.group_count = sheet_list(sheet, row, groups_column, &groups);
    allowance.groups = groups;
    allowance.groups_place = sheet_place(sheet, row, groups_column);
    if (allowance.group_count == 0 && sheet_text(sheet, row, groups_column)[0] != '\0') {
        fault_add(sheet_faults(sheet), allowance.groups_place,
                  "groups: '%s' names no group; leave the cell empty for all",
                  text_excerpt(sheet_arena(sheet), sheet_text(sheet, row, groups_column)));
    }
    if (has_from && has_until && calendar_days_between(allowance.from, allowance.until) < 0) {
        fault_add(sheet_faults(sheet), sheet_place(sheet, row, until_column),
                  "%s: %s is before %s, %s; swap them, or mend the year",
                  sheet_heading(sheet, until_column), sheet_text(sheet, row, until_column),
                  sheet_heading(sheet, from_column), sheet_text(sheet, row, from_column));
    } else if (stock_days_are_known(context)) {
        if (has_from && calendar_days_between(context->last_day, allowance.from) > 0)
            doubt_outside(sheet, row, from_column, "after the last");
        if (has_until && calendar_days_between(allowance.until, context->first_day) > 0)
            doubt_outside(sheet, row, until_column, "before the first");
    }
    return allowance;
}

bool allowance_covers(const Allowance *allowance, const char *group) {
    for (int i = 0; i < allowance->group_count; i++) {
        if (text_same_letters(allowance->groups[i], group))
            return true;
    }
    return allowance->group_count == 0;
}

static double months_between(Day from, Day to) {
    return fmax(calendar_days_between(from, to), 0) / STORAGE_DAYS_PER_MONTH;
}

/* A count older than this misses most of a season; hay older than that is hardly kept. */
#define OLD_COUNT_DAYS 300
#define OLD_FEED_DAYS 1100

static void check_count_date(const Sheet *sheet, int row, const StockContext *context,
                             const Stack *stack) {
    const Place place = sheet_place(sheet, row, STACK_COUNTED_DATE);
    const char *written = sheet_text(sheet, row, STACK_COUNTED_DATE);
    if (!stock_days_are_known(context))
        return;
    if (calendar_days_between(stack->counted, context->last_day) < 0) {
        fault_add(sheet_faults(sheet), place,
                  "counted_date: %s is after the last feeding day; is the year right?",
                  written);
    } else if (calendar_days_between(stack->counted, context->first_day) > OLD_COUNT_DAYS) {
        doubt_add(
            sheet_faults(sheet), place,
            "counted_date: %s is %d days before the first feeding day; is the year right?",
            written, calendar_days_between(stack->counted, context->first_day));
    }
}

static void read_dates(const Sheet *sheet, int row, const StockContext *context, Stack *stack) {
    stack->has_cut = sheet_date(sheet, row, STACK_CUT_DATE, &stack->cut);
    stack->counted = context->first_day;
    const bool has_counted = sheet_date(sheet, row, STACK_COUNTED_DATE, &stack->counted);
    if (has_counted)
        check_count_date(sheet, row, context, stack);
    stack->put_up = stack->has_cut ? stack->cut : stack->counted;
    const bool is_comparable =
        has_counted || (sheet_text(sheet, row, STACK_COUNTED_DATE)[0] == '\0' &&
                        stock_days_are_known(context));
    if (!stack->has_cut || !is_comparable)
        return;
    const int age = calendar_days_between(stack->cut, stack->counted);
    const Place place = sheet_place(sheet, row, STACK_CUT_DATE);
    const char *written = sheet_text(sheet, row, STACK_CUT_DATE);
    if (age < 0) {
        fault_add(sheet_faults(sheet), place, "cut_date: %s is after %s; is the year right?",
                  written, has_counted ? "counted_date" : "the first feeding day");
    } else if (age > OLD_FEED_DAYS) {
        doubt_add(sheet_faults(sheet), place, "cut_date: %s makes the feed %d years old",
                  written, age / 365);
    }
}

/* Loss still to come is reckoned from the count to the middle of the winter. A stack without a
 * cut date is taken as three months old. Own choice. */
#define UNKNOWN_AGE_MONTHS 3.0

static void read_losses(const Sheet *sheet, int row, const StockContext *context,
                        Stack *stack) {
    double percent;
    stack->storage = storage_choice(context->handling, sheet, row, STACK_STORAGE);
    stack->feeding = feeding_choice(context->handling, sheet, row, STACK_FEEDING);
    const int half = calendar_days_between(context->first_day, context->last_day) / 2;
    const Day middle = calendar_add(context->first_day, half);
    if (stack->storage) {
        const double age =
            stack->has_cut ? months_between(stack->cut, stack->counted) : UNKNOWN_AGE_MONTHS;
        const double wait = months_between(stack->counted, middle);
        stack->age_months = age;
        stack->wait_days = calendar_days_between(stack->counted, middle);
        if (stack->wait_days < 0)
            stack->wait_days = 0;
        stack->loss_share = storage_loss_between(stack->storage->loss, age, age + wait);
    }
    if (sheet_number(sheet, row, STACK_STORAGE_LOSS, &percent)) {
        const double table = stack->storage ? stack->storage->loss.share_by_month_8 : 0.0;
        stock_check_share(sheet, row, STACK_STORAGE_LOSS, percent / 100.0,
                          (StockShare){table, 0.5});
        stack->loss_share = percent / 100.0;
        stack->loss_is_users = true;
    }
    const double factor = stack->feeding ? stack->feeding->protein_waste_factor : 1.0;
    stack->waste_share = stack->feeding ? stack->feeding->waste_share : 0.0;
    if (sheet_number(sheet, row, STACK_FEEDING_WASTE, &percent)) {
        stock_check_share(sheet, row, STACK_FEEDING_WASTE, percent / 100.0,
                          (StockShare){stack->waste_share, 0.5});
        stack->waste_share = percent / 100.0;
        stack->waste_is_users = true;
    }
    stack->protein_left = protein_left_factor(stack->waste_share, factor);
}

/* Feed without a worth would be fed before everything else, however dear it was to make. */
static double read_value(const Sheet *sheet, int row) {
    double value = 0.0;
    if (!sheet_require(sheet, row, STACK_VALUE) ||
        !sheet_number(sheet, row, STACK_VALUE, &value))
        return 0.0;
    if (value <= 0.0) {
        fault_add(
            sheet_faults(sheet), sheet_place(sheet, row, STACK_VALUE),
            "%s: 0 would make it free; write what it would fetch, less the cost of selling",
            sheet_heading(sheet, STACK_VALUE));
    }
    return value;
}

static Stack read_stack(const Sheet *sheet, int row, const StockContext *context) {
    Faults *faults = sheet_faults(sheet);
    Stack stack = {
        .name = sheet_text(sheet, row, STACK_NAME),
        .yard = sheet_text(sheet, row, STACK_YARD),
        .place = sheet_place(sheet, row, STACK_NAME),
    };
    sheet_require(sheet, row, STACK_NAME);
    int kind = -1;
    if (sheet_require(sheet, row, STACK_KIND_COLUMN))
        kind = sheet_choice(sheet, row, STACK_KIND_COLUMN, KIND_NAMES, STACK_KIND_COUNT);
    stack.kind = kind < 0 ? STACK_ROUND_BALES : (StackKind)kind;
    read_dates(sheet, row, context, &stack);
    read_losses(sheet, row, context, &stack);
    stack.allowance =
        allowance_read(sheet, row, STACK_USE_FROM, STACK_USE_UNTIL, STACK_GROUPS, context);
    stack.value_per_kg = read_value(sheet, row);
    if (sheet_number(sheet, row, STACK_HAUL, &stack.haul_per_kg))
        stock_check_haul(sheet, row, STACK_HAUL, stack.haul_per_kg);
    if (sheet_number(sheet, row, STACK_OTHER_YARD, &stack.other_yard_per_kg))
        stock_check_haul(sheet, row, STACK_OTHER_YARD, stack.other_yard_per_kg);
    sheet_number(sheet, row, STACK_FACE, &stack.least_face_kg_per_day);
    const BookFeed *book = book_choice(context->book, sheet, row, STACK_FEED);
    const WatchSet watch = feed_watch_read(sheet, row, STACK_WATCH_FOR);
    if (book) {
        stack.feed = feed_tests_completed(context->tests, stack.name, book);
        feedstuff_watch(&stack.feed, watch);
        stock_check_watch(sheet, row, STACK_WATCH_FOR, &stack.feed);
        const Keeping keeping = kind >= 0 ? stack_keeping(&stack) : KEPT_ANYHOW;
        stack.feed.is_kept_as_silage =
            keeping == KEPT_AS_CHOPPED_SILAGE || keeping == KEPT_AS_BALE_SILAGE;
        feed_tests_check_class(faults, context->tests, stack.name, book, keeping);
        feed_tests_check_dates(faults, context->tests, stack.name,
                               stack.has_cut ? &stack.cut : NULL,
                               stock_days_are_known(context) ? &stack.allowance.from : NULL,
                               stock_days_are_known(context) ? &context->last_day : NULL);
    }
    stack.counted_kg = stack_weight_read(sheet, row, kind >= 0, context->densities, &stack);
    if (kind >= 0)
        stack_check_yard(sheet, row, &stack);
    if (book && kind >= 0)
        stack_check(sheet, row, &stack);
    return stack;
}

static void check_names(Faults *faults, const Stack *stacks, int count) {
    for (int i = 0; i < count; i++) {
        for (int j = 0; j < i; j++) {
            if (stacks[i].name[0] != '\0' &&
                text_same_letters(stacks[i].name, stacks[j].name)) {
                fault_add(faults, stacks[i].place,
                          "stack: '%s' is already on line %d; give each stack its own name",
                          text_excerpt(faults->arena, stacks[i].name), stacks[j].place.line);
                break;
            }
        }
    }
}

Stacks stacks_parse(Arena *arena, Faults *faults, const StockContext *context, const char *file,
                    const char *bytes, size_t length) {
    const Sheet *sheet =
        sheet_parse(arena, faults, file, bytes, length, COLUMNS, STACK_COLUMN_COUNT);
    if (!sheet)
        return (Stacks){NULL, NULL, 0};
    const int rows = sheet_row_count(sheet);
    if (rows > MOST_STACKS) {
        fault_add(faults, (Place){file, 0, 0},
                  "has %d rows; at most %d stacks are read: is it the right file?", rows,
                  MOST_STACKS);
        return (Stacks){NULL, NULL, 0};
    }
    Stack *stacks = ARENA_ARRAY(arena, Stack, rows);
    const char **names = ARENA_ARRAY(arena, const char *, rows);
    int count = 0;
    for (int row = 0; row < rows; row++) {
        if (sheet_row_is_empty(sheet, row))
            continue;
        stacks[count] = read_stack(sheet, row, context);
        names[count] = stacks[count].name;
        count++;
    }
    check_names(faults, stacks, count);
    return (Stacks){stacks, names, count};
}
