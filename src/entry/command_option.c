/* The options of a command line, one by one. */
#include "base/date_text.h"
#include "entry/command_parts.h"
#include <stdlib.h>
#include <string.h>

typedef struct {
    const char *word, *value, *help;
    unsigned commands; /* bits */
} OptionRow;

#define ON(command) (1u << COMMAND_##command)
#define ON_EVERY ((1u << COMMAND_COUNT) - 1u)

static const OptionRow OPTIONS[OPTION_COUNT] = {
#define OPTION(id, word, value, commands, help) {word, value, help, commands},
#include "entry/option.def"
#undef OPTION
};

static const char *const UNIT_WORDS[] = {"metric", "imperial", "mixed"};
static const char *const FORMAT_WORDS[] = {"text", "html", "json", "csv"};
static const char *const NEEDS_WAY_WORDS[] = {"equations", "table"};
static const char *const COLD_WAY_WORDS[] = {"table", "model"};

/* "a, b or c"; the last word is `last`. */
static const char *listed(Arena *arena, const char *const *words, int count, const char *last) {
    Text list = text_new(arena);
    for (int i = 0; i < count; i++)
        text_print(&list, "%s%s", i == 0 ? "" : i == count - 1 ? last : ", ", words[i]);
    return list.bytes;
}

static int choice(Parse *parse, const char *option, const char *word, const char *const *words,
                  int count) {
    const int found = command_word_index(word, words, count);
    if (found >= 0)
        return found;
    const char *cure =
        arena_print(parse->arena, "it is %s", listed(parse->arena, words, count, " or "));
    command_complain(parse, "--%s: '%s' is not known%s", option, word,
                     command_suggestion(parse->arena, word, words, count, cure));
    return 0;
}

#define CHOICE(parse, option, word, words)                                                     \
    choice((parse), (option), (word), (words), (int)(sizeof(words) / sizeof *(words)))

static void take_width(Parse *parse, const char *word) {
    const size_t digits = strspn(word, "0123456789");
    const bool is_short_number = digits > 0 && digits <= 4 && !word[digits];
    const long width = is_short_number ? strtol(word, NULL, 10) : 0;
    if (width >= LEAST_WIDTH && width <= MOST_WIDTH) {
        parse->command.width = (int)width;
        return;
    }
    command_complain(parse, "--width: '%s' is not a whole number from %d to %d columns", word,
                     LEAST_WIDTH, MOST_WIDTH);
}

/* A whole number from 0 to `most`. */
static bool take_number(Parse *parse, const char *option, const char *word, uint64_t most,
                        uint64_t *number) {
    const size_t digits = strspn(word, "0123456789");
    const bool is_number = digits > 0 && digits <= 18 && !word[digits];
    const uint64_t read = is_number ? strtoull(word, NULL, 10) : 0;
    if (is_number && read <= most) {
        *number = read;
        return true;
    }
    command_complain(parse, "--%s: '%s' is not a whole number from 0 to %llu", option, word,
                     (unsigned long long)most);
    return false;
}

static void take_winters(Parse *parse, const char *word) {
    uint64_t winters;
    if (take_number(parse, "winters", word, MOST_WINTERS, &winters))
        parse->command.winters = (int)winters;
}

static void take_out(Parse *parse, const char *path) {
    if (!path[0])
        command_complain(parse,
                         "--out: the path is empty; name a file, or - for standard output");
    parse->command.out_path = text_same(path, "-") ? NULL : path;
}

void command_format_of_path(Command *command) {
    const char *dot = command->out_path ? strrchr(command->out_path, '.') : NULL;
    if (command->format_was_asked || !dot)
        return;
    for (int format = OUTPUT_HTML; format <= OUTPUT_CSV; format++)
        if (text_same_letters(dot + 1, FORMAT_WORDS[format]))
            command->format = (OutputFormat)format;
}

static bool take_day(Parse *parse, const char *option, const char *word, Day *day) {
    if (calendar_parse(word, day))
        return true;
    command_complain(parse, "--%s: '%s' %s", option, text_excerpt(parse->arena, word),
                     date_cure(parse->arena, word));
    return false;
}

static void take_cut_day(Parse *parse, const char *word) {
    Command *command = &parse->command;
    Day day;
    if (!take_day(parse, "cut-on", word, &day))
        return;
    if (command->date_count == MOST_DATES)
        command_complain(parse, "--cut-on: at most two days of cutting are compared");
    else
        command->dates[command->date_count++] = day;
}

/* The first part and the last three have no comma in them. */
static void take_vary(Parse *parse, const char *word) {
    const char *const end = word + strlen(word);
    const char *first = NULL;
    const char *last[3] = {word, word, word};
    int commas = 0;
    for (const char *comma = strchr(word, ','); comma; comma = strchr(comma + 1, ',')) {
        first = first ? first : comma;
        last[0] = last[1];
        last[1] = last[2];
        last[2] = comma;
        commas++;
    }
    bool is_whole = commas >= VARY_PARTS - 1;
    const char *const ends[VARY_PARTS] = {first, last[0], last[1], last[2], end};
    const char *start = word;
    for (int part = 0; is_whole && part < VARY_PARTS; part++) {
        is_whole = start < ends[part] || (part == VARY_COLUMN && start == ends[part]);
        parse->command.vary[part] =
            arena_copy(parse->arena, start, is_whole ? (size_t)(ends[part] - start) : 0);
        start = ends[part] + 1;
    }
    if (!is_whole)
        command_complain(parse,
                         "--vary: '%s' is not FILE,ROW,COLUMN,FROM,TO, as in "
                         "'for-sale.csv,Feed barley,price_per_tonne,200,400'",
                         word);
}

static void take_record_option(Parse *parse, RecordOption option, const char *value) {
    const char *complaint =
        record_option_take(parse->arena, &parse->command.record, option, value);
    if (complaint)
        command_complain(parse, "%s", complaint);
}

/* Where needs come from, or how cold is reckoned. */
static void take_way(Parse *parse, int option, const char *value) {
    Command *command = &parse->command;
    if (option == OPTION_COLD) {
        command->cold_way_was_asked = true;
        command->cold_way = (ColdWay)CHOICE(parse, "cold", value, COLD_WAY_WORDS);
        return;
    }
    command->needs_way_was_asked = true;
    command->needs_way = (NeedsWay)CHOICE(parse, "requirements", value, NEEDS_WAY_WORDS);
}

/* An option that takes no value. */
static void take_wish(Command *command, int option) {
    command->wants_cheapest |= option == OPTION_CHEAPEST;
    command->wants_brief |= option == OPTION_BRIEF || option == OPTION_CHEAPEST;
    command->wants_keeping |= option == OPTION_KEEP;
    command->wants_year_table |= option == OPTION_YEAR_TABLE;
}

void command_take_option(Parse *parse, int option, const char *value) {
    Command *command = &parse->command;
    if (option >= OPTION_RECORD) {
        take_record_option(parse, (RecordOption)(option - OPTION_RECORD), value);
        return;
    }
    parse->is_given[option] = true;
    switch ((OptionName)option) {
    case OPTION_UNITS:
        command->units_were_asked = true;
        command->units = (Units)CHOICE(parse, "units", value, UNIT_WORDS);
        return;
    case OPTION_FORMAT:
        command->format_was_asked = true;
        command->format = (OutputFormat)CHOICE(parse, "format", value, FORMAT_WORDS);
        return;
    case OPTION_OUT:
        take_out(parse, value);
        return;
    case OPTION_FROM:
        command->has_from = take_day(parse, "from", value, &command->from);
        return;
    case OPTION_BRIEF:
    case OPTION_CHEAPEST:
    case OPTION_KEEP:
    case OPTION_YEAR_TABLE:
        take_wish(command, option);
        return;
    case OPTION_WINTERS:
        take_winters(parse, value);
        return;
    case OPTION_SEED:
        take_number(parse, "seed", value, 999999999999999999u, &command->seed);
        return;
    case OPTION_VARY:
        take_vary(parse, value);
        return;
    case OPTION_SHIP:
        command->wants_ship = take_day(parse, "ship", value, &command->ship_from);
        return;
    case OPTION_CUT_ON:
        take_cut_day(parse, value);
        return;
    case OPTION_BUY:
        command->buy = value;
        return;
    case OPTION_REQUIREMENTS:
    case OPTION_COLD:
        take_way(parse, option, value);
        return;
    case OPTION_WIDTH:
        take_width(parse, value);
        return;
    case OPTION_HELP:
    case OPTION_VERSION:
    case OPTION_COUNT:
        return;
    }
}

/* "plan and stock" */
static const char *commands_of(Arena *arena, unsigned commands) {
    const char *words[COMMAND_COUNT];
    int count = 0;
    for (int name = 0; name < COMMAND_COUNT; name++) {
        if (commands & (1u << name))
            words[count++] = command_word((CommandName)name);
    }
    return listed(arena, words, count, " and ");
}

void command_check_options(Parse *parse) {
    const CommandName name = parse->command.name;
    for (int option = 0; option < OPTION_COUNT && name != COMMAND_COUNT; option++) {
        const OptionRow *row = &OPTIONS[option];
        if (parse->is_given[option] && !(row->commands & (1u << name)))
            command_complain(parse, "--%s goes with %s", row->word,
                             commands_of(parse->arena, row->commands));
    }
    const RecordWish *record = &parse->command.record;
    const char *first = record_wish_first(record);
    if (first && name != COMMAND_fed)
        command_complain(parse, "%s goes with fed%s", first,
                         record->is_given[RECORD_OPTION_DATE] &&
                                 (OPTIONS[OPTION_FROM].commands & (1u << name))
                             ? "; the day here is --from"
                             : "");
    const char *lacks =
        name == COMMAND_fed ? record_wish_complaint(parse->arena, record) : NULL;
    if (lacks)
        command_complain(parse, "%s; see winterstack fed --help", lacks);
}

#define HELP_COLUMN 27

static void option_help(const OptionRow *row, const char *commands, Text *out) {
    const char *letter = text_same(row->word, "out")    ? "-o, "
                         : text_same(row->word, "help") ? "-h, "
                                                        : "";
    const size_t start = out->length;
    text_print(out, "  %s--%s%s%s", letter, row->word, row->value[0] ? " " : "", row->value);
    const size_t width = out->length - start;
    if (width + 1 >= HELP_COLUMN)
        text_print(out, "\n%*s", HELP_COLUMN, "");
    else
        text_print(out, "%*s", (int)(HELP_COLUMN - width), "");
    text_print(out, "%s", commands);
    const char *line = row->help;
    for (const char *end = strchr(line, '\n'); end; end = strchr(line, '\n')) {
        text_print(out, "%.*s\n%*s", (int)(end - line), line, HELP_COLUMN, "");
        line = end + 1;
    }
    text_print(out, "%s\n", line);
}

void command_options_help(CommandName name, Text *out) {
    text_add(out, "Options\n");
    for (int option = 0; option < OPTION_COUNT; option++) {
        const OptionRow *row = &OPTIONS[option];
        const bool is_shown = name == COMMAND_COUNT || (row->commands & (1u << name));
        const bool is_of_some = name == COMMAND_COUNT && row->commands != ON_EVERY;
        if (is_shown)
            option_help(row,
                        is_of_some ? arena_print(out->arena,
                                                 "%s: ", commands_of(out->arena, row->commands))
                                   : "",
                        out);
    }
}
