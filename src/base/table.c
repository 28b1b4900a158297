#include "base/table.h"

#include "base/table_text.h"
#include "base/text.h"
#include <assert.h>
#include <csv.h>
#include <stdlib.h>
#include <string.h>

#define OUT_OF_MEMORY_EXIT 70 /* as in arena.h */

/* Where the reading is. libcsv knows no positions, so it is fed one physical line at a time,
 * and of a line one piece at a time: a piece ends behind a separator, and a cell can end
 * nowhere else. When a piece has ended a cell, the next one begins behind the piece. */
typedef struct {
    Arena *arena;
    Faults *faults;
    TableText text;
    struct csv_parser parser;
    char separator;
    int line;
    const char *counted; /* the column of this byte of the line is known */
    int column;
    bool in_record, in_cell, has_extra, stopped;
    TableCell open;                       /* where the cell being read began; its text unused */
    TableCell record[TABLE_MOST_COLUMNS]; /* the record being read */
    int record_count;
    TableCell *headings, *cells;
    int column_count, row_count;
    size_t row_room;
} Reader;

static bool is_blank(char letter) { return letter == ' ' || letter == '\t'; }

static const char *skip_blanks(const char *byte, const char *end) {
    while (byte < end && is_blank(*byte))
        byte++;
    return byte;
}

/* ---- comments and the separator ---- */

static bool is_comment(TableLine line) {
    const char *const first = skip_blanks(line.start, line.end);
    return first < line.end && *first == '#';
}

/* The most frequent of them, to the end of the record. */
static char separator_of(const Reader *reader, const char *start) {
    static const char CANDIDATES[] = {',', ';', '\t'};
    int counts[sizeof CANDIDATES] = {0};
    bool is_quoted = false;
    for (const char *byte = start; byte < reader->text.bytes + reader->text.length; byte++) {
        if (*byte == '"')
            is_quoted = !is_quoted;
        if (!is_quoted && (*byte == '\n' || *byte == '\r'))
            break;
        for (size_t i = 0; i < sizeof CANDIDATES; i++) {
            counts[i] += !is_quoted && *byte == CANDIDATES[i];
        }
    }
    size_t best = 0;
    for (size_t i = 1; i < sizeof CANDIDATES; i++) {
        if (counts[i] > counts[best])
            best = i;
    }
    return CANDIDATES[best];
}

/* ---- records ---- */

static char *trimmed_copy(Arena *arena, const char *bytes, size_t length) {
    static const char NO_BREAK_SPACE[] =
        "\xC2\xA0"; /* comes with text copied from a web page */
    const char *start = bytes, *end = bytes + length;
    for (;;) {
        if (start < end && strchr(" \t\r\n", *start)) {
            start++;
        } else if (end > start && strchr(" \t\r\n", end[-1])) {
            end--;
        } else if (end - start >= 2 && memcmp(start, NO_BREAK_SPACE, 2) == 0) {
            start += 2;
        } else if (end - start >= 2 && memcmp(end - 2, NO_BREAK_SPACE, 2) == 0) {
            end -= 2;
        } else {
            return arena_copy(arena, start, (size_t)(end - start));
        }
    }
}

static void stop(Reader *reader, Place place, const char *reason) {
    if (!reader->stopped)
        fault_add(reader->faults, place, "%s", reason);
    reader->stopped = true;
}

/* A cell beyond the last heading: empty ones are left over from a wider sheet. */
static void extra_cell(Reader *reader, const TableCell *cell) {
    const Place place = {reader->text.file, cell->line, cell->column};
    if (*cell->text == '\0' || reader->has_extra || reader->stopped)
        return;
    reader->has_extra = true;
    if (!reader->headings) {
        stop(reader, place,
             arena_print(reader->arena, "more than %d columns: take away those not needed",
                         TABLE_MOST_COLUMNS));
        return;
    }
    fault_add(
        reader->faults, place,
        "'%s' lies beyond the last heading: give the column a heading, or put a cell with "
        "'%s' in it in quotation marks",
        text_excerpt(reader->arena, cell->text),
        reader->separator == '\t' ? "a tab" : (char[]){reader->separator, '\0'});
}

static void on_cell(void *bytes, size_t length, void *context) {
    Reader *const reader = context;
    TableCell cell = {"", reader->open.line, reader->open.column};
    if (length > 0)
        cell.text = trimmed_copy(reader->arena, bytes, length);
    reader->in_cell = false;
    const int most = reader->headings ? reader->column_count : TABLE_MOST_COLUMNS;
    if (reader->record_count < most) {
        reader->record[reader->record_count++] = cell;
    } else {
        extra_cell(reader, &cell);
    }
}

static void take_headings(Reader *reader) {
    int count = reader->record_count;
    while (count > 0 && *reader->record[count - 1].text == '\0')
        count--;
    if (count == 0)
        return; /* empty cells only: a blank line, as a spreadsheet saves it */
    reader->column_count = count;
    reader->headings = ARENA_ARRAY(reader->arena, TableCell, count);
    memcpy(reader->headings, reader->record, (size_t)count * sizeof(TableCell));
}

static void take_row(Reader *reader) {
    const size_t width = (size_t)reader->column_count, row = (size_t)reader->row_count;
    if (row == TABLE_MOST_ROWS) {
        stop(reader, (Place){reader->text.file, reader->record[0].line, 0},
             arena_print(reader->arena, "more than %d rows: is it the right file?",
                         TABLE_MOST_ROWS));
        return;
    }
    if (row == reader->row_room) {
        reader->row_room = row == 0 ? 16 : row * 2;
        TableCell *cells = ARENA_ARRAY(reader->arena, TableCell, reader->row_room * width);
        if (row > 0)
            memcpy(cells, reader->cells, row * width * sizeof(TableCell));
        reader->cells = cells;
    }
    TableCell *cells = reader->cells + row * width;
    for (size_t column = 0; column < width; column++) {
        cells[column] = (int)column < reader->record_count
                            ? reader->record[column]
                            : (TableCell){"", reader->record[0].line, 0};
    }
    reader->row_count++;
}

/* A spreadsheet puts a comment with a comma or quotation marks in it in quotation marks, or
 * parts it into cells, and adds empty cells when it saves the file. No heading begins with #;
 * below the headings, with anything beside it, it is somebody's name for a thing: "#3, east".
 */
static bool is_quoted_comment(const Reader *reader) {
    if (reader->record_count == 0 || *reader->record[0].text != '#')
        return false;
    if (!reader->headings)
        return true;
    for (int i = 1; i < reader->record_count; i++) {
        if (*reader->record[i].text != '\0')
            return false;
    }
    return true;
}

static void on_record(int terminator, void *context) {
    (void)terminator;
    Reader *const reader = context;
    if (reader->stopped)
        return;
    if (!is_quoted_comment(reader)) {
        if (reader->headings) {
            take_row(reader);
        } else {
            take_headings(reader);
        }
    }
    reader->record_count = 0;
    reader->has_extra = false;
    reader->in_record = false;
}

/* ---- feeding ---- */

static Place place_in_line(Reader *reader, const char *byte) {
    reader->column += characters_between(reader->counted, byte);
    reader->counted = byte;
    return (Place){reader->text.file, reader->line, reader->column};
}

static void stray_quote(Reader *reader, const char *byte) {
    const Place place = place_in_line(reader, byte);
    if (reader->open.line != reader->line) {
        fault_add(reader->faults, place,
                  "a stray quotation mark; the cell began on line %d, where its quotation mark "
                  "may be the one that does not belong",
                  reader->open.line);
    } else {
        fault_add(
            reader->faults, place,
            "a stray quotation mark: take it out, or put the whole cell in quotation marks "
            "and double the ones inside it, as in \"12\"\" pipe\"");
    }
    reader->stopped = true;
}

static void feed_piece(Reader *reader, const char *piece, size_t length) {
    const size_t taken = csv_parse(&reader->parser, piece, length, on_cell, on_record, reader);
    if (taken == length || reader->stopped)
        return;
    if (csv_error(&reader->parser) != CSV_EPARSE)
        exit(OUT_OF_MEMORY_EXIT);
    stray_quote(reader, piece + taken);
}

static void feed_line(Reader *reader, TableLine line) {
    reader->counted = line.start;
    reader->column = 1;
    for (const char *piece = line.start; !reader->stopped;) {
        if (!reader->in_cell) {
            const char *begin = piece;
            while (begin < line.end && is_blank(*begin) && *begin != reader->separator)
                begin++;
            reader->open = (TableCell){"", reader->line, place_in_line(reader, begin).column};
            reader->in_cell = true;
        }
        const char *const found = memchr(piece, reader->separator, (size_t)(line.end - piece));
        if (!found) {
            feed_piece(reader, piece, (size_t)(line.end - piece));
            break;
        }
        feed_piece(reader, piece, (size_t)(found + 1 - piece));
        piece = found + 1;
    }
    if (!reader->stopped)
        feed_piece(reader, "\n", 1);
}

#define FEWEST_CELLS_OF_A_ROW 4 /* a comment may have a comma or two */

/* A row whose name begins with # would be lost without a word: "#3 east,round bales,...". */
static void doubt_row(const Reader *reader, TableLine line) {
    int cells = 1;
    bool is_quoted = false;
    for (const char *byte = line.start; byte < line.end; byte++) {
        if (*byte == '"')
            is_quoted = !is_quoted;
        cells += !is_quoted && *byte == reader->separator;
    }
    if (!reader->headings || cells != reader->column_count || cells < FEWEST_CELLS_OF_A_ROW)
        return;
    doubt_add(reader->faults, (Place){reader->text.file, reader->line, 0},
              "a line that begins with # is a comment and is not read; if the # is of a name, "
              "put the name in quotation marks or write it otherwise");
}

static void begin_record(Reader *reader, TableLine line) {
    reader->in_record = true;
    if (reader->headings)
        return;
    reader->separator = separator_of(reader, line.start);
    csv_set_delim(&reader->parser, (unsigned char)reader->separator);
}

static void read_lines(Reader *reader) {
    const char *start = table_first_letter(&reader->text);
    const char *const file_end = reader->text.bytes + reader->text.length;
    while (start < file_end && !reader->stopped) {
        const TableLine line = table_line_at(&reader->text, start);
        const bool is_empty = skip_blanks(line.start, line.end) == line.end;
        reader->line++;
        start = line.next;
        if (!reader->in_record && is_comment(line))
            doubt_row(reader, line);
        if (!reader->in_record && (is_empty || is_comment(line)))
            continue;
        if (!reader->in_record)
            begin_record(reader, line);
        feed_line(reader, line);
    }
}

static void read_records(Reader *reader) {
    if (csv_init(&reader->parser, CSV_STRICT | CSV_STRICT_FINI) != 0)
        exit(OUT_OF_MEMORY_EXIT);
    read_lines(reader);
    const bool is_unclosed =
        !reader->stopped && csv_fini(&reader->parser, on_cell, on_record, reader) != 0;
    csv_free(&reader->parser);
    if (!is_unclosed)
        return;
    stop(reader, (Place){reader->text.file, reader->open.line, reader->open.column},
         "this cell begins with a quotation mark and none closes it: close it, or take it out");
}

const Table *table_parse(Arena *arena, Faults *faults, const char *file, const char *bytes,
                         size_t length) {
    Reader *const reader = ARENA_NEW(arena, Reader);
    reader->arena = arena;
    reader->faults = faults;
    reader->text = (TableText){file, length > 0 ? bytes : "", length};
    if (!table_text_is_readable(faults, &reader->text))
        return NULL;
    read_records(reader);
    if (reader->stopped)
        return NULL;
    if (!reader->headings) {
        fault_add(faults, (Place){file, 0, 0},
                  "the file is empty: its first line has to be the headings");
        return NULL;
    }
    Table *const table = ARENA_NEW(arena, Table);
    *table = (Table){file,
                     reader->separator,
                     reader->column_count,
                     reader->row_count,
                     reader->headings,
                     reader->cells};
    return table;
}

const TableCell *table_cell(const Table *table, int row, int column) {
    assert(row >= 0 && row < table->row_count);
    assert(column >= 0 && column < table->column_count);
    return &table->cells[(size_t)row * (size_t)table->column_count + (size_t)column];
}

Place table_place(const Table *table, const TableCell *cell) {
    return (Place){table->file, cell->line, cell->column};
}
