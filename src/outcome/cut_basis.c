/* What the answer rests on: the year, the yields and tests and whose they are, and what no plan
 * a year ahead can know. */
#include "base/text.h"
#include "outcome/cut_report.h"
#include <math.h>

static const char *year_words(YearName name) {
    switch (name) {
    case YEAR_EXPECTED:
        return "As expected";
    case YEAR_DRY_CUTS:
        return "No rain on any cut";
    case YEAR_WET_CUTS:
        return "Rain on every cut";
    case YEAR_THIN:
        return "Yields one spread lower";
    case YEAR_HEAVY:
        return "Yields one spread higher";
    case YEAR_POOR_TESTS:
        return "Tests one spread poorer";
    case YEAR_COUNT:
        break;
    }
    return "";
}

/* In how many of the years the first is no dearer than the second, of those that tell of both.
 */
static void add_count(Report *report, const CutFindings *findings, FutureName first,
                      FutureName second) {
    int told = 0;
    int cheaper = 0;
    for (int y = 0; y < YEAR_COUNT; y++) {
        const double a = findings->year_cost[y][first];
        const double b = findings->year_cost[y][second];
        told += isfinite(a) && isfinite(b);
        cheaper += isfinite(a) && isfinite(b) && a <= b;
    }
    if (told > 0)
        report_paragraph(report, "\"%s\" costs no more than \"%s\" in %d of %d of these years.",
                         future_words(report->arena, findings, first),
                         future_words(report->arena, findings, second), cheaper, told);
}

static void add_counts(Report *report, const CutFindings *findings) {
    const bool has_offer = findings->wishes.offer >= 0;
    const FutureName early = has_offer ? FUTURE_FIRST_BUY : FUTURE_FIRST;
    const FutureName late = has_offer ? FUTURE_SECOND_BUY : FUTURE_SECOND;
    const bool late_is_best = findings->cheapest != FUTURE_COUNT && findings->cheapest % 2 == 1;
    add_count(report, findings, FUTURE_PLANNED, late_is_best ? late : early);
    add_count(report, findings, late_is_best ? late : early, late_is_best ? early : late);
}

static void add_years(Report *report, const CutFindings *findings) {
    report_section(report, "years", "If the year turns out otherwise");
    ReportTable *table =
        futures_table(report, findings, "years", "What the winter then costs, acres as planned",
                      "The year", "$");
    for (int y = 0; y < YEAR_COUNT; y++) {
        Cell cells[FUTURE_COUNT + 1] = {text_cell(year_words((YearName)y))};
        int count = 1;
        for (int name = 0; name < FUTURE_COUNT; name++) {
            if (findings->is_there[name])
                cells[count++] = number_cell(findings->year_cost[y][name], 0);
        }
        report_row(table, cells);
    }
    add_counts(report, findings);
    report_paragraph(
        report, "Rain counts in the plan with the chance of each row: the second and third "
                "line are the two cases behind it. A spread is one standard deviation, so "
                "one year in six is worse. An empty cell: the herd cannot then be fed in "
                "balance from these acres and what is for sale.");
}

static const char *origin_mark(bool by_curve) { return by_curve ? "curve" : "own"; }

static const char *test_words(const FieldCut *cut, const Feedstuff *feed) {
    const bool tdn_by_curve = cut->test_by_curve[GROWN_TDN];
    if (feed->analysis.of[NUTRIENT_TDN].origin == FROM_BOOK)
        return cut->has_own_test ? "own, TDN book" : "book";
    if (tdn_by_curve != cut->test_by_curve[GROWN_PROTEIN])
        return "own and curve";
    return origin_mark(tdn_by_curve);
}

static void add_crops(Report *report, const CutFindings *findings, Units units) {
    const Fields *fields = &findings->farm->fields;
    const ReportColumn columns[] = {
        {"cut", "Field, day and way", "", 0},
        {"yield", "Stands", measure_unit(units, MEASURE_CROP), 1},
        {"protein", "CP", "%", 1},
        {"tdn", "TDN", "%", 1},
        {"from", "Yield, test", "", 0},
    };
    ReportTable *table =
        report_table(report, "crops", "The crop as expected, dry matter", columns, 5);
    for (int c = 0; c < fields->cut_count; c++) {
        const FieldCut *cut = &fields->cuts[c];
        const Feedstuff *feed = findings->question.question.feeds[c].feed;
        const Cell cells[] = {
            text_cell(cut->name), measure_cell(units, MEASURE_CROP, cut->yield_kg_per_hectare),
            number_cell(reading_or(feed->analysis.of[NUTRIENT_CRUDE_PROTEIN], (double)NAN), 1),
            number_cell(reading_or(feed->analysis.of[NUTRIENT_TDN], (double)NAN), 1),
            text_cell(arena_print(report->arena, "%s, %s",
                                  origin_mark(cut->yield_origin == GROWN_BY_CURVE),
                                  test_words(cut, feed)))};
        report_row(table, cells);
    }
}

static void add_money(Report *report, const CutFindings *findings, Units units) {
    const Fields *fields = &findings->farm->fields;
    const ReportColumn columns[] = {
        {"cut", "Field, day and way", "", 0},
        {"stage", "Stage", "", 0},
        {"rain", "Rain", "%", 1},
        {"made", "Comes home", measure_unit(units, MEASURE_CROP), 1},
        {"cost", "Cost", measure_unit(units, MEASURE_AREA_COST), 1},
        {"grazing", "Grazed", measure_unit(units, MEASURE_AREA_COST), 1},
    };
    ReportTable *table = report_table(
        report, "money",
        "Chance of rain on the cut, dry matter home, cost with seed, worth of regrowth",
        columns, 6);
    for (int c = 0; c < fields->cut_count; c++) {
        const FieldCut *cut = &fields->cuts[c];
        const double grazing = field_cut_grazing(cut);
        const GrowingYear year = growing_year_expected();
        const Cell cells[] = {
            text_cell(cut->name),
            text_cell(cut->curve && !isnan(cut->days) ? growth_stage_name(cut->curve, cut->days)
                                                      : ""),
            number_cell(100.0 * cut->rain_chance, 0),
            measure_cell(units, MEASURE_CROP, field_cut_put_up(cut, year) * cut->dry_share),
            measure_cell(units, MEASURE_AREA_COST, field_cut_cost(cut, year) + grazing),
            measure_cell(units, MEASURE_AREA_COST, grazing)};
        report_row(table, cells);
    }
}

static void add_curve_words(Report *report, const CutFindings *findings) {
    const Fields *fields = &findings->farm->fields;
    int by_curve = 0;
    for (int c = 0; c < fields->cut_count; c++)
        by_curve += fields->cuts[c].yield_origin == GROWN_BY_CURVE ||
                    fields->cuts[c].test_by_curve[GROWN_TDN];
    if (by_curve > 0)
        report_paragraph(
            report,
            "%d of %d rows take a yield or a test from a working curve of growth: this "
            "project's own, laid through published anchors (boot yields about two fifths of "
            "dough; protein falls from 18 to 10 %% between them), and no trial of your fields. "
            "Rows of the same field draw it through their own figures; two dated tests of a "
            "field settle most of it. [UMN_SMALL_GRAIN UNL_SMALL_GRAIN CHERNEY_1982 "
            "KHORASANI_1997]",
            by_curve, fields->cut_count);
}

static bool lacks_nitrate(const FieldCut *cut) {
    return cut->tested.mean.of[NUTRIENT_NITRATE].origin == FROM_ASSUMPTION &&
           feed_class_kind(cut->book->feed_class)->untested_nitrate_pct > 0.0;
}

/* The first limit that keeps a cut from a group; NULL: its groups column does. */
static const SafetyLimit *limit_that_bars(const PlanQuestion *question, int cut) {
    for (int b = 0; b < question->block_count; b++) {
        const SafetyLimit *limit = question->barred_by[b * question->feed_count + cut];
        if (limit)
            return limit;
    }
    return NULL;
}

/* A cut that no cattle may have looks like one that is only too dear. */
static void add_barred(Report *report, const CutFindings *findings) {
    const PlanQuestion *question = &findings->question.question;
    for (int c = 0; c < question->own_count; c++) {
        if (plan_may_be_fed(question, c))
            continue;
        const SafetyLimit *limit = limit_that_bars(question, c);
        report_remark(report, SEVERITY_CAUTION, "Fed to nobody",
                      arena_print(report->arena,
                                  "%s may be fed to no group, as it is expected to test%s%s: "
                                  "none of it is fed.",
                                  question->feeds[c].name, limit ? ": " : "",
                                  limit ? limit->label : ""),
                      "");
    }
}

static void add_cautions(Report *report, const CutFindings *findings) {
    const Fields *fields = &findings->farm->fields;
    Text names = text_new(report->arena);
    int count = 0;
    for (int c = 0; c < fields->cut_count; c++) {
        if (lacks_nitrate(&fields->cuts[c]))
            text_print(&names, "%s%s", count++ > 0 ? "; " : "", fields->cuts[c].name);
    }
    if (count > 0)
        report_remark(
            report, SEVERITY_CAUTION, "Nitrate",
            arena_print(report->arena,
                        "No nitrate is expected in fields.csv for: %s. They are reckoned with "
                        "none. Greenfeed cut young, or after drought, frost or hail, can carry "
                        "enough to kill; no plan a year ahead clears it.",
                        names.bytes),
            "CLEMSON_NITRATE COLORADO_NITRATE");
    add_barred(report, findings);
    report_remark(
        report, SEVERITY_CAUTION, "Test before it is fed",
        "Whatever is cut, sample every stack of it, nitrate with it, before the first "
        "bale is fed, and plan the winter anew from the tests. Hay put up damp heats, "
        "and silage gives off gas that kills: see what the README says of both.",
        "");
}

void cut_report_basis(Report *report, const CutFindings *findings, Units units) {
    add_years(report, findings);
    report_section(report, "basis", "What it rests on");
    add_crops(report, findings, units);
    add_money(report, findings, units);
    add_curve_words(report, findings);
    report_paragraph(report,
                     "Prices, custom rates and what left-over feed would fetch are those of "
                     "your files today; so are the cattle and the days of feeding. Whoever "
                     "feeds your herd with you, a nutritionist above all, should see this "
                     "before seed is bought.");
    add_cautions(report, findings);
}
