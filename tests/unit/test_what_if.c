/* What-ifs on a farm small enough to see all of it. */
#include "entry/future.h"

#include "support/unit.h"
#include <string.h>

static const char *const FILES[FARM_FILE_COUNT] = {
    [FARM_HERD] = "group,class,head,weight_kg,delivery\n"
                  "Cows,cow,40,620,mixed\n"
                  "Bulls,bull,2,900,mixed\n",
    [FARM_STACKS] =
        "stack,kind,feed,count,bale_weight_kg,storage,feeding,value_per_tonne\n"
        "Hay,round bales,alfalfa grass hay average,300,600,net wrap rows,unrolled,120\n"
        "Straw,round bales,barley straw,80,500,net wrap rows,processed,60\n",
    [FARM_FEED_TESTS] = "stack,sample,basis,moisture_pct,crude_protein_pct,adf_pct\n"
                        "Hay,T1,dry matter,12,13.5,35\n"
                        "Hay,T2,dry matter,13,14.0,34\n"
                        "Straw,T3,dry matter,10,4.5,50\n",
    [FARM_FOR_SALE] = "feed_for_sale,feed,price_per_tonne,feeding\n"
                      "Barley,barley grain,260,bunk\n"
                      "Mineral,mineral 2:1,2000,bunk\n",
    [FARM_WINTER] = "setting,value\nfirst_day,2026-11-01\nlast_day,2027-03-31\n",
    [FARM_NEEDS] = "group,need,value,unit\nBulls,calcium,20,g\n",
};
static const char *const NAMES[FARM_FILE_COUNT] = {
    "herds/ours.csv",  "yard/stacks.csv",  "yard/feed-tests.csv", "yard/for-sale.csv",
    "yard/winter.csv", "yard/weather.csv", "yard/needs.csv",      "yard/fields.csv"};

static FarmRequest a_request(void) {
    FarmRequest request;
    memset(&request, 0, sizeof request);
    for (int file = 0; file < FARM_FILE_COUNT; file++)
        request.file[file] =
            (FileBytes){NAMES[file], FILES[file], FILES[file] ? strlen(FILES[file]) : 0};
    return request;
}

typedef struct {
    bool is_readable;
    WhatIf what_if;
    Farm farm;
    const char *told;
} Tried;

#define HEADINGS "file,row,column,value,change\n"

static Tried tried(Arena *arena, const char *bytes) {
    const FarmRequest request = a_request();
    const FileBytes file = {"what-ifs/sell-and-buy.csv", bytes, strlen(bytes)};
    Faults faults = faults_new(arena);
    Tried of = {.is_readable = false};
    if (what_if_parse(arena, &faults, &file, request.file[FARM_HERD].name, &of.what_if))
        of.is_readable = future_read(arena, &faults, &request, file.name, of.what_if.changes,
                                     of.what_if.count, &of.farm);
    of.told = unit_faults(&faults, arena);
    return of;
}

static Tried read_well(Arena *arena, const char *bytes) {
    const Tried of = tried(arena, bytes);
    assert_string_equal(of.told, "");
    assert_true(of.is_readable);
    return of;
}

static void assert_told_first(Arena *arena, const char *bytes, const char *told) {
    const Tried of = tried(arena, bytes);
    assert_false(of.is_readable);
    if (strncmp(of.told, told, strlen(told)) != 0)
        fail_msg("%s is not\n%s", of.told, told);
}

static void a_cell_is_set_whatever_the_file_and_heading_are_called(void **state) {
    const Tried of = read_well(*state, HEADINGS "stacks,Hay,Count,250,\n"
                                                "stacks.csv,straw,bale weight (kg),450,set\n"
                                                "ours,Cows,head,35,\n"
                                                "herd,Bulls,head,3,\n");
    assert_near(of.farm.inventory.stacks.stacks[0].bale_count, 250.0, 0.0);
    assert_near(of.farm.inventory.stacks.stacks[1].counted_kg, 80.0 * 450.0, 1e-6);
    assert_near(of.farm.herd.groups[0].head, 35.0, 0.0);
    assert_near(of.farm.herd.groups[1].head, 3.0, 0.0);
}

static void the_name_of_a_future_is_that_of_its_file(void **state) {
    assert_string_equal(read_well(*state, HEADINGS "stacks,Hay,count,250,\n").what_if.name,
                        "sell and buy");
}

static void a_setting_is_changed_or_set_where_it_was_left_out(void **state) {
    const Tried of = read_well(*state, HEADINGS "winter,last_day,,2027-04-10,\n"
                                                "winter,yardage_per_head_day,value,1.25,\n");
    assert_int_equal(of.farm.winter.last_day.number, calendar_day(2027, 4, 10).number);
    assert_near(of.farm.winter.yardage_per_head_day, 1.25, 0.0);
}

static void a_column_the_file_does_not_have_is_added(void **state) {
    const Tried of = read_well(*state, HEADINGS "stacks,Hay,use_until,2027-02-28,\n");
    assert_int_equal(of.farm.inventory.stacks.stacks[0].allowance.until.number,
                     calendar_day(2027, 2, 28).number);
    assert_int_equal(of.farm.inventory.stacks.stacks[1].allowance.until.number,
                     calendar_day(2027, 3, 31).number);
}

static void rows_are_added_and_copied(void **state) {
    const Tried of = read_well(*state, HEADINGS "stacks,Hay,,Second hay,copy\n"
                                                "stacks,Second hay,count,50,\n"
                                                "for-sale,Oats,feed,oat grain,add\n"
                                                "for-sale,Oats,price_per_tonne,240,\n"
                                                "for-sale,Oats,feeding,bunk,\n");
    assert_int_equal(of.farm.inventory.stacks.count, 3);
    assert_near(of.farm.inventory.stacks.stacks[2].counted_kg, 50.0 * 600.0, 1e-6);
    assert_int_equal(of.farm.inventory.for_sale.count, 3);
    assert_near(of.farm.inventory.for_sale.offers[2].price_per_kg, 0.24, 1e-12);
}

static void with_a_stack_go_its_tests_and_with_a_group_its_figures(void **state) {
    const Tried of = read_well(*state, HEADINGS "stacks,Straw,,,remove\nherd,Bulls,,,remove\n");
    assert_int_equal(of.farm.inventory.stacks.count, 1);
    assert_int_equal(of.farm.inventory.tests.count, 2);
    assert_int_equal(of.farm.herd.count, 1);
    assert_int_equal(of.farm.own_needs.count, 0);
}

static void of_several_rows_one_is_told_by_another_of_its_cells(void **state) {
    assert_near(read_well(*state, HEADINGS "feed-tests,Hay|T2,crude_protein_pct,10,\n"
                                           "feed-tests,T1,crude_protein_pct,10,\n")
                    .farm.inventory.stacks.stacks[0]
                    .feed.analysis.of[NUTRIENT_CRUDE_PROTEIN]
                    .value,
                10.0, 1e-9);
    assert_told_first(
        *state, HEADINGS "feed-tests,Hay,crude_protein_pct,10,\n",
        "what-ifs/sell-and-buy.csv:2:12: row: 2 rows of feed-tests.csv are 'Hay'; "
        "add what stands in another cell of the one you mean, as in 'Hay|T1'\n");
}

static void money_beside_the_plan_is_added_up(void **state) {
    const Tried of = read_well(*state, HEADINGS "cost,Baling,,700,\n"
                                                "cost,Two cows sold,,-3800,\n");
    assert_near(of.what_if.own_cost, -3100.0, 0.0);
    assert_string_equal(of.what_if.cost_words, "Baling; Two cows sold");
}

static void what_is_not_there_is_told_with_what_is_near(void **state) {
    assert_told_first(*state, HEADINGS "stakcs,Hay,count,9,\n",
                      "what-ifs/sell-and-buy.csv:2:1: file: no file of a farm is called "
                      "'stakcs'; did you mean 'stacks'?\n");
    assert_told_first(*state, HEADINGS "stacks,Strow,count,9,\n",
                      "what-ifs/sell-and-buy.csv:2:8: row: stacks.csv has no row 'Strow'; did "
                      "you mean 'Straw'?\n");
    assert_told_first(*state, HEADINGS "stacks,Hay,cuont,9,\n",
                      "what-ifs/sell-and-buy.csv:2:12: in stacks.csv, 'cuont' is not a heading "
                      "of this file; did you mean 'count'?\n");
    assert_told_first(
        *state, HEADINGS "winter,last_dya,,2027-04-10,\n",
        "what-ifs/sell-and-buy.csv:2:8: in winter.csv, setting: 'last_dya' is not "
        "known; did you mean 'last_day'?\n");
}

static void another_unit_than_the_file_has_is_a_fault_with_the_ratio(void **state) {
    assert_told_first(*state, HEADINGS "stacks,Hay,bale_weight_lb,1300,\n",
                      "what-ifs/sell-and-buy.csv:2:12: in stacks.csv, 'bale_weight_lb' and "
                      "'bale_weight_kg' say the same thing: write all of it in one; 1 kg = "
                      "2.205 lb\n");
}

static void what_a_reader_refuses_is_placed_at_the_value(void **state) {
    assert_told_first(*state, HEADINGS "stacks,Hay,count,12x,\n",
                      "what-ifs/sell-and-buy.csv:2:18: in stacks.csv, count: '12x' ");
    assert_told_first(*state, HEADINGS "herd,Cows,class,hippo,\n",
                      "what-ifs/sell-and-buy.csv:2:17: in the herd file, class: 'hippo' ");
}

/* The fault stands in a file nobody changed; the second line brings it about. */
static void a_change_that_makes_the_farm_impossible_is_the_one_that_is_blamed(void **state) {
    assert_told_first(
        *state,
        HEADINGS "stacks,Hay,count,280,\n"
                 "stacks,Straw,stack,Old straw,\n",
        "what-ifs/sell-and-buy.csv:3: so changed, yard/feed-tests.csv:4:1: stack: "
        "no stack or feed for sale is named 'Straw'");
    assert_told_first(*state, HEADINGS "winter,last_day,,2027-06-20,\n",
                      "what-ifs/sell-and-buy.csv:2: so changed, yard/weather.csv: ");
}

static void cells_that_go_with_no_change_are_told(void **state) {
    assert_told_first(*state, HEADINGS "stacks,Hay,count,9,remove\n",
                      "what-ifs/sell-and-buy.csv:2:20: change: remove takes the whole row ");
    assert_told_first(*state, HEADINGS "stacks,Hay,,9,\n",
                      "what-ifs/sell-and-buy.csv:2:12: column: the cell is empty; ");
    assert_told_first(*state, HEADINGS "stacks,Hay,,Straw,copy\n",
                      "what-ifs/sell-and-buy.csv:2:13: stacks.csv has a row 'Straw' already; ");
    assert_told_first(*state, HEADINGS "cost,,,300,\n",
                      "what-ifs/sell-and-buy.csv:2:6: row: the cell is empty; ");
}

static void what_changes_nothing_is_doubted(void **state) {
    const Tried of = tried(*state, HEADINGS "stacks,Hay,count,300,\n");
    assert_true(of.is_readable);
    assert_string_equal(of.told, "what-ifs/sell-and-buy.csv:2:18: doubt: value: it is '300' "
                                 "there already; nothing changes\n");
    assert_true(tried(*state, HEADINGS).is_readable);
}

static void a_change_of_next_years_fields_is_doubted_as_no_plan_of_this_winter(void **state) {
    const Tried of = tried(*state, HEADINGS "fields,Home quarter,area_acres,100,\n");
    assert_non_null(strstr(of.told, "what-ifs/sell-and-buy.csv:2:1: doubt: file: fields.csv is "
                                    "of next year's winter"));
}

static void a_doubt_of_a_changed_value_is_placed_at_it(void **state) {
    const Tried of = tried(*state, HEADINGS "for-sale,Barley,price_per_tonne,2600,\n");
    assert_true(of.is_readable);
    assert_non_null(strstr(of.told, "what-ifs/sell-and-buy.csv:2:33: doubt: in for-sale.csv, "
                                    "price_per_tonne: "));
}

static void a_change_is_told_in_words_beside_what_was(void **state) {
    const FarmRequest request = a_request();
    const Tried of = read_well(*state, HEADINGS "stacks,Hay,count,250,\n"
                                                "stacks,Hay,use_until,2027-02-28,\n"
                                                "winter,last_day,,2027-04-10,\n"
                                                "stacks,Straw,,,remove\n");
    static const char *const WORDS[] = {
        "stacks.csv, Hay, count: 250 (was 300)", "stacks.csv, Hay, use_until: 2027-02-28",
        "winter.csv, last_day: 2027-04-10 (was 2027-03-31)", "stacks.csv: 'Straw' taken away"};
    for (int i = 0; i < of.what_if.count; i++)
        assert_string_equal(change_words(*state, &request, &of.what_if.changes[i]), WORDS[i]);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_cell_is_set_whatever_the_file_and_heading_are_called),
        UNIT_TEST(the_name_of_a_future_is_that_of_its_file),
        UNIT_TEST(a_setting_is_changed_or_set_where_it_was_left_out),
        UNIT_TEST(a_column_the_file_does_not_have_is_added),
        UNIT_TEST(rows_are_added_and_copied),
        UNIT_TEST(with_a_stack_go_its_tests_and_with_a_group_its_figures),
        UNIT_TEST(of_several_rows_one_is_told_by_another_of_its_cells),
        UNIT_TEST(money_beside_the_plan_is_added_up),
        UNIT_TEST(what_is_not_there_is_told_with_what_is_near),
        UNIT_TEST(another_unit_than_the_file_has_is_a_fault_with_the_ratio),
        UNIT_TEST(what_a_reader_refuses_is_placed_at_the_value),
        UNIT_TEST(a_change_that_makes_the_farm_impossible_is_the_one_that_is_blamed),
        UNIT_TEST(cells_that_go_with_no_change_are_told),
        UNIT_TEST(what_changes_nothing_is_doubted),
        UNIT_TEST(a_change_of_next_years_fields_is_doubted_as_no_plan_of_this_winter),
        UNIT_TEST(a_doubt_of_a_changed_value_is_placed_at_it),
        UNIT_TEST(a_change_is_told_in_words_beside_what_was),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
