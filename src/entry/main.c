/* argv -> command -> the farm's files -> task -> presenter -> exit code. The environment, the
 * terminal and the streams are asked for here and nowhere else. */
#include "base/arena.h"
#include "base/fault.h"
#include "entry/command.h"
#include "entry/file_bytes.h"
#include "entry/folder_lock.h"
#include "entry/report_folder.h"
#include "entry/task.h"
#include "present/present.h"
#include "present/wrapped.h"

#include <assert.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <time.h>
#include <unistd.h>

#ifndef WINTERSTACK_VERSION
#define WINTERSTACK_VERSION "unnumbered"
#endif

enum { EXIT_BALANCED = 0, EXIT_FAULTY = 1, EXIT_UNCLEAR = 2, EXIT_SHORT = 3 };

typedef TaskResult Task(Arena *arena, Faults *faults, const FarmRequest *request);

static Task *const TASKS[COMMAND_COUNT] = {
#define COMMAND(name, arguments, help) task_##name,
#include "entry/command.def"
#undef COMMAND
};

/* A line for standard error. What was typed or what a file is called may hold anything; a
 * terminal must not obey it. */
static void say(Arena *arena, const char *line) {
    fprintf(stderr, "%s\n", one_line(arena, line));
}

/* ------------------------------------------------------------------------------------------
 * The farm's files. */

static bool is_among(const char *name, const char *const *names, int count) {
    for (int i = 0; i < count; i++)
        if (text_same(name, names[i]))
            return true;
    return false;
}

/* is_own: written by the program, and done without when it cannot be read. */
static void read_farm_file(Arena *arena, Faults *faults, bool is_needed, bool is_own,
                           FileBytes *file) {
    const char *path = file->name;
    const ReadFile read = file_read(arena, path);
    if (read.outcome == READ_DONE) {
        file->bytes = read.bytes;
        file->length = read.length;
        return;
    }
    if (is_needed || (read.outcome == READ_FAILED && !is_own))
        fault_add(faults, (Place){.file = path}, "%s", read.why);
    else if (read.outcome == READ_FAILED)
        doubt_add(faults, (Place){.file = path}, "not used: %s", read.why);
}

/* A misspelt optional file would silently be left out. */
static void doubt_unknown_files(Arena *arena, Faults *faults, const Command *command,
                                const char *const *names, int name_count) {
    for (int i = 0; i < name_count; i++) {
        const char *path = path_in_folder(arena, command->inventory_folder, names[i]);
        if (is_among(names[i], FARM_FILE_NAME, FARM_FILE_COUNT) ||
            file_is_same(path, command->herd_path))
            continue;
        const char *const *known = FARM_FILE_NAME + FARM_STACKS;
        const char *nearest = text_nearest(names[i], known, FARM_FILE_COUNT - FARM_STACKS);
        if (nearest)
            doubt_add(faults, (Place){.file = path}, "not read; did you mean '%s'?", nearest);
        else
            doubt_add(faults, (Place){.file = path},
                      "not read: no file of a farm has this name");
    }
}

static void read_inventory(Arena *arena, Faults *faults, const Command *command,
                           FarmRequest *request) {
    const char *folder = command->inventory_folder;
    for (int file = FARM_STACKS; file < FARM_FILE_COUNT; file++)
        request->file[file].name = path_in_folder(arena, folder, FARM_FILE_NAME[file]);
    int name_count = 0;
    const char *why = "";
    const char **names = folder_csv_files(arena, folder, &name_count, &why);
    if (!names) {
        fault_add(faults, (Place){.file = folder},
                  "%s; INVENTORY is the folder that holds %s and %s", why,
                  FARM_FILE_NAME[FARM_STACKS], FARM_FILE_NAME[FARM_WINTER]);
        return;
    }
    for (int file = FARM_STACKS; file < FARM_FILE_COUNT; file++)
        read_farm_file(arena, faults, FARM_FILE_NEEDED[file], file == FARM_LAST_PLAN,
                       &request->file[file]);
    doubt_unknown_files(arena, faults, command, names, name_count);
}

/* Asked of the clock only where no day was given. */
static Day today(void) {
    const time_t now = time(NULL);
    struct tm local;
    if (!localtime_r(&now, &local) ||
        !calendar_is_date(local.tm_year + 1900, local.tm_mon + 1, local.tm_mday))
        return calendar_day(2000, 1, 1);
    return calendar_day(local.tm_year + 1900, local.tm_mon + 1, local.tm_mday);
}

static void read_what_ifs(Arena *arena, Faults *faults, const Command *command,
                          FarmRequest *request) {
    FileBytes *files = ARENA_ARRAY(arena, FileBytes, command->what_if_count);
    for (int i = 0; i < command->what_if_count; i++) {
        files[i].name = command->what_if_paths[i];
        read_farm_file(arena, faults, true, false, &files[i]);
    }
    request->what_ifs = files;
    request->what_if_count = command->what_if_count;
}

/* A plan that goes to a folder is written in every form. */
static bool wants_folder(const Command *command) {
    return command->name == COMMAND_plan && command->out_path && !command->format_was_asked &&
           report_folder_is_meant(command->out_path);
}

static FarmRequest farm_request(Arena *arena, Faults *faults, const Command *command) {
    FarmRequest request = {.units = command->units,
                           .units_were_asked = command->units_were_asked,
                           .needs_way_was_asked = command->needs_way_was_asked,
                           .needs_way = command->needs_way,
                           .cold_way_was_asked = command->cold_way_was_asked,
                           .cold_way = command->cold_way,
                           .wants_sheets = wants_folder(command),
                           .date_count = command->date_count,
                           .buy = command->buy,
                           .has_from = command->has_from,
                           .from = command->from,
                           .wants_keeping = command->wants_keeping,
                           .record = command->record,
                           .vary = command->vary[0] ? command->vary : NULL,
                           .wants_ship = command->wants_ship,
                           .ship_from = command->ship_from,
                           .wants_year_table = command->wants_year_table,
                           .winters = {.count = command->winters,
                                       .seed = command->seed,
                                       .workers = usual_worker_count()}};
    if (command->name == COMMAND_stock && !command->has_from) {
        request.has_from = true;
        request.from = today();
    }
    if (!command->record.is_given[RECORD_OPTION_DATE])
        request.record.date = today();
    memcpy(request.dates, command->dates, sizeof request.dates);
    request.file[FARM_HERD].name = command->herd_path;
    read_farm_file(arena, faults, true, false, &request.file[FARM_HERD]);
    read_inventory(arena, faults, command, &request);
    read_what_ifs(arena, faults, command, &request);
    return request;
}

/* ------------------------------------------------------------------------------------------
 * What goes to standard error. */

static const char *counted(Arena *arena, int count, const char *one, const char *many) {
    return arena_print(arena, "%d %s", count, count == 1 ? one : many);
}

static void say_faults(Arena *arena, const Faults *faults, bool with_doubts) {
    const Fault **sorted = faults_sorted(faults, arena);
    for (int i = 0; i < faults->wrong_count + faults->doubt_count; i++) {
        const bool is_doubt = sorted[i]->kind == FAULT_DOUBT;
        if (is_doubt && !with_doubts)
            continue;
        say(arena, arena_print(arena, "%s%s%s", place_text(sorted[i]->place, arena),
                               is_doubt ? "doubt: " : "", sorted[i]->text));
    }
}

/* As a shell takes it. */
static const char *quoted(Arena *arena, const char *path) {
    const bool has_space = strpbrk(path, " \t'\"\\$&();<>|*?`") != NULL;
    return has_space ? arena_print(arena, "\"%s\"", path) : path;
}

static void say_counts_of_check(Arena *arena, const Faults *faults) {
    if (faults->wrong_count + faults->doubt_count == 0)
        return;
    say(arena,
        arena_print(arena, "%s, %s.", counted(arena, faults->wrong_count, "fault", "faults"),
                    counted(arena, faults->doubt_count, "doubtful value", "doubtful values")));
}

static const char *outcome_words(const Command *command, bool has_report) {
    if (command->name == COMMAND_compare && has_report)
        return "what has a fault was not planned";
    if (command->name == COMMAND_fed)
        return "nothing was written";
    return command->name == COMMAND_plan || command->name == COMMAND_compare
               ? "nothing was planned"
               : "no report was made";
}

static void say_counts(Arena *arena, const Faults *faults, const Command *command,
                       bool has_report) {
    if (faults->wrong_count > 0)
        say(arena, arena_print(arena, "%s; %s.",
                               counted(arena, faults->wrong_count, "fault", "faults"),
                               outcome_words(command, has_report)));
    if (faults->doubt_count > 0)
        say(arena,
            arena_print(
                arena, "%s: see winterstack check %s %s",
                counted(arena, faults->doubt_count, "doubtful value", "doubtful values"),
                quoted(arena, command->herd_path), quoted(arena, command->inventory_folder)));
}

/* ------------------------------------------------------------------------------------------
 * What goes to the output. */

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

/* true when written; else says why not. */
static bool put(Arena *arena, const char *out_path, const Text *text) {
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
    return put(arena, command->out_path, &text);
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

static bool put_result(Arena *arena, const Command *command, const TaskResult *result) {
    if (result->sheets)
        return put_folder(arena, command, result);
    return put_report(arena, command, result->report);
}

/* The farm's own files are never written over. */
static bool would_overwrite_input(const Command *command, const FarmRequest *request) {
    if (!command->out_path)
        return false;
    for (int file = 0; file < FARM_FILE_COUNT; file++)
        if (request->file[file].name &&
            file_is_same(command->out_path, request->file[file].name))
            return true;
    for (int i = 0; i < request->what_if_count; i++)
        if (file_is_same(command->out_path, request->what_ifs[i].name))
            return true;
    return false;
}

/* ------------------------------------------------------------------------------------------
 */

static int exit_code_of(TaskStatus status) {
    switch (status) {
    case TASK_DONE:
        return EXIT_BALANCED;
    case TASK_SHORT:
        return EXIT_SHORT;
    case TASK_FAULTY:
        return EXIT_FAULTY;
    }
    return EXIT_FAULTY;
}

enum { NO_LOCK = -1, LOCK_SECONDS = 10 };

/* A file of the farm that the task made anew. What the command is for has to be written; a plan
 * that is kept beside is said and done without. */
static bool put_farm_file(Arena *arena, const Command *command, const FileBytes *file) {
    if (!file->name)
        return true;
    const char *why = file_write(arena, file->name, file->bytes, file->length);
    if (!why)
        return true;
    say(arena, arena_print(arena, "%s: not written: %s", file->name, why));
    return command->name != COMMAND_fed;
}

/* A plan of the whole winter goes by the stacks as they were counted. */
static void say_record_is_unused(Arena *arena, const Command *command,
                                 const FarmRequest *request) {
    const bool has_record = request->file[FARM_FED].bytes || request->file[FARM_COUNTS].bytes;
    if (command->name == COMMAND_plan && !command->has_from && has_record)
        say(arena,
            "This plans the whole winter, from the stacks as first counted; for the rest "
            "of it, from what is left, add --from DATE.");
}

static int run_task_locked(Arena *arena, const Command *command, bool may_write) {
    Faults faults = faults_new(arena);
    FarmRequest request = farm_request(arena, &faults, command);
    WinterLine line = {0};
    if (isatty(STDERR_FILENO)) {
        request.winters.watch = winter_line_watch;
        request.winters.context = &line;
    }
    if (would_overwrite_input(command, &request)) {
        say(arena, arena_print(arena, "--out: '%s' is a file of the farm; name another",
                               command->out_path));
        return EXIT_UNCLEAR;
    }
    const TaskResult result = TASKS[command->name](arena, &faults, &request);
    if (line.is_shown)
        say(arena, "");
    const bool is_faulty = result.status == TASK_FAULTY || faults.wrong_count > 0;
    const bool is_check = command->name == COMMAND_check;
    const bool prints_with_faults = is_check || command->name == COMMAND_compare;
    say_faults(arena, &faults, is_check);
    if (is_check)
        say_counts_of_check(arena, &faults);
    else
        say_counts(arena, &faults, command, result.report != NULL);
    if (is_faulty && !(prints_with_faults && result.report))
        return EXIT_FAULTY;
    assert(result.report);
    say_record_is_unused(arena, command, &request);
    if (may_write && !put_farm_file(arena, command, &result.written))
        return EXIT_FAULTY;
    if (!put_result(arena, command, &result))
        return EXIT_FAULTY;
    return is_faulty ? EXIT_FAULTY : exit_code_of(result.status);
}

/* Who writes a file of the farm holds the lock of its folder from before it is read. */
static int run_task(Arena *arena, const Command *command) {
    const char *folder = command->inventory_folder;
    int lock = NO_LOCK;
    const bool wants_to_write = command->name == COMMAND_fed || command->wants_keeping;
    const char *why = wants_to_write ? folder_lock(arena, folder, LOCK_SECONDS, &lock) : NULL;
    if (why) {
        say(arena, arena_print(arena, "%s: not written: %s", folder, why));
        if (command->name == COMMAND_fed)
            return EXIT_FAULTY;
        lock = NO_LOCK;
    }
    if (lock != NO_LOCK)
        folder_sweep(arena, folder, FARM_FILE_NAME + FARM_FED, FARM_FILE_COUNT - FARM_FED);
    const int code = run_task_locked(arena, command, lock != NO_LOCK);
    if (lock != NO_LOCK)
        folder_unlock(lock);
    return code;
}

static int run(Arena *arena, int argument_count, char *const *arguments) {
    const Command command = command_parse(arena, argument_count, arguments);
    Text text = text_new(arena);
    switch (command.wish) {
    case WISH_TASK:
        return run_task(arena, &command);
    case WISH_HELP:
        command_help(command.name, &text);
        return put(arena, NULL, &text) ? EXIT_BALANCED : EXIT_FAULTY;
    case WISH_VERSION:
        text_add(&text, "winterstack " WINTERSTACK_VERSION "\n");
        return put(arena, NULL, &text) ? EXIT_BALANCED : EXIT_FAULTY;
    case WISH_UNCLEAR:
        say(arena, arena_print(arena, "winterstack: %s", command.complaint));
        return EXIT_UNCLEAR;
    }
    return EXIT_UNCLEAR;
}

int main(int argument_count, char **arguments) {
    signal(SIGXFSZ, SIG_IGN); /* too large a file is an error of write(), not the end */
    Arena *arena = arena_open();
    const int code = run(arena, argument_count, arguments);
    arena_close(arena);
    return code;
}
