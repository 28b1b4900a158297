#include "stock/growth_curve.h"
#include "base/text.h"
#include <math.h>

enum {
    STAGE_GROWTH,
    STAGE_NAME,
    STAGE_DAYS,
    STAGE_YIELD,
    STAGE_PROTEIN,
    STAGE_NDF,
    STAGE_TDN,
    STAGE_HOW,
    STAGE_SOURCE,
    STAGE_COLUMN_COUNT
};
static const SheetColumn STAGE_COLUMNS[STAGE_COLUMN_COUNT] = {
    {"growth", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"stage", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"days", UNIT_PLAIN, COLUMN_REQUIRED, 1, 200},
    {"yield_share", UNIT_PLAIN, COLUMN_REQUIRED, 0.01, 2},
    {"crude_protein", UNIT_PERCENT, COLUMN_REQUIRED, 1, 40},
    {"ndf", UNIT_PERCENT, COLUMN_REQUIRED, 10, 90},
    {"tdn", UNIT_PERCENT, COLUMN_REQUIRED, 30, 90},
    {"how_known", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"source", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
};

enum {
    KIND_GROWTH,
    KIND_YIELD,
    KIND_PROTEIN,
    KIND_TDN,
    KIND_REGROWTH,
    KIND_HOW,
    KIND_SOURCE,
    KIND_COLUMN_COUNT
};
static const SheetColumn KIND_COLUMNS[KIND_COLUMN_COUNT] = {
    {"growth", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"yield_spread", UNIT_PERCENT, COLUMN_REQUIRED, 0, 100},
    {"crude_protein_spread", UNIT_PERCENT, COLUMN_REQUIRED, 0, 20},
    {"tdn_spread", UNIT_PERCENT, COLUMN_REQUIRED, 0, 20},
    {"regrowth", UNIT_CROP, COLUMN_REQUIRED, 0, 100},
    {"how_known", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"source", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
};

static double needed_number(const Sheet *sheet, int row, int column) {
    double value = 0.0;
    if (sheet_require(sheet, row, column))
        sheet_number(sheet, row, column, &value);
    return value;
}

static GrowthStage read_stage(const Sheet *sheet, int row) {
    GrowthStage stage = {.stage = sheet_text(sheet, row, STAGE_NAME)};
    stage.days = needed_number(sheet, row, STAGE_DAYS);
    for (int which = 0; which < GROWN_COUNT; which++) {
        double value = (double)NAN;
        stage.of[which] =
            sheet_number(sheet, row, STAGE_YIELD + which, &value) ? value : (double)NAN;
    }
    return stage;
}

static GrowthCurve read_curve(const Sheet *kinds, int row, const Sheet *stages) {
    GrowthCurve curve = {.name = sheet_text(kinds, row, KIND_GROWTH)};
    const int rows = sheet_row_count(stages);
    GrowthStage *of = ARENA_ARRAY(sheet_arena(stages), GrowthStage, rows);
    for (int i = 0; i < rows; i++) {
        if (text_same(sheet_text(stages, i, STAGE_GROWTH), curve.name))
            of[curve.count++] = read_stage(stages, i);
    }
    if (curve.count == 0)
        fault_add(sheet_faults(kinds), sheet_place(kinds, row, KIND_GROWTH),
                  "growth: no stage of '%s' in growth-stages.csv", curve.name);
    curve.stages = of;
    curve.yield_spread_share = needed_number(kinds, row, KIND_YIELD) / 100.0;
    curve.protein_spread = needed_number(kinds, row, KIND_PROTEIN);
    curve.tdn_spread = needed_number(kinds, row, KIND_TDN);
    curve.regrowth_kg_per_hectare_day = needed_number(kinds, row, KIND_REGROWTH);
    return curve;
}

const GrowthCurves *growth_curves_parse(Arena *arena, Faults *faults, const char *stage_bytes,
                                        size_t stage_length, const char *kind_bytes,
                                        size_t kind_length) {
    const int wrong_before = faults->wrong_count;
    const Sheet *stages = sheet_parse(arena, faults, "growth-stages.csv", stage_bytes,
                                      stage_length, STAGE_COLUMNS, STAGE_COLUMN_COUNT);
    const Sheet *kinds = sheet_parse(arena, faults, "growth-kinds.csv", kind_bytes, kind_length,
                                     KIND_COLUMNS, KIND_COLUMN_COUNT);
    if (!stages || !kinds)
        return NULL;
    const int count = sheet_row_count(kinds);
    GrowthCurve *curves = ARENA_ARRAY(arena, GrowthCurve, count);
    const char **names = ARENA_ARRAY(arena, const char *, count);
    for (int row = 0; row < count; row++) {
        curves[row] = read_curve(kinds, row, stages);
        names[row] = curves[row].name;
    }
    GrowthCurves *all = ARENA_NEW(arena, GrowthCurves);
    *all = (GrowthCurves){curves, names, count};
    return faults->wrong_count > wrong_before ? NULL : all;
}

double growth_at(const GrowthCurve *curve, Grown which, double days) {
    const GrowthStage *stages = curve->stages;
    if (days <= stages[0].days)
        return stages[0].of[which];
    for (int i = 1; i < curve->count; i++) {
        const GrowthStage *a = &stages[i - 1];
        const GrowthStage *b = &stages[i];
        if (days <= b->days)
            return a->of[which] +
                   (b->of[which] - a->of[which]) * (days - a->days) / (b->days - a->days);
    }
    return stages[curve->count - 1].of[which];
}

const char *growth_stage_name(const GrowthCurve *curve, double days) {
    int nearest = 0;
    for (int i = 1; i < curve->count; i++) {
        if (fabs(curve->stages[i].days - days) < fabs(curve->stages[nearest].days - days))
            nearest = i;
    }
    return curve->stages[nearest].stage;
}

bool growth_covers(const GrowthCurve *curve, double days) {
    return days >= curve->stages[0].days && days <= curve->stages[curve->count - 1].days;
}

/* How far a record is from the curve: times for a yield, units for the rest. */
static double off_curve(const GrowthCurve *curve, Grown which, GrowthRecord record) {
    const double there = growth_at(curve, which, record.days);
    return which == GROWN_YIELD ? record.value / there : record.value - there;
}

double growth_through_records(const GrowthCurve *curve, Grown which, double days,
                              GrowthRecord before, GrowthRecord after) {
    if (isnan(before.days))
        before = after;
    if (isnan(after.days))
        after = before;
    const double at_before = off_curve(curve, which, before);
    const double span = after.days - before.days;
    const double share = span > 0.0 ? fmin(fmax((days - before.days) / span, 0.0), 1.0) : 0.0;
    const double off = at_before + share * (off_curve(curve, which, after) - at_before);
    const double there = growth_at(curve, which, days);
    return which == GROWN_YIELD ? there * off : there + off;
}
