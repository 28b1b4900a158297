/* The options of the command fed: one entry of the record, or taking the last one back. */
#ifndef ENTRY_RECORD_OPTION_H
#define ENTRY_RECORD_OPTION_H

#include "base/calendar.h"
#include "base/text.h"
#include "stock/feed_amount.h"

typedef enum {
#define RECORD_OPTION(id, word, value, help) RECORD_OPTION_##id,
#include "entry/record_option.def"
#undef RECORD_OPTION
    RECORD_OPTION_COUNT
} RecordOption;

typedef struct {
    bool is_given[RECORD_OPTION_COUNT];
    Day date;                         /* where it was given */
    const char *group, *stack, *note; /* "" not given */
    const char *number;               /* of the amount, as typed */
    AmountUnit unit;
    bool is_recount; /* else a feeding; meaningless with undo */
} RecordWish;

/* Takes one option. NULL, or the complaint. */
const char *record_option_take(Arena *arena, RecordWish *wish, RecordOption option,
                               const char *value);

/* What is missing, or does not go together; NULL: nothing. */
const char *record_wish_complaint(Arena *arena, const RecordWish *wish);

/* The first option that was given; NULL: none. */
const char *record_wish_first(const RecordWish *wish);

/* The part of the help of fed. */
void record_options_help(Text *out);

#endif
