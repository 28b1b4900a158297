/* A day as a number. No clock: "today" always comes from whoever asks. */
#ifndef BASE_CALENDAR_H
#define BASE_CALENDAR_H

#include <stdbool.h>

typedef struct {
    int number; /* days since 1 January 1970, Gregorian */
} Day;

#define CALENDAR_TEXT_BYTES 11 /* "2026-11-01" and its end */

/* The year is 1900 to 2199; anything else never becomes a Day. */
Day calendar_day(int year, int month, int day_of_month);
bool calendar_is_date(int year, int month, int day_of_month);

/* Reads exactly "YYYY-MM-DD" (the whole text); false leaves *day alone. */
bool calendar_parse(const char *text, Day *day);

/* Writes "YYYY-MM-DD". */
void calendar_print(Day day, char text[CALENDAR_TEXT_BYTES]);

int calendar_year(Day day);
int calendar_month(Day day);                /* 1 to 12 */
int calendar_day_of_month(Day day);         /* 1 to 31 */
const char *calendar_month_name(int month); /* "Jan" to "Dec" */

Day calendar_add(Day day, int days);
int calendar_days_between(Day from, Day to); /* to - from; negative when `to` is earlier */
Day calendar_first_of_next_month(Day day);

#endif
