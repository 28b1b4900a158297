/* Changes made to the tables of a farm's files. */
#include "base/choice.h"
#include "base/text.h"
#include "entry/what_if.h"
#include <string.h>

/* What a row of each file goes by; the first column where none of these is headed so. */
static const char *const KEYS[FARM_FILE_COUNT] = {
    [FARM_HERD] = "group",         [FARM_STACKS] = "stack",
    [FARM_FEED_TESTS] = "stack",   [FARM_FOR_SALE] = "feed_for_sale",
    [FARM_WINTER] = "setting",     [FARM_WEATHER] = "month",
    [FARM_NEEDS] = "group",        [FARM_FIELDS] = "field",
    [FARM_FED] = "stack",          [FARM_COUNTS] = "stack",
    [FARM_HEAD_CHANGES] = "group",
};
/* Rows of another file that belong to a row of this one, by their own heading. */
static const struct {
    FarmFile of, file;
    const char *heading;
} BELONGING[] = {
    {FARM_STACKS, FARM_FEED_TESTS, "stack"}, {FARM_FOR_SALE, FARM_FEED_TESTS, "stack"},
    {FARM_STACKS, FARM_FED, "stack"},        {FARM_STACKS, FARM_COUNTS, "stack"},
    {FARM_HERD, FARM_NEEDS, "group"},        {FARM_HERD, FARM_HEAD_CHANGES, "group"},
    {FARM_HERD, FARM_FED, "group"},
};
#define PARTS "|" /* between cells that together tell a row */

typedef struct {
    Arena *arena;
    Faults *faults;
    const FarmRequest *request;
    TableChange *table[FARM_FILE_COUNT]; /* NULL: not touched yet */
} Applying;

static const char *file_words(FarmFile file) {
    return file == FARM_HERD ? "the herd file" : FARM_FILE_NAME[file];
}

static int key_of(const TableChange *table, FarmFile file) {
    const int column = KEYS[file] ? table_change_find_column(table, KEYS[file]) : -1;
    return column < 0 ? 0 : column;
}

/* The file's table, or NULL when the farm has no such file. */
static TableChange *opened(Applying *applying, FarmFile file) {
    const FileBytes *of = &applying->request->file[file];
    if (applying->table[file] || !of->bytes)
        return applying->table[file];
    Faults aside = faults_new(applying->arena); /* told where the farm is read as it is */
    const Table *table = table_parse(applying->arena, &aside, of->name, of->bytes, of->length);
    if (table)
        applying->table[file] = table_change(applying->arena, table);
    return applying->table[file];
}

static TableChange *opened_or_new(Applying *applying, const Change *change) {
    TableChange *table = opened(applying, change->file);
    if (table)
        return table;
    const char *key = KEYS[change->file] ? KEYS[change->file] : "name";
    table = table_change_from_nothing(
        applying->arena, applying->request->file[change->file].name, key, change->place);
    if (change->file == FARM_WINTER)
        table_change_add_column(table, "value", change->place);
    return applying->table[change->file] = table;
}

/* ---- rows ---- */

static bool has_cell(const TableChange *table, int row, const char *word) {
    for (int column = 0; column < table_change_columns(table); column++) {
        if (text_same_letters(table_change_text(table, row, column), word))
            return true;
    }
    return false;
}

/* Each part stands in a cell of its own. */
static bool has_parts(Arena *arena, const TableChange *table, int row, const char *words) {
    for (const char *start = words;;) {
        const size_t length = strcspn(start, PARTS);
        const char *first = start;
        size_t kept = length;
        while (kept > 0 && *first == ' ') {
            first++;
            kept--;
        }
        while (kept > 0 && first[kept - 1] == ' ')
            kept--;
        if (kept == 0 || !has_cell(table, row, arena_copy(arena, first, kept)))
            return false;
        if (start[length] == '\0')
            return true;
        start += length + 1;
    }
}

/* By its name; else by cells that together tell it, or by one that does. */
static int find_rows(Arena *arena, const TableChange *table, int key, const char *words,
                     int *count) {
    int found = -1;
    *count = 0;
    for (int row = 0; row < table_change_rows(table); row++) {
        if (!text_same_letters(table_change_text(table, row, key), words))
            continue;
        found = found < 0 ? row : found;
        (*count)++;
    }
    for (int row = 0; found < 0 && row < table_change_rows(table); row++)
        *count += has_parts(arena, table, row, words);
    for (int row = 0; found < 0 && *count > 0 && row < table_change_rows(table); row++)
        found = has_parts(arena, table, row, words) ? row : -1;
    return found;
}

#define MOST_NAMES 8 /* in a message */

static const char *row_cure(Arena *arena, const TableChange *table, int key,
                            const char *words) {
    const int rows = table_change_rows(table);
    const char **names = ARENA_ARRAY(arena, const char *, rows);
    for (int row = 0; row < rows; row++)
        names[row] = table_change_text(table, row, key);
    const char *guess = choice_guess(arena, words, names, rows);
    if (guess)
        return arena_print(arena, "; %s", guess);
    Text list = text_new(arena);
    for (int row = 0; row < rows && row < MOST_NAMES; row++)
        text_print(&list, "%s'%s'", row == 0 ? "; the rows are: " : ", ",
                   text_excerpt(arena, names[row]));
    if (rows > MOST_NAMES)
        text_print(&list, " and %d more", rows - MOST_NAMES);
    return list.bytes;
}

/* -1 with a fault where not just one row is meant. */
static int one_row(Applying *applying, const TableChange *table, const Change *change) {
    Arena *arena = applying->arena;
    const int key = key_of(table, change->file);
    int count;
    const int row = find_rows(arena, table, key, change->row, &count);
    const char *words = text_excerpt(arena, change->row);
    if (count == 1)
        return row;
    if (count == 0) {
        fault_add(applying->faults, change->row_place, "row: %s has no row '%s'%s",
                  file_words(change->file), words, row_cure(arena, table, key, change->row));
        return -1;
    }
    const int other = table_change_columns(table) > 1 ? (key == 0 ? 1 : 0) : key;
    fault_add(applying->faults, change->row_place,
              "row: %d rows of %s are '%s'; add what stands in another cell of the one you "
              "mean, as in '%s" PARTS "%s'",
              count, file_words(change->file), words, words,
              text_excerpt(arena, table_change_text(table, row, other)));
    return -1;
}

/* Several rows of one name are usual there. */
static bool may_repeat(FarmFile file) {
    return file == FARM_FEED_TESTS || file == FARM_NEEDS || file == FARM_FIELDS ||
           file == FARM_FED || file == FARM_COUNTS || file == FARM_HEAD_CHANGES;
}

static bool is_taken(Applying *applying, const TableChange *table, FarmFile file,
                     const char *name, Place place) {
    const int key = key_of(table, file);
    if (may_repeat(file))
        return false;
    for (int row = 0; row < table_change_rows(table); row++) {
        if (!text_same_letters(table_change_text(table, row, key), name))
            continue;
        fault_add(applying->faults, place,
                  "%s has a row '%s' already; give the new one another name", file_words(file),
                  text_excerpt(applying->arena, name));
        return true;
    }
    return false;
}

static bool row_was_added(Applying *applying, int row, const Change *change) {
    if (row < 0)
        fault_add(applying->faults, change->place, "%s is too large for one more row",
                  file_words(change->file));
    return row >= 0;
}

static int add_row(Applying *applying, TableChange *table, const Change *change) {
    const int row = table_change_add_row(table, change->place);
    if (row_was_added(applying, row, change))
        table_change_set(table, row, key_of(table, change->file), change->row,
                         change->row_place);
    return row;
}

/* ---- changes ---- */

static void set_cell(Applying *applying, TableChange *table, int row, const Change *change) {
    int column = table_change_find_column(table, change->column);
    if (column < 0)
        column = table_change_add_column(table, change->column, change->column_place);
    if (column < 0) {
        fault_add(applying->faults, change->column_place,
                  "column: %s is too wide for one more column", file_words(change->file));
        return;
    }
    if (change->kind == CHANGE_SET && change->value[0] != '\0' &&
        text_same(table_change_text(table, row, column), change->value))
        doubt_add(applying->faults, change->value_place,
                  "value: it is '%s' there already; nothing changes",
                  text_excerpt(applying->arena, change->value));
    table_change_set(table, row, column, change->value, change->value_place);
}

static void set(Applying *applying, TableChange *table, const Change *change) {
    int count = 1;
    int row;
    if (change->file == FARM_WINTER)
        find_rows(applying->arena, table, key_of(table, FARM_WINTER), change->row, &count);
    if (change->file == FARM_WINTER && count == 0)
        row = add_row(applying, table, change); /* a setting left out is there to be set */
    else
        row = one_row(applying, table, change);
    if (row >= 0)
        set_cell(applying, table, row, change);
}

static void add(Applying *applying, TableChange *table, const Change *change) {
    if (is_taken(applying, table, change->file, change->row, change->row_place))
        return;
    const int row = add_row(applying, table, change);
    if (row >= 0 && change->column[0] != '\0')
        set_cell(applying, table, row, change);
}

static void copy(Applying *applying, TableChange *table, const Change *change) {
    const int row = one_row(applying, table, change);
    if (row < 0 || is_taken(applying, table, change->file, change->value, change->value_place))
        return;
    const int copied = table_change_copy_row(table, row, change->place);
    if (row_was_added(applying, copied, change))
        table_change_set(table, copied, key_of(table, change->file), change->value,
                         change->value_place);
}

static void remove_belonging(Applying *applying, FarmFile of, const char *name) {
    for (size_t i = 0; i < sizeof BELONGING / sizeof BELONGING[0]; i++) {
        TableChange *table = BELONGING[i].of == of ? opened(applying, BELONGING[i].file) : NULL;
        const int column = table ? table_change_find_column(table, BELONGING[i].heading) : -1;
        for (int row = table && column >= 0 ? table_change_rows(table) - 1 : -1; row >= 0;
             row--) {
            if (text_same_letters(table_change_text(table, row, column), name))
                table_change_remove_row(table, row);
        }
    }
}

static void take_away(Applying *applying, TableChange *table, const Change *change) {
    const int row = one_row(applying, table, change);
    if (row < 0)
        return;
    const char *name = table_change_text(table, row, key_of(table, change->file));
    table_change_remove_row(table, row);
    remove_belonging(applying, change->file, name);
}

static void make(Applying *applying, const Change *change) {
    TableChange *table = opened_or_new(applying, change);
    switch (change->kind) {
    case CHANGE_SET:
        set(applying, table, change);
        break;
    case CHANGE_ADD:
        add(applying, table, change);
        break;
    case CHANGE_COPY:
        copy(applying, table, change);
        break;
    case CHANGE_REMOVE:
        take_away(applying, table, change);
        break;
    }
}

bool what_if_apply(Arena *arena, Faults *faults, const FarmRequest *request,
                   const Change *changes, int count, ChangedFiles *changed) {
    const int wrong_before = faults->wrong_count;
    Applying applying = {.arena = arena, .faults = faults, .request = request};
    *changed = (ChangedFiles){.request = *request};
    for (int i = 0; i < count; i++)
        make(&applying, &changes[i]);
    for (int file = 0; file < FARM_FILE_COUNT; file++) {
        if (!applying.table[file])
            continue;
        changed->written[file] = table_change_written(applying.table[file]);
        FileBytes *bytes = &changed->request.file[file];
        bytes->bytes = written_bytes(changed->written[file], &bytes->length);
    }
    return faults->wrong_count == wrong_before;
}

const char *change_words(Arena *arena, const FarmRequest *request, const Change *change) {
    Faults aside = faults_new(arena);
    Applying applying = {.arena = arena, .faults = &aside, .request = request};
    const TableChange *table = opened(&applying, change->file);
    int count = 0;
    const int row =
        table ? find_rows(arena, table, key_of(table, change->file), change->row, &count) : -1;
    const int column = table ? table_change_find_column(table, change->column) : -1;
    const char *before = row >= 0 && column >= 0 ? table_change_text(table, row, column) : "";
    const char *file = change->file == FARM_HERD ? "herd" : FARM_FILE_NAME[change->file];
    switch (change->kind) {
    case CHANGE_SET:
    case CHANGE_ADD:
        break;
    case CHANGE_COPY:
        return arena_print(arena, "%s: '%s' added, as '%s' is", file, change->value,
                           change->row);
    case CHANGE_REMOVE:
        return arena_print(arena, "%s: '%s' taken away", file, change->row);
    }
    const char *value = change->value[0] != '\0' ? change->value : "not known";
    const char *heading =
        change->file == FARM_WINTER ? "" : arena_print(arena, ", %s", change->column);
    if (change->kind == CHANGE_ADD && change->column[0] == '\0')
        return arena_print(arena, "%s: '%s' added", file, change->row);
    return arena_print(arena, "%s, %s%s: %s%s%s%s", file, change->row, heading, value,
                       before[0] != '\0' ? " (was " : "", before, before[0] != '\0' ? ")" : "");
}
