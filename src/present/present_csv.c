#include "present/present.h"

#include "present/csv_table.h"

#include <string.h>

enum { NAME_LETTERS = 40 };

typedef void Visit(void *context, const ReportSection *section, const ReportTable *table);

static int visit_tables(const Report *report, Visit *visit, void *context) {
    int count = 0;
    for (const ReportSection *section = report->first; section; section = section->next) {
        for (const ReportPiece *piece = section->first; piece; piece = piece->next) {
            if (piece->kind != PIECE_TABLE || piece->is_drawn)
                continue;
            count++;
            if (visit)
                visit(context, section, piece->table);
        }
    }
    return count;
}

/* A line with what it is above each table, an empty one between two. */
static void put_titled(void *context, const ReportSection *section, const ReportTable *table) {
    Text *out = context;
    const bool has_both = section->heading[0] && table->caption[0];
    text_add(out, out->length > 0 ? "\r\n" : "");
    csv_words(out, arena_print(out->arena, "%s%s%s", section->heading, has_both ? ": " : "",
                               table->caption));
    text_add(out, "\r\n");
    csv_rows(table, out);
}

void present_csv(const Report *report, Text *out) {
    Text rows = text_new(out->arena);
    visit_tables(report, put_titled, &rows);
    text_add(out, csv_marked(out->arena, rows.bytes));
}

/* Lower-case letters, digits and dashes, safe as the name of a file anywhere. */
static const char *plain_name(Arena *arena, const char *words) {
    char name[NAME_LETTERS + 1] = "";
    size_t length = 0;
    for (const char *at = words; *at && length < NAME_LETTERS; at++) {
        const char letter = *at >= 'A' && *at <= 'Z' ? (char)(*at - 'A' + 'a') : *at;
        if ((letter >= 'a' && letter <= 'z') || (letter >= '0' && letter <= '9'))
            name[length++] = letter;
        else if (length > 0 && name[length - 1] != '-')
            name[length++] = '-';
    }
    while (length > 0 && name[length - 1] == '-')
        length--;
    return arena_copy(arena, name, length);
}

typedef struct {
    Arena *arena;
    CsvFile *files;
    int count;
} Files;

/* "03-main-cows-ration.csv": the number keeps two of one name apart, and their order. */
static void put_file(void *context, const ReportSection *section, const ReportTable *table) {
    Files *files = context;
    const char *heading = section->level > 1 ? section->heading : "";
    const char *of =
        plain_name(files->arena, arena_copy(files->arena, heading, strcspn(heading, ":")));
    const char *key = plain_name(files->arena, table->key);
    Text rows = text_new(files->arena);
    csv_rows(table, &rows);
    CsvFile *file = &files->files[files->count++];
    file->name =
        arena_print(files->arena, "%02d-%s%s%s.csv", files->count, of, of[0] ? "-" : "", key);
    file->bytes = csv_marked(files->arena, rows.bytes);
}

int present_csv_files(Arena *arena, const Report *report, const CsvFile **files) {
    Files list = {.arena = arena};
    list.files = ARENA_ARRAY(arena, CsvFile, visit_tables(report, NULL, NULL));
    visit_tables(report, put_file, &list);
    *files = list.files;
    return list.count;
}
