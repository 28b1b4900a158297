/* Least concentrations of minerals and vitamins in the whole diet (models/coefficients/
 * mineral-needs.csv). Calcium and phosphorus have equations: mineral_requirement.h. */
#ifndef CATTLE_MINERAL_NEED_H
#define CATTLE_MINERAL_NEED_H

#include "base/source.h"
#include "feedstuff/nutrient.h"

typedef enum { ANIMAL_GROWING, ANIMAL_PREGNANT, ANIMAL_NURSING, ANIMAL_COUNT } AnimalState;

typedef struct {
    double least[NUTRIENT_COUNT]
                [ANIMAL_COUNT]; /* in the nutrient's unit; 0 where none is set */
    /* No ration is held to these: the report says how much of them minerals bring. Of all
     * cattle; 0 where none is set. */
    double guide[NUTRIENT_COUNT];
    /* Nor to these, which forage holds plenty of: they are only told. */
    double told[NUTRIENT_COUNT];
    SourceKey source[NUTRIENT_COUNT];
} MineralNeeds;

/* NULL when faults were added. */
const MineralNeeds *mineral_needs_parse(Arena *arena, Faults *faults, const char *file,
                                        const char *bytes, size_t length);

#endif
