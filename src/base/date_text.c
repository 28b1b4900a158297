#include "base/date_text.h"

#include "base/calendar.h"
#include "base/text.h"
#include <string.h>

#define MOST_NUMBERS 3
#define FIRST_MONTH 1
#define LAST_MONTH 12

/* Spreadsheets count days from here (serial 25569 is 1 January 1970); five digits of it reach
 * from 1954 to 2173. */
#define SHEET_SERIAL_OF_1970 25569
#define LEAST_SHEET_SERIAL 20000

/* The numbers and the month name of a text, in their order. */
typedef struct {
    int number[MOST_NUMBERS], digits[MOST_NUMBERS];
    int number_count;
    int named_month; /* 0: none */
    bool is_strange; /* there is something else in it */
} DateParts;

static bool is_digit(char letter) { return letter >= '0' && letter <= '9'; }

static bool is_letter(char letter) {
    return (letter >= 'a' && letter <= 'z') || (letter >= 'A' && letter <= 'Z');
}

/* "Nov", "Sept", "november". */
static int month_of_name(const char *name, size_t length) {
    static const char *const NAMES[] = {"january",   "february", "march",    "april",
                                        "may",       "june",     "july",     "august",
                                        "september", "october",  "november", "december"};
    for (int i = 0; i < LAST_MONTH && length >= 3; i++) {
        char word[12] = "";
        if (length > strlen(NAMES[i]))
            continue;
        memcpy(word, name, length);
        char begin[12] = "";
        memcpy(begin, NAMES[i], length);
        if (text_same_letters(word, begin))
            return i + 1;
    }
    return 0;
}

static const char *take_number(DateParts *parts, const char *byte) {
    const char *const start = byte;
    int number = 0;
    for (; is_digit(*byte); byte++) {
        if (byte - start < 8)
            number = number * 10 + (*byte - '0');
    }
    if (parts->number_count == MOST_NUMBERS || byte - start > 8) {
        parts->is_strange = true;
        return byte;
    }
    parts->digits[parts->number_count] = (int)(byte - start);
    parts->number[parts->number_count++] = number;
    return byte;
}

static const char *take_word(DateParts *parts, const char *byte) {
    const char *const start = byte;
    while (is_letter(*byte))
        byte++;
    const int month = month_of_name(start, (size_t)(byte - start));
    if (month == 0 || parts->named_month != 0)
        parts->is_strange = true;
    parts->named_month = month;
    return byte;
}

static DateParts parts_of(const char *text) {
    DateParts parts = {0};
    for (const char *byte = text; *byte;) {
        if (is_digit(*byte)) {
            byte = take_number(&parts, byte);
        } else if (is_letter(*byte)) {
            byte = take_word(&parts, byte);
        } else {
            if (!strchr(" ,./-", *byte))
                parts.is_strange = true;
            byte++;
        }
    }
    return parts;
}

/* "26" is 2026; whoever means another century sees it in the suggestion. */
static int full_year(int year, int digits) { return digits <= 2 ? 2000 + year : year; }

static const char *iso(Arena *arena, int year, int month, int day) {
    char text[CALENDAR_TEXT_BYTES];
    calendar_print(calendar_day(year, month, day), text);
    return arena_copy(arena, text, strlen(text));
}

static const char *write_this(Arena *arena, int year, int month, int day) {
    if (!calendar_is_date(year, month, day))
        return NULL;
    return arena_print(arena, "is not in the form year-month-day: write %s",
                       iso(arena, year, month, day));
}

/* 2026-02-30: the right form, but no such day. */
static const char *impossible(Arena *arena, int year, int month, int day) {
    if (!calendar_is_date(year, 1, 1))
        return "has a year that is outside 1900 to 2199";
    if (month < FIRST_MONTH || month > LAST_MONTH) {
        return arena_print(arena, "is not a date: there is no month %d (it is year-month-day)",
                           month);
    }
    int last = 31;
    while (!calendar_is_date(year, month, last))
        last--;
    return arena_print(arena, "is not a date: %s %d has %d days, not %d",
                       calendar_month_name(month), year, last, day);
}

/* Month first or day first: 11/01/2026 is either. */
static const char *year_last(Arena *arena, int first, int second, int year) {
    const bool month_first = calendar_is_date(year, first, second);
    const bool day_first = calendar_is_date(year, second, first);
    if (!month_first || !day_first || first == second) {
        return month_first ? write_this(arena, year, first, second)
                           : write_this(arena, year, second, first);
    }
    return arena_print(arena, "could be %s %d or %s %d: write %s or %s",
                       calendar_month_name(first), second, calendar_month_name(second), first,
                       iso(arena, year, first, second), iso(arena, year, second, first));
}

static const char *cure_of_named_month(Arena *arena, const DateParts *parts) {
    if (parts->number_count == 1) {
        return "lacks its day or its year: write year-month-day, as in 2026-11-01";
    }
    if (parts->number_count != 2)
        return NULL;
    const bool year_first = parts->digits[0] > 2;
    const int year = year_first ? 0 : 1, day = year_first ? 1 : 0;
    return write_this(arena, full_year(parts->number[year], parts->digits[year]),
                      parts->named_month, parts->number[day]);
}

static const char *cure_of_one_number(Arena *arena, const DateParts *parts) {
    const int number = parts->number[0];
    if (parts->digits[0] == 8) {
        return write_this(arena, number / 10000, number / 100 % 100, number % 100);
    }
    if (parts->digits[0] != 5 || number < LEAST_SHEET_SERIAL)
        return NULL;
    char day[CALENDAR_TEXT_BYTES];
    calendar_print((Day){number - SHEET_SERIAL_OF_1970}, day);
    return arena_print(arena, "is a spreadsheet's count of days: it stands for %s, write that",
                       day);
}

static const char *cure_of_parts(Arena *arena, const DateParts *parts) {
    const int *const number = parts->number;
    if (parts->is_strange)
        return NULL;
    if (parts->named_month != 0)
        return cure_of_named_month(arena, parts);
    if (parts->number_count == 1)
        return cure_of_one_number(arena, parts);
    if (parts->number_count != 3)
        return NULL;
    if (parts->digits[0] == 4) {
        const char *const cure = write_this(arena, number[0], number[1], number[2]);
        return cure ? cure : impossible(arena, number[0], number[1], number[2]);
    }
    return year_last(arena, number[0], number[1], full_year(number[2], parts->digits[2]));
}

/* Whatever stands behind it, no date is guessed from it but a whole one. */
static const char *minus_in_front(Arena *arena, const char *rest) {
    Day day;
    return arena_print(arena, "has a minus sign in front of it: write %s",
                       calendar_parse(rest, &day) ? rest : "year-month-day, as in 2026-11-01");
}

const char *date_cure(Arena *arena, const char *text) {
    const char *const begin = arena_copy(arena, text, strnlen(text, CALENDAR_TEXT_BYTES - 1));
    Day day;
    if (calendar_parse(begin, &day) && strchr("T ", text[CALENDAR_TEXT_BYTES - 1])) {
        return arena_print(arena, "has more than a date in it: write %s", begin);
    }
    const DateParts parts = parts_of(text);
    if (text[0] == '-' && parts.number_count > 0)
        return minus_in_front(arena, text + 1);
    const char *const cure = cure_of_parts(arena, &parts);
    return cure ? cure : "is not a date: write year-month-day, as in 2026-11-01";
}
