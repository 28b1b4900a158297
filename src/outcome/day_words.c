#include "outcome/day_words.h"

const char *day_words(Arena *arena, Day day) {
    return arena_print(arena, "%s %d", day_short(arena, day), calendar_year(day));
}

const char *day_short(Arena *arena, Day day) {
    return arena_print(arena, "%d %s", calendar_day_of_month(day),
                       calendar_month_name(calendar_month(day)));
}

const char *day_span(Arena *arena, Day from, Day to) {
    if (from.number == to.number)
        return day_short(arena, from);
    return arena_print(arena, "%s to %s", day_short(arena, from), day_short(arena, to));
}

const char *day_iso(Arena *arena, Day day) {
    char text[CALENDAR_TEXT_BYTES];
    calendar_print(day, text);
    return arena_print(arena, "%s", text);
}
