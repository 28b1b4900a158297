/* What would mend a winter that is short, in words and as figures. Amounts are rounded up as
 * they are shown, so that what is printed is enough. */
#include "base/text.h"
#include "outcome/day_words.h"
#include "outcome/plan_report.h"
#include <math.h>

#define COUNT(array) ((int)(sizeof(array) / sizeof((array)[0])))

/* 36.04 t is said as 36.1 t. */
static const char *enough_words(Arena *arena, Units units, double kg) {
    const Measure measure = weight_measure(kg);
    const double per_shown = pow(10.0, measure_decimals(units, measure));
    const double shown = measure_shown(units, measure, kg);
    const double up = ceil(shown * per_shown - 1e-9) / per_shown;
    return arena_print(arena, "%s %s",
                       number_words(arena, up, measure_decimals(units, measure)),
                       measure_unit_of_words(units, measure));
}

static Day last_day(const PlanQuestion *question, const Mend *mend) {
    return calendar_add(question->farm->winter.last_day, -(int)mend->enough);
}

static const char *purchase_words(Arena *arena, const PlanFindings *findings, int place,
                                  const char *name, double kg) {
    const char *amount = enough_words(arena, findings->units, kg);
    if (place < 0)
        return arena_print(arena, "%s of %s as the book has it, if it can be had", amount,
                           name);
    const PlanFeed *feed = &findings->plan->question->feeds[place];
    return arena_print(
        arena, "%s more of %s, at $%s %s%s", amount, name,
        number_words(arena, measure_shown(findings->units, MEASURE_PRICE, feed->price_per_kg),
                     0),
        measure_unit(findings->units, MEASURE_PRICE),
        feed->delivered_until
            ? arena_print(arena, ", hauled in by %s", day_words(arena, *feed->delivered_until))
            : "");
}

/* One purchase, or two together. */
static const char *purchases_words(Arena *arena, const PlanFindings *findings,
                                   const Mend *mend) {
    const MendBeside *beside = &mend->beside;
    const char *words = purchase_words(arena, findings, mend->place, mend->name, mend->enough);
    if (!beside->name)
        return words;
    return arena_print(
        arena, "%s, together with %s", words,
        purchase_words(arena, findings, beside->place, beside->name, beside->kg));
}

#define GAIN_DECIMALS 2

/* What is left to ask of them is rounded down. */
static const char *less_gain_words(Arena *arena, const PlanFindings *findings,
                                   const Mend *mend) {
    const double asked =
        findings->plan->question->farm->herd.groups[mend->place].gain.kg_per_day;
    const double left =
        measure_shown(findings->units, MEASURE_FEED, fmax(asked - mend->enough, 0.0));
    return arena_print(arena, "%s to gain %s %s a day instead of %s", mend->name,
                       number_words(arena, floor(left * 100.0 + 1e-9) / 100.0, GAIN_DECIMALS),
                       measure_unit(findings->units, MEASURE_FEED),
                       number_words(arena, measure_shown(findings->units, MEASURE_FEED, asked),
                                    GAIN_DECIMALS));
}

static bool is_of_two_tests(const Mend *mend) {
    return mend->kind == MEND_TEST && mend->other_test.reckoned > 0.0;
}

/* What a laboratory may find is rounded down. */
static const char *reported_words(Arena *arena, Nutrient nutrient, double reported) {
    const NutrientKind *kind = nutrient_kind(nutrient);
    const double per_shown = pow(10.0, kind->decimals);
    return arena_print(
        arena, "%s %s",
        number_words(arena, floor(reported * per_shown + 1e-9) / per_shown, kind->decimals),
        kind->unit);
}

static const char *test_words(Arena *arena, const PlanQuestion *question, const Mend *mend) {
    const char *stem = nutrient_kind(mend->test.nutrient)->stem;
    const char *most =
        reported_words(arena, mend->test.nutrient, mend_reported(mend, mend->enough));
    if (!is_of_two_tests(mend))
        return arena_print(arena,
                           "have %s tested for %s: with a report of one sample of no more than "
                           "%s in dry matter the winter is balanced",
                           mend->name, stem, most);
    const UntestedFeed *other = &mend->other_test;
    return arena_print(
        arena,
        "have %s tested for %s and %s for %s: with reports of one sample of no more than %s "
        "and "
        "%s in dry matter the winter is balanced",
        mend->name, stem, question->feeds[other->feed].name,
        nutrient_kind(other->nutrient)->stem, most,
        reported_words(arena, other->nutrient, mend_other_reported(mend, mend->enough)));
}

static const char *mend_words(Arena *arena, const PlanFindings *findings, const Mend *mend) {
    const PlanQuestion *question = findings->plan->question;
    switch (mend->kind) {
    case MEND_TEST:
        return test_words(arena, question, mend);
    case MEND_MORE_FOR_SALE:
    case MEND_BOOK_FEED:
        return purchases_words(arena, findings, mend);
    case MEND_LESS_GAIN:
        return less_gain_words(arena, findings, mend);
    case MEND_LESS_CARRY_OVER:
        return arena_print(arena, "%s less dry matter of own forage left over at the end",
                           enough_words(arena, findings->units, mend->enough));
    case MEND_FEWER_HEAD:
        return arena_print(
            arena, "%s%.0f head fewer of %s, from the first day",
            mend->enough >= question->farm->herd.groups[mend->place].head - 0.5 ? "all " : "",
            mend->enough, mend->name);
    case MEND_FEWER_DAYS:
        break;
    }
    return arena_print(arena, "%.0f %s less to feed, so that the last is %s", mend->enough,
                       mend->enough == 1.0 ? "day" : "days",
                       day_words(arena, last_day(question, mend)));
}

/* A test mends nothing if it comes out high: what is sure is named first, and then the test. */
const char *cheapest_mend_words(Arena *arena, const PlanFindings *findings) {
    const Mend *mends = findings->mends;
    int tests = 0;
    while (tests < findings->mend_count && mends[tests].kind == MEND_TEST)
        tests++;
    Text text = text_new(arena);
    if (tests < findings->mend_count)
        text_print(&text, " What would mend it, %s: %s%s.",
                   mends[tests].beside.name ? "two things together" : "alone",
                   mend_words(arena, findings, &mends[tests]),
                   findings->mend_count > tests + 1 ? "; more ways below" : "");
    if (tests > 0)
        text_print(&text, " What might, %s: %s%s.",
                   is_of_two_tests(&mends[0]) ? "two tests together" : "alone",
                   mend_words(arena, findings, &mends[0]),
                   tests > 1 ? "; or other tests below" : "");
    return text.bytes;
}

void plan_report_mends(Report *report, const PlanFindings *findings) {
    static const ReportColumn COLUMNS[] = {
        {"mend", "Any one of these", "", 0},
        {"cost", "Costs", "$", 1},
    };
    if (findings->plan->verdict != PLAN_SHORT)
        return;
    report_section(report, "mends", "What would mend it");
    if (findings->mend_count == 0) {
        report_paragraph(report,
                         "Nothing that was tried mends it: not more of a feed for sale, hay, "
                         "barley, canola meal or a mineral besides, nor two of these together, "
                         "fewer head or less gain of one group, less kept for spring, nor a "
                         "shorter winter. It takes more at once: look at what is lacking, add "
                         "feeds to for-sale.csv and plan again.");
        return;
    }
    ReportTable *table = report_table(report, "mends", "", COLUMNS, COUNT(COLUMNS));
    for (int i = 0; i < findings->mend_count; i++)
        report_row(table,
                   (Cell[]){text_cell(mend_words(report->arena, findings, &findings->mends[i])),
                            number_cell(findings->mends[i].cost, 0)});
    report_paragraph(report,
                     "Each was planned: with it every group is balanced, and with less, by no "
                     "more than %.1f %% of it, or one head or day, not. The cost is what is "
                     "paid for that feed and its hauling; where none stands the price is not "
                     "known here.",
                     MEND_CLOSE * 100.0);
    bool any_pair = false;
    bool any_test = false;
    bool any_of_book = false;
    for (int i = 0; i < findings->mend_count; i++) {
        any_pair |= findings->mends[i].beside.name != NULL;
        any_test |= findings->mends[i].kind == MEND_TEST;
        any_of_book |= findings->mends[i].kind == MEND_BOOK_FEED;
    }
    if (any_of_book)
        report_paragraph(report,
                         "Of a feed as the book has it %.0f %% is reckoned to be wasted as it "
                         "is fed: from a bunk less of it will do, on the ground it takes more.",
                         BOOK_WASTE_SHARE * 100.0);
    if (any_test)
        report_paragraph(
            report,
            "A feed that nobody tested is reckoned with as the worst of its kind. "
            "A test mends the winter only if it comes out that low, of two both, and the stack "
            "stays as limited as it is until the report is in feed-tests.csv. Take "
            "cores from all over the stack; of nitrate one sample is raised by "
            "%.0f %% for the rest of it, and of several the highest counts.",
            (NITRATE_SINGLE_SAMPLE_MARGIN - 1.0) * 100.0);
    if (any_pair)
        report_paragraph(report, "Of two feeds together the amount of the second is one that "
                                 "will do, and that of the first the least beside it.");
}

static const char *unit_of(Arena *arena, const Mend *mend) {
    switch (mend->kind) {
    case MEND_TEST:
        return arena_print(arena, "%s less than is reckoned with",
                           nutrient_kind(mend->test.nutrient)->unit);
    case MEND_MORE_FOR_SALE:
    case MEND_BOOK_FEED:
        return "kg as fed";
    case MEND_FEWER_HEAD:
        return "head";
    case MEND_LESS_GAIN:
        return "kg a day";
    case MEND_LESS_CARRY_OVER:
        return "kg dry matter";
    case MEND_FEWER_DAYS:
        break;
    }
    return "days";
}

static void add_other_test(Figure *of, const PlanQuestion *question, const Mend *mend) {
    const UntestedFeed *other = &mend->other_test;
    Figure *with = figure_child(of, "together_with");
    figure_text(with, "kind", "test");
    figure_text(with, "name", question->feeds[other->feed].name);
    figure_text(with, "nutrient", nutrient_kind(other->nutrient)->stem);
    figure_number(with, "reported_by_one_sample_at_most",
                  mend_other_reported(mend, mend->enough));
}

static void add_beside(Figure *of, const MendBeside *beside) {
    if (!beside->name) {
        figure_nothing(of, "together_with");
        return;
    }
    Figure *with = figure_child(of, "together_with");
    figure_text(with, "kind", beside->book ? "book_feed" : "more_for_sale");
    figure_text(with, "name", beside->name);
    figure_number(with, "kg_as_fed", beside->kg);
}

static const char *kind_name(MendKind kind) {
    switch (kind) {
    case MEND_TEST:
        return "test";
    case MEND_MORE_FOR_SALE:
        return "more_for_sale";
    case MEND_BOOK_FEED:
        return "book_feed";
    case MEND_FEWER_HEAD:
        return "fewer_head";
    case MEND_LESS_GAIN:
        return "less_gain";
    case MEND_LESS_CARRY_OVER:
        return "less_carry_over";
    case MEND_FEWER_DAYS:
        break;
    }
    return "fewer_days";
}

void plan_mend_figures(Figure *root, const PlanFindings *findings) {
    Figure *list = figure_list(root, "mends");
    for (int i = 0; i < findings->mend_count; i++) {
        const Mend *mend = &findings->mends[i];
        const bool is_days = mend->kind == MEND_FEWER_DAYS;
        Figure *of = figure_list_object(list);
        figure_text(of, "kind", kind_name(mend->kind));
        figure_text(of, "name", mend->name[0] == '\0' ? NULL : mend->name);
        figure_text(of, "unit", unit_of(root->arena, mend));
        figure_number(of, "enough", mend->enough);
        figure_number(of, "not_enough", mend->not_enough);
        figure_number(of, "cost", mend->cost);
        if (is_of_two_tests(mend))
            add_other_test(of, findings->plan->question, mend);
        else
            add_beside(of, &mend->beside);
        const bool is_test = mend->kind == MEND_TEST;
        figure_text(of, "nutrient", is_test ? nutrient_kind(mend->test.nutrient)->stem : NULL);
        figure_number(of, "reported_by_one_sample_at_most",
                      is_test ? mend_reported(mend, mend->enough) : (double)NAN);
        figure_text(of, "last_day",
                    is_days ? day_iso(root->arena, last_day(findings->plan->question, mend))
                            : NULL);
    }
}
