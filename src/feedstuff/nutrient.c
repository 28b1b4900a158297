#include "feedstuff/nutrient.h"
#include "base/text.h"
#include <assert.h>

static const NutrientKind KINDS[NUTRIENT_COUNT] = {
#define NUTRIENT(id, stem, family, label, unit, least, most, decimals, basis, samples, day,    \
                 per_day)                                                                      \
    {stem,          label,           unit, UNIT_##family, least, most, decimals,               \
     BASIS_##basis, COUNT_##samples, day,  per_day},
#include "feedstuff/nutrient.def"
#undef NUTRIENT
};

const NutrientKind *nutrient_kind(Nutrient nutrient) {
    assert(nutrient < NUTRIENT_COUNT);
    return &KINDS[nutrient];
}

bool nutrient_is_hazard(Nutrient nutrient) {
    return nutrient_kind(nutrient)->samples == COUNT_HIGHEST;
}

bool nutrient_find(const char *stem, Nutrient *nutrient) {
    for (int i = 0; i < NUTRIENT_COUNT; i++) {
        if (text_same(KINDS[i].stem, stem)) {
            *nutrient = (Nutrient)i;
            return true;
        }
    }
    return false;
}

void nutrient_columns(SheetColumn *columns) {
    for (int i = 0; i < NUTRIENT_COUNT; i++) {
        columns[i] = (SheetColumn){KINDS[i].stem, KINDS[i].family, COLUMN_OPTIONAL,
                                   KINDS[i].least, KINDS[i].most};
    }
}
