/* Any text: what is read as a date prints as the same text. Other text has a fault that says
 * what to write, by way of a sheet of one date. */
#include "base/calendar.h"
#include "base/sheet.h"
#include "base/text.h"
#include <assert.h>
#include <stdint.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static const SheetColumn COLUMN = {"date", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0};

static void read_as_cell(Arena *arena, const char *text) {
    Faults faults = faults_new(arena);
    Text file = text_new(arena);
    text_print(&file, "date\n%s\n", text);
    const Sheet *const sheet =
        sheet_parse(arena, &faults, "fuzz", file.bytes, file.length, &COLUMN, 1);
    for (int row = 0; sheet && row < sheet_row_count(sheet); row++) {
        Day day;
        const int before = faults.wrong_count;
        if (sheet_date(sheet, row, 0, &day)) {
            assert(faults.wrong_count == before);
        } else {
            assert(sheet_row_is_empty(sheet, row) || faults.wrong_count > 0);
        }
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    Arena *const arena = arena_open();
    const char *const text = arena_copy(arena, (const char *)data, size);
    Day day;
    if (calendar_parse(text, &day)) {
        char back[CALENDAR_TEXT_BYTES];
        calendar_print(day, back);
        assert(strcmp(text, back) == 0);
        const Day next = calendar_first_of_next_month(day);
        const int days = calendar_days_between(day, next);
        assert(days >= 1 && days <= 31 && calendar_day_of_month(next) == 1);
    }
    read_as_cell(arena, text);
    arena_close(arena);
    return 0;
}
