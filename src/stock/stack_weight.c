#include "stock/stack_column.h"
#include "stock/stack_measure.h"

static const char *const DENSITY_BASES[] = {"as fed", "dry matter"};

/* Which sizes a kind is measured by. */
static const int *sizes_of(StackKind kind) {
    static const int ROUND[] = {STACK_DIAMETER, STACK_WIDTH, -1};
    static const int BOX[] = {STACK_LENGTH, STACK_WIDTH, STACK_HEIGHT, -1};
    static const int BAG[] = {STACK_DIAMETER, STACK_LENGTH, -1};
    static const int BIN[] = {STACK_DIAMETER, STACK_HEIGHT, -1};
    switch (kind) {
    case STACK_ROUND_BALES:
    case STACK_BALE_TUBE:
        return ROUND;
    case STACK_BAG:
        return BAG;
    case STACK_BIN:
        return BIN;
    case STACK_SQUARE_BALES:
    case STACK_PIT:
    case STACK_LOOSE:
    case STACK_KIND_COUNT:
        break;
    }
    return BOX;
}

static bool is_counted_in_bales(StackKind kind) {
    return kind == STACK_ROUND_BALES || kind == STACK_SQUARE_BALES || kind == STACK_BALE_TUBE;
}

static double size_of(const Sheet *sheet, int row, int column) {
    double value = 0.0;
    sheet_number(sheet, row, column, &value);
    return value;
}

/* Of one bale, or of the whole pile. */
static double volume_of(const Sheet *sheet, int row, StackKind kind) {
    const double diameter = size_of(sheet, row, STACK_DIAMETER);
    const double width = size_of(sheet, row, STACK_WIDTH);
    const double length = size_of(sheet, row, STACK_LENGTH);
    const double height = size_of(sheet, row, STACK_HEIGHT);
    switch (kind) {
    case STACK_ROUND_BALES:
    case STACK_BALE_TUBE:
        return round_bale_volume(diameter, width).cubic_metres;
    case STACK_BAG:
        return bag_volume(diameter, length).cubic_metres;
    case STACK_BIN:
        return bin_volume(diameter, height, 0.0).cubic_metres;
    case STACK_SQUARE_BALES:
    case STACK_PIT:
    case STACK_LOOSE:
    case STACK_KIND_COUNT:
        break;
    }
    return box_volume(length, width, height).cubic_metres;
}

static bool has(const Sheet *sheet, int row, int column) {
    return sheet_text(sheet, row, column)[0] != '\0';
}

/* Weight of one bale or of the pile from size and density; 0 with faults where a size is missing. */
static double weight_by_size(const Sheet *sheet, int row, const Stack *stack) {
    bool is_whole = true;
    for (const int *column = sizes_of(stack->kind); *column >= 0; column++) {
        if (!has(sheet, row, *column)) {
            fault_add(sheet_faults(sheet), sheet_place(sheet, row, *column),
                      "%s: is empty, but %s are measured by it when a density is given",
                      sheet_heading(sheet, *column), stack_kind_name(stack->kind));
            is_whole = false;
        }
    }
    double density = 0.0;
    if (!sheet_number(sheet, row, STACK_DENSITY, &density) || !is_whole)
        return 0.0;
    if (!sheet_require(sheet, row, STACK_DENSITY_BASIS))
        return 0.0;
    const int basis = sheet_choice(sheet, row, STACK_DENSITY_BASIS, DENSITY_BASES, 2);
    if (basis < 0)
        return 0.0;
    const double as_fed =
        basis == 0 ? density : density * 100.0 / stack->feed.analysis.dry_matter.value;
    return volume_of(sheet, row, stack->kind) * as_fed;
}

double stack_weight_read(const Sheet *sheet, int row, Stack *stack) {
    const bool has_total = has(sheet, row, STACK_TOTAL);
    const bool has_bale = has(sheet, row, STACK_BALE_WEIGHT);
    const bool has_density = has(sheet, row, STACK_DENSITY);
    Faults *faults = sheet_faults(sheet);
    if (has_total + has_bale + has_density != 1) {
        fault_add(faults, sheet_place(sheet, row, STACK_TOTAL),
                  "'%s': %s; give one of: bale_weight with count, total, or sizes with density",
                  stack->name,
                  has_total + has_bale + has_density == 0 ? "nothing says how much is there"
                                                          : "the weight is given twice over");
        return 0.0;
    }
    sheet_number(sheet, row, STACK_BALES, &stack->bale_count);
    double weight = 0.0;
    if (has_total) {
        sheet_number(sheet, row, STACK_TOTAL, &weight);
        return weight;
    }
    if (has_bale)
        sheet_number(sheet, row, STACK_BALE_WEIGHT, &weight);
    else
        weight = weight_by_size(sheet, row, stack);
    if (!has_bale && !is_counted_in_bales(stack->kind))
        return weight;
    if (!has(sheet, row, STACK_BALES)) {
        fault_add(faults, sheet_place(sheet, row, STACK_BALES),
                  "count: is empty; how many bales are in '%s'?", stack->name);
        return 0.0;
    }
    return weight * stack->bale_count;
}
