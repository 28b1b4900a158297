/* Text of whoever wrote it, made safe for a page: what would be markup stands as a character, a
 * control character becomes a blank, and bytes that are not UTF-8 become U+FFFD. */
#ifndef PRESENT_HTML_TEXT_H
#define PRESENT_HTML_TEXT_H

#include "base/text.h"

/* Between tags, and inside an attribute in double or single quotes. */
void html_text(Text *out, const char *words);

/* <tag class="..."> words </tag> and a newline; `class` NULL for none. */
void html_element(Text *out, const char *tag, const char *class_name, const char *words);

#endif
