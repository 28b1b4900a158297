/* A nutrient is one line of nutrient.def: these hold for every line, without naming one. */
#include "base/unit_family.h"
#include "feedstuff/feed_test.h"
#include "feedstuff/nutrient.h"
#include "support/unit.h"
#include <string.h>

static void every_nutrient_is_found_by_a_stem_of_its_own(void **state) {
    (void)state;
    for (int i = 0; i < NUTRIENT_COUNT; i++) {
        Nutrient found = NUTRIENT_COUNT;
        assert_true(nutrient_find(nutrient_kind((Nutrient)i)->stem, &found));
        assert_int_equal(found, i);
    }
    Nutrient left_alone = NUTRIENT_ADF;
    assert_false(nutrient_find("kopper", &left_alone));
    assert_int_equal(left_alone, NUTRIENT_ADF);
}

static void every_nutrient_has_a_label_a_unit_and_a_range(void **state) {
    (void)state;
    for (int i = 0; i < NUTRIENT_COUNT; i++) {
        const NutrientKind *kind = nutrient_kind((Nutrient)i);
        assert_true(kind->label[0] != '\0' && kind->unit[0] != '\0');
        assert_true(kind->least >= 0.0 && kind->most > kind->least);
        assert_true(kind->decimals >= 0 && kind->decimals <= 3);
        /* a share of another part is no supply of its own */
        assert_int_equal(kind->basis == BASIS_SCALES, kind->per_day > 0.0);
        assert_int_equal(kind->basis == BASIS_SCALES, kind->day_unit[0] != '\0');
    }
}

static void the_columns_are_those_of_the_list_and_may_all_be_left_out(void **state) {
    (void)state;
    SheetColumn columns[NUTRIENT_COUNT];
    nutrient_columns(columns);
    for (int i = 0; i < NUTRIENT_COUNT; i++) {
        assert_string_equal(columns[i].stem, nutrient_kind((Nutrient)i)->stem);
        assert_int_equal(columns[i].family, nutrient_kind((Nutrient)i)->family);
        assert_int_equal(columns[i].need, COLUMN_OPTIONAL);
    }
}

/* In the nutrient's own unit, and no laboratory's mistake. */
static double some_value(const NutrientKind *kind) {
    return fmin(fmax(4.0, 2.0 * kind->least), kind->most / 2.0);
}

static const FeedTest *read_one(Arena *arena, const char *heading, const char *basis,
                                double dry_matter, double written) {
    const char *bytes = arena_print(arena, "stack,basis,dry_matter_pct,%s\nA,%s,%g,%.12g\n",
                                    heading, basis, dry_matter, written);
    Faults faults = faults_new(arena);
    const FeedTests tests =
        feed_tests_parse(arena, &faults, "feed-tests.csv", bytes, strlen(bytes));
    if (faults.wrong_count > 0)
        print_error("%s\n%s", bytes, unit_faults(&faults, arena));
    assert_int_equal(faults.wrong_count, 0);
    assert_int_equal(tests.count, 1);
    return &tests.tests[0];
}

static void every_nutrient_is_read_from_feed_tests_under_each_of_its_headings(void **state) {
    for (int i = 0; i < NUTRIENT_COUNT; i++) {
        const NutrientKind *kind = nutrient_kind((Nutrient)i);
        int form_count;
        const UnitForm *forms = unit_forms(kind->family, &form_count);
        for (int f = 0; f < form_count; f++) {
            const double value = some_value(kind);
            const FeedTest *test =
                read_one(*state, arena_print(*state, "%s%s", kind->stem, forms[f].suffix),
                         "dry matter", 90, value / forms[f].times - forms[f].add);
            assert_int_equal(test->analysis.of[i].origin, FROM_LABORATORY);
            assert_near(test->analysis.of[i].value, value, value * 1e-9);
        }
    }
}

static void what_was_not_tested_comes_from_nowhere_and_is_not_zero(void **state) {
    const FeedTest *test = read_one(*state, "adf_pct", "dry matter", 90, 35);
    for (int i = 0; i < NUTRIENT_COUNT; i++) {
        assert_int_equal(reading_is_known(test->analysis.of[i]), i == NUTRIENT_ADF);
        if (i != NUTRIENT_ADF)
            assert_true(isnan(test->analysis.of[i].value));
    }
}

static void of_a_sheet_as_fed_only_shares_of_the_whole_feed_are_scaled(void **state) {
    for (int i = 0; i < NUTRIENT_COUNT; i++) {
        const NutrientKind *kind = nutrient_kind((Nutrient)i);
        int form_count;
        const UnitForm *form = unit_forms(kind->family, &form_count);
        const double value = some_value(kind);
        const double scale = kind->basis == BASIS_SCALES ? 0.5 : 1.0; /* half of it is water */
        const FeedTest *test =
            read_one(*state, arena_print(*state, "%s%s", kind->stem, form->suffix), "as fed",
                     50, value * scale / form->times - form->add);
        assert_near(test->analysis.of[i].value, value, value * 1e-9);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(every_nutrient_is_found_by_a_stem_of_its_own),
        UNIT_TEST(every_nutrient_has_a_label_a_unit_and_a_range),
        UNIT_TEST(the_columns_are_those_of_the_list_and_may_all_be_left_out),
        UNIT_TEST(every_nutrient_is_read_from_feed_tests_under_each_of_its_headings),
        UNIT_TEST(what_was_not_tested_comes_from_nowhere_and_is_not_zero),
        UNIT_TEST(of_a_sheet_as_fed_only_shares_of_the_whole_feed_are_scaled),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
