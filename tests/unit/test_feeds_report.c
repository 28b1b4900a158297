/* What the report of feeds holds: every nutrient of the list, and what is said of tests. */
#include "base/unit_family.h"
#include "cattle/limit_feeds.h"
#include "feedstuff/feed_worth_testing.h"
#include "outcome/feeds_report.h"
#include "stock/stack_sampling.h"
#include "support/own_tables.h"
#include <string.h>

static Farm *farm_of(Arena *arena, const BookValues *book, const char *stacks,
                     const char *tests) {
    Faults faults = faults_new(arena);
    Farm *farm = ARENA_NEW(arena, Farm);
    farm->book = book;
    farm->handling = own_handling(arena);
    farm->inventory.tests =
        feed_tests_parse(arena, &faults, "feed-tests.csv", tests, strlen(tests));
    const StockContext context = {book,
                                  farm->handling,
                                  &farm->inventory.tests,
                                  calendar_day(2026, 11, 1),
                                  calendar_day(2027, 5, 15),
                                  NULL};
    farm->inventory.stacks =
        stacks_parse(arena, &faults, &context, "stacks.csv", stacks, strlen(stacks));
    if (faults.wrong_count > 0)
        print_error("%s\n", unit_faults(&faults, arena));
    assert_int_equal(faults.wrong_count, 0);
    return farm;
}

static const Figure *child(const Figure *of, const char *key) {
    for (const Figure *at = of->first; at; at = at->next) {
        if (at->key && strcmp(at->key, key) == 0)
            return at;
    }
    print_error("no figure '%s'\n", key);
    fail();
    return NULL;
}

static const Figure *first_feed(const Report *report) {
    return child(report->figures, "feeds")->first;
}

/* ---- every nutrient ---- */

#define BOOK_HEAD "feed,label,class,basis,dry_matter_pct,from_page,own_choice,source"
#define STACK_HEAD "stack,kind,feed,storage,feeding,value_per_tonne,total_tonnes\n"

static const BookValues *book_with(Arena *arena, const char *heading, double value) {
    const char *bytes = arena_print(arena,
                                    BOOK_HEAD ",%s\nsome_feed,Some feed,grain,dry_matter,90,,,"
                                              "OWN_CHOICE,%.12g\n",
                                    heading, value);
    Faults faults = faults_new(arena);
    const BookValues *book = book_parse(arena, &faults, "book.csv", bytes, strlen(bytes));
    assert_string_equal(unit_faults(&faults, arena), "");
    return book;
}

static const Figure *figure_of(const Report *report, const char *stem) {
    const Figure *found = NULL;
    int count = 0;
    for (const Figure *at = child(first_feed(report), "nutrients")->first; at; at = at->next) {
        count++;
        if (strcmp(child(at, "nutrient")->text, stem) == 0)
            found = at;
    }
    assert_int_equal(count, NUTRIENT_COUNT);
    assert_non_null(found);
    return found;
}

/* Net energy is always worked out anew, and a nitrate of the book is never trusted. */
static bool is_shown_as_read(Nutrient nutrient, bool is_tested) {
    return nutrient != NUTRIENT_NEM && nutrient != NUTRIENT_NEG &&
           (is_tested || nutrient != NUTRIENT_NITRATE);
}

static void a_line_of_the_list_reaches_the_book_the_tests_and_the_figures(void **state) {
    for (int i = 0; i < NUTRIENT_COUNT; i++) {
        const NutrientKind *kind = nutrient_kind((Nutrient)i);
        int form_count;
        const UnitForm *form = unit_forms(kind->family, &form_count);
        const double tested = fmin(fmax(4.0, 2.0 * kind->least), kind->most / 2.0);
        const double printed = fmax(tested / 2.0, kind->least);
        const char *heading = arena_print(*state, "%s%s", kind->stem, form->suffix);
        const BookValues *book = book_with(*state, heading, printed);
        assert_near(book->feeds[0].analysis.of[i].value, printed, 1e-9);
        const char *stacks = STACK_HEAD "A,bin,some feed,grain bin,bunk,200,50\n";
        const char *tests = arena_print(
            *state, "stack,basis,dry_matter_pct,%s\nA,dry matter,90,%.12g\n", heading, tested);
        const Report *report =
            feeds_report(*state, farm_of(*state, book, stacks, tests), UNITS_METRIC);
        if (is_shown_as_read((Nutrient)i, true))
            assert_near(child(figure_of(report, kind->stem), "value")->number, tested, 1e-9);
        report = feeds_report(
            *state, farm_of(*state, book, stacks, "stack,basis,moisture_pct\n"), UNITS_METRIC);
        if (is_shown_as_read((Nutrient)i, false))
            assert_near(child(figure_of(report, kind->stem), "value")->number, printed, 1e-9);
    }
}

/* ---- stacks and their tests ---- */

#define TEST_HEAD "stack,basis,dry_matter_pct,date,cores,crude_protein_pct,adf_pct,ndf_pct\n"

static const Stack *only_stack(Arena *arena, const char *stack, const char *test) {
    const Farm *farm = farm_of(
        arena, own_book(arena),
        arena_print(arena,
                    "stack,kind,feed,storage,feeding,value_per_tonne,total_tonnes,count,"
                    "bale_weight_kg\n%s\n",
                    stack),
        arena_print(arena, TEST_HEAD "%s\n", test));
    return &farm->inventory.stacks.stacks[0];
}

#define HAY "A,round bales,brome hay,net wrap rows,unrolled,90,50,,"
#define FEW_BALES "A,round bales,brome hay,net wrap rows,unrolled,90,,8,600"
#define PIT "A,pit,barley silage,covered pit,bunk,55,300,,"

static void twenty_bales_or_all_of_fewer_and_five_places_are_wanted(void **state) {
    static const struct {
        const char *stack, *test;
        SamplingVerdict verdict;
    } CASES[] = {
        {HAY, "A,dry matter,88,2026-09-01,20,10,38,60", SAMPLING_NOTHING_TO_SAY},
        {HAY, "A,dry matter,88,2026-09-01,19,10,38,60", SAMPLING_TOO_FEW},
        {HAY, "A,dry matter,88,2026-09-01,,10,38,60", SAMPLING_NOT_SAID},
        {HAY, "A,dry matter,88,2026-09-01,10,10,38,60\nA,dry matter,88,2026-09-01,10,11,39,61",
         SAMPLING_NOTHING_TO_SAY},
        {FEW_BALES, "A,dry matter,88,2026-09-01,8,10,38,60", SAMPLING_NOTHING_TO_SAY},
        {FEW_BALES, "A,dry matter,88,2026-09-01,7,10,38,60", SAMPLING_TOO_FEW},
        {PIT, "A,dry matter,37,2026-10-20,5,10,34,52", SAMPLING_NOTHING_TO_SAY},
        {PIT, "A,dry matter,37,2026-10-20,1,10,34,52", SAMPLING_TOO_FEW},
        {HAY, "", SAMPLING_NOTHING_TO_SAY}, /* not tested at all: said elsewhere */
    };
    for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++)
        assert_int_equal(stack_sampling(only_stack(*state, CASES[i].stack, CASES[i].test)),
                         CASES[i].verdict);
}

static void hay_tests_last_a_year_and_silage_tests_a_month(void **state) {
    /* fed from 1 November 2026 */
    assert_false(
        stack_test_is_old(only_stack(*state, HAY, "A,dry matter,88,2025-11-01,20,10,38,60")));
    assert_true(
        stack_test_is_old(only_stack(*state, HAY, "A,dry matter,88,2025-10-31,20,10,38,60")));
    assert_false(
        stack_test_is_old(only_stack(*state, PIT, "A,dry matter,37,2026-10-02,5,10,34,52")));
    assert_true(
        stack_test_is_old(only_stack(*state, PIT, "A,dry matter,37,2026-10-01,5,10,34,52")));
    assert_false(stack_test_is_old(only_stack(*state, PIT, "A,dry matter,37,,5,10,34,52")));
}

/* ---- what is worth testing ---- */

static void assert_worth(void **state, const char *stack, const char *test, const char *first,
                         const char *second) {
    const char *analyses[MOST_WORTH_TESTING] = {"", ""};
    const Feedstuff *feed = &only_stack(*state, stack, test)->feed;
    feed_worth_testing(feed, limit_feeds_untested(feed), analyses);
    assert_string_equal(analyses[0], first);
    assert_string_equal(analyses[1], second);
}

static void
what_holds_a_feed_back_is_worth_testing_first_then_energy_then_minerals(void **state) {
    assert_worth(state, "A,round bales,oat greenfeed,net wrap rows,unrolled,90,50,,", "",
                 "nitrate", "protein, ADF, NDF and NDF digestibility");
    assert_worth(state, "A,round bales,slough hay,net wrap rows,unrolled,90,50,,",
                 "A,dry matter,88,2026-09-01,20,8,40,66", "NDF digestibility (48 h) or lignin",
                 "sulfur");
    assert_worth(state, HAY, "A,dry matter,88,2026-09-01,20,10,38,60",
                 "NDF digestibility (48 h) or lignin", "minerals (Ca, P, Mg, K, S)");
}

/* Silage that can hold ergot was told to be tested for the digestibility of its fibre. */
static void a_poison_nobody_looked_for_is_worth_testing_before_the_energy(void **state) {
    assert_worth(state, "A,bag,triticale silage,silage bag,bunk,40,50,,", "", "nitrate",
                 "ergot and vomitoxin (DON)");
    assert_worth(state, "A,bag,sorghum-sudan silage,silage bag,bunk,40,50,,", "", "nitrate",
                 "prussic acid");
    assert_worth(state, "A,bag,millet hay,silage bag,bunk,40,50,,", "", "nitrate",
                 "protein, ADF, NDF and NDF digestibility");
}

static const ReportSection *section_of(const Report *report, const char *key) {
    for (const ReportSection *at = report->first; at; at = at->next) {
        if (strcmp(at->key, key) == 0)
            return at;
    }
    print_error("no section '%s'\n", key);
    fail();
    return report->first;
}

static void the_largest_stack_is_the_first_worth_testing(void **state) {
    const Farm *farm =
        farm_of(*state, own_book(*state),
                STACK_HEAD "Small,round bales,brome hay,net wrap rows,unrolled,90,20\n"
                           "Large,round bales,brome hay,net wrap rows,unrolled,90,80\n"
                           "Middle,round bales,brome hay,net wrap rows,unrolled,90,50\n",
                "stack,basis,moisture_pct\n");
    const Report *report = feeds_report(*state, farm, UNITS_METRIC);
    const ReportSection *section = section_of(report, "worth_testing");
    static const char *const NAMES[] = {"Large", "Middle", "Small"};
    int count = 0;
    for (const ReportRow *row = section->first->table->first; row && count < 3; row = row->next)
        assert_string_equal(row->cells[0].text, NAMES[count++]);
    assert_int_equal(count, 3);
}

static bool has_remark(const Report *report, const char *topic, const char *part) {
    const ReportSection *section = section_of(report, "flags");
    for (const ReportPiece *at = section->first; at; at = at->next) {
        if (at->kind == PIECE_REMARK && strcmp(at->topic, topic) == 0 && strstr(at->text, part))
            return true;
    }
    return false;
}

static void what_is_assumed_of_a_feed_and_what_is_wrong_with_its_test_is_said(void **state) {
    const Farm *farm =
        farm_of(*state, own_book(*state),
                STACK_HEAD "Slough,round bales,slough hay,net wrap rows,unrolled,90,20\n"
                           "Pit,pit,barley silage,covered pit,bunk,55,300\n",
                TEST_HEAD "Slough,dry matter,88,2026-09-01,6,8,40,66\n"
                          "Pit,dry matter,37,2026-08-01,1,10,34,52\n");
    const Report *report = feeds_report(*state, farm, UNITS_METRIC);
    assert_true(has_remark(report, "sulfur", "Slough has no sulfur test"));
    assert_true(has_remark(report, "sampling", "Slough: tested from 6 bales; 20"));
    assert_true(has_remark(report, "sampling", "Pit: tested from 1 place of the face; 5"));
    assert_true(has_remark(report, "sampling", "92 days old")); /* 1 August to 1 November */
    assert_false(has_remark(report, "sulfur", "Pit"));
}

/* 3.2 of 17 is 18.8 % bound: 17 (107 - 18.8) / 100 = 14.99 [ADJUSTED_PROTEIN]. 18 % ash is 4
 * units of soil, 3.9 of TDN. */
static void what_heat_and_soil_took_off_a_test_is_said(void **state) {
    const Farm *farm =
        farm_of(*state, own_book(*state),
                STACK_HEAD "Hot,round bales,alfalfa hay mid,net wrap rows,unrolled,90,20\n"
                           "Dirty,round bales,brome hay,net wrap rows,unrolled,90,20\n",
                "stack,basis,moisture_pct,cores,crude_protein_pct,adicp_pct,adf_pct,ash_pct\n"
                "Hot,dry matter,12,20,17,3.2,36,9\n"
                "Dirty,dry matter,12,20,10,1.0,36,18\n");
    const Report *report = feeds_report(*state, farm, UNITS_METRIC);
    assert_true(has_remark(report, "heat",
                           "Hot: 19 % of the protein is bound by heat, so the 17.0 % tested "
                           "counts as 15.0 %"));
    assert_true(has_remark(report, "soil", "Dirty: 18.0 % ash is soil in part"));
    assert_true(has_remark(report, "soil", "3.9 units below"));
    assert_false(has_remark(report, "heat", "Dirty"));
    assert_false(has_remark(report, "soil", "Hot"));
}

#define WATCHED_HEAD "stack,kind,feed,storage,feeding,value_per_tonne,total_tonnes,watch_for\n"

static void
protein_of_bales_that_heated_is_doubted_until_what_is_bound_is_tested(void **state) {
    const Farm *farm =
        farm_of(*state, own_book(*state),
                WATCHED_HEAD "Brown,round bales,brome hay,net wrap rows,unrolled,90,20,heated\n"
                             "Known,round bales,brome hay,net wrap rows,unrolled,90,20,heated\n"
                             "Green,round bales,brome hay,net wrap rows,unrolled,90,20,\n",
                "stack,basis,moisture_pct,crude_protein_pct,adicp_pct\n"
                "Known,dry matter,12,11,1.6\n");
    const Report *report = feeds_report(*state, farm, UNITS_METRIC);
    assert_true(has_remark(report, "heated", "Brown heated and its bound protein (ADICP)"));
    assert_false(has_remark(report, "heated", "Known"));
    assert_false(has_remark(report, "heated", "Green"));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_line_of_the_list_reaches_the_book_the_tests_and_the_figures),
        UNIT_TEST(twenty_bales_or_all_of_fewer_and_five_places_are_wanted),
        UNIT_TEST(hay_tests_last_a_year_and_silage_tests_a_month),
        UNIT_TEST(what_holds_a_feed_back_is_worth_testing_first_then_energy_then_minerals),
        UNIT_TEST(a_poison_nobody_looked_for_is_worth_testing_before_the_energy),
        UNIT_TEST(the_largest_stack_is_the_first_worth_testing),
        UNIT_TEST(what_heat_and_soil_took_off_a_test_is_said),
        UNIT_TEST(protein_of_bales_that_heated_is_doubted_until_what_is_bound_is_tested),
        UNIT_TEST(what_is_assumed_of_a_feed_and_what_is_wrong_with_its_test_is_said),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
