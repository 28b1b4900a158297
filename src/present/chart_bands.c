/* Series stacked on one another through time, each value holding to the next: a ration. A band
 * carries its name where it is wide and thick enough for it; the others are named below. */
#include "present/chart_fill.h"
#include "present/chart_kind.h"

#include <math.h>

typedef struct {
    int count; /* of points; the same x in all series */
    int series_count;
    double *under;       /* [series_count * count] what lies below each value */
    const double *value; /* [series_count * count] */
} Stack;

static Stack stacked(Frame *frame) {
    const ReportChart *chart = frame->chart;
    Stack stack = {0};
    for (const ChartSeries *series = chart->first_series; series; series = series->next) {
        stack.series_count++;
        stack.count = series->count > stack.count ? series->count : stack.count;
    }
    double *value = ARENA_ARRAY(frame->arena, double, stack.series_count *stack.count);
    double *sum = ARENA_ARRAY(frame->arena, double, stack.count);
    stack.under = ARENA_ARRAY(frame->arena, double, stack.series_count *stack.count);
    int at = 0;
    for (const ChartSeries *series = chart->first_series; series; series = series->next) {
        for (int i = 0; i < stack.count; i++, at++) {
            const bool is_known = i < series->count && isfinite(series->points[i].y);
            value[at] = is_known ? fmax(series->points[i].y, 0.0) : 0.0;
            stack.under[at] = sum[i];
            sum[i] += value[at];
            frame->y_high = fmax(frame->y_high, sum[i]);
        }
    }
    stack.value = value;
    return stack;
}

static double left_of(const Frame *frame, int point) {
    const ChartSeries *series = frame->chart->first_series;
    return point < series->count ? series->points[point].x : frame->x_high;
}

static void draw_band(Frame *frame, const Stack *stack, int series) {
    for (int i = 0; i < stack->count; i++) {
        const int at = series * stack->count + i;
        if (stack->value[at] <= 0.0)
            continue;
        frame_filled(frame, series,
                     (Box){frame_x(frame, left_of(frame, i)),
                           frame_y(frame, stack->under[at] + stack->value[at]),
                           frame_x(frame, left_of(frame, i + 1)),
                           frame_y(frame, stack->under[at])});
    }
}

/* The room that all of a band's values from `first` to `last` have in common. */
static Box common_room(const Frame *frame, const Stack *stack, int series, int first,
                       int last) {
    Box room = {frame_x(frame, left_of(frame, first)), 0.0,
                frame_x(frame, left_of(frame, last + 1)), frame->height};
    for (int i = first; i <= last; i++) {
        const int at = series * stack->count + i;
        room.top = fmax(room.top, frame_y(frame, stack->under[at] + stack->value[at]));
        room.bottom = fmin(room.bottom, frame_y(frame, stack->under[at]));
    }
    return room;
}

static bool name_inside(Frame *frame, const Stack *stack, int at, const char *name) {
    Box best = {0};
    for (int first = 0; first < stack->count; first++) {
        for (int last = first; last < stack->count; last++) {
            const Box room = common_room(frame, stack, at, first, last);
            const bool fits = room.right - room.left > words_width(name) + 8 &&
                              room.bottom - room.top > LINE_HEIGHT;
            if (fits && room.bottom - room.top > best.bottom - best.top)
                best = room;
        }
    }
    return best.right > best.left &&
           frame_label(frame, (best.left + best.right) / 2, (best.top + best.bottom) / 2 + 4,
                       ANCHOR_MIDDLE, "inside", name);
}

void chart_draw_bands(Frame *frame) {
    frame_fit(frame);
    const Stack stack = stacked(frame);
    frame_round_up(frame);
    if (stack.count == 0)
        return;
    frame->plot = (Box){frame->is_narrow ? 44 : 56, 2 * LINE_HEIGHT + 4, frame->width - 6,
                        2 * LINE_HEIGHT + 4 + (frame->is_narrow ? 200 : 260)};
    frame_axis_y(frame);
    bool *is_named = ARENA_ARRAY(frame->arena, bool, stack.series_count);
    for (int at = 0; at < stack.series_count; at++)
        draw_band(frame, &stack, at);
    frame_axis_x(frame);
    frame->height = frame->plot.bottom;
    int at = 0;
    for (const ChartSeries *series = frame->chart->first_series; series; series = series->next)
        is_named[at] = name_inside(frame, &stack, at, series->name), at++;
    frame->height = 0.0;
    double y = frame->plot.bottom + 2 * LINE_HEIGHT + 8;
    frame_key(frame, is_named, &y);
    frame->height = y - LINE_HEIGHT + 6;
}
