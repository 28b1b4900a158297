#include "present/html_table.h"

#include "present/html_text.h"
#include "present/wrapped.h"

enum {
    PAGE_LETTERS = 120, /* beside each other on a printed page */
    FIRST_LETTERS = 24, /* the first column, which may wrap */
    TEXT_LETTERS = 18,  /* any other column of text, which may wrap too */
    GAP_LETTERS = 2
};

static int larger(int a, int b) { return a > b ? a : b; }
static int smaller(int a, int b) { return a < b ? a : b; }

static const char *words_of(Arena *arena, const ReportTable *table, const ReportRow *row,
                            int column) {
    return cell_words(arena, &row->cells[column],
                      table->columns[column].is_number && !row->is_total);
}

static int letters_of(Arena *arena, const ReportTable *table, int column) {
    const ReportColumn *of = &table->columns[column];
    int widest = larger(widest_word(of->label), text_columns(of->unit));
    for (const ReportRow *row = table->first; row; row = row->next)
        widest = larger(widest, text_columns(words_of(arena, table, row, column)));
    if (!of->is_number)
        widest = smaller(widest, column == 0 ? FIRST_LETTERS : TEXT_LETTERS);
    return widest + GAP_LETTERS;
}

/* As many columns from `from` on as fit beside the first, but at most `most`; at least one. */
static int part_end(const ReportTable *table, const int *letters, int from, int most) {
    int used = letters[0];
    int next = from;
    while (next < table->column_count && next - from < most) {
        used += letters[next];
        if (used > PAGE_LETTERS && next > from)
            break;
        next++;
    }
    return next;
}

/* Columns a part, so that the last is not left with one. */
static int columns_a_part(const ReportTable *table, const int *letters) {
    const int columns = table->column_count - 1;
    int parts = 0;
    for (int next = 1; next < table->column_count; parts++)
        next = part_end(table, letters, next, columns);
    return parts > 0 ? (columns + parts - 1) / parts : 1;
}

static void put_head_cell(const ReportColumn *column, Text *out) {
    text_print(out, "<th role=\"columnheader\" scope=\"col\"%s>",
               column->is_number ? " class=\"number\"" : "");
    html_text(out, column->label);
    if (column->unit[0]) {
        text_add(out, " <span class=\"unit\">");
        html_text(out, column->unit);
        text_add(out, "</span>");
    }
    text_add(out, "</th>");
}

static void put_first_cell(const ReportTable *table, const char *words, Text *out) {
    text_print(out, "<th role=\"rowheader\" scope=\"row\"%s>",
               table->columns[0].is_number ? " class=\"number\"" : "");
    html_text(out, words);
    text_add(out, "</th>");
}

static void put_cell(const ReportTable *table, const ReportRow *row, int column, Text *out) {
    const ReportColumn *of = &table->columns[column];
    const bool is_empty = row->cells[column].kind == CELL_EMPTY;
    text_print(out, "<td role=\"cell\" class=\"%s%s\" data-label=\"",
               of->is_number ? "number" : "words", is_empty ? " empty" : "");
    html_text(out, of->label);
    if (of->unit[0]) {
        text_add(out, ", ");
        html_text(out, of->unit);
    }
    text_add(out, "\">");
    html_text(out, words_of(out->arena, table, row, column));
    text_add(out, "</td>");
}

static void put_caption(const ReportTable *table, bool is_continued, Text *out) {
    if (!table->caption[0])
        return;
    text_add(out, "<caption>");
    html_text(out, table->caption);
    text_print(out, "%s</caption>\n", is_continued ? " (continued)" : "");
}

/* In a table of several parts, a row with nothing in the columns of this one. */
static bool is_bare(const ReportTable *table, const ReportRow *row, int from, int to) {
    if (from == 1 && to == table->column_count)
        return false;
    for (int column = from; column < to; column++) {
        if (row->cells[column].kind != CELL_EMPTY)
            return false;
    }
    return true;
}

static void put_rows(const ReportTable *table, int from, int to, Text *out) {
    text_add(out, "<tbody role=\"rowgroup\">\n");
    for (const ReportRow *row = table->first; row; row = row->next) {
        if (is_bare(table, row, from, to))
            continue;
        text_print(out, "<tr role=\"row\"%s>", row->is_total ? " class=\"total\"" : "");
        put_first_cell(table, words_of(out->arena, table, row, 0), out);
        for (int column = from; column < to; column++)
            put_cell(table, row, column, out);
        text_add(out, "</tr>\n");
    }
    if (!table->first) {
        text_add(out, "<tr role=\"row\">");
        put_first_cell(table, "none", out);
        for (int column = from; column < to; column++)
            text_add(out, "<td role=\"cell\" class=\"empty\"></td>");
        text_add(out, "</tr>\n");
    }
    text_add(out, "</tbody>\n");
}

static void put_part(const ReportTable *table, const char *name, int from, int to, Text *out) {
    text_add(out, "<table role=\"table\" data-key=\"");
    html_text(out, table->key);
    text_add(out, "\"");
    if (!table->caption[0]) {
        text_add(out, " aria-label=\"");
        html_text(out, name);
        text_add(out, "\"");
    }
    text_add(out, ">\n");
    put_caption(table, from > 1, out);
    text_add(out, "<thead role=\"rowgroup\">\n<tr role=\"row\">");
    put_head_cell(&table->columns[0], out);
    for (int column = from; column < to; column++)
        put_head_cell(&table->columns[column], out);
    text_add(out, "</tr>\n</thead>\n");
    put_rows(table, from, to, out);
    text_add(out, "</table>\n");
}

void html_table(const ReportTable *table, const char *name, Text *out) {
    int *letters = ARENA_ARRAY(out->arena, int, table->column_count);
    for (int column = 0; column < table->column_count; column++)
        letters[column] = letters_of(out->arena, table, column);
    const int most = columns_a_part(table, letters);
    int next = 1;
    do {
        const int from = next;
        next = part_end(table, letters, from, most);
        put_part(table, name, from, next, out);
    } while (next < table->column_count);
}
