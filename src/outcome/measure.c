#include "outcome/measure.h"

#include "base/quantity.h"

#include <assert.h>
#include <math.h>
#include <stdbool.h>
#include <string.h>

typedef struct {
    const char *unit;
    double times, add;
    int decimals;
} Scale;

static const Scale SCALE[MEASURE_COUNT][2] = {
#define MEASURE(id, metric_unit, metric_times, metric_add, metric_decimals, imperial_unit,     \
                imperial_times, imperial_add, imperial_decimals, mixed)                        \
    {{metric_unit, metric_times, metric_add, metric_decimals},                                 \
     {imperial_unit, imperial_times, imperial_add, imperial_decimals}},
#include "outcome/measure.def"
#undef MEASURE
};

enum { METRIC, IMPERIAL };

static const bool IS_MIXED_IMPERIAL[MEASURE_COUNT] = {
#define MEASURE(id, metric_unit, metric_times, metric_add, metric_decimals, imperial_unit,     \
                imperial_times, imperial_add, imperial_decimals, mixed)                        \
    mixed == IMPERIAL,
#include "outcome/measure.def"
#undef MEASURE
};

static const Scale *scale_of(Units units, Measure measure) {
    assert(measure < MEASURE_COUNT);
    const bool is_imperial =
        units == UNITS_IMPERIAL || (units == UNITS_MIXED && IS_MIXED_IMPERIAL[measure]);
    return &SCALE[measure][is_imperial];
}

const char *measure_unit(Units units, Measure measure) {
    return scale_of(units, measure)->unit;
}

int measure_decimals(Units units, Measure measure) {
    return scale_of(units, measure)->decimals;
}

double measure_shown(Units units, Measure measure, double own) {
    const Scale *scale = scale_of(units, measure);
    return own * scale->times + scale->add;
}

Cell measure_cell(Units units, Measure measure, double own) {
    return number_cell(measure_shown(units, measure, own), measure_decimals(units, measure));
}

Cell tonnage_cell(Units units, double kg) {
    const double shown = measure_shown(units, MEASURE_TONNAGE, kg);
    if (shown > 0.0 && shown < 0.0005)
        return number_cell(shown, 6);
    return number_cell(shown, shown > 0.0 && shown < 1.0 ? 3 : 1);
}

const char *measure_unit_of_words(Units units, Measure measure) {
    const char *unit = measure_unit(units, measure);
    return strcmp(unit, "ton") == 0 ? "tons" : unit;
}

const char *measure_words(Arena *arena, Units units, Measure measure, double own) {
    if (!isfinite(own))
        return "not known";
    const Scale *scale = scale_of(units, measure);
    const char *number = number_words(arena, own * scale->times + scale->add, scale->decimals);
    const char *blank = strcmp(scale->unit, "%") == 0 ? "" : " ";
    return arena_print(arena, "%s%s%s", number, blank, measure_unit_of_words(units, measure));
}

const char *money_words(Arena *arena, double dollars, int decimals) {
    if (!isfinite(dollars))
        return "not known";
    const char *number = number_words(arena, dollars, decimals);
    const bool is_negative = number[0] == '-';
    return arena_print(arena, "%s$%s", is_negative ? "-" : "", number + is_negative);
}
