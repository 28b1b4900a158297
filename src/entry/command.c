#include "entry/command.h"

#include <assert.h>
#include <getopt.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct {
    const char *word, *arguments, *help;
} CommandRow;

static const CommandRow COMMANDS[COMMAND_COUNT] = {
#define COMMAND(name, arguments, help) {#name, arguments, help},
#include "entry/command.def"
#undef COMMAND
};

#define LIST_OF_COMMANDS_BYTES 80

enum {
    OPTION_UNITS = 256,
    OPTION_FORMAT,
    OPTION_WIDTH,
    OPTION_REQUIREMENTS,
    OPTION_COLD,
    OPTION_YEAR_TABLE,
    OPTION_VERSION
};
enum { OPERAND = 1 }; /* what getopt gives for an argument that is no option, asked by "-" */

static const struct option OPTIONS[] = {
    {"units", required_argument, NULL, OPTION_UNITS},
    {"format", required_argument, NULL, OPTION_FORMAT},
    {"out", required_argument, NULL, 'o'},
    {"width", required_argument, NULL, OPTION_WIDTH},
    {"requirements", required_argument, NULL, OPTION_REQUIREMENTS},
    {"cold", required_argument, NULL, OPTION_COLD},
    {"year-table", no_argument, NULL, OPTION_YEAR_TABLE},
    {"help", no_argument, NULL, 'h'},
    {"version", no_argument, NULL, OPTION_VERSION},
    {NULL, 0, NULL, 0},
};
enum { OPTION_COUNT = sizeof OPTIONS / sizeof *OPTIONS - 1 };

static const char *const OPTION_WORDS[OPTION_COUNT] = {
    "--units", "--format",     "--out",  "--width",  "--requirements",
    "--cold",  "--year-table", "--help", "--version"};
static const char *const UNIT_WORDS[] = {"metric", "imperial", "mixed"};
static const char *const FORMAT_WORDS[] = {"text", "html", "json", "csv"};
static const char *const NEEDS_WAY_WORDS[] = {"equations", "table"};
static const char *const COLD_WAY_WORDS[] = {"table", "model"};

typedef struct {
    Arena *arena;
    Command command;
    const char *operands[3]; /* command, herd, inventory */
    int operand_count;
    bool help_was_asked, version_was_asked;
} Parse;

const char *command_word(CommandName name) {
    assert(name < COMMAND_COUNT);
    return COMMANDS[name].word;
}

/* The first complaint stands. */
static void complain(Parse *parse, const char *complaint) {
    if (!parse->command.complaint)
        parse->command.complaint = complaint;
}

static int index_of(const char *word, const char *const *words, int count) {
    for (int i = 0; i < count; i++)
        if (text_same(word, words[i]))
            return i;
    return -1;
}

/* "; did you mean 'x'?", or the cure when nothing is near. */
static const char *suggestion(Arena *arena, const char *word, const char *const *words,
                              int count, const char *cure) {
    const char *nearest = text_nearest(word, words, count);
    if (nearest)
        return arena_print(arena, "; did you mean '%s'?", nearest);
    return arena_print(arena, "; %s", cure);
}

/* "a, b or c" */
static const char *listed(Arena *arena, const char *const *words, int count) {
    Text list = text_new(arena);
    for (int i = 0; i < count; i++)
        text_print(&list, "%s%s", i == 0 ? "" : i == count - 1 ? " or " : ", ", words[i]);
    return list.bytes;
}

static int choice(Parse *parse, const char *option, const char *word, const char *const *words,
                  int count) {
    const int found = index_of(word, words, count);
    if (found >= 0)
        return found;
    const char *cure =
        arena_print(parse->arena, "it is %s", listed(parse->arena, words, count));
    complain(parse, arena_print(parse->arena, "%s: '%s' is not known%s", option, word,
                                suggestion(parse->arena, word, words, count, cure)));
    return 0;
}

#define CHOICE(parse, option, word, words)                                                     \
    choice((parse), (option), (word), (words), (int)(sizeof(words) / sizeof *(words)))

static void take_format(Parse *parse, const char *word) {
    parse->command.format_was_asked = true;
    parse->command.format = (OutputFormat)CHOICE(parse, "--format", word, FORMAT_WORDS);
}

static void take_width(Parse *parse, const char *word) {
    const size_t digits = strspn(word, "0123456789");
    const bool is_short_number = digits > 0 && digits <= 4 && !word[digits];
    const long width = is_short_number ? strtol(word, NULL, 10) : 0;
    if (width >= LEAST_WIDTH && width <= MOST_WIDTH) {
        parse->command.width = (int)width;
        return;
    }
    complain(parse, arena_print(parse->arena,
                                "--width: '%s' is not a whole number from %d to %d columns",
                                word, LEAST_WIDTH, MOST_WIDTH));
}

static void take_out(Parse *parse, const char *path) {
    if (!path[0])
        complain(parse, "--out: the path is empty; name a file, or - for standard output");
    parse->command.out_path = text_same(path, "-") ? NULL : path;
}

static void take_operand(Parse *parse, const char *word) {
    if (parse->operand_count < 3) {
        parse->operands[parse->operand_count++] = word;
        return;
    }
    complain(parse, arena_print(parse->arena,
                                "'%s' is one too many: a command takes HERD and INVENTORY, "
                                "and options",
                                word));
}

/* `word` as typed: "--formt=json", "-x", or "-xyz" of which `letter` is the unknown one. */
static void refuse_option(Parse *parse, const char *word, int letter) {
    Arena *arena = parse->arena;
    if (strncmp(word, "--", 2) != 0) {
        complain(parse, arena_print(arena, "unknown option '-%c'; see winterstack --help",
                                    letter > ' ' && letter < 0x7F ? letter : '?'));
        return;
    }
    const char *name = arena_copy(arena, word, strcspn(word, "="));
    if (index_of(name, OPTION_WORDS, OPTION_COUNT) >= 0) {
        complain(parse, arena_print(arena, "%s takes no value", name));
        return;
    }
    complain(parse, arena_print(arena, "unknown option '%s'%s", name,
                                suggestion(arena, name, OPTION_WORDS, OPTION_COUNT,
                                           "see winterstack --help")));
}

static void take_option(Parse *parse, int option, const char *word) {
    switch (option) {
    case OPERAND:
        take_operand(parse, optarg);
        return;
    case OPTION_UNITS:
        parse->command.units_were_asked = true;
        parse->command.units = (Units)CHOICE(parse, "--units", optarg, UNIT_WORDS);
        return;
    case OPTION_REQUIREMENTS:
        parse->command.needs_way_was_asked = true;
        parse->command.needs_way =
            (NeedsWay)CHOICE(parse, "--requirements", optarg, NEEDS_WAY_WORDS);
        return;
    case OPTION_COLD:
        parse->command.cold_way_was_asked = true;
        parse->command.cold_way = (ColdWay)CHOICE(parse, "--cold", optarg, COLD_WAY_WORDS);
        return;
    case OPTION_FORMAT:
        take_format(parse, optarg);
        return;
    case OPTION_WIDTH:
        take_width(parse, optarg);
        return;
    case OPTION_YEAR_TABLE:
        parse->command.wants_year_table = true;
        return;
    case OPTION_VERSION:
        parse->version_was_asked = true;
        return;
    case 'o':
        take_out(parse, optarg);
        return;
    case 'h':
        parse->help_was_asked = true;
        return;
    case ':':
        complain(parse, arena_print(parse->arena, "%s needs a value after it", word));
        return;
    default:
        refuse_option(parse, word, optopt);
    }
}

/* The leading "-" makes getopt hand over every argument in the order typed, whatever the
 * environment says, and leave their order alone; ":" keeps it from printing. */
static void read_arguments(Parse *parse, int argument_count, char *const *arguments) {
    optind = 0; /* begin anew, even after another call */
    opterr = 0;
    for (int at = 1;; at = optind < 1 ? 1 : optind) {
        const int option = getopt_long(argument_count, arguments, "-:ho:", OPTIONS, NULL);
        if (option == -1)
            break;
        take_option(parse, option, at < argument_count ? arguments[at] : "");
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
    const int found = index_of(word, words, COMMAND_COUNT);
    if (found >= 0) {
        parse->command.name = (CommandName)found;
        return;
    }
    char list[LIST_OF_COMMANDS_BYTES];
    list_commands(list);
    const char *cure = arena_print(parse->arena, "the commands are %s", list);
    complain(parse, arena_print(parse->arena, "unknown command '%s'%s", word,
                                suggestion(parse->arena, word, words, COMMAND_COUNT, cure)));
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
    complain(parse, arena_print(parse->arena, "%s missing: winterstack %s %s [options]",
                                missing, row->word, row->arguments));
}

Command command_parse(Arena *arena, int argument_count, char *const *arguments) {
    Parse parse = {.arena = arena, .command = {.name = COMMAND_COUNT}};
    if (argument_count > 0)
        read_arguments(&parse, argument_count, arguments);
    if (parse.operand_count > 0)
        take_command(&parse);
    Command *command = &parse.command;
    const bool asks_nothing = argument_count <= 1;
    if (asks_nothing || (parse.help_was_asked && !command->complaint)) {
        command->wish = WISH_HELP;
        return *command;
    }
    if (parse.version_was_asked && !command->complaint) {
        command->wish = WISH_VERSION;
        return *command;
    }
    if (parse.operand_count == 0)
        complain(&parse, "no command was named; see winterstack --help");
    else if (command->name != COMMAND_COUNT)
        take_paths(&parse);
    if (command->wants_year_table && command->name != COMMAND_needs)
        complain(&parse, "--year-table goes with needs");
    command->wish = command->complaint ? WISH_UNCLEAR : WISH_TASK;
    return *command;
}

static const char HELP_OF_OPTIONS[] =
    "Options\n"
    "  --units metric|imperial|mixed\n"
    "                           kilograms; pounds; or pounds in the bunk and tonnes\n"
    "                           in the yard; else what winter.csv says\n"
    "  --format text|html|json|csv\n"
    "                           a page to read, to print, or figures for others\n"
    "  -o, --out PATH           write there; what was there is kept if that fails\n"
    "           --out FOLDER    plan: report.html, feed-sheets.html, plan.json and a\n"
    "                           CSV file a table, all or none of them\n"
    "  --year-table             needs: also the tables to compare with books\n"
    "  --requirements equations|table\n"
    "                           where needs come from; else what winter.csv says\n"
    "  --cold table|model       how cold is reckoned; else what winter.csv says\n"
    "  --width N                columns of the page, 60 to 200; else 80\n"
    "  -h, --help               this; after a command, what the command does\n"
    "  --version                the version\n";

static const char HELP_OF_INPUT[] =
    "HERD is a CSV file, one row a group of cattle. INVENTORY is a folder that holds\n"
    "stacks.csv and winter.csv and, where there are any, feed-tests.csv,\n"
    "for-sale.csv, weather.csv and needs.csv.\n";

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
            text_print(out, "  %-6s %s\n", COMMANDS[i].word, COMMANDS[i].help);
    } else {
        const CommandRow *row = &COMMANDS[name];
        text_print(out, "%s: %s\n\n  winterstack %s %s [options]\n", row->word, row->help,
                   row->word, row->arguments);
    }
    text_print(out, "\n%s\n%s\n%s", HELP_OF_INPUT, HELP_OF_OPTIONS, HELP_OF_EXIT);
}
