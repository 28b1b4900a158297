/* CSV in, every cell placed. The only user of <csv.h>.
 *
 * Reads comma, semicolon or tab separated text as spreadsheets write it: BOM, CRLF, quotes,
 * quoted line breaks, blank lines, `#` comment lines (first non-blank character of a record).
 * The separator is found in the heading line. Anything else (UTF-16, a workbook file, bytes
 * that are not UTF-8, a stray quote, a NUL byte, a row with more cells than the heading) is a
 * placed fault that says how to mend it. A shorter row has empty cells at its end. Leading and
 * trailing blanks of a cell are dropped. A comment with as many cells as a row is doubted: a
 * name may begin with #.
 */
#ifndef BASE_TABLE_H
#define BASE_TABLE_H

#include "base/arena.h"
#include "base/fault.h"
#include <stdbool.h>

typedef struct {
    const char *text; /* "" where empty, never NULL */
    int line, column; /* where it begins; column in characters */
} TableCell;

typedef struct {
    const char *file;
    char separator;
    int column_count, row_count; /* rows without the heading */
    const TableCell *headings;   /* [column_count] */
    const TableCell *cells;      /* [row_count * column_count] */
} Table;

#define TABLE_MOST_BYTES (8 * 1024 * 1024)
#define TABLE_MOST_ROWS 20000
#define TABLE_MOST_COLUMNS 200

/* NULL: a fault was added. An empty file, or one without a heading line, is a fault. */
const Table *table_parse(Arena *arena, Faults *faults, const char *file, const char *bytes,
                         size_t length);

const TableCell *table_cell(const Table *table, int row, int column);
Place table_place(const Table *table, const TableCell *cell);

#endif
