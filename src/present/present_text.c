#include "present/present.h"

#include "present/text_table.h"
#include "present/wrapped.h"

#include <assert.h>

typedef struct {
    TextStyle style;
    Text *out;
} Page;

#define COLOUR_BOLD "\033[1m"
#define COLOUR_OFF "\033[0m"

static const char *colour_of(Severity severity) {
    switch (severity) {
    case SEVERITY_NOTE:
        return "\033[1;32m"; /* green */
    case SEVERITY_CAUTION:
        return "\033[1;33m"; /* yellow */
    case SEVERITY_DANGER:
        return "\033[1;31m"; /* red */
    }
    return COLOUR_BOLD;
}

static const char *mark_of(Severity severity) {
    switch (severity) {
    case SEVERITY_NOTE:
        return "- ";
    case SEVERITY_CAUTION:
        return "! ";
    case SEVERITY_DANGER:
        return "!! ";
    }
    return "";
}

/* Wrapped lines, each in the colour if there is one; returns the columns of the widest. */
static int put_text(const Page *page, const char *text, const char *colour) {
    const bool has_colour = colour && page->style.has_colour;
    const WrappedLines lines = wrap_text(page->out->arena, text, page->style.width);
    int widest = 0;
    for (int i = 0; i < lines.count; i++) {
        const int columns = text_columns(lines.line[i]);
        widest = columns > widest ? columns : widest;
        text_print(page->out, "%s%s%s\n", has_colour ? colour : "", lines.line[i],
                   has_colour ? COLOUR_OFF : "");
    }
    return widest;
}

static void put_heading(const Page *page, const char *heading, char line) {
    const int columns = put_text(page, heading, COLOUR_BOLD);
    for (int i = 0; i < columns; i++)
        text_add_bytes(page->out, &line, 1);
    text_add(page->out, "\n");
}

static void put_remark(const Page *page, const ReportPiece *remark) {
    if (!remark->text[0])
        return;
    Arena *arena = page->out->arena;
    const char *mark = mark_of(remark->severity);
    const int indent = text_columns(mark);
    const char *text = remark->text;
    if (remark->source[0])
        text = arena_print(arena, "%s [%s]", text, remark->source);
    const WrappedLines lines = wrap_text(arena, text, page->style.width - indent);
    for (int i = 0; i < lines.count; i++)
        text_print(page->out, "%*s%s\n", indent, i == 0 ? mark : "", lines.line[i]);
}

static void put_piece(const Page *page, const ReportPiece *piece) {
    switch (piece->kind) {
    case PIECE_PARAGRAPH:
        put_text(page, piece->text, NULL);
        return;
    case PIECE_REMARK:
        put_remark(page, piece);
        return;
    case PIECE_TABLE:
        text_table(piece->table, page->style.width, page->out);
        return;
    case PIECE_CHART: /* its table says it */
        return;
    }
}

/* An empty line stands before everything but a remark that follows a remark. */
static void put_section(const Page *page, const ReportSection *section) {
    if (section->heading[0]) {
        text_add(page->out, "\n");
        put_heading(page, section->heading, section->level == 1 ? '-' : '.');
    }
    const ReportPiece *before = NULL;
    for (const ReportPiece *piece = section->first; piece;
         before = piece, piece = piece->next) {
        if (piece->kind == PIECE_CHART)
            continue;
        const bool is_in_a_run =
            before && before->kind == PIECE_REMARK && piece->kind == PIECE_REMARK;
        if (!is_in_a_run)
            text_add(page->out, "\n");
        put_piece(page, piece);
    }
}

void present_text(const Report *report, TextStyle style, Text *out) {
    assert(style.width >= 60 && style.width <= 200);
    const Page page = {style, out};
    put_heading(&page, report->title, '=');
    if (report->verdict[0]) {
        text_add(out, "\n");
        put_text(&page, report->verdict, colour_of(report->verdict_severity));
    }
    for (const ReportSection *section = report->first; section; section = section->next)
        put_section(&page, section);
}
