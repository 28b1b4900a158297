/* Invented fields of next year for invented farms: same seed, same fields. */
#ifndef SUPPORT_FIELD_MAKER_H
#define SUPPORT_FIELD_MAKER_H

#include "support/farm_maker.h"

/* Puts a fields.csv beside the files of a farm that was written: one to three fields, each with
 * one to three days and one or two ways, some rows with a yield and a test of their own and the
 * others by the curve. */
void fields_made(Arena *arena, unsigned long long seed, const FarmDraft *draft,
                 FarmRequest *request);

#endif
