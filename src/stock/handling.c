#include "stock/handling.h"
#include <math.h>

enum { STORAGE_NAME, STORAGE_LABEL, STORAGE_LOSS, STORAGE_AFTER, STORAGE_HOW, STORAGE_SOURCE };
static const SheetColumn STORAGE_COLUMNS[] = {
    {"storage", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"label", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
    {"loss_pct_month8", UNIT_PLAIN, COLUMN_REQUIRED, 0, 60},
    {"loss_pct_per_month_after", UNIT_PLAIN, COLUMN_REQUIRED, 0, 10},
    {"how_known", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"source", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
};

enum { FEEDING_NAME, FEEDING_WASTE, FEEDING_PROTEIN, FEEDING_HOW, FEEDING_SOURCE };
static const SheetColumn FEEDING_COLUMNS[] = {
    {"feeding", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"waste", UNIT_PERCENT, COLUMN_REQUIRED, 0, 60},
    {"protein_waste_factor", UNIT_PLAIN, COLUMN_REQUIRED, 0.5, 2},
    {"how_known", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"source", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
};

#define COUNT(array) ((int)(sizeof(array) / sizeof((array)[0])))

static void read_storages(const Sheet *sheet, Handling *handling) {
    Arena *arena = sheet_arena(sheet);
    const int count = sheet_row_count(sheet);
    StorageKind *kinds = ARENA_ARRAY(arena, StorageKind, count);
    const char **names = ARENA_ARRAY(arena, const char *, count);
    for (int row = 0; row < count; row++) {
        double loss = 0.0;
        double after = 0.0;
        sheet_require(sheet, row, STORAGE_NAME);
        if (sheet_require(sheet, row, STORAGE_LOSS))
            sheet_number(sheet, row, STORAGE_LOSS, &loss);
        if (sheet_require(sheet, row, STORAGE_AFTER))
            sheet_number(sheet, row, STORAGE_AFTER, &after);
        names[row] = sheet_text(sheet, row, STORAGE_NAME);
        kinds[row] = (StorageKind){names[row],
                                   {loss / 100.0, after / 100.0},
                                   source_first(sheet_text(sheet, row, STORAGE_SOURCE))};
    }
    handling->storages = kinds;
    handling->storage_names = names;
    handling->storage_count = count;
}

static void read_feedings(const Sheet *sheet, Handling *handling) {
    Arena *arena = sheet_arena(sheet);
    const int count = sheet_row_count(sheet);
    FeedingKind *kinds = ARENA_ARRAY(arena, FeedingKind, count);
    const char **names = ARENA_ARRAY(arena, const char *, count);
    for (int row = 0; row < count; row++) {
        double waste = 0.0;
        double factor = 1.0;
        sheet_require(sheet, row, FEEDING_NAME);
        if (sheet_require(sheet, row, FEEDING_WASTE))
            sheet_number(sheet, row, FEEDING_WASTE, &waste);
        if (sheet_require(sheet, row, FEEDING_PROTEIN))
            sheet_number(sheet, row, FEEDING_PROTEIN, &factor);
        names[row] = sheet_text(sheet, row, FEEDING_NAME);
        kinds[row] = (FeedingKind){names[row], waste / 100.0, factor,
                                   source_first(sheet_text(sheet, row, FEEDING_SOURCE))};
    }
    handling->feedings = kinds;
    handling->feeding_names = names;
    handling->feeding_count = count;
}

const Handling *handling_parse(Arena *arena, Faults *faults, const char *storage_bytes,
                               size_t storage_length, const char *feeding_bytes,
                               size_t feeding_length) {
    const int wrong_before = faults->wrong_count;
    const Sheet *storages =
        sheet_parse(arena, faults, "storage-losses.csv", storage_bytes, storage_length,
                    STORAGE_COLUMNS, COUNT(STORAGE_COLUMNS));
    const Sheet *feedings =
        sheet_parse(arena, faults, "feeding-waste.csv", feeding_bytes, feeding_length,
                    FEEDING_COLUMNS, COUNT(FEEDING_COLUMNS));
    if (!storages || !feedings)
        return NULL;
    Handling *handling = ARENA_NEW(arena, Handling);
    read_storages(storages, handling);
    read_feedings(feedings, handling);
    return faults->wrong_count > wrong_before ? NULL : handling;
}

const StorageKind *storage_choice(const Handling *handling, const Sheet *sheet, int row,
                                  int column) {
    if (!sheet_require(sheet, row, column))
        return NULL;
    const int place =
        sheet_choice(sheet, row, column, handling->storage_names, handling->storage_count);
    return place < 0 ? NULL : &handling->storages[place];
}

const FeedingKind *feeding_choice(const Handling *handling, const Sheet *sheet, int row,
                                  int column) {
    if (!sheet_require(sheet, row, column))
        return NULL;
    const int place =
        sheet_choice(sheet, row, column, handling->feeding_names, handling->feeding_count);
    return place < 0 ? NULL : &handling->feedings[place];
}

double protein_left_factor(double waste_share, double protein_waste_factor) {
    return fmax(1.0 - waste_share * protein_waste_factor, 0.0) / (1.0 - waste_share);
}
