#include "base/calendar.h"

#include "support/unit.h"

/* Known to any calendar: the epoch is day 0; 1 January 2000 is day 10957 (30 years, 7 leap
 * days); 1 January 1900 is day -25567 (70 years, 17 leap days). */
static void days_are_counted_from_1970(void **state) {
    (void)state;
    assert_int_equal(calendar_day(1970, 1, 1).number, 0);
    assert_int_equal(calendar_day(2000, 1, 1).number, 30 * 365 + 7);
    assert_int_equal(calendar_day(1900, 1, 1).number, -(70 * 365 + 17));
    assert_int_equal(calendar_day(2026, 11, 1).number, 20758); /* date -u -d 2026-11-01 +%s */
}

static void leap_years_are_gregorian(void **state) {
    (void)state;
    assert_true(calendar_is_date(2028, 2, 29));
    assert_false(calendar_is_date(2026, 2, 29));
    assert_true(calendar_is_date(2000, 2, 29));
    assert_false(calendar_is_date(1900, 2, 29));
    assert_false(calendar_is_date(2100, 2, 29));
}

static void only_days_there_are_are_dates(void **state) {
    (void)state;
    assert_true(calendar_is_date(1900, 1, 1));
    assert_true(calendar_is_date(2199, 12, 31));
    assert_false(calendar_is_date(1899, 12, 31));
    assert_false(calendar_is_date(2200, 1, 1));
    assert_false(calendar_is_date(2026, 0, 1));
    assert_false(calendar_is_date(2026, 13, 1));
    assert_false(calendar_is_date(2026, 4, 31));
    assert_false(calendar_is_date(2026, 4, 0));
    assert_false(calendar_is_date(-1, -1, -1));
}

static void every_day_follows_the_one_before(void **state) {
    (void)state;
    Day day = calendar_day(1900, 1, 1), first = day;
    int count = 0;
    for (int year = 1900; year <= 2199; year++) {
        for (int month = 1; month <= 12; month++) {
            for (int date = 1; calendar_is_date(year, month, date); date++) {
                assert_int_equal(calendar_day(year, month, date).number, day.number);
                assert_int_equal(calendar_year(day), year);
                assert_int_equal(calendar_month(day), month);
                assert_int_equal(calendar_day_of_month(day), date);
                day = calendar_add(day, 1);
                count++;
            }
        }
    }
    /* 300 years, every fourth a leap year but for 1900 and 2100 */
    assert_int_equal(count, 300 * 365 + 75 - 2);
    assert_int_equal(calendar_days_between(first, day), count);
    assert_int_equal(calendar_days_between(day, first), -count);
}

static void what_is_printed_is_read_back(void **state) {
    (void)state;
    for (int number = -25567; number < 84000; number += 13) {
        char text[CALENDAR_TEXT_BYTES];
        Day back;
        calendar_print((Day){number}, text);
        assert_true(calendar_parse(text, &back));
        assert_int_equal(back.number, number);
    }
    char text[CALENDAR_TEXT_BYTES];
    calendar_print(calendar_day(2027, 3, 5), text);
    assert_string_equal(text, "2027-03-05");
}

static void only_the_iso_form_is_read(void **state) {
    (void)state;
    static const char *const OTHERS[] = {
        "",           "2026",       "2026-11",     "2026-11-1",   "2026-1-01",   "2026/11/01",
        "11/01/2026", "20261101",   " 2026-11-01", "2026-11-01 ", "2026-11-01x", "-026-11-01",
        "2026-13-01", "2026-02-30", "2026-00-10",  "2026-10-00",  "1899-12-31",  "2200-01-01",
        "Nov 1 2026", "2026-11-0a", "+026-11-01",  "2026--1-01",
    };
    for (size_t i = 0; i < sizeof OTHERS / sizeof OTHERS[0]; i++) {
        Day day = {4711};
        assert_false(calendar_parse(OTHERS[i], &day));
        assert_int_equal(day.number, 4711);
    }
}

static void the_next_month_begins_on_its_first(void **state) {
    (void)state;
    const Day december = calendar_first_of_next_month(calendar_day(2026, 11, 30));
    assert_int_equal(december.number, calendar_day(2026, 12, 1).number);
    const Day january = calendar_first_of_next_month(december);
    assert_int_equal(january.number, calendar_day(2027, 1, 1).number);
    /* past the last date that can be written, reckoning goes on */
    const Day beyond = calendar_first_of_next_month(calendar_day(2199, 12, 15));
    assert_int_equal(calendar_days_between(calendar_day(2199, 12, 15), beyond), 17);
}

static void months_have_short_names(void **state) {
    (void)state;
    assert_string_equal(calendar_month_name(1), "Jan");
    assert_string_equal(calendar_month_name(12), "Dec");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(days_are_counted_from_1970),
        cmocka_unit_test(leap_years_are_gregorian),
        cmocka_unit_test(only_days_there_are_are_dates),
        cmocka_unit_test(every_day_follows_the_one_before),
        cmocka_unit_test(what_is_printed_is_read_back),
        cmocka_unit_test(only_the_iso_form_is_read),
        cmocka_unit_test(the_next_month_begins_on_its_first),
        cmocka_unit_test(months_have_short_names),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
