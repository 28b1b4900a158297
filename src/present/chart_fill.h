/* Areas that can be told apart without colour: greys far from each other, then lines and dots.
 * Lines and dots are drawn as such: a printer makes a picture of a pattern, and of a page of
 * them a file too large to pass on. */
#ifndef PRESENT_CHART_FILL_H
#define PRESENT_CHART_FILL_H

#include "present/chart_frame.h"

enum { FILL_COUNT = 8 };

void frame_filled(Frame *frame, int fill, Box box); /* fill: which of FILL_COUNT, turning */

#endif
