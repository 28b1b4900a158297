/* A row is read as a sample of a feed test is, and as a stack is, with what lies between: the
 * crop that stands, what is lost on the way home, and what it costs. */
#include "stock/field.h"
#include "base/text.h"
#include "feedstuff/book_value.h"
#include "stock/field_column.h"
#include "stock/stack_column.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

static const SheetColumn COLUMNS[FIELD_COLUMN_COUNT - TEST_COLUMN_COUNT] = {
    {"area", UNIT_AREA, COLUMN_REQUIRED, 0.1, 20000},
    {"crop", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
    {"feed", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"growth", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
    {"seeded_date", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
    {"way", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"yield", UNIT_CROP, COLUMN_OPTIONAL, 1, 100000},
    {"yield_basis", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
    {"yield_spread", UNIT_PERCENT, COLUMN_OPTIONAL, 0, 80},
    {"crude_protein_spread", UNIT_PERCENT, COLUMN_OPTIONAL, 0, 10},
    {"tdn_spread", UNIT_PERCENT, COLUMN_OPTIONAL, 0, 15},
    {"field_loss", UNIT_PERCENT, COLUMN_OPTIONAL, 0, 60},
    {"rain_chance", UNIT_PERCENT, COLUMN_OPTIONAL, 0, 100},
    {"rain_loss", UNIT_PERCENT, COLUMN_OPTIONAL, 0, 60},
    {"rain_tdn_loss", UNIT_PERCENT, COLUMN_OPTIONAL, 0, 20},
    {"seed", UNIT_AREA_COST, COLUMN_OPTIONAL, 0, 3000},
    {"cutting", UNIT_AREA_COST, COLUMN_OPTIONAL, 0, 3000},
    {"other", UNIT_AREA_COST, COLUMN_OPTIONAL, 0, 10000},
    {"land", UNIT_AREA_COST, COLUMN_OPTIONAL, 0, 10000},
    {"putting_up", UNIT_PRICE, COLUMN_OPTIONAL, 0, 1},
    {"wrapping", UNIT_PRICE, COLUMN_OPTIONAL, 0, 1},
    {"hauling", UNIT_PRICE, COLUMN_OPTIONAL, 0, 1},
    {"bale_weight", UNIT_MASS, COLUMN_OPTIONAL, 10, 1500},
    {"baling_per_bale", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 200},
    {"wrapping_per_bale", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 200},
    {"hauling_per_bale", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 200},
    {"regrowth", UNIT_CROP, COLUMN_OPTIONAL, 0, 20000},
    {"regrowth_use", UNIT_PERCENT, COLUMN_OPTIONAL, 0, 100},
    {"grazing_value", UNIT_PRICE, COLUMN_OPTIONAL, 0, 2},
    {"storage", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"feeding", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"storage_loss", UNIT_PERCENT, COLUMN_OPTIONAL, 0, 60},
    {"feeding_waste", UNIT_PERCENT, COLUMN_OPTIONAL, 0, 60},
    {"value", UNIT_PRICE, COLUMN_OPTIONAL, 0, 5},
    {"haul", UNIT_PRICE, COLUMN_OPTIONAL, 0, 1},
    {"groups", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
    {"watch_for", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
};

static const char *const BASES[] = {"dry matter", "as fed"};

static double number_or(const Sheet *sheet, int row, int column, double otherwise) {
    double value;
    return sheet_number(sheet, row, column, &value) ? value : otherwise;
}

static double share_or(const Sheet *sheet, int row, int column, double otherwise) {
    double percent;
    if (!sheet_number(sheet, row, column, &percent))
        return otherwise;
    if (percent > 0.0) /* none at all is an answer: a yield may be what came home */
        stock_check_share(sheet, row, column, percent / 100.0, (StockShare){otherwise, 0.5});
    return percent / 100.0;
}

static bool has_any_figure(const Analysis *analysis) {
    for (int i = 0; i < NUTRIENT_COUNT; i++) {
        if (reading_is_known(analysis->of[i]))
            return true;
    }
    return false;
}

/* The expected test: one sample that nobody has taken. What it does not say of nitrate is
 * reckoned as none: nobody can test a crop that is not sown, and the page says so. */
static void read_test(const Sheet *sheet, int row, FieldCut *cut) {
    FeedTest test = {.stack = sheet_text(sheet, row, FIELD_NAME),
                     .place = sheet_place(sheet, row, FIELD_NAME),
                     .row = row};
    const int basis = sheet_choice(sheet, row, TEST_BASIS, BASES, 2);
    test.analysis.dry_matter = feed_test_read_dry_matter(sheet, row, basis == 1);
    feed_test_read_figures(sheet, row, basis == 1, &test.analysis);
    feed_test_check_row(sheet, &test);
    if (basis < 0 && has_any_figure(&test.analysis) &&
        sheet_text(sheet, row, TEST_BASIS)[0] == '\0')
        fault_add(sheet_faults(sheet), sheet_place(sheet, row, TEST_BASIS),
                  "basis: is empty beside an expected test; write dry matter or as fed");
    cut->tested.mean = test.analysis;
    cut->tested.sample_count = 1;
    const Reading nitrate = test.analysis.of[NUTRIENT_NITRATE];
    cut->tested.nitrate_sample_count = 1;
    cut->tested.nitrate_highest = reading_or(nitrate, 0.0);
    if (!reading_is_known(nitrate))
        cut->tested.mean.of[NUTRIENT_NITRATE] =
            (Reading){0.0, FROM_ASSUMPTION, SOURCE_OWN_CHOICE};
    for (int n = 0; n < NUTRIENT_COUNT; n++)
        cut->tested.error_between[n] = (double)NAN;
    if (cut->way && !reading_is_known(cut->tested.mean.dry_matter))
        cut->tested.mean.dry_matter =
            (Reading){100.0 * cut->way->dry_share, FROM_ASSUMPTION, SOURCE_OWN_CHOICE};
    cut->dry_share = reading_or(cut->tested.mean.dry_matter, 85.0) / 100.0;
}

static void read_yield(const Sheet *sheet, int row, FieldCut *cut) {
    double yield;
    cut->yield_kg_per_hectare = (double)NAN;
    const int basis = sheet_choice(sheet, row, FIELD_YIELD_BASIS, BASES, 2);
    if (!sheet_number(sheet, row, FIELD_YIELD, &yield))
        return;
    if (basis < 0 && sheet_text(sheet, row, FIELD_YIELD_BASIS)[0] == '\0')
        fault_add(sheet_faults(sheet), sheet_place(sheet, row, FIELD_YIELD_BASIS),
                  "yield_basis: is empty beside a yield; write dry matter or as fed");
    cut->yield_kg_per_hectare = basis == 1 ? yield * cut->dry_share : yield;
    if (cut->yield_kg_per_hectare > 20000.0)
        doubt_add(sheet_faults(sheet), sheet_place(sheet, row, FIELD_YIELD),
                  "%s: more than 20 t of dry matter a hectare; are the unit and the basis "
                  "right?",
                  sheet_heading(sheet, FIELD_YIELD));
}

/* By the tonne, by the bale, or neither; not both. */
static double per_kg(const Sheet *sheet, int row, int by_weight, int by_bale, double bale_kg) {
    double price = 0.0;
    double bale = 0.0;
    const bool has_price = sheet_number(sheet, row, by_weight, &price);
    const bool has_bale = sheet_number(sheet, row, by_bale, &bale);
    if (has_price && has_bale)
        fault_add(sheet_faults(sheet), sheet_place(sheet, row, by_bale),
                  "%s: %s is there too; keep one of them", sheet_heading(sheet, by_bale),
                  sheet_heading(sheet, by_weight));
    if (has_bale && bale > 0.0 && bale_kg <= 0.0 &&
        sheet_is_left_out(sheet, row, FIELD_BALE_WEIGHT))
        fault_add(sheet_faults(sheet), sheet_place(sheet, row, FIELD_BALE_WEIGHT),
                  "bale_weight: is empty, and %s needs it", sheet_heading(sheet, by_bale));
    return has_bale && bale_kg > 0.0 ? bale / bale_kg : price;
}

static void read_costs(const Sheet *sheet, int row, FieldCut *cut) {
    static const int PER_AREA[] = {FIELD_SEED, FIELD_CUTTING, FIELD_OTHER, FIELD_LAND};
    for (size_t i = 0; i < sizeof PER_AREA / sizeof PER_AREA[0]; i++)
        cut->cost_per_hectare += number_or(sheet, row, PER_AREA[i], 0.0);
    const double bale_kg = number_or(sheet, row, FIELD_BALE_WEIGHT, 0.0);
    cut->cost_per_kg = per_kg(sheet, row, FIELD_PUTTING_UP, FIELD_BALING_BALE, bale_kg) +
                       per_kg(sheet, row, FIELD_WRAPPING, FIELD_WRAPPING_BALE, bale_kg) +
                       per_kg(sheet, row, FIELD_HAULING, FIELD_HAULING_BALE, bale_kg);
    cut->value_per_kg = number_or(sheet, row, FIELD_VALUE, 0.0);
    if (sheet_number(sheet, row, FIELD_HAUL, &cut->haul_per_kg))
        stock_check_haul(sheet, row, FIELD_HAUL, cut->haul_per_kg);
}

/* Regrowth ends with the first hard frosts. Own choice. */
#define FROST_MONTH 9
#define FROST_DAY 20
#define REGROWTH_USE 0.7 /* share of it that is grazed: own choice within 0.60 to 0.75 */

static void read_regrowth(const Sheet *sheet, int row, FieldCut *cut) {
    double usual = 0.0;
    if (cut->curve && cut->has_cut) {
        const Day frost = calendar_day(calendar_year(cut->cut), FROST_MONTH, FROST_DAY);
        usual = cut->curve->regrowth_kg_per_hectare_day *
                fmax(calendar_days_between(cut->cut, frost), 0.0);
    }
    cut->regrowth_kg_per_hectare = number_or(sheet, row, FIELD_REGROWTH, usual);
    cut->regrowth_use_share = share_or(sheet, row, FIELD_REGROWTH_USE, REGROWTH_USE);
    cut->grazing_value_per_kg = number_or(sheet, row, FIELD_GRAZING_VALUE, 0.0);
}

static void read_losses(const Sheet *sheet, int row, FieldCut *cut, const Handling *handling) {
    const HarvestWay *way = cut->way;
    cut->field_loss_share = share_or(sheet, row, FIELD_LOSS, way ? way->field_loss_share : 0.0);
    cut->rain_chance = share_or(sheet, row, FIELD_RAIN_CHANCE, way ? way->rain_chance : 0.0);
    cut->rain_loss_share =
        share_or(sheet, row, FIELD_RAIN_LOSS, way ? way->rain_loss_share : 0.0);
    cut->rain_tdn_loss = number_or(sheet, row, FIELD_RAIN_TDN, way ? way->rain_tdn_loss : 0.0);
    cut->storage = storage_choice(handling, sheet, row, FIELD_STORAGE);
    cut->feeding = feeding_choice(handling, sheet, row, FIELD_FEEDING);
    cut->storage_loss_share = share_or(sheet, row, FIELD_STORAGE_LOSS, (double)NAN);
    cut->waste_share = share_or(sheet, row, FIELD_FEEDING_WASTE,
                                cut->feeding ? cut->feeding->waste_share : 0.0);
    cut->protein_left = protein_left_factor(
        cut->waste_share, cut->feeding ? cut->feeding->protein_waste_factor : 1.0);
}

static void read_spread(const Sheet *sheet, int row, FieldCut *cut) {
    const GrowthCurve *curve = cut->curve;
    cut->yield_spread_share = number_or(sheet, row, FIELD_YIELD_SPREAD,
                                        curve ? 100.0 * curve->yield_spread_share : 0.0) /
                              100.0;
    cut->protein_spread =
        number_or(sheet, row, FIELD_PROTEIN_SPREAD, curve ? curve->protein_spread : 0.0);
    cut->tdn_spread = number_or(sheet, row, FIELD_TDN_SPREAD, curve ? curve->tdn_spread : 0.0);
}

/* Most of a year before the winter asked about, or of a year after it began: the summer before
 * it, or the next. */
#define MOST_DAYS_FROM_WINTER 365

static void doubt_year(const Sheet *sheet, int row, const StockContext *stock, Day cut) {
    if (stock_days_are_known(stock) &&
        abs(calendar_days_between(stock->first_day, cut)) > MOST_DAYS_FROM_WINTER)
        doubt_add(sheet_faults(sheet), sheet_place(sheet, row, FIELD_CUT_DATE),
                  "cut_date: %s is more than a year from the first feeding day; is the year "
                  "right?",
                  sheet_text(sheet, row, FIELD_CUT_DATE));
}

static void read_growth(const Sheet *sheet, int row, const FieldContext *context,
                        FieldCut *cut) {
    Day seeded;
    cut->has_cut = sheet_date(sheet, row, FIELD_CUT_DATE, &cut->cut);
    if (!cut->has_cut && sheet_is_left_out(sheet, row, FIELD_CUT_DATE))
        sheet_require(sheet, row, FIELD_CUT_DATE);
    if (cut->has_cut)
        doubt_year(sheet, row, context->stock, cut->cut);
    const bool has_seeded = sheet_date(sheet, row, FIELD_SEEDED, &seeded);
    cut->days = (double)NAN;
    if (has_seeded && cut->has_cut) {
        cut->days = calendar_days_between(seeded, cut->cut);
        if (cut->days <= 0.0) {
            fault_add(sheet_faults(sheet), sheet_place(sheet, row, FIELD_SEEDED),
                      "seeded_date: %s is not before cut_date, %s",
                      sheet_text(sheet, row, FIELD_SEEDED),
                      sheet_text(sheet, row, FIELD_CUT_DATE));
            cut->days = (double)NAN;
        }
    }
    const int growth =
        sheet_choice(sheet, row, FIELD_GROWTH, context->curves->names, context->curves->count);
    cut->curve = growth < 0 ? NULL : &context->curves->curves[growth];
    const int way =
        sheet_require(sheet, row, FIELD_WAY)
            ? sheet_choice(sheet, row, FIELD_WAY, context->ways->names, context->ways->count)
            : -1;
    cut->way = way < 0 ? NULL : &context->ways->ways[way];
}

static FieldCut read_cut(const Sheet *sheet, int row, const FieldContext *context) {
    FieldCut cut = {.crop = sheet_text(sheet, row, FIELD_CROP),
                    .place = sheet_place(sheet, row, FIELD_NAME)};
    sheet_require(sheet, row, FIELD_NAME);
    read_growth(sheet, row, context, &cut);
    cut.book = book_choice(context->stock->book, sheet, row, FIELD_FEED);
    read_test(sheet, row, &cut);
    read_yield(sheet, row, &cut);
    read_losses(sheet, row, &cut, context->stock->handling);
    read_spread(sheet, row, &cut);
    read_costs(sheet, row, &cut);
    if (cut.book)
        stock_check_price(sheet, row, FIELD_VALUE, cut.book->feed_class, cut.value_per_kg);
    read_regrowth(sheet, row, &cut);
    cut.watch = feed_watch_read(sheet, row, FIELD_WATCH_FOR);
    cut.allowance = (Allowance){.from = context->stock->first_day,
                                .until = context->stock->last_day,
                                .groups_place = sheet_place(sheet, row, FIELD_GROUPS)};
    const char **groups;
    cut.allowance.group_count = sheet_list(sheet, row, FIELD_GROUPS, &groups);
    cut.allowance.groups = groups;
    cut.name =
        arena_print(sheet_arena(sheet), "%s, %s, %s", sheet_text(sheet, row, FIELD_NAME),
                    sheet_text(sheet, row, FIELD_CUT_DATE), cut.way ? cut.way->name : "");
    return cut;
}

/* The rows of one field say its area once, or the same each time. */
static void set_field(const Sheet *sheet, int row, FieldCut *cut, Fields *all, Field *fields) {
    const char *name = sheet_text(sheet, row, FIELD_NAME);
    double area = 0.0;
    const bool has_area = sheet_number(sheet, row, FIELD_AREA, &area);
    for (int i = 0; i < all->field_count; i++) {
        if (!text_same_letters(fields[i].name, name))
            continue;
        cut->field = i;
        if (has_area && fields[i].hectares > 0.0 &&
            fabs(area - fields[i].hectares) > 1e-6 * area)
            fault_add(sheet_faults(sheet), sheet_place(sheet, row, FIELD_AREA),
                      "%s: is not the area of '%s' on an earlier line; a field has one area, "
                      "and the plan shares it among its dates",
                      sheet_heading(sheet, FIELD_AREA), text_excerpt(sheet_arena(sheet), name));
        if (has_area && fields[i].hectares <= 0.0)
            fields[i].hectares = area;
        return;
    }
    cut->field = all->field_count;
    fields[all->field_count++] = (Field){name, area};
}

static void check_twins(const Sheet *sheet, const FieldCut *cuts, int count) {
    for (int i = 0; i < count; i++) {
        for (int j = 0; j < i; j++) {
            if (cuts[i].has_cut && cuts[j].has_cut && cuts[i].field == cuts[j].field &&
                cuts[i].cut.number == cuts[j].cut.number && cuts[i].way == cuts[j].way &&
                cuts[i].way)
                fault_add(sheet_faults(sheet), cuts[i].place,
                          "field: the same field, date and way are on line %d already",
                          cuts[j].place.line);
        }
    }
}

static void check_areas(const Sheet *sheet, const Fields *all) {
    for (int c = 0; c < all->cut_count; c++) {
        const int field = all->cuts[c].field;
        bool is_first = true;
        for (int d = 0; d < c; d++)
            is_first &= all->cuts[d].field != field;
        if (is_first && all->fields[field].hectares <= 0.0 && sheet_has(sheet, FIELD_AREA))
            fault_add(sheet_faults(sheet), all->cuts[c].place,
                      "field: no line says how large it is");
    }
}

static void name_columns(SheetColumn *columns) {
    feed_test_columns(columns);
    columns[FIELD_NAME].stem = "field";
    columns[FIELD_CUT_DATE].stem = "cut_date";
    columns[FIELD_CUT_DATE].need = COLUMN_REQUIRED;
    columns[TEST_BASIS].need = COLUMN_OPTIONAL;
    memcpy(columns + TEST_COLUMN_COUNT, COLUMNS, sizeof COLUMNS);
}

Fields fields_parse(Arena *arena, Faults *faults, const FieldContext *context, const char *file,
                    const char *bytes, size_t length) {
    const Fields none = {NULL, 0, NULL, 0};
    if (!bytes)
        return none;
    SheetColumn *columns = ARENA_ARRAY(arena, SheetColumn, FIELD_COLUMN_COUNT);
    name_columns(columns);
    const Sheet *sheet =
        sheet_parse(arena, faults, file, bytes, length, columns, FIELD_COLUMN_COUNT);
    if (!sheet)
        return none;
    const int rows = sheet_row_count(sheet);
    if (rows > MOST_FIELD_CUTS) {
        fault_add(faults, (Place){file, 0, 0},
                  "has %d rows; at most %d are read: is it the right file?", rows,
                  MOST_FIELD_CUTS);
        return none;
    }
    FieldCut *cuts = ARENA_ARRAY(arena, FieldCut, rows);
    Field *fields = ARENA_ARRAY(arena, Field, rows);
    int *row_of = ARENA_ARRAY(arena, int, rows);
    Fields all = {.fields = fields, .cuts = cuts};
    for (int row = 0; row < rows; row++) {
        if (sheet_row_is_empty(sheet, row))
            continue;
        FieldCut *cut = &cuts[all.cut_count];
        *cut = read_cut(sheet, row, context);
        set_field(sheet, row, cut, &all, fields);
        row_of[all.cut_count++] = row;
    }
    check_areas(sheet, &all);
    check_twins(sheet, cuts, all.cut_count);
    field_cuts_fill(sheet, cuts, row_of, all.cut_count);
    return all;
}
