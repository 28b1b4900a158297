#include "base/text.h"
#include "stock/stack_column.h"
#include "stock/stack_measure.h"

static const char *const DENSITY_BASES[] = {"as fed", "dry matter"};

/* Every number of the row is read once, wanted or not, so that each mistake is told. */
typedef struct {
    double value;
    bool is_written, is_read;
} Amount;

enum { FIRST_AMOUNT = STACK_BALES, AMOUNT_COUNT = STACK_DENSITY - STACK_BALES + 1 };

typedef struct {
    const Sheet *sheet;
    int row;
    Amount of[AMOUNT_COUNT];
} Amounts;

static Amounts read_amounts(const Sheet *sheet, int row) {
    Amounts amounts = {.sheet = sheet, .row = row};
    for (int i = 0; i < AMOUNT_COUNT; i++) {
        Amount *amount = &amounts.of[i];
        amount->is_written = sheet_text(sheet, row, FIRST_AMOUNT + i)[0] != '\0';
        amount->is_read = sheet_number(sheet, row, FIRST_AMOUNT + i, &amount->value);
    }
    return amounts;
}

static const Amount *amount_of(const Amounts *amounts, int column) {
    return &amounts->of[column - FIRST_AMOUNT];
}

static double value_of(const Amounts *amounts, int column) {
    return amount_of(amounts, column)->value;
}

static Place place_of(const Amounts *amounts, int column) {
    return sheet_place(amounts->sheet, amounts->row, column);
}

/* ---- size and density ---- */

/* What a kind is measured by, and between which densities, kg/m3 as fed, it lies. The densities
 * are wide of what is met [OWN_CHOICE]; pounds a cubic foot typed for kg/m3 lie far outside. */
typedef struct {
    const int *sizes; /* ends with -1 */
    double least_density, most_density;
} Measuring;

static Measuring measuring_of(StackKind kind) {
    static const int ROUND[] = {STACK_DIAMETER, STACK_WIDTH, -1};
    static const int BOX[] = {STACK_LENGTH, STACK_WIDTH, STACK_HEIGHT, -1};
    static const int BAG[] = {STACK_DIAMETER, STACK_LENGTH, -1};
    static const int BIN[] = {STACK_DIAMETER, STACK_HEIGHT, -1};
    switch (kind) {
    case STACK_ROUND_BALES:
    case STACK_BALE_TUBE:
        return (Measuring){ROUND, 60, 700};
    case STACK_BAG:
        return (Measuring){BAG, 200, 1000};
    case STACK_BIN:
        return (Measuring){BIN, 200, 950};
    case STACK_PIT:
        return (Measuring){BOX, 200, 1100};
    case STACK_SQUARE_BALES:
        return (Measuring){BOX, 60, 700};
    case STACK_LOOSE:
    case STACK_KIND_COUNT:
        break;
    }
    return (Measuring){BOX, 30, 1000};
}

static bool is_counted_in_bales(StackKind kind) {
    return kind == STACK_ROUND_BALES || kind == STACK_SQUARE_BALES || kind == STACK_BALE_TUBE;
}

/* Of one bale, or of the whole pile. */
static double volume_of(const Amounts *amounts, StackKind kind) {
    const double diameter = value_of(amounts, STACK_DIAMETER);
    const double width = value_of(amounts, STACK_WIDTH);
    const double length = value_of(amounts, STACK_LENGTH);
    const double height = value_of(amounts, STACK_HEIGHT);
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

static bool has_sizes(const Amounts *amounts, StackKind kind) {
    bool is_whole = true;
    for (const int *column = measuring_of(kind).sizes; *column >= 0; column++) {
        is_whole &= amount_of(amounts, *column)->is_read;
        if (!sheet_is_left_out(amounts->sheet, amounts->row, *column))
            continue;
        fault_add(sheet_faults(amounts->sheet), place_of(amounts, *column),
                  "%s: is empty, but %s are measured by it when a density is given",
                  sheet_heading(amounts->sheet, *column), stack_kind_name(kind));
    }
    return is_whole;
}

/* kg/m3 as fed; 0 with a fault. */
static double density_as_fed(const Amounts *amounts, const Stack *stack) {
    const Sheet *sheet = amounts->sheet;
    const int basis =
        sheet_require(sheet, amounts->row, STACK_DENSITY_BASIS)
            ? sheet_choice(sheet, amounts->row, STACK_DENSITY_BASIS, DENSITY_BASES, 2)
            : -1;
    const double dry_matter = stack->feed.analysis.dry_matter.value;
    if (basis < 0 || !amount_of(amounts, STACK_DENSITY)->is_read || dry_matter <= 0.0)
        return 0.0;
    const double written = value_of(amounts, STACK_DENSITY);
    const double density = basis == 0 ? written : written * 100.0 / dry_matter;
    const Measuring measuring = measuring_of(stack->kind);
    if (density >= measuring.least_density && density <= measuring.most_density)
        return density;
    fault_add(
        sheet_faults(sheet), place_of(amounts, STACK_DENSITY),
        "%s: %s makes %.4g kg/m3 (%.3g lb/ft3) as fed; %s lie between %g and %g kg/m3: is it "
        "in the other unit or on the other basis?",
        sheet_heading(sheet, STACK_DENSITY), sheet_text(sheet, amounts->row, STACK_DENSITY),
        density, density * METRES_PER_FOOT * METRES_PER_FOOT * METRES_PER_FOOT / KG_PER_POUND,
        stack_kind_name(stack->kind), measuring.least_density, measuring.most_density);
    return 0.0;
}

#define LEAST_BALE_KG 10.0
#define MOST_BALE_KG 1500.0

/* Weight of one bale or of the pile; 0 with faults where a size is missing. */
static double weight_by_size(const Amounts *amounts, const Stack *stack) {
    const bool is_whole = has_sizes(amounts, stack->kind);
    const double density = density_as_fed(amounts, stack);
    if (!is_whole || density <= 0.0)
        return 0.0;
    const double weight = volume_of(amounts, stack->kind) * density;
    if (!is_counted_in_bales(stack->kind) ||
        (weight >= LEAST_BALE_KG && weight <= MOST_BALE_KG))
        return weight;
    const int size = measuring_of(stack->kind).sizes[0];
    fault_add(
        sheet_faults(amounts->sheet), place_of(amounts, size),
        "%s: size and density make a bale of %.0f kg (%.0f lb); write the size of one bale",
        sheet_heading(amounts->sheet, size), weight, weight / KG_PER_POUND);
    return 0.0;
}

/* ---- which way, and what comes of it ---- */

typedef enum { WAY_NONE, WAY_TOTAL, WAY_BALE, WAY_SIZE } WeightWay;

static WeightWay weight_way(const Amounts *amounts, const Stack *stack) {
    static const int WAY_COLUMN[] = {-1, STACK_TOTAL, STACK_BALE_WEIGHT, STACK_DENSITY};
    WeightWay way = WAY_NONE;
    Place last = stack->place;
    int count = 0;
    bool is_lost = false; /* behind a heading that could not be read, which was told */
    for (int i = WAY_TOTAL; i <= WAY_SIZE; i++) {
        if (!amount_of(amounts, WAY_COLUMN[i])->is_written) {
            is_lost |= !sheet_is_left_out(amounts->sheet, amounts->row, WAY_COLUMN[i]);
            continue;
        }
        const Place place = place_of(amounts, WAY_COLUMN[i]);
        if (count == 0 || place.column > last.column)
            last = place;
        way = (WeightWay)i;
        count++;
    }
    if (count == 1)
        return way;
    if (count == 0 && is_lost)
        return WAY_NONE;
    fault_add(sheet_faults(amounts->sheet), last,
              "'%s': %s; give one of: bale_weight with count, total, or sizes with density",
              text_excerpt(sheet_arena(amounts->sheet), stack->name),
              count == 0 ? "nothing says how much is there" : "the weight is given twice over");
    return WAY_NONE;
}

/* Pounds typed for kilograms, and the other way about. */
static void doubt_bale(const Amounts *amounts, StackKind kind, double bale_kg, int column) {
    const bool is_square = kind == STACK_SQUARE_BALES;
    const double least = is_square ? 15.0 : 180.0;
    const double most = 1000.0;
    const bool is_between_sizes = is_square && bale_kg > 60.0 && bale_kg < 150.0;
    if (!is_counted_in_bales(kind) ||
        (bale_kg >= least && bale_kg <= most && !is_between_sizes))
        return;
    doubt_add(sheet_faults(amounts->sheet), place_of(amounts, column),
              "%s: a bale of %.0f kg (%.0f lb) is unusual among %s; is the unit right?",
              sheet_heading(amounts->sheet, column), bale_kg, bale_kg / KG_PER_POUND,
              stack_kind_name(kind));
}

#define LEAST_STACK_KG 10.0 /* half a bag */
#define MOST_STACK_KG 5.0e6 /* a hundred days of two thousand cows */

static void doubt_nothing(const Amounts *amounts, const Stack *stack, int column) {
    doubt_add(
        sheet_faults(amounts->sheet), place_of(amounts, column),
        "%s: %s is read as nothing left of '%s'; take the row out, or write what is there",
        sheet_heading(amounts->sheet, column), sheet_text(amounts->sheet, amounts->row, column),
        text_excerpt(sheet_arena(amounts->sheet), stack->name));
}

static double weight_of_total(const Amounts *amounts, const Stack *stack) {
    const Amount *total = amount_of(amounts, STACK_TOTAL);
    if (total->is_read && total->value < LEAST_STACK_KG)
        doubt_nothing(amounts, stack, STACK_TOTAL);
    else if (total->is_read && stack->bale_count > 0.0)
        doubt_bale(amounts, stack->kind, total->value / stack->bale_count, STACK_TOTAL);
    return total->value;
}

static double weight_of_bales(const Amounts *amounts, const Stack *stack, WeightWay way) {
    const double bale_kg =
        way == WAY_BALE ? value_of(amounts, STACK_BALE_WEIGHT) : weight_by_size(amounts, stack);
    const Amount *count = amount_of(amounts, STACK_BALES);
    if (bale_kg > 0.0)
        doubt_bale(amounts, stack->kind, bale_kg,
                   way == WAY_BALE ? STACK_BALE_WEIGHT : STACK_DENSITY);
    if (sheet_is_left_out(amounts->sheet, amounts->row, STACK_BALES)) {
        fault_add(sheet_faults(amounts->sheet), place_of(amounts, STACK_BALES),
                  "count: is empty; how many bales are in '%s'?",
                  text_excerpt(sheet_arena(amounts->sheet), stack->name));
    } else if (count->is_read && count->value < 1.0) {
        doubt_nothing(amounts, stack, STACK_BALES);
    }
    return bale_kg * count->value;
}

static double weight_by(const Amounts *amounts, const Stack *stack, WeightWay way) {
    if (way == WAY_TOTAL)
        return weight_of_total(amounts, stack);
    if (way == WAY_SIZE && !is_counted_in_bales(stack->kind))
        return weight_by_size(amounts, stack);
    return weight_of_bales(amounts, stack, way);
}

double stack_weight_read(const Sheet *sheet, int row, bool kind_is_known, Stack *stack) {
    const Amounts amounts = read_amounts(sheet, row);
    stack->bale_count = value_of(&amounts, STACK_BALES);
    const WeightWay way = weight_way(&amounts, stack);
    stack->is_by_size = way == WAY_SIZE;
    stack->is_by_total = way == WAY_TOTAL;
    if (way != WAY_SIZE) /* not needed then, but a word that means nothing is told */
        sheet_choice(sheet, row, STACK_DENSITY_BASIS, DENSITY_BASES, 2);
    if (way == WAY_NONE || !kind_is_known)
        return 0.0;
    const double weight = weight_by(&amounts, stack, way);
    if (weight > MOST_STACK_KG) {
        doubt_add(sheet_faults(sheet), stack->place,
                  "'%s': %.0f tonnes in one stack; are count, sizes and units right?",
                  text_excerpt(sheet_arena(sheet), stack->name), weight / KG_PER_TONNE);
    }
    return weight;
}
