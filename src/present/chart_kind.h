/* How each kind of chart is drawn on its paper; each sets the paper's height. For chart_svg.c
 * alone. */
#ifndef PRESENT_CHART_KIND_H
#define PRESENT_CHART_KIND_H

#include "present/chart_frame.h"

void chart_draw_strips(Frame *frame); /* many lines: a strip each, one below the other */
void chart_draw_plot(Frame *frame);   /* a few lines, steps or a curve over one scale */
void chart_draw_bands(Frame *frame);
void chart_draw_limit_bars(Frame *frame);
void chart_draw_stacked_bars(Frame *frame);

#endif
