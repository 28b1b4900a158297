/* A few lines over one scale: straight from point to point, or in steps. */
#include "present/chart_kind.h"

#include <math.h>

enum { DASH_KINDS = 3, EDGE_OF_PLOT = 14, NAME_GAP = 7, NAME_DESCENT = 4 };

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

/* The end of a line, and the level its name stands at. */
typedef struct {
    const ChartSeries *series;
    double y, level;
} LineEnd;

/* At the last point that is known; from the top down, those of one height as they were added.
 */
static int ends_of_lines(const Frame *frame, LineEnd *ends) {
    int count = 0;
    for (const ChartSeries *series = frame->chart->first_series; series;
         series = series->next) {
        int last = series->count - 1;
        while (last >= 0 && !isfinite(series->points[last].y))
            last--;
        if (last < 0)
            continue;
        const double y = frame_y(frame, series->points[last].y);
        int at = count++;
        for (; at > 0 && ends[at - 1].y > y; at--)
            ends[at] = ends[at - 1];
        ends[at] = (LineEnd){series, y, y};
    }
    return count;
}

/* Names stand in the order in which the lines end, a line of text apart and on the paper. */
static void spread_names(const Frame *frame, LineEnd *ends, int count) {
    double least = LINE_HEIGHT;
    for (int i = 0; i < count; i++) {
        ends[i].level = fmax(ends[i].level, least);
        least = ends[i].level + LINE_HEIGHT;
    }
    double most = frame->plot.bottom - NAME_GAP; /* clear of the scale below */
    for (int i = count - 1; i >= 0; i--) {
        ends[i].level = fmin(ends[i].level, most);
        most = ends[i].level - LINE_HEIGHT;
    }
}

static void name_lines(Frame *frame) {
    int count = 0;
    for (const ChartSeries *series = frame->chart->first_series; series; series = series->next)
        count++;
    if (count < 2)
        return;
    LineEnd *ends = ARENA_ARRAY(frame->arena, LineEnd, count);
    count = ends_of_lines(frame, ends);
    spread_names(frame, ends, count);
    for (int i = 0; i < count; i++)
        frame_label(
            frame, frame->plot.right + NAME_GAP, ends[i].level + NAME_DESCENT, ANCHOR_START,
            "halo",
            words_cut(frame->arena, ends[i].series->name, room_of_names(frame) - NAME_GAP));
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
    name_lines(frame);
    draw_marks(frame);
    draw_limits(frame);
}
