/* A table of a report as HTML: in parts that fit a printed page, each repeating its first
 * column; on a narrow screen each row is a card of labelled values (page_style.c). */
#ifndef PRESENT_HTML_TABLE_H
#define PRESENT_HTML_TABLE_H

#include "base/text.h"
#include "outcome/report.h"

/* `name`: what it is called where it has no caption. */
void html_table(const ReportTable *table, const char *name, Text *out);

#endif
