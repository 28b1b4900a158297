/* A chart of a report as an SVG drawing, for a wide page or for a narrow screen: fills that can
 * be told apart without colour, labels at what they name, none over another. Its title and its
 * text alternative stand inside for who cannot see it. */
#ifndef PRESENT_CHART_SVG_H
#define PRESENT_CHART_SVG_H

#include "base/text.h"
#include "outcome/report.h"

/* `id` is of the page's, and safe inside an attribute. */
void chart_svg(const ReportChart *chart, const char *id, bool is_narrow, Text *out);

#endif
