/* The text of a CSV file before it is cells: its lines, and whether it is text at all. For
 * table.c alone. */
#ifndef BASE_TABLE_TEXT_H
#define BASE_TABLE_TEXT_H

#include "base/fault.h"
#include <stdbool.h>
#include <stddef.h>

typedef struct {
    const char *file;
    const char *bytes; /* [length] */
    size_t length;
} TableText;

typedef struct {
    const char *start, *end, *next; /* end: without the line break */
} TableLine;

TableLine table_line_at(const TableText *text, const char *start);

/* Behind the byte order mark, where there is one. */
const char *table_first_letter(const TableText *text);

/* Letters of UTF-8 in [byte, end). */
int characters_between(const char *byte, const char *end);

/* false: a fault was added, of what no reading of cells could make sense of. */
bool table_text_is_readable(Faults *faults, const TableText *text);

#endif
