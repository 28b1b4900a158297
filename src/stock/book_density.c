#include "stock/book_density.h"
#include "base/text.h"

enum {
    DENSITY_KIND,
    DENSITY_FEED,
    DENSITY_VALUE,
    DENSITY_BASIS,
    DENSITY_ERROR,
    DENSITY_HOW,
    DENSITY_SOURCE,
    DENSITY_COLUMN_COUNT
};
static const SheetColumn COLUMNS[DENSITY_COLUMN_COUNT] = {
    {"kind", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"feed", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"density", UNIT_BULK_DENSITY, COLUMN_REQUIRED, 20, 1000},
    {"density_basis", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"weight_error", UNIT_PERCENT, COLUMN_REQUIRED, 0, 50},
    {"how_known", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"source", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
};
static const char *const BASES[] = {"as fed", "dry matter"};

const BookDensities *book_densities_parse(Arena *arena, Faults *faults, const char *file,
                                          const char *bytes, size_t length) {
    const int wrong_before = faults->wrong_count;
    const Sheet *sheet =
        sheet_parse(arena, faults, file, bytes, length, COLUMNS, DENSITY_COLUMN_COUNT);
    if (!sheet)
        return NULL;
    BookDensities *densities = ARENA_NEW(arena, BookDensities);
    BookDensity *rows = ARENA_ARRAY(arena, BookDensity, sheet_row_count(sheet));
    for (int row = 0; row < sheet_row_count(sheet); row++) {
        BookDensity *of = &rows[densities->count++];
        double percent = 0.0;
        for (int column = 0; column < DENSITY_COLUMN_COUNT; column++)
            sheet_require(sheet, row, column);
        of->kind = sheet_text(sheet, row, DENSITY_KIND);
        of->feed = sheet_text(sheet, row, DENSITY_FEED);
        sheet_number(sheet, row, DENSITY_VALUE, &of->kg_per_m3);
        of->is_dry = sheet_choice(sheet, row, DENSITY_BASIS, BASES, 2) == 1;
        sheet_number(sheet, row, DENSITY_ERROR, &percent);
        of->weight_error_share = percent / 100.0;
        of->source = source_first(sheet_text(sheet, row, DENSITY_SOURCE));
    }
    densities->rows = rows;
    return faults->wrong_count > wrong_before ? NULL : densities;
}

static bool fits(const BookDensity *row, const Feedstuff *feed) {
    if (text_same(row->feed, "straw"))
        return feed->feed_class == FEED_CLASS_STRAW;
    if (text_same(row->feed, "forage"))
        return feed_class_kind(feed->feed_class)->is_forage;
    return text_same(row->feed, feed->book_feed);
}

const BookDensity *book_density_of(const BookDensities *densities, const char *kind,
                                   const Feedstuff *feed) {
    for (int i = 0; densities && i < densities->count; i++) {
        const BookDensity *row = &densities->rows[i];
        if (text_same(row->kind, kind) && fits(row, feed))
            return row;
    }
    return NULL;
}
