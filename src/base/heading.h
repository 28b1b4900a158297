/* Headings as people write them, matched with the columns a sheet may have. */
#ifndef BASE_HEADING_H
#define BASE_HEADING_H

#include "base/sheet.h"
#include "base/unit_family.h"

/* Small letters, one underscore between words: "Weight (kg)" is weight_kg, "Ash %" ash_pct,
 * "Price $/tonne" price_per_tonne. */
const char *heading_plain(Arena *arena, const char *written);

/* The user's own column, which is read by nobody. */
bool heading_is_own(const char *plain);

/* The column and the form in which its unit was written, in the words of the column or in
 * others that say the same (heading_alias.def); false when no column has it. */
bool heading_match(Arena *arena, const char *plain, const SheetColumn *columns, int count,
                   int *column, const UnitForm **form);

/* "weight_kg or weight_lb" */
const char *heading_names(Arena *arena, const SheetColumn *column);

/* Every heading of the file; of several units the first, the others as endings: weight_kg/_lb.
 */
const char *heading_list(Arena *arena, const SheetColumn *columns, int count);

/* What is wrong with a heading that no column has, and how to mend it; the columns it may have
 * been meant for are marked in is_meant[count]. NULL when it is like none of them. */
const char *heading_cure(Arena *arena, const char *written, const SheetColumn *columns,
                         int count, bool *is_meant);

#endif
