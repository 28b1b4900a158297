#include "base/text.h"
#include "stock/stack_amount.h"
#include "stock/stack_measure.h"
#include "stock/weight_error.h"

static const char *const DENSITY_BASES[] = {"as fed", "dry matter"};

static Amounts read_amounts(const Sheet *sheet, int row) {
    Amounts amounts = {.sheet = sheet, .row = row};
    for (int i = 0; i < AMOUNT_COUNT; i++) {
        Amount *amount = &amounts.of[i];
        amount->is_written = sheet_text(sheet, row, FIRST_AMOUNT + i)[0] != '\0';
        amount->is_read = sheet_number(sheet, row, FIRST_AMOUNT + i, &amount->value);
    }
    return amounts;
}

/* ---- size and density ---- */

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
    const DensityRange range = stack_density_range(stack->kind);
    if (density >= range.least && density <= range.most)
        return density;
    fault_add(
        sheet_faults(sheet), place_of(amounts, STACK_DENSITY),
        "%s: %s makes %.4g kg/m3 (%.3g lb/ft3) as fed; %s lie between %g and %g kg/m3: is it "
        "in the other unit or on the other basis?",
        sheet_heading(sheet, STACK_DENSITY), sheet_text(sheet, amounts->row, STACK_DENSITY),
        density, density * METRES_PER_FOOT * METRES_PER_FOOT * METRES_PER_FOOT / KG_PER_POUND,
        stack_kind_name(stack->kind), range.least, range.most);
    return 0.0;
}

/* The book's density is of dry matter: of feed so wet that it would lie denser than anything of
 * its kind does, there is less dry matter in a cubic metre. */
static double no_denser_than_it_lies(const Amounts *amounts, const Stack *stack,
                                     double density) {
    const double most = stack_density_range(stack->kind).most;
    if (density <= most)
        return density;
    doubt_add(sheet_faults(amounts->sheet), place_of(amounts, STACK_DENSITY),
              "'%s': with %.3g %% of dry matter the book's density would make %.0f kg/m3 as "
              "fed, and no %s is denser than %.0f, which is taken; weigh it, or write density "
              "with density_basis",
              text_excerpt(sheet_arena(amounts->sheet), stack->name),
              stack->feed.analysis.dry_matter.value, density, stack_kind_name(stack->kind),
              most);
    return most;
}

/* What the book says of feed of its kind, kg/m3 as fed; 0 with a fault where it says nothing.
 * Sets the error of a weight found so. */
static double density_of_book(const Amounts *amounts, const BookDensities *densities,
                              Stack *stack) {
    const double dry_share = stack->feed.analysis.dry_matter.value / 100.0;
    if (dry_share <= 0.0)
        return 0.0; /* the feed could not be read, which was told */
    const BookDensity *row =
        book_density_of(densities, stack_kind_name(stack->kind), &stack->feed);
    const bool is_silo = stack->kind == STACK_SILO;
    if (!row && !is_silo) {
        fault_add(sheet_faults(amounts->sheet), place_of(amounts, STACK_DENSITY),
                  "'%s': is measured, but no book says how dense %s lies as '%s'; weigh it, or "
                  "write density with density_basis",
                  text_excerpt(sheet_arena(amounts->sheet), stack->name), stack->feed.label,
                  stack_kind_name(stack->kind));
        return 0.0;
    }
    stack->density_is_books = true;
    if (is_silo) {
        const bool is_corn = stack->feed.feed_class == FEED_CLASS_CORN_SILAGE;
        stack->density_source = SOURCE_ISU_C6_82;
        const double dry = silo_density(is_corn ? SILO_OF_CORN : SILO_OF_HAYLAGE,
                                        value_of(amounts, STACK_HEIGHT));
        return no_denser_than_it_lies(amounts, stack, dry / dry_share);
    }
    stack->density_source = row->source;
    stack->weight_error_share = row->weight_error_share;
    return no_denser_than_it_lies(amounts, stack,
                                  row->is_dry ? row->kg_per_m3 / dry_share : row->kg_per_m3);
}

#define LEAST_BALE_KG 10.0
#define MOST_BALE_KG 1500.0

/* Weight of one bale or of the pile; 0 with faults where a size is missing. */
static double weight_by_size(const Amounts *amounts, const BookDensities *densities,
                             Stack *stack) {
    const bool is_whole = stack_has_sizes(amounts, stack->kind);
    const double density = amount_of(amounts, STACK_DENSITY)->is_written
                               ? density_as_fed(amounts, stack)
                               : density_of_book(amounts, densities, stack);
    if (!is_whole || density <= 0.0)
        return 0.0;
    const double weight = stack_volume(amounts, stack->kind) * density;
    if (!is_counted_in_bales(stack->kind) ||
        (weight >= LEAST_BALE_KG && weight <= MOST_BALE_KG))
        return weight;
    const int size = stack_size_columns(stack->kind)[0];
    fault_add(
        sheet_faults(amounts->sheet), place_of(amounts, size),
        "%s: size and density make a bale of %.0f kg (%.0f lb); write the size of one bale",
        sheet_heading(amounts->sheet, size), weight, weight / KG_PER_POUND);
    return 0.0;
}

/* ---- which way, and what comes of it ---- */

static const int WAY_COLUMN[] = {-1, STACK_TOTAL, STACK_BALE_WEIGHT, STACK_DENSITY};

static WeightCell weight_cell(const Amounts *amounts, WeightWay way) {
    const int column = WAY_COLUMN[way];
    if (!amount_of(amounts, column)->is_written) /* the book's density */
        return (WeightCell){.way = way, .place = place_of(amounts, column)};
    return (WeightCell){way, place_of(amounts, column), sheet_heading(amounts->sheet, column),
                        sheet_as_written(amounts->sheet, column, value_of(amounts, column))};
}

static WeightWay weight_way(const Amounts *amounts, bool has_book, const Stack *stack) {
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
    if (count == 0 && has_book && stack_has_a_size(amounts, stack->kind))
        return WAY_SIZE;
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

static double weight_of_bales(const Amounts *amounts, const BookDensities *densities,
                              Stack *stack, WeightWay way) {
    const double bale_kg = way == WAY_BALE ? value_of(amounts, STACK_BALE_WEIGHT)
                                           : weight_by_size(amounts, densities, stack);
    const Amount *count = amount_of(amounts, STACK_BALES);
    if (bale_kg > 0.0)
        doubt_bale(amounts, stack->kind, bale_kg,
                   way == WAY_BALE ? STACK_BALE_WEIGHT : STACK_DENSITY);
    if (stack->bale_count <= 0.0 &&
        sheet_is_left_out(amounts->sheet, amounts->row, STACK_BALES)) {
        fault_add(sheet_faults(amounts->sheet), place_of(amounts, STACK_BALES),
                  "count: is empty; how many bales are in '%s'?",
                  text_excerpt(sheet_arena(amounts->sheet), stack->name));
    } else if (count->is_read && count->value < 1.0) {
        doubt_nothing(amounts, stack, STACK_BALES);
    }
    return bale_kg * stack->bale_count;
}

static double weight_by(const Amounts *amounts, const BookDensities *densities, Stack *stack,
                        WeightWay way) {
    if (way == WAY_TOTAL)
        return weight_of_total(amounts, stack);
    if (way == WAY_SIZE && !is_counted_in_bales(stack->kind))
        return weight_by_size(amounts, densities, stack);
    return weight_of_bales(amounts, densities, stack, way);
}

/* The farm's own figure, else that of the book's density, else by how the weight was found. */
static double error_read(const Sheet *sheet, int row, const Stack *stack, WeightWay given) {
    double weighed = 0.0;
    double percent;
    sheet_number(sheet, row, STACK_WEIGHED, &weighed);
    if (sheet_number(sheet, row, STACK_WEIGHT_ERROR, &percent))
        return percent / 100.0;
    if (stack->weight_error_share > 0.0)
        return stack->weight_error_share;
    WeightKnown known = weighed >= 1.0 ? WEIGHT_ON_SCALE : WEIGHT_BY_EYE;
    if (given == WAY_SIZE)
        known = WEIGHT_BY_SIZE;
    else if (given == WAY_BALE && weighed >= 1.0 && weighed < stack->bale_count)
        known = WEIGHT_OF_SOME_BALES;
    return weight_error_share(stack->kind, known, weighed);
}

double stack_weight_read(const Sheet *sheet, int row, bool kind_is_known,
                         const BookDensities *densities, Stack *stack) {
    const Amounts amounts = read_amounts(sheet, row);
    stack->bale_count = value_of(&amounts, STACK_BALES);
    const WeightWay way = weight_way(&amounts, kind_is_known && densities, stack);
    if (way != WAY_SIZE) /* not needed then, but a word that means nothing is told */
        sheet_choice(sheet, row, STACK_DENSITY_BASIS, DENSITY_BASES, 2);
    if (way == WAY_NONE || !kind_is_known)
        return 0.0;
    if (!amount_of(&amounts, STACK_BALES)->is_written)
        stack->bale_count = stack_tube_bales(&amounts, stack->kind);
    stack->weight_cell = weight_cell(&amounts, way);
    const double weight = weight_by(&amounts, densities, stack, way);
    stack->weight_error_share = error_read(sheet, row, stack, way);
    if (weight > MOST_STACK_KG) {
        doubt_add(sheet_faults(sheet), stack->place,
                  "'%s': %.0f tonnes in one stack; are count, sizes and units right?",
                  text_excerpt(sheet_arena(sheet), stack->name), weight / KG_PER_TONNE);
    }
    return weight;
}
