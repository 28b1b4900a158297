#include "cattle/weather.h"
#include "base/text.h"
#include <math.h>

enum {
    NORMAL_STATION,
    NORMAL_MONTH,
    NORMAL_MEAN,
    NORMAL_COLD,
    NORMAL_WIND,
    NORMAL_SPREAD,
    NORMAL_SOURCE
};
static const SheetColumn NORMAL_COLUMNS[] = {
    {"station", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"month", UNIT_PLAIN, COLUMN_REQUIRED, 1, 12},
    {"mean_temperature", UNIT_TEMPERATURE, COLUMN_REQUIRED, -60, 40},
    {"cold_spell_temperature", UNIT_TEMPERATURE, COLUMN_REQUIRED, -60, 40},
    {"wind", UNIT_SPEED, COLUMN_REQUIRED, 0, 100},
    {"spread", UNIT_TEMPERATURE, COLUMN_OPTIONAL, 0, 30},
    {"source", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
};

enum {
    MONTH_NUMBER,
    MONTH_MEAN,
    MONTH_COLD,
    MONTH_WIND,
    MONTH_WET,
    MONTH_MUDDY,
    MONTH_SPREAD,
    MONTH_KEPT,
    MONTH_NOTE
};
static const SheetColumn MONTH_COLUMNS[] = {
    {"month", UNIT_PLAIN, COLUMN_REQUIRED, 1, 12},
    {"mean_temperature", UNIT_TEMPERATURE, COLUMN_REQUIRED, -60, 40},
    {"cold_spell_temperature", UNIT_TEMPERATURE, COLUMN_OPTIONAL, -65, 40},
    {"wind", UNIT_SPEED, COLUMN_OPTIONAL, 0, 100},
    {"wet_days", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 31},
    {"muddy_days", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 31},
    {"mean_spread", UNIT_TEMPERATURE_SPREAD, COLUMN_OPTIONAL, 0, 10},
    {"persistence", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0.95},
    {"note", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
};

#define COUNT(array) ((int)(sizeof(array) / sizeof((array)[0])))
#define DAYS_PER_MONTH 30.4

static void read_normals(const Sheet *sheet, Weather *weather) {
    for (int row = 0; row < sheet_row_count(sheet); row++) {
        int month;
        if (!text_same_letters(sheet_text(sheet, row, NORMAL_STATION), DEFAULT_STATION) ||
            !sheet_whole_number(sheet, row, NORMAL_MONTH, &month))
            continue;
        MonthWeather *of = &weather->month[month];
        sheet_number(sheet, row, NORMAL_MEAN, &of->mean.celsius);
        sheet_number(sheet, row, NORMAL_COLD, &of->cold_spell.celsius);
        sheet_number(sheet, row, NORMAL_WIND, &of->wind.km_per_hour);
        weather->is_known[month] = true;
        weather->normals_source = source_first(sheet_text(sheet, row, NORMAL_SOURCE));
    }
}

#define UNKNOWN_WIND_KM_PER_H 15.0 /* of a month without a normal; own choice */

/* No month of the prairie lies further from the normal; degrees of the other scale do. Own
 * choice. */
#define MOST_FROM_NORMAL_C 10.0

static void doubt_mean(const Sheet *sheet, int row, int month, double mean, double normal) {
    if (fabs(mean - normal) <= MOST_FROM_NORMAL_C)
        return;
    doubt_add(sheet_faults(sheet), sheet_place(sheet, row, MONTH_MEAN),
              "%s: %s is %.0f degrees C %s the normal of %s; is it in the other unit?",
              sheet_heading(sheet, MONTH_MEAN), sheet_text(sheet, row, MONTH_MEAN),
              fabs(mean - normal), mean > normal ? "above" : "below",
              calendar_month_name(month));
}

/* A month's mean, not a storm. Own choice. */
static void doubt_wind(const Sheet *sheet, int row, double km_per_h) {
    if (km_per_h >= 5.0 && km_per_h <= 40.0)
        return;
    doubt_add(sheet_faults(sheet), sheet_place(sheet, row, MONTH_WIND),
              "%s: %.3g km/h (%.3g mph) is unusual for the mean of a month; is the unit right?",
              sheet_heading(sheet, MONTH_WIND), km_per_h, km_per_h / KM_PER_MILE);
}

static void read_share_of_days(const Sheet *sheet, int row, int column, double *share) {
    double days = 0.0;
    if (sheet_number(sheet, row, column, &days))
        *share = fmin(days / DAYS_PER_MONTH, 1.0);
}

static void read_month(const Sheet *sheet, int row, bool *is_read, Weather *weather) {
    int month;
    if (!sheet_require(sheet, row, MONTH_NUMBER) ||
        !sheet_whole_number(sheet, row, MONTH_NUMBER, &month))
        return;
    if (is_read[month]) {
        fault_add(sheet_faults(sheet), sheet_place(sheet, row, MONTH_NUMBER),
                  "month: %d is already there; keep one of the lines", month);
        return;
    }
    is_read[month] = true;
    MonthWeather *of = &weather->month[month];
    double mean;
    if (!sheet_require(sheet, row, MONTH_MEAN) || !sheet_number(sheet, row, MONTH_MEAN, &mean))
        return;
    const bool has_normal = weather->is_known[month];
    const double usual_drop = has_normal ? of->mean.celsius - of->cold_spell.celsius : 12.0;
    if (has_normal)
        doubt_mean(sheet, row, month, mean, of->mean.celsius);
    else
        of->wind.km_per_hour = UNKNOWN_WIND_KM_PER_H;
    of->mean.celsius = mean;
    of->cold_spell.celsius = mean - usual_drop;
    of->is_users = true;
    sheet_number(sheet, row, MONTH_COLD, &of->cold_spell.celsius);
    if (sheet_number(sheet, row, MONTH_WIND, &of->wind.km_per_hour))
        doubt_wind(sheet, row, of->wind.km_per_hour);
    read_share_of_days(sheet, row, MONTH_WET, &of->wet_share);
    read_share_of_days(sheet, row, MONTH_MUDDY, &of->muddy_share);
    of->spread_is_users = sheet_number(sheet, row, MONTH_SPREAD, &of->mean_spread_c);
    of->persistence_is_users = sheet_number(sheet, row, MONTH_KEPT, &of->persistence);
    if (of->cold_spell.celsius > of->mean.celsius) {
        fault_add(sheet_faults(sheet), sheet_place(sheet, row, MONTH_COLD),
                  "cold_spell_temperature: is warmer than the month's mean; are they swapped?");
    }
    weather->is_known[month] = true;
}

Weather weather_parse(Arena *arena, Faults *faults, const char *normals_bytes,
                      size_t normals_length, const char *file, const char *bytes,
                      size_t length) {
    Weather weather = {.normals_station = DEFAULT_STATION};
    const Sheet *normals = sheet_parse(arena, faults, "climate-normals.csv", normals_bytes,
                                       normals_length, NORMAL_COLUMNS, COUNT(NORMAL_COLUMNS));
    if (normals)
        read_normals(normals, &weather);
    if (!bytes)
        return weather;
    const Sheet *sheet =
        sheet_parse(arena, faults, file, bytes, length, MONTH_COLUMNS, COUNT(MONTH_COLUMNS));
    if (!sheet)
        return weather;
    bool is_read[13] = {false};
    for (int row = 0; row < sheet_row_count(sheet); row++) {
        if (!sheet_row_is_empty(sheet, row))
            read_month(sheet, row, is_read, &weather);
    }
    return weather;
}

/* "June, July and August", or "6, 7 and 8". */
static const char *month_list(Arena *arena, const int *months, int count, bool by_name) {
    Text list = text_new(arena);
    for (int i = 0; i < count; i++) {
        text_add(&list, i == 0 ? "" : i == count - 1 ? " and " : ", ");
        if (by_name)
            text_add(&list, calendar_month_name(months[i]));
        else
            text_print(&list, "%d", months[i]);
    }
    return list.bytes;
}

void weather_check(Faults *faults, const char *file, const Weather *weather, Day first_day,
                   Day last_day) {
    int missing[12];
    int count = 0;
    bool is_seen[13] = {false};
    for (Day day = first_day; calendar_days_between(day, last_day) >= 0;
         day = calendar_first_of_next_month(day)) {
        const int month = calendar_month(day);
        if (!weather->is_known[month] && !is_seen[month])
            missing[count++] = month;
        is_seen[month] = true;
    }
    if (count == 0)
        return;
    fault_add(
        faults, (Place){file, 0, 0},
        "no weather is known for the feeding days of %s: below the headings "
        "'month,mean_temperature_c' write a line each for month %s, as in '%d,16' for a mean "
        "of 16 degrees C",
        month_list(faults->arena, missing, count, true),
        month_list(faults->arena, missing, count, false), missing[0]);
}
