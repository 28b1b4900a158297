#include "cattle/winter.h"
#include "base/heading.h"
#include "base/quantity.h"
#include "base/text.h"
#include <string.h>

enum { WINTER_SETTING, WINTER_VALUE, WINTER_NOTE, WINTER_COLUMN_COUNT };

/* The range of a value is checked row by row, because it differs by setting. */
static const SheetColumn COLUMNS[WINTER_COLUMN_COUNT] = {
    {"setting", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"value", UNIT_PLAIN, COLUMN_REQUIRED, -1.0e9, 1.0e9},
    {"note", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
};

enum {
    SET_FIRST_DAY,
    SET_LAST_DAY,
    SET_CURRENCY,
    SET_UNITS,
    SET_YARDAGE,
    SET_SULFATE,
    SET_NITRATE,
    SET_SOLIDS,
    SET_SODIUM,
    SET_NITRATE_PRACTICE,
    SET_SULFUR_PRACTICE,
    SET_CARRY_OVER_TONNES,
    SET_CARRY_OVER_TONS,
    SET_TURNOUT_SPREAD,
    SET_REQUIREMENTS,
    SET_COLD,
    SET_PROTEIN,
    SET_CAUTION_WEIGHT,
    SET_STEADY_COST,
    SET_FARM,
    SET_NOTE,
    SET_RULES, /* the settings of feeding_rule.h, in their order */
    SET_COUNT = SET_RULES + RULE_SETTING_COUNT
};
static const char *const SETTING_NAMES[SET_COUNT] = {
    "first_day",
    "last_day",
    "currency",
    "units",
    "yardage_per_head_day",
    "water_sulfate_mg_per_l",
    "water_nitrate_mg_per_l",
    "water_dissolved_solids_mg_per_l",
    "water_sodium_mg_per_l",
    "nitrate_practice",
    "sulfur_practice",
    "carry_over_tonnes",
    "carry_over_tons",
    "turnout_spread_days",
    "requirements",
    "cold",
    "protein",
    "caution_weight",
    "steady_cost_pct",
    "farm",
    "note",
    RULE_SETTING_NAMES,
};
#define DIGITS "0123456789"

static const char *const NEEDS_WAY_NAMES[] = {"equations", "table"};
static const char *const COLD_WAY_NAMES[] = {"table", "model"};
static const char *const PROTEIN_NAMES[] = {"ten", "thirteen", "2016"};
static const char *const UNIT_NAMES[] = {"metric", "imperial", "mixed"};

const char *needs_way_name(NeedsWay way) { return NEEDS_WAY_NAMES[way]; }
const char *cold_way_name(ColdWay way) { return COLD_WAY_NAMES[way]; }
const char *microbial_form_name(MicrobialForm form) { return PROTEIN_NAMES[form]; }

static bool read_amount(const Sheet *sheet, int row, double most, double *value) {
    double number;
    if (!sheet_number(sheet, row, WINTER_VALUE, &number))
        return false;
    if (number < 0.0 || number > most) {
        fault_add(sheet_faults(sheet), sheet_place(sheet, row, WINTER_VALUE),
                  "%s: %g is outside 0 to %g", sheet_text(sheet, row, WINTER_SETTING), number,
                  most);
        return false;
    }
    *value = number;
    return true;
}

typedef struct {
    int row[SET_COUNT]; /* -1: not set */
} SettingRows;

/* The nearest spelling must not decide between nitrate and nitrate nitrogen. */
static bool is_other_nitrate(const char *setting) {
    return (strstr(setting, "nitrate") || strstr(setting, "no3")) &&
           !text_same(setting, SETTING_NAMES[SET_NITRATE]) &&
           !text_same(setting, SETTING_NAMES[SET_NITRATE_PRACTICE]);
}

static int read_setting(const Sheet *sheet, int row) {
    if (!sheet_require(sheet, row, WINTER_SETTING))
        return -1;
    const char *plain =
        heading_plain(sheet_arena(sheet), sheet_text(sheet, row, WINTER_SETTING));
    if (is_other_nitrate(plain)) {
        fault_add(
            sheet_faults(sheet), sheet_place(sheet, row, WINTER_SETTING),
            "'%s' is not known; water_nitrate_mg_per_l is as NO3: multiply nitrate nitrogen "
            "by %.4g",
            text_excerpt(sheet_arena(sheet), sheet_text(sheet, row, WINTER_SETTING)),
            NO3_PER_NITRATE_N);
        return -1;
    }
    return sheet_choice(sheet, row, WINTER_SETTING, SETTING_NAMES, SET_COUNT);
}

/* "carry_over_tonnes,1,500" lies in three cells: the last is no remark. */
static void doubt_note(const Sheet *sheet, int row) {
    const char *note = sheet_text(sheet, row, WINTER_NOTE);
    const char *value = sheet_text(sheet, row, WINTER_VALUE);
    if (note[0] == '\0' || note[strspn(note, DIGITS)] != '\0' || value[0] == '\0' ||
        value[strspn(value, DIGITS)] != '\0')
        return;
    doubt_add(sheet_faults(sheet), sheet_place(sheet, row, WINTER_NOTE),
              "note: '%s' is a number: was %s,%s meant? write the value without a comma",
              text_excerpt(sheet_arena(sheet), note), text_excerpt(sheet_arena(sheet), value),
              text_excerpt(sheet_arena(sheet), note));
}

static SettingRows find_rows(const Sheet *sheet) {
    SettingRows rows;
    for (int i = 0; i < SET_COUNT; i++)
        rows.row[i] = -1;
    for (int row = 0; row < sheet_row_count(sheet); row++) {
        if (sheet_row_is_empty(sheet, row))
            continue;
        const int setting = read_setting(sheet, row);
        if (setting < 0)
            continue;
        doubt_note(sheet, row);
        if (rows.row[setting] >= 0 && setting != SET_NOTE) {
            fault_add(sheet_faults(sheet), sheet_place(sheet, row, WINTER_SETTING),
                      "%s: is set twice, on line %d first; keep one", SETTING_NAMES[setting],
                      sheet_place(sheet, rows.row[setting], WINTER_SETTING).line);
            continue;
        }
        rows.row[setting] = row;
    }
    return rows;
}

static bool read_day(const Sheet *sheet, const SettingRows *rows, int setting, const char *file,
                     Day *day) {
    if (rows->row[setting] < 0) {
        fault_add(sheet_faults(sheet), (Place){file, 0, 0},
                  "%s is missing: add a line '%s,%s' with the date", SETTING_NAMES[setting],
                  SETTING_NAMES[setting],
                  setting == SET_FIRST_DAY ? "2026-11-01" : "2027-05-15");
        return false;
    }
    return sheet_require(sheet, rows->row[setting], WINTER_VALUE) &&
           sheet_date(sheet, rows->row[setting], WINTER_VALUE, day);
}

static const char *text_or(const Sheet *sheet, const SettingRows *rows, int setting,
                           const char *otherwise) {
    if (rows->row[setting] < 0)
        return otherwise;
    const char *text = sheet_text(sheet, rows->row[setting], WINTER_VALUE);
    return text[0] != '\0' ? text : otherwise;
}

#define MOST_DAYS 366 /* both ends counted */

static void read_days(const Sheet *sheet, const SettingRows *rows, const char *file,
                      Winter *winter) {
    const bool has_first = read_day(sheet, rows, SET_FIRST_DAY, file, &winter->first_day);
    const bool has_last = read_day(sheet, rows, SET_LAST_DAY, file, &winter->last_day);
    winter->is_readable = has_first && has_last;
    if (!winter->is_readable)
        return;
    const int days = winter_days(winter);
    if (days >= 2 && days <= MOST_DAYS)
        return;
    winter->is_readable = false;
    const Place place = sheet_place(sheet, rows->row[SET_LAST_DAY], WINTER_VALUE);
    if (days < 2) {
        fault_add(sheet_faults(sheet), place,
                  "last_day: %s is not after first_day, %s; is the year right?",
                  sheet_text(sheet, rows->row[SET_LAST_DAY], WINTER_VALUE),
                  sheet_text(sheet, rows->row[SET_FIRST_DAY], WINTER_VALUE));
        return;
    }
    fault_add(sheet_faults(sheet), place,
              "last_day: makes a winter of %d days; it may have at most %d: is the year right?",
              days, MOST_DAYS);
}

static void read_carry_over(const Sheet *sheet, const SettingRows *rows, Winter *winter) {
    if (rows->row[SET_CARRY_OVER_TONNES] >= 0 && rows->row[SET_CARRY_OVER_TONS] >= 0) {
        fault_add(sheet_faults(sheet),
                  sheet_place(sheet, rows->row[SET_CARRY_OVER_TONS], WINTER_SETTING),
                  "carry_over is given in tonnes and in tons; keep one");
        return;
    }
    double amount;
    if (rows->row[SET_CARRY_OVER_TONNES] >= 0 &&
        read_amount(sheet, rows->row[SET_CARRY_OVER_TONNES], 1.0e6, &amount))
        winter->carry_over_kg = amount * KG_PER_TONNE;
    if (rows->row[SET_CARRY_OVER_TONS] >= 0 &&
        read_amount(sheet, rows->row[SET_CARRY_OVER_TONS], 1.0e6, &amount))
        winter->carry_over_kg = amount * KG_PER_SHORT_TON;
}

/* No ration makes such water safe, and a plan that says nothing would be read as leave to use
 * it. */
static void refuse_water(const Sheet *sheet, int row, double value, double refused) {
    if (row >= 0 && value >= refused)
        fault_add(
            sheet_faults(sheet), sheet_place(sheet, row, WINTER_VALUE),
            "%s: %g is past %g, where water harms cattle whatever they eat; find other water "
            "and ask your veterinarian before anything is planned",
            sheet_text(sheet, row, WINTER_SETTING), value, refused);
}

/* Prairie ground water without sulfate is not met; less than this is not even rain. */
#define LEAST_SULFATE_MG_PER_L 5.0

static void read_water(const Sheet *sheet, const SettingRows *rows, Winter *winter) {
    const int sulfate = rows->row[SET_SULFATE];
    const int nitrate = rows->row[SET_NITRATE];
    if (sulfate >= 0)
        winter->sulfate_is_assumed =
            !read_amount(sheet, sulfate, 30000.0, &winter->water_sulfate_mg_per_l);
    if (nitrate >= 0)
        winter->nitrate_is_assumed =
            !read_amount(sheet, nitrate, 5000.0, &winter->water_nitrate_mg_per_l);
    if (rows->row[SET_SOLIDS] >= 0)
        winter->solids_are_known =
            read_amount(sheet, rows->row[SET_SOLIDS], 50000.0, &winter->water_solids_mg_per_l);
    const int sodium = rows->row[SET_SODIUM];
    if (sodium >= 0)
        winter->sodium_is_known =
            read_amount(sheet, sodium, 30000.0, &winter->water_sodium_mg_per_l);
    refuse_water(sheet, sodium, winter->water_sodium_mg_per_l, REFUSED_WATER_SODIUM);
    refuse_water(sheet, sulfate, winter->water_sulfate_mg_per_l, REFUSED_WATER_SULFATE);
    refuse_water(sheet, nitrate, winter->water_nitrate_mg_per_l, REFUSED_WATER_NITRATE);
    const double read = winter->water_sulfate_mg_per_l;
    if (!winter->sulfate_is_assumed && read > 0.0 && read < LEAST_SULFATE_MG_PER_L) {
        doubt_add(sheet_faults(sheet), sheet_place(sheet, sulfate, WINTER_VALUE),
                  "water_sulfate_mg_per_l: %g is next to none; is it grams a litre?", read);
    } else if (!winter->sulfate_is_assumed && read <= 0.0) {
        doubt_add(sheet_faults(sheet), sheet_place(sheet, sulfate, WINTER_VALUE),
                  "water_sulfate_mg_per_l: 0 is read as tested and none found; leave the cell "
                  "empty where the water was not tested");
    }
}

/* A file of another kind, or one that begins with its first setting: one fault says it all. A
 * file that cannot be read as a table is left to sheet_parse. */
static bool has_first_line(Arena *arena, Faults *faults, const char *file, const char *bytes,
                           size_t length) {
    Faults aside = faults_new(arena);
    const Table *table = table_parse(arena, &aside, file, bytes, length);
    bool has_setting = false, has_value = false;
    for (int i = 0; table && i < table->column_count; i++) {
        const char *plain = heading_plain(arena, table->headings[i].text);
        has_setting |= text_same(plain, COLUMNS[WINTER_SETTING].stem);
        has_value |= text_same(plain, COLUMNS[WINTER_VALUE].stem);
    }
    if (!table || (has_setting && has_value))
        return true;
    fault_add(
        faults, (Place){file, table->headings[0].line, 0},
        "the first line must be 'setting,value', and each setting has a line below it, as "
        "in 'first_day,2026-11-01'");
    return false;
}

/* The first of the choices where the setting is left out. */
static int read_choice(const Sheet *sheet, int row, const char *const *names, int count) {
    if (row < 0)
        return 0;
    const int choice = sheet_choice(sheet, row, WINTER_VALUE, names, count);
    return choice < 0 ? 0 : choice;
}

/* The cautious practice needs no reason; another is the farmer's own word, and he says with
 * whom he talked it over. */
static void read_practice(const Sheet *sheet, const SettingRows *rows, int setting,
                          PracticeChoice choice, Winter *winter) {
    const int row = rows->row[setting];
    const char *names[PRACTICE_COUNT];
    const int count = practice_settings(choice, names);
    winter->practice[choice] = read_choice(sheet, row, names, count);
    winter->practice_note[choice] = row >= 0 ? sheet_text(sheet, row, WINTER_NOTE) : "";
    if (winter->practice[choice] == 0 || winter->practice_note[choice][0] != '\0')
        return;
    fault_add(sheet_faults(sheet), sheet_place(sheet, row, WINTER_NOTE),
              "note: '%s' lets more through than the usual line; talk it over with your "
              "veterinarian or nutritionist and write here with whom, and when",
              names[winter->practice[choice]]);
}

#define MOST_TURNOUT_SPREAD_DAYS 40.0
#define MOST_CAUTION_WEIGHT 20.0
#define MOST_STEADY_COST_PCT 5.0

static void read_steady_cost(const Sheet *sheet, const SettingRows *rows, Winter *winter) {
    double pct;
    if (rows->row[SET_STEADY_COST] >= 0 &&
        read_amount(sheet, rows->row[SET_STEADY_COST], MOST_STEADY_COST_PCT, &pct))
        winter->steady_cost_share = pct / 100.0;
}

Winter winter_parse(Arena *arena, Faults *faults, const char *file, const char *bytes,
                    size_t length) {
    Winter winter = {
        .farm = "",
        .currency = "$",
        .water_sulfate_mg_per_l = ASSUMED_WATER_SULFATE,
        .sulfate_is_assumed = true,
        .nitrate_is_assumed = true,
        .caution_weight = 1.0,
        .steady_cost_share = USUAL_STEADY_COST_SHARE,
    };
    if (!has_first_line(arena, faults, file, bytes, length))
        return winter;
    const Sheet *sheet =
        sheet_parse(arena, faults, file, bytes, length, COLUMNS, WINTER_COLUMN_COUNT);
    if (!sheet)
        return winter;
    const SettingRows rows = find_rows(sheet);
    read_days(sheet, &rows, file, &winter);
    winter.farm = text_or(sheet, &rows, SET_FARM, "");
    winter.currency = text_or(sheet, &rows, SET_CURRENCY, "$");
    const int units = read_choice(sheet, rows.row[SET_UNITS], UNIT_NAMES, 3);
    winter.is_imperial = units == 1;
    winter.is_mixed = units == 2;
    if (rows.row[SET_YARDAGE] >= 0)
        read_amount(sheet, rows.row[SET_YARDAGE], 50.0, &winter.yardage_per_head_day);
    winter.needs_way =
        (NeedsWay)read_choice(sheet, rows.row[SET_REQUIREMENTS], NEEDS_WAY_NAMES, 2);
    winter.cold_way = (ColdWay)read_choice(sheet, rows.row[SET_COLD], COLD_WAY_NAMES, 2);
    winter.microbial_form =
        (MicrobialForm)read_choice(sheet, rows.row[SET_PROTEIN], PROTEIN_NAMES, 3);
    read_water(sheet, &rows, &winter);
    read_practice(sheet, &rows, SET_NITRATE_PRACTICE, CHOICE_NITRATE, &winter);
    read_practice(sheet, &rows, SET_SULFUR_PRACTICE, CHOICE_SULFUR, &winter);
    read_carry_over(sheet, &rows, &winter);
    if (rows.row[SET_CAUTION_WEIGHT] >= 0)
        read_amount(sheet, rows.row[SET_CAUTION_WEIGHT], MOST_CAUTION_WEIGHT,
                    &winter.caution_weight);
    read_steady_cost(sheet, &rows, &winter);
    if (rows.row[SET_TURNOUT_SPREAD] >= 0)
        winter.turnout_spread_is_set =
            read_amount(sheet, rows.row[SET_TURNOUT_SPREAD], MOST_TURNOUT_SPREAD_DAYS,
                        &winter.turnout_spread_days);
    winter.rules = feeding_rules_read(sheet, &rows.row[SET_RULES], WINTER_VALUE);
    return winter;
}

Day winter_weighing_day(const Winter *winter) {
    return calendar_add(winter->first_day, -winter->days_since_weighed);
}

int winter_days(const Winter *winter) {
    return calendar_days_between(winter->first_day, winter->last_day) + 1;
}

bool winter_follows(const Winter *winter, Practice practice) {
    for (int choice = 0; choice < PRACTICE_CHOICE_COUNT; choice++) {
        if (practice_at((PracticeChoice)choice, winter->practice[choice]) == practice)
            return true;
    }
    return false;
}
