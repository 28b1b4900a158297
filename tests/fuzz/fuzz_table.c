/* Any bytes: a table whose cells lie in its file, or a fault. */
#include "base/table.h"
#include "base/text.h"
#include <assert.h>
#include <stdint.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void check_cell(const TableCell *cell, int line_before) {
    assert(cell->text);
    assert(cell->line >= line_before && cell->line > 0 && cell->column >= 0);
    assert(text_first_bad_utf8(cell->text, strlen(cell->text)) == -1);
    if (*cell->text != '\0')
        assert(cell->column > 0);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    Arena *const arena = arena_open();
    Faults faults = faults_new(arena);
    const Table *const table = table_parse(arena, &faults, "fuzz", (const char *)data, size);
    assert(table || faults.wrong_count > 0);
    for (int column = 0; table && column < table->column_count; column++) {
        check_cell(&table->headings[column], 1);
        assert(*table->headings[table->column_count - 1].text != '\0');
    }
    for (int row = 0; table && row < table->row_count; row++) {
        const int line_before = row == 0 ? 1 : table_cell(table, row - 1, 0)->line;
        for (int column = 0; column < table->column_count; column++) {
            check_cell(table_cell(table, row, column), line_before);
        }
    }
    faults_sorted(&faults, arena);
    arena_close(arena);
    return 0;
}
