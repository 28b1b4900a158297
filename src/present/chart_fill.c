#include "present/chart_fill.h"

#include <math.h>

typedef enum { HATCH_NONE, HATCH_SLANTED, HATCH_DOTS, HATCH_LEVEL } Hatch;

enum { SLANTED_APART = 8, DOTS_APART = 8, LEVEL_APART = 4, NO_AREA = 1 };

/* Lines stand where they would if the whole paper were hatched, so that areas side by side are
 * of one piece: at every multiple of `apart`. */
static int first_line(double from, int apart) { return (int)ceil(from / apart); }

static int lines_in(double from, double to, int apart) {
    const int first = first_line(from, apart);
    const int behind = (int)ceil(to / apart);
    return behind > first ? behind - first : 0;
}

/* x + y is a constant along each. */
static void slanted(Frame *frame, Box box) {
    const double from = box.left + box.top;
    const int count = lines_in(from, box.right + box.bottom, SLANTED_APART);
    for (int i = 0; i < count; i++) {
        const double sum = (first_line(from, SLANTED_APART) + i) * SLANTED_APART;
        const double left = fmax(box.left, sum - box.bottom);
        const double right = fmin(box.right, sum - box.top);
        text_print(frame->out, "M%.1f %.1fL%.1f %.1f", left, sum - left, right, sum - right);
    }
}

static void level(Frame *frame, Box box) {
    const int count = lines_in(box.top, box.bottom, LEVEL_APART);
    for (int i = 0; i < count; i++)
        text_print(frame->out, "M%.1f %dH%.1f", box.left,
                   (first_line(box.top, LEVEL_APART) + i) * LEVEL_APART, box.right);
}

/* A dashed line of which only the round ends are seen; every second row is moved by half. */
static void dots(Frame *frame, Box box) {
    const double left = box.left + NO_AREA;
    const double right = box.right - NO_AREA;
    const double top = box.top + NO_AREA;
    const int half = DOTS_APART / 2;
    const int count = lines_in(top, box.bottom - NO_AREA, half);
    for (int i = 0; i < count; i++) {
        const int row = first_line(top, half) + i;
        const double moved = row % 2 == 0 ? 0.0 : half;
        const double x = first_line(left - moved, DOTS_APART) * DOTS_APART + moved;
        if (x < right)
            text_print(frame->out, "M%.1f %dH%.1f", x, row * half, right);
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
