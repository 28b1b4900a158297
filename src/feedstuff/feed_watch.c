#include "feedstuff/feed_watch.h"
#include "base/choice.h"
#include "base/text.h"

static const char *const NAMES[FEED_WATCH_COUNT] = {
#define FEED_WATCH(id, name) name,
#include "feedstuff/feed_watch.def"
#undef FEED_WATCH
};

const char *feed_watch_name(FeedWatch watch) { return NAMES[watch]; }

static const char *all_names(Arena *arena) {
    Text text = text_new(arena);
    for (int i = 0; i < FEED_WATCH_COUNT; i++)
        text_print(&text, "%s'%s'", i > 0 ? ", " : "", NAMES[i]);
    return text.bytes;
}

WatchSet feed_watch_read(const Sheet *sheet, int row, int column) {
    const char **pieces;
    const int count = sheet_list(sheet, row, column, &pieces);
    WatchSet set = 0;
    for (int i = 0; i < count; i++) {
        const int place = choice_find(pieces[i], NAMES, FEED_WATCH_COUNT);
        if (place >= 0) {
            set |= WATCH_BIT(place);
            continue;
        }
        Arena *arena = sheet_arena(sheet);
        const char *guess = choice_guess(arena, pieces[i], NAMES, FEED_WATCH_COUNT);
        fault_add(sheet_faults(sheet), sheet_place(sheet, row, column),
                  "%s: '%s' is not known; %s", sheet_heading(sheet, column),
                  text_excerpt(arena, pieces[i]),
                  guess ? guess : arena_print(arena, "it may be %s", all_names(arena)));
    }
    return set;
}
