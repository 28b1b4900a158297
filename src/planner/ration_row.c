#include "planner/ration_row.h"
#include <assert.h>
#include <math.h>

RationLimit ration_row(const char *key, const char *label, const char *unit, int decimals) {
    return (RationLimit){
        .key = key,
        .label = label,
        .unit = unit,
        .decimals = decimals,
        .shown_times = 1.0,
        .least = -NO_LIMIT,
        .most = NO_LIMIT,
        .warn = (double)NAN,
        .usual_base = 1.0,
    };
}

void ration_row_list(RationRows *rows, const RationLimit *limit) {
    assert(rows->count < MOST_RATION_ROWS);
    rows->limits[rows->count++] = limit;
}

RationLimit *ration_row_add(RationRows *rows, RationLimit limit) {
    RationLimit *kept = ARENA_NEW(rows->arena, RationLimit);
    *kept = limit;
    ration_row_list(rows, kept);
    return kept;
}

double *ration_row_numbers(Arena *arena, const PlanQuestion *question) {
    return ARENA_ARRAY(arena, double, question->feed_count);
}

const double *ration_row_ones(Arena *arena, const PlanQuestion *question) {
    double *base = ration_row_numbers(arena, question);
    for (int feed = 0; feed < question->feed_count; feed++)
        base[feed] = 1.0;
    return base;
}

double ration_known_or_none(double value) { return isnan(value) ? 0.0 : value; }

const double *ration_row_eaten(Arena *arena, const PlanQuestion *question, Nutrient nutrient,
                               double times) {
    double *values = ration_row_numbers(arena, question);
    for (int feed = 0; feed < question->feed_count; feed++)
        values[feed] = times * ration_known_or_none(question->feeds[feed].eaten[nutrient]);
    return values;
}
