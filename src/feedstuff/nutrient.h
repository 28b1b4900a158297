/* The list of nutrients and what is known of each as a thing (nutrient.def). */
#ifndef FEEDSTUFF_NUTRIENT_H
#define FEEDSTUFF_NUTRIENT_H

#include "base/sheet.h"
#include <stdbool.h>

typedef enum {
#define NUTRIENT(id, stem, family, label, unit, least, most, decimals, basis, samples, day,    \
                 per_day)                                                                      \
    NUTRIENT_##id,
#include "feedstuff/nutrient.def"
#undef NUTRIENT
    NUTRIENT_COUNT
} Nutrient;

typedef enum { BASIS_STAYS, BASIS_SCALES } NutrientBasis;
typedef enum { COUNT_MEAN, COUNT_HIGHEST } SamplesCount;

typedef struct {
    const char *stem, *label, *unit;
    UnitFamily family;
    double least, most;
    int decimals;
    NutrientBasis basis;
    SamplesCount samples;
    const char *day_unit; /* "g", "mg", "kg", "Mcal"; "" for a share of another part */
    double per_day;       /* supply per day = value * kg of dry matter * per_day */
} NutrientKind;

const NutrientKind *nutrient_kind(Nutrient nutrient);
bool nutrient_find(const char *stem, Nutrient *nutrient);

/* Known from a laboratory or not at all, the highest of several samples, and never planned for.
 */
bool nutrient_is_hazard(Nutrient nutrient);

/* NUTRIENT_COUNT sheet columns, one a nutrient, in the order of the list. */
void nutrient_columns(SheetColumn *columns);

#endif
