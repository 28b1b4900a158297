/* What reading a command line shares between its files; for them alone. */
#ifndef ENTRY_COMMAND_PARTS_H
#define ENTRY_COMMAND_PARTS_H

#include "entry/command.h"

typedef enum {
#define OPTION(id, word, value, commands, help) OPTION_##id,
#include "entry/option.def"
#undef OPTION
    OPTION_COUNT
} OptionName;

/* Of an option that only fed has, by its place in record_option.def. */
enum { OPTION_RECORD = OPTION_COUNT, EVERY_OPTION_COUNT = OPTION_COUNT + RECORD_OPTION_COUNT };

typedef struct {
    Arena *arena;
    Command command;
    bool is_given[OPTION_COUNT];
    const char *operands[3]; /* command, herd, inventory */
    int operand_count;
    const char **more; /* what follows them: what-ifs */
    int more_count;
} Parse;

/* The first complaint stands. */
void command_complain(Parse *parse, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

/* "; did you mean 'x'?", or the cure when nothing is near. */
const char *command_suggestion(Arena *arena, const char *word, const char *const *words,
                               int count, const char *cure);

int command_word_index(const char *word, const char *const *words, int count); /* or -1 */

/* "--units" and so on, the options of fed last: [EVERY_OPTION_COUNT]. */
extern const char *const OPTION_WORDS[];

/* command_option.c: takes one option with its value, NULL where it has none. */
void command_take_option(Parse *parse, int option, const char *value);

/* "plan.html" says what it is to hold, where no format was asked for. */
void command_format_of_path(Command *command);

/* Complains of options that the command does not have. */
void command_check_options(Parse *parse);

/* Options of the command, or of every command for COMMAND_COUNT. */
void command_options_help(CommandName name, Text *out);

#endif
