#include "cattle/mineral_need.h"
#include "base/text.h"

enum {
    NEED_NUTRIENT,
    NEED_ANIMAL,
    NEED_LEAST,
    NEED_UNIT,
    NEED_HOW,
    NEED_SOURCE,
    NEED_USE,
    NEED_COLUMN_COUNT
};

static const SheetColumn COLUMNS[NEED_COLUMN_COUNT] = {
    {"nutrient", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"animal", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"least", UNIT_PLAIN, COLUMN_REQUIRED, 0, 1.0e7},
    {"unit", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"how_known", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"source", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"use", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
};

static const char *const ANIMAL_NAMES[] = {"growing", "pregnant", "nursing", "all"};

/* The value is taken in the nutrient's unit: another one would be off by thousands. */
static bool check_unit(const Sheet *sheet, int row, Nutrient nutrient) {
    static const char *const WRITTEN[] = {"pct", "ppm", "iu_per_kg"};
    static const char *const SHOWN[] = {"%", "ppm", "IU/kg"};
    const char *unit = nutrient_kind(nutrient)->unit;
    const int written = sheet_choice(sheet, row, NEED_UNIT, WRITTEN, 3);
    if (written >= 0 && text_same(SHOWN[written], unit))
        return true;
    fault_add(sheet_faults(sheet), sheet_place(sheet, row, NEED_UNIT),
              "unit: '%s' is not that of %s, %s",
              text_excerpt(sheet_arena(sheet), sheet_text(sheet, row, NEED_UNIT)),
              nutrient_kind(nutrient)->stem, unit);
    return false;
}

typedef enum { USE_PLAN, USE_GUIDE, USE_TOLD, USE_COUNT } NeedUse;

/* An empty cell: a ration is held to it. What no ration is held to is of all cattle alike. */
static NeedUse use_of(const Sheet *sheet, int row, int animal) {
    static const char *const USES[USE_COUNT] = {"plan", "guide", "told"};
    const int use = sheet_choice(sheet, row, NEED_USE, USES, USE_COUNT);
    if (use != USE_GUIDE && use != USE_TOLD)
        return USE_PLAN;
    if (animal != ANIMAL_COUNT)
        fault_add(sheet_faults(sheet), sheet_place(sheet, row, NEED_ANIMAL),
                  "animal: a %s is of all cattle", USES[use]);
    return (NeedUse)use;
}

static void read_need(const Sheet *sheet, int row, MineralNeeds *needs) {
    Nutrient nutrient;
    if (!nutrient_find(sheet_text(sheet, row, NEED_NUTRIENT), &nutrient)) {
        fault_add(sheet_faults(sheet), sheet_place(sheet, row, NEED_NUTRIENT),
                  "nutrient: '%s' is not known",
                  text_excerpt(sheet_arena(sheet), sheet_text(sheet, row, NEED_NUTRIENT)));
        return;
    }
    const int animal = sheet_choice(sheet, row, NEED_ANIMAL, ANIMAL_NAMES, ANIMAL_COUNT + 1);
    double least = 0.0;
    const bool has_animal = sheet_require(sheet, row, NEED_ANIMAL) && animal >= 0;
    const bool has_least =
        sheet_require(sheet, row, NEED_LEAST) && sheet_number(sheet, row, NEED_LEAST, &least);
    const bool has_unit = check_unit(sheet, row, nutrient);
    if (!has_animal || !has_least || !has_unit)
        return;
    needs->source[nutrient] = source_first(sheet_text(sheet, row, NEED_SOURCE));
    const NeedUse use = use_of(sheet, row, animal);
    if (use != USE_PLAN) {
        (use == USE_GUIDE ? needs->guide : needs->told)[nutrient] = least;
        return;
    }
    for (int i = 0; i < ANIMAL_COUNT; i++) {
        if (animal == ANIMAL_COUNT || animal == i)
            needs->least[nutrient][i] = least;
    }
}

const MineralNeeds *mineral_needs_parse(Arena *arena, Faults *faults, const char *file,
                                        const char *bytes, size_t length) {
    const int wrong_before = faults->wrong_count;
    const Sheet *sheet =
        sheet_parse(arena, faults, file, bytes, length, COLUMNS, NEED_COLUMN_COUNT);
    if (!sheet)
        return NULL;
    MineralNeeds *needs = ARENA_NEW(arena, MineralNeeds);
    for (int row = 0; row < sheet_row_count(sheet); row++)
        read_need(sheet, row, needs);
    return faults->wrong_count > wrong_before ? NULL : needs;
}
