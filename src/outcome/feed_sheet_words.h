/* What a feed sheet says in sentences. For feed_sheets.c alone. */
#ifndef OUTCOME_FEED_SHEET_WORDS_H
#define OUTCOME_FEED_SHEET_WORDS_H

#include "outcome/plan_findings.h"

/* What a cold day changes, for the whole group; "" where cold adds nothing to speak of. */
const char *sheet_cold_words(Arena *arena, const PlanFindings *findings, int block);

/* What of the load can poison: prussic acid, untested sweet clover, and to horses an ionophore;
 * "". */
const char *sheet_poison_words(Arena *arena, const PlanFindings *findings, int block);

/* The one caution that matters most for this ration. */
const char *sheet_caution_words(Arena *arena, const PlanFindings *findings, int block);

/* Own stacks that this group must not have, for their safety; "". */
const char *sheet_forbidden_words(Arena *arena, const PlanFindings *findings, int block);

/* What of the feeds is lost on the ground and so is in the amounts; "". */
const char *sheet_waste_words(Arena *arena, const PlanFindings *findings, int block);

#endif
