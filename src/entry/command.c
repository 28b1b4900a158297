#include "entry/command.h"

#include "entry/command_parts.h"
#include <assert.h>
#include <getopt.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

typedef struct {
    const char *word, *arguments, *help;
} CommandRow;

static const CommandRow COMMANDS[COMMAND_COUNT] = {
#define COMMAND(name, arguments, help) {#name, arguments, help},
#include "entry/command.def"
#undef COMMAND
};

#define LIST_OF_COMMANDS_BYTES 120

/* Above what getopt gives for a letter. */
enum { FIRST_OPTION = 256 };
enum { OPERAND = 1 }; /* what getopt gives for an argument that is no option, asked by "-" */

static const struct option LONG_OPTIONS[] = {
#define OPTION(id, word, value, commands, help)                                                \
    {word, sizeof(value) > 1 ? required_argument : no_argument, NULL,                          \
     FIRST_OPTION + OPTION_##id},
#include "entry/option.def"
#undef OPTION
#define RECORD_OPTION(id, word, value, help)                                                   \
    {word, sizeof(value) > 1 ? required_argument : no_argument, NULL,                          \
     FIRST_OPTION + OPTION_RECORD + RECORD_OPTION_##id},
#include "entry/record_option.def"
#undef RECORD_OPTION
    {NULL, 0, NULL, 0},
};

const char *const OPTION_WORDS[EVERY_OPTION_COUNT] = {
#define OPTION(id, word, value, commands, help) "--" word,
#include "entry/option.def"
#undef OPTION
#define RECORD_OPTION(id, word, value, help) "--" word,
#include "entry/record_option.def"
#undef RECORD_OPTION
};

const char *command_word(CommandName name) {
    assert(name < COMMAND_COUNT);
    return COMMANDS[name].word;
}

void command_complain(Parse *parse, const char *format, ...) {
    if (parse->command.complaint)
        return;
    va_list arguments;
    va_start(arguments, format);
    parse->command.complaint = arena_print_list(parse->arena, format, arguments);
    va_end(arguments);
}

int command_word_index(const char *word, const char *const *words, int count) {
    for (int i = 0; i < count; i++)
        if (text_same(word, words[i]))
            return i;
    return -1;
}

const char *command_suggestion(Arena *arena, const char *word, const char *const *words,
                               int count, const char *cure) {
    const char *nearest = text_nearest(word, words, count);
    if (nearest)
        return arena_print(arena, "; did you mean '%s'?", nearest);
    return arena_print(arena, "; %s", cure);
}

static void take_operand(Parse *parse, const char *word) {
    if (parse->operand_count < 3) {
        parse->operands[parse->operand_count++] = word;
        return;
    }
    if (text_same(parse->operands[0], command_word(COMMAND_compare))) {
        parse->more[parse->more_count++] = word;
        return;
    }
    command_complain(
        parse, "'%s' is one too many: a command takes HERD and INVENTORY, and options", word);
}

/* `word` as typed: "--formt=json", "-x", or "-xyz" of which `letter` is the unknown one. */
static void refuse_option(Parse *parse, const char *word, int letter) {
    Arena *arena = parse->arena;
    if (strncmp(word, "--", 2) != 0) {
        command_complain(parse, "unknown option '-%c'; see winterstack --help",
                         letter > ' ' && letter < 0x7F ? letter : '?');
        return;
    }
    const char *name = arena_copy(arena, word, strcspn(word, "="));
    if (command_word_index(name, OPTION_WORDS, EVERY_OPTION_COUNT) >= 0) {
        command_complain(parse, "%s takes no value", name);
        return;
    }
    command_complain(parse, "unknown option '%s'%s", name,
                     command_suggestion(arena, name, OPTION_WORDS, EVERY_OPTION_COUNT,
                                        "see winterstack --help"));
}

static void take_argument(Parse *parse, int option, const char *word) {
    switch (option) {
    case OPERAND:
        take_operand(parse, optarg);
        return;
    case 'o':
        command_take_option(parse, OPTION_OUT, optarg);
        return;
    case 'h':
        command_take_option(parse, OPTION_HELP, NULL);
        return;
    case ':':
        command_complain(parse, "%s needs a value after it", word);
        return;
    default:
        if (option >= FIRST_OPTION)
            command_take_option(parse, option - FIRST_OPTION, optarg);
        else
            refuse_option(parse, word, optopt);
    }
}

/* The leading "-" makes getopt hand over every argument in the order typed, whatever the
 * environment says, and leave their order alone; ":" keeps it from printing. */
static void read_arguments(Parse *parse, int argument_count, char *const *arguments) {
    optind = 0; /* begin anew, even after another call */
    opterr = 0;
    for (int at = 1;; at = optind < 1 ? 1 : optind) {
        const int option = getopt_long(argument_count, arguments, "-:ho:", LONG_OPTIONS, NULL);
        if (option == -1)
            break;
        take_argument(parse, option, at < argument_count ? arguments[at] : "");
    }
    for (int at = optind; at < argument_count; at++)
        take_operand(parse, arguments[at]);
}

static void list_commands(char list[LIST_OF_COMMANDS_BYTES]) {
    size_t length = 0;
    for (int i = 0; i < COMMAND_COUNT; i++) {
        const int added = snprintf(list + length, LIST_OF_COMMANDS_BYTES - length, "%s%s",
                                   i > 0 ? ", " : "", COMMANDS[i].word);
        length += (size_t)added;
        assert(length < LIST_OF_COMMANDS_BYTES);
    }
}

static void take_command(Parse *parse) {
    const char *words[COMMAND_COUNT];
    for (int i = 0; i < COMMAND_COUNT; i++)
        words[i] = COMMANDS[i].word;
    const char *word = parse->operands[0];
    const int found = command_word_index(word, words, COMMAND_COUNT);
    if (found >= 0) {
        parse->command.name = (CommandName)found;
        return;
    }
    char list[LIST_OF_COMMANDS_BYTES];
    list_commands(list);
    const char *cure = arena_print(parse->arena, "the commands are %s", list);
    command_complain(parse, "unknown command '%s'%s", word,
                     command_suggestion(parse->arena, word, words, COMMAND_COUNT, cure));
}

static void take_paths(Parse *parse) {
    parse->command.herd_path = parse->operands[1];
    parse->command.inventory_folder = parse->operands[2];
    const bool has_herd = parse->operand_count > 1 && parse->operands[1][0];
    const bool has_inventory = parse->operand_count > 2 && parse->operands[2][0];
    if (has_herd && has_inventory)
        return;
    const char *missing = has_herd        ? "INVENTORY, the folder of its feed, is"
                          : has_inventory ? "HERD, the file of the cattle, is"
                                          : "HERD and INVENTORY are";
    const CommandRow *row = &COMMANDS[parse->command.name];
    command_complain(parse, "%s missing: winterstack %s %s [options]", missing, row->word,
                     row->arguments);
}

static void take_what_ifs(Parse *parse) {
    Command *command = &parse->command;
    command->what_if_paths = parse->more;
    command->what_if_count = parse->more_count;
    if (command->name == COMMAND_compare && parse->more_count == 0 && !command->vary[0] &&
        !command->wants_ship)
        command_complain(parse,
                         "compare wants a what-if to set beside the farm, --vary or --ship");
}

/* "winterstack help plan" is typed as often as "winterstack plan --help". */
static void take_help_as_command(Parse *parse) {
    if (parse->operand_count == 0 || !text_same(parse->operands[0], "help"))
        return;
    parse->is_given[OPTION_HELP] = true;
    parse->operand_count--;
    for (int i = 0; i < parse->operand_count; i++)
        parse->operands[i] = parse->operands[i + 1];
}

Command command_parse(Arena *arena, int argument_count, char *const *arguments) {
    Parse parse = {.arena = arena,
                   .command = {.name = COMMAND_COUNT, .winters = USUAL_WINTERS, .seed = 1}};
    parse.more = ARENA_ARRAY(arena, const char *, argument_count + 1);
    if (argument_count > 0)
        read_arguments(&parse, argument_count, arguments);
    take_help_as_command(&parse);
    if (parse.operand_count > 0)
        take_command(&parse);
    Command *command = &parse.command;
    const bool asks_nothing = argument_count <= 1;
    if (asks_nothing || (parse.is_given[OPTION_HELP] && !command->complaint)) {
        command->wish = WISH_HELP;
        return *command;
    }
    if (parse.is_given[OPTION_VERSION] && !command->complaint) {
        command->wish = WISH_VERSION;
        return *command;
    }
    if (parse.operand_count == 0)
        command_complain(&parse, "no command was named; see winterstack --help");
    else if (command->name != COMMAND_COUNT)
        take_paths(&parse);
    command_check_options(&parse);
    take_what_ifs(&parse);
    command_format_of_path(command);
    if (command->wants_brief && !parse.is_given[OPTION_WINTERS])
        command->winters = 0;
    command->wish = command->complaint ? WISH_UNCLEAR : WISH_TASK;
    return *command;
}

static const char HELP_OF_INPUT[] =
    "HERD is a CSV file, one row a group of cattle. INVENTORY is a folder that holds\n"
    "stacks.csv and winter.csv and, where there are any, feed-tests.csv,\n"
    "for-sale.csv, weather.csv, needs.csv, fields.csv, head-changes.csv and the\n"
    "record of what was fed, fed.csv and counts.csv.\n";
static const char HELP_OF_WHAT_IF[] =
    "WHAT-IF is a CSV file of changes: file, row, column, new value.\n";

static const char HELP_OF_EXIT[] =
    "Exit codes\n"
    "  0   done; the winter is balanced\n"
    "  1   faults in the input, or the output could not be written\n"
    "  2   the command line was not understood\n"
    "  3   the report was made, but feed falls short or a limit had to give\n"
    "  70  the machine gave out\n";

void command_help(CommandName name, Text *out) {
    if (name == COMMAND_COUNT) {
        text_add(out, "winterstack: winter rations for beef cattle from the feed on hand\n\n"
                      "  winterstack COMMAND HERD INVENTORY [options]\n\nCommands\n");
        for (int i = 0; i < COMMAND_COUNT; i++)
            text_print(out, "  %-8s %s\n", COMMANDS[i].word, COMMANDS[i].help);
    } else {
        const CommandRow *row = &COMMANDS[name];
        text_print(out, "%s: %s\n\n  winterstack %s %s [options]\n", row->word, row->help,
                   row->word, row->arguments);
    }
    if (name == COMMAND_fed) {
        text_add(out, "\n");
        record_options_help(out);
    }
    text_print(out, "\n%s%s\n", HELP_OF_INPUT,
               name == COMMAND_compare || name == COMMAND_COUNT ? HELP_OF_WHAT_IF : "");
    command_options_help(name, out);
    text_print(out, "\n%s", HELP_OF_EXIT);
}
