/* The question that the sample farm's what-ifs ask: cut the cover crop later, or cut it at
 * heading and buy barley? The answer turns on the price of barley, and the price at which it
 * does is held against planning both just below and just above it. Run from the root of the
 * repository. */
#include "entry/farm_reading.h"
#include "entry/file_bytes.h"
#include "entry/future.h"
#include "planner/winter_plan.h"
#include "support/unit.h"
#include <stdlib.h>
#include <string.h>

#define FOLDER "sample-inventory"
#define BARLEY "Feed barley - Wheatland Siding"
#define PRICE "price_per_tonne"
#define ASKED_PRICE 268.0 /* for-sale.csv */

static FileBytes file_of(Arena *arena, const char *path) {
    const ReadFile read = file_read(arena, path);
    if (read.outcome != READ_DONE)
        return (FileBytes){path, NULL, 0};
    return (FileBytes){path, read.bytes, read.length};
}

static FarmRequest sample_request(Arena *arena) {
    FarmRequest request;
    memset(&request, 0, sizeof request);
    request.file[FARM_HERD] = file_of(arena, "herds/main-herd.csv");
    for (int file = FARM_STACKS; file < FARM_FILE_COUNT; file++)
        request.file[file] =
            file_of(arena, path_in_folder(arena, FOLDER, FARM_FILE_NAME[file]));
    FileBytes *what_ifs = ARENA_ARRAY(arena, FileBytes, 2);
    what_ifs[0] = file_of(arena, FOLDER "/what-ifs/buy-barley.csv");
    what_ifs[1] = file_of(arena, FOLDER "/what-ifs/cut-later.csv");
    assert_true(what_ifs[0].bytes && what_ifs[1].bytes);
    request.what_ifs = what_ifs;
    request.what_if_count = 2;
    return request;
}

/* A what-if planned with barley at a price, by a change of the file behind its own. */
static double cost_at(const FarmRequest *request, const FileBytes *file, double price) {
    Arena *arena = arena_open();
    Faults faults = faults_new(arena);
    WhatIf what_if;
    assert_true(what_if_parse(arena, &faults, file, request->file[FARM_HERD].name, &what_if));
    Change *changes = ARENA_ARRAY(arena, Change, what_if.count + 1);
    memcpy(changes, what_if.changes, (size_t)what_if.count * sizeof *changes);
    const Place place = {"price", 0, 0};
    changes[what_if.count] = (Change){.kind = CHANGE_SET,
                                      .file = FARM_FOR_SALE,
                                      .row = BARLEY,
                                      .column = PRICE,
                                      .value = arena_print(arena, "%.10g", price),
                                      .place = place,
                                      .row_place = place,
                                      .column_place = place,
                                      .value_place = place};
    Farm farm;
    assert_true(
        future_read(arena, &faults, request, file->name, changes, what_if.count + 1, &farm));
    const PlanQuestion question = plan_question(arena, &farm);
    const WinterPlan plan = plan_least_cost(arena, &question);
    assert_int_equal(plan.verdict, PLAN_BALANCED);
    const double cost = plan_least(&plan) + plan.cost.yardage + what_if.own_cost;
    arena_close(arena);
    return cost;
}

static const Figure *member(const Figure *of, const char *key) {
    for (const Figure *figure = of->first; figure; figure = figure->next) {
        if (text_same(figure->key, key))
            return figure;
    }
    print_error("no figure is called %s\n", key);
    abort();
}

/* What compare says of the two what-ifs among its break-evens. */
static const Figure *told_break_even(Arena *arena, FarmRequest *request) {
    const char *vary[] = {"for-sale", BARLEY, PRICE, "200", "400"};
    Faults faults = faults_new(arena);
    request->vary = vary;
    const TaskResult result = task_compare(arena, &faults, request);
    assert_int_equal(result.status, TASK_DONE);
    const Figure *found = result.report->figures;
    int count = 0;
    for (const Figure *even =
             member(member(result.report->figures, "varied"), "break_evens")->first;
         even; even = even->next) {
        if (text_same(member(even, "a")->text, "buy barley") &&
            text_same(member(even, "b")->text, "cut later")) {
            found = even;
            count++;
        }
    }
    assert_int_equal(count, 1);
    return found;
}

static void cutting_later_pays_above_a_price_of_barley_and_not_below_it(void **state) {
    Arena *arena = *state;
    FarmRequest request = sample_request(arena);
    const Figure *even = told_break_even(arena, &request);
    const double at = member(even, "at")->number;
    assert_string_equal(member(even, "cheaper_below")->text, "buy barley");
    assert_string_equal(member(even, "cheaper_above")->text, "cut later");
    assert_true(at > 0.9 * ASKED_PRICE && at < 1.1 * ASKED_PRICE); /* a close question */
    const FileBytes *buy = &request.what_ifs[0], *cut = &request.what_ifs[1];
    assert_true(cost_at(&request, buy, at - 1.0) < cost_at(&request, cut, at - 1.0));
    assert_true(cost_at(&request, buy, at + 1.0) > cost_at(&request, cut, at + 1.0));
    assert_near(cost_at(&request, buy, at), cost_at(&request, cut, at), 0.05);
    assert_near(cost_at(&request, buy, at), member(even, "cost")->number, 0.05);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(cutting_later_pays_above_a_price_of_barley_and_not_below_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
