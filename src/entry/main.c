/* argv -> command -> the farm's files -> task -> presenter -> exit code. */
#include "base/arena.h"
#include "base/fault.h"
#include "entry/command.h"
#include "entry/file_bytes.h"
#include "entry/folder_lock.h"
#include "entry/report_folder.h"
#include "entry/report_output.h"
#include "entry/saying.h"
#include "entry/task.h"

#include <assert.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>
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
    FarmRequest request = {
        .units = command->units,
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
        .wants_brief = command->wants_brief,
        .wants_cheapest = command->wants_cheapest,
        .is_to_be_read = command->format != OUTPUT_JSON && !wants_folder(command),
        .wants_keeping = command->wants_keeping,
        .record = command->record,
        .vary = command->vary[0] ? command->vary : NULL,
        .wants_ship = command->wants_ship,
        .ship_from = command->ship_from,
        .wants_year_table = command->wants_year_table,
        .winters = {
            .count = command->winters, .seed = command->seed, .workers = usual_worker_count()}};
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

/* Why the report cannot go where it was asked to; NULL: it can. */
static const char *out_complaint(Arena *arena, const Command *command,
                                 const FarmRequest *request) {
    if (would_overwrite_input(command, request))
        return arena_print(arena, "--out: '%s' is a file of the farm; name another",
                           command->out_path);
    if (request->wants_cheapest && request->wants_keeping)
        return "--keep: the rations of --cheapest are not to feed by, and none to compare the "
               "next plan with; leave one of the two out";
    if (request->wants_cheapest && request->winters.count > 0)
        return "--winters: hard winters are drawn for rations that are fed, and those of "
               "--cheapest are not to feed by; leave one of the two out";
    if (request->wants_sheets && request->wants_cheapest)
        return "--cheapest is one page, and a folder gets the whole plan with its feed sheets; "
               "name a file, or leave --cheapest out";
    if (request->wants_sheets && request->wants_brief)
        return "--brief is one page, and a folder gets the whole plan with its feed sheets; "
               "name a file, or leave --brief out";
    return NULL;
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

static int run_task_locked(Arena *arena, const Command *command, bool may_write) {
    Faults faults = faults_new(arena);
    FarmRequest request = farm_request(arena, &faults, command);
    WinterLine line = {0};
    if (isatty(STDERR_FILENO)) {
        request.winters.watch = winter_line_watch;
        request.winters.context = &line;
    }
    const char *complaint = out_complaint(arena, command, &request);
    if (complaint) {
        say(arena, complaint);
        return EXIT_UNCLEAR;
    }
    const TaskResult result = TASKS[command->name](arena, &faults, &request);
    if (line.is_shown)
        say(arena, "");
    const bool is_faulty = result.status == TASK_FAULTY || faults.wrong_count > 0;
    const bool is_check = command->name == COMMAND_check;
    const bool prints_with_faults = is_check || command->name == COMMAND_compare;
    say_faults(arena, &faults, command);
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
    if (!output_put_result(arena, command, &result))
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
        return output_put(arena, NULL, &text) ? EXIT_BALANCED : EXIT_FAULTY;
    case WISH_VERSION:
        text_add(&text, "winterstack " WINTERSTACK_VERSION "\n");
        return output_put(arena, NULL, &text) ? EXIT_BALANCED : EXIT_FAULTY;
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
