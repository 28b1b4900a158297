#include "outcome/stock_report.h"
#include "base/text.h"
#include "outcome/day_words.h"
#include "outcome/plan_findings.h"
#include "outcome/record_gap.h"
#include <math.h>

#define COUNT(array) ((int)(sizeof(array) / sizeof((array)[0])))

static const Stack *stack_of(const StockFindings *findings, const StockStack *of) {
    return &findings->farm->inventory.stacks.stacks[of->stack];
}

static double dry_share(const Stack *stack) {
    return stack->feed.analysis.dry_matter.value / 100.0;
}

static bool runs_out(const StockStack *of) {
    return of->basis == RUNOUT_BY_RECENT || of->basis == RUNOUT_BY_PLAN;
}

/* ---- the verdict: what runs out first, and how long it lasts ---- */

static const char *first_words(Arena *arena, const StockFindings *findings) {
    Text text = text_new(arena);
    for (int i = 0; i < findings->stack_count && i < 2; i++) {
        const StockStack *of = &findings->stacks[i];
        if (!runs_out(of))
            break;
        text_print(&text, "%s %s, on %s (%d days from now)%s",
                   i == 0 ? "First to run out is" : ", then", stack_of(findings, of)->name,
                   day_words(arena, of->last_fed),
                   calendar_days_between(findings->day, of->last_fed),
                   i == 0 && of->basis == RUNOUT_BY_RECENT ? ", fed as in the last two weeks"
                   : i == 0 ? ", by the plan of the rest of winter"
                            : "");
    }
    return text.length > 0 ? arena_print(arena, "%s.", text.bytes)
                           : "No stack that is fed runs out before the last feeding day.";
}

static const char *stopped_words(Arena *arena, const StockFindings *findings) {
    const DaysOnHand *days = &findings->days;
    if (!days->stopped_by.limit)
        return findings->farm->winter.carry_over_kg > 0.0
                   ? "it would take what is to be carried over"
                   : "there is too little of it";
    return arena_print(arena, "it lacks %s for %s", days->stopped_by.limit->label,
                       findings->rest->question->farm->herd.names[days->stopped_by.group]);
}

static const char *lasts_words(Arena *arena, const StockFindings *findings) {
    const DaysOnHand *days = &findings->days;
    if (!findings->rest)
        return "";
    if (days->lasts_all_winter)
        return arena_print(
            arena, " Own feed, with minerals and supplements, can balance every group to %s.",
            day_words(arena, findings->farm->winter.last_day));
    if (days->balanced_days == 0)
        return arena_print(arena,
                           " Own feed, with minerals and supplements, does not balance every "
                           "group on any day: %s.",
                           stopped_words(arena, findings));
    return arena_print(arena,
                       " Own feed, with minerals and supplements, can balance every group for "
                       "%d days, to %s; from then on %s.",
                       days->balanced_days, day_words(arena, days->balanced_until),
                       stopped_words(arena, findings));
}

static void add_verdict(Report *report, const StockFindings *findings) {
    Arena *arena = report->arena;
    const bool is_short = stock_is_short(findings);
    report_verdict(
        report, is_short ? SEVERITY_DANGER : SEVERITY_NOTE, "%s%s%s%s%s",
        record_has_gap(findings->farm, findings->day)
            ? "Days of feeding are not written down, so there is less than this says. "
            : "",
        first_words(arena, findings), lasts_words(arena, findings),
        stock_chance_words(arena, findings),
        is_short ? " With all that is for sale the rest of winter cannot be balanced: "
                   "`winterstack plan` with --from says what is short."
                 : "");
}

/* ---- what is left ---- */

static const char *runout_words(Arena *arena, const StockStack *of) {
    switch (of->basis) {
    case RUNOUT_BY_RECENT:
    case RUNOUT_BY_PLAN:
        return day_words(arena, of->last_fed);
    case RUNOUT_EMPTY:
        return of->book.is_marked_empty
                   ? arena_print(arena, "empty %s", day_short(arena, of->book.recount->date))
                   : "empty";
    case RUNOUT_NONE:
        break;
    }
    return of->book.was_fed_recently || of->is_planned ? "lasts" : "not fed";
}

static const char *basis_words(const StockStack *of) {
    if (of->basis == RUNOUT_EMPTY)
        return "";
    return of->book.was_fed_recently ? "2 weeks" : of->is_planned ? "plan" : "";
}

static void add_left(Report *report, const StockFindings *findings, Units units) {
    const char *tons = measure_unit(units, MEASURE_TONNAGE);
    const char *weight = measure_unit(units, MEASURE_WEIGHT);
    ReportColumn *columns = ARENA_ARRAY(report->arena, ReportColumn, 7);
    columns[0] = (ReportColumn){"stack", "Stack", "", 0};
    columns[1] = (ReportColumn){"runs_out", "Runs out", "", 0};
    columns[2] = (ReportColumn){"going_by", "Going by", "", 0};
    columns[3] = (ReportColumn){"left_bales", "Left", "bales", 1};
    columns[4] = (ReportColumn){"left", "as fed", tons, 1};
    columns[5] = (ReportColumn){"left_dry", "dry", tons, 1};
    columns[6] = (ReportColumn){"a_day", "A day", weight, 1};
    report_section(report, "left", "What is left");
    record_gap_remark(report, findings->farm, findings->day);
    ReportTable *table = report_table(report, "left", "", columns, 7);
    double left = 0.0;
    double left_dry = 0.0;
    for (int i = 0; i < findings->stack_count; i++) {
        const StockStack *of = &findings->stacks[i];
        const Stack *stack = stack_of(findings, of);
        const double dry = of->book.left_kg * dry_share(stack);
        left += of->book.left_kg;
        left_dry += dry;
        report_row(table,
                   (Cell[]){text_cell(stack->name), text_cell(runout_words(report->arena, of)),
                            text_cell(basis_words(of)),
                            of->book.bale_kg > 0.0 ? number_cell(of->book.left_bales, 0)
                                                   : empty_cell(),
                            measure_cell(units, MEASURE_TONNAGE, of->book.left_kg),
                            measure_cell(units, MEASURE_TONNAGE, dry),
                            of->book.was_fed_recently ? measure_cell(units, MEASURE_WEIGHT,
                                                                     of->book.recent_kg_per_day)
                                                      : empty_cell()});
    }
    report_total_row(table,
                     (Cell[]){text_cell("Total"), empty_cell(), empty_cell(), empty_cell(),
                              measure_cell(units, MEASURE_TONNAGE, left),
                              measure_cell(units, MEASURE_TONNAGE, left_dry), empty_cell()});
    report_paragraph(
        report, "\"Runs out\" is the last day there is enough of it: fed on as in the last "
                "two weeks by the record, or, where it was not fed then, as the plan of the "
                "rest of winter would feed it.");
}

/* ---- how long it lasts ---- */

static void add_to_turnout(Report *report, const StockFindings *findings, Units units) {
    Arena *arena = report->arena;
    const DaysOnHand *days = &findings->days;
    const Winter *winter = &findings->rest->question->farm->winter;
    const double over = days->dry_matter_kg - findings->needed_kg;
    report_paragraph(
        report,
        "To reach %s%s takes %s of dry matter that is eaten; own feed has %s: %s %s by weight "
        "alone.",
        day_words(arena, winter->last_day),
        winter->carry_over_kg > 0.0
            ? arena_print(arena, " with %s carried over",
                          measure_words(arena, units, MEASURE_TONNAGE, winter->carry_over_kg))
            : "",
        measure_words(arena, units, MEASURE_TONNAGE, findings->needed_kg),
        measure_words(arena, units, MEASURE_TONNAGE, days->dry_matter_kg),
        measure_words(arena, units, MEASURE_TONNAGE, fabs(over)),
        over < 0.0 ? "are lacking" : "are left over");
}

/* kg of dry matter that can be eaten, of stacks that the group may have. */
static double may_have_kg(const PlanQuestion *question, int group) {
    double sum = 0.0;
    for (int f = 0; f < question->own_count; f++) {
        const PlanFeed *feed = &question->feeds[f];
        bool may = false;
        for (int b = 0; b < question->block_count; b++)
            may |= question->blocks[b].group == group &&
                   plan_permission(question, b, f) == MAY_BE_FED;
        if (may)
            sum += feed->available_kg * feed->dry_share * (1.0 - feed->waste_share);
    }
    return sum;
}

#define MOST_DAYS_SHOWN 999.0

static Cell days_cell(double days) {
    return days > MOST_DAYS_SHOWN ? text_cell("over 999") : number_cell(floor(days), 0);
}

static const char *lack_words(const DaysOnHand *days) {
    if (days->lasts_all_winter)
        return "lasts";
    return days->stopped_by.limit ? days->stopped_by.limit->label : "feed";
}

static void add_groups(Report *report, const StockFindings *findings, Units units) {
    const PlanQuestion *question = findings->rest->question;
    const Winter *winter = &question->farm->winter;
    Arena *arena = report->arena;
    const char *tons = measure_unit(units, MEASURE_TONNAGE);
    ReportColumn *columns = ARENA_ARRAY(arena, ReportColumn, 7);
    columns[0] = (ReportColumn){"group", "Group", "", 0};
    columns[1] = (ReportColumn){"head", "Head", "", 1};
    columns[2] = (ReportColumn){"needs", "Eats", tons, 1};
    columns[3] = (ReportColumn){"may_have", "May have", tons, 1};
    columns[4] = (ReportColumn){"gross", "Gross", "days", 1};
    columns[5] = (ReportColumn){"balanced", "Balanced", "days", 1};
    columns[6] = (ReportColumn){"lacks", "Then lacks", "", 0};
    ReportTable *table = report_table(
        report, "groups",
        arena_print(
            arena,
            "By group, dry matter: what it eats to %s, what of own feed it may have, and "
            "how long that would last if no other group had any",
            day_short(arena, winter->last_day)),
        columns, 7);
    for (int g = 0; g < question->farm->herd.count; g++) {
        const double eats = group_eaten_per_day(findings->rest, g);
        const double may_have = may_have_kg(question, g);
        const DaysOnHand *days = &findings->group_days[g];
        report_row(table,
                   (Cell[]){text_cell(question->farm->herd.names[g]),
                            number_cell(question->farm->herd.groups[g].head, 0),
                            measure_cell(units, MEASURE_TONNAGE, eats * winter_days(winter)),
                            measure_cell(units, MEASURE_TONNAGE, may_have),
                            eats > 0.0 ? days_cell(may_have / eats) : empty_cell(),
                            number_cell(days->balanced_days, 0), text_cell(lack_words(days))});
    }
}

static void add_days(Report *report, const StockFindings *findings, Units units) {
    Arena *arena = report->arena;
    if (!findings->rest)
        return;
    const DaysOnHand *days = &findings->days;
    report_section(report, "days", "Days of feed");
    report_paragraph(
        report,
        "Gross: %.0f days by weight alone. Own feed that can be eaten is %s of dry matter, and "
        "the herd fed enough eats %s of it a day.%s",
        floor(days->gross_days),
        measure_words(arena, units, MEASURE_TONNAGE, days->dry_matter_kg),
        weight_words(arena, units, days->eaten_per_day_kg),
        days->barred_kg > 0.0
            ? arena_print(arena,
                          " %s as fed is not counted: as things stand no group may have "
                          "it.",
                          weight_words(arena, units, days->barred_kg))
            : "");
    report_paragraph(report, "Balanced.%s", lasts_words(arena, findings));
    add_to_turnout(report, findings, units);
    add_groups(report, findings, units);
}

/* ---- the books ---- */

double stock_wasted_kg(const StockFindings *findings, const StockStack *of) {
    return of->book.fed_kg * stack_of(findings, of)->waste_share;
}

static bool has_missing(const StockFindings *findings) {
    for (int i = 0; i < findings->stack_count; i++) {
        if (fabs(findings->stacks[i].book.missing_kg) >= 0.5)
            return true;
    }
    return false;
}

static Cell book_cell(Units units, double kg) {
    return number_cell(measure_shown(units, MEASURE_TONNAGE, kg), 2);
}

static void add_books(Report *report, const StockFindings *findings, Units units) {
    const char *tons = measure_unit(units, MEASURE_TONNAGE);
    const bool with_missing = has_missing(findings);
    ReportColumn *columns = ARENA_ARRAY(report->arena, ReportColumn, 7);
    columns[0] = (ReportColumn){"stack", "Stack", "", 0};
    columns[1] = (ReportColumn){"started", "Started", tons, 1};
    columns[2] = (ReportColumn){"fed", "Fed", tons, 1};
    columns[3] = (ReportColumn){"wasted", "of it wasted", tons, 1};
    columns[4] = (ReportColumn){"loss", "Lost", tons, 1};
    columns[5] = (ReportColumn){"left", "Left", tons, 1};
    columns[6] = (ReportColumn){"missing", "Missing", tons, 1};
    report_section(report, "books", "The books");
    ReportTable *table = report_table(report, "books", "As fed", columns, with_missing ? 7 : 6);
    StackBook sum = {.started_kg = 0.0};
    double wasted_kg = 0.0;
    for (int place = 0; place < findings->stack_count; place++) {
        for (int i = 0; i < findings->stack_count; i++) {
            const StockStack *of = &findings->stacks[i];
            if (of->stack != place)
                continue;
            const StackBook *book = &of->book;
            sum.started_kg += book->started_kg;
            sum.fed_kg += book->fed_kg;
            sum.loss_kg += book->loss_kg;
            sum.left_kg += book->left_kg;
            wasted_kg += stock_wasted_kg(findings, of);
            sum.missing_kg += book->missing_kg;
            report_row(table, (Cell[]){text_cell(stack_of(findings, of)->name),
                                       book_cell(units, book->started_kg),
                                       book_cell(units, book->fed_kg),
                                       book_cell(units, stock_wasted_kg(findings, of)),
                                       book_cell(units, book->loss_kg),
                                       book_cell(units, book->left_kg),
                                       book_cell(units, book->missing_kg)});
        }
    }
    report_total_row(table,
                     (Cell[]){text_cell("Total"), book_cell(units, sum.started_kg),
                              book_cell(units, sum.fed_kg), book_cell(units, wasted_kg),
                              book_cell(units, sum.loss_kg), book_cell(units, sum.left_kg),
                              book_cell(units, sum.missing_kg)});
    report_paragraph(
        report,
        "Started is what stacks.csv counts; fed is what left the stack by fed.csv, and of it "
        "wasted what the table of its way of feeding takes, or your own figure; lost is lost "
        "in "
        "storage by the table of its kind, or your own figure. They add up: started is fed, "
        "lost%s left.%s",
        with_missing ? ", missing and" : " and",
        with_missing ? " Missing is what a count found less than the record says, with a minus "
                       "what it found more, or what was fed beyond it."
                     : "");
}

static void add_sources(Report *report, const StockFindings *findings) {
    bool is_cited[SOURCE_COUNT] = {false};
    for (int i = 0; i < findings->stack_count; i++) {
        const Stack *stack = stack_of(findings, &findings->stacks[i]);
        if (!stack->loss_is_users && stack->storage)
            is_cited[stack->storage->source] = true;
        if (!stack->waste_is_users && stack->feeding)
            is_cited[stack->feeding->source] = true;
    }
    report_section(report, "sources", "Where the numbers come from");
    report_paragraph(report, "Storage losses and feeding waste, where the farm gives no figure "
                             "of its own:");
    for (int s = 1; s < SOURCE_COUNT; s++) {
        if (is_cited[s] && source_how_known((SourceKey)s) != KNOWN_AS_CHOICE)
            report_remark(report, SEVERITY_NOTE, "source", source_citation((SourceKey)s),
                          source_key((SourceKey)s));
    }
}

Report *stock_report(Arena *arena, const StockFindings *findings, Units units) {
    const char *farm = findings->farm->winter.farm;
    Report *report = report_new(arena, arena_print(arena, "Feed on hand%s%s, evening of %s",
                                                   farm[0] ? ": " : "", farm,
                                                   day_words(arena, findings->day)));
    add_verdict(report, findings);
    add_left(report, findings, units);
    stock_report_recounts(report, findings, units);
    add_days(report, findings, units);
    stock_report_chance(report, findings, units);
    add_books(report, findings, units);
    stock_report_bought(report, findings, units);
    add_sources(report, findings);
    stock_figures(report->figures, findings);
    return report;
}
