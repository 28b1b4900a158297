/* A whole farm, from the bytes of its files. */
#include "entry/farm_reading.h"
#include "planner/plan_question.h"
#include "support/unit.h"
#include <string.h>

static const char *const GOOD[FARM_FILE_COUNT] = {
    [FARM_HERD] = "group,class,head,weight_kg,calving_start,calving_end,delivery\n"
                  "Cows,cow,40,600,2027-03-20,2027-05-10,mixed\n",
    [FARM_STACKS] = "stack,kind,feed,cut_date,storage,feeding,value_per_tonne,total_tonnes\n"
                    "Hay,round bales,oat greenfeed,2026-08-01,net wrap rows,unrolled,90,150\n",
    [FARM_FEED_TESTS] = "stack,basis,moisture_pct,adf_pct\nHay,dry matter,12,37\n",
    [FARM_FOR_SALE] = "feed_for_sale,feed,feeding,price_per_tonne\n"
                      "Barley,barley grain,bunk,270\n",
    [FARM_WINTER] = "setting,value\nfirst_day,2026-11-01\nlast_day,2027-05-15\n",
    [FARM_WEATHER] = "month,mean_temperature_c\n1,-18\n",
    [FARM_NEEDS] = "group,need,from,value,unit\nCows,calcium,2027-01-01,30,g\n",
};

static FarmRequest request_of(const char *const files[FARM_FILE_COUNT]) {
    FarmRequest request;
    memset(&request, 0, sizeof request);
    for (int file = 0; file < FARM_FILE_COUNT; file++) {
        request.file[file].name = file == FARM_HERD ? "herd.csv" : FARM_FILE_NAME[file];
        request.file[file].bytes = files[file];
        request.file[file].length = files[file] ? strlen(files[file]) : 0;
    }
    return request;
}

/* The good farm but for one file; NULL: it has none. */
static FarmRequest farm_but(FarmFile file, const char *bytes) {
    const char *files[FARM_FILE_COUNT];
    memcpy(files, GOOD, sizeof files);
    files[file] = bytes;
    return request_of(files);
}

static const char *told(Arena *arena, const FarmRequest *request, bool is_readable) {
    Faults faults = faults_new(arena);
    Farm farm;
    assert_int_equal(farm_read(arena, &faults, request, &farm), is_readable);
    return unit_faults(&faults, arena);
}

static void a_good_farm_is_read_without_a_word(void **state) {
    const FarmRequest request = request_of(GOOD);
    Faults faults = faults_new(*state);
    Farm farm;
    assert_true(farm_read(*state, &faults, &request, &farm));
    assert_string_equal(unit_faults(&faults, *state), "");
    assert_int_equal(farm.herd.count, 1);
    assert_int_equal(farm.inventory.stacks.count, 1);
    assert_int_equal(farm.inventory.for_sale.count, 1);
    assert_int_equal(farm.inventory.tests.count, 1);
    assert_true(farm.weather.month[1].is_users);
    assert_true(farm.limits.count > 40 && farm.book->count > 60);
    assert_int_equal(farm.inventory.stacks.stacks[0].feed.sample_count, 1);
}

static void all_but_the_herd_the_stacks_and_the_winter_may_be_left_out(void **state) {
    for (int file = 0; file < FARM_FILE_COUNT; file++) {
        const FarmRequest request = farm_but((FarmFile)file, NULL);
        const char *said = told(*state, &request, !FARM_FILE_NEEDED[file]);
        /* whoever opens the files says that one is missing; nothing else goes wrong for it */
        assert_string_equal(said, "");
    }
}

static void an_empty_file_is_told_and_nothing_else_for_it(void **state) {
    for (int file = 0; file < FARM_FILE_COUNT; file++) {
        const FarmRequest request = farm_but((FarmFile)file, "");
        if (file == FARM_LAST_PLAN)
            continue; /* the program's own: done without, with a doubt (test_stock_report.c) */
        assert_string_equal(told(*state, &request, false),
                            arena_print(*state,
                                        "%s: the file is empty: its first line has to be the "
                                        "headings\n",
                                        request.file[file].name));
    }
}

static void an_empty_delivery_that_keeps_a_risky_stack_from_cattle_is_doubted(void **state) {
    const FarmRequest request =
        farm_but(FARM_HERD, "group,class,head,weight_kg,calving_start,calving_end\n"
                            "Cows,cow,40,600,2027-03-20,2027-05-10\n");
    assert_non_null(
        strstr(told(*state, &request, true),
               "herd.csv:2:1: doubt: delivery: is empty for 'Cows' and taken as free "
               "choice, which keeps 'Hay'"));
}

/* 30 g of calcium from 17 January: a period begins on that day, the ones before are by the
 * equations. */
static void
a_figure_of_its_own_starts_a_period_and_leaves_the_equations_beside_it(void **state) {
    FarmRequest request =
        farm_but(FARM_NEEDS, "group,need,from,value,unit\nCows,calcium,2027-01-17,30,g\n");
    Faults faults = faults_new(*state);
    Farm farm;
    assert_true(farm_read(*state, &faults, &request, &farm));
    const PlanQuestion question = plan_question(*state, &farm);
    const Day start = calendar_day(2027, 1, 17);
    bool begins = false;
    for (int b = 0; b < question.block_count; b++) {
        const PlanBlock *block = &question.blocks[b];
        const bool is_before = calendar_days_between(block->to, start) > 0;
        begins |= calendar_days_between(block->from, start) == 0;
        assert_near(block->need.calcium.g_per_day,
                    is_before ? block->by_equations.calcium.g_per_day : 30.0, 0.0);
    }
    assert_true(begins);
}

static void what_is_asked_on_the_command_line_wins_over_the_winters_settings(void **state) {
    FarmRequest request = farm_but(FARM_WINTER, "setting,value\nfirst_day,2026-11-01\n"
                                                "last_day,2027-05-15\ncold,model\n");
    Faults faults = faults_new(*state);
    Farm farm;
    assert_true(farm_read(*state, &faults, &request, &farm));
    assert_int_equal(farm.weather.cold_way, COLD_BY_MODEL);
    assert_int_equal(farm.winter.needs_way, NEEDS_BY_EQUATIONS);
    request.cold_way_was_asked = request.needs_way_was_asked = true;
    request.cold_way = COLD_BY_TABLE;
    request.needs_way = NEEDS_BY_TABLE;
    assert_true(farm_read(*state, &faults, &request, &farm));
    assert_int_equal(farm.weather.cold_way, COLD_BY_TABLE);
    const PlanQuestion question = plan_question(*state, &farm);
    assert_true(question.blocks[0].need.follows_table);
    assert_near(requirement_nem(&question.blocks[0].need).mcal_per_day,
                question.blocks[0].by_table.nem.mcal_per_day, 1e-9);
}

/* A steer has no line in the table, so its gain is still a need of its own. */
static void by_the_table_a_gain_is_not_counted_twice(void **state) {
    const char *files[FARM_FILE_COUNT];
    memcpy(files, GOOD, sizeof files);
    files[FARM_HERD] = "group,class,head,weight_kg,mature_weight_kg,gain_kg_per_day,delivery\n"
                       "Heifers,replacement heifer,40,260,620,0.6,mixed\n"
                       "Steers,steer,40,260,620,0.6,mixed\n";
    files[FARM_NEEDS] = "group,need,value,unit\nHeifers,net_energy_gain,2,Mcal\n"
                        "Steers,net_energy_gain,2,Mcal\n";
    FarmRequest request = request_of(files);
    assert_string_equal(told(*state, &request, true), "");
    request.needs_way_was_asked = true;
    request.needs_way = NEEDS_BY_TABLE;
    assert_string_equal(told(*state, &request, false),
                        "needs.csv:2:9: need: by the published table the gain of a replacement "
                        "heifer is in net_energy_maintenance already; give both there in one "
                        "figure, or leave requirements to the equations\n");
}

static void two_mistakes_in_one_file_and_one_in_another_are_told_in_one_run(void **state) {
    const char *files[FARM_FILE_COUNT];
    memcpy(files, GOOD, sizeof files);
    files[FARM_STACKS] =
        "stack,kind,feed,cut_date,storage,feeding,value_per_tonne,total_tonnes\n"
        "Hay,round bales,oat greenfeed,2026-08-01,net wrap rows,unrolld,90,150\n"
        "Pit,pit,barley silage,2026-08-01,covered pit,bunk,55,-300\n";
    files[FARM_HERD] = "group,class,head,weight_kg,calving_start,calving_end,delivery\n"
                       "Cows,cow,3.5,600,2027-03-20,2027-05-10,mixed\n";
    const FarmRequest request = request_of(files);
    assert_string_equal(told(*state, &request, false),
                        "stacks.csv:2:56: feeding: 'unrolld' is not known; did you mean "
                        "'unrolled'?\n"
                        "stacks.csv:3:54: total_tonnes: -300 is outside 0 to 20000\n"
                        "herd.csv:2:10: head: '3.5' is not a whole number\n");
}

static void a_mistake_in_every_file_is_told_in_one_run(void **state) {
    const char *const files[FARM_FILE_COUNT] = {
        [FARM_HERD] = "group,class,head,weight_kg\nCows,bull,-2,900\n",
        [FARM_STACKS] = "stack,kind,feed,storage,feeding,value_per_tonne,total_tonnes\n"
                        "Hay,round bales,oat greenfeed,net wrap rows,unrolled,0,150\n",
        [FARM_FEED_TESTS] = "stack,basis,moisture_pct\nHey,dry matter,12\n",
        [FARM_FOR_SALE] =
            "feed_for_sale,feed,feeding,price_per_tonne\nHAY,barley grain,bunk,270\n",
        [FARM_WINTER] = "setting,value\nfirst_day,2027-11-01\nlast_day,2027-05-15\n",
        [FARM_WEATHER] = "month,mean_temperature_c\n13,-18\n",
        [FARM_NEEDS] = "group,need,value,unit\nCows,calcum,30,g\n",
    };
    const FarmRequest request = request_of(files);
    const char *said = told(*state, &request, false);
    static const char *const EACH[] = {
        "winter.csv:3:10: last_day: 2027-05-15 is not after first_day",
        "weather.csv:2:1: month: 13",
        "feed-tests.csv:2:1: stack: no stack or feed for sale is named 'Hey'",
        "stacks.csv:2:54: value_per_tonne: 0 would make it free",
        "for-sale.csv:2:1: feed_for_sale: 'HAY' is already",
        "herd.csv:2:11: head: -2 is outside",
        "needs.csv:2:6: need: 'calcum' is not known"};
    for (size_t i = 0; i < sizeof EACH / sizeof EACH[0]; i++) {
        if (!strstr(said, EACH[i]))
            print_error("not told: %s\nof:\n%s", EACH[i], said);
        assert_non_null(strstr(said, EACH[i]));
    }
}

static void a_winter_that_cannot_be_read_makes_no_other_file_wrong(void **state) {
    static const char *const WINTERS[] = {
        NULL, "setting,value\nlast_day,2027-05-15\n",
        "setting,value\nfirst_day,2026-11-31\nlast_day,2027-05-15\n",
        "setting,value\nfirst_day,2027-05-15\nlast_day,2026-11-01\n"};
    for (size_t i = 0; i < sizeof WINTERS / sizeof WINTERS[0]; i++) {
        const FarmRequest request = farm_but(FARM_WINTER, WINTERS[i]);
        const char *said = told(*state, &request, false);
        const char *end = strchr(said, '\n');
        assert_true(!end || end[1] == '\0'); /* one line, of winter.csv, or none */
        assert_true(said[0] == '\0' || strncmp(said, "winter.csv", 10) == 0);
    }
}

static void without_a_stack_and_an_offer_there_is_nothing_to_feed(void **state) {
    const char *files[FARM_FILE_COUNT];
    memcpy(files, GOOD, sizeof files);
    files[FARM_STACKS] = "stack,kind,feed,storage,feeding,value_per_tonne,total_tonnes\n";
    files[FARM_FEED_TESTS] = NULL;
    FarmRequest request = request_of(files);
    assert_string_equal(told(*state, &request, true), ""); /* barley is for sale */
    files[FARM_FOR_SALE] = NULL;
    request = request_of(files);
    assert_string_equal(
        told(*state, &request, false),
        "stacks.csv: has no stack, and nothing is for sale: there is nothing to "
        "feed\n");
}

static void a_doubt_does_not_keep_a_farm_from_being_read(void **state) {
    const FarmRequest request =
        farm_but(FARM_HERD, "group,class,head,weight_kg\nCows,cow,40,600\n");
    const char *said = told(*state, &request, true);
    assert_non_null(strstr(said, "herd.csv:2: doubt: calving_start: is empty"));
}

static void a_workbook_and_a_text_of_another_encoding_are_told_how_to_be_saved(void **state) {
    FarmRequest request = farm_but(FARM_STACKS, "PK\x03\x04 and so on");
    assert_non_null(strstr(told(*state, &request, false), "save the sheet as \"CSV UTF-8\""));
    request = farm_but(FARM_HERD, "\xFF\xFEg");
    assert_non_null(strstr(told(*state, &request, false), "save the sheet as \"CSV UTF-8\""));
    request = farm_but(FARM_FOR_SALE, "feed_for_sale\nB\xE9\n");
    assert_non_null(strstr(told(*state, &request, false), "for-sale.csv:2:2: "));
}

/* ---- rules of the yard ---- */

static void a_rule_with_nothing_to_hold_is_doubted(void **state) {
    const FarmRequest request =
        farm_but(FARM_WINTER, "setting,value\nfirst_day,2026-11-01\nlast_day,2027-05-15\n"
                              "whole_loads,yes\nwhole_bales,yes\none_face_open,yes\n");
    assert_string_equal(
        told(*state, &request, true),
        "for-sale.csv:2:1: doubt: whole_loads is asked for, but no load is given for 'Barley': "
        "any amount of it can be bought\n"
        "winter.csv:5:13: doubt: whole_bales: no stack has its bales counted\n"
        "winter.csv:6:15: doubt: one_face_open: there is no pit, bag or bale tube\n");
}

static void a_group_in_a_yard_without_a_stack_is_doubted(void **state) {
    const char *files[FARM_FILE_COUNT];
    memcpy(files, GOOD, sizeof files);
    files[FARM_STACKS] =
        "stack,kind,feed,cut_date,storage,feeding,value_per_tonne,total_tonnes,yard,"
        "haul_to_other_yard_per_tonne\n"
        "Hay,round bales,oat greenfeed,2026-08-01,net wrap rows,unrolled,90,150,Home "
        "quarter,5\n";
    files[FARM_HERD] = "group,class,head,weight_kg,calving_start,calving_end,delivery,yard\n"
                       "Cows,cow,40,600,2027-03-20,2027-05-10,mixed,Home qarter\n"
                       "Others,cow,40,600,2027-03-20,2027-05-10,mixed,\n";
    const FarmRequest request = request_of(files);
    const char *said = told(*state, &request, true);
    assert_non_null(strstr(said, "herd.csv:2:1: doubt: yard: no stack lies in 'Home qarter'"));
    assert_non_null(strstr(said, "Home quarter"));
    assert_non_null(strstr(said, "herd.csv:3:1: doubt: yard: is empty for 'Others'"));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_good_farm_is_read_without_a_word),
        UNIT_TEST(all_but_the_herd_the_stacks_and_the_winter_may_be_left_out),
        UNIT_TEST(an_empty_file_is_told_and_nothing_else_for_it),
        UNIT_TEST(an_empty_delivery_that_keeps_a_risky_stack_from_cattle_is_doubted),
        UNIT_TEST(a_figure_of_its_own_starts_a_period_and_leaves_the_equations_beside_it),
        UNIT_TEST(what_is_asked_on_the_command_line_wins_over_the_winters_settings),
        UNIT_TEST(by_the_table_a_gain_is_not_counted_twice),
        UNIT_TEST(two_mistakes_in_one_file_and_one_in_another_are_told_in_one_run),
        UNIT_TEST(a_mistake_in_every_file_is_told_in_one_run),
        UNIT_TEST(a_winter_that_cannot_be_read_makes_no_other_file_wrong),
        UNIT_TEST(without_a_stack_and_an_offer_there_is_nothing_to_feed),
        UNIT_TEST(a_doubt_does_not_keep_a_farm_from_being_read),
        UNIT_TEST(a_workbook_and_a_text_of_another_encoding_are_told_how_to_be_saved),
        UNIT_TEST(a_rule_with_nothing_to_hold_is_doubted),
        UNIT_TEST(a_group_in_a_yard_without_a_stack_is_doubted),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
