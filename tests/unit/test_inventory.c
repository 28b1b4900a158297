/* Faults that need more than one file. The places of each file are looked up in it. */
#include "stock/inventory.h"
#include "support/own_tables.h"
#include <string.h>

#define STACKS                                                                                 \
    "stack,kind,feed,storage,feeding,value_per_tonne,total_tonnes,groups\n"                    \
    "North hay,round bales,oat greenfeed,net wrap rows,unrolled,90,50,\n"                      \
    "Pit,pit,barley silage,covered pit,bunk,55,300,Cows|Bred heifers\n"
#define OFFERS                                                                                 \
    "feed_for_sale,feed,feeding,price_per_tonne,groups\n"                                      \
    "Barley,barley grain,bunk,270,\n"

static const char *const GROUPS[] = {"Cows", "Bred heifers"};

static Inventory read_all(Arena *arena, Faults *faults, const char *stacks, const char *offers,
                          const char *tests) {
    Inventory inventory = {.has_all_names = true};
    inventory.tests = feed_tests_parse(arena, faults, "feed-tests.csv", tests, strlen(tests));
    const StockContext context = {own_book(arena),           own_handling(arena),
                                  &inventory.tests,          calendar_day(2026, 11, 1),
                                  calendar_day(2027, 5, 15), NULL};
    inventory.stacks =
        stacks_parse(arena, faults, &context, "stacks.csv", stacks, strlen(stacks));
    inventory.for_sale =
        price_list_parse(arena, faults, &context, "for-sale.csv", offers, strlen(offers));
    return inventory;
}

static const char *told(void **state, const char *stacks, const char *offers,
                        const char *tests) {
    Faults faults = faults_new(*state);
    const Inventory inventory = read_all(*state, &faults, stacks, offers, tests);
    inventory_check(&faults, *state, &inventory);
    inventory_check_groups(&faults, &inventory, GROUPS, 2);
    return unit_faults(&faults, *state);
}

#define TESTS "stack,basis,moisture_pct\n"

static void names_that_all_fit_together_are_read_without_a_word(void **state) {
    assert_string_equal(told(state, STACKS, OFFERS,
                             TESTS
                             "north HAY,dry matter,12\nPit,as fed,63\nBarley,as fed,12\n"),
                        "");
}

static void a_test_of_a_stack_that_is_not_there_names_the_nearest(void **state) {
    assert_string_equal(told(state, STACKS, OFFERS, TESTS "Nroth hay,dry matter,12\n"),
                        "feed-tests.csv:2:1: stack: no stack or feed for sale is named 'Nroth "
                        "hay'; did you mean 'North hay'?\n");
    assert_string_equal(
        told(state, STACKS, OFFERS, TESTS "Bin,dry matter,12\n"),
        "feed-tests.csv:2:1: stack: no stack or feed for sale is named 'Bin'; the names are: "
        "'North hay', 'Pit', 'Barley'\n");
    assert_string_equal(
        told(state, STACKS, OFFERS, TESTS "hay,dry matter,12\nBin,as fed,9\nTub,as fed,9\n"),
        "feed-tests.csv:2:1: stack: no stack or feed for sale is named 'hay'; did you mean "
        "'North hay'?\n"
        "feed-tests.csv:3:1: stack: no stack or feed for sale is named 'Bin'; the names are: "
        "'North hay', 'Pit', 'Barley'\n"
        "feed-tests.csv:4:1: stack: no stack or feed for sale is named 'Tub'\n");
}

static void one_name_for_a_stack_and_an_offer_is_a_fault(void **state) {
    const char *said =
        told(state, STACKS, OFFERS "pit ,barley silage,bunk,90,\nBARLEY,oat grain,bunk,90,\n",
             TESTS);
    assert_non_null(strstr(said, "for-sale.csv:3:1: feed_for_sale: 'pit' is already the name"));
    assert_non_null(strstr(said, "for-sale.csv:4:1: feed_for_sale: 'BARLEY' is already"));
}

static void
a_group_the_herd_does_not_have_is_doubted_as_another_herd_may_have_it(void **state) {
    const char *said =
        told(state, STACKS "Bin,bin,barley grain,grain bin,bunk,220,40,Cows|Bulls\n",
             OFFERS "Oats,oat grain,bunk,260,Bred heifer\n", TESTS);
    assert_string_equal(
        said, "stacks.csv:4:44: doubt: groups: this herd has no group named 'Bulls'\n"
              "for-sale.csv:3:25: doubt: groups: this herd has no group named 'Bred "
              "heifer'; did you mean 'Bred heifers'?\n"
              "for-sale.csv:3:25: doubt: groups: no group of this herd may have it, so "
              "none of it is fed\n");
}

static void names_are_not_held_against_files_that_could_not_be_read(void **state) {
    Faults faults = faults_new(*state);
    Inventory inventory = read_all(*state, &faults, "", OFFERS, TESTS "North hay,as fed,12\n");
    inventory.has_all_names = false;
    inventory_check(&faults, *state, &inventory);
    assert_string_equal(
        unit_faults(&faults, *state),
        "stacks.csv: the file is empty: its first line has to be the headings\n");
}

static void names_are_not_held_against_stacks_whose_heading_is_missing(void **state) {
    const char *said =
        told(state,
             "zork,kind,feed,storage,feeding,value_per_tonne,total_tonnes\n"
             "North hay,round bales,oat greenfeed,net wrap rows,unrolled,90,50\n",
             "feed_for_sale,feed,feeding,price_per_tonne\n", TESTS "North hay,dry matter,12\n");
    assert_null(strstr(said, "feed-tests.csv"));
    assert_non_null(strstr(said, "the heading stack is missing"));
}

static void thousands_of_lost_tests_do_not_take_minutes(void **state) {
    Text stacks = text_new(*state), tests = text_new(*state);
    text_add(&stacks, "stack,kind,feed,storage,feeding,value_per_tonne,total_tonnes\n");
    for (int i = 0; i < 500; i++)
        text_print(&stacks,
                   "A stack with a long name number %d,pit,barley silage,covered pit,bunk,"
                   "55,300\n",
                   i);
    text_add(&tests, TESTS);
    for (int i = 0; i < 5000; i++)
        text_print(&tests, "A stack with another name, %d,as fed,63\n", i);
    for (char *byte = tests.bytes; *byte; byte++) {
        if (strncmp(byte, "name, ", 6) == 0)
            byte[4] = ' ';
    }
    Faults faults = faults_new(*state);
    const Inventory inventory =
        read_all(*state, &faults, stacks.bytes, "feed_for_sale,feed,feeding,price_per_tonne\n",
                 tests.bytes);
    inventory_check(&faults, *state, &inventory);
    assert_int_equal(faults.wrong_count, 201); /* two hundred, and that there are more */
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(names_that_all_fit_together_are_read_without_a_word),
        UNIT_TEST(a_test_of_a_stack_that_is_not_there_names_the_nearest),
        UNIT_TEST(one_name_for_a_stack_and_an_offer_is_a_fault),
        UNIT_TEST(a_group_the_herd_does_not_have_is_doubted_as_another_herd_may_have_it),
        UNIT_TEST(names_are_not_held_against_files_that_could_not_be_read),
        UNIT_TEST(names_are_not_held_against_stacks_whose_heading_is_missing),
        UNIT_TEST(thousands_of_lost_tests_do_not_take_minutes),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
