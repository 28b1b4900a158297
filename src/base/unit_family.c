#include "base/unit_family.h"

#include "base/quantity.h"
#include <assert.h>

static const UnitForm FORMS[] = {
#define UNIT_FORM(family, suffix, times, add, shown) {UNIT_##family, suffix, times, add, shown},
#include "base/unit_family.def"
#undef UNIT_FORM
};

#define FORM_COUNT ((int)(sizeof FORMS / sizeof FORMS[0]))

const UnitForm *unit_forms(UnitFamily family, int *count) {
    int first = 0;
    while (first < FORM_COUNT && FORMS[first].family != family)
        first++;
    assert(first < FORM_COUNT);
    int end = first;
    while (end < FORM_COUNT && FORMS[end].family == family)
        end++;
    *count = end - first;
    return &FORMS[first];
}
