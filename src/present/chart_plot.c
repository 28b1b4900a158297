/* A few lines over one scale: straight from point to point, or in steps. */
#include "present/chart_kind.h"

#include <math.h>

enum { DASH_KINDS = 3, EDGE_OF_PLOT = 14, NAME_GAP = 16, SMALL_BIT = 8 };

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

/* The last point that is known, or -1. */
static int last_known(const ChartSeries *series) {
    int last = series->count - 1;
    while (last >= 0 && !isfinite(series->points[last].y))
        last--;
    return last;
}

typedef struct {
    const ChartSeries *series;
    double x, end_y; /* where the line ends */
    double y;        /* of the middle of its name */
} LineName;

/* From the top down; as near to the ends of their lines as leaves each a line of its own. */
static void spread_names(const Frame *frame, LineName *names, int count) {
    for (int i = 1; i < count; i++) {
        for (int k = i; k > 0 && names[k].y < names[k - 1].y; k--) {
            const LineName swapped = names[k];
            names[k] = names[k - 1];
            names[k - 1] = swapped;
        }
    }
    for (int i = 1; i < count; i++)
        names[i].y = fmax(names[i].y, names[i - 1].y + LINE_HEIGHT);
    double most = frame->plot.bottom;
    for (int i = count - 1; i >= 0; i--, most -= LINE_HEIGHT)
        names[i].y = fmin(names[i].y, most);
}

/* Each at the right of the plot, led to from the end of its line. */
static void name_lines(Frame *frame) {
    int count = 0;
    for (const ChartSeries *series = frame->chart->first_series; series; series = series->next)
        count++;
    if (count < 2)
        return;
    LineName *names = ARENA_ARRAY(frame->arena, LineName, count);
    count = 0;
    for (const ChartSeries *series = frame->chart->first_series; series;
         series = series->next) {
        const int last = last_known(series);
        if (last < 0)
            continue;
        const double y = frame_y(frame, series->points[last].y);
        names[count++] = (LineName){series, frame_x(frame, series->points[last].x), y, y};
    }
    spread_names(frame, names, count);
    for (int i = 0; i < count; i++) {
        const double from = fmax(names[i].x, frame->plot.right);
        frame_line(frame, "lead", names[i].x, names[i].end_y, from, names[i].end_y);
        frame_line(frame, "lead", from, names[i].end_y, from + NAME_GAP, names[i].y);
        frame_label(
            frame, from + NAME_GAP + 2, names[i].y + 4, ANCHOR_START, "value",
            words_cut(frame->arena, names[i].series->name, frame->width - from - NAME_GAP - 5));
    }
}

static void draw_limits(Frame *frame) {
    for (const ChartLimit *limit = frame->chart->first_limit; limit; limit = limit->next) {
        const double y = frame_y(frame, limit->y);
        frame_line(frame, "limit", frame->plot.left, y, frame->plot.right, y);
        if (!frame_label(frame, frame->plot.right, y - 5, ANCHOR_END, "halo", limit->label))
            frame_label(frame, frame->plot.left + 4, y - 5, ANCHOR_START, "halo", limit->label);
    }
}

/* A straight piece of a line, in bits so small that each fits its box. */
static void keep_piece_clear(Frame *frame, double x1, double y1, double x2, double y2) {
    const int bits = 1 + (int)(fmax(fabs(x2 - x1), fabs(y2 - y1)) / SMALL_BIT);
    for (int i = 0; i < bits; i++) {
        const double from = (double)i / bits;
        const double to = (i + 1.0) / bits;
        const double ya = y1 + (y2 - y1) * from;
        const double yb = y1 + (y2 - y1) * to;
        frame_keep_clear(frame, (Box){x1 + (x2 - x1) * from, fmin(ya, yb) - 1.0,
                                      x1 + (x2 - x1) * to, fmax(ya, yb) + 1.0});
    }
}

static void keep_lines_clear(Frame *frame) {
    const bool is_steps = frame->chart->kind == CHART_STEPS;
    for (const ChartSeries *series = frame->chart->first_series; series;
         series = series->next) {
        for (int i = 0; i + 1 < series->count; i++) {
            const ChartPoint *at = &series->points[i];
            if (!isfinite(at->y) || !isfinite(at[1].y))
                continue;
            const double x = frame_x(frame, at->x);
            const double y = frame_y(frame, at->y);
            const double next_x = frame_x(frame, at[1].x);
            const double next_y = frame_y(frame, at[1].y);
            keep_piece_clear(frame, x, y, next_x, is_steps ? y : next_y);
            if (is_steps)
                keep_piece_clear(frame, next_x, y, next_x, next_y);
        }
    }
}

/* Beside the lines where there is room for it, else over them. */
static void draw_marks(Frame *frame) {
    for (const ChartMark *mark = frame->chart->first_mark; mark; mark = mark->next) {
        const double x = frame_x(frame, mark->x);
        const double y = frame_y(frame, mark->y);
        const Frame before = *frame;
        text_print(frame->out, "<circle class=\"point\" cx=\"%.1f\" cy=\"%.1f\" r=\"4\"/>\n", x,
                   y);
        keep_lines_clear(frame);
        if (!frame_label_beside(frame, x, y, "halo", mark->label)) {
            *frame = before;
            frame_label_beside(frame, x, y, "halo", mark->label);
        }
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
    draw_limits(frame);
    draw_marks(frame);
}
