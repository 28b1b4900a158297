/* What the user asked on the command line. Nothing is opened and nothing printed here: a
 * question that is not understood comes back as WISH_UNCLEAR with the reason. */
#ifndef ENTRY_COMMAND_H
#define ENTRY_COMMAND_H

#include "base/calendar.h"
#include "base/text.h"
#include "cattle/winter.h"
#include "entry/record_option.h"
#include "outcome/measure.h"
#include <stdbool.h>
#include <stdint.h>

typedef enum {
#define COMMAND(name, arguments, help) COMMAND_##name,
#include "entry/command.def"
#undef COMMAND
    COMMAND_COUNT /* none was named */
} CommandName;

typedef enum { WISH_TASK, WISH_HELP, WISH_VERSION, WISH_UNCLEAR } Wish;
typedef enum { OUTPUT_TEXT, OUTPUT_HTML, OUTPUT_JSON, OUTPUT_CSV } OutputFormat;

enum { MOST_DATES = 2 };
enum { USUAL_WINTERS = 1000, MOST_WINTERS = 100000 };
/* FILE,ROW,COLUMN,FROM,TO: a row may have commas in its name. */
enum { VARY_FILE, VARY_ROW, VARY_COLUMN, VARY_FROM, VARY_TO, VARY_PARTS };
enum { LEAST_WIDTH = 60, USUAL_WIDTH = 80, MOST_WIDTH = 200 };

typedef struct {
    Wish wish;
    CommandName name;
    const char *herd_path, *inventory_folder; /* of WISH_TASK */
    const char *const *what_if_paths;         /* of compare */
    int what_if_count;
    const char *vary[VARY_PARTS]; /* of compare; the first NULL: not asked for */
    bool wants_ship;              /* of compare: what a head fewer from that day saves */
    Day ship_from;
    Units units;
    bool units_were_asked;
    OutputFormat format;
    bool format_was_asked;
    bool needs_way_was_asked, cold_way_was_asked;
    NeedsWay needs_way;
    ColdWay cold_way;
    bool wants_year_table; /* of needs only */
    Day dates[MOST_DATES]; /* of cut only */
    int date_count;
    const char *buy; /* of cut only: the feed for sale to compare; NULL: not said */
    bool has_from;   /* of plan and stock */
    Day from;
    bool wants_brief;      /* of plan: no question beside it */
    bool wants_cheapest;   /* of plan: as it is found; in brief */
    bool wants_keeping;    /* of plan: the plan is kept beside the inventory */
    RecordWish record;     /* of fed */
    int winters;           /* plan: how many are drawn; 0 none */
    uint64_t seed;         /* of them */
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
