/* What there is to say, without a word of how it looks: sections of paragraphs, remarks and
 * tables whose cells are still numbers, and beside them the same figures as a tree (figure.h)
 * for JSON. Built by the outcome layer, shown by the presenters. All text is of the report's
 * arena or outlives it. */
#ifndef OUTCOME_REPORT_H
#define OUTCOME_REPORT_H

#include "base/arena.h"
#include "outcome/figure.h"
#include "outcome/report_chart.h"
#include <stdbool.h>

typedef enum { CELL_EMPTY, CELL_TEXT, CELL_NUMBER } CellKind;
typedef struct {
    CellKind kind;
    const char *text;
    double number;
    int decimals;
    const char *mark; /* a letter that stands behind a number: where it comes from; or NULL */
} Cell;

Cell empty_cell(void);
Cell text_cell(const char *text);              /* "" and NULL become an empty cell */
Cell number_cell(double number, int decimals); /* not finite becomes an empty cell */

Cell marked_cell(Cell number, const char *mark); /* "" is no mark; an empty cell takes none */

/* "1,234.5": rounded, thousands by comma, never "-0"; "1.235e+20" from a million million on.
 * Not finite is "". */
const char *number_words(Arena *arena, double number, int decimals);

/* As read: a text as it is, "1,234.5", "59.0 c" with a mark, and for an empty cell "-" where a
 * number is missing. */
const char *cell_words(Arena *arena, const Cell *cell, bool misses_number);

typedef struct {
    const char *key;   /* snake_case, for CSV */
    const char *label; /* "Hay" */
    const char *unit;  /* "lb"; "" when it has none or is text */
    int is_number;     /* numbers stand right, text left and may wrap */
} ReportColumn;

typedef enum { SEVERITY_NOTE, SEVERITY_CAUTION, SEVERITY_DANGER } Severity;

typedef enum { PIECE_PARAGRAPH, PIECE_REMARK, PIECE_TABLE, PIECE_CHART } PieceKind;

typedef struct ReportRow {
    const Cell *cells; /* [column_count] */
    int is_total;      /* a line is drawn above it */
    struct ReportRow *next;
} ReportRow;

typedef struct ReportTable {
    Arena *arena;
    const char *key, *caption; /* caption may be "" */
    const ReportColumn *columns;
    int column_count;
    ReportRow *first, *last;
} ReportTable;

typedef struct ReportPiece {
    PieceKind kind;
    const char *text;           /* paragraph, remark */
    Severity severity;          /* remark */
    const char *topic, *source; /* remark; "" when there is none */
    const ReportTable *table;
    bool is_of_chart; /* table: the numbers of the chart before it; may be folded away */
    bool is_drawn;    /* table: a chart in letters, for a page that has no other */
    const ReportChart *chart;
    struct ReportPiece *next;
} ReportPiece;

typedef struct ReportSection {
    const char *key, *heading;
    int level; /* 1 a section, 2 a part of the section before it */
    ReportPiece *first, *last;
    struct ReportSection *next;
} ReportSection;

/* One of the few figures that are shown large. */
typedef struct ReportFact {
    const char *key;   /* snake_case */
    const char *label; /* "Feed and hauling" */
    Cell value;
    const char *unit; /* "days"; "$" stands before its number */
    const char *note; /* small below it; "" when there is none */
    struct ReportFact *next;
} ReportFact;

typedef struct {
    Arena *arena;
    const char *title;
    const char *headline; /* the verdict in one sentence; "" when there is none */
    const char *verdict;  /* one or two sentences; "" when there is nothing to judge */
    Severity verdict_severity;
    const char *foremost; /* the most serious caution, to stand first; "" when there is none */
    Severity foremost_severity;
    ReportFact *first_fact, *last_fact; /* what the verdict says besides, in figures */
    ReportSection *first, *last;
    Figure *figures; /* the root of the JSON */
} Report;

Report *report_new(Arena *arena, const char *title);
void report_verdict(Report *report, Severity severity, const char *format, ...)
    __attribute__((format(printf, 3, 4)));
void report_headline(Report *report, const char *format, ...)
    __attribute__((format(printf, 2, 3)));
void report_foremost(Report *report, Severity severity, const char *text);
void report_fact(Report *report, const char *key, const char *label, Cell value,
                 const char *unit, const char *note);
void report_section(Report *report, const char *key, const char *heading);
void report_part(Report *report, const char *key, const char *heading); /* level 2 */
void report_paragraph(Report *report, const char *format, ...)
    __attribute__((format(printf, 2, 3)));
void report_remark(Report *report, Severity severity, const char *topic, const char *text,
                   const char *source);
ReportTable *report_table(Report *report, const char *key, const char *caption,
                          const ReportColumn *columns, int column_count);
/* A chart shows what a table says: where no table of the report holds its numbers yet, they
 * follow it in one of its own. The chart may still be filled after it was added. */
void report_chart(Report *report, const ReportChart *chart);
ReportTable *report_table_of_chart(Report *report, const char *key, const char *caption,
                                   const ReportColumn *columns, int column_count);
/* The chart again, as rows of letters, where a page can draw no other. */
ReportTable *report_table_drawn(Report *report, const char *key, const char *caption,
                                const ReportColumn *columns, int column_count);
/* Cells are copied. */
void report_row(ReportTable *table, const Cell *cells);
void report_total_row(ReportTable *table, const Cell *cells);

#endif
