/* A report in the form asked for, to where it was asked for. The terminal and its environment
 * are asked here. */
#ifndef ENTRY_REPORT_OUTPUT_H
#define ENTRY_REPORT_OUTPUT_H

#include "entry/command.h"
#include "entry/task.h"

/* true when written; else says why not. out_path NULL: standard output. */
bool output_put(Arena *arena, const char *out_path, const Text *text);

/* The report; or, of a plan with its sheets, the folder of every form. */
bool output_put_result(Arena *arena, const Command *command, const TaskResult *result);

#endif
