#include "outcome/report.h"

#include <assert.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

enum { MOST_DECIMALS = 6, NUMBER_ROOM = 48 };

static const double LARGEST_WRITTEN_OUT = 1e12;

Cell empty_cell(void) { return (Cell){.kind = CELL_EMPTY}; }

Cell text_cell(const char *text) {
    if (!text || !*text)
        return empty_cell();
    return (Cell){.kind = CELL_TEXT, .text = text};
}

Cell number_cell(double number, int decimals) {
    assert(decimals >= 0 && decimals <= MOST_DECIMALS);
    if (!isfinite(number))
        return empty_cell();
    return (Cell){.kind = CELL_NUMBER, .number = number, .decimals = decimals};
}

Cell marked_cell(Cell number, const char *mark) {
    if (number.kind == CELL_NUMBER && mark[0])
        number.mark = mark;
    return number;
}

const char *number_words(Arena *arena, double number, int decimals) {
    assert(decimals >= 0 && decimals <= MOST_DECIMALS);
    if (!isfinite(number))
        return "";
    if (fabs(number) >= LARGEST_WRITTEN_OUT)
        return arena_print(arena, "%.4g", number);
    char digits[NUMBER_ROOM];
    snprintf(digits, sizeof digits, "%.*f", decimals, fabs(number));
    const size_t whole = strcspn(digits, ".");
    char words[NUMBER_ROOM];
    size_t length = 0;
    if (number < 0 && strspn(digits, "0.") < strlen(digits))
        words[length++] = '-';
    for (size_t at = 0; digits[at]; at++) {
        if (at > 0 && at < whole && (whole - at) % 3 == 0)
            words[length++] = ',';
        words[length++] = digits[at];
    }
    return arena_copy(arena, words, length);
}

const char *cell_words(Arena *arena, const Cell *cell, bool misses_number) {
    switch (cell->kind) {
    case CELL_EMPTY:
        return misses_number ? "-" : "";
    case CELL_TEXT:
        return cell->text;
    case CELL_NUMBER:
        if (cell->mark)
            return arena_print(arena, "%s %s",
                               number_words(arena, cell->number, cell->decimals), cell->mark);
        return number_words(arena, cell->number, cell->decimals);
    }
    return "";
}

Report *report_new(Arena *arena, const char *title) {
    Report *report = ARENA_NEW(arena, Report);
    report->arena = arena;
    report->title = title;
    report->headline = report->verdict = report->foremost = "";
    report->figures = figure_object(arena);
    return report;
}

void report_verdict(Report *report, Severity severity, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    report->verdict = arena_print_list(report->arena, format, arguments);
    va_end(arguments);
    report->verdict_severity = severity;
}

void report_headline(Report *report, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    report->headline = arena_print_list(report->arena, format, arguments);
    va_end(arguments);
}

void report_foremost(Report *report, Severity severity, const char *text) {
    report->foremost = text;
    report->foremost_severity = severity;
}

void report_fact(Report *report, const char *key, const char *label, Cell value,
                 const char *unit, const char *note) {
    ReportFact *fact = ARENA_NEW(report->arena, ReportFact);
    *fact =
        (ReportFact){.key = key, .label = label, .value = value, .unit = unit, .note = note};
    if (report->last_fact)
        report->last_fact->next = fact;
    else
        report->first_fact = fact;
    report->last_fact = fact;
}

static void add_section(Report *report, const char *key, const char *heading, int level) {
    ReportSection *section = ARENA_NEW(report->arena, ReportSection);
    section->key = key;
    section->heading = heading;
    section->level = level;
    if (report->last)
        report->last->next = section;
    else
        report->first = section;
    report->last = section;
}

void report_section(Report *report, const char *key, const char *heading) {
    add_section(report, key, heading, 1);
}

void report_part(Report *report, const char *key, const char *heading) {
    add_section(report, key, heading, 2);
}

/* What is said before the first section stands in one without a heading. */
static ReportPiece *add_piece(Report *report, PieceKind kind) {
    if (!report->last)
        add_section(report, "", "", 1);
    ReportSection *section = report->last;
    ReportPiece *piece = ARENA_NEW(report->arena, ReportPiece);
    piece->kind = kind;
    piece->text = piece->topic = piece->source = "";
    if (section->last)
        section->last->next = piece;
    else
        section->first = piece;
    section->last = piece;
    return piece;
}

void report_paragraph(Report *report, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    const char *text = arena_print_list(report->arena, format, arguments);
    va_end(arguments);
    add_piece(report, PIECE_PARAGRAPH)->text = text;
}

void report_remark(Report *report, Severity severity, const char *topic, const char *text,
                   const char *source) {
    ReportPiece *piece = add_piece(report, PIECE_REMARK);
    piece->severity = severity;
    piece->topic = topic ? topic : "";
    piece->text = text;
    piece->source = source ? source : "";
}

ReportTable *report_table(Report *report, const char *key, const char *caption,
                          const ReportColumn *columns, int column_count) {
    assert(column_count > 0);
    const size_t count = (size_t)column_count;
    ReportColumn *copy = ARENA_ARRAY(report->arena, ReportColumn, count);
    memcpy(copy, columns, count * sizeof *copy);
    ReportTable *table = ARENA_NEW(report->arena, ReportTable);
    *table = (ReportTable){.arena = report->arena,
                           .key = key,
                           .caption = caption ? caption : "",
                           .columns = copy,
                           .column_count = column_count};
    add_piece(report, PIECE_TABLE)->table = table;
    return table;
}

void report_chart(Report *report, const ReportChart *chart) {
    add_piece(report, PIECE_CHART)->chart = chart;
}

ReportTable *report_table_of_chart(Report *report, const char *key, const char *caption,
                                   const ReportColumn *columns, int column_count) {
    ReportTable *table = report_table(report, key, caption, columns, column_count);
    report->last->last->is_of_chart = true;
    return table;
}

ReportTable *report_table_drawn(Report *report, const char *key, const char *caption,
                                const ReportColumn *columns, int column_count) {
    ReportTable *table = report_table_of_chart(report, key, caption, columns, column_count);
    report->last->last->is_drawn = true;
    return table;
}

static void add_row(ReportTable *table, const Cell *cells, int is_total) {
    const size_t count = (size_t)table->column_count;
    Cell *copy = ARENA_ARRAY(table->arena, Cell, count);
    memcpy(copy, cells, count * sizeof *copy);
    ReportRow *row = ARENA_NEW(table->arena, ReportRow);
    row->cells = copy;
    row->is_total = is_total;
    if (table->last)
        table->last->next = row;
    else
        table->first = row;
    table->last = row;
}

void report_row(ReportTable *table, const Cell *cells) { add_row(table, cells, 0); }

void report_total_row(ReportTable *table, const Cell *cells) { add_row(table, cells, 1); }
