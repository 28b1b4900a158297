/* The page of feeding the cattle or selling some. */
#include "outcome/ship_report.h"
#include "support/told_report.h"
#include "support/unit.h"
#include <math.h>

static const Report *shipped(Arena *arena, double saved, double later) {
    Herd *herd = ARENA_NEW(arena, Herd);
    HerdGroup *cows = ARENA_NEW(arena, HerdGroup);
    cows->name = "Cows";
    herd->groups = cows;
    herd->count = 1;
    HeadWorth *worth = ARENA_NEW(arena, HeadWorth);
    *worth = (HeadWorth){100.0, saved, 300.0, 149.0, 0};
    MovedDay *day = ARENA_NEW(arena, MovedDay);
    *day = (MovedDay){"Last feeding day", calendar_day(2027, 5, 15), -900.0, later};
    const Shipping shipping = {herd, calendar_day(2026, 12, 1), worth, day, 1};
    Report *report = report_new(arena, "Shipped");
    ship_report_add(report, &shipping);
    return report;
}

/* In a winter that is short all the dollars were dashes, and nothing said why. */
static void a_head_without_a_price_is_explained(void **state) {
    const char *const why = "feed that is not there has no price. `winterstack plan` says";
    assert_true(report_says(shipped(*state, (double)NAN, 1000.0), why));
    assert_true(report_says(shipped(*state, 250.0, (double)NAN), why));
    assert_false(report_says(shipped(*state, 250.0, 1000.0), why));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_head_without_a_price_is_explained),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
