/* The paper a chart is drawn on: a plot with room around it, the scale from values to places,
 * and labels that never overlap each other or leave the paper. Lengths are pixels of the SVG's
 * own view box. */
#ifndef PRESENT_CHART_FRAME_H
#define PRESENT_CHART_FRAME_H

#include "base/text.h"
#include "outcome/report.h"

typedef enum { ANCHOR_START, ANCHOR_MIDDLE, ANCHOR_END } Anchor;

typedef struct {
    double left, top, right, bottom;
} Box;

typedef struct {
    Arena *arena;
    Text *out; /* the drawing */
    const ReportChart *chart;
    bool is_narrow;
    double width, height; /* of the paper; height may be set until the drawing is done */
    Box plot;
    double x_low, x_high, y_low, y_high; /* values at the plot's edges */
    Box *labels;
    int label_count, label_room;
} Frame;

enum { LINE_HEIGHT = 16 };

Frame frame_new(Arena *arena, Text *out, const ReportChart *chart, bool is_narrow);

double frame_x(const Frame *frame, double x);
double frame_y(const Frame *frame, double y);

/* The least and the largest x and y of all series, marks and limits; 0 is always among y. */
void frame_fit(Frame *frame);
/* Wider, to the next round number above. */
void frame_round_up(Frame *frame);

/* An estimate on the wide side, for any common sans-serif at the size of labels. */
double words_width(const char *words);
/* Cut, with an ellipsis, to be no wider. */
const char *words_cut(Arena *arena, const char *words, double width);

/* Draws nothing and returns false where it would meet another label or leave the paper. `y` is
 * the base line. */
bool frame_label(Frame *frame, double x, double y, Anchor anchor, const char *class_name,
                 const char *words);
/* Whether it would be drawn. */
bool frame_has_room(const Frame *frame, double x, double y, Anchor anchor, const char *words);

/* From now on no label may meet it. */
void frame_keep_clear(Frame *frame, Box box);

/* At the first of some places that has room: right of a point, left of it, above, below. */
bool frame_label_beside(Frame *frame, double x, double y, const char *class_name,
                        const char *words);

void frame_line(Frame *frame, const char *class_name, double x1, double y1, double x2,
                double y2);
void frame_rectangle(Frame *frame, const char *class_name, Box box);

/* Lines and labels below the plot and left of it; the label of y stands above it. */
void frame_axis_x(Frame *frame);
void frame_axis_y(Frame *frame);

/* The number with its unit: "$1,200", "61.5 t", "84 %". */
const char *axis_words(Arena *arena, const ChartAxis *axis, double value);

/* A swatch with a name for each series that `is_named` does not tell of, below the plot from
 * *y on, in rows as they fit; NULL: all. */
void frame_key(Frame *frame, const bool *is_named, double *y);

#endif
