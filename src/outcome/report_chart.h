/* A chart as values: what is drawn, not how. Each has a title that says what is found, axes
 * with their units, named series, limits drawn as lines, marked points, and a text alternative.
 * The numbers behind it stand in a table of the same report. Values are in the units shown; on
 * an axis of days x is the number of a Day. A value that is not finite is a gap. */
#ifndef OUTCOME_REPORT_CHART_H
#define OUTCOME_REPORT_CHART_H

#include "base/arena.h"

typedef enum {
    CHART_LINES,        /* a line a series: tonnes left of each stack through time */
    CHART_BANDS,        /* series stacked; a value holds from its x to the next: a ration */
    CHART_LIMIT_BARS,   /* a bar a category against its least and most: supply and need */
    CHART_STACKED_BARS, /* a bar a category, the series stacked in it: cost by group and feed */
    CHART_STEPS,        /* a value holds from its x to the next: the chance to reach a day */
    CHART_CURVE         /* a line through points, its marks labelled: cost against a price */
} ChartKind;

typedef enum { AXIS_DAYS, AXIS_NUMBERS, AXIS_CATEGORIES } AxisKind;

typedef struct {
    AxisKind kind;
    const char *label; /* "Tonnes left" */
    const char *unit;  /* "t"; "$" stands before its number; "" when there is none */
    int decimals;      /* of numbers written on it */
} ChartAxis;

typedef struct {
    double x, y;
} ChartPoint;

typedef struct ChartSeries {
    Arena *arena;
    const char *name;
    ChartPoint *points; /* of rising x; in a chart of categories x is 0, 1, 2 ... */
    int count, room;
    struct ChartSeries *next;
} ChartSeries;

typedef struct ChartCategory {
    const char *name;
    double least, most;      /* CHART_LIMIT_BARS: not finite where there is none */
    const char *value_words; /* beside the bar: "31 of 29 g"; "" is the value alone */
    struct ChartCategory *next;
} ChartCategory;

typedef struct ChartLimit { /* a line through the whole chart */
    const char *label;
    double y;
    struct ChartLimit *next;
} ChartLimit;

typedef struct ChartMark {
    const ChartSeries *of; /* NULL: of the chart */
    const char *label;     /* "ends 24 Jan" */
    double x, y;
    struct ChartMark *next;
} ChartMark;

typedef struct {
    Arena *arena;
    ChartKind kind;
    const char *key;         /* snake_case: "stock_through_winter" */
    const char *title;       /* the finding, a sentence without its full stop */
    const char *alternative; /* what a reader who cannot see it should know, in sentences */
    ChartAxis x, y;          /* of bars, x is the axis of categories, y that of their length */
    double last_x;           /* where the last value of bands and steps ends; NAN: at its x */
    ChartSeries *first_series, *last_series;
    ChartCategory *first_category, *last_category;
    ChartLimit *first_limit, *last_limit;
    ChartMark *first_mark, *last_mark;
} ReportChart;

ReportChart *chart_new(Arena *arena, ChartKind kind, const char *key, const char *title,
                       ChartAxis x, ChartAxis y);
void chart_alternative(ReportChart *chart, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

ChartSeries *chart_series(ReportChart *chart, const char *name);
void chart_point(ChartSeries *series, double x, double y);

/* The category that values of x = 0, 1, 2 ... are of, in the order added. */
ChartCategory *chart_category(ReportChart *chart, const char *name);

void chart_limit(ReportChart *chart, const char *label, double y);
void chart_mark(ReportChart *chart, const char *label, double x, double y);
void chart_mark_of(ReportChart *chart, const ChartSeries *of, const char *label, double x,
                   double y);

#endif
