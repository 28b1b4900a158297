/* Many lines through the same time, each in a strip of its own: what is left of each stack. A
 * strip is as high as its largest value, which stands beside its name, and says at its mark how
 * it ends. */
#include "present/chart_kind.h"

#include <math.h>

enum { NAME_AND_VALUE = 318, WIDE_ROW = 34, NARROW_ROW = 48, STRIP = 26, FIRST_ROW = 4 };

static const ChartMark *mark_of(const Frame *frame, const ChartSeries *series) {
    for (const ChartMark *mark = frame->chart->first_mark; mark; mark = mark->next) {
        if (mark->of == series)
            return mark;
    }
    return NULL;
}

static const char *first_value(Frame *frame, const ChartSeries *series) {
    return series->count > 0 ? axis_words(frame->arena, &frame->chart->y, series->points[0].y)
                             : "";
}

/* `base`: where nothing is left. */
static void draw_area(Frame *frame, const ChartSeries *series, double base) {
    double most = 0.0;
    for (int i = 0; i < series->count; i++)
        most = fmax(most, series->points[i].y);
    const double scale = most > 0.0 ? STRIP / most : 0.0;
    if (series->count == 0)
        return;
    text_print(frame->out, "<path class=\"area\" d=\"M%.1f %.1f",
               frame_x(frame, series->points[0].x), base);
    for (int i = 0; i < series->count; i++)
        text_print(frame->out, "L%.1f %.1f", frame_x(frame, series->points[i].x),
                   base - scale * fmax(series->points[i].y, 0.0));
    text_print(frame->out, "L%.1f %.1fZ\"/>\n",
               frame_x(frame, series->points[series->count - 1].x), base);
}

static void draw_wide(Frame *frame, const ChartSeries *series, double base) {
    const ChartMark *mark = mark_of(frame, series);
    const char *value = first_value(frame, series);
    const double value_end = frame->plot.left - 8;
    frame_label(frame, value_end, base - 6, ANCHOR_END, "value", value);
    frame_label(frame, 2, base - 6, ANCHOR_START, "name",
                words_cut(frame->arena, series->name, value_end - words_width(value) - 12));
    if (!mark)
        return;
    const double x = frame_x(frame, mark->x);
    frame_line(frame, "mark", x, base - STRIP, x, base + 2);
    if (!frame_label(frame, x + 6, base - 6, ANCHOR_START, "halo", mark->label))
        frame_label(frame, x - 6, base - STRIP + 12, ANCHOR_END, "halo", mark->label);
}

static void draw_narrow(Frame *frame, const ChartSeries *series, double base) {
    const ChartMark *mark = mark_of(frame, series);
    const double line = base - STRIP - 6;
    const char *value = first_value(frame, series);
    if (mark) {
        const double x = frame_x(frame, mark->x);
        frame_line(frame, "mark", x, base - STRIP, x, base + 2);
        value = arena_print(frame->arena, "%s, %s", value, mark->label);
    }
    frame_label(frame, frame->width - 2, line, ANCHOR_END, "value", value);
    frame_label(frame, 2, line, ANCHOR_START, "name",
                words_cut(frame->arena, series->name, frame->width - words_width(value) - 12));
}

void chart_draw_strips(Frame *frame) {
    const double row = frame->is_narrow ? NARROW_ROW : WIDE_ROW;
    int count = 0;
    for (const ChartSeries *series = frame->chart->first_series; series; series = series->next)
        count++;
    frame_fit(frame);
    frame->plot = (Box){frame->is_narrow ? 2 : 2 + NAME_AND_VALUE, FIRST_ROW, frame->width - 4,
                        FIRST_ROW + row * count};
    frame->height = frame->plot.bottom + LINE_HEIGHT + 6;
    frame_axis_x(frame);
    double base = frame->plot.top;
    for (const ChartSeries *series = frame->chart->first_series; series;
         series = series->next) {
        base += row;
        draw_area(frame, series, base);
        frame_line(frame, "axis", frame->plot.left, base, frame->plot.right, base);
        if (frame->is_narrow)
            draw_narrow(frame, series, base);
        else
            draw_wide(frame, series, base);
    }
}
