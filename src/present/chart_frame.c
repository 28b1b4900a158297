#include "present/chart_frame.h"

#include "base/calendar.h"
#include "present/chart_fill.h"
#include "present/html_text.h"

#include <math.h>
#include <string.h>

enum {
    WIDE = 840,
    NARROW = 330,
    EDGE = 2,          /* between a label and the edge of the paper */
    LABEL_ASCENT = 11, /* above the base line */
    LABEL_DESCENT = 4, /* below it */
    LABEL_GAP = 3,     /* between two labels beside each other */
    POINT_GAP = 7,     /* between a point and its label */
    SWATCH = 12
};

Frame frame_new(Arena *arena, Text *out, const ReportChart *chart, bool is_narrow) {
    return (Frame){.arena = arena,
                   .out = out,
                   .chart = chart,
                   .is_narrow = is_narrow,
                   .width = is_narrow ? NARROW : WIDE};
}

static double part_of(double value, double low, double high) {
    return high > low ? (value - low) / (high - low) : 0.0;
}

double frame_x(const Frame *frame, double x) {
    return frame->plot.left +
           (frame->plot.right - frame->plot.left) * part_of(x, frame->x_low, frame->x_high);
}

double frame_y(const Frame *frame, double y) {
    return frame->plot.bottom -
           (frame->plot.bottom - frame->plot.top) * part_of(y, frame->y_low, frame->y_high);
}

static void reach_x(Frame *frame, double x) {
    if (!isfinite(x))
        return;
    frame->x_low = fmin(frame->x_low, x);
    frame->x_high = fmax(frame->x_high, x);
}

static void reach_y(Frame *frame, double y) {
    if (!isfinite(y))
        return;
    frame->y_low = fmin(frame->y_low, y);
    frame->y_high = fmax(frame->y_high, y);
}

void frame_fit(Frame *frame) {
    const ReportChart *chart = frame->chart;
    frame->x_low = HUGE_VAL;
    frame->x_high = -HUGE_VAL;
    frame->y_low = frame->y_high = 0.0;
    for (const ChartSeries *series = chart->first_series; series; series = series->next) {
        for (int i = 0; i < series->count; i++) {
            reach_x(frame, series->points[i].x);
            reach_y(frame, series->points[i].y);
        }
    }
    reach_x(frame, chart->last_x);
    for (const ChartMark *mark = chart->first_mark; mark; mark = mark->next) {
        reach_x(frame, mark->x);
        reach_y(frame, mark->y);
    }
    for (const ChartLimit *limit = chart->first_limit; limit; limit = limit->next)
        reach_y(frame, limit->y);
    if (frame->x_low > frame->x_high)
        frame->x_low = frame->x_high = 0.0;
}

/* 1, 2 or 5 times a power of ten: about `count` of it fill the range. */
static double round_step(double range, int count) {
    const double raw = range / count;
    if (!(raw > 0.0) || !isfinite(raw))
        return 1.0;
    const double power = pow(10.0, floor(log10(raw)));
    const double times = raw / power;
    return power * (times <= 1.0 ? 1.0 : times <= 2.0 ? 2.0 : times <= 5.0 ? 5.0 : 10.0);
}

static int step_count(const Frame *frame) { return frame->is_narrow ? 4 : 5; }

void frame_round_up(Frame *frame) {
    const double step = round_step(frame->y_high - frame->y_low, step_count(frame));
    frame->y_high = step * ceil(frame->y_high / step - 1e-9);
    frame->y_low = step * floor(frame->y_low / step + 1e-9);
    if (frame->y_high <= frame->y_low)
        frame->y_high = frame->y_low + step;
}

/* Of the size of letters: the widest that common sans-serif faces make them. */
static double letter_width(unsigned char letter) {
    if (strchr("iljtfrI.,:;'|!()[]{}/ -`", letter))
        return 0.40;
    if (strchr("mwMW%@", letter))
        return 0.98;
    if (letter >= 'A' && letter <= 'Z')
        return 0.76;
    return letter >= 0x80 ? 1.0 : 0.64;
}

#define LETTER_SIZE 13.0

double words_width(const char *words) {
    double width = 0.0;
    for (const char *at = words; *at; at++) {
        const unsigned char letter = (unsigned char)*at;
        if ((letter & 0xC0) != 0x80)
            width += letter_width(letter);
    }
    return width * LETTER_SIZE;
}

const char *words_cut(Arena *arena, const char *words, double width) {
    static const char ELLIPSIS[] = "\xE2\x80\xA6";
    if (words_width(words) <= width)
        return words;
    size_t length = strlen(words);
    const char *cut = "";
    while (length > 0) {
        length--;
        while (length > 0 && ((unsigned char)words[length] & 0xC0) == 0x80)
            length--;
        size_t shown = length;
        while (shown > 0 && words[shown - 1] == ' ')
            shown--;
        cut = arena_print(arena, "%.*s%s", (int)shown, words, ELLIPSIS);
        if (words_width(cut) <= width)
            return cut;
    }
    return cut;
}

static Box label_box(double x, double y, Anchor anchor, const char *words) {
    const double width = words_width(words);
    const double left = anchor == ANCHOR_START    ? x
                        : anchor == ANCHOR_MIDDLE ? x - width / 2.0
                                                  : x - width;
    return (Box){left, y - LABEL_ASCENT, left + width, y + LABEL_DESCENT};
}

bool frame_has_room(const Frame *frame, double x, double y, Anchor anchor, const char *words) {
    const Box box = label_box(x, y, anchor, words);
    if (box.left < EDGE - 1 || box.right > frame->width - EDGE + 1 || box.top < 0.0 ||
        (frame->height > 0.0 && box.bottom > frame->height))
        return false;
    for (int i = 0; i < frame->label_count; i++) {
        const Box *other = &frame->labels[i];
        if (box.left < other->right + LABEL_GAP && box.right > other->left - LABEL_GAP &&
            box.top < other->bottom && box.bottom > other->top)
            return false;
    }
    return true;
}

void frame_keep_clear(Frame *frame, Box box) {
    if (frame->label_count == frame->label_room) {
        const int room = frame->label_room > 0 ? frame->label_room * 2 : 32;
        Box *more = ARENA_ARRAY(frame->arena, Box, room);
        if (frame->label_count > 0)
            memcpy(more, frame->labels, (size_t)frame->label_count * sizeof *more);
        frame->labels = more;
        frame->label_room = room;
    }
    frame->labels[frame->label_count++] = box;
}

bool frame_label(Frame *frame, double x, double y, Anchor anchor, const char *class_name,
                 const char *words) {
    static const char *const ANCHORS[] = {"start", "middle", "end"};
    if (!words[0] || !frame_has_room(frame, x, y, anchor, words))
        return false;
    frame_keep_clear(frame, label_box(x, y, anchor, words));
    text_print(frame->out, "<text x=\"%.1f\" y=\"%.1f\" text-anchor=\"%s\" class=\"%s\">", x, y,
               ANCHORS[anchor], class_name);
    html_text(frame->out, words);
    text_add(frame->out, "</text>\n");
    return true;
}

bool frame_label_beside(Frame *frame, double x, double y, const char *class_name,
                        const char *words) {
    const double level = y + LABEL_DESCENT;
    for (int away = 0; away < 4; away++) {
        const double step = away * LINE_HEIGHT;
        if (frame_label(frame, x + POINT_GAP, level - step, ANCHOR_START, class_name, words) ||
            frame_label(frame, x - POINT_GAP, level - step, ANCHOR_END, class_name, words) ||
            frame_label(frame, x, level - LABEL_ASCENT - step, ANCHOR_MIDDLE, class_name,
                        words) ||
            frame_label(frame, x, level + LABEL_ASCENT + POINT_GAP + step, ANCHOR_MIDDLE,
                        class_name, words) ||
            frame_label(frame, x + POINT_GAP, level + step, ANCHOR_START, class_name, words) ||
            frame_label(frame, x - POINT_GAP, level + step, ANCHOR_END, class_name, words))
            return true;
    }
    return false;
}

void frame_line(Frame *frame, const char *class_name, double x1, double y1, double x2,
                double y2) {
    text_print(frame->out,
               "<line class=\"%s\" x1=\"%.1f\" y1=\"%.1f\" x2=\"%.1f\" y2=\"%.1f\"/>\n",
               class_name, x1, y1, x2, y2);
}

void frame_rectangle(Frame *frame, const char *class_name, Box box) {
    text_print(frame->out,
               "<rect class=\"%s\" x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"%.1f\"/>\n",
               class_name, box.left, box.top, fmax(box.right - box.left, 0.0),
               fmax(box.bottom - box.top, 0.0));
}

const char *axis_words(Arena *arena, const ChartAxis *axis, double value) {
    const char *number = number_words(arena, value, axis->decimals);
    if (!axis->unit[0] || !number[0])
        return number;
    if (axis->unit[0] == '$') {
        const bool is_negative = number[0] == '-';
        return arena_print(arena, "%s$%s%s", is_negative ? "-" : "", number + is_negative,
                           axis->unit + 1);
    }
    return arena_print(arena, "%s\xC2\xA0%s", number, axis->unit);
}

static void tick_x(Frame *frame, double value, const char *words) {
    const double x = frame_x(frame, value);
    frame_line(frame, "grid", x, frame->plot.top, x, frame->plot.bottom);
    frame_label(frame, x, frame->plot.bottom + LINE_HEIGHT, ANCHOR_MIDDLE, "tick", words);
}

static void ticks_of_days(Frame *frame) {
    const Day last = {(int)frame->x_high};
    Day day = {(int)frame->x_low};
    if (calendar_day_of_month(day) != 1)
        day = calendar_first_of_next_month(day);
    for (; day.number <= last.number; day = calendar_first_of_next_month(day))
        tick_x(frame, day.number, calendar_month_name(calendar_month(day)));
}

static int tick_decimals(double step, int most) {
    int decimals = 0;
    while (decimals < most && fabs(step - round(step)) > 1e-9) {
        step *= 10.0;
        decimals++;
    }
    return decimals;
}

static void ticks_of_numbers(Frame *frame) {
    const double step = round_step(frame->x_high - frame->x_low, step_count(frame));
    ChartAxis axis = frame->chart->x;
    axis.decimals = tick_decimals(step, 3);
    const double first = ceil(frame->x_low / step - 1e-9);
    for (int i = 0; i <= 2 * step_count(frame); i++) {
        const double value = (first + i) * step;
        if (value <= frame->x_high + 1e-9 * step)
            tick_x(frame, value, axis_words(frame->arena, &axis, value));
    }
}

void frame_axis_x(Frame *frame) {
    const ChartAxis *axis = &frame->chart->x;
    if (axis->kind == AXIS_DAYS)
        ticks_of_days(frame);
    else if (axis->kind == AXIS_NUMBERS)
        ticks_of_numbers(frame);
    frame_line(frame, "axis", frame->plot.left, frame->plot.bottom, frame->plot.right,
               frame->plot.bottom);
    frame_label(frame, frame->plot.right, frame->plot.bottom + 2 * LINE_HEIGHT, ANCHOR_END,
                "name", words_cut(frame->arena, axis->label, frame->width - 2 * EDGE));
}

void frame_axis_y(Frame *frame) {
    ChartAxis axis = frame->chart->y;
    const double step = round_step(frame->y_high - frame->y_low, step_count(frame));
    axis.decimals = tick_decimals(step, 3);
    const int count = (int)floor((frame->y_high - frame->y_low) / step + 1e-9);
    for (int i = 0; i <= count; i++) {
        const double value = frame->y_low + i * step;
        const double y = frame_y(frame, value);
        frame_line(frame, "grid", frame->plot.left, y, frame->plot.right, y);
        frame_label(frame, frame->plot.left - 6, y + LABEL_DESCENT, ANCHOR_END, "tick",
                    axis_words(frame->arena, &axis, value));
    }
    frame_label(frame, EDGE, frame->plot.top - LINE_HEIGHT, ANCHOR_START, "name",
                words_cut(frame->arena, axis.label, frame->width - 2 * EDGE));
}

void frame_key(Frame *frame, const bool *is_named, double *y) {
    double x = EDGE;
    bool has_any = false;
    int fill = 0;
    for (const ChartSeries *series = frame->chart->first_series; series;
         series = series->next, fill++) {
        if (is_named && is_named[fill])
            continue;
        const char *name =
            words_cut(frame->arena, series->name, frame->width - SWATCH - 4 * EDGE - 4);
        const double width = SWATCH + 5 + words_width(name) + 14;
        if (has_any && x + width - 14 > frame->width - EDGE) {
            x = EDGE;
            *y += LINE_HEIGHT + 2;
        }
        frame_filled(frame, fill, (Box){x, *y - SWATCH + 2, x + SWATCH, *y + 2});
        frame_label(frame, x + SWATCH + 5, *y, ANCHOR_START, "name", name);
        x += width;
        has_any = true;
    }
    if (has_any)
        *y += LINE_HEIGHT + 2;
}
