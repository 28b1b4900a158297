/* The farms the other laws are tried on: read without a fault, and the same every time. */
#include "entry/farm_reading.h"
#include "planner/plan_question.h"
#include "support/farm_maker.h"
#include "support/unit.h"
#include <string.h>

static const FarmSize SMALL = {3, 5, 4, 100, false};
static const FarmSize GENEROUS = {4, 4, 7, 100, true};

static void assert_reads(const FarmRequest *request, unsigned long long seed, Farm *farm,
                         Arena *arena) {
    Faults faults = faults_new(arena);
    if (farm_read(arena, &faults, request, farm))
        return;
    print_error("seed %llu:\n%s", seed, unit_faults(&faults, arena));
    fail();
}

static void five_hundred_farms_are_read_without_a_fault(void **state) {
    (void)state;
    for (unsigned long long seed = 1; seed <= 500; seed++) {
        Arena *arena = arena_open();
        FarmRequest request;
        Farm farm;
        farm_made(arena, seed, seed % 2 == 0 ? SMALL : GENEROUS, &request);
        assert_reads(&request, seed, &farm, arena);
        arena_close(arena);
    }
}

static void the_same_seed_writes_the_same_farm_and_another_seed_another(void **state) {
    FarmRequest once, again, other;
    farm_made(*state, 7, SMALL, &once);
    farm_made(*state, 7, SMALL, &again);
    farm_made(*state, 8, SMALL, &other);
    for (int file = 0; file < FARM_FILE_COUNT; file++) {
        assert_int_equal(once.file[file].length, again.file[file].length);
        if (once.file[file].bytes)
            assert_string_equal(once.file[file].bytes, again.file[file].bytes);
    }
    assert_string_not_equal(once.file[FARM_HERD].bytes, other.file[FARM_HERD].bytes);
}

/* Else the laws would not be tried on them. */
static void
among_two_hundred_farms_every_way_and_every_kind_of_own_figure_is_met(void **state) {
    (void)state;
    int by_way[2] = {0}, by_cold[2] = {0}, by_form[3] = {0};
    int of_kind[NEED_CONCENTRATION + 1] = {0};
    int in_part = 0;
    for (unsigned long long seed = 1; seed <= 200; seed++) {
        Arena *arena = arena_open();
        FarmRequest request;
        Farm farm;
        farm_made(arena, seed, SMALL, &request);
        assert_reads(&request, seed, &farm, arena);
        by_way[farm.winter.needs_way]++;
        by_cold[farm.weather.cold_way]++;
        by_form[farm.winter.microbial_form]++;
        for (int i = 0; i < farm.own_needs.count; i++) {
            of_kind[farm.own_needs.needs[i].kind]++;
            in_part += farm.own_needs.needs[i].has_from;
        }
        arena_close(arena);
    }
    for (int i = 0; i < 2; i++)
        assert_true(by_way[i] >= 40 && by_cold[i] >= 40);
    for (int i = 0; i < 3; i++)
        assert_true(by_form[i] >= 30);
    for (int i = 0; i <= NEED_CONCENTRATION; i++)
        assert_true(of_kind[i] >= 5);
    assert_true(in_part >= 50);
}

/* The widths that farm_maker.h promises, over ten seeds. */
static void the_presets_have_the_blocks_and_feeds_they_promise(void **state) {
    (void)state;
    static const int GROUPS[] = {4, 8, 40};
    static const int FEEDS[] = {12, 40, 60};
    static const int PERIODS[] = {26, 26, 52};
    for (unsigned long long seed = 1; seed <= 10; seed++) {
        for (int preset = FARM_S; preset <= FARM_L; preset++) {
            Arena *arena = arena_open();
            FarmRequest request;
            Farm farm;
            farm_made_of_size(arena, seed, (FarmPreset)preset, &request);
            assert_reads(&request, seed, &farm, arena);
            const PlanQuestion question = plan_question(arena, &farm);
            assert_int_equal(question.feed_count, FEEDS[preset]);
            assert_int_equal(farm.herd.count, GROUPS[preset]);
            const int least = PERIODS[preset] * GROUPS[preset];
            const int most = (PERIODS[preset] + 5) * GROUPS[preset]; /* calving, weaning ... */
            if (question.block_count < least || question.block_count > most) {
                print_error("seed %llu: %d blocks\n", seed, question.block_count);
                fail();
            }
            arena_close(arena);
        }
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(five_hundred_farms_are_read_without_a_fault),
        UNIT_TEST(the_same_seed_writes_the_same_farm_and_another_seed_another),
        UNIT_TEST(among_two_hundred_farms_every_way_and_every_kind_of_own_figure_is_met),
        UNIT_TEST(the_presets_have_the_blocks_and_feeds_they_promise),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
