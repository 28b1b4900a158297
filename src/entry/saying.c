#include "entry/saying.h"
#include "base/text.h"
#include "present/wrapped.h"
#include <stdio.h>
#include <string.h>

void say(Arena *arena, const char *line) { fprintf(stderr, "%s\n", one_line(arena, line)); }

static const char *counted(Arena *arena, int count, const char *one, const char *many) {
    return arena_print(arena, "%d %s", count, count == 1 ? one : many);
}

/* Only `compare` reads what-ifs, so their doubts are told there or nowhere. */
static bool is_of_what_if(const Command *command, const Fault *fault) {
    for (int i = 0; i < command->what_if_count; i++) {
        if (text_same(command->what_if_paths[i], fault->place.file))
            return true;
    }
    return false;
}

static int doubts_for_check(Arena *arena, const Faults *faults, const Command *command) {
    const Fault **sorted = faults_sorted(faults, arena);
    int count = 0;
    for (int i = 0; i < faults->wrong_count + faults->doubt_count; i++)
        count += sorted[i]->kind == FAULT_DOUBT && !is_of_what_if(command, sorted[i]);
    return count;
}

void say_faults(Arena *arena, const Faults *faults, const Command *command) {
    const Fault **sorted = faults_sorted(faults, arena);
    for (int i = 0; i < faults->wrong_count + faults->doubt_count; i++) {
        const bool is_doubt = sorted[i]->kind == FAULT_DOUBT;
        if (is_doubt && command->name != COMMAND_check && !is_of_what_if(command, sorted[i]))
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

void say_counts_of_check(Arena *arena, const Faults *faults) {
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

void say_counts(Arena *arena, const Faults *faults, const Command *command, bool has_report) {
    if (faults->wrong_count > 0)
        say(arena, arena_print(arena, "%s; %s.",
                               counted(arena, faults->wrong_count, "fault", "faults"),
                               outcome_words(command, has_report)));
    const int doubts = doubts_for_check(arena, faults, command);
    if (doubts > 0)
        say(arena, arena_print(arena, "%s: see winterstack check %s %s",
                               counted(arena, doubts, "doubtful value", "doubtful values"),
                               quoted(arena, command->herd_path),
                               quoted(arena, command->inventory_folder)));
}

void say_record_is_unused(Arena *arena, const Command *command, const FarmRequest *request) {
    const bool has_record = request->file[FARM_FED].bytes || request->file[FARM_COUNTS].bytes;
    if (command->name == COMMAND_plan && !command->has_from && has_record)
        say(arena,
            "This plans the whole winter, from the stacks as first counted; for the rest "
            "of it, from what is left, add --from DATE.");
}
