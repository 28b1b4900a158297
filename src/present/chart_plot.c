/* A few lines over one scale: straight from point to point, or in steps. */
#include "present/chart_kind.h"

#include <math.h>

enum { DASH_KINDS = 3, EDGE_OF_PLOT = 14, NAME_GAP = 7 };

#define MOST_OF_NAMES 0.28 /* of the width of the paper */

static double widest_tick(Frame *frame) {
    const double low = words_width(axis_words(frame->arena, &frame->chart->y, frame->y_low));
    const double high = words_width(axis_words(frame->arena, &frame->chart->y, frame->y_high));
    return fmax(low, high);
}

static void draw_line(Frame *frame, const ChartSeries *series, int at) {
    const bool is_steps = frame->chart->kind == CHART_STEPS;
    bool is_drawing = false;
    text_print(frame->out, "<path class=\"line dash-%d\" d=\"", at % DASH_KINDS);
    for (int i = 0; i < series->count; i++) {
        const ChartPoint *point = &series->points[i];
        if (!isfinite(point->y)) {
            is_drawing = false;
            continue;
        }
        const double x = frame_x(frame, point->x);
        text_print(frame->out, "%s%.1f %.1f", is_drawing ? "L" : "M", x,
                   frame_y(frame, point->y));
        is_drawing = true;
        if (!is_steps)
            continue;
        const bool is_last = i + 1 == series->count;
        const double to = is_last ? frame->chart->last_x : series->points[i + 1].x;
        if (isfinite(to))
            text_print(frame->out, "H%.1f", frame_x(frame, to));
    }
    text_add(frame->out, "\"/>\n");
}

/* What the names of several lines take at the right of the plot. */
static double room_of_names(const Frame *frame) {
    double widest = 0.0;
    if (!frame->chart->first_series || !frame->chart->first_series->next)
        return 0.0;
    for (const ChartSeries *series = frame->chart->first_series; series; series = series->next)
        widest = fmax(widest, words_width(series->name));
    return fmin(widest, MOST_OF_NAMES * frame->width) + NAME_GAP;
}

/* At the last point that is known. */
static void name_line(Frame *frame, const ChartSeries *series) {
    int last = series->count - 1;
    while (last >= 0 && !isfinite(series->points[last].y))
        last--;
    if (last < 0 || !frame->chart->first_series->next)
        return;
    frame_label_beside(frame, frame_x(frame, series->points[last].x),
                       frame_y(frame, series->points[last].y), "halo",
                       words_cut(frame->arena, series->name, room_of_names(frame) - NAME_GAP));
}

static void draw_limits(Frame *frame) {
    for (const ChartLimit *limit = frame->chart->first_limit; limit; limit = limit->next) {
        const double y = frame_y(frame, limit->y);
        frame_line(frame, "limit", frame->plot.left, y, frame->plot.right, y);
        if (!frame_label(frame, frame->plot.right, y - 5, ANCHOR_END, "halo", limit->label))
            frame_label(frame, frame->plot.left + 4, y - 5, ANCHOR_START, "halo", limit->label);
    }
}

static void draw_marks(Frame *frame) {
    for (const ChartMark *mark = frame->chart->first_mark; mark; mark = mark->next) {
        const double x = frame_x(frame, mark->x);
        const double y = frame_y(frame, mark->y);
        text_print(frame->out, "<circle class=\"point\" cx=\"%.1f\" cy=\"%.1f\" r=\"4\"/>\n", x,
                   y);
        frame_label_beside(frame, x, y, "halo", mark->label);
    }
}

/* A curve of money need not begin at nothing: its change is what is read. */
static void forget_nothing(Frame *frame) {
    double low = HUGE_VAL;
    for (const ChartSeries *series = frame->chart->first_series; series;
         series = series->next) {
        for (int i = 0; i < series->count; i++) {
            if (isfinite(series->points[i].y))
                low = fmin(low, series->points[i].y);
        }
    }
    if (low > frame->y_low && low < frame->y_high)
        frame->y_low = fmax(0.0, low - (frame->y_high - low) * 0.25);
}

void chart_draw_plot(Frame *frame) {
    frame_fit(frame);
    if (frame->chart->kind == CHART_CURVE)
        forget_nothing(frame);
    frame_round_up(frame);
    frame->plot.top = 2 * LINE_HEIGHT + 4;
    frame->plot.bottom = frame->plot.top + (frame->is_narrow ? 190 : 260);
    frame->plot.left = widest_tick(frame) + 12;
    frame->plot.right = frame->width - EDGE_OF_PLOT - room_of_names(frame);
    frame->height = frame->plot.bottom + 2 * LINE_HEIGHT + 8;
    frame_axis_y(frame);
    frame_axis_x(frame);
    int at = 0;
    for (const ChartSeries *series = frame->chart->first_series; series; series = series->next)
        draw_line(frame, series, at++);
    for (const ChartSeries *series = frame->chart->first_series; series; series = series->next)
        name_line(frame, series);
    draw_marks(frame);
    draw_limits(frame);
}
