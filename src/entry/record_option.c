#include "entry/record_option.h"
#include "base/date_text.h"
#include "base/number_text.h"
#include <string.h>

static const struct {
    const char *word, *value, *help;
} OPTIONS[RECORD_OPTION_COUNT] = {
#define RECORD_OPTION(id, word, value, help) {"--" word, value, help},
#include "entry/record_option.def"
#undef RECORD_OPTION
};

static const char *shown(Arena *arena, const char *value) { return text_excerpt(arena, value); }

static const char *take_date(Arena *arena, RecordWish *wish, const char *value) {
    if (calendar_parse(value, &wish->date))
        return NULL;
    return arena_print(arena, "--date: '%s' %s", shown(arena, value), date_cure(arena, value));
}

/* Bales may be parts of one: half a bale is fed now and then. */
static const char *take_bales(Arena *arena, RecordWish *wish, RecordOption option,
                              const char *value) {
    double number;
    wish->number = value;
    wish->unit = AMOUNT_BALES;
    const bool is_plain = value[strspn(value, "0123456789.")] == '\0';
    if (is_plain && number_read(value, false, &number))
        return NULL;
    return arena_print(arena, "%s: '%s' is not a number of bales; write it in digits, as in 6",
                       OPTIONS[option].word, shown(arena, value));
}

static const char *take_weight(Arena *arena, RecordWish *wish, RecordOption option,
                               const char *value) {
    const char *cure;
    if (feed_weight_read(arena, value, &wish->number, &wish->unit, &cure))
        return NULL;
    return arena_print(arena, "%s: '%s' is not a weight; %s", OPTIONS[option].word,
                       shown(arena, value), cure);
}

/* A line break in a cell makes a file hard to read in anything but a spreadsheet. */
static const char *take_text(Arena *arena, const char **text, RecordOption option,
                             const char *value) {
    for (const char *byte = value; *byte; byte++) {
        if ((unsigned char)*byte < ' ' || *byte == 0x7F)
            return arena_print(arena, "%s: '%s' has a line break or control character in it",
                               OPTIONS[option].word, shown(arena, value));
    }
    if (text_first_bad_utf8(value, strlen(value)) >= 0)
        return arena_print(arena, "%s: '%s' is not UTF-8 text", OPTIONS[option].word,
                           shown(arena, value));
    *text = value;
    return value[0] == '\0' ? arena_print(arena, "%s: it is empty", OPTIONS[option].word)
                            : NULL;
}

const char *record_option_take(Arena *arena, RecordWish *wish, RecordOption option,
                               const char *value) {
    if (wish->is_given[option])
        return arena_print(arena, "%s is there twice; an entry has one of each",
                           OPTIONS[option].word);
    wish->is_given[option] = true;
    switch (option) {
    case RECORD_OPTION_DATE:
        return take_date(arena, wish, value);
    case RECORD_OPTION_GROUP:
        return take_text(arena, &wish->group, option, value);
    case RECORD_OPTION_STACK:
        return take_text(arena, &wish->stack, option, value);
    case RECORD_OPTION_NOTE:
        return take_text(arena, &wish->note, option, value);
    case RECORD_OPTION_LEFT_BALES:
        wish->is_recount = true;
        return take_bales(arena, wish, option, value);
    case RECORD_OPTION_BALES:
        return take_bales(arena, wish, option, value);
    case RECORD_OPTION_LEFT_WEIGHT:
        wish->is_recount = true;
        return take_weight(arena, wish, option, value);
    case RECORD_OPTION_WEIGHT:
        return take_weight(arena, wish, option, value);
    case RECORD_OPTION_EMPTY:
        wish->is_recount = true;
        wish->number = "0";
        wish->unit = AMOUNT_KG;
        return NULL;
    case RECORD_OPTION_UNDO:
    case RECORD_OPTION_COUNT:
        break;
    }
    return NULL;
}

static int amounts_given(const RecordWish *wish) {
    int count = 0;
    for (int option = RECORD_OPTION_BALES; option <= RECORD_OPTION_EMPTY; option++)
        count += wish->is_given[option];
    return count;
}

const char *record_wish_first(const RecordWish *wish) {
    for (int option = 0; option < RECORD_OPTION_COUNT; option++) {
        if (wish->is_given[option])
            return OPTIONS[option].word;
    }
    return NULL;
}

static bool is_nothing(const char *number) { return number[strspn(number, "0.")] == '\0'; }

const char *record_wish_complaint(Arena *arena, const RecordWish *wish) {
    if (wish->is_given[RECORD_OPTION_UNDO]) {
        const char *first = record_wish_first(wish);
        return text_same(first, OPTIONS[RECORD_OPTION_UNDO].word)
                   ? NULL
                   : arena_print(arena, "--undo stands alone; leave %s out", first);
    }
    const int amounts = amounts_given(wish);
    if (amounts != 1)
        return amounts == 0 ? "say how much: --bales or --weight was fed, or --left-bales, "
                              "--left-weight or --empty was counted"
                            : "the amount is there twice; give one of --bales, --weight, "
                              "--left-bales, --left-weight, --empty";
    if (!wish->stack)
        return "--stack is missing: the stack it is of";
    if (wish->is_recount && wish->group)
        return "--group goes with a feeding; a count is of the whole stack";
    if (!wish->is_recount && !wish->group)
        return "--group is missing: the group it was fed to";
    if (!wish->is_recount && is_nothing(wish->number))
        return "nothing was fed; an empty stack is written with --empty";
    return NULL;
}

void record_options_help(Text *out) {
    text_add(out,
             "Write down a feeding, or what a count of one stack found:\n\n"
             "  winterstack fed herd.csv yard --group \"Main cows\" --stack \"Home hay\" "
             "--bales 6\n"
             "  winterstack fed herd.csv yard --group Heifers --stack Pit --weight 1200kg\n"
             "  winterstack fed herd.csv yard --stack \"Home hay\" --left-bales 41\n"
             "  winterstack fed herd.csv yard --stack \"Home hay\" --empty\n"
             "  winterstack fed herd.csv yard --undo\n\n");
    for (int option = 0; option < RECORD_OPTION_COUNT; option++) {
        const char *left =
            arena_print(out->arena, "%s%s%s", OPTIONS[option].word,
                        OPTIONS[option].value[0] ? " " : "", OPTIONS[option].value);
        text_print(out, "  %-24s %s\n", left, OPTIONS[option].help);
    }
    text_add(out,
             "\nFeedings go to fed.csv of the inventory folder, counts to counts.csv; a\n"
             "spreadsheet may change both. A count is of the evening: after that day's\n"
             "feeding. Names may be typed in small letters; put \" around one with a blank.\n");
}
