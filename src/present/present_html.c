#include "present/present.h"

#include "present/chart_svg.h"
#include "present/html_table.h"
#include "present/html_text.h"
#include "present/page_style.h"

#include <string.h>

typedef struct {
    const Report *report;
    Arena *arena;
    Text *out;
    int chart_count; /* drawn so far */
} Page;

static const char *mark_of(Severity severity) {
    switch (severity) {
    case SEVERITY_NOTE:
        return "";
    case SEVERITY_CAUTION:
        return "Caution";
    case SEVERITY_DANGER:
        return "Danger";
    }
    return "";
}

static const char *class_of(Severity severity) {
    switch (severity) {
    case SEVERITY_NOTE:
        return "note-only";
    case SEVERITY_CAUTION:
        return "caution";
    case SEVERITY_DANGER:
        return "danger";
    }
    return "";
}

static void put_mark(const Page *page, Severity severity) {
    const char *mark = mark_of(severity);
    if (mark[0])
        text_print(page->out, "<span class=\"mark\">%s</span> ", mark);
}

/* ------------------------------------------------------------------------------------------
 * The first screen. */

static void put_figure(const Page *page, const ReportFact *fact) {
    const char *words = cell_words(page->arena, &fact->value, false);
    if (!words[0])
        return;
    const bool is_money = fact->unit[0] == '$';
    text_print(page->out, "<span class=\"figure\">%s", is_money ? "$" : "");
    html_text(page->out, words);
    if (fact->unit[0] && !is_money) {
        text_add(page->out, " <small>");
        html_text(page->out, fact->unit);
        text_add(page->out, "</small>");
    }
    text_add(page->out, "</span>");
}

static void put_facts(const Page *page) {
    if (!page->report->first_fact)
        return;
    text_add(page->out, "<dl class=\"facts\">\n");
    for (const ReportFact *fact = page->report->first_fact; fact; fact = fact->next) {
        text_add(page->out, "<div><dt>");
        html_text(page->out, fact->label);
        text_add(page->out, "</dt><dd>");
        put_figure(page, fact);
        text_add(page->out, "<span class=\"note\">");
        html_text(page->out, fact->note);
        text_add(page->out, "</span></dd></div>\n");
    }
    text_add(page->out, "</dl>\n");
}

/* Where the most serious caution is a danger, the section of dangers stands first of all, so
 * that nobody reads it twice; 0 where there is none, else which of the sections it is. */
static int dangers_at(const Report *report) {
    int at = 0;
    if (!report->foremost[0] || report->foremost_severity != SEVERITY_DANGER)
        return 0;
    for (const ReportSection *section = report->first; section; section = section->next) {
        const ReportPiece *piece = section->first;
        at++;
        if (section->level == 1 && piece && piece->kind == PIECE_REMARK &&
            piece->severity == SEVERITY_DANGER)
            return at;
    }
    return 0;
}

static void put_foremost(const Page *page) {
    const Report *report = page->report;
    if (!report->foremost[0] || dangers_at(report) > 0)
        return;
    text_print(page->out, "<div class=\"foremost %s\"><p>",
               class_of(report->foremost_severity));
    put_mark(page, report->foremost_severity);
    html_text(page->out, report->foremost);
    text_add(page->out, "</p></div>\n");
}

static void put_header(const Page *page) {
    const Report *report = page->report;
    text_add(page->out, "<header>\n");
    html_element(page->out, "h1", NULL, report->title);
    if (report->headline[0])
        html_element(page->out, "p", "headline", report->headline);
    put_facts(page);
    put_foremost(page);
    const bool is_told =
        report->headline[0] && report->first_fact && report->verdict_severity == SEVERITY_NOTE;
    if (report->verdict[0] && !is_told)
        html_element(page->out, "p", "verdict", report->verdict);
    text_add(page->out, "</header>\n");
}

/* The many sheets of a winter are folded away. */
static void put_contents(const Page *page, bool is_folded) {
    int at = 0;
    text_add(page->out, "<nav aria-label=\"On this page\">\n");
    text_add(page->out, is_folded ? "<details>\n<summary>All sheets</summary>\n" : "");
    text_add(page->out, "<ul>\n");
    for (const ReportSection *section = page->report->first; section; section = section->next) {
        at++;
        if (section->level != 1 || !section->heading[0])
            continue;
        text_print(page->out, "<li><a href=\"#section-%d\">", at);
        html_text(page->out, section->heading);
        text_add(page->out, "</a></li>\n");
    }
    text_add(page->out, is_folded ? "</ul>\n</details>\n</nav>\n" : "</ul>\n</nav>\n");
}

/* ------------------------------------------------------------------------------------------
 * Pieces. */

static bool is_source(const ReportPiece *piece) {
    return piece->kind == PIECE_REMARK && strcmp(piece->topic, "source") == 0;
}

static bool lists_source(const Report *report, const char *key) {
    for (const ReportSection *section = report->first; section; section = section->next) {
        for (const ReportPiece *piece = section->first; piece; piece = piece->next) {
            if (is_source(piece) && strcmp(piece->source, key) == 0)
                return true;
        }
    }
    return false;
}

/* Keys parted by blanks, each a way to its publication where the page lists that. */
static void put_sources(const Page *page, const char *keys) {
    text_add(page->out, " <span class=\"sources\">[");
    for (const char *at = keys + strspn(keys, " "); *at;) {
        const size_t length = strcspn(at, " ");
        const char *key = arena_copy(page->arena, at, length);
        const bool has_way = lists_source(page->report, key);
        if (has_way) {
            text_add(page->out, "<a href=\"#source-");
            html_text(page->out, key);
            text_add(page->out, "\">");
        }
        html_text(page->out, key);
        text_add(page->out, has_way ? "</a>" : "");
        at += length;
        at += strspn(at, " ");
        text_add(page->out, *at ? " " : "");
    }
    text_add(page->out, "]</span>");
}

static void put_remark(const Page *page, const ReportPiece *remark) {
    text_print(page->out, "<li class=\"%s\"", class_of(remark->severity));
    if (is_source(remark)) {
        text_add(page->out, " id=\"source-");
        html_text(page->out, remark->source);
        text_add(page->out, "\"");
    }
    text_add(page->out, ">");
    put_mark(page, remark->severity);
    html_text(page->out, remark->text);
    if (is_source(remark)) {
        text_add(page->out, " <span class=\"sources\">[");
        html_text(page->out, remark->source);
        text_add(page->out, "]</span>");
    } else if (remark->source[0])
        put_sources(page, remark->source);
    text_add(page->out, "</li>\n");
}

/* A run of remarks is one list; returns the last of it. */
static const ReportPiece *put_remarks(const Page *page, const ReportPiece *first) {
    const ReportPiece *last = first;
    text_add(page->out, "<ul class=\"remarks\">\n");
    for (const ReportPiece *at = first; at && at->kind == PIECE_REMARK; at = at->next) {
        if (at->text[0])
            put_remark(page, at);
        last = at;
    }
    text_add(page->out, "</ul>\n");
    return last;
}

static void put_chart(Page *page, const ReportChart *chart) {
    const int at = ++page->chart_count;
    text_add(page->out, "<figure>\n");
    html_element(page->out, "figcaption", NULL, chart->title);
    chart_svg(chart, arena_print(page->arena, "chart-%d-wide", at), false, page->out);
    chart_svg(chart, arena_print(page->arena, "chart-%d-narrow", at), true, page->out);
    text_add(page->out, "</figure>\n");
}

static void put_table(const Page *page, const ReportSection *section,
                      const ReportPiece *piece) {
    if (piece->is_drawn)
        return;
    if (piece->is_of_chart) {
        text_add(page->out, "<details>\n<summary>The numbers behind it");
        text_add(page->out, piece->table->caption[0] ? ": " : "");
        html_text(page->out, piece->table->caption);
        text_add(page->out, "</summary>\n");
    }
    html_table(piece->table, section->heading, page->out);
    if (piece->is_of_chart)
        text_add(page->out, "</details>\n");
}

static const ReportPiece *put_piece(Page *page, const ReportSection *section,
                                    const ReportPiece *piece) {
    switch (piece->kind) {
    case PIECE_PARAGRAPH:
        html_element(page->out, "p", NULL, piece->text);
        return piece;
    case PIECE_REMARK:
        return put_remarks(page, piece);
    case PIECE_TABLE:
        put_table(page, section, piece);
        return piece;
    case PIECE_CHART:
        put_chart(page, piece->chart);
        return piece;
    }
    return piece;
}

static void put_section(Page *page, const ReportSection *section, int at, bool is_foremost) {
    if (section->heading[0])
        text_print(page->out,
                   "<section class=\"%s%s\" id=\"section-%d\" aria-labelledby=\"heading-%d\">\n"
                   "<h%d id=\"heading-%d\">",
                   section->level == 1 ? "first-level" : "part", is_foremost ? " dangers" : "",
                   at, at, section->level + 1, at);
    else
        text_print(page->out, "<div id=\"section-%d\">\n", at);
    if (section->heading[0]) {
        html_text(page->out, section->heading);
        text_print(page->out, "</h%d>\n", section->level + 1);
    }
    for (const ReportPiece *piece = section->first; piece; piece = piece->next)
        piece = put_piece(page, section, piece);
    text_add(page->out, section->heading[0] ? "</section>\n" : "</div>\n");
}

static void put_sections(Page *page, PageKind kind) {
    const int foremost = dangers_at(page->report);
    int at = 0;
    if (foremost == 0)
        put_contents(page, kind == PAGE_SHEETS);
    text_add(page->out, "<main id=\"main\">\n");
    for (const ReportSection *section = page->report->first; section; section = section->next) {
        if (++at == foremost)
            put_section(page, section, at, true);
    }
    if (foremost > 0)
        put_contents(page, kind == PAGE_SHEETS);
    at = 0;
    for (const ReportSection *section = page->report->first; section; section = section->next) {
        if (++at != foremost)
            put_section(page, section, at, false);
    }
    text_add(page->out, "</main>\n");
}

void present_html(const Report *report, PageKind kind, Text *out) {
    Page page = {.report = report, .arena = out->arena, .out = out};
    text_add(out, "<!DOCTYPE html>\n<html lang=\"en-CA\">\n<head>\n<meta charset=\"utf-8\">\n"
                  "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
                  "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; "
                  "style-src 'unsafe-inline'; img-src data:\">\n"
                  "<link rel=\"icon\" href=\"data:,\">\n<title>");
    html_text(out, report->title);
    text_add(out, "</title>\n<style>\n");
    page_style(out);
    text_print(out,
               "</style>\n</head>\n<body class=\"%s\">\n"
               "<a class=\"skip\" href=\"#main\">Skip what stands first</a>\n",
               kind == PAGE_SHEETS ? "sheets" : "report");
    put_header(&page);
    put_sections(&page, kind);
    text_add(out, "<footer><p>Made by winterstack. A proposal to talk over with your "
                  "veterinarian and a nutritionist; labels, manuals and local codes come "
                  "first.</p></footer>\n</body>\n</html>\n");
}
