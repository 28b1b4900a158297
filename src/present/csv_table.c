#include "present/csv_table.h"

#include "base/csv_text.h"
#include "present/wrapped.h"

#include <string.h>

static const char MARK[] = "\xEF\xBB\xBF";
static const char END_OF_ROW[] = "\r\n";

/* A spreadsheet takes such a cell for a formula, some of them after blanks too. */
static bool looks_like_formula(const char *words) {
    const char *first = words + strspn(words, " ");
    return *first != '\0' && strchr("=+-@", *first) != NULL;
}

/* Tabs, line ends and what is not text go as on any page (wrapped.h). */
void csv_words(Text *out, const char *words) {
    const char *clean = one_line(out->arena, words);
    const char *guarded =
        arena_print(out->arena, "%s%s", looks_like_formula(clean) ? "'" : "", clean);
    if (strpbrk(guarded, ",;\""))
        csv_quoted_add(out, guarded);
    else
        text_add(out, guarded);
}

/* "1,234.5" without its commas; numbers never hold anything else to quote. */
static void csv_number(Text *out, const Cell *cell) {
    const char *words = number_words(out->arena, cell->number, cell->decimals);
    for (const char *at = words; *at; at++) {
        if (*at != ',')
            text_add_bytes(out, at, 1);
    }
}

static void csv_cell(Text *out, const Cell *cell) {
    switch (cell->kind) {
    case CELL_EMPTY:
        return;
    case CELL_TEXT:
        csv_words(out, cell->text);
        return;
    case CELL_NUMBER:
        csv_number(out, cell);
        return;
    }
}

static void csv_head(Text *out, const ReportColumn *column) {
    csv_words(out, column->unit[0]
                       ? arena_print(out->arena, "%s (%s)", column->label, column->unit)
                       : column->label);
}

static bool has_marks(const ReportTable *table, int column) {
    for (const ReportRow *row = table->first; row; row = row->next) {
        if (row->cells[column].mark)
            return true;
    }
    return false;
}

/* Marks stand in a column of their own, so that numbers stay numbers. */
void csv_rows(const ReportTable *table, Text *out) {
    bool *is_marked = ARENA_ARRAY(out->arena, bool, table->column_count);
    for (int column = 0; column < table->column_count; column++) {
        is_marked[column] = has_marks(table, column);
        text_add(out, column > 0 ? "," : "");
        csv_head(out, &table->columns[column]);
        if (is_marked[column]) {
            text_add(out, ",");
            csv_words(out, arena_print(out->arena, "%s: mark", table->columns[column].label));
        }
    }
    text_add(out, END_OF_ROW);
    for (const ReportRow *row = table->first; row; row = row->next) {
        for (int column = 0; column < table->column_count; column++) {
            text_add(out, column > 0 ? "," : "");
            csv_cell(out, &row->cells[column]);
            if (is_marked[column])
                text_print(out, ",%s", row->cells[column].mark ? row->cells[column].mark : "");
        }
        text_add(out, END_OF_ROW);
    }
}

const char *csv_marked(Arena *arena, const char *bytes) {
    for (const char *at = bytes; *at; at++) {
        if ((unsigned char)*at >= 0x80)
            return arena_print(arena, "%s%s", MARK, bytes);
    }
    return bytes;
}
