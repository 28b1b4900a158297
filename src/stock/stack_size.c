#include "stock/stack_amount.h"
#include "stock/stack_measure.h"
#include <math.h>

bool is_counted_in_bales(StackKind kind) {
    return kind == STACK_ROUND_BALES || kind == STACK_SQUARE_BALES || kind == STACK_BALE_TUBE;
}

const int *stack_size_columns(StackKind kind) {
    static const int BALE[] = {STACK_DIAMETER, STACK_WIDTH, -1};
    static const int BOX[] = {STACK_LENGTH, STACK_WIDTH, STACK_HEIGHT, -1};
    static const int BAG[] = {STACK_DIAMETER, STACK_LENGTH, -1};
    static const int STANDING[] = {STACK_DIAMETER, STACK_HEIGHT, -1};
    static const int PILE[] = {STACK_LENGTH,    STACK_WIDTH, STACK_HEIGHT,
                               STACK_TOP_WIDTH, STACK_RAMPS, -1};
    static const int LONG[] = {STACK_LENGTH, STACK_WIDTH, STACK_OVER, -1};
    static const int ROUND[] = {STACK_OVER, STACK_AROUND, -1};
    switch (kind) {
    case STACK_ROUND_BALES:
    case STACK_BALE_TUBE:
        return BALE;
    case STACK_BAG:
        return BAG;
    case STACK_BIN:
    case STACK_SILO:
        return STANDING;
    case STACK_PILE:
        return PILE;
    case STACK_LOW_STACK:
    case STACK_HIGH_STACK:
    case STACK_FLAT_STACK:
        return LONG;
    case STACK_ROUND_STACK:
        return ROUND;
    case STACK_SQUARE_BALES:
    case STACK_PIT:
    case STACK_WEDGE:
    case STACK_LOOSE:
    case STACK_KIND_COUNT:
        break;
    }
    return BOX;
}

bool stack_has_a_size(const Amounts *amounts, StackKind kind) {
    for (const int *column = stack_size_columns(kind); *column >= 0; column++) {
        if (amount_of(amounts, *column)->is_written)
            return true;
    }
    return false;
}

/* What is measured, in words for who forgot it. */
static const char *how_to_measure(int column) {
    switch (column) {
    case STACK_TOP_WIDTH:
        return "across the flat of the top";
    case STACK_RAMPS:
        return "both sloped ends together, along the ground; 0 where there are none";
    case STACK_OVER:
        return "a rope from the ground on one side over the top to the ground on the other";
    case STACK_AROUND:
        return "a rope around it at the foot";
    default:
        return "";
    }
}

bool stack_has_sizes(const Amounts *amounts, StackKind kind) {
    bool is_whole = true;
    for (const int *column = stack_size_columns(kind); *column >= 0; column++) {
        const char *how = how_to_measure(*column);
        is_whole &= amount_of(amounts, *column)->is_read;
        if (!sheet_is_left_out(amounts->sheet, amounts->row, *column))
            continue;
        fault_add(sheet_faults(amounts->sheet), place_of(amounts, *column),
                  "%s: is empty, but '%s' is measured by it when %s%s%s",
                  sheet_heading(amounts->sheet, *column), stack_kind_name(kind),
                  amount_of(amounts, STACK_DENSITY)->is_written ? "a density is given"
                                                                : "nothing is weighed",
                  how[0] != '\0' ? ": " : "", how);
    }
    return is_whole;
}

/* A pit is a box of its mean sizes, unless its slopes are measured too: with the width at the
 * top the other is that of the floor, with the ramps the length is that at full height. */
static double pit_of(const Amounts *amounts) {
    const double width = value_of(amounts, STACK_WIDTH);
    const Amount *top = amount_of(amounts, STACK_TOP_WIDTH);
    const Pit pit = {
        .floor_width_m = width,
        .top_width_m = top->is_read ? top->value : width,
        .height_m = value_of(amounts, STACK_HEIGHT),
        .full_length_m = value_of(amounts, STACK_LENGTH),
        .first_ramp_m = value_of(amounts, STACK_RAMPS),
    };
    return pit_volume(pit).cubic_metres;
}

static double long_stack(const Amounts *amounts, StackTop top) {
    return long_stack_volume(top, value_of(amounts, STACK_WIDTH),
                             value_of(amounts, STACK_LENGTH), value_of(amounts, STACK_OVER))
        .cubic_metres;
}

double stack_volume(const Amounts *amounts, StackKind kind) {
    const double diameter = value_of(amounts, STACK_DIAMETER);
    const double width = value_of(amounts, STACK_WIDTH);
    const double length = value_of(amounts, STACK_LENGTH);
    const double height = value_of(amounts, STACK_HEIGHT);
    const double heap = value_of(amounts, STACK_CONE);
    switch (kind) {
    case STACK_ROUND_BALES:
    case STACK_BALE_TUBE:
        return round_bale_volume(diameter, width).cubic_metres;
    case STACK_BAG:
        return bag_volume(diameter, length).cubic_metres;
    case STACK_BIN:
        return bin_volume(diameter, height, heap + value_of(amounts, STACK_HOPPER))
            .cubic_metres;
    case STACK_SILO:
        return bin_volume(diameter, height, 0.0).cubic_metres;
    case STACK_PIT:
    case STACK_PILE:
        return pit_of(amounts);
    case STACK_WEDGE:
        return box_volume(length, width, height).cubic_metres / 2.0;
    case STACK_LOW_STACK:
        return long_stack(amounts, TOP_LOW);
    case STACK_HIGH_STACK:
        return long_stack(amounts, TOP_HIGH);
    case STACK_FLAT_STACK:
        return long_stack(amounts, TOP_FLAT);
    case STACK_ROUND_STACK:
        return round_stack_volume(value_of(amounts, STACK_AROUND),
                                  value_of(amounts, STACK_OVER))
            .cubic_metres;
    case STACK_LOOSE:
        return heaped_box_volume(length, width, height, heap).cubic_metres;
    case STACK_SQUARE_BALES:
    case STACK_KIND_COUNT:
        break;
    }
    return box_volume(length, width, height).cubic_metres;
}

DensityRange stack_density_range(StackKind kind) {
    switch (kind) {
    case STACK_ROUND_BALES:
    case STACK_BALE_TUBE:
    case STACK_SQUARE_BALES:
        return (DensityRange){60, 700};
    case STACK_BAG:
        return (DensityRange){200, 1000};
    case STACK_BIN:
        return (DensityRange){200, 950};
    case STACK_PIT:
    case STACK_PILE:
    case STACK_WEDGE:
    case STACK_SILO:
        return (DensityRange){200, 1100};
    case STACK_LOW_STACK:
    case STACK_HIGH_STACK:
    case STACK_FLAT_STACK:
    case STACK_ROUND_STACK:
    case STACK_LOOSE:
    case STACK_KIND_COUNT:
        break;
    }
    return (DensityRange){30, 1000};
}

double stack_tube_bales(const Amounts *amounts, StackKind kind) {
    const Amount *length = amount_of(amounts, STACK_LENGTH);
    const Amount *width = amount_of(amounts, STACK_WIDTH);
    if (kind != STACK_BALE_TUBE || !length->is_read || !width->is_read)
        return 0.0;
    return floor(length->value / width->value + 1e-9);
}
