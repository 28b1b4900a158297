#include "cattle/weather_spread.h"
#include "base/text.h"

enum {
    SPREAD_STATION,
    SPREAD_MONTH,
    SPREAD_MEAN,
    SPREAD_KEPT,
    SPREAD_TURNOUT,
    SPREAD_HOW,
    SPREAD_SOURCE
};
static const SheetColumn COLUMNS[] = {
    {"station", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"month", UNIT_PLAIN, COLUMN_REQUIRED, 1, 12},
    {"mean_spread", UNIT_TEMPERATURE_SPREAD, COLUMN_REQUIRED, 0, 10},
    {"persistence", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0.95},
    {"turnout_spread_days", UNIT_PLAIN, COLUMN_REQUIRED, 0, 40},
    {"how_known", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"source", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
};

static void fill(MonthWeather *month, double mean_spread_c, double persistence) {
    if (!month->spread_is_users)
        month->mean_spread_c = mean_spread_c;
    if (!month->persistence_is_users)
        month->persistence = persistence;
}

void weather_spread_read(Arena *arena, Faults *faults, const char *bytes, size_t length,
                         Weather *weather) {
    for (int month = 1; month <= 12; month++)
        fill(&weather->month[month], UNKNOWN_MEAN_SPREAD_C, UNKNOWN_MEAN_PERSISTENCE);
    const Sheet *sheet = sheet_parse(arena, faults, "climate-spread.csv", bytes, length,
                                     COLUMNS, (int)(sizeof COLUMNS / sizeof *COLUMNS));
    for (int row = 0; sheet && row < sheet_row_count(sheet); row++) {
        int month;
        double mean_spread_c = UNKNOWN_MEAN_SPREAD_C;
        double persistence = UNKNOWN_MEAN_PERSISTENCE;
        if (!text_same_letters(sheet_text(sheet, row, SPREAD_STATION), DEFAULT_STATION) ||
            !sheet_whole_number(sheet, row, SPREAD_MONTH, &month))
            continue;
        sheet_number(sheet, row, SPREAD_MEAN, &mean_spread_c);
        sheet_number(sheet, row, SPREAD_KEPT, &persistence);
        sheet_number(sheet, row, SPREAD_TURNOUT, &weather->turnout_spread_days);
        fill(&weather->month[month], mean_spread_c, persistence);
    }
}
