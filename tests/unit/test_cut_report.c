#include "outcome/cut_report.h"
#include "support/text_farm.h"
#include <stdlib.h>

#define HEAD                                                                                   \
    "field,area_hectares,feed,growth,seeded_date,cut_date,way,yield_tonnes_per_hectare,"       \
    "yield_basis,nitrate_no3_pct,basis,storage,feeding\n"
#define REST ",dry matter,net wrap rows,unrolled\n"
#define EARLY "Home,60,cover-crop hay early,mix,2026-05-20,2026-07-19,hay,,,"
#define LATE "Home,60,cover-crop hay late,mix,2026-05-20,2026-08-15,hay,4.9,dry matter,"
#define GRAIN                                                                                  \
    "Barley,barley grain,260,bunk\nCanola meal,canola meal,390,bunk\n"                         \
    "Hay,brome hay,190,unrolled\n"

static const Report *page_of(Arena *arena, const char *fields, const char *grain, int offer) {
    const char *const bytes[FARM_FILE_COUNT] = {
        [FARM_HERD] = "group,class,head,weight_kg,calving_start,calving_end,delivery\n"
                      "Cows,cow,60,610,2027-04-01,2027-05-10,mixed\n",
        [FARM_STACKS] = "stack,kind,feed,total_tonnes,storage,feeding,value_per_tonne,groups\n"
                        "Elsewhere,loose,brome hay,1,shed,bunk,400,Others\n",
        [FARM_FOR_SALE] = arena_print(arena,
                                      "feed_for_sale,feed,price_per_tonne,feeding\n%s"
                                      "Mineral,mineral 2:1,1900,bunk\n"
                                      "Limestone,limestone,350,bunk\n",
                                      grain),
        [FARM_WINTER] = "setting,value\nfirst_day,2026-11-01\nlast_day,2027-03-31\n",
        [FARM_FIELDS] = fields,
    };
    const CutWishes wishes = {.offer = offer};
    CutFindings *findings = ARENA_NEW(arena, CutFindings);
    *findings = cut_findings(arena, text_farm(arena, bytes), &wishes);
    return cut_report(arena, findings, UNITS_METRIC);
}

static bool says(const Report *report, const char *words) {
    if (strstr(report->verdict, words))
        return true;
    for (const ReportSection *section = report->first; section; section = section->next) {
        for (const ReportPiece *piece = section->first; piece; piece = piece->next) {
            if (piece->text && strstr(piece->text, words))
                return true;
        }
    }
    return false;
}

static bool has_section(const Report *report, const char *key) {
    for (const ReportSection *section = report->first; section; section = section->next) {
        if (text_same(section->key, key))
            return true;
    }
    return false;
}

static void a_crop_without_an_expected_nitrate_is_told_and_one_with_it_is_not(void **state) {
    static const char words[] = "No nitrate is expected in fields.csv for: Home, 2026-07-19, "
                                "hay; Home, 2026-08-15, hay";
    const Report *none = page_of(*state, HEAD EARLY REST LATE REST, GRAIN, 0);
    assert_true(says(none, words));
    const Report *some = page_of(*state, HEAD EARLY "0.1" REST LATE "0.1" REST, GRAIN, 0);
    assert_false(says(some, "No nitrate is expected"));
    assert_true(says(some, "sample every stack of it"));
}

static void a_cut_that_breaks_a_limit_alone_is_told_to_be_fed_to_nobody(void **state) {
    const Report *report = page_of(*state, HEAD EARLY "1.5" REST LATE "0.1" REST, GRAIN, 0);
    assert_true(says(report, "Home, 2026-07-19, hay may be fed to no group"));
    assert_false(says(report, "Home, 2026-08-15, hay may be fed to no group"));
}

static void what_follows_the_curve_is_told_to_be_no_trial_of_these_fields(void **state) {
    const Report *report = page_of(*state, HEAD EARLY "0.1" REST LATE "0.1" REST, GRAIN, 0);
    assert_true(says(report, "2 of 2 rows take a yield or a test from a working curve"));
    assert_true(says(report, "no trial of your fields"));
}

/* Ten hectares and no feed for sale: nobody can be fed, and who lacks what is said. */
static void a_winter_that_no_cut_can_feed_says_who_lacks_what(void **state) {
    const Report *report = page_of(
        *state,
        HEAD
        "Home,10,cover-crop hay late,mix,2026-05-20,2026-08-15,hay,4.9,dry matter,0.1" REST,
        "", -1);
    assert_int_equal(report->verdict_severity, SEVERITY_DANGER);
    assert_true(says(report, "it leaves Cows short of"));
    /* 49 t of dry matter stand; 60 cows eat 10 kg and more on 151 days, 90 t: where it is worst
     * at least the share that the whole winter lacks is lacking, and not all. */
    const char *by = strstr(report->verdict, ", by ");
    assert_non_null(by);
    const double percent = strtod(by + strlen(", by "), NULL);
    assert_true(percent >= 100.0 * (1.0 - 49.0 / 90.0) && percent <= 100.0);
    assert_non_null(strstr(by, " % of it and most from "));
    assert_false(has_section(report, "turn"));
}

static void without_a_grain_there_is_no_price_that_turns_the_answer(void **state) {
    const Report *with = page_of(*state, HEAD EARLY "0.1" REST LATE "0.1" REST, GRAIN, 0);
    const Report *without = page_of(*state, HEAD EARLY "0.1" REST LATE "0.1" REST, GRAIN, -1);
    assert_true(has_section(with, "turn"));
    assert_false(has_section(without, "turn"));
}

static void two_days_that_come_to_the_same_cuts_are_told_to_be_one(void **state) {
    static const char words[] = "both days of cutting come to the same cuts";
    const Report *two = page_of(*state, HEAD EARLY "0.1" REST LATE "0.1" REST, GRAIN, 0);
    assert_false(says(two, words));
    const Report *one = page_of(*state, HEAD LATE "0.1" REST, GRAIN, 0);
    assert_true(says(one, words));
    assert_false(says(one, "$0 less"));
}

static const ReportChart *chart_of(const Report *report) {
    for (const ReportSection *section = report->first; section; section = section->next) {
        for (const ReportPiece *piece = section->first; piece; piece = piece->next) {
            if (piece->kind == PIECE_CHART && text_same(piece->chart->key, "cut_costs"))
                return piece->chart;
        }
    }
    fail_msg("the page has no chart");
    abort();
}

static const ReportTable *table_of_costs(const Report *report) {
    for (const ReportSection *section = report->first; section; section = section->next) {
        for (const ReportPiece *piece = section->first; piece; piece = piece->next) {
            if (piece->kind != PIECE_TABLE || !text_same(piece->table->key, "costs"))
                continue;
            return piece->table;
        }
    }
    fail_msg("the page has no total");
    abort();
}

static void the_bars_of_what_next_year_costs_add_up_to_the_totals_of_the_table(void **state) {
    const Report *report = page_of(*state, HEAD EARLY "0.1" REST LATE "0.1" REST, GRAIN, 0);
    const ReportChart *chart = chart_of(report);
    const ReportTable *table = table_of_costs(report);
    const Cell *total = table->last->cells;
    assert_true(table->last->is_total);
    double bars[8] = {0.0};
    for (const ChartSeries *series = chart->first_series; series; series = series->next) {
        for (int i = 0; i < series->count; i++)
            bars[(int)series->points[i].x] += series->points[i].y;
    }
    int bar = 0;
    for (int column = 1; column < table->column_count; column++) {
        if (total[column].kind == CELL_NUMBER)
            assert_near(bars[bar++], total[column].number, 1e-6);
    }
    assert_true(bar >= 3);
    assert_near(bars[bar], 0.0, 0.0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_crop_without_an_expected_nitrate_is_told_and_one_with_it_is_not),
        UNIT_TEST(a_cut_that_breaks_a_limit_alone_is_told_to_be_fed_to_nobody),
        UNIT_TEST(what_follows_the_curve_is_told_to_be_no_trial_of_these_fields),
        UNIT_TEST(a_winter_that_no_cut_can_feed_says_who_lacks_what),
        UNIT_TEST(the_bars_of_what_next_year_costs_add_up_to_the_totals_of_the_table),
        UNIT_TEST(two_days_that_come_to_the_same_cuts_are_told_to_be_one),
        UNIT_TEST(without_a_grain_there_is_no_price_that_turns_the_answer),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
