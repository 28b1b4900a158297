/* Runs the cases of tests/published: run_published FILE.csv ...
 *
 * One case a row: case, function, inputs (numbers with blanks between), expected, tolerance
 * (absolute, or relative with %), source (keys of base/source.def with blanks between), note.
 * Says what failed, and at last `N passed, N failed`. */
#include "published/published.h"

#include "base/source.h"
#include "base/table.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define MOST_INPUTS 16

enum { CASE, FUNCTION, INPUTS, EXPECTED, TOLERANCE, SOURCES, NOTE, COLUMN_COUNT };

static const char *const HEADINGS[COLUMN_COUNT] = {
    "case", "function", "inputs", "expected", "tolerance", "source", "note"};

typedef struct {
    int passed, failed;
} Count;

typedef struct {
    const Table *table;
    int row;
} Row;

static const char *cell_of(Row row, int column) {
    return table_cell(row.table, row.row, column)->text;
}

static bool fail(Row row, const char *what, const char *detail) {
    printf("%s:%d: %s: %s %s\n", row.table->file, table_cell(row.table, row.row, 0)->line,
           cell_of(row, CASE), what, detail);
    return false;
}

static const PublishedFunction *function_named(const char *name) {
    const PublishedFunction *const lists[] = {
        CATTLE_FUNCTIONS,  FEED_FUNCTIONS,    STOCK_FUNCTIONS, RATION_FUNCTIONS,
        PLANNED_FUNCTIONS, WEATHER_FUNCTIONS, YEAR_FUNCTIONS,  PRICE_FUNCTIONS};
    for (size_t list = 0; list < sizeof lists / sizeof *lists; list++) {
        for (const PublishedFunction *function = lists[list]; function->name; function++) {
            if (strcmp(function->name, name) == 0) {
                return function;
            }
        }
    }
    return NULL;
}

static const char *skip_blanks(const char *text) {
    while (isspace((unsigned char)*text)) {
        text++;
    }
    return text;
}

/* How many numbers the text holds, -1 when something in it is no number or there are too many.
 */
static int read_numbers(const char *text, double numbers[MOST_INPUTS]) {
    int count = 0;
    for (text = skip_blanks(text); *text != '\0'; text = skip_blanks(text)) {
        char *end = NULL;
        const double number = strtod(text, &end);
        if (end == text || !isfinite(number) || count == MOST_INPUTS) {
            return -1;
        }
        if (*end != '\0' && !isspace((unsigned char)*end)) {
            return -1;
        }
        numbers[count++] = number;
        text = end;
    }
    return count;
}

/* The width allowed to both sides; negative when the cell holds none. */
static double allowed_error(const char *text, double expected) {
    char *end = NULL;
    const double number = strtod(text, &end);
    if (end == text || !isfinite(number) || number < 0.0) {
        return -1.0;
    }
    if (strcmp(end, "%") == 0) {
        return number / 100.0 * fabs(expected);
    }
    return *end == '\0' ? number : -1.0;
}

static bool sources_are_known(Row row) {
    const char *text = skip_blanks(cell_of(row, SOURCES));
    if (*text == '\0') {
        return fail(row, "cites no source", "");
    }
    while (*text != '\0') {
        char key[64];
        const size_t length = strcspn(text, " \t");
        SourceKey source = SOURCE_NONE;
        if (length >= sizeof key) {
            return fail(row, "source key is too long:", text);
        }
        memcpy(key, text, length);
        key[length] = '\0';
        if (!source_find(key, &source)) {
            return fail(row, "no such source in base/source.def:", key);
        }
        text = skip_blanks(text + length);
    }
    return true;
}

static bool result_is_right(Row row, const PublishedFunction *function, const double *inputs) {
    double expected = 0.0;
    double room[MOST_INPUTS];
    if (read_numbers(cell_of(row, EXPECTED), room) != 1) {
        return fail(row, "expected value is not one number:", cell_of(row, EXPECTED));
    }
    expected = room[0];
    const double allowed = allowed_error(cell_of(row, TOLERANCE), expected);
    if (allowed < 0.0) {
        return fail(row, "tolerance is not a number or a per cent:", cell_of(row, TOLERANCE));
    }
    const double actual = function->call(inputs);
    /* The comparison is written so that not-a-number fails; a hair for the last binary digit.
     */
    if (fabs(actual - expected) <= allowed + 1e-12 * fabs(expected)) {
        return true;
    }
    char detail[160];
    snprintf(detail, sizeof detail, "expected %.6g, actual %.6g, allowed +-%.3g", expected,
             actual, allowed);
    return fail(row, function->name, detail);
}

static bool case_passes(Row row) {
    double inputs[MOST_INPUTS] = {0};
    const PublishedFunction *function = function_named(cell_of(row, FUNCTION));
    if (*cell_of(row, CASE) == '\0') {
        return fail(row, "case has no name", "");
    }
    if (function == NULL) {
        return fail(row, "unknown function", cell_of(row, FUNCTION));
    }
    const int count = read_numbers(cell_of(row, INPUTS), inputs);
    if (count != function->inputs) {
        return fail(row, "wrong number of inputs for", function->name);
    }
    if (!sources_are_known(row)) {
        return false;
    }
    return result_is_right(row, function, inputs);
}

static bool name_was_used(const Table *table, int row) {
    for (int earlier = 0; earlier < row; earlier++) {
        if (strcmp(table_cell(table, earlier, CASE)->text,
                   table_cell(table, row, CASE)->text) == 0) {
            return true;
        }
    }
    return false;
}

static bool headings_are_right(const Table *table) {
    if (table->column_count != COLUMN_COUNT) {
        return false;
    }
    for (int column = 0; column < COLUMN_COUNT; column++) {
        if (strcmp(table->headings[column].text, HEADINGS[column]) != 0) {
            return false;
        }
    }
    return true;
}

static void run_table(const Table *table, Count *count) {
    if (!headings_are_right(table)) {
        printf("%s: columns are not case,function,inputs,expected,tolerance,source,note\n",
               table->file);
        count->failed++;
        return;
    }
    for (int index = 0; index < table->row_count; index++) {
        const Row row = {table, index};
        bool passes = case_passes(row);
        if (name_was_used(table, index)) {
            passes = fail(row, "case name is used twice", "");
        }
        *(passes ? &count->passed : &count->failed) += 1;
    }
}

/* NULL when the file cannot be read or is longer than a table may be. */
static char *read_file(Arena *arena, const char *name, size_t *length) {
    FILE *file = fopen(name, "rb");
    if (file == NULL) {
        return NULL;
    }
    char *bytes = arena_take(arena, TABLE_MOST_BYTES, 1);
    *length = fread(bytes, 1, TABLE_MOST_BYTES, file);
    const bool is_whole = !ferror(file) && fgetc(file) == EOF;
    fclose(file);
    return is_whole ? bytes : NULL;
}

static void run_file(const char *name, Count *count) {
    Arena *arena = arena_open();
    Faults faults = faults_new(arena);
    size_t length = 0;
    const char *bytes = read_file(arena, name, &length);
    const Table *table = bytes ? table_parse(arena, &faults, name, bytes, length) : NULL;
    if (bytes == NULL) {
        printf("%s: cannot be read\n", name);
    }
    for (const Fault *fault = faults.first; fault != NULL; fault = fault->next) {
        printf("%s:%d: %s\n", name, fault->place.line, fault->text);
    }
    if (table == NULL || faults.wrong_count > 0) {
        count->failed++;
    } else {
        run_table(table, count);
    }
    arena_close(arena);
}

int main(int argument_count, char **arguments) {
    Count count = {0, 0};
    for (int index = 1; index < argument_count; index++) {
        run_file(arguments[index], &count);
    }
    printf("%d passed, %d failed\n", count.passed, count.failed);
    return count.failed > 0 || count.passed == 0 ? EXIT_FAILURE : EXIT_SUCCESS;
}
