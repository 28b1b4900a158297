#include "stock/record_row.h"
#include "base/csv_text.h"
#include <string.h>

/* ---- what is there ---- */

static const char *line_end(const char *at, const char *stop) {
    while (at < stop && *at != '\n' && *at != '\r')
        at++;
    return at;
}

static const char *behind_break(const char *at, const char *stop) {
    if (at < stop && *at == '\r')
        at++;
    else if (at < stop)
        return at + 1;
    return at < stop && *at == '\n' ? at + 1 : at;
}

/* The first line break of the file, as it is written there. */
static const char *break_of(Arena *arena, const char *bytes, size_t length) {
    const char *const stop = bytes + length;
    const char *const end = line_end(bytes, stop);
    const char *const next = behind_break(end, stop);
    return next > end ? arena_copy(arena, end, (size_t)(next - end)) : "\n";
}

static const char *line_start(const char *bytes, size_t length, int line) {
    const char *const stop = bytes + length;
    const char *at = bytes;
    for (int i = 1; i < line; i++)
        at = behind_break(line_end(at, stop), stop);
    return at;
}

/* Behind the last byte of the record, before its line break: breaks inside quotation marks are
 * of a cell. */
static const char *record_end(const char *at, const char *stop) {
    bool is_quoted = false;
    for (; at < stop; at++) {
        if (*at == '"')
            is_quoted = !is_quoted;
        if (!is_quoted && (*at == '\n' || *at == '\r'))
            break;
    }
    return at;
}

static void add_separator(Text *out, char separator) { text_add_bytes(out, &separator, 1); }

/* ---- a row more ---- */

typedef struct {
    const Sheet *sheet;
    const SheetColumn *columns;
    const char *const *cells;
    int column_count;
} NewRow;

static bool is_added(const NewRow *row, int column) {
    return row->cells[column][0] != '\0' && !sheet_has(row->sheet, column);
}

/* The heading line is the first that is neither blank nor a comment, quoted or not: its cells
 * are those the table counted. */
static const char *heading_start(const char *bytes, const char *stop) {
    const char *at = bytes;
    if (stop - at >= 3 && memcmp(at, "\xEF\xBB\xBF", 3) == 0)
        at += 3;
    while (at < stop) {
        const char *end = record_end(at, stop);
        const char *first = at;
        while (first < end && strchr(" \t\",;", *first))
            first++;
        if (first < end && *first != '#')
            return at;
        const bool is_comment =
            at + strspn(at, " \t") < end && *(at + strspn(at, " \t")) == '#';
        at = behind_break(is_comment ? line_end(at, stop) : end, stop);
    }
    return at;
}

/* Cells of one physical record. */
static int cells_in(const char *at, const char *end, char separator) {
    int count = 1;
    bool is_quoted = false;
    for (; at < end; at++) {
        if (*at == '"')
            is_quoted = !is_quoted;
        count += !is_quoted && *at == separator;
    }
    return count;
}

static void add_row(Text *out, const NewRow *row, int width) {
    const char separator = sheet_separator(row->sheet);
    for (int place = 0; place < sheet_width(row->sheet); place++) {
        if (place > 0)
            add_separator(out, separator);
        for (int column = 0; column < row->column_count; column++) {
            if (sheet_position(row->sheet, column) == place)
                csv_cell_add(out, row->cells[column], separator);
        }
    }
    int place = sheet_width(row->sheet);
    for (int column = 0; column < row->column_count; column++) {
        if (!is_added(row, column))
            continue;
        for (; place < width; place++)
            add_separator(out, separator);
        add_separator(out, separator);
        csv_cell_add(out, row->cells[column], separator);
        place = ++width;
    }
}

static bool adds_any(const NewRow *row) {
    for (int column = 0; column < row->column_count; column++) {
        if (is_added(row, column))
            return true;
    }
    return false;
}

Text record_with_row(Arena *arena, const char *bytes, size_t length, const Sheet *sheet,
                     const SheetColumn *columns, const char *const *cells, int column_count) {
    const NewRow row = {sheet, columns, cells, column_count};
    const char *const stop = bytes + length;
    const char *const line_break = break_of(arena, bytes, length);
    const char *const heading_end = record_end(heading_start(bytes, stop), stop);
    const char separator = sheet_separator(sheet);
    Text out = text_new(arena);
    text_add_bytes(&out, bytes, (size_t)(heading_end - bytes));
    for (int column = 0; column < column_count; column++) {
        if (!is_added(&row, column))
            continue;
        add_separator(&out, separator);
        text_add(&out, columns[column].stem);
    }
    text_add_bytes(&out, heading_end, (size_t)(stop - heading_end));
    if (out.length > 0 && !strchr("\r\n", out.bytes[out.length - 1]))
        text_add(&out, line_break);
    const int width = adds_any(&row)
                          ? cells_in(heading_start(bytes, stop), heading_end, separator)
                          : sheet_width(sheet);
    add_row(&out, &row, width);
    text_add(&out, line_break);
    return out;
}

Text record_begun(Arena *arena, const char *comment, const SheetColumn *columns,
                  const char *const *cells, int column_count) {
    Text out = text_new(arena);
    text_print(&out, "# %s\n", comment);
    for (int column = 0; column < column_count; column++)
        text_print(&out, "%s%s", column > 0 ? "," : "", columns[column].stem);
    text_add(&out, "\n");
    for (int column = 0; column < column_count; column++) {
        text_add(&out, column > 0 ? "," : "");
        csv_cell_add(&out, cells[column], ',');
    }
    text_add(&out, "\n");
    return out;
}

Text record_without_row(Arena *arena, const char *bytes, size_t length, const Sheet *sheet,
                        int row, const char **removed) {
    const char *const stop = bytes + length;
    const char *const start = line_start(bytes, length, sheet_line(sheet, row));
    const char *const end = record_end(start, stop);
    const char *const next = behind_break(end, stop);
    *removed = arena_copy(arena, start, (size_t)(end - start));
    Text out = text_new(arena);
    text_add_bytes(&out, bytes, (size_t)(start - bytes));
    text_add_bytes(&out, next, (size_t)(stop - next));
    return out;
}
