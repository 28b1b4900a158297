/* A row more, or one less, in a CSV file as it is: every other byte stays, whatever its
 * separator, line ends, byte order mark, comments and columns of the farmer's own. */
#ifndef STOCK_RECORD_ROW_H
#define STOCK_RECORD_ROW_H

#include "base/sheet.h"
#include "base/text.h"

/* The file with one row more at its end. `cells` are those of the sheet's columns, "" empty. A
 * column the file has not, and a cell is given for, is added to the heading line. */
Text record_with_row(Arena *arena, const char *bytes, size_t length, const Sheet *sheet,
                     const SheetColumn *columns, const char *const *cells, int column_count);

/* A new file: a comment, the headings, and one row. */
Text record_begun(Arena *arena, const char *comment, const SheetColumn *columns,
                  const char *const *cells, int column_count);

/* The file without the row of the sheet; *removed is that row as it stood, without its line
 * end.
 */
Text record_without_row(Arena *arena, const char *bytes, size_t length, const Sheet *sheet,
                        int row, const char **removed);

#endif
