#include "planner/ration_row.h"
#include <assert.h>
#include <math.h>

RationLimit *ration_row_add(RationRows *rows, const char *key, const char *label,
                            const char *unit, int decimals) {
    assert(rows->count < MOST_RATION_ROWS);
    RationLimit *limit = &rows->limits[rows->count++];
    *limit = (RationLimit){
        .key = key,
        .label = label,
        .unit = unit,
        .decimals = decimals,
        .shown_times = 1.0,
        .least = -NO_LIMIT,
        .most = NO_LIMIT,
        .warn = (double)NAN,
    };
    return limit;
}

double *ration_row_numbers(const RationRows *rows) {
    return ARENA_ARRAY(rows->arena, double, rows->question->feed_count);
}

const double *ration_row_ones(const RationRows *rows) {
    double *base = ration_row_numbers(rows);
    for (int feed = 0; feed < rows->question->feed_count; feed++)
        base[feed] = 1.0;
    return base;
}

double ration_known_or_none(double value) { return isnan(value) ? 0.0 : value; }

const double *ration_row_eaten(const RationRows *rows, Nutrient nutrient, double times) {
    double *values = ration_row_numbers(rows);
    for (int feed = 0; feed < rows->question->feed_count; feed++)
        values[feed] =
            times * ration_known_or_none(rows->question->feeds[feed].eaten[nutrient]);
    return values;
}
