#include "feedstuff/book_value.h"
#include "base/text.h"
#include <string.h>

enum {
    COLUMN_FEED,
    COLUMN_LABEL,
    COLUMN_CLASS,
    COLUMN_BASIS,
    COLUMN_DRY_MATTER,
    COLUMN_FROM_PAGE,
    COLUMN_OWN_CHOICE,
    COLUMN_SOURCE,
    COLUMN_UNTESTED_SULFUR,
    COLUMN_UNTESTED_NITRATE,
    COLUMN_PROCESSING,
    COLUMN_NUTRIENTS, /* the first of NUTRIENT_COUNT */
    COLUMN_COUNT = COLUMN_NUTRIENTS + NUTRIENT_COUNT
};

static const SheetColumn COLUMNS[COLUMN_NUTRIENTS] = {
    {"feed", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"label", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"class", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"basis", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"dry_matter", UNIT_PERCENT, COLUMN_REQUIRED, 5, 100},
    {"from_page", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"own_choice", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"source", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"untested_sulfur", UNIT_PERCENT, COLUMN_OPTIONAL, 0, 5},
    {"untested_nitrate", UNIT_PERCENT, COLUMN_OPTIONAL, 0, 5},
    {"processing_factor", UNIT_PLAIN, COLUMN_OPTIONAL, 0.5, 1.5},
};

static const char *const BASES[] = {"dry matter", "as fed"};

static bool list_names(const Sheet *sheet, int row, int column, const char *stem) {
    const char **pieces;
    const int count = sheet_list(sheet, row, column, &pieces);
    for (int i = 0; i < count; i++) {
        if (text_same(pieces[i], stem))
            return true;
    }
    return false;
}

static SourceKey cell_source(const Sheet *sheet, int row, const char *stem,
                             SourceKey row_source) {
    if (list_names(sheet, row, COLUMN_FROM_PAGE, stem))
        return row_source;
    if (list_names(sheet, row, COLUMN_OWN_CHOICE, stem))
        return SOURCE_OWN_CHOICE;
    return SOURCE_BOOK_MEMORY;
}

static BookFeed read_feed(const Sheet *sheet, int row) {
    BookFeed feed = {
        .feed = sheet_text(sheet, row, COLUMN_FEED),
        .label = sheet_text(sheet, row, COLUMN_LABEL),
        .processing_factor = 1.0,
        .sources = sheet_text(sheet, row, COLUMN_SOURCE),
    };
    sheet_require(sheet, row, COLUMN_FEED);
    sheet_require(sheet, row, COLUMN_CLASS);
    sheet_require(sheet, row, COLUMN_BASIS);
    const int feed_class =
        sheet_choice(sheet, row, COLUMN_CLASS, feed_class_keys(), FEED_CLASS_COUNT);
    feed.feed_class = feed_class < 0 ? FEED_CLASS_CEREAL : (FeedClass)feed_class;
    const bool is_as_fed = sheet_choice(sheet, row, COLUMN_BASIS, BASES, 2) == 1;
    double dry_matter = 100.0;
    sheet_require(sheet, row, COLUMN_DRY_MATTER);
    sheet_number(sheet, row, COLUMN_DRY_MATTER, &dry_matter);
    sheet_number(sheet, row, COLUMN_UNTESTED_SULFUR, &feed.untested_sulfur);
    sheet_number(sheet, row, COLUMN_UNTESTED_NITRATE, &feed.untested_nitrate);
    sheet_number(sheet, row, COLUMN_PROCESSING, &feed.processing_factor);
    const SourceKey row_source = source_first(feed.sources);
    feed.analysis.dry_matter =
        (Reading){dry_matter, FROM_BOOK, cell_source(sheet, row, "dry_matter", row_source)};
    for (int i = 0; i < NUTRIENT_COUNT; i++) {
        const NutrientKind *kind = nutrient_kind((Nutrient)i);
        double value;
        feed.analysis.of[i] = reading_nowhere();
        if (!sheet_number(sheet, row, COLUMN_NUTRIENTS + i, &value))
            continue;
        if (is_as_fed && kind->basis == BASIS_SCALES)
            value *= 100.0 / dry_matter;
        feed.analysis.of[i] =
            (Reading){value, FROM_BOOK, cell_source(sheet, row, kind->stem, row_source)};
    }
    return feed;
}

/* The second of two feeds of one name would never be found. */
static void check_name(const Sheet *sheet, int row, const char *const *names) {
    for (int before = 0; before < row; before++) {
        if (names[row][0] == '\0' || !text_same_letters(names[before], names[row]))
            continue;
        fault_add(sheet_faults(sheet), sheet_place(sheet, row, COLUMN_FEED),
                  "feed: '%s' is already there", text_excerpt(sheet_arena(sheet), names[row]));
        return;
    }
}

const BookValues *book_parse(Arena *arena, Faults *faults, const char *file, const char *bytes,
                             size_t length) {
    SheetColumn *columns = ARENA_ARRAY(arena, SheetColumn, COLUMN_COUNT);
    memcpy(columns, COLUMNS, sizeof COLUMNS);
    nutrient_columns(columns + COLUMN_NUTRIENTS);
    const int wrong_before = faults->wrong_count;
    const Sheet *sheet = sheet_parse(arena, faults, file, bytes, length, columns, COLUMN_COUNT);
    if (!sheet)
        return NULL;
    const int count = sheet_row_count(sheet);
    BookFeed *feeds = ARENA_ARRAY(arena, BookFeed, count);
    const char **names = ARENA_ARRAY(arena, const char *, count);
    for (int row = 0; row < count; row++) {
        feeds[row] = read_feed(sheet, row);
        names[row] = feeds[row].feed;
        check_name(sheet, row, names);
    }
    if (faults->wrong_count > wrong_before)
        return NULL;
    BookValues *book = ARENA_NEW(arena, BookValues);
    *book = (BookValues){feeds, names, count};
    return book;
}

const BookFeed *book_find(const BookValues *book, const char *feed) {
    for (int i = 0; i < book->count; i++) {
        if (text_same_letters(book->feeds[i].feed, feed))
            return &book->feeds[i];
    }
    return NULL;
}

const BookFeed *book_choice(const BookValues *book, const Sheet *sheet, int row, int column) {
    if (!sheet_require(sheet, row, column))
        return NULL;
    const int place = sheet_choice(sheet, row, column, book->names, book->count);
    return place < 0 ? NULL : &book->feeds[place];
}
