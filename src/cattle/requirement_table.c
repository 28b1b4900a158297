#include "cattle/requirement_table.h"
#include "base/text.h"
#include "cattle/protein_requirement.h"
#include "feedstuff/feed_energy.h"

enum {
    COLUMN_ANIMAL,
    COLUMN_NUTRIENT,
    COLUMN_VALUE,
    COLUMN_UNIT,
    COLUMN_HOW,
    COLUMN_SOURCE,
    FILE_COLUMN_COUNT
};

static const SheetColumn COLUMNS[FILE_COLUMN_COUNT] = {
    {"animal", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"nutrient", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"value", UNIT_PLAIN, COLUMN_REQUIRED, 0, 100},
    {"unit", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"how_known", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"source", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
};

static const char *const ROW_NAMES[TABLE_ROW_COUNT] = {
    [TABLE_MID_PREGNANCY] = "mid pregnancy",
    [TABLE_LATE_PREGNANCY] = "late pregnancy",
    [TABLE_NURSING] = "nursing",
    [TABLE_REPLACEMENT_HEIFER] = "replacement heifer",
    [TABLE_YEARLING_BULL] = "yearling bull",
};
static const char *const COLUMN_NAMES[TABLE_COLUMN_COUNT] = {"tdn", "crude_protein", "calcium",
                                                             "phosphorus"};
static const char *const UNIT_NAMES[] = {"pct"};

static void read_row(const Sheet *sheet, int row, RequirementTable *table) {
    const bool is_filled = sheet_require(sheet, row, COLUMN_ANIMAL) &&
                           sheet_require(sheet, row, COLUMN_NUTRIENT) &&
                           sheet_require(sheet, row, COLUMN_VALUE) &&
                           sheet_require(sheet, row, COLUMN_UNIT);
    if (!is_filled)
        return;
    double value;
    const int animal = sheet_choice(sheet, row, COLUMN_ANIMAL, ROW_NAMES, TABLE_ROW_COUNT);
    const int nutrient =
        sheet_choice(sheet, row, COLUMN_NUTRIENT, COLUMN_NAMES, TABLE_COLUMN_COUNT);
    const bool has_unit = sheet_choice(sheet, row, COLUMN_UNIT, UNIT_NAMES, 1) == 0;
    const bool has_value = sheet_number(sheet, row, COLUMN_VALUE, &value);
    if (animal < 0 || nutrient < 0 || !has_unit || !has_value)
        return;
    table->pct[animal][nutrient] = value;
    table->source[animal][nutrient] = source_first(sheet_text(sheet, row, COLUMN_SOURCE));
}

/* Energy and protein are what the table is for. */
static void check_rows(Faults *faults, const char *file, const RequirementTable *table) {
    for (int row = 0; row < TABLE_ROW_COUNT; row++) {
        if (table->pct[row][TABLE_TDN] <= 0.0 || table->pct[row][TABLE_CRUDE_PROTEIN] <= 0.0)
            fault_add(faults, (Place){file, 0, 0}, "%s: TDN or crude protein is missing",
                      ROW_NAMES[row]);
    }
}

const RequirementTable *requirement_table_parse(Arena *arena, Faults *faults, const char *file,
                                                const char *bytes, size_t length) {
    const int wrong_before = faults->wrong_count;
    const Sheet *sheet =
        sheet_parse(arena, faults, file, bytes, length, COLUMNS, FILE_COLUMN_COUNT);
    if (!sheet)
        return NULL;
    RequirementTable *table = ARENA_NEW(arena, RequirementTable);
    for (int row = 0; row < sheet_row_count(sheet); row++)
        read_row(sheet, row, table);
    if (faults->wrong_count == wrong_before)
        check_rows(faults, file, table);
    return faults->wrong_count > wrong_before ? NULL : table;
}

#define GRAMS_PER_KG_PER_PERCENT 10.0

/* A mineral that is not printed for a row stays what the equations say, by the row's share. */
static void add_mineral(GramRate *sum, double *printed_share, double pct, double dry_matter,
                        double share, GramRate equation) {
    sum->g_per_day +=
        pct > 0.0 ? GRAMS_PER_KG_PER_PERCENT * pct * dry_matter : share * equation.g_per_day;
    *printed_share += pct > 0.0 ? share : 0.0;
}

TableNeed requirement_by_table(const RequirementTable *table, const Requirement *said) {
    TableNeed need = {0};
    const double upkeep = requirement_nem(said).mcal_per_day;
    for (int row = 0; row < TABLE_ROW_COUNT; row++) {
        const double share = said->table_row_share[row];
        if (share <= 0.0)
            continue;
        const double *pct = table->pct[row];
        const EnergyDensity nem = nem_from_tdn(pct[TABLE_TDN]);
        /* the law is already times its share */
        const double eaten = intake_at(said->table_row_law[row], said->shrunk, nem).kg_per_day;
        need.is_printed = true;
        need.nem.mcal_per_day += eaten * nem.mcal_per_kg;
        const double neg = neg_from_tdn(pct[TABLE_TDN]).mcal_per_kg;
        need.equations_nem.mcal_per_day +=
            share * (upkeep + said->retained.mcal_per_day * nem.mcal_per_kg / neg);
        need.protein.g_per_day +=
            CP_TO_MP * GRAMS_PER_KG_PER_PERCENT * pct[TABLE_CRUDE_PROTEIN] * eaten;
        add_mineral(&need.calcium, &need.calcium_share, pct[TABLE_CALCIUM], eaten, share,
                    said->calcium);
        add_mineral(&need.phosphorus, &need.phosphorus_share, pct[TABLE_PHOSPHORUS], eaten,
                    share, said->phosphorus);
    }
    return need;
}

SourceKey requirement_table_source(const RequirementTable *table, const Requirement *said,
                                   TableColumn column) {
    int most = 0;
    for (int row = 1; row < TABLE_ROW_COUNT; row++)
        most = said->table_row_share[row] > said->table_row_share[most] ? row : most;
    return table->pct[most][column] > 0.0 ? table->source[most][column] : SOURCE_NONE;
}

void requirement_follow_table(const TableNeed *table, Requirement *requirement) {
    if (!table->is_printed)
        return;
    requirement->follows_table = true;
    /* the energy of the whole diet, gain and all */
    requirement->retained.mcal_per_day = 0.0;
    requirement->energy.table =
        table->nem.mcal_per_day - requirement_nem(requirement).mcal_per_day;
    requirement->protein.table =
        table->protein.g_per_day - requirement_protein(requirement).g_per_day;
    requirement->calcium = table->calcium;
    requirement->phosphorus = table->phosphorus;
}
