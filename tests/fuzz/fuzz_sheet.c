/* Any bytes: every cell read in every way, and what is read lies within its limits. */
#include "base/sheet.h"
#include "base/text.h"
#include <assert.h>
#include <stdint.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static const SheetColumn COLUMNS[] = {
    {"group", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"class", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
    {"weight", UNIT_MASS, COLUMN_REQUIRED, 20, 1500},
    {"crude_protein", UNIT_PERCENT, COLUMN_OPTIONAL, 0, 60},
    {"nitrate", UNIT_NITRATE_ION, COLUMN_OPTIONAL, 0, 20},
    {"mean_temperature", UNIT_TEMPERATURE, COLUMN_OPTIONAL, -60, 40},
    {"price", UNIT_PRICE, COLUMN_OPTIONAL, 0, 10},
    {"date", UNIT_PLAIN, COLUMN_OPTIONAL, -1000, 1000},
};
enum { COLUMN_COUNT = sizeof COLUMNS / sizeof COLUMNS[0] };

static const char *const CLASSES[] = {"cow", "bred heifer", "bull"};

static void read_cell(const Sheet *sheet, int row, int column) {
    const char *const text = sheet_text(sheet, row, column);
    double number;
    int whole;
    Day day;
    const char **pieces;
    sheet_require(sheet, row, column);
    if (sheet_number(sheet, row, column, &number)) {
        assert(number >= COLUMNS[column].least && number <= COLUMNS[column].most);
    }
    if (sheet_whole_number(sheet, row, column, &whole))
        assert(*text != '\0');
    if (sheet_date(sheet, row, column, &day))
        assert(strlen(text) == 10);
    const int choice = sheet_choice(sheet, row, column, CLASSES, 3);
    assert(choice >= -1 && choice < 3);
    const int count = sheet_list(sheet, row, column, &pieces);
    for (int i = 0; i < count; i++)
        assert(strlen(pieces[i]) > 0 && strstr(text, pieces[i]));
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    Arena *const arena = arena_open();
    Faults faults = faults_new(arena);
    const Sheet *const sheet =
        sheet_parse(arena, &faults, "fuzz", (const char *)data, size, COLUMNS, COLUMN_COUNT);
    assert(sheet || faults.wrong_count > 0);
    for (int row = 0; sheet && row < sheet_row_count(sheet); row++) {
        sheet_row_is_empty(sheet, row);
        for (int column = 0; column < COLUMN_COUNT; column++)
            read_cell(sheet, row, column);
    }
    for (const Fault *fault = faults.first; fault; fault = fault->next) {
        assert(text_first_bad_utf8(fault->text, strlen(fault->text)) == -1);
        assert(!strpbrk(fault->text, "\n\r\t\x1B"));
    }
    arena_close(arena);
    return 0;
}
