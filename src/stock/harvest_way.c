#include "stock/harvest_way.h"
#include "base/text.h"

enum {
    WAY_NAME,
    WAY_DRY_MATTER,
    WAY_FIELD_LOSS,
    WAY_RAIN_CHANCE,
    WAY_RAIN_LOSS,
    WAY_RAIN_TDN,
    WAY_HOW,
    WAY_SOURCE,
    WAY_COLUMN_COUNT
};
static const SheetColumn COLUMNS[WAY_COLUMN_COUNT] = {
    {"way", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"dry_matter", UNIT_PERCENT, COLUMN_REQUIRED, 20, 95},
    {"field_loss", UNIT_PERCENT, COLUMN_REQUIRED, 0, 60},
    {"rain_chance", UNIT_PERCENT, COLUMN_REQUIRED, 0, 100},
    {"rain_loss", UNIT_PERCENT, COLUMN_REQUIRED, 0, 60},
    {"rain_tdn", UNIT_PLAIN, COLUMN_REQUIRED, 0, 20},
    {"how_known", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"source", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
};

static StackKind kind_of(const char *way) {
    if (text_same(way, "chopped silage"))
        return STACK_PIT;
    return text_same(way, "bale silage") ? STACK_BALE_TUBE : STACK_ROUND_BALES;
}

static double number(const Sheet *sheet, int row, int column) {
    double value = 0.0;
    if (sheet_require(sheet, row, column))
        sheet_number(sheet, row, column, &value);
    return value;
}

const HarvestWays *harvest_ways_parse(Arena *arena, Faults *faults, const char *bytes,
                                      size_t length) {
    const int wrong_before = faults->wrong_count;
    const Sheet *sheet = sheet_parse(arena, faults, "harvest-ways.csv", bytes, length, COLUMNS,
                                     WAY_COLUMN_COUNT);
    if (!sheet)
        return NULL;
    const int count = sheet_row_count(sheet);
    HarvestWay *ways = ARENA_ARRAY(arena, HarvestWay, count);
    const char **names = ARENA_ARRAY(arena, const char *, count);
    for (int row = 0; row < count; row++) {
        names[row] = sheet_text(sheet, row, WAY_NAME);
        ways[row] = (HarvestWay){names[row],
                                 kind_of(names[row]),
                                 number(sheet, row, WAY_DRY_MATTER) / 100.0,
                                 number(sheet, row, WAY_FIELD_LOSS) / 100.0,
                                 number(sheet, row, WAY_RAIN_CHANCE) / 100.0,
                                 number(sheet, row, WAY_RAIN_LOSS) / 100.0,
                                 number(sheet, row, WAY_RAIN_TDN)};
    }
    HarvestWays *all = ARENA_NEW(arena, HarvestWays);
    *all = (HarvestWays){ways, names, count};
    return faults->wrong_count > wrong_before ? NULL : all;
}
