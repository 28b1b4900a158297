/* Where the record and a recount disagree: what it may mean, the very cell to change for it,
 * and what it would mean for stacks measured in the same way. Nothing is changed here. */
#include "base/text.h"
#include "outcome/day_words.h"
#include "outcome/plan_findings.h"
#include "outcome/stock_report.h"
#include "stock/recount_meaning.h"
#include <math.h>
#include <string.h>

static const char *where_words(Arena *arena, const Stack *stack) {
    const char *place = place_text(stack->weight_cell.place, arena);
    const size_t length = strlen(place);
    return arena_copy(arena, place, length >= 2 ? length - 2 : length); /* without ": " */
}

static void alike_words(Text *text, const StockFindings *findings, Units units,
                        const StockStack *of, double times) {
    const Farm *farm = findings->farm;
    Text names = text_new(text->arena);
    double kg = 0.0;
    for (int i = 0; i < findings->stack_count; i++) {
        const StockStack *other = &findings->stacks[i];
        if (!measured_alike(&farm->inventory, &farm->record, of->stack, other->stack))
            continue;
        text_print(&names, "%s%s", names.length > 0 ? "; " : "",
                   farm->inventory.stacks.names[other->stack]);
        kg += other->book.left_kg * (times - 1.0);
    }
    if (names.length == 0)
        return;
    text_print(text,
               " Measured in the same way, and not counted again: %s. If they are off by as "
               "much, there is %s %s of them than this page says: weigh a few of each.",
               names.bytes, weight_words(text->arena, units, fabs(kg)),
               kg < 0.0 ? "less" : "more");
}

/* Where feed is gone of which no feeding was written down, a lighter bale is the last thing to
 * think of. */
static bool may_be_unwritten(const RecountMeaning *meaning) {
    return meaning->is_unfed && meaning->off_kg > 0.0 && !isfinite(meaning->bales_off);
}

static void weight_meaning(Text *text, const StockFindings *findings, Units units,
                           const StockStack *of, const RecountMeaning *meaning) {
    const Stack *stack = &findings->farm->inventory.stacks.stacks[of->stack];
    const char *what = stack->weight_cell.way == WAY_BALE   ? "a bale weighs"
                       : stack->weight_cell.way == WAY_SIZE ? "it lies as dense as"
                                                            : "it weighed in all";
    const char *they = may_be_unwritten(meaning) ? "If none was, they" : "They";
    if (stack->weight_cell.heading)
        text_print(
            text, " %s agree if %s %.4g where %s has %.4g: in that case write %.4g at %s.",
            they, what, meaning->new_written, stack->weight_cell.heading,
            stack->weight_cell.written, meaning->new_written, where_words(text->arena, stack));
    else
        text_print(text,
                   " %s agree if it lies %.2f times as dense as the book has such feed: in "
                   "that case write its weight or its density at %s.",
                   they, meaning->weight_times, where_words(text->arena, stack));
    alike_words(text, findings, units, of, meaning->weight_times);
}

static void other_meanings(Text *text, const Stack *stack, const RecountMeaning *meaning) {
    if (isfinite(meaning->bales_off) && meaning->bales_off > 0.0)
        text_print(text,
                   " %.4g bales left the stack that nobody wrote down, or one of the counts is "
                   "off: add the feedings with `winterstack fed --date`.",
                   meaning->bales_off);
    else if (isfinite(meaning->bales_off))
        text_print(text,
                   " %.4g bales more are there than the record leaves: were feedings written "
                   "for the wrong stack?",
                   -meaning->bales_off);
    if (isfinite(meaning->waste_share))
        text_print(text,
                   " Or, if all that left was fed out and no more was eaten than the record "
                   "means, %.0f %% of it was wasted where %.0f %% is reckoned: "
                   "feeding_waste_pct in the same row.",
                   100.0 * meaning->waste_share, 100.0 * stack->waste_share);
}

static void add_recount(Report *report, const StockFindings *findings, Units units,
                        const StockStack *of, const RecountMeaning *meaning) {
    Arena *arena = report->arena;
    const Stack *stack = &findings->farm->inventory.stacks.stacks[of->stack];
    Text text = text_new(arena);
    text_print(&text, "%s, counted on %s: %s left where the record says %s, %s %s.",
               stack->name, day_words(arena, of->book.recount->date),
               of->book.at_recount_kg > 0.0 ? weight_words(arena, units, of->book.at_recount_kg)
                                            : "nothing",
               weight_words(arena, units, of->book.before_recount_kg),
               weight_words(arena, units, fabs(meaning->off_kg)),
               meaning->off_kg > 0.0 ? "less" : "more");
    if (may_be_unwritten(meaning))
        text_add(&text,
                 " Nothing of it is written down as fed by then. If some was, that is the "
                 "difference, or a part of it: write it down with `winterstack fed "
                 "--date`, and change no weight.");
    if (isfinite(meaning->weight_times))
        weight_meaning(&text, findings, units, of, meaning);
    other_meanings(&text, stack, meaning);
    report_remark(report, SEVERITY_CAUTION, "recount", text.bytes, "");
}

void stock_report_recounts(Report *report, const StockFindings *findings, Units units) {
    const Farm *farm = findings->farm;
    bool has_any = false;
    for (int i = 0; i < findings->stack_count; i++) {
        const StockStack *of = &findings->stacks[i];
        RecountMeaning meaning;
        if (!recount_meaning(&farm->inventory, &farm->record, of->stack, findings->day,
                             &meaning))
            continue;
        if (!has_any)
            report_section(report, "recounts", "Where a count and the record disagree");
        has_any = true;
        add_recount(report, findings, units, of, &meaning);
    }
    if (has_any)
        report_paragraph(report, "The count holds from its day on. Nothing in stacks.csv was "
                                 "changed: do so only where you believe it.");
}
