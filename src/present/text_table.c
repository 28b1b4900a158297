/* Every column has a natural width (nothing wraps) and a least one (numbers and short labels
 * stay whole, text keeps room to be read). When all natural widths fit they are taken; else
 * columns begin at their least and share what is left over; when not even the least fit,
 * columns go into further parts of about as many columns each. */
#include "present/text_table.h"

#include "present/wrapped.h"

#include <stdbool.h>

enum {
    GAP = 2,                 /* blanks between columns */
    LONGEST_WHOLE_WORD = 16, /* longer ones may be broken to make a table fit */
    LEAST_TEXT = 10,         /* narrower text columns are hard to read */
    LEAST_FIRST = 24,        /* the first column names the row: it wants more */
    SHORT_LABEL = 8          /* a label up to this long is not wrapped */
};

typedef struct {
    bool is_number;
    int least, natural, width;
} Span;

typedef struct {
    const ReportTable *table;
    Arena *arena;
    Text *out;
    int page_width;
    int row_count;
    const char **words; /* [row_count * column_count], as shown */
    Span *span;         /* [column_count] */
    int *shown;         /* the columns of the part being drawn */
    int shown_count;
} Layout;

static int larger(int a, int b) { return a > b ? a : b; }
static int smaller(int a, int b) { return a < b ? a : b; }

/* Numbers, and what stands in a column of numbers, are never broken; nor are short labels. */
static int least_of(const Span *span, const Cell *cell, const char *words) {
    const int whole = text_columns(words);
    if (span->is_number && (cell || whole <= SHORT_LABEL))
        return smaller(whole, LONGEST_WHOLE_WORD);
    return smaller(widest_word(words), LONGEST_WHOLE_WORD);
}

static void widen(Span *span, const Cell *cell, const char *words) {
    span->natural = larger(span->natural, text_columns(words));
    span->least = larger(span->least, least_of(span, cell, words));
}

static void measure_columns(Layout *layout) {
    const ReportTable *table = layout->table;
    const int columns = table->column_count;
    for (int column = 0; column < columns; column++) {
        Span *span = &layout->span[column];
        *span = (Span){
            .is_number = table->columns[column].is_number != 0, .natural = 1, .least = 1};
        widen(span, NULL, one_line(layout->arena, table->columns[column].label));
        widen(span, NULL, one_line(layout->arena, table->columns[column].unit));
        int at = column;
        for (const ReportRow *row = table->first; row; row = row->next, at += columns) {
            layout->words[at] =
                one_line(layout->arena, cell_words(layout->arena, &row->cells[column],
                                                   span->is_number && !row->is_total));
            widen(span, &row->cells[column], layout->words[at]);
        }
        const int readable = column == 0 ? LEAST_FIRST : LEAST_TEXT;
        if (!span->is_number)
            span->least = larger(span->least, smaller(span->natural, readable));
    }
}

/* Shows the first column and, from `from` on, as many as fit at their least but at most `most`;
 * returns the next. */
static int choose_part(Layout *layout, int from, int most) {
    int used = layout->span[0].least;
    int next = from;
    layout->shown[0] = 0;
    layout->shown_count = 1;
    while (next < layout->table->column_count && layout->shown_count <= most) {
        used += GAP + layout->span[next].least;
        if (used > layout->page_width && layout->shown_count > 1)
            break;
        layout->shown[layout->shown_count++] = next++;
    }
    return next;
}

/* Columns a part, so that the last is not left with one. */
static int columns_a_part(Layout *layout) {
    const int columns = layout->table->column_count - 1;
    int parts = 0;
    for (int next = 1; next < layout->table->column_count; parts++)
        next = choose_part(layout, next, columns);
    return parts > 0 ? (columns + parts - 1) / parts : 1;
}

static int part_width(const Layout *layout) {
    int width = GAP * (layout->shown_count - 1);
    for (int i = 0; i < layout->shown_count; i++)
        width += layout->span[layout->shown[i]].width;
    return width;
}

/* The narrowest of the shown columns of one kind that could use more room. */
static Span *narrowest(const Layout *layout, bool is_number) {
    Span *found = NULL;
    for (int i = 0; i < layout->shown_count; i++) {
        Span *span = &layout->span[layout->shown[i]];
        if (span->is_number == is_number && span->width < span->natural &&
            (!found || span->width < found->width))
            found = span;
    }
    return found;
}

/* Text first: a wrapped cell costs a line in every row, a wrapped label only one at the head.
 */
static void share_width(Layout *layout) {
    for (int i = 0; i < layout->shown_count; i++) {
        Span *span = &layout->span[layout->shown[i]];
        span->width = span->least;
    }
    for (int spare = layout->page_width - part_width(layout); spare > 0; spare--) {
        Span *span = narrowest(layout, false);
        if (!span)
            span = narrowest(layout, true);
        if (!span)
            return;
        span->width++;
    }
}

static void put_repeated(Text *out, char letter, int times) {
    for (int i = 0; i < times; i++)
        text_add_bytes(out, &letter, 1);
}

/* One line of a row: each column's piece in its place, no blanks at the end. */
static void put_line(const Layout *layout, const char *const *pieces) {
    int column = 0; /* where the next column of the table begins */
    int at = 0;     /* where the line ends so far */
    for (int i = 0; i < layout->shown_count; i++) {
        const Span *span = &layout->span[layout->shown[i]];
        const int columns = text_columns(pieces[i]);
        const int begin = column + (span->is_number ? span->width - columns : 0);
        if (columns > 0) {
            put_repeated(layout->out, ' ', begin - at);
            text_add(layout->out, pieces[i]);
            at = begin + columns;
        }
        column += span->width + GAP;
    }
    text_add(layout->out, "\n");
}

/* `texts`: one of each shown column. Labels stand at the foot of the head, cells at the top. */
static void put_band(const Layout *layout, const char *const *texts, bool stands_at_foot) {
    const int count = layout->shown_count;
    WrappedLines *lines = ARENA_ARRAY(layout->arena, WrappedLines, count);
    int height = 1;
    for (int i = 0; i < count; i++) {
        lines[i] = wrap_text(layout->arena, texts[i], layout->span[layout->shown[i]].width);
        height = larger(height, lines[i].count);
    }
    const char **pieces = ARENA_ARRAY(layout->arena, const char *, count);
    for (int at = 0; at < height; at++) {
        for (int i = 0; i < count; i++) {
            const int line = stands_at_foot ? at - (height - lines[i].count) : at;
            pieces[i] = line >= 0 && line < lines[i].count ? lines[i].line[line] : "";
        }
        put_line(layout, pieces);
    }
}

static void put_rule(const Layout *layout) {
    put_repeated(layout->out, '-', part_width(layout));
    text_add(layout->out, "\n");
}

static void put_head(const Layout *layout) {
    const int count = layout->shown_count;
    const char **labels = ARENA_ARRAY(layout->arena, const char *, count);
    const char **units = ARENA_ARRAY(layout->arena, const char *, count);
    bool has_units = false;
    for (int i = 0; i < count; i++) {
        const ReportColumn *column = &layout->table->columns[layout->shown[i]];
        labels[i] = column->label;
        units[i] = column->unit;
        has_units = has_units || column->unit[0];
    }
    put_band(layout, labels, true);
    if (has_units)
        put_band(layout, units, true);
    put_rule(layout);
}

/* In a table of several parts, a row with nothing in the columns of this one. */
static bool is_bare_here(const Layout *layout, const ReportRow *row) {
    if (layout->shown_count == layout->table->column_count)
        return false;
    for (int i = 1; i < layout->shown_count; i++) {
        if (row->cells[layout->shown[i]].kind != CELL_EMPTY)
            return false;
    }
    return true;
}

static void put_rows(const Layout *layout) {
    const int columns = layout->table->column_count;
    const char **texts = ARENA_ARRAY(layout->arena, const char *, layout->shown_count);
    int first = 0;
    for (const ReportRow *row = layout->table->first; row; row = row->next, first += columns) {
        if (is_bare_here(layout, row))
            continue;
        for (int i = 0; i < layout->shown_count; i++)
            texts[i] = layout->words[first + layout->shown[i]];
        if (row->is_total)
            put_rule(layout);
        put_band(layout, texts, false);
    }
    if (layout->row_count == 0)
        text_add(layout->out, "none\n");
}

static void put_caption(const Layout *layout, bool is_continued) {
    const char *caption = layout->table->caption;
    if (!caption[0])
        return;
    if (is_continued)
        caption = arena_print(layout->arena, "%s (continued)", caption);
    const WrappedLines lines = wrap_text(layout->arena, caption, layout->page_width);
    for (int i = 0; i < lines.count; i++)
        text_print(layout->out, "%s\n", lines.line[i]);
}

void text_table(const ReportTable *table, int width, Text *out) {
    Layout layout = {.table = table, .arena = out->arena, .out = out, .page_width = width};
    for (const ReportRow *row = table->first; row; row = row->next)
        layout.row_count++;
    layout.words =
        ARENA_ARRAY(out->arena, const char *, layout.row_count * table->column_count);
    layout.span = ARENA_ARRAY(out->arena, Span, table->column_count);
    layout.shown = ARENA_ARRAY(out->arena, int, table->column_count);
    measure_columns(&layout);
    const int most = columns_a_part(&layout);
    int next = 1;
    bool is_continued = false;
    do {
        next = choose_part(&layout, next, most);
        share_width(&layout);
        if (is_continued)
            text_add(out, "\n");
        put_caption(&layout, is_continued);
        put_head(&layout);
        put_rows(&layout);
        is_continued = true;
    } while (next < table->column_count);
}
