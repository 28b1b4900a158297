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

/* The figures as JSON, two-space indent, one line a member; ends with a newline. Numbers are
 * the shortest form that keeps 12 significant digits. */
void present_json(const Report *report, Text *out);

#endif
