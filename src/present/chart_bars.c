/* Bars that lie, a row a category: against what they should at least and at most be, or of
 * several parts. A bar far beyond all limits is cut off and marked, and its number says how far
 * it goes. */
#include "present/chart_fill.h"
#include "present/chart_kind.h"

#include <math.h>

enum { NAME_WIDTH = 246, WIDE_ROW = 28, NARROW_ROW = 44, BAR = 16, ROOM_OF_LIMITS = 24 };

#define MOST_OF_LIMIT 1.6 /* bars are drawn up to this many times the largest limit */

static double largest_limit(const ReportChart *chart) {
    double largest = 0.0;
    for (const ChartLimit *limit = chart->first_limit; limit; limit = limit->next)
        largest = fmax(largest, limit->y);
    for (const ChartCategory *category = chart->first_category; category;
         category = category->next) {
        if (isfinite(category->least))
            largest = fmax(largest, category->least);
    }
    return largest;
}

/* The value of a series in a category, 0 where there is none. */
static double value_at(const ChartSeries *series, int category) {
    for (int i = 0; i < series->count; i++) {
        if ((int)series->points[i].x == category)
            return isfinite(series->points[i].y) ? series->points[i].y : 0.0;
    }
    return 0.0;
}

static double first_at(const ReportChart *chart, int category) {
    return value_at(chart->first_series, category);
}

static double total_at(const ReportChart *chart, int category) {
    double total = 0.0;
    for (const ChartSeries *series = chart->first_series; series; series = series->next)
        total += fmax(value_at(series, category), 0.0);
    return total;
}

static const char *value_words(const Frame *frame, const ChartCategory *category,
                               double value) {
    return category->value_words[0] ? category->value_words
                                    : axis_words(frame->arena, &frame->chart->y, value);
}

/* Room for the words beside the longest of the bars. */
static double room_of_words(const Frame *frame, double (*value_of)(const ReportChart *, int)) {
    double widest = 0.0;
    int at = 0;
    for (const ChartCategory *category = frame->chart->first_category; category;
         category = category->next, at++)
        widest =
            fmax(widest, words_width(value_words(frame, category, value_of(frame->chart, at))));
    return fmin(widest, frame->width / 2) + 14;
}

static double length_at(const Frame *frame, double value) {
    return frame->plot.left +
           (frame->plot.right - frame->plot.left) * fmin(fmax(value, 0.0) / frame->y_high, 1.0);
}

static double row_height(const Frame *frame) {
    return frame->is_narrow ? NARROW_ROW : WIDE_ROW;
}

static double bar_top(const Frame *frame, int category) {
    return frame->plot.top + row_height(frame) * (category + 1) - BAR - 4;
}

static void name_row(Frame *frame, const char *name, int category) {
    const double top = bar_top(frame, category);
    if (frame->is_narrow)
        frame_label(frame, 8, top - 5, ANCHOR_START, "name",
                    words_cut(frame->arena, name, frame->width - 12));
    else
        frame_label(frame, 2, top + 12, ANCHOR_START, "name",
                    words_cut(frame->arena, name, NAME_WIDTH));
}

static void draw_cut(Frame *frame, double x, double top) {
    text_print(frame->out, "<path class=\"cut\" d=\"M%.1f %.1fl-5 %dl5 0l-5 %d\"/>\n", x - 8,
               top - 2, BAR / 2 + 2, BAR / 2 + 2);
}

static void draw_tick(Frame *frame, const char *class_name, double value, double top) {
    if (!isfinite(value) || value > frame->y_high)
        return;
    const double x = length_at(frame, value);
    frame_line(frame, class_name, x, top - 3, x, top + BAR + 3);
}

static void draw_limit_row(Frame *frame, const ChartCategory *category, int at) {
    const double value = value_at(frame->chart->first_series, at);
    const double top = bar_top(frame, at);
    const double end = length_at(frame, value);
    frame_rectangle(frame, "bar", (Box){frame->plot.left, top, end, top + BAR});
    if (value > frame->y_high)
        draw_cut(frame, end, top);
    draw_tick(frame, "least", category->least, top);
    draw_tick(frame, "most", category->most, top);
    frame_label(frame, frame->width - 4, top + 12, ANCHOR_END, "value",
                value_words(frame, category, value));
    name_row(frame, category->name, at);
}

static void draw_limit_lines(Frame *frame) {
    for (const ChartLimit *limit = frame->chart->first_limit; limit; limit = limit->next) {
        const double x = length_at(frame, limit->y);
        frame_line(frame, "limit", x, frame->plot.top, x, frame->plot.bottom);
        frame_label(frame, x, frame->plot.top - 6, ANCHOR_MIDDLE, "name", limit->label);
    }
}

static int category_count(const ReportChart *chart) {
    int count = 0;
    for (const ChartCategory *category = chart->first_category; category;
         category = category->next)
        count++;
    return count;
}

static void lay_rows(Frame *frame, double top, double room_of_value) {
    const int rows = category_count(frame->chart);
    frame->plot = (Box){frame->is_narrow ? 2 : 2 + NAME_WIDTH, top,
                        frame->width - room_of_value, top + row_height(frame) * rows + 4};
    frame->height = frame->plot.bottom + 6;
}

void chart_draw_limit_bars(Frame *frame) {
    frame_fit(frame);
    const double limit = largest_limit(frame->chart);
    if (limit > 0.0)
        frame->y_high = fmin(fmax(frame->y_high, limit * 1.1), limit * MOST_OF_LIMIT);
    if (frame->y_high <= 0.0)
        frame->y_high = 1.0;
    lay_rows(frame, ROOM_OF_LIMITS, room_of_words(frame, first_at));
    int at = 0;
    for (const ChartCategory *category = frame->chart->first_category; category;
         category = category->next)
        draw_limit_row(frame, category, at++);
    draw_limit_lines(frame);
    frame_line(frame, "axis", frame->plot.left, frame->plot.top, frame->plot.left,
               frame->plot.bottom);
}

static void draw_parts(Frame *frame, const ChartCategory *category, int at) {
    const double top = bar_top(frame, at);
    double sum = 0.0;
    int fill = 0;
    for (const ChartSeries *series = frame->chart->first_series; series;
         series = series->next, fill++) {
        const double value = fmax(value_at(series, at), 0.0);
        if (value > 0.0)
            frame_filled(
                frame, fill,
                (Box){length_at(frame, sum), top, length_at(frame, sum + value), top + BAR});
        sum += value;
    }
    frame_label(frame, length_at(frame, sum) + 6, top + 12, ANCHOR_START, "value",
                value_words(frame, category, sum));
    name_row(frame, category->name, at);
}

void chart_draw_stacked_bars(Frame *frame) {
    frame->y_high = 0.0;
    for (int at = 0; at < category_count(frame->chart); at++)
        frame->y_high = fmax(frame->y_high, total_at(frame->chart, at));
    if (frame->y_high <= 0.0)
        frame->y_high = 1.0;
    double top = LINE_HEIGHT;
    if (frame->chart->first_series && frame->chart->first_series->next)
        frame_key(frame, NULL, &top);
    lay_rows(frame, top - LINE_HEIGHT + 6, room_of_words(frame, total_at));
    int at = 0;
    for (const ChartCategory *category = frame->chart->first_category; category;
         category = category->next)
        draw_parts(frame, category, at++);
    frame_line(frame, "axis", frame->plot.left, frame->plot.top, frame->plot.left,
               frame->plot.bottom);
}
