/* A table of a report as a file a spreadsheet opens: one head row with the units in it, CRLF,
 * numbers plain ("1234.5", as many decimals as on the page), a byte order mark where a letter
 * is not ASCII. Text that a spreadsheet would take for a formula stands after an apostrophe. */
#ifndef PRESENT_CSV_TABLE_H
#define PRESENT_CSV_TABLE_H

#include "base/text.h"
#include "outcome/report.h"

void csv_rows(const ReportTable *table, Text *out);

/* One cell of text, quoted where it must be. */
void csv_words(Text *out, const char *words);

/* The mark, where any letter of `bytes` needs it, and the bytes. */
const char *csv_marked(Arena *arena, const char *bytes);

#endif
