#include "present/chart_fill.h"

#include <math.h>

typedef enum { HATCH_NONE, HATCH_SLANTED, HATCH_DOTS, HATCH_LEVEL } Hatch;

enum { SLANTED_APART = 8, DOTS_APART = 8, LEVEL_APART = 4, NO_AREA = 1 };

/* Lines stand where they would if the whole paper were hatched, so that areas side by side are
 * of one piece. */
static double next_line(double from, double apart, double phase) {
    return ceil((from - phase) / apart) * apart + phase;
}

/* x + y is a constant along each. */
static void slanted(Frame *frame, Box box) {
    for (double sum = next_line(box.left + box.top, SLANTED_APART, 0.0);
         sum < box.right + box.bottom; sum += SLANTED_APART) {
        const double left = fmax(box.left, sum - box.bottom);
        const double right = fmin(box.right, sum - box.top);
        text_print(frame->out, "M%.1f %.1fL%.1f %.1f", left, sum - left, right, sum - right);
    }
}

static void level(Frame *frame, Box box) {
    for (double y = next_line(box.top, LEVEL_APART, 2.0); y < box.bottom; y += LEVEL_APART)
        text_print(frame->out, "M%.1f %.1fH%.1f", box.left, y, box.right);
}

/* A dashed line of which only the round ends are seen; every second row is moved by half. */
static void dots(Frame *frame, Box box) {
    const Box inner = {box.left + NO_AREA, box.top + NO_AREA, box.right - NO_AREA,
                       box.bottom - NO_AREA};
    const double half = DOTS_APART / 2.0;
    for (double y = next_line(inner.top, half, 2.0); y < inner.bottom; y += half) {
        const double phase = fmod(y - 2.0, DOTS_APART) < half ? 2.0 : 2.0 + half;
        const double x = next_line(inner.left, DOTS_APART, phase);
        if (x < inner.right)
            text_print(frame->out, "M%.1f %.1fH%.1f", x, y, inner.right);
    }
}

static void put_hatch(Frame *frame, Hatch hatch, Box box) {
    static const char *const CLASSES[] = {"", "slanted", "dots", "level"};
    if (hatch == HATCH_NONE || box.right - box.left < NO_AREA || box.bottom - box.top < NO_AREA)
        return;
    text_print(frame->out, "<path class=\"%s\" d=\"", CLASSES[hatch]);
    switch (hatch) {
    case HATCH_NONE:
        break;
    case HATCH_SLANTED:
        slanted(frame, box);
        break;
    case HATCH_DOTS:
        dots(frame, box);
        break;
    case HATCH_LEVEL:
        level(frame, box);
        break;
    }
    text_add(frame->out, "\"/>\n");
}

void frame_filled(Frame *frame, int fill, Box box) {
    static const Hatch HATCHES[FILL_COUNT] = {HATCH_NONE, HATCH_NONE, HATCH_NONE,
                                              HATCH_NONE, HATCH_NONE, HATCH_SLANTED,
                                              HATCH_DOTS, HATCH_LEVEL};
    frame_rectangle(frame, arena_print(frame->arena, "band fill-%d", fill % FILL_COUNT), box);
    put_hatch(frame, HATCHES[fill % FILL_COUNT], box);
}
