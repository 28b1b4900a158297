/* The forms a column of a unit family may be headed and written in: one list, unit_family.def.
 */
#ifndef BASE_UNIT_FAMILY_H
#define BASE_UNIT_FAMILY_H

#include "base/sheet.h"

typedef struct {
    UnitFamily family;
    const char *suffix; /* of the heading, with its underscore */
    double times, add;  /* own = (written + add) * times */
    const char *shown;
} UnitForm;

/* The forms of one family, at least one; the first is the one the program itself would use. */
const UnitForm *unit_forms(UnitFamily family, int *count);

#endif
