/* What the user asked on the command line. Nothing is opened and nothing printed here: a
 * question that is not understood comes back as WISH_UNCLEAR with the reason. */
#ifndef ENTRY_COMMAND_H
#define ENTRY_COMMAND_H

#include "base/text.h"
#include "cattle/winter.h"
#include "outcome/measure.h"
#include <stdbool.h>

typedef enum {
#define COMMAND(name, arguments, help) COMMAND_##name,
#include "entry/command.def"
#undef COMMAND
    COMMAND_COUNT /* none was named */
} CommandName;

typedef enum { WISH_TASK, WISH_HELP, WISH_VERSION, WISH_UNCLEAR } Wish;
typedef enum { OUTPUT_TEXT, OUTPUT_HTML, OUTPUT_JSON, OUTPUT_CSV } OutputFormat;

enum { LEAST_WIDTH = 60, USUAL_WIDTH = 80, MOST_WIDTH = 200 };

typedef struct {
    Wish wish;
    CommandName name;
    const char *herd_path, *inventory_folder; /* of WISH_TASK */
    Units units;
    bool units_were_asked;
    OutputFormat format;
    bool format_was_asked;
    bool needs_way_was_asked, cold_way_was_asked;
    NeedsWay needs_way;
    ColdWay cold_way;
    bool wants_year_table; /* of needs only */
    const char *out_path;  /* NULL: standard output */
    int width;             /* 0: not asked for */
    const char *complaint; /* of WISH_UNCLEAR: one line, no newline */
} Command;

/* The arguments must outlive the command; their order is left alone. */
Command command_parse(Arena *arena, int argument_count, char *const *arguments);

/* The overview, or the help of one command. */
void command_help(CommandName name, Text *out);

const char *command_word(CommandName name); /* "plan" */

#endif
