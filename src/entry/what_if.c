#include "entry/what_if.h"
#include "base/text.h"
#include <math.h>
#include <string.h>

enum {
    WHAT_IF_FILE,
    WHAT_IF_ROW,
    WHAT_IF_COLUMN,
    WHAT_IF_VALUE,
    WHAT_IF_CHANGE,
    WHAT_IF_NOTE,
    WHAT_IF_COLUMN_COUNT
};

#define MOST_MONEY 1e9

static const SheetColumn COLUMNS[WHAT_IF_COLUMN_COUNT] = {
    {"file", UNIT_PLAIN, COLUMN_REQUIRED, 0.0, 0.0},
    {"row", UNIT_PLAIN, COLUMN_REQUIRED, 0.0, 0.0},
    {"column", UNIT_PLAIN, COLUMN_REQUIRED, 0.0, 0.0},
    {"value", UNIT_PLAIN, COLUMN_REQUIRED, -MOST_MONEY, MOST_MONEY},
    {"change", UNIT_PLAIN, COLUMN_OPTIONAL, 0.0, 0.0},
    {"note", UNIT_PLAIN, COLUMN_OPTIONAL, 0.0, 0.0},
};
static const char *const KINDS[] = {"set", "add", "copy", "remove"};
#define HERD_WORD "herd"

/* ---- names ---- */

static const char *last_part(const char *path) {
    const char *slash = strrchr(path, '/');
    return slash ? slash + 1 : path;
}

static const char *without_ending(Arena *arena, const char *name) {
    const size_t length = strlen(name);
    const bool has_ending = length > 4 && text_same_letters(name + length - 4, ".csv");
    return arena_copy(arena, name, has_ending ? length - 4 : length);
}

static const char *name_of(Arena *arena, const char *file) {
    const char *stem = without_ending(arena, last_part(file));
    Text name = text_new(arena);
    for (const char *byte = stem; *byte; byte++)
        text_add_bytes(&name, *byte == '-' || *byte == '_' ? " " : byte, 1);
    return name.length > 0 ? name.bytes : stem;
}

static bool is_called(const char *word, const char *name) {
    const size_t length = strlen(name);
    if (text_same_letters(word, name))
        return length > 0;
    return length > 4 && strlen(word) == length - 4 && strncmp(word, name, length - 4) == 0;
}

bool what_if_find_file(const char *word, const char *herd_file, FarmFile *file) {
    *file = FARM_HERD;
    if (text_same_letters(word, HERD_WORD) || is_called(word, last_part(herd_file)))
        return true;
    for (int i = FARM_STACKS; i < FARM_FILE_COUNT; i++) {
        *file = (FarmFile)i;
        if (is_called(word, FARM_FILE_NAME[i]))
            return true;
    }
    return false;
}

const char *what_if_file_cure(Arena *arena, const char *word) {
    const char *names[FARM_FILE_COUNT + 1] = {
        [FARM_HERD] = HERD_WORD, [FARM_FILE_COUNT] = WHAT_IF_COST};
    for (int i = FARM_STACKS; i < FARM_FILE_COUNT; i++)
        names[i] = without_ending(arena, FARM_FILE_NAME[i]);
    const char *nearest = text_nearest(without_ending(arena, word), names, FARM_FILE_COUNT + 1);
    if (nearest)
        return arena_print(arena, "; did you mean '%s'?", nearest);
    Text list = text_new(arena);
    for (int i = 0; i <= FARM_FILE_COUNT; i++)
        text_print(&list, "%s%s", i == 0 ? "; the files are: " : ", ", names[i]);
    return list.bytes;
}

/* ---- the file ---- */

static bool empty_cell_told(const Sheet *sheet, int row, int column, const char *why) {
    if (sheet_text(sheet, row, column)[0] != '\0')
        return false;
    fault_add(sheet_faults(sheet), sheet_place(sheet, row, column), "%s: the cell is empty; %s",
              sheet_heading(sheet, column), why);
    return true;
}

static void read_cost(const Sheet *sheet, int row, WhatIf *what_if) {
    double money;
    if (empty_cell_told(sheet, row, WHAT_IF_ROW, "write what the money is for") ||
        !sheet_require(sheet, row, WHAT_IF_VALUE) ||
        !sheet_number(sheet, row, WHAT_IF_VALUE, &money))
        return;
    const char *what_for = sheet_text(sheet, row, WHAT_IF_ROW);
    what_if->own_cost += money;
    what_if->cost_words =
        what_if->cost_words[0] != '\0'
            ? arena_print(sheet_arena(sheet), "%s; %s", what_if->cost_words, what_for)
            : what_for;
}

static bool read_kind(const Sheet *sheet, int row, Change *change) {
    const int kind = sheet_choice(sheet, row, WHAT_IF_CHANGE, KINDS, 4);
    change->kind = kind < 0 ? CHANGE_SET : (ChangeKind)kind;
    return kind >= 0 || sheet_text(sheet, row, WHAT_IF_CHANGE)[0] == '\0';
}

/* What each kind of change wants in its cells. */
static bool is_complete(const Sheet *sheet, int row, Change *change) {
    if (empty_cell_told(sheet, row, WHAT_IF_ROW, "write the name that the row has in the file"))
        return false;
    const bool has_column = change->column[0] != '\0';
    const bool has_value = change->value[0] != '\0';
    switch (change->kind) {
    case CHANGE_SET:
        if (!has_column && change->file == FARM_WINTER) {
            change->column = "value";
            return true;
        }
        return !empty_cell_told(sheet, row, WHAT_IF_COLUMN,
                                "write the heading of what is changed");
    case CHANGE_ADD:
        return !has_value || !empty_cell_told(sheet, row, WHAT_IF_COLUMN,
                                              "write the heading that the value is of");
    case CHANGE_COPY:
        return !empty_cell_told(sheet, row, WHAT_IF_VALUE, "write the name of the new row");
    case CHANGE_REMOVE:
        break;
    }
    if (!has_column && !has_value)
        return true;
    fault_add(sheet_faults(sheet), sheet_place(sheet, row, WHAT_IF_CHANGE),
              "change: remove takes the whole row away: leave column and value empty");
    return false;
}

static void read_change(const Sheet *sheet, int row, const char *herd_file, WhatIf *what_if,
                        Change *changes) {
    const char *word = sheet_text(sheet, row, WHAT_IF_FILE);
    if (empty_cell_told(sheet, row, WHAT_IF_FILE, "write the file that is changed"))
        return;
    if (text_same_letters(word, WHAT_IF_COST)) {
        read_cost(sheet, row, what_if);
        return;
    }
    Change change = {
        .row = sheet_text(sheet, row, WHAT_IF_ROW),
        .column = sheet_text(sheet, row, WHAT_IF_COLUMN),
        .value = sheet_text(sheet, row, WHAT_IF_VALUE),
        .place = sheet_place(sheet, row, WHAT_IF_FILE),
        .row_place = sheet_place(sheet, row, WHAT_IF_ROW),
        .column_place = sheet_place(sheet, row, WHAT_IF_COLUMN),
        .value_place = sheet_place(sheet, row, WHAT_IF_VALUE),
    };
    if (!what_if_find_file(word, herd_file, &change.file)) {
        fault_add(sheet_faults(sheet), change.place, "file: no file of a farm is called '%s'%s",
                  text_excerpt(sheet_arena(sheet), word),
                  what_if_file_cure(sheet_arena(sheet), word));
        return;
    }
    if (change.file == FARM_FIELDS)
        doubt_add(sheet_faults(sheet), change.place, "file: " FIELDS_ARE_OF_CUT);
    if (read_kind(sheet, row, &change) && is_complete(sheet, row, &change))
        changes[what_if->count++] = change;
}

bool what_if_parse(Arena *arena, Faults *faults, const FileBytes *file, const char *herd_file,
                   WhatIf *what_if) {
    const int wrong_before = faults->wrong_count;
    *what_if =
        (WhatIf){.name = name_of(arena, file->name), .file = file->name, .cost_words = ""};
    const Sheet *sheet = sheet_parse(arena, faults, file->name, file->bytes, file->length,
                                     COLUMNS, WHAT_IF_COLUMN_COUNT);
    if (!sheet)
        return false;
    const int rows = sheet_row_count(sheet);
    if (rows > WHAT_IF_MOST_CHANGES) {
        fault_add(faults, (Place){file->name, 0, 0},
                  "has %d changes, more than the %d that are read; is it the right file?", rows,
                  WHAT_IF_MOST_CHANGES);
        return false;
    }
    Change *changes = ARENA_ARRAY(arena, Change, rows);
    what_if->changes = changes;
    for (int row = 0; row < rows && faults->wrong_count - wrong_before <= rows; row++) {
        if (!sheet_row_is_empty(sheet, row))
            read_change(sheet, row, herd_file, what_if, changes);
    }
    if (faults->wrong_count == wrong_before && what_if->count == 0 && what_if->own_cost == 0.0)
        doubt_add(faults, (Place){file->name, 0, 0},
                  "changes nothing: this future is the farm as it is");
    return faults->wrong_count == wrong_before;
}
