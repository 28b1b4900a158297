#include "cattle/own_need.h"
#include "base/choice.h"
#include "base/text.h"
#include "cattle/maintenance.h"
#include <assert.h>

#define MOST_ROWS 2000

enum {
    OWN_GROUP,
    OWN_NEED,
    OWN_FROM,
    OWN_UNTIL,
    OWN_VALUE,
    OWN_UNIT,
    OWN_NOTE,
    OWN_COLUMN_COUNT
};

/* The range of a value is checked row by row, because it differs by need. */
static const SheetColumn COLUMNS[OWN_COLUMN_COUNT] = {
    {"group", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"need", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"from", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
    {"until", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
    {"value", UNIT_PLAIN, COLUMN_REQUIRED, -1.0e9, 1.0e9},
    {"unit", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"note", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
};

/* Ranges that catch another unit and a slipped point: of one head a day. Own choice. */
typedef struct {
    const char *name, *unit;
    double least, most;
} NeedRow;

static const NeedRow NEEDS[NEED_CONCENTRATION] = {
    [NEED_NEM] = {"net_energy_maintenance", "Mcal", 2, 50},
    [NEED_NEG] = {"net_energy_gain", "Mcal", 0, 20},
    [NEED_PROTEIN] = {"metabolizable_protein", "g", 50, 3000},
    [NEED_CALCIUM] = {"calcium", "g", 2, 200},
    [NEED_PHOSPHORUS] = {"phosphorus", "g", 2, 150},
    [NEED_INTAKE_MOST] = {"dry_matter_most", "kg", 1, 35},
    [NEED_INTAKE_LEAST] = {"dry_matter_least", "kg", 0, 35},
    [NEED_NDF_MOST] = {"ndf_most", "kg", 0.5, 20},
};

/* A concentration is at most so many times the greatest of the published ones. Own choice. */
#define MOST_TIMES_PUBLISHED 20.0

typedef struct {
    const char *written, *unit;
    double times;
} UnitRow;

static const UnitRow UNITS[] = {
    {"Mcal", "Mcal", 1},
    {"Mcal/day", "Mcal", 1},
    {"g", "g", 1},
    {"g/day", "g", 1},
    {"kg", "kg", 1},
    {"kg/day", "kg", 1},
    {"lb", "kg", KG_PER_POUND},
    {"lb/day", "kg", KG_PER_POUND},
    {"pct", "%", 1},
    {"%", "%", 1},
    {"ppm", "ppm", 1},
    {"mg/kg", "ppm", 1},
    {"iu_per_kg", "IU/kg", 1},
    {"IU/kg", "IU/kg", 1},
    {"IU/lb", "IU/kg", 1.0 / KG_PER_POUND},
};
enum { UNIT_ROWS = sizeof UNITS / sizeof UNITS[0] };

const char *own_need_unit(const OwnNeed *need) {
    return need->kind == NEED_CONCENTRATION ? nutrient_kind(need->nutrient)->unit
                                            : NEEDS[need->kind].unit;
}

static double greatest_published(const MineralNeeds *minerals, int nutrient) {
    double greatest = 0.0;
    for (int animal = 0; animal < ANIMAL_COUNT; animal++)
        greatest = fmax(greatest, minerals->least[nutrient][animal]);
    return greatest;
}

static bool read_group(const Sheet *sheet, int row, const Herd *herd, OwnNeed *need) {
    if (!sheet_require(sheet, row, OWN_GROUP))
        return false;
    const char *written = sheet_text(sheet, row, OWN_GROUP);
    for (int g = 0; g < herd->count; g++) {
        if (text_same_letters(written, herd->names[g])) {
            need->group = g;
            return true;
        }
    }
    Arena *arena = sheet_arena(sheet);
    const char *guess = choice_guess(arena, written, herd->names, herd->count);
    fault_add(sheet_faults(sheet), sheet_place(sheet, row, OWN_GROUP),
              "group: this herd has no group named '%s'%s%s", text_excerpt(arena, written),
              guess ? "; " : "", guess ? guess : "");
    return false;
}

static bool read_kind(const Sheet *sheet, int row, const MineralNeeds *minerals,
                      OwnNeed *need) {
    if (!sheet_require(sheet, row, OWN_NEED))
        return false;
    const char *names[NEED_CONCENTRATION + NUTRIENT_COUNT];
    Nutrient nutrients[NEED_CONCENTRATION + NUTRIENT_COUNT];
    int count = 0;
    for (int i = 0; i < NEED_CONCENTRATION; i++)
        names[count++] = NEEDS[i].name;
    for (int i = 0; i < NUTRIENT_COUNT; i++) {
        if (greatest_published(minerals, i) <= 0.0)
            continue;
        nutrients[count] = (Nutrient)i;
        names[count++] = nutrient_kind((Nutrient)i)->stem;
    }
    const int found = sheet_choice(sheet, row, OWN_NEED, names, count);
    if (found < 0)
        return false;
    need->need = names[found];
    need->kind = found < NEED_CONCENTRATION ? (NeedKind)found : NEED_CONCENTRATION;
    if (need->kind == NEED_CONCENTRATION)
        need->nutrient = nutrients[found];
    return true;
}

/* In the unit the need is kept in; a weight may be in pounds. */
static bool read_value(const Sheet *sheet, int row, const MineralNeeds *minerals,
                       OwnNeed *need) {
    const char *names[UNIT_ROWS];
    for (int i = 0; i < UNIT_ROWS; i++)
        names[i] = UNITS[i].written;
    const char *unit = own_need_unit(need);
    double value;
    const bool has_value =
        sheet_require(sheet, row, OWN_VALUE) && sheet_number(sheet, row, OWN_VALUE, &value);
    if (!sheet_require(sheet, row, OWN_UNIT))
        return false;
    const int found = sheet_choice(sheet, row, OWN_UNIT, names, UNIT_ROWS);
    if (found < 0)
        return false;
    const bool is_pounds_of_grams = text_same(unit, "g") && text_same(UNITS[found].unit, "kg");
    if (!text_same(UNITS[found].unit, unit) && !is_pounds_of_grams) {
        fault_add(sheet_faults(sheet), sheet_place(sheet, row, OWN_UNIT),
                  "unit: '%s' is not that of %s, %s",
                  text_excerpt(sheet_arena(sheet), sheet_text(sheet, row, OWN_UNIT)),
                  need->need, unit);
        return false;
    }
    if (!has_value)
        return false;
    const double times = UNITS[found].times * (is_pounds_of_grams ? GRAMS_PER_KG : 1.0);
    need->value = value * times;
    const bool is_share = need->kind == NEED_CONCENTRATION;
    const double least = is_share ? 0.0 : NEEDS[need->kind].least;
    const double most =
        is_share ? MOST_TIMES_PUBLISHED * greatest_published(minerals, (int)need->nutrient)
                 : NEEDS[need->kind].most;
    if (need->value >= least && need->value <= most)
        return true;
    fault_add(sheet_faults(sheet), sheet_place(sheet, row, OWN_VALUE),
              "value: %s is outside %.4g to %.4g %s of %s",
              text_excerpt(sheet_arena(sheet), sheet_text(sheet, row, OWN_VALUE)),
              least / times, most / times, UNITS[found].written, need->need);
    return false;
}

static bool is_left_empty(const Sheet *sheet, int row, int column) {
    return sheet_text(sheet, row, column)[0] == '\0';
}

static bool read_days(const Sheet *sheet, int row, Day first_day, Day last_day, OwnNeed *need) {
    need->from = calendar_day(1900, 1, 1);
    need->until = calendar_day(2199, 12, 31);
    need->has_from = sheet_date(sheet, row, OWN_FROM, &need->from);
    need->has_until = sheet_date(sheet, row, OWN_UNTIL, &need->until);
    if ((!need->has_from && !is_left_empty(sheet, row, OWN_FROM)) ||
        (!need->has_until && !is_left_empty(sheet, row, OWN_UNTIL)))
        return false;
    Faults *faults = sheet_faults(sheet);
    if (calendar_days_between(need->from, need->until) < 0) {
        fault_add(faults, sheet_place(sheet, row, OWN_UNTIL), "until: %s is before from, %s",
                  sheet_text(sheet, row, OWN_UNTIL), sheet_text(sheet, row, OWN_FROM));
        return false;
    }
    const bool days_are_known = calendar_days_between(first_day, last_day) >= 0;
    if (days_are_known && (calendar_days_between(need->from, last_day) < 0 ||
                           calendar_days_between(first_day, need->until) < 0))
        doubt_add(faults, sheet_place(sheet, row, need->has_from ? OWN_FROM : OWN_UNTIL),
                  "%s: none of these days is fed; is the year right?",
                  need->has_from ? "from" : "until");
    return true;
}

static bool do_overlap(const OwnNeed *a, const OwnNeed *b) {
    return a->group == b->group && calendar_days_between(a->from, b->until) >= 0 &&
           calendar_days_between(b->from, a->until) >= 0;
}

/* Against the rows before it. */
static bool agrees(const Sheet *sheet, int row, const OwnNeed *earlier, int count,
                   const OwnNeed *need) {
    for (int i = 0; i < count; i++) {
        const OwnNeed *other = &earlier[i];
        if (!do_overlap(other, need))
            continue;
        if (text_same(other->need, need->need)) {
            fault_add(sheet_faults(sheet), sheet_place(sheet, row, OWN_NEED),
                      "need: %s of this group is given for some of these days on line %d; keep "
                      "one, or part their dates",
                      need->need, other->place.line);
            return false;
        }
        const bool is_most = need->kind == NEED_INTAKE_MOST;
        if ((!is_most || other->kind != NEED_INTAKE_LEAST) &&
            (need->kind != NEED_INTAKE_LEAST || other->kind != NEED_INTAKE_MOST))
            continue;
        if ((is_most ? need->value : other->value) >= (is_most ? other->value : need->value))
            continue;
        fault_add(sheet_faults(sheet), sheet_place(sheet, row, OWN_VALUE),
                  "value: dry_matter_most is below dry_matter_least (see line %d)",
                  other->place.line);
        return false;
    }
    return true;
}

/* Beside the animal's weight; own choice. The upkeep is that in a pen without cold, and dry
 * matter a share of live weight. */
#define LEAST_OF_UPKEEP 0.9
#define LEAST_EATEN_SHARE 0.01
#define MOST_EATEN_SHARE 0.04

static void doubt_by_weight(const Sheet *sheet, int row, const HerdGroup *group,
                            const OwnNeed *need) {
    const Place place = sheet_place(sheet, row, OWN_VALUE);
    if (!(group->weight.kg > 0.0))
        return; /* a fault of the herd file, told there */
    const double upkeep = fasting_energy(shrunk_weight(group->weight)).mcal_per_day;
    if (need->kind == NEED_NEM && need->value < LEAST_OF_UPKEEP * upkeep)
        doubt_add(sheet_faults(sheet), place,
                  "value: the upkeep of this weight alone is about %.1f Mcal; is it all of the "
                  "net energy for maintenance?",
                  upkeep);
    const bool is_most = need->kind == NEED_INTAKE_MOST;
    if (!is_most && need->kind != NEED_INTAKE_LEAST)
        return;
    const double share = need->value / group->weight.kg;
    if (share > MOST_EATEN_SHARE || (is_most && share < LEAST_EATEN_SHARE))
        doubt_add(sheet_faults(sheet), place,
                  "value: %.1f %% of the live weight in dry matter a day; is it for one head, "
                  "and in this unit?",
                  share * 100.0);
}

static bool read_row(const Sheet *sheet, int row, const Herd *herd,
                     const MineralNeeds *minerals, Day first_day, Day last_day, OwnNeed *need) {
    need->place = sheet_place(sheet, row, OWN_NEED);
    const bool has_group = read_group(sheet, row, herd, need);
    const bool has_days = read_days(sheet, row, first_day, last_day, need);
    const bool has_kind = read_kind(sheet, row, minerals, need);
    const bool has_value = has_kind && read_value(sheet, row, minerals, need);
    if (!has_group || !has_days || !has_value)
        return false;
    const CattleClass cattle_class = herd->groups[need->group].cattle_class;
    if (need->kind == NEED_NEG && !cattle_class_kind(cattle_class)->grows) {
        fault_add(sheet_faults(sheet), sheet_place(sheet, row, OWN_NEED),
                  "need: a %s is not grown; put what her condition takes into "
                  "net_energy_maintenance",
                  cattle_class_kind(cattle_class)->name);
        return false;
    }
    doubt_by_weight(sheet, row, &herd->groups[need->group], need);
    return true;
}

OwnNeeds own_needs_parse(Arena *arena, Faults *faults, const Herd *herd,
                         const MineralNeeds *minerals, Day first_day, Day last_day,
                         const char *file, const char *bytes, size_t length) {
    OwnNeeds none = {NULL, 0};
    if (!bytes)
        return none;
    const Sheet *sheet =
        sheet_parse(arena, faults, file, bytes, length, COLUMNS, OWN_COLUMN_COUNT);
    if (!sheet || herd->count == 0)
        return none;
    const int rows = sheet_row_count(sheet);
    if (rows > MOST_ROWS) {
        fault_add(faults, (Place){file, 0, 0},
                  "has %d rows; at most %d figures are read: is it the right file?", rows,
                  MOST_ROWS);
        return none;
    }
    OwnNeed *needs = ARENA_ARRAY(arena, OwnNeed, rows);
    int count = 0;
    for (int row = 0; row < rows; row++) {
        if (sheet_row_is_empty(sheet, row))
            continue;
        needs[count] = (OwnNeed){0};
        if (read_row(sheet, row, herd, minerals, first_day, last_day, &needs[count]) &&
            agrees(sheet, row, needs, count, &needs[count]))
            count++;
    }
    return (OwnNeeds){needs, count};
}

static void apply(const OwnNeed *own, Requirement *need) {
    need->own_kinds |= NEED_BIT(own->kind);
    const double value = own->value;
    const IntakeLaw always = {.added = value}; /* the same whatever the diet is */
    switch (own->kind) {
    case NEED_NEM:
        need->energy.own = value - requirement_nem(need).mcal_per_day;
        return;
    case NEED_NEG:
        need->retained.mcal_per_day = value;
        return;
    case NEED_PROTEIN:
        need->protein.own = value - requirement_protein(need).g_per_day;
        return;
    case NEED_CALCIUM:
        need->calcium.g_per_day = value;
        return;
    case NEED_PHOSPHORUS:
        need->phosphorus.g_per_day = value;
        return;
    case NEED_INTAKE_MOST:
        need->most = always;
        return;
    case NEED_INTAKE_LEAST:
        need->least = always;
        return;
    case NEED_NDF_MOST:
        need->ndf_most_kg = value;
        return;
    case NEED_CONCENTRATION:
        need->mineral_least[own->nutrient] = value;
        need->mineral_is_own[own->nutrient] = true;
        return;
    }
}

static bool is_within(Day day, Day from, Day to) {
    return calendar_days_between(from, day) >= 0 && calendar_days_between(day, to) >= 0;
}

/* Two figures of one need never share a day, so at most one of each kind holds. */
void own_needs_apply(const OwnNeeds *needs, int group, Day from, Day to,
                     Requirement *requirement) {
    for (int i = 0; i < needs->count; i++) {
        const OwnNeed *own = &needs->needs[i];
        if (own->group != group)
            continue;
        const bool holds = is_within(from, own->from, own->until);
        assert(holds == is_within(to, own->from, own->until));
        assert(holds || !is_within(own->from, from, to));
        if (holds)
            apply(own, requirement);
    }
}
