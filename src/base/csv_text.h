/* Cells of a CSV file as a spreadsheet, and table.h, read them. */
#ifndef BASE_CSV_TEXT_H
#define BASE_CSV_TEXT_H

#include "base/text.h"

/* One cell, in quotation marks where it needs them. */
void csv_cell_add(Text *out, const char *cell, char separator);

/* One cell in quotation marks, its own doubled. */
void csv_quoted_add(Text *out, const char *cell);

#endif
