/* How a report looks. Presenters round and lay out; they compute nothing. They write into a
 * Text: only entry opens files. */
#ifndef PRESENT_PRESENT_H
#define PRESENT_PRESENT_H

#include "base/text.h"
#include "outcome/report.h"
#include <stdbool.h>

typedef struct {
    int width;       /* columns, 60 to 200 */
    bool has_colour; /* a terminal without NO_COLOR */
} TextStyle;

/* No line is longer than the width: text columns wrap; a table that cannot fit is shown in
 * parts that repeat its first column. ASCII besides what the user typed. */
void present_text(const Report *report, TextStyle style, Text *out);

typedef enum { PAGE_REPORT, PAGE_SHEETS } PageKind; /* sheets: a page a section, large type */

/* One page that is whole by itself: no network, no script. Every text is escaped. Charts are
 * drawn inside it. */
void present_html(const Report *report, PageKind kind, Text *out);

/* All tables, one below the other, each under a line with what it is (csv_table.h). */
void present_csv(const Report *report, Text *out);

typedef struct {
    const char *name; /* "03-main-cows-ration.csv" */
    const char *bytes;
} CsvFile;

/* A file a table; returns how many. */
int present_csv_files(Arena *arena, const Report *report, const CsvFile **files);

/* The figures as JSON, two-space indent, one line a member; ends with a newline. Numbers are
 * the shortest form that keeps 12 significant digits. Beside them "tables": every table of the
 * page, in the units of the page. */
void present_json(const Report *report, Text *out);

#endif
