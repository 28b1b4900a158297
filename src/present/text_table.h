/* A table of a report in columns of text no wider than the page. */
#ifndef PRESENT_TEXT_TABLE_H
#define PRESENT_TEXT_TABLE_H

#include "base/text.h"
#include "outcome/report.h"

void text_table(const ReportTable *table, int width, Text *out);

#endif
