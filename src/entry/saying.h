/* What is said on standard error, a line each. */
#ifndef ENTRY_SAYING_H
#define ENTRY_SAYING_H

#include "entry/command.h"
#include "entry/task.h"

/* What was typed or what a file is called may hold anything; a terminal must not obey it. */
void say(Arena *arena, const char *line);

/* Faults, and those doubts that no `winterstack check` would tell: of what-ifs. All doubts with
 * `check` itself. */
void say_faults(Arena *arena, const Faults *faults, const Command *command);

/* How many there are, and what came of it. */
void say_counts_of_check(Arena *arena, const Faults *faults);
void say_counts(Arena *arena, const Faults *faults, const Command *command, bool has_report);

/* A plan of the whole winter goes by the stacks as they were counted. */
void say_record_is_unused(Arena *arena, const Command *command, const FarmRequest *request);

#endif
