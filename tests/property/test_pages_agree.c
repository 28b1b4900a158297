/* One report, four ways to show it: whatever farm it is of and whatever its units, every cell
 * of every table is the same in the page, in the text, in the CSV files and in the JSON. */
#include "outcome/feed_sheets.h"
#include "outcome/plan_report.h"
#include "present/present.h"
#include "present/text_table.h"
#include "support/html_page.h"
#include "support/planned_farm.h"
#include "support/unit.h"

#include <stdlib.h>
#include <string.h>

#ifdef __SANITIZE_ADDRESS__
#define FARMS 2
#else
#define FARMS 10
#endif

enum { WIDE_PAGE = 200, MOST_TABLES = 400, FEW_CELLS = 200 };

typedef struct {
    Arena *arena;
    const Report *report;
    const ReportTable *tables[MOST_TABLES];
    int count;
    long cells; /* compared */
} Shown;

static Shown shown_of(Arena *arena, const Report *report) {
    Shown shown = {.arena = arena, .report = report};
    for (const ReportSection *section = report->first; section; section = section->next) {
        for (const ReportPiece *piece = section->first; piece; piece = piece->next) {
            if (piece->kind == PIECE_TABLE && shown.count < MOST_TABLES)
                shown.tables[shown.count++] = piece->table;
        }
    }
    return shown;
}

/* What a reader should see of a cell, from its number and decimals alone. */
static const char *words(Arena *arena, const ReportTable *table, const ReportRow *row,
                         int column) {
    const Cell *cell = &row->cells[column];
    if (cell->kind == CELL_NUMBER)
        return arena_print(arena, "%s%s%s", number_words(arena, cell->number, cell->decimals),
                           cell->mark ? " " : "", cell->mark ? cell->mark : "");
    if (cell->kind == CELL_TEXT)
        return cell->text;
    return table->columns[column].is_number && !row->is_total ? "-" : "";
}

/* Blanks before a word are nobody's. */
static void same(const char *where, const ReportTable *table, const char *found,
                 const char *expected) {
    found += strspn(found, " ");
    expected += strspn(expected, " ");
    if (strcmp(found, expected) != 0)
        fail_msg("%s, table %s: '%s' where '%s' is meant", where, table->key, found, expected);
}

/* ---- the page ---- */

static bool is_bare(const ReportRow *row, int from, int to) {
    for (int column = from; column < to; column++) {
        if (row->cells[column].kind != CELL_EMPTY)
            return false;
    }
    return true;
}

/* The columns [from, ...) of a part against the table; returns the next column. */
static int compare_part(Shown *shown, const ReportTable *table, const HtmlTable *part,
                        int from) {
    const int to = from + part->column_count - 1;
    const bool is_whole = from == 1 && to == table->column_count;
    assert_true(to <= table->column_count);
    same("page", table, part->key, table->key);
    int at = 1;
    for (const ReportRow *row = table->first; row; row = row->next) {
        if (!is_whole && is_bare(row, from, to))
            continue;
        assert_true(at < part->row_count);
        const char **cells = part->cells + (size_t)at++ * (size_t)part->column_count;
        same("page", table, cells[0], words(shown->arena, table, row, 0));
        for (int column = from; column < to; column++, shown->cells++)
            same("page", table, cells[1 + column - from],
                 words(shown->arena, table, row, column));
    }
    assert_int_equal(at, part->row_count);
    return to;
}

static void compare_page(Shown *shown) {
    Text page = text_new(shown->arena);
    present_html(shown->report, PAGE_REPORT, &page);
    assert_null(html_fault(shown->arena, page.bytes));
    const HtmlTable *part = html_tables(shown->arena, page.bytes);
    for (int i = 0; i < shown->count; i++) {
        const ReportTable *table = shown->tables[i];
        if (!table->first) {
            part = part->next; /* "none" */
            continue;
        }
        for (int next = 1; next < table->column_count; part = part->next) {
            assert_non_null(part);
            next = compare_part(shown, table, part, next);
        }
    }
    assert_null(part);
}

/* ---- the files for a spreadsheet ---- */

/* The next cell; *at stands behind its comma or line end then. */
static const char *next_csv_cell(Arena *arena, const char **at) {
    Text cell = text_new(arena);
    const bool is_quoted = **at == '"';
    *at += is_quoted;
    while (**at && (is_quoted || !strchr(",\r", **at))) {
        if (is_quoted && **at == '"' && (*at)[1] != '"')
            break;
        *at += is_quoted && **at == '"';
        text_add_bytes(&cell, (*at)++, 1);
    }
    *at += is_quoted && **at == '"';
    if (**at == ',')
        ++*at;
    else
        *at += strspn(*at, "\r\n");
    return cell.bytes;
}

static const char *without_commas(Arena *arena, const char *number) {
    Text plain = text_new(arena);
    for (; *number; number++) {
        if (*number != ',')
            text_add_bytes(&plain, number, 1);
    }
    return plain.bytes;
}

static bool has_marks(const ReportTable *table, int column) {
    for (const ReportRow *row = table->first; row; row = row->next) {
        if (row->cells[column].mark)
            return true;
    }
    return false;
}

static void compare_csv(Shown *shown) {
    const CsvFile *files;
    assert_int_equal(present_csv_files(shown->arena, shown->report, &files), shown->count);
    for (int i = 0; i < shown->count; i++) {
        const ReportTable *table = shown->tables[i];
        const char *at = files[i].bytes;
        for (int column = 0; column < table->column_count; column++) {
            const char *head = next_csv_cell(shown->arena, &at);
            assert_non_null(strstr(head, table->columns[column].unit));
            if (has_marks(table, column))
                assert_non_null(strstr(next_csv_cell(shown->arena, &at), ": mark"));
        }
        for (const ReportRow *row = table->first; row; row = row->next) {
            for (int column = 0; column < table->column_count; column++, shown->cells++) {
                const Cell *cell = &row->cells[column];
                const char *meant =
                    cell->kind == CELL_EMPTY ? "" : words(shown->arena, table, row, column);
                if (cell->kind == CELL_NUMBER)
                    meant = without_commas(
                        shown->arena, number_words(shown->arena, cell->number, cell->decimals));
                same("CSV", table, next_csv_cell(shown->arena, &at), meant);
                if (has_marks(table, column))
                    same("CSV", table, next_csv_cell(shown->arena, &at),
                         cell->mark ? cell->mark : "");
            }
        }
        assert_int_equal(*at, '\0');
    }
}

/* ---- the figures ---- */

static const char *next_line(Arena *arena, const char **at) {
    *at += strspn(*at, " \n");
    const size_t length = strcspn(*at, "\n");
    const bool has_comma = length > 0 && (*at)[length - 1] == ',';
    const char *line = arena_copy(arena, *at, length - has_comma);
    *at += length;
    return line;
}

static void compare_figure(Shown *shown, const ReportTable *table, const Cell *cell,
                           const char *figure) {
    shown->cells++;
    if (cell->kind == CELL_EMPTY)
        same("JSON", table, figure, "null");
    else if (cell->kind == CELL_TEXT)
        same("JSON", table, figure, arena_print(shown->arena, "\"%s\"", cell->text));
    else
        same("JSON", table, number_words(shown->arena, strtod(figure, NULL), cell->decimals),
             number_words(shown->arena, cell->number, cell->decimals));
}

static void compare_json(Shown *shown) {
    Text json = text_new(shown->arena);
    present_json(shown->report, &json);
    const char *at = strstr(json.bytes, "\n  \"tables\": [");
    assert_non_null(at);
    for (int i = 0; i < shown->count; i++) {
        const ReportTable *table = shown->tables[i];
        at = strstr(at, "\"rows\": [");
        assert_non_null(at);
        at += strlen("\"rows\": [");
        for (const ReportRow *row = table->first; row; row = row->next) {
            assert_string_equal(next_line(shown->arena, &at), "[");
            for (int column = 0; column < table->column_count; column++)
                compare_figure(shown, table, &row->cells[column], next_line(shown->arena, &at));
            assert_string_equal(next_line(shown->arena, &at), "]");
        }
    }
    assert_null(strstr(at, "\"rows\": ["));
}

/* ---- the text ---- */

/* The cells of a line: two blanks or more part them. */
static int cells_of_line(Arena *arena, const char *line, size_t length,
                         const char *cells[FEW_CELLS]) {
    int count = 0;
    for (size_t at = 0; at < length && count < FEW_CELLS;) {
        while (at < length && line[at] == ' ')
            at++;
        size_t end = at;
        while (end < length && strncmp(line + end, "  ", 2) != 0)
            end++;
        if (end > at)
            cells[count++] = arena_copy(arena, line + at, end - at);
        at = end;
    }
    return count;
}

static const char *after_line(const char *at) {
    const char *end = strchr(at, '\n');
    return end ? end + 1 : at + strlen(at);
}

/* Behind the rule below the head. */
static const char *first_row_of(const char *text) {
    while (*text && strncmp(text, "---", 3) != 0)
        text = after_line(text);
    return after_line(text);
}

/* A table that fits a wide page beside itself, no cell of it cut into lines. */
static bool is_plain(const ReportTable *table, const char *text) {
    int lines = 0;
    int rows = 0;
    for (const char *at = first_row_of(text); *at; at = after_line(at))
        lines += strncmp(at, "---", 3) != 0;
    for (const ReportRow *row = table->first; row; row = row->next)
        rows++;
    return rows == lines && !strstr(text, " (continued)\n");
}

static bool compare_text_table(Shown *shown, const ReportTable *table, const char *page) {
    Text text = text_new(shown->arena);
    text_table(table, WIDE_PAGE, &text);
    if (!strstr(page, text.bytes))
        fail_msg("the text page does not show table %s", table->key);
    if (!table->first || !is_plain(table, text.bytes))
        return false;
    const char *at = first_row_of(text.bytes);
    for (const ReportRow *row = table->first; row; row = row->next, at = after_line(at)) {
        if (strncmp(at, "---", 3) == 0)
            at = after_line(at);
        const char *found[FEW_CELLS];
        const int count = cells_of_line(shown->arena, at, strcspn(at, "\n"), found);
        int next = 0;
        for (int column = 0; column < table->column_count; column++) {
            const char *meant = words(shown->arena, table, row, column);
            if (!meant[0])
                continue;
            assert_true(next < count);
            same("text", table, found[next++], meant);
            shown->cells++;
        }
        assert_int_equal(next, count);
    }
    return true;
}

/* Nearly all tables are plain, or this would compare nothing. */
static void compare_text(Shown *shown) {
    Text page = text_new(shown->arena);
    present_text(shown->report, (TextStyle){.width = WIDE_PAGE}, &page);
    int compared = 0;
    for (int i = 0; i < shown->count; i++)
        compared += compare_text_table(shown, shown->tables[i], page.bytes);
    assert_true(compared >= shown->count * 9 / 10);
}

/* ---- */

static void compare_all(Arena *arena, const Report *report) {
    Shown shown = shown_of(arena, report);
    assert_true(shown.count > 0 && shown.count < MOST_TABLES);
    compare_page(&shown);
    compare_csv(&shown);
    compare_json(&shown);
    compare_text(&shown);
    assert_true(shown.cells > shown.count);
}

static void every_cell_is_the_same_however_it_is_shown(void **state) {
    (void)state;
    for (unsigned long long seed = 1; seed <= FARMS; seed++) {
        Arena *arena = arena_open();
        const FarmSize size = {.groups = 2 + (int)(seed % 3),
                               .stacks = 4,
                               .offers = 7,
                               .days = 60 + 30 * (int)(seed % 5),
                               .is_generous = seed % 2 == 0};
        const PlannedFarm *farm = planned_farm(arena, farm_drafted(arena, seed, size));
        const Units units = (Units)(seed % 3);
        compare_all(arena, plan_report(arena, &farm->plan, units));
        const PlanFindings in_brief = plan_findings_in_brief(arena, &farm->plan, units);
        compare_all(arena, plan_brief_of(arena, &in_brief));
        arena_close(arena);
    }
}

/* A number with a letter behind it, of a column with days and one with words in place of a
 * number, is a number still to whoever reckons on with it. */
static void marks_and_days_are_the_same_however_they_are_shown(void **state) {
    (void)state;
    Arena *arena = arena_open();
    static const ReportColumn columns[] = {{"feed", "Feed", "", 0},
                                           {"tdn", "TDN", "%", 1},
                                           {"iron", "Iron", "ppm", 1},
                                           {"from", "In the yard by", "", 0},
                                           {"above", "None above", "$ per t", 1}};
    Report *report = report_new(arena, "Feeds");
    report_section(report, "analysis", "Analysis");
    ReportTable *table = report_table(report, "analysis", "", columns, 5);
    report_row(table,
               (Cell[]){text_cell("Hay"), marked_cell(number_cell(59.04, 1), "c"),
                        number_cell(1234.0, 0), text_cell("1 Nov 2026"), text_cell("at any")});
    report_row(table, (Cell[]){text_cell("Barley"), number_cell(82.0, 1),
                               marked_cell(number_cell(2000.5, 1), "b"), empty_cell(),
                               number_cell(308, 0)});
    compare_all(arena, report);
    Text csv = text_new(arena);
    present_csv(report, &csv);
    assert_non_null(strstr(csv.bytes, "Feed,TDN (%),TDN: mark,Iron (ppm),Iron: mark,"));
    assert_non_null(strstr(csv.bytes, "Hay,59.0,c,1234,,1 Nov 2026,at any\r\n"));
    assert_non_null(strstr(csv.bytes, "Barley,82.0,,2000.5,b,,308\r\n"));
    Text json = text_new(arena);
    present_json(report, &json);
    assert_non_null(strstr(json.bytes, "59.04"));
    assert_null(strstr(json.bytes, "59.0 c"));
    arena_close(arena);
}

/* What the hand adds up is what the scale shows, on every sheet of every farm. */
static void the_scale_of_every_sheet_is_the_sum_of_its_loads(void **state) {
    (void)state;
    for (unsigned long long seed = 1; seed <= FARMS; seed++) {
        Arena *arena = arena_open();
        const FarmSize size = {
            .groups = 2, .stacks = 4, .offers = 7, .days = 90, .is_generous = true};
        const PlannedFarm *farm = planned_farm(arena, farm_drafted(arena, seed, size));
        const PlanFindings findings = plan_findings(arena, &farm->plan, (Units)(seed % 3));
        const Shown shown = shown_of(arena, feed_sheets(arena, &findings));
        int sheets = 0;
        for (int i = 0; i < shown.count; i++) {
            if (strcmp(shown.tables[i]->key, "load") != 0)
                continue;
            double scale = 0.0;
            sheets++;
            for (const ReportRow *row = shown.tables[i]->first; row; row = row->next) {
                if (row->is_total) {
                    assert_near(row->cells[1].number, scale, 1e-6);
                    continue;
                }
                if (row->cells[2].kind == CELL_EMPTY) { /* a handful: no scale shows it */
                    assert_true(strstr(row->cells[0].text, " (g)") ||
                                strstr(row->cells[0].text, " (oz)"));
                    continue;
                }
                scale += row->cells[1].kind == CELL_NUMBER ? row->cells[1].number : 0.0;
                assert_near(row->cells[2].number, scale, 1e-6);
            }
        }
        assert_int_equal(sheets, farm->question.block_count);
        arena_close(arena);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_cell_is_the_same_however_it_is_shown),
        cmocka_unit_test(marks_and_days_are_the_same_however_they_are_shown),
        cmocka_unit_test(the_scale_of_every_sheet_is_the_sum_of_its_loads),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
