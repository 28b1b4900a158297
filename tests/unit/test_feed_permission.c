/* Feeds that some cattle may have none of, on an invented farm under the program's own safety
 * table. */
#include "planner/plan_question.h"

#include "cattle/limit_feeds.h"
#include "entry/farm_reading.h"
#include "support/found_in.h"
#include "support/unit.h"
#include <string.h>

#define HERD                                                                                   \
    "group,class,head,weight_kg,mature_weight_kg,calving_start,calving_end,gain_kg_per_day,"   \
    "delivery\n"                                                                               \
    "Mixed cows,cow,10,600,,2027-04-01,2027-05-15,,mixed\n"                                    \
    "Ring cows,cow,10,600,,2027-04-01,2027-05-15,,free choice\n"                               \
    "Calves,steer,10,220,600,,,0.1,mixed\n"

#define STACKS                                                                                 \
    "stack,kind,feed,cut_date,counted_date,total_tonnes,storage,feeding,value_per_tonne,"      \
    "watch_for\n"                                                                              \
    "Hay,round bales,brome hay,2026-07-10,,50,twine rows,unrolled,80,\n"                       \
    "Clover hay,round bales,alfalfa hay mid,2026-07-10,,50,twine rows,unrolled,80,"            \
    "sweet clover\n"

#define SALE                                                                                   \
    "feed_for_sale,feed,price_per_tonne,feeding,watch_for\n"                                   \
    "Urea,urea,900,bunk,\n"

typedef struct {
    const char *stacks, *tests, *sale, *winter;
} Yard;

static FileBytes file_of(const char *name, const char *bytes) {
    return (FileBytes){name, bytes, strlen(bytes)};
}

static PlanQuestion question_of(Arena *arena, Yard yard) {
    FarmRequest request = {.units = UNITS_METRIC};
    request.file[FARM_HERD] = file_of("herd.csv", HERD);
    request.file[FARM_STACKS] =
        file_of("stacks.csv", arena_print(arena, STACKS "%s", yard.stacks ? yard.stacks : ""));
    request.file[FARM_FEED_TESTS] =
        file_of("feed-tests.csv", arena_print(arena,
                                              "stack,sample,basis,moisture_pct,nitrate_no3_pct,"
                                              "prussic_acid_dry_ppm,dicoumarol_ppm\n"
                                              "Clover hay,1,dry matter,12,0.10,,\n%s",
                                              yard.tests ? yard.tests : ""));
    request.file[FARM_FOR_SALE] =
        file_of("for-sale.csv", arena_print(arena, SALE "%s", yard.sale ? yard.sale : ""));
    request.file[FARM_WINTER] = file_of(
        "winter.csv", arena_print(arena,
                                  "setting,value\nfirst_day,2026-11-01\nlast_day,2027-05-20\n"
                                  "water_sulfate_mg_per_l,400\n%s",
                                  yard.winter ? yard.winter : "water_nitrate_mg_per_l,0\n"));
    Farm *farm = ARENA_NEW(arena, Farm);
    Faults faults = faults_new(arena);
    if (!farm_read(arena, &faults, &request, farm))
        fail_msg("%s", unit_faults(&faults, arena));
    return plan_question(arena, farm);
}

/* The limit that keeps it from the group on that day; "" where it may be fed. */
static const char *kept_by(const PlanQuestion *question, const char *group, Day day,
                           const char *feed) {
    const int block = found_block(question, group, day);
    const int at = block * question->feed_count + found_feed(question, feed);
    const SafetyLimit *limit = plan_limit_against(question, block, found_feed(question, feed));
    assert_ptr_equal(limit, question->barred_by[at]);
    assert_int_equal(question->permission[at], limit ? OVER_A_LIMIT : MAY_BE_FED);
    return limit ? limit->id : "";
}

static Day autumn(void) { return calendar_day(2026, 11, 20); }
static Day before_calving(void) { return calendar_day(2027, 3, 10); }

static void a_feed_whose_share_may_be_nothing_is_kept_from_those_cattle(void **state) {
    const PlanQuestion question = question_of(*state, (Yard){.stacks = ""});
    assert_string_equal(kept_by(&question, "Mixed cows", autumn(), "Urea"), "");
    assert_string_equal(kept_by(&question, "Ring cows", autumn(), "Urea"), "urea_picked");
    assert_string_equal(kept_by(&question, "Calves", autumn(), "Urea"), "urea_calf");
    assert_string_equal(kept_by(&question, "Mixed cows", autumn(), "Clover hay"), "");
    assert_string_equal(kept_by(&question, "Mixed cows", before_calving(), "Clover hay"),
                        "sweet_clover_late");
}

#define GREENFEED "Greenfeed,round bales,oat greenfeed,2026-08-10,,50,twine rows,unrolled,80,"
#define OF_NITRATE(pct) "Greenfeed,2,dry matter,12," pct ",,\nGreenfeed,3,dry matter,12,0.1,,\n"

/* "No urea above 0.3 % nitrate": with 0.31 % in a feed the diet could be above it. */
static void urea_is_kept_from_cattle_that_may_have_a_feed_above_0_3_nitrate(void **state) {
    const PlanQuestion above =
        question_of(*state, (Yard){.stacks = GREENFEED "\n", .tests = OF_NITRATE("0.31")});
    const PlanQuestion below =
        question_of(*state, (Yard){.stacks = GREENFEED "\n", .tests = OF_NITRATE("0.29")});
    assert_string_equal(kept_by(&above, "Mixed cows", autumn(), "Urea"), "urea_beside_nitrate");
    assert_string_equal(kept_by(&above, "Mixed cows", autumn(), "Greenfeed"), "");
    assert_string_equal(kept_by(&below, "Mixed cows", autumn(), "Urea"), "");
}

/* Else the page would say that urea comes back where the feed is kept for others. */
static void cattle_that_may_never_have_urea_are_not_told_of_the_nitrate(void **state) {
    const PlanQuestion above =
        question_of(*state, (Yard){.stacks = GREENFEED "\n", .tests = OF_NITRATE("0.31")});
    assert_string_equal(kept_by(&above, "Ring cows", autumn(), "Urea"), "urea_picked");
    assert_string_equal(kept_by(&above, "Calves", autumn(), "Urea"), "urea_calf");
}

/* 50 mg/L in 4 L of water to the kg: 0.02 % more; 0.29 + 0.02 is over 0.30. */
static void water_counts_where_urea_is_judged_by_nitrate(void **state) {
    const PlanQuestion question =
        question_of(*state, (Yard){.stacks = GREENFEED "\n",
                                   .tests = OF_NITRATE("0.29"),
                                   .winter = "water_nitrate_mg_per_l,50\n"});
    assert_string_equal(kept_by(&question, "Mixed cows", autumn(), "Urea"),
                        "urea_beside_nitrate");
}

/* At 2.0 % it is kept from all of them, so it can take nobody's diet above anything. */
static void a_feed_they_may_not_have_keeps_no_urea_from_them(void **state) {
    const PlanQuestion question = question_of(*state, (Yard){.stacks = GREENFEED "\n"});
    assert_string_equal(kept_by(&question, "Mixed cows", autumn(), "Greenfeed"),
                        "nitrate_feed_dry");
    assert_string_equal(kept_by(&question, "Mixed cows", autumn(), "Urea"), "");
}

static void urea_comes_back_when_a_test_finds_the_feed_low_in_nitrate(void **state) {
    const PlanQuestion above =
        question_of(*state, (Yard){.stacks = GREENFEED "\n", .tests = OF_NITRATE("0.31")});
    const int place = found_feed(&above, "Greenfeed");
    PlanFeed low = above.feeds[place];
    low.eaten[NUTRIENT_NITRATE] = 0.29;
    const PlanQuestion tested = plan_question_with_feed(*state, &above, place, &low);
    assert_string_equal(kept_by(&tested, "Mixed cows", autumn(), "Urea"), "");
}

/* Mould makes the poison: until a laboratory says there is none, nobody has it. */
static void sweet_clover_baled_damp_or_heated_waits_for_its_test(void **state) {
#define CLOVER(watch)                                                                          \
    "Damp clover,round bales,alfalfa hay mid,2026-07-10,,50,twine rows,unrolled,80," watch "\n"
#define CLOVER_TEST(moisture, dicoumarol)                                                      \
    "Damp clover,6,dry matter," moisture ",0.1,," dicoumarol "\n"
    static const struct {
        const char *stack, *test, *kept_by;
    } CASES[] = {
        {CLOVER("sweet clover"), CLOVER_TEST("20", ""), "clover_mouldy"},
        {CLOVER("sweet clover"), CLOVER_TEST("20", "5"), ""},
        {CLOVER("sweet clover"), CLOVER_TEST("12", ""), ""},
        {CLOVER("sweet clover|heated"), CLOVER_TEST("12", ""), "clover_mouldy"},
        {CLOVER(""), CLOVER_TEST("20", ""), ""},
    };
    for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++) {
        const PlanQuestion question =
            question_of(*state, (Yard){.stacks = CASES[i].stack, .tests = CASES[i].test});
        assert_string_equal(kept_by(&question, "Mixed cows", autumn(), "Damp clover"),
                            CASES[i].kept_by);
    }
}

/* ---- sorghum that froze ---- */

#define SUDAN(cut, watch)                                                                      \
    "Sudan,bag,sorghum-sudan silage," cut ",,50,silage bag,bunk,60," watch "\n"
#define SUDAN_HAY(watch)                                                                       \
    "Sudan,round bales,sorghum-sudan hay,2026-09-20,,50,twine rows,unrolled,60," watch "\n"
#define SUDAN_TEST(moisture, acid)                                                             \
    "Sudan,4,dry matter," moisture ",0.1," acid ",\nSudan,5,dry matter," moisture ",0.1," acid \
    ",\n"

static const char *sudan_kept_by(Arena *arena, const char *stack, const char *tests, Day day) {
    const PlanQuestion question = question_of(arena, (Yard){.stacks = stack, .tests = tests});
    return kept_by(&question, "Mixed cows", day, "Sudan");
}

static Day november(int day) { return calendar_day(2026, 11, day); }

/* Put up on 20 September: 10 days of it, 31 of October and 15 more are 56. */
static void frosted_silage_of_sorghum_is_shut_for_eight_weeks_from_its_cut_date(void **state) {
    const char *tests = SUDAN_TEST("70", "");
    const char *stack = SUDAN("2026-09-20", "frosted");
    assert_string_equal(sudan_kept_by(*state, stack, tests, november(1)), "cyanide_frosted");
    assert_string_equal(sudan_kept_by(*state, stack, tests, november(14)), "cyanide_frosted");
    assert_string_equal(sudan_kept_by(*state, stack, tests, november(15)), "");
}

/* On 25 September: 5, 31 and 6 are 42. */
static void silage_of_sorghum_that_did_not_freeze_is_shut_for_six_weeks(void **state) {
    const char *tests = SUDAN_TEST("70", "");
    const char *stack = SUDAN("2026-09-25", "");
    assert_string_equal(sudan_kept_by(*state, stack, tests, november(5)), "cyanide_silage");
    assert_string_equal(sudan_kept_by(*state, stack, tests, november(6)), "");
}

/* It lay there when it was counted, on 1 November: 30 and 26 are 56. */
static void without_a_cut_date_the_weeks_run_from_the_day_it_was_counted(void **state) {
    const char *tests = SUDAN_TEST("70", "");
    const char *stack = SUDAN("", "frosted");
    assert_string_equal(sudan_kept_by(*state, stack, tests, calendar_day(2026, 12, 26)),
                        "cyanide_frosted");
    assert_string_equal(sudan_kept_by(*state, stack, tests, calendar_day(2026, 12, 27)), "");
}

static void sorghum_tested_for_prussic_acid_is_judged_by_the_test(void **state) {
    const char *stack = SUDAN("2026-09-20", "frosted");
    assert_string_equal(sudan_kept_by(*state, stack, SUDAN_TEST("70", "100"), november(1)), "");
    assert_string_equal(sudan_kept_by(*state, stack, SUDAN_TEST("70", "1200"), november(20)),
                        "cyanide_dry");
}

/* The gas leaves hay that cures, and damp hay keeps it. */
static void frosted_hay_waits_only_where_it_was_baled_damp(void **state) {
    const char *stack = SUDAN_HAY("frosted");
    assert_string_equal(sudan_kept_by(*state, stack, SUDAN_TEST("12", ""), november(1)), "");
    assert_string_equal(sudan_kept_by(*state, stack, SUDAN_TEST("20", ""), november(1)),
                        "cyanide_frosted");
    assert_string_equal(sudan_kept_by(*state, SUDAN_HAY(""), SUDAN_TEST("20", ""), november(1)),
                        "");
}

static bool sudan_is(Arena *arena, const char *name, const char *stack, const char *tests) {
    const PlanQuestion question = question_of(arena, (Yard){.stacks = stack, .tests = tests});
    return limit_feeds_hold(name, question.feeds[found_feed(&question, "Sudan")].feed);
}

/* The book's hay is dry, and nobody knows how this one was baled. */
static void frosted_hay_of_no_moisture_test_waits_as_damp_hay_does(void **state) {
    const char *stack = SUDAN_HAY("frosted");
    assert_true(sudan_is(*state, "frosted_sorghum", stack, ""));
    assert_true(sudan_is(*state, "frosted_sorghum", stack, SUDAN_TEST("20", "")));
    assert_false(sudan_is(*state, "frosted_sorghum", stack, SUDAN_TEST("12", "")));
}

/* Sorghum-sudan hay is dry in the book. */
static void wrapped_sorghum_of_no_moisture_test_waits_as_silage_does(void **state) {
    const char *stack =
        "Sudan,bale tube,sorghum-sudan hay,2026-09-25,,50,wrapped,unrolled,60,\n";
    assert_true(sudan_is(*state, "untested_sorghum_silage", stack, ""));
    assert_false(sudan_is(*state, "untested_sorghum_silage", stack, SUDAN_TEST("12", "")));
    assert_false(sudan_is(*state, "untested_sorghum_silage", SUDAN_HAY(""), ""));
}

static void frosted_millet_does_not_wait(void **state) {
    const char *stack = "Sudan,bag,millet hay,2026-09-20,,50,silage bag,bunk,60,frosted\n";
    assert_string_equal(sudan_kept_by(*state, stack, SUDAN_TEST("40", ""), november(1)), "");
}

/* ---- feed that was ammoniated, or froze in lumps ---- */

static const char *treated_kept_by(Arena *arena, const char *row, const char *tests,
                                   const char *group, Day day) {
    const PlanQuestion question = question_of(arena, (Yard){.stacks = row, .tests = tests});
    return kept_by(&question, group, day, "Treated");
}

static void only_straw_that_was_ammoniated_is_fed_and_to_no_cow_that_nurses(void **state) {
    const char *straw = "Treated,round bales,barley straw,2026-09-20,,50,twine rows,unrolled,"
                        "60,ammoniated\n";
    const char *hay = "Treated,round bales,brome hay,2026-09-20,,50,twine rows,unrolled,60,"
                      "ammoniated\n";
    const Day spring = calendar_day(2027, 5, 18);
    assert_string_equal(treated_kept_by(*state, straw, "", "Mixed cows", november(1)), "");
    assert_string_equal(treated_kept_by(*state, straw, "", "Mixed cows", spring),
                        "ammoniated_milk");
    assert_string_equal(treated_kept_by(*state, straw, "", "Calves", november(1)),
                        "ammoniated_milk");
    assert_string_equal(treated_kept_by(*state, hay, "", "Mixed cows", november(1)),
                        "ammoniated_amiss");
    const char *heated = "Treated,round bales,barley straw,2026-09-20,,50,twine rows,unrolled,"
                         "60,ammoniated|heated\n";
    assert_string_equal(treated_kept_by(*state, heated, "", "Mixed cows", november(1)),
                        "ammoniated_amiss");
}

static void lumps_are_kept_from_calves_and_not_from_cows(void **state) {
    const char *lumps = "Treated,pit,barley silage,2026-08-20,,50,covered pit,bunk,50,"
                        "frozen lumps\n";
    const char *tested = "Treated,9,dry matter,62,0.10,,\n";
    assert_string_equal(treated_kept_by(*state, lumps, tested, "Mixed cows", november(1)), "");
    assert_string_equal(treated_kept_by(*state, lumps, tested, "Calves", november(1)),
                        "frozen_lumps_calf");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_feed_whose_share_may_be_nothing_is_kept_from_those_cattle),
        UNIT_TEST(urea_is_kept_from_cattle_that_may_have_a_feed_above_0_3_nitrate),
        UNIT_TEST(cattle_that_may_never_have_urea_are_not_told_of_the_nitrate),
        UNIT_TEST(water_counts_where_urea_is_judged_by_nitrate),
        UNIT_TEST(a_feed_they_may_not_have_keeps_no_urea_from_them),
        UNIT_TEST(urea_comes_back_when_a_test_finds_the_feed_low_in_nitrate),
        UNIT_TEST(sweet_clover_baled_damp_or_heated_waits_for_its_test),
        UNIT_TEST(frosted_silage_of_sorghum_is_shut_for_eight_weeks_from_its_cut_date),
        UNIT_TEST(silage_of_sorghum_that_did_not_freeze_is_shut_for_six_weeks),
        UNIT_TEST(without_a_cut_date_the_weeks_run_from_the_day_it_was_counted),
        UNIT_TEST(sorghum_tested_for_prussic_acid_is_judged_by_the_test),
        UNIT_TEST(frosted_hay_waits_only_where_it_was_baled_damp),
        UNIT_TEST(frosted_hay_of_no_moisture_test_waits_as_damp_hay_does),
        UNIT_TEST(wrapped_sorghum_of_no_moisture_test_waits_as_silage_does),
        UNIT_TEST(frosted_millet_does_not_wait),
        UNIT_TEST(only_straw_that_was_ammoniated_is_fed_and_to_no_cow_that_nurses),
        UNIT_TEST(lumps_are_kept_from_calves_and_not_from_cows),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
