/* Units as shown. Everything inside is kg, Mcal, degrees C, money per kg; a cell is brought
 * into the units asked for here and nowhere else. */
#ifndef OUTCOME_MEASURE_H
#define OUTCOME_MEASURE_H

#include "outcome/report.h"

/* UNITS_MIXED: as many farms have it: pounds for what is fed and what cattle weigh, tonnes and
 * the rest metric. */
typedef enum { UNITS_METRIC, UNITS_IMPERIAL, UNITS_MIXED } Units;

typedef enum {
#define MEASURE(id, metric_unit, metric_times, metric_add, metric_decimals, imperial_unit,     \
                imperial_times, imperial_add, imperial_decimals, mixed)                        \
    MEASURE_##id,
#include "outcome/measure.def"
#undef MEASURE
    MEASURE_COUNT
} Measure;

const char *measure_unit(Units units, Measure measure);
/* As after a number in a sentence: tons, where the head of a column says ton. */
const char *measure_unit_of_words(Units units, Measure measure);
int measure_decimals(Units units, Measure measure);
double measure_shown(Units units, Measure measure, double own);
Cell measure_cell(Units units, Measure measure, double own);
/* Of tonnes or tons, with more decimals of a few bags, and of a handful: they are not 0.0. */
Cell tonnage_cell(Units units, double kg);
/* "1,234.5 lb" as words in a sentence: rounded, thousands by comma. Text in the arena. */
const char *measure_words(Arena *arena, Units units, Measure measure, double own);
const char *money_words(Arena *arena, double dollars, int decimals); /* "$12,345" */

#endif
