/* A strict reader of the pages this project writes: only the tags and attributes it uses, every
 * tag closed in its order, no bare "<" or ">" and no "&" but of five entities, nothing that
 * could run or be fetched. And the tables read out of a page again. */
#ifndef SUPPORT_HTML_PAGE_H
#define SUPPORT_HTML_PAGE_H

#include "base/text.h"

/* NULL when the page is sound, else what is not and where. */
const char *html_fault(Arena *arena, const char *page);

typedef struct HtmlTable {
    const char *key;    /* its data-key */
    const char **cells; /* [row_count * column_count], as read; the head is the first row */
    int row_count, column_count;
    struct HtmlTable *next;
} HtmlTable;

/* The tables of a sound page in their order. */
const HtmlTable *html_tables(Arena *arena, const char *page);

#endif
