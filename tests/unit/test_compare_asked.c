/* What is asked of a comparison beside its what-ifs, and cannot be answered as it stands: on a
 * farm small enough to be planned in a moment. */
#include "entry/task.h"

#include "outcome/figure.h"
#include "outcome/report.h"
#include "support/unit.h"
#include <string.h>

static const char *const FILES[FARM_FILE_COUNT] = {
    [FARM_HERD] = "group,class,head,weight_kg,calving_start,calving_end,delivery\n"
                  "Cows,cow,40,620,2027-04-01,2027-05-15,mixed\n",
    [FARM_STACKS] =
        "stack,kind,feed,count,bale_weight_kg,storage,feeding,value_per_tonne\n"
        "Hay,round bales,alfalfa grass hay average,300,600,net wrap rows,unrolled,120\n",
    [FARM_FOR_SALE] = "feed_for_sale,feed,price_per_tonne,feeding\n"
                      "Mineral,mineral 2:1,2000,bunk\n",
    [FARM_WINTER] = "setting,value\nfirst_day,2026-11-01\nlast_day,2026-12-31\n",
};
static const char *const NAMES[FARM_FILE_COUNT] = {
    "ours.csv",   "stacks.csv",  "feed-tests.csv", "for-sale.csv",
    "winter.csv", "weather.csv", "needs.csv"};

static FarmRequest a_request(void) {
    FarmRequest request;
    memset(&request, 0, sizeof request);
    for (int file = 0; file < FARM_FILE_COUNT; file++)
        request.file[file] =
            (FileBytes){NAMES[file], FILES[file], FILES[file] ? strlen(FILES[file]) : 0};
    return request;
}

static const char *told(Arena *arena, const FarmRequest *request, TaskStatus status) {
    Faults faults = faults_new(arena);
    assert_int_equal(task_compare(arena, &faults, request).status, status);
    return unit_faults(&faults, arena);
}

static void a_day_to_ship_after_the_winter_is_a_fault_and_not_a_page_of_nothing(void **state) {
    FarmRequest request = a_request();
    request.wants_ship = true;
    request.ship_from = calendar_day(2027, 8, 10);
    assert_string_equal(told(*state, &request, TASK_FAULTY),
                        "--ship: 2027-08-10 is after the last feeding day, 2026-12-31: no feed "
                        "is left to be saved\n");
    request.ship_from = calendar_day(2026, 12, 31);
    assert_string_equal(told(*state, &request, TASK_DONE), "");
}

/* A future that weighs cautions less saves by that alone. */
static void a_future_that_weighs_cautions_otherwise_is_not_ranked(void **state) {
    FarmRequest request = a_request();
    static const char BYTES[] = "file,row,column,value\nwinter,caution_weight,,0\n";
    const FileBytes what_if = {"careless.csv", BYTES, sizeof BYTES - 1};
    request.what_ifs = &what_if;
    request.what_if_count = 1;
    Faults faults = faults_new(*state);
    const TaskResult result = task_compare(*state, &faults, &request);
    assert_int_equal(result.status, TASK_DONE);
    bool is_said = false;
    for (const ReportSection *section = result.report->first; section;
         section = section->next) {
        for (const ReportPiece *piece = section->first; piece; piece = piece->next)
            is_said = is_said ||
                      (piece->text && strstr(piece->text, "weighs the caution lines of safety "
                                                          "otherwise than the farm as it is"));
    }
    assert_true(is_said);
    assert_non_null(strstr(result.report->verdict, "Nothing compared here is cheaper"));
}

static const char *told_of(Arena *arena, const char *const *vary, TaskStatus status) {
    FarmRequest request = a_request();
    request.vary = vary;
    return told(arena, &request, status);
}

static void a_setting_may_be_varied_without_naming_its_column(void **state) {
    static const char *const DAYS[] = {"winter", "last_day", "", "2026-12-29", "2026-12-31"};
    assert_string_equal(told_of(*state, DAYS, TASK_DONE), "");
    static const char *const HEAD[] = {"herd", "Cows", "", "30", "40"};
    assert_string_equal(told_of(*state, HEAD, TASK_FAULTY),
                        "--vary: the third part is empty: write the heading of what is to "
                        "change\n");
}

static void what_no_plan_of_this_winter_turns_on_is_not_varied(void **state) {
    static const char *const COST[] = {"cost", "Fuel", "value", "0", "100"};
    static const char *const FIELD[] = {"fields", "Home", "area_acres", "50", "100"};
    assert_non_null(strstr(told_of(*state, COST, TASK_FAULTY), "dollar for dollar"));
    assert_non_null(strstr(told_of(*state, FIELD, TASK_FAULTY), "winterstack cut"));
}

/* "" where there is no such text. */
static const char *text_of(const Figure *of, const char *key) {
    for (const Figure *figure = of->first; figure; figure = figure->next) {
        if (figure->key && strcmp(figure->key, key) == 0)
            return figure->text;
    }
    return "";
}

static void the_figures_of_a_future_that_is_short_say_what_it_lacks(void **state) {
    static const char BYTES[] = "file,row,column,value\nstacks,Hay,count,20\n";
    const FileBytes file = {"few-bales.csv", BYTES, sizeof BYTES - 1};
    FarmRequest request = a_request();
    request.what_ifs = &file;
    request.what_if_count = 1;
    Faults faults = faults_new(*state);
    const TaskResult result = task_compare(*state, &faults, &request);
    assert_int_equal(result.status, TASK_SHORT);
    int told = 0;
    for (const Figure *list = result.report->figures->first; list; list = list->next) {
        for (const Figure *future = list->first; future; future = future->next) {
            const char *lacks = text_of(future, "shortfall");
            if (strcmp(text_of(future, "name"), "few bales") == 0) {
                assert_non_null(strstr(lacks, "does not balance the herd to 31 Dec 2026"));
                told++;
            } else {
                assert_string_equal(lacks, "");
            }
        }
    }
    assert_int_equal(told, 1);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_future_that_weighs_cautions_otherwise_is_not_ranked),
        UNIT_TEST(a_day_to_ship_after_the_winter_is_a_fault_and_not_a_page_of_nothing),
        UNIT_TEST(the_figures_of_a_future_that_is_short_say_what_it_lacks),
        UNIT_TEST(a_setting_may_be_varied_without_naming_its_column),
        UNIT_TEST(what_no_plan_of_this_winter_turns_on_is_not_varied),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
