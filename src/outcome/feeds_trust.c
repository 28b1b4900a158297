#include "base/text.h"
#include "cattle/limit_feeds.h"
#include "feedstuff/feed_energy.h"
#include "feedstuff/feed_worth_testing.h"
#include "outcome/feeds_parts.h"
#include "stock/stack_sampling.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

#define COUNT(array) ((int)(sizeof(array) / sizeof((array)[0])))

/* ---- how far to trust the tests ---- */

static Cell error_cell(Arena *arena, Reading reading, SampleError error, int decimals) {
    if (!reading_is_known(reading) || isnan(error.working))
        return empty_cell();
    return text_cell(
        arena_print(arena, "%.*f +/- %.*f", decimals, reading.value, decimals, error.working));
}

static void add_between(Text *text, const char *name, double error, int decimals) {
    if (isfinite(error))
        text_print(text, "%s%s %.*f", text->length > 0 ? ", " : "", name, decimals, error);
}

static const char *between_words(Arena *arena, const Sampling *sampling) {
    Text text = text_new(arena);
    add_between(&text, "CP", sampling->crude_protein.between, 1);
    add_between(&text, "TDN", sampling->tdn.between, 1);
    add_between(&text, "NO3", sampling->nitrate.between, 2);
    return text.bytes ? text.bytes : "";
}

void feeds_add_trust(const Feeds *feeds) {
    static const ReportColumn COLUMNS[] = {
        {"feed", "Feed", "", 0},
        {"samples", "Samples", "", 1},
        {"cores", "Cores", "", 1},
        {"crude_protein", "CP", "%", 1},
        {"tdn", "TDN", "%", 1},
        {"nitrate", "Nitrate", "% NO3", 1},
        {"between", "Samples differ by", "", 0},
    };
    Arena *arena = feeds->report->arena;
    report_section(feeds->report, "trust", "How far to trust the tests");
    ReportTable *table = report_table(feeds->report, "trust", "", COLUMNS, COUNT(COLUMNS));
    for (int f = 0; f < feeds_count(feeds->farm); f++) {
        const Feedstuff *feed = feeds_at(feeds->farm, f);
        const Sampling *sampling = &feed->sampling;
        const Reading *of = feed->analysis.of;
        if (feed->sample_count == 0)
            continue;
        report_row(
            table,
            (Cell[]){text_cell(feed->name), number_cell(feed->sample_count, 0),
                     feed->core_count > 0.0 ? number_cell(feed->core_count, 0) : empty_cell(),
                     error_cell(arena, of[NUTRIENT_CRUDE_PROTEIN], sampling->crude_protein, 1),
                     error_cell(arena, of[NUTRIENT_TDN], sampling->tdn, 1),
                     error_cell(arena, of[NUTRIENT_NITRATE], sampling->nitrate, 2),
                     text_cell(between_words(arena, sampling))});
    }
    report_paragraph(
        feeds->report,
        "+/- is the standard error of forage by this project's working figures: bales of one "
        "stack differ by 1.5 units of protein, 4 of TDN and as much nitrate as there is; more "
        "cores make it less. The last column is what two or more samples show of themselves. "
        "Another TDN equation may differ by 2 units more.");
}

/* ---- worth testing ---- */

typedef struct {
    const Stack *stack;
    double dry_matter_kg;
} Sized;

static int by_dry_matter(const void *a, const void *b) {
    const Sized *first = a;
    const Sized *second = b;
    if (first->dry_matter_kg != second->dry_matter_kg)
        return first->dry_matter_kg < second->dry_matter_kg ? 1 : -1;
    return strcmp(first->stack->name, second->stack->name);
}

static const Sized *largest_first(const Feeds *feeds, int *count) {
    const Stacks *stacks = &feeds->farm->inventory.stacks;
    Sized *sorted = ARENA_ARRAY(feeds->report->arena, Sized, stacks->count);
    *count = 0;
    for (int i = 0; i < stacks->count; i++) {
        const Stack *stack = &stacks->stacks[i];
        const char *analyses[MOST_WORTH_TESTING];
        if (feed_worth_testing(&stack->feed, limit_feeds_untested(&stack->feed), analyses) > 0)
            sorted[(*count)++] = (Sized){stack, stack_dry_matter(stack).kg};
    }
    qsort(sorted, (size_t)*count, sizeof *sorted, by_dry_matter);
    return sorted;
}

void feeds_add_worth_testing(const Feeds *feeds) {
    Arena *arena = feeds->report->arena;
    const ReportColumn columns[] = {
        {"stack", "Stack", "", 0},
        {"dry_matter", "Dry matter", measure_unit(feeds->units, MEASURE_TONNAGE), 1},
        {"first", "First", "", 0},
        {"second", "Then", "", 0},
    };
    int count;
    const Sized *stacks = largest_first(feeds, &count);
    if (count == 0)
        return;
    ReportColumn *kept = ARENA_ARRAY(arena, ReportColumn, COUNT(columns));
    memcpy(kept, columns, sizeof columns);
    report_section(feeds->report, "worth_testing", "Worth testing");
    ReportTable *table = report_table(feeds->report, "worth_testing", "", kept, COUNT(columns));
    for (int i = 0; i < count; i++) {
        const char *analyses[MOST_WORTH_TESTING] = {"", ""};
        const Feedstuff *feed = &stacks[i].stack->feed;
        feed_worth_testing(feed, limit_feeds_untested(feed), analyses);
        report_row(table, (Cell[]){text_cell(stacks[i].stack->name),
                                   measure_cell(feeds->units, MEASURE_TONNAGE,
                                                stacks[i].dry_matter_kg),
                                   text_cell(analyses[0]), text_cell(analyses[1])});
    }
    report_paragraph(feeds->report,
                     "The analyses that would tell most: of a poison that such feed can hold, "
                     "and of what only the book tells now. Largest stack first.");
}

/* ---- worth knowing ---- */

static void add_nitrate_flags(const Feeds *feeds, const Feedstuff *feed) {
    Arena *arena = feeds->report->arena;
    if (feed->nitrate_is_assumed && feed->nitrate_for_safety > 1.0)
        report_remark(feeds->report, SEVERITY_CAUTION, "nitrate",
                      arena_print(arena,
                                  "%s has no nitrate test and is of a kind that can carry it: "
                                  "it is reckoned at %.1f %% NO3 until tested.",
                                  feed->name, feed->nitrate_for_safety),
                      "SDSU_NITRATE_WATER");
    if (!feed->nitrate_is_assumed && feed->nitrate_for_safety > 0.3)
        report_remark(feeds->report, SEVERITY_CAUTION, "nitrate",
                      arena_print(arena, "%s: nitrate is reckoned at %.2f %% NO3%s.",
                                  feed->name, feed->nitrate_for_safety,
                                  feed->nitrate_for_safety >
                                          reading_or(feed->analysis.of[NUTRIENT_NITRATE],
                                                     feed->nitrate_for_safety) +
                                              1e-9
                                      ? ", the highest sample, or the only one with 15 % added"
                                      : ""),
                      "MB_NITRATE");
}

static void add_untested_heat_flag(const Feeds *feeds, const Feedstuff *feed) {
    if (!(feed->watch & WATCH_BIT(WATCH_HEATED)) ||
        feed->analysis.of[NUTRIENT_ADICP].origin == FROM_LABORATORY)
        return;
    report_remark(feeds->report, SEVERITY_CAUTION, "heated",
                  arena_print(feeds->report->arena,
                              "%s heated and its bound protein (ADICP) was not tested: heat "
                              "binds protein, and cattle may get less of it than stands here.",
                              feed->name),
                  "");
}

static void add_sulfur_flag(const Feeds *feeds, const Feedstuff *feed) {
    if (!feed->sulfur_is_assumed)
        return;
    report_remark(feeds->report, SEVERITY_CAUTION, "sulfur",
                  arena_print(feeds->report->arena,
                              "%s has no sulfur test and is of a kind that gathers it: it is "
                              "reckoned at %.2f %% until tested.",
                              feed->name, feed->analysis.of[NUTRIENT_SULFUR].value),
                  "");
}

static void add_heat_flag(const Feeds *feeds, const Feedstuff *feed) {
    const double counted = feed->analysis.of[NUTRIENT_CRUDE_PROTEIN].value;
    const double tested = counted + feed->protein_lost_to_heat;
    if (feed->protein_lost_to_heat <= 0.0)
        return;
    report_remark(feeds->report, SEVERITY_CAUTION, "heat",
                  arena_print(feeds->report->arena,
                              "%s: %.0f %% of the protein is bound by heat, so the %.1f %% "
                              "tested counts as %.1f %%.",
                              feed->name,
                              100.0 * feed->analysis.of[NUTRIENT_ADICP].value / tested, tested,
                              counted),
                  "ADJUSTED_PROTEIN");
}

static void add_soil_flag(const Feeds *feeds, const Feedstuff *feed) {
    const double ash = reading_or(feed->analysis.of[NUTRIENT_ASH], 0.0);
    if (feed->route != ROUTE_FIBRE || tdn_lost_to_soil(ash) <= 0.0 ||
        feed->analysis.of[NUTRIENT_ASH].origin != FROM_LABORATORY)
        return;
    report_remark(feeds->report, SEVERITY_CAUTION, "soil",
                  arena_print(feeds->report->arena,
                              "%s: %.1f %% ash is soil in part, so its TDN is %.1f units below "
                              "what ADF says.",
                              feed->name, ash, tdn_lost_to_soil(ash)),
                  "");
}

static void add_sampling_flags(const Feeds *feeds, const Stack *stack) {
    Arena *arena = feeds->report->arena;
    const char *what = stack_is_in_bales(stack) ? "bales" : "places of the face";
    const char *one = stack_is_in_bales(stack) ? "bale" : "place of the face";
    const double wanted = stack_cores_wanted(stack);
    const SamplingVerdict verdict = stack_sampling(stack);
    if (verdict == SAMPLING_NOT_SAID)
        report_remark(feeds->report, SEVERITY_CAUTION, "sampling",
                      arena_print(arena,
                                  "%s: the test does not say how many %s it is of; %.0f are "
                                  "wanted, and it counts as one.",
                                  stack->name, what, wanted),
                      "NFTA_SAMPLING");
    if (verdict == SAMPLING_TOO_FEW)
        report_remark(feeds->report, SEVERITY_CAUTION, "sampling",
                      arena_print(arena, "%s: tested from %.0f %s; %.0f are wanted.",
                                  stack->name, stack->feed.core_count,
                                  stack->feed.core_count == 1.0 ? one : what, wanted),
                      "NFTA_SAMPLING");
    int days;
    if (stack_test_is_old(stack) && stack_test_days(stack, &days))
        report_remark(feeds->report, SEVERITY_CAUTION, "sampling",
                      arena_print(arena,
                                  "%s: the test will be %d days old when it is first fed; "
                                  "test %s again.",
                                  stack->name, days,
                                  days > MOST_DAYS_OF_HAY_TEST ? "it" : "silage"),
                      "");
}

void feeds_add_flags(const Feeds *feeds) {
    report_section(feeds->report, "flags", "Worth knowing");
    for (int f = 0; f < feeds_count(feeds->farm); f++) {
        const Feedstuff *feed = feeds_at(feeds->farm, f);
        add_nitrate_flags(feeds, feed);
        add_untested_heat_flag(feeds, feed);
        add_sulfur_flag(feeds, feed);
        add_heat_flag(feeds, feed);
        add_soil_flag(feeds, feed);
    }
    for (int i = 0; i < feeds->farm->inventory.stacks.count; i++)
        add_sampling_flags(feeds, &feeds->farm->inventory.stacks.stacks[i]);
    report_remark(
        feeds->report, SEVERITY_NOTE, "letters",
        "A figure without a letter is the laboratory's; c is calculated from it, b is the "
        "book's for the kind of feed named in the feed column, a is assumed. A dash is not "
        "known.",
        "");
}
