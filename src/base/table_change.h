/* A table with cells changed, rows and columns added or taken away, written out as a CSV file
 * again: the readers then check it as any other file. What stands in it keeps its place: the
 * place in its own file of what was left alone, the place of the change of what was changed. */
#ifndef BASE_TABLE_CHANGE_H
#define BASE_TABLE_CHANGE_H

#include "base/table.h"

typedef struct TableChange TableChange;

/* Begins with the table as it is. */
TableChange *table_change(Arena *arena, const Table *table);
/* Begins with one heading and no row, for a file that is not there. */
TableChange *table_change_from_nothing(Arena *arena, const char *file, const char *heading,
                                       Place place);

int table_change_rows(const TableChange *change);
int table_change_columns(const TableChange *change);
const char *table_change_heading(const TableChange *change, int column);
const char *table_change_text(const TableChange *change, int row, int column);

/* The column so headed, case, blanks and dashes aside; -1: none. */
int table_change_find_column(const TableChange *change, const char *heading);

/* Each returns the place of what was added; -1 where the table is as large as one may be,
 * or 32 columns were added. A row begins empty, or as a copy of another. */
int table_change_add_column(TableChange *change, const char *heading, Place place);
int table_change_add_row(TableChange *change, Place place);
int table_change_copy_row(TableChange *change, int row, Place place);

void table_change_set(TableChange *change, int row, int column, const char *text, Place place);
void table_change_remove_row(TableChange *change, int row);

typedef struct WrittenTable WrittenTable;

/* As bytes; the lines of rows that were there stay what they were. */
const WrittenTable *table_change_written(const TableChange *change);
const char *written_bytes(const WrittenTable *written, size_t *length);

/* Where that comes from which a fault in the written bytes points at: a cell, a whole row, or
 * the whole file. */
Place written_place(const WrittenTable *written, int line, int column);

#endif
