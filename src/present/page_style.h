/* How a page looks, on a screen and printed: black on white, large numerals, one accent colour,
 * nothing that only a colour tells. */
#ifndef PRESENT_PAGE_STYLE_H
#define PRESENT_PAGE_STYLE_H

#include "base/text.h"

/* The style sheet, without its element. */
void page_style(Text *out);

#endif
