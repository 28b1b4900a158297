#include "base/calendar.h"

#include <assert.h>
#include <stddef.h>
#include <stdio.h>

#define FIRST_YEAR 1900
#define LAST_YEAR 2199
#define MONTHS 12

typedef struct {
    int year, month, day_of_month;
} Date;

static bool is_leap(int year) { return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0; }

static int month_length(int year, int month) {
    static const int LENGTH[MONTHS] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    return LENGTH[month - 1] + (month == 2 && is_leap(year));
}

static int leap_years_through(int year) { return year / 4 - year / 100 + year / 400; }

/* Days from 1 January 1970 to 1 January of the year. */
static int year_start(int year) {
    return 365 * (year - 1970) + leap_years_through(year - 1) - leap_years_through(1969);
}

static int number_of(Date date) {
    int number = year_start(date.year) + date.day_of_month - 1;
    for (int month = 1; month < date.month; month++)
        number += month_length(date.year, month);
    return number;
}

/* Only what is read is held to 1900-2199; a day reckoned from it may lie a little past the end
 * (the month after December 2199), so this does not ask. */
static Date date_of(Day day) {
    int year = 1970 + day.number / 366;
    while (year_start(year) > day.number)
        year--;
    while (year_start(year + 1) <= day.number)
        year++;
    int left = day.number - year_start(year), month = 1;
    while (left >= month_length(year, month))
        left -= month_length(year, month++);
    return (Date){year, month, left + 1};
}

bool calendar_is_date(int year, int month, int day_of_month) {
    if (year < FIRST_YEAR || year > LAST_YEAR || month < 1 || month > MONTHS)
        return false;
    return day_of_month >= 1 && day_of_month <= month_length(year, month);
}

Day calendar_day(int year, int month, int day_of_month) {
    assert(calendar_is_date(year, month, day_of_month));
    return (Day){number_of((Date){year, month, day_of_month})};
}

bool calendar_parse(const char *text, Day *day) {
    static const char SHAPE[] = "dddd-dd-dd";
    int parts[3] = {0, 0, 0}, part = 0;
    for (size_t i = 0; i < sizeof SHAPE; i++) {
        const char letter = text[i];
        if (SHAPE[i] == 'd') {
            if (letter < '0' || letter > '9')
                return false;
            parts[part] = parts[part] * 10 + (letter - '0');
        } else {
            if (letter != SHAPE[i])
                return false;
            part++;
        }
    }
    if (!calendar_is_date(parts[0], parts[1], parts[2]))
        return false;
    *day = calendar_day(parts[0], parts[1], parts[2]);
    return true;
}

void calendar_print(Day day, char text[CALENDAR_TEXT_BYTES]) {
    const Date date = date_of(day);
    assert(date.year >= 0 && date.year <= 9999);
    snprintf(text, CALENDAR_TEXT_BYTES, "%04u-%02u-%02u", (unsigned)date.year % 10000U,
             (unsigned)date.month % 100U, (unsigned)date.day_of_month % 100U);
}

int calendar_year(Day day) { return date_of(day).year; }
int calendar_month(Day day) { return date_of(day).month; }
int calendar_day_of_month(Day day) { return date_of(day).day_of_month; }

const char *calendar_month_name(int month) {
    static const char *const NAME[MONTHS] = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                             "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
    assert(month >= 1 && month <= MONTHS);
    return NAME[month - 1];
}

Day calendar_add(Day day, int days) { return (Day){day.number + days}; }

int calendar_days_between(Day from, Day to) { return to.number - from.number; }

Day calendar_first_of_next_month(Day day) {
    const Date date = date_of(day);
    if (date.month == MONTHS)
        return (Day){number_of((Date){date.year + 1, 1, 1})};
    return (Day){number_of((Date){date.year, date.month + 1, 1})};
}
