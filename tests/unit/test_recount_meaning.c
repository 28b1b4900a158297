/* What a recount may mean, worked by hand on bales of 500 kg that lose nothing. */
#include "stock/recount_meaning.h"

#include "support/record_yard.h"

static bool meaning_of(Arena *arena, const char *fed, const char *counts, int stack,
                       RecountMeaning *meaning) {
    const Farm *farm = record_farm(arena, fed, counts, NULL);
    return recount_meaning(&farm->inventory, &farm->record, stack, calendar_day(2027, 3, 1),
                           meaning);
}

/* 11,000 kg off the mixer's scale were 20 bales: 550 kg each. */
static void weights_fed_and_bales_left_tell_what_a_bale_weighs(void **state) {
    RecountMeaning meaning;
    assert_true(meaning_of(*state, FED_HEADING "2026-11-20,Cows,Hay,11,tonnes,,1\n",
                           COUNTS_HEADING "2026-12-01,Hay,80,bales,,2\n", HAY, &meaning));
    assert_near(meaning.off_kg, -1000, 1e-6); /* 39,000 by the record, 40,000 counted */
    assert_near(meaning.weight_times, 1.1, 1e-9);
    assert_near(meaning.new_written, 550, 1e-9);
}

/* 60 bales are left, and a truck weighs them: 27,000 kg, 450 kg each. */
static void bales_fed_and_a_weight_left_tell_it_too(void **state) {
    RecountMeaning meaning;
    assert_true(meaning_of(*state, FED_HEADING "2026-11-20,Cows,Hay,40,bales,,1\n",
                           COUNTS_HEADING "2026-12-01,Hay,27000,kg,,2\n", HAY, &meaning));
    assert_near(meaning.off_kg, 3000, 1e-6);
    assert_near(meaning.new_written, 450, 1e-9);
}

/* 200 t in the pit, 60 t fed off the scale, 120 t left: there were 180 t. */
static void a_pit_tells_its_own_weight(void **state) {
    RecountMeaning meaning;
    assert_true(meaning_of(*state, FED_HEADING "2026-11-20,Cows,Pit,60,tonnes,,1\n",
                           COUNTS_HEADING "2026-12-01,Pit,120,tonnes,,2\n", PIT, &meaning));
    assert_near(meaning.weight_times, 0.9, 1e-9);
    assert_near(meaning.new_written, 180, 1e-9); /* of total_tonnes */
    /* 80 t went out where the record says 60 eaten, with no waste reckoned */
    assert_near(meaning.waste_share, 0.25, 1e-9);
}

/* 20 % of 10 t is wasted, so 8 t are eaten; if 12.5 t went out, 36 % was wasted. */
static void where_all_is_in_bales_bales_or_waste_are_off_and_no_weight(void **state) {
    RecountMeaning meaning;
    assert_true(meaning_of(*state, FED_HEADING "2026-11-20,Cows,Hay,20,bales,,1\n",
                           COUNTS_HEADING "2026-12-01,Hay,75,bales,,2\n", HAY, &meaning));
    assert_near(meaning.bales_off, 5, 1e-9);
    assert_near(meaning.waste_share, 0.36, 1e-9);
    assert_true(isnan(meaning.weight_times) && isnan(meaning.new_written));
}

static void a_count_that_agrees_means_nothing(void **state) {
    RecountMeaning meaning;
    assert_false(meaning_of(*state, FED_HEADING "2026-11-20,Cows,Hay,20,bales,,1\n",
                            COUNTS_HEADING "2026-12-01,Hay,80,bales,,2\n", HAY, &meaning));
    assert_false(meaning_of(*state, NULL, NULL, HAY, &meaning));
}

/* The second count starts from the first, and says nothing of stacks.csv. */
static void only_a_first_count_tells_a_weight(void **state) {
    RecountMeaning meaning;
    assert_true(meaning_of(*state, FED_HEADING "2026-11-20,Cows,Hay,10,tonnes,,1\n",
                           COUNTS_HEADING "2026-12-01,Hay,80,bales,,2\n"
                                          "2026-12-20,Hay,70,bales,,3\n",
                           HAY, &meaning));
    assert_near(meaning.off_kg, 5000, 1e-6);
    assert_true(isnan(meaning.weight_times) && isnan(meaning.bales_off));
    assert_true(isnan(meaning.waste_share));
}

static void a_stack_put_up_and_weighed_alike_may_be_off_alike(void **state) {
    const Farm *farm = record_farm(*state, NULL, NULL, NULL);
    assert_true(measured_alike(&farm->inventory, &farm->record, HAY, LOFT));
    assert_false(measured_alike(&farm->inventory, &farm->record, HAY, PIT));
    assert_false(measured_alike(&farm->inventory, &farm->record, HAY, HAY));
    const Farm *counted =
        record_farm(*state, NULL, COUNTS_HEADING "2026-12-01,Loft,80,bales,,2\n", NULL);
    assert_false(measured_alike(&counted->inventory, &counted->record, HAY, LOFT));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(weights_fed_and_bales_left_tell_what_a_bale_weighs),
        UNIT_TEST(bales_fed_and_a_weight_left_tell_it_too),
        UNIT_TEST(a_pit_tells_its_own_weight),
        UNIT_TEST(where_all_is_in_bales_bales_or_waste_are_off_and_no_weight),
        UNIT_TEST(a_count_that_agrees_means_nothing),
        UNIT_TEST(only_a_first_count_tells_a_weight),
        UNIT_TEST(a_stack_put_up_and_weighed_alike_may_be_off_alike),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
