#include "present/present.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

static const char REPLACEMENT[] = "\xEF\xBF\xBD"; /* U+FFFD, for bytes that are not UTF-8 */

static void put_escape(Text *out, unsigned letter) {
    switch (letter) {
    case '"':
        text_add(out, "\\\"");
        return;
    case '\\':
        text_add(out, "\\\\");
        return;
    case '\n':
        text_add(out, "\\n");
        return;
    case '\r':
        text_add(out, "\\r");
        return;
    case '\t':
        text_add(out, "\\t");
        return;
    case '\b':
        text_add(out, "\\b");
        return;
    case '\f':
        text_add(out, "\\f");
        return;
    default:
        text_print(out, "\\u%04x", letter);
    }
}

/* Bytes of the character at `at` that must be escaped: a quote, a backslash, a control
 * character of one byte or (U+0080 to U+009F) of two; 0 for any other. */
static size_t bytes_to_escape(const unsigned char *at, size_t rest) {
    if (at[0] < 0x20 || at[0] == '"' || at[0] == '\\' || at[0] == 0x7F)
        return 1;
    return rest > 1 && at[0] == 0xC2 && at[1] < 0xA0 ? 2 : 0;
}

static void put_valid(Text *out, const char *bytes, size_t length) {
    size_t from = 0;
    for (size_t at = 0; at < length;) {
        const unsigned char *letter = (const unsigned char *)bytes + at;
        const size_t escaped = bytes_to_escape(letter, length - at);
        if (escaped == 0) {
            at++;
            continue;
        }
        text_add_bytes(out, bytes + from, at - from);
        put_escape(out, letter[escaped - 1]);
        from = at += escaped;
    }
    text_add_bytes(out, bytes + from, length - from);
}

static void put_string(Text *out, const char *text) {
    size_t rest = strlen(text);
    text_add(out, "\"");
    for (long bad; (bad = text_first_bad_utf8(text, rest)) >= 0;) {
        put_valid(out, text, (size_t)bad);
        text_add(out, REPLACEMENT);
        text += bad + 1;
        rest -= (size_t)bad + 1;
    }
    put_valid(out, text, rest);
    text_add(out, "\"");
}

/* "1e+21" and "1e-07" lose what says nothing: "1e21", "1e-7". */
static void put_number(Text *out, double number) {
    if (!isfinite(number)) {
        text_add(out, "null");
        return;
    }
    char digits[32];
    snprintf(digits, sizeof digits, "%.12g", number == 0 ? 0.0 : number);
    const size_t mantissa = strcspn(digits, "e");
    text_add_bytes(out, digits, mantissa);
    if (!digits[mantissa])
        return;
    const char *exponent = digits + mantissa + 1;
    text_add(out, *exponent == '-' ? "e-" : "e");
    text_add(out, exponent + strspn(exponent, "+-0"));
}

static void put_figure(Text *out, const Figure *figure, int depth);

static void put_each(Text *out, const Figure *parent, int depth) {
    for (const Figure *member = parent->first; member; member = member->next) {
        text_print(out, "\n%*s", 2 * (depth + 1), "");
        if (member->key) {
            put_string(out, member->key);
            text_add(out, ": ");
        }
        put_figure(out, member, depth + 1);
        if (member->next)
            text_add(out, ",");
    }
}

/* The members of two objects as those of one. */
static void put_both(Text *out, const Figure *one, const Figure *other) {
    text_add(out, "{");
    put_each(out, one, 0);
    text_add(out, one->first && other->first ? "," : "");
    put_each(out, other, 0);
    text_add(out, "\n}");
}

static void put_members(Text *out, const Figure *parent, int depth, const char *brackets) {
    text_add_bytes(out, brackets, 1);
    put_each(out, parent, depth);
    if (parent->first)
        text_print(out, "\n%*s", 2 * depth, "");
    text_add_bytes(out, brackets + 1, 1);
}

static void put_figure(Text *out, const Figure *figure, int depth) {
    switch (figure->kind) {
    case FIGURE_NOTHING:
        text_add(out, "null");
        return;
    case FIGURE_TRUTH:
        text_add(out, figure->truth ? "true" : "false");
        return;
    case FIGURE_NUMBER:
        put_number(out, figure->number);
        return;
    case FIGURE_TEXT:
        put_string(out, figure->text);
        return;
    case FIGURE_LIST:
        put_members(out, figure, depth, "[]");
        return;
    case FIGURE_OBJECT:
        put_members(out, figure, depth, "{}");
        return;
    }
}

static void put_cell(Figure *row, const Cell *cell) {
    switch (cell->kind) {
    case CELL_EMPTY:
        figure_list_number(row, (double)NAN);
        return;
    case CELL_TEXT:
        figure_list_text(row, cell->text);
        return;
    case CELL_NUMBER:
        figure_list_number(row, cell->number);
        return;
    }
}

static void put_table(Figure *list, const ReportSection *section, const ReportTable *table) {
    Figure *of = figure_list_object(list);
    figure_text(of, "section", section->heading);
    figure_text(of, "key", table->key);
    figure_text(of, "caption", table->caption);
    Figure *columns = figure_list(of, "columns");
    for (int i = 0; i < table->column_count; i++) {
        Figure *column = figure_list_object(columns);
        figure_text(column, "key", table->columns[i].key);
        figure_text(column, "label", table->columns[i].label);
        figure_text(column, "unit", table->columns[i].unit);
    }
    Figure *rows = figure_list(of, "rows");
    for (const ReportRow *row = table->first; row; row = row->next) {
        Figure *cells = figure_list_list(rows);
        for (int i = 0; i < table->column_count; i++)
            put_cell(cells, &row->cells[i]);
    }
}

/* The tables as on the page, in its units, beside the figures. */
static Figure *page_tables(Arena *arena, const Report *report) {
    Figure *beside = figure_object(arena);
    Figure *list = NULL;
    for (const ReportSection *section = report->first; section; section = section->next) {
        for (const ReportPiece *piece = section->first; piece; piece = piece->next) {
            if (piece->kind != PIECE_TABLE)
                continue;
            list = list ? list : figure_list(beside, "tables");
            put_table(list, section, piece->table);
        }
    }
    return beside;
}

void present_json(const Report *report, Text *out) {
    assert(report->figures);
    const Figure *beside = page_tables(out->arena, report);
    if (beside->first)
        put_both(out, report->figures, beside);
    else
        put_figure(out, report->figures, 0);
    text_add(out, "\n");
}
