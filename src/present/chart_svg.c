#include "present/chart_svg.h"

#include "present/chart_kind.h"
#include "present/html_text.h"

enum { MOST_LINES_OVER_EACH_OTHER = 3 };

/* Lines that each say how they end, and many lines, are read better one below the other. */
static bool wants_strips(const ReportChart *chart) {
    int count = 0;
    for (const ChartMark *mark = chart->first_mark; mark; mark = mark->next) {
        if (mark->of)
            return true;
    }
    for (const ChartSeries *series = chart->first_series; series; series = series->next)
        count++;
    return count > MOST_LINES_OVER_EACH_OTHER;
}

static void draw(Frame *frame) {
    switch (frame->chart->kind) {
    case CHART_LINES:
        if (wants_strips(frame->chart))
            chart_draw_strips(frame);
        else
            chart_draw_plot(frame);
        return;
    case CHART_STEPS:
    case CHART_CURVE:
        chart_draw_plot(frame);
        return;
    case CHART_BANDS:
        chart_draw_bands(frame);
        return;
    case CHART_LIMIT_BARS:
        chart_draw_limit_bars(frame);
        return;
    case CHART_STACKED_BARS:
        chart_draw_stacked_bars(frame);
        return;
    }
}

void chart_svg(const ReportChart *chart, const char *id, bool is_narrow, Text *out) {
    Text drawing = text_new(out->arena);
    Frame frame = frame_new(out->arena, &drawing, chart, is_narrow);
    draw(&frame);
    text_print(out,
               "<svg class=\"%s\" viewBox=\"0 0 %.0f %.0f\" role=\"img\" "
               "aria-labelledby=\"%s-title\" aria-describedby=\"%s-words\">\n"
               "<title id=\"%s-title\">",
               is_narrow ? "narrow" : "wide", frame.width, frame.height, id, id, id);
    html_text(out, chart->title);
    text_print(out, "</title>\n<desc id=\"%s-words\">", id);
    html_text(out, chart->alternative);
    text_print(out, "</desc>\n%s</svg>\n", drawing.bytes);
}
