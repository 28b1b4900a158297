#include "base/sheet.h"

#include "base/choice.h"
#include "base/date_text.h"
#include "base/heading.h"
#include "base/number_text.h"
#include "base/text.h"
#include "base/unit_family.h"
#include <assert.h>
#include <limits.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define ABSENT (-1)

struct Sheet {
    Arena *arena;
    Faults *faults;
    const Table *table;
    const SheetColumn *columns;
    int column_count;
    int *at;               /* [column_count] its place in the table, or ABSENT */
    const UnitForm **form; /* [column_count] how it was headed; the first form if absent */
    bool *is_lost;         /* [column_count] a faulty heading may have been meant for it */
    int *listed_on;        /* [column_count] the line whose fault lists its choices; 0 none */
    bool has_listed_headings;
};

/* ---- headings ---- */

static bool column_is_empty(const Table *table, int column) {
    for (int row = 0; row < table->row_count; row++) {
        if (*table_cell(table, row, column)->text != '\0')
            return false;
    }
    return true;
}

static void match_nameless(Sheet *sheet, int at) {
    if (column_is_empty(sheet->table, at))
        return;
    fault_add(sheet->faults, table_place(sheet->table, &sheet->table->headings[at]),
              "a column without a heading: give it one (a column of your own begins with x_)");
}

/* "1 tonne = 1.102 ton"; "" where it is no plain multiple. */
static const char *ratio_of(const Sheet *sheet, const UnitForm *a, const UnitForm *b) {
    if (a == b || a->add != 0.0 || b->add != 0.0)
        return "";
    const UnitForm *const larger = a->times > b->times ? a : b;
    const UnitForm *const smaller = larger == a ? b : a;
    const double ratio = larger->times / smaller->times;
    return arena_print(sheet->arena, "; 1 %s = %.*g %s", larger->shown, ratio < 1000 ? 4 : 6,
                       ratio, smaller->shown);
}

static void match_again(Sheet *sheet, int at, int column, const UnitForm *form) {
    const TableCell *const now = &sheet->table->headings[at];
    const TableCell *const before = &sheet->table->headings[sheet->at[column]];
    const Place place = table_place(sheet->table, now);
    const char *const shown = text_excerpt(sheet->arena, now->text);
    sheet->is_lost[column] = true;
    if (text_same(heading_plain(sheet->arena, now->text),
                  heading_plain(sheet->arena, before->text))) {
        fault_add(sheet->faults, place, "'%s' is there twice: take one away", shown);
        return;
    }
    fault_add(sheet->faults, place,
              "'%s' and '%s' say the same thing: write all of it in one%s", shown,
              text_excerpt(sheet->arena, before->text),
              ratio_of(sheet, form, sheet->form[column]));
}

/* The list of all headings is long: it is told once. */
static void match_none(Sheet *sheet, const TableCell *heading) {
    const Place place = table_place(sheet->table, heading);
    const char *const cure = heading_cure(sheet->arena, heading->text, sheet->columns,
                                          sheet->column_count, sheet->is_lost);
    const char *const shown = text_excerpt(sheet->arena, heading->text);
    if (cure) {
        fault_add(sheet->faults, place, "%s", cure);
    } else if (sheet->has_listed_headings) {
        fault_add(sheet->faults, place, "'%s' is none of the headings listed above", shown);
    } else {
        sheet->has_listed_headings = true;
        fault_add(sheet->faults, place,
                  "'%s' is not a heading of this file (a column of your own begins with "
                  "x_); the headings are: %s",
                  shown, heading_list(sheet->arena, sheet->columns, sheet->column_count));
    }
}

static void match_heading(Sheet *sheet, int at) {
    const TableCell *const heading = &sheet->table->headings[at];
    const char *const plain = heading_plain(sheet->arena, heading->text);
    int column;
    const UnitForm *form;
    if (*heading->text == '\0') {
        match_nameless(sheet, at);
    } else if (heading_is_own(plain)) {
        return;
    } else if (!heading_match(sheet->arena, plain, sheet->columns, sheet->column_count, &column,
                              &form)) {
        match_none(sheet, heading);
    } else if (sheet->at[column] != ABSENT) {
        match_again(sheet, at, column, form);
    } else {
        sheet->at[column] = at;
        sheet->form[column] = form;
    }
}

static void require_headings(const Sheet *sheet) {
    const Place place = {sheet->table->file, sheet->table->headings[0].line, 0};
    for (int column = 0; column < sheet->column_count; column++) {
        if (sheet->columns[column].need != COLUMN_REQUIRED || sheet_has(sheet, column) ||
            sheet->is_lost[column])
            continue;
        fault_add(sheet->faults, place, "the heading %s is missing",
                  heading_names(sheet->arena, &sheet->columns[column]));
    }
}

Sheet *sheet_parse(Arena *arena, Faults *faults, const char *file, const char *bytes,
                   size_t length, const SheetColumn *columns, int column_count) {
    const Table *const table = table_parse(arena, faults, file, bytes, length);
    if (!table)
        return NULL;
    Sheet *const sheet = ARENA_NEW(arena, Sheet);
    *sheet = (Sheet){.arena = arena,
                     .faults = faults,
                     .table = table,
                     .columns = columns,
                     .column_count = column_count,
                     .at = ARENA_ARRAY(arena, int, column_count),
                     .form = ARENA_ARRAY(arena, const UnitForm *, column_count),
                     .is_lost = ARENA_ARRAY(arena, bool, column_count),
                     .listed_on = ARENA_ARRAY(arena, int, column_count)};
    for (int column = 0; column < column_count; column++) {
        int form_count;
        sheet->at[column] = ABSENT;
        sheet->is_lost[column] = false;
        sheet->listed_on[column] = 0;
        sheet->form[column] = unit_forms(columns[column].family, &form_count);
    }
    for (int at = 0; at < table->column_count; at++)
        match_heading(sheet, at);
    require_headings(sheet);
    return sheet;
}

/* ---- cells ---- */

static int at_column(const Sheet *sheet, int column) {
    assert(column >= 0 && column < sheet->column_count);
    return sheet->at[column];
}

int sheet_row_count(const Sheet *sheet) { return sheet->table->row_count; }

bool sheet_has(const Sheet *sheet, int column) { return at_column(sheet, column) != ABSENT; }

const char *sheet_text(const Sheet *sheet, int row, int column) {
    if (!sheet_has(sheet, column))
        return "";
    return table_cell(sheet->table, row, at_column(sheet, column))->text;
}

Place sheet_place(const Sheet *sheet, int row, int column) {
    if (sheet_has(sheet, column)) {
        return table_place(sheet->table,
                           table_cell(sheet->table, row, at_column(sheet, column)));
    }
    return (Place){sheet->table->file, table_cell(sheet->table, row, 0)->line, 0};
}

const char *sheet_heading(const Sheet *sheet, int column) {
    if (!sheet_has(sheet, column))
        return sheet->columns[column].stem;
    return text_excerpt(sheet->arena, sheet->table->headings[at_column(sheet, column)].text);
}

bool sheet_row_is_empty(const Sheet *sheet, int row) {
    for (int column = 0; column < sheet->column_count; column++) {
        if (*sheet_text(sheet, row, column) != '\0')
            return false;
    }
    return true;
}

static bool cell_fault(const Sheet *sheet, int row, int column, const char *cure) {
    fault_add(sheet->faults, sheet_place(sheet, row, column), "%s: '%s' %s",
              sheet_heading(sheet, column),
              text_excerpt(sheet->arena, sheet_text(sheet, row, column)), cure);
    return false;
}

bool sheet_require(const Sheet *sheet, int row, int column) {
    if (*sheet_text(sheet, row, column) != '\0')
        return true;
    const bool is_required = sheet->columns[column].need == COLUMN_REQUIRED;
    if (sheet->is_lost[column] || (is_required && !sheet_has(sheet, column)))
        return false; /* the heading was told once; not again for each row */
    fault_add(sheet->faults, sheet_place(sheet, row, column),
              "%s: the cell is empty; it is needed", sheet_heading(sheet, column));
    return false;
}

bool sheet_is_left_out(const Sheet *sheet, int row, int column) {
    return *sheet_text(sheet, row, column) == '\0' && !sheet->is_lost[column];
}

/* ---- numbers ---- */

double sheet_as_written(const Sheet *sheet, int column, double own_value) {
    assert(column >= 0 && column < sheet->column_count);
    const UnitForm *const form = sheet->form[column];
    return own_value / form->times - form->add;
}

/* A limit in the unit written, as the message shows it: what the message allows is allowed. */
static double limit_as_written(const Sheet *sheet, int column, double own_limit) {
    const UnitForm *const form = sheet->form[column];
    const bool is_own_unit = form->times == 1.0 && form->add == 0.0;
    if (is_own_unit || isinf(own_limit))
        return own_limit;
    char text[32];
    snprintf(text, sizeof text, "%.4g", sheet_as_written(sheet, column, own_limit));
    return strtod(text, NULL);
}

/* "1450" of nitrate in per cent: the same ion in parts per million would be in range. */
static const char *ppm_cure(const Sheet *sheet, int column, double written) {
    const SheetColumn *const declared = &sheet->columns[column];
    const UnitForm *const form = sheet->form[column];
    const char *const percent = strstr(form->suffix, "_pct");
    int count;
    const UnitForm *const forms = unit_forms(declared->family, &count);
    for (int i = 0; declared->family == UNIT_NITRATE_ION && percent && i < count; i++) {
        const size_t ion = (size_t)(percent - form->suffix);
        const double own = written * forms[i].times;
        if (strncmp(forms[i].suffix, form->suffix, ion) == 0 &&
            text_same(forms[i].suffix + ion, "_ppm") && own >= declared->least &&
            own <= declared->most)
            return arena_print(sheet->arena, "; it looks like ppm: head the column %s%s",
                               declared->stem, forms[i].suffix);
    }
    return "";
}

static void outside(const Sheet *sheet, int row, int column, double written, double least,
                    double most) {
    const Place place = sheet_place(sheet, row, column);
    const char *const heading = sheet_heading(sheet, column);
    const char *const text = text_excerpt(sheet->arena, sheet_text(sheet, row, column));
    if (isinf(most)) {
        fault_add(sheet->faults, place, "%s: %s is below %.10g", heading, text, least);
    } else if (isinf(least)) {
        fault_add(sheet->faults, place, "%s: %s is above %.10g", heading, text, most);
    } else {
        fault_add(sheet->faults, place, "%s: %s is outside %.10g to %.10g%s", heading, text,
                  least, most, ppm_cure(sheet, column, written));
    }
}

/* Where the comma is a decimal point, "1,250" is read as 1.25: hardly what was meant. */
static void doubt_thousands(const Sheet *sheet, int row, int column, double written) {
    const char *const text = sheet_text(sheet, row, column);
    const char *const comma = strchr(text, ',');
    if (!comma || strlen(comma) != 4 || comma - text > 4 || fabs(written) < 1.0)
        return;
    doubt_add(sheet->faults, sheet_place(sheet, row, column),
              "%s: '%s' is read as %.10g; if thousands are meant, leave the comma out",
              sheet_heading(sheet, column), text_excerpt(sheet->arena, text), written);
}

bool sheet_number(const Sheet *sheet, int row, int column, double *value) {
    const char *const text = sheet_text(sheet, row, column);
    const bool comma_is_point = sheet->table->separator != ',';
    double written;
    if (*text == '\0')
        return false;
    if (!number_read(text, comma_is_point, &written)) {
        return cell_fault(sheet, row, column, number_cure(sheet->arena, text));
    }
    const SheetColumn *const declared = &sheet->columns[column];
    const double least = limit_as_written(sheet, column, declared->least);
    const double most = limit_as_written(sheet, column, declared->most);
    if (written < least || written > most) {
        outside(sheet, row, column, written, least, most);
        return false;
    }
    if (comma_is_point)
        doubt_thousands(sheet, row, column, written);
    const UnitForm *const form = sheet->form[column];
    const double own = (written + form->add) * form->times;
    *value = fmin(fmax(own, declared->least), declared->most);
    return true;
}

bool sheet_whole_number(const Sheet *sheet, int row, int column, int *value) {
    double number;
    if (!sheet_number(sheet, row, column, &number))
        return false;
    if (number != floor(number) || fabs(number) > INT_MAX) {
        return cell_fault(sheet, row, column, "is not a whole number");
    }
    *value = (int)number;
    return true;
}

/* ---- dates, choices, lists ---- */

bool sheet_date(const Sheet *sheet, int row, int column, Day *day) {
    const char *const text = sheet_text(sheet, row, column);
    if (*text == '\0')
        return false;
    if (calendar_parse(text, day))
        return true;
    return cell_fault(sheet, row, column, date_cure(sheet->arena, text));
}

#define LONG_LIST 8 /* choices; a longer list is told once a column */

/* All choices, or where they were told. */
static const char *choice_list(const Sheet *sheet, int row, int column,
                               const char *const *choices, int count) {
    if (sheet->listed_on[column] > 0)
        return arena_print(sheet->arena, "is none of those listed for line %d",
                           sheet->listed_on[column]);
    if (count > LONG_LIST)
        sheet->listed_on[column] = sheet_place(sheet, row, column).line;
    Text list = text_new(sheet->arena);
    text_add(&list, "is none of: ");
    for (int i = 0; i < count; i++)
        text_print(&list, "%s%s", i == 0 ? "" : ", ", choices[i]);
    return list.bytes;
}

int sheet_choice(const Sheet *sheet, int row, int column, const char *const *choices,
                 int count) {
    const char *const text = sheet_text(sheet, row, column);
    if (*text == '\0')
        return -1;
    const int place = choice_find(text, choices, count);
    if (place >= 0)
        return place;
    const char *const guess = choice_guess(sheet->arena, text, choices, count);
    cell_fault(sheet, row, column,
               guess ? arena_print(sheet->arena, "is not known; %s", guess)
                     : choice_list(sheet, row, column, choices, count));
    return -1;
}

int sheet_list(const Sheet *sheet, int row, int column, const char ***pieces) {
    const char *const text = sheet_text(sheet, row, column);
    size_t most = 1;
    for (const char *byte = text; *byte; byte++)
        most += strchr("|/+", *byte) != NULL;
    const char **const list = ARENA_ARRAY(sheet->arena, const char *, most);
    int count = 0;
    for (const char *start = text;;) {
        const size_t length = strcspn(start, "|/+");
        const char *first = start, *end = start + length;
        while (first < end && strchr(" \t\r\n", *first))
            first++;
        while (end > first && strchr(" \t\r\n", end[-1]))
            end--;
        if (end > first) {
            list[count++] = arena_copy(sheet->arena, first, (size_t)(end - first));
        }
        if (start[length] == '\0')
            break;
        start += length + 1;
    }
    *pieces = list;
    return count;
}

int sheet_position(const Sheet *sheet, int column) { return at_column(sheet, column); }
int sheet_width(const Sheet *sheet) { return sheet->table->column_count; }
char sheet_separator(const Sheet *sheet) { return sheet->table->separator; }
int sheet_line(const Sheet *sheet, int row) { return table_cell(sheet->table, row, 0)->line; }

Faults *sheet_faults(const Sheet *sheet) { return sheet->faults; }
Arena *sheet_arena(const Sheet *sheet) { return sheet->arena; }
