/* Any bytes in every place of a report that holds somebody's text: the page made of it is sound
 * (support/html_page.h), and no cell of its CSV begins like a formula. */
#include "present/csv_table.h"
#include "present/present.h"
#include "support/html_page.h"
#include "support/told_everywhere.h"

#include <assert.h>
#include <stdint.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void check_cell(Arena *arena, const char *words) {
    Text cell = text_new(arena);
    csv_words(&cell, words);
    assert(!strpbrk(cell.bytes, "\r\n\t"));
    const char *first = cell.bytes + (cell.bytes[0] == '"');
    first += strspn(first, " ");
    assert(*first == '\0' || !strchr("=+-@", *first));
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    if (size > 400)
        return 0;
    Arena *const arena = arena_open();
    const char *const words = arena_copy(arena, (const char *)data, size);
    Text page = text_new(arena);
    present_html(told_everywhere(arena, words), PAGE_REPORT, &page);
    assert(!html_fault(arena, page.bytes));
    check_cell(arena, words);
    arena_close(arena);
    return 0;
}
