#include "base/table_change.h"
#include "base/heading.h"
#include "base/text.h"
#include <assert.h>
#include <string.h>

typedef struct {
    const char *text;
    Place place;
} ChangedCell;

/* A row of cells with room for columns to come; the headings are one too. */
typedef struct {
    ChangedCell *cells;
    Place place; /* of all of it */
} ChangedRow;

struct TableChange {
    Arena *arena;
    const char *file;
    char separator;
    ChangedRow headings;
    ChangedRow *rows;
    int column_count, column_room, row_count, row_room;
};

#define ROOM_TO_ADD 32

static ChangedRow new_row(const TableChange *change, Place place) {
    return (ChangedRow){ARENA_ARRAY(change->arena, ChangedCell, change->column_room), place};
}

static TableChange *new_change(Arena *arena, const char *file, char separator, int columns,
                               int rows) {
    TableChange *change = ARENA_NEW(arena, TableChange);
    *change = (TableChange){.arena = arena,
                            .file = file,
                            .separator = separator,
                            .rows = ARENA_ARRAY(arena, ChangedRow, rows + ROOM_TO_ADD),
                            .column_room = columns + ROOM_TO_ADD,
                            .row_room = rows + ROOM_TO_ADD};
    if (change->column_room > TABLE_MOST_COLUMNS)
        change->column_room = TABLE_MOST_COLUMNS;
    return change;
}

static void take_cell(ChangedCell *cell, const Table *table, const TableCell *from) {
    *cell = (ChangedCell){from->text, table_place(table, from)};
}

TableChange *table_change(Arena *arena, const Table *table) {
    TableChange *change =
        new_change(arena, table->file, table->separator, table->column_count, table->row_count);
    change->column_count = table->column_count;
    change->row_count = table->row_count;
    change->headings = new_row(change, (Place){table->file, table->headings[0].line, 0});
    for (int column = 0; column < table->column_count; column++)
        take_cell(&change->headings.cells[column], table, &table->headings[column]);
    for (int row = 0; row < table->row_count; row++) {
        change->rows[row] =
            new_row(change, (Place){table->file, table_cell(table, row, 0)->line, 0});
        for (int column = 0; column < table->column_count; column++)
            take_cell(&change->rows[row].cells[column], table, table_cell(table, row, column));
    }
    return change;
}

TableChange *table_change_from_nothing(Arena *arena, const char *file, const char *heading,
                                       Place place) {
    TableChange *change = new_change(arena, file, ',', 1, 0);
    change->headings = new_row(change, place);
    table_change_add_column(change, heading, place);
    return change;
}

int table_change_rows(const TableChange *change) { return change->row_count; }
int table_change_columns(const TableChange *change) { return change->column_count; }

const char *table_change_heading(const TableChange *change, int column) {
    assert(column >= 0 && column < change->column_count);
    return change->headings.cells[column].text;
}

static ChangedCell *cell_at(const TableChange *change, int row, int column) {
    assert(row >= 0 && row < change->row_count);
    assert(column >= 0 && column < change->column_count);
    return &change->rows[row].cells[column];
}

const char *table_change_text(const TableChange *change, int row, int column) {
    return cell_at(change, row, column)->text;
}

int table_change_find_column(const TableChange *change, const char *heading) {
    const char *plain = heading_plain(change->arena, heading);
    for (int column = 0; column < change->column_count; column++) {
        const char *there = table_change_heading(change, column);
        if (text_same(heading_plain(change->arena, there), plain))
            return column;
    }
    return -1;
}

int table_change_add_column(TableChange *change, const char *heading, Place place) {
    if (change->column_count == change->column_room)
        return -1;
    const int column = change->column_count++;
    change->headings.cells[column] = (ChangedCell){heading, place};
    for (int row = 0; row < change->row_count; row++)
        change->rows[row].cells[column] = (ChangedCell){"", change->rows[row].place};
    return column;
}

static int add_row(TableChange *change, Place place, const ChangedRow *as) {
    if (change->row_count == TABLE_MOST_ROWS)
        return -1;
    if (change->row_count == change->row_room) {
        ChangedRow *rows = ARENA_ARRAY(change->arena, ChangedRow, 2 * change->row_room);
        memcpy(rows, change->rows, (size_t)change->row_count * sizeof(ChangedRow));
        change->rows = rows;
        change->row_room *= 2;
    }
    ChangedRow row = new_row(change, place);
    for (int column = 0; column < change->column_count; column++)
        row.cells[column] = (ChangedCell){as ? as->cells[column].text : "", place};
    change->rows[change->row_count] = row;
    return change->row_count++;
}

int table_change_add_row(TableChange *change, Place place) {
    return add_row(change, place, NULL);
}

int table_change_copy_row(TableChange *change, int row, Place place) {
    assert(row >= 0 && row < change->row_count);
    const ChangedRow as = change->rows[row];
    return add_row(change, place, &as);
}

void table_change_set(TableChange *change, int row, int column, const char *text, Place place) {
    *cell_at(change, row, column) = (ChangedCell){text, place};
}

void table_change_remove_row(TableChange *change, int row) {
    assert(row >= 0 && row < change->row_count);
    change->row_count--;
    memmove(&change->rows[row], &change->rows[row + 1],
            (size_t)(change->row_count - row) * sizeof(ChangedRow));
}

/* ---- written ---- */

typedef struct {
    int line, column; /* column 0: the whole row */
    Place from;
} Origin;

struct WrittenTable {
    const char *file;
    Text text;
    Origin *origins; /* by line, then column */
    int count;
    int line, column; /* where the next letter goes */
};

static void put(WrittenTable *written, const char *bytes) {
    text_add(&written->text, bytes);
    for (const char *byte = bytes; *byte; byte++) {
        const bool is_break = *byte == '\n' || (*byte == '\r' && byte[1] != '\n');
        written->line += is_break;
        if (is_break)
            written->column = 1;
        else
            written->column += ((unsigned char)*byte & 0xC0U) != 0x80U;
    }
}

static bool needs_quotes(const char *text) {
    return text[0] == '#' || strpbrk(text, ",;\t\"\r\n") != NULL;
}

static const char *quoted(Arena *arena, const char *text) {
    Text out = text_new(arena);
    text_add(&out, "\"");
    for (const char *byte = text; *byte; byte++) {
        text_add_bytes(&out, byte, 1);
        if (*byte == '"')
            text_add(&out, "\"");
    }
    text_add(&out, "\"");
    return out.bytes;
}

static void remember(WrittenTable *written, int column, Place from) {
    written->origins[written->count++] = (Origin){written->line, column, from};
}

/* Blank lines, which readers pass over, bring a row to the line it had. */
static void put_row(WrittenTable *written, const TableChange *change, const ChangedRow *row) {
    const char separator[] = {change->separator, '\0'};
    while (text_same(row->place.file, change->file) && written->line < row->place.line)
        put(written, "\n");
    remember(written, 0, row->place);
    for (int column = 0; column < change->column_count; column++) {
        const ChangedCell *cell = &row->cells[column];
        if (column > 0)
            put(written, separator);
        remember(written, written->column, cell->place);
        put(written, needs_quotes(cell->text) ? quoted(change->arena, cell->text) : cell->text);
    }
    put(written, "\n");
}

const WrittenTable *table_change_written(const TableChange *change) {
    WrittenTable *written = ARENA_NEW(change->arena, WrittenTable);
    const size_t rows = (size_t)change->row_count + 1;
    *written = (WrittenTable){
        .file = change->file,
        .text = text_new(change->arena),
        .origins =
            ARENA_ARRAY(change->arena, Origin, rows * ((size_t)change->column_count + 1)),
        .line = 1,
        .column = 1,
    };
    put_row(written, change, &change->headings);
    for (int row = 0; row < change->row_count; row++)
        put_row(written, change, &change->rows[row]);
    return written;
}

const char *written_bytes(const WrittenTable *written, size_t *length) {
    *length = written->text.length;
    return written->text.bytes;
}

Place written_place(const WrittenTable *written, int line, int column) {
    for (int i = 0; i < written->count; i++) {
        const Origin *of = &written->origins[i];
        if (of->line == line && of->column == column)
            return of->from;
    }
    return (Place){written->file, 0, 0};
}
