#include "entry/report_output.h"

#include "entry/file_bytes.h"
#include "entry/report_folder.h"
#include "entry/saying.h"
#include "present/present.h"
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <unistd.h>

static bool is_terminal_output(const Command *command) {
    return !command->out_path && isatty(STDOUT_FILENO);
}

static TextStyle text_style(const Command *command) {
    TextStyle style = {.width = USUAL_WIDTH};
    const bool is_terminal = is_terminal_output(command);
    struct winsize size;
    if (is_terminal && ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 0 &&
        size.ws_col < USUAL_WIDTH)
        style.width = size.ws_col > LEAST_WIDTH ? size.ws_col : LEAST_WIDTH;
    if (command->width > 0)
        style.width = command->width;
    const char *no_colour = getenv("NO_COLOR");
    const char *terminal = getenv("TERM");
    style.has_colour =
        is_terminal && !(no_colour && no_colour[0]) && terminal && !text_same(terminal, "dumb");
    return style;
}

bool output_put(Arena *arena, const char *out_path, const Text *text) {
    const char *why = out_path ? file_write(arena, out_path, text->bytes, text->length)
                               : file_write_out(arena, text->bytes, text->length);
    if (!why)
        return true;
    say(arena, arena_print(arena, "%s: not written: %s",
                           out_path ? out_path : "standard output", why));
    return false;
}

static bool put_report(Arena *arena, const Command *command, const Report *report) {
    Text text = text_new(arena);
    switch (command->format) {
    case OUTPUT_TEXT:
        present_text(report, text_style(command), &text);
        break;
    case OUTPUT_HTML:
        present_html(report, PAGE_REPORT, &text);
        break;
    case OUTPUT_JSON:
        present_json(report, &text);
        break;
    case OUTPUT_CSV:
        present_csv(report, &text);
        break;
    }
    return output_put(arena, command->out_path, &text);
}

static FolderFile folder_file(const char *name, const Text *text) {
    return (FolderFile){name, text->bytes, text->length};
}

/* Every form of the plan, all of them or none. */
static bool put_folder(Arena *arena, const Command *command, const TaskResult *result) {
    Text page = text_new(arena), sheets = text_new(arena), json = text_new(arena);
    present_html(result->report, PAGE_REPORT, &page);
    present_html(result->sheets, PAGE_SHEETS, &sheets);
    present_json(result->report, &json);
    const CsvFile *tables;
    const int table_count = present_csv_files(arena, result->report, &tables);
    FolderFile *files = ARENA_ARRAY(arena, FolderFile, table_count + 3);
    int count = 0;
    files[count++] = folder_file("report.html", &page);
    files[count++] = folder_file("feed-sheets.html", &sheets);
    files[count++] = folder_file("plan.json", &json);
    for (int i = 0; i < table_count; i++)
        files[count++] = (FolderFile){tables[i].name, tables[i].bytes, strlen(tables[i].bytes)};
    const char *why = report_folder_write(arena, command->out_path, files, count);
    if (!why)
        return true;
    say(arena, arena_print(arena, "%s: not written: %s", command->out_path, why));
    return false;
}

bool output_put_result(Arena *arena, const Command *command, const TaskResult *result) {
    if (result->sheets)
        return put_folder(arena, command, result);
    return put_report(arena, command, result->report);
}
