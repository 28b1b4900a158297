#include "entry/command.h"

#include "base/date_text.h"
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
    OPTION_CUT_ON,
    OPTION_BUY,
    OPTION_WINTERS,
    OPTION_SEED,
    OPTION_VERSION,
    OPTION_FROM,
    OPTION_KEEP,
    OPTION_RECORD /* the first of record_option.def; the others follow it */
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
    {"cut-on", required_argument, NULL, OPTION_CUT_ON},
    {"buy", required_argument, NULL, OPTION_BUY},
    {"winters", required_argument, NULL, OPTION_WINTERS},
    {"seed", required_argument, NULL, OPTION_SEED},
    {"help", no_argument, NULL, 'h'},
    {"version", no_argument, NULL, OPTION_VERSION},
    {"from", required_argument, NULL, OPTION_FROM},
    {"keep", no_argument, NULL, OPTION_KEEP},
#define RECORD_OPTION(id, word, value, help)                                                   \
    {word, sizeof(value) > 1 ? required_argument : no_argument, NULL,                          \
     OPTION_RECORD + RECORD_OPTION_##id},
#include "entry/record_option.def"
#undef RECORD_OPTION
    {NULL, 0, NULL, 0},
};
enum { OPTION_COUNT = sizeof OPTIONS / sizeof *OPTIONS - 1 };

static const char *const OPTION_WORDS[OPTION_COUNT] = {
    "--units", "--format",     "--out",     "--width", "--requirements",
    "--cold",  "--year-table", "--cut-on",  "--buy",   "--winters",
    "--seed",  "--help",       "--version", "--from",  "--keep",
#define RECORD_OPTION(id, word, value, help) "--" word,
#include "entry/record_option.def"
#undef RECORD_OPTION
};
static const char *const UNIT_WORDS[] = {"metric", "imperial"};
static const char *const FORMAT_WORDS[] = {"text", "json"};
static const char *const NEEDS_WAY_WORDS[] = {"equations", "table"};
static const char *const COLD_WAY_WORDS[] = {"table", "model"};
static const char *const LATER_FORMATS[] = {"html", "csv"};

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

static int choice(Parse *parse, const char *option, const char *word,
                  const char *const *words) {
    const int found = index_of(word, words, 2);
    if (found >= 0)
        return found;
    const char *cure = arena_print(parse->arena, "it is %s or %s", words[0], words[1]);
    complain(parse, arena_print(parse->arena, "%s: '%s' is not known%s", option, word,
                                suggestion(parse->arena, word, words, 2, cure)));
    return 0;
}

static void take_format(Parse *parse, const char *word) {
    if (index_of(word, LATER_FORMATS, 2) >= 0) {
        complain(parse,
                 arena_print(parse->arena, "--format: %s is not offered yet; text and json are",
                             word));
        return;
    }
    const int found = choice(parse, "--format", word, FORMAT_WORDS);
    parse->command.format = found == 1 ? OUTPUT_JSON : OUTPUT_TEXT;
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

/* A whole number from 0 to `most`. */
static bool take_number(Parse *parse, const char *option, const char *word, uint64_t most,
                        uint64_t *number) {
    const size_t digits = strspn(word, "0123456789");
    const bool is_number = digits > 0 && digits <= 18 && !word[digits];
    const uint64_t read = is_number ? strtoull(word, NULL, 10) : 0;
    parse->command.winters_were_asked = true;
    if (is_number && read <= most) {
        *number = read;
        return true;
    }
    complain(parse, arena_print(parse->arena, "%s: '%s' is not a whole number from 0 to %llu",
                                option, word, (unsigned long long)most));
    return false;
}

static void take_winters(Parse *parse, const char *word) {
    uint64_t winters;
    if (take_number(parse, "--winters", word, MOST_WINTERS, &winters))
        parse->command.winters = (int)winters;
}

static void take_out(Parse *parse, const char *path) {
    if (!path[0])
        complain(parse, "--out: the path is empty; name a file, or - for standard output");
    parse->command.out_path = text_same(path, "-") ? NULL : path;
}

static void take_date(Parse *parse, const char *word) {
    Command *command = &parse->command;
    Day day;
    if (!calendar_parse(word, &day))
        complain(parse,
                 arena_print(parse->arena,
                             "--cut-on: '%s' is not a day; write it like 2027-07-20", word));
    else if (command->date_count == MOST_DATES)
        complain(parse, "--cut-on: at most two days of cutting are compared");
    else
        command->dates[command->date_count++] = day;
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

static void take_from(Parse *parse, const char *word) {
    parse->command.has_from = calendar_parse(word, &parse->command.from);
    if (!parse->command.has_from)
        complain(parse,
                 arena_print(parse->arena, "--from: '%s' %s", text_excerpt(parse->arena, word),
                             date_cure(parse->arena, word)));
}

static void take_record_option(Parse *parse, RecordOption option) {
    const char *complaint =
        record_option_take(parse->arena, &parse->command.record, option, optarg);
    if (complaint)
        complain(parse, complaint);
}

static void take_option(Parse *parse, int option, const char *word) {
    if (option >= OPTION_RECORD && option < OPTION_RECORD + RECORD_OPTION_COUNT) {
        take_record_option(parse, (RecordOption)(option - OPTION_RECORD));
        return;
    }
    switch (option) {
    case OPERAND:
        take_operand(parse, optarg);
        return;
    case OPTION_UNITS:
        parse->command.units_were_asked = true;
        parse->command.units =
            choice(parse, "--units", optarg, UNIT_WORDS) == 1 ? UNITS_IMPERIAL : UNITS_METRIC;
        return;
    case OPTION_REQUIREMENTS:
        parse->command.needs_way_was_asked = true;
        parse->command.needs_way =
            (NeedsWay)choice(parse, "--requirements", optarg, NEEDS_WAY_WORDS);
        return;
    case OPTION_COLD:
        parse->command.cold_way_was_asked = true;
        parse->command.cold_way = (ColdWay)choice(parse, "--cold", optarg, COLD_WAY_WORDS);
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
    case OPTION_CUT_ON:
        take_date(parse, optarg);
        return;
    case OPTION_BUY:
        parse->command.buy = optarg;
        return;
    case OPTION_WINTERS:
        take_winters(parse, optarg);
        return;
    case OPTION_SEED:
        take_number(parse, "--seed", optarg, 999999999999999999u, &parse->command.seed);
        return;
    case OPTION_VERSION:
        parse->version_was_asked = true;
        return;
    case OPTION_FROM:
        take_from(parse, optarg);
        return;
    case OPTION_KEEP:
        parse->command.wants_keeping = true;
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

/* Options that only some commands have. */
static void complain_of_options(Parse *parse) {
    const Command *command = &parse->command;
    if (command->wants_year_table && command->name != COMMAND_needs)
        complain(parse, "--year-table goes with needs");
    if ((command->date_count > 0 || command->buy) && command->name != COMMAND_cut)
        complain(parse, "--cut-on and --buy go with cut");
    if (command->has_from && command->name != COMMAND_plan && command->name != COMMAND_stock)
        complain(parse, "--from goes with plan and stock");
    if (command->wants_keeping && command->name != COMMAND_plan)
        complain(parse, "--keep goes with plan");
    if (command->winters_were_asked && command->name != COMMAND_plan)
        complain(parse, "--winters and --seed go with plan");
    const char *first = record_wish_first(&command->record);
    if (first && command->name != COMMAND_fed)
        complain(parse, arena_print(parse->arena, "%s goes with fed", first));
    const char *lacks = command->name == COMMAND_fed
                            ? record_wish_complaint(parse->arena, &command->record)
                            : NULL;
    if (lacks)
        complain(parse, arena_print(parse->arena, "%s; see winterstack fed --help", lacks));
}

Command command_parse(Arena *arena, int argument_count, char *const *arguments) {
    Parse parse = {.arena = arena,
                   .command = {.name = COMMAND_COUNT, .winters = USUAL_WINTERS, .seed = 1}};
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
    complain_of_options(&parse);
    command->wish = command->complaint ? WISH_UNCLEAR : WISH_TASK;
    return *command;
}

static const char HELP_OF_OPTIONS[] =
    "Options\n"
    "  --units metric|imperial  kilograms or pounds; else what winter.csv says\n"
    "  --format text|json       a page to read, or figures for another program\n"
    "  -o, --out PATH           write there; an old file is kept if that fails\n"
    "  --from DATE              plan: the rest of winter from then; stock: then\n"
    "  --keep                   plan: write last-plan.csv, for the next to compare\n"
    "  --year-table             needs: also the tables to compare with books\n"
    "  --cut-on YYYY-MM-DD      cut: a day of cutting to compare; once or twice\n"
    "  --buy NAME               cut: the feed to buy or not; else the first grain\n"
    "  --requirements equations|table\n"
    "                           where needs come from; else what winter.csv says\n"
    "  --cold table|model       how cold is reckoned; else what winter.csv says\n"
    "  --winters N              plan: hard winters drawn; else 1000, 0 for none\n"
    "  --seed N                 plan: which ones; the same number, the same winters\n"
    "  --width N                columns of the page, 60 to 200; else 80\n"
    "  -h, --help               this; after a command, what the command does\n"
    "  --version                the version\n";

static const char HELP_OF_INPUT[] =
    "HERD is a CSV file, one row a group of cattle. INVENTORY is a folder that holds\n"
    "stacks.csv and winter.csv and, where there are any, feed-tests.csv,\n"
    "for-sale.csv, weather.csv, needs.csv, fields.csv, head-changes.csv and the\n"
    "record of what was fed, fed.csv and counts.csv.\n";

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
    if (name == COMMAND_fed) {
        text_add(out, "\n");
        record_options_help(out);
    }
    text_print(out, "\n%s\n%s\n%s", HELP_OF_INPUT, HELP_OF_OPTIONS, HELP_OF_EXIT);
}
