#include "outcome/fed_report.h"
#include "base/text.h"
#include "outcome/day_words.h"
#include "planner/plan_question.h"
#include "stock/recount_meaning.h"
#include <math.h>
#include <stdlib.h>

/* The last day anything was written of the stack. */
static Day last_day_of(const Farm *farm, int stack) {
    const FeedRecord *record = &farm->record;
    Day last = farm->inventory.stacks.stacks[stack].counted;
    for (int i = 0; i < record->feeding_count; i++) {
        if (record->feedings[i].stack == stack &&
            calendar_days_between(last, record->feedings[i].date) > 0)
            last = record->feedings[i].date;
    }
    for (int i = 0; i < record->recount_count; i++) {
        if (record->recounts[i].stack == stack &&
            calendar_days_between(last, record->recounts[i].date) > 0)
            last = record->recounts[i].date;
    }
    return last;
}

static const char *amount_words(Arena *arena, const FedEntry *entry) {
    return feed_amount_words(arena, (FeedAmount){strtod(entry->number, NULL), entry->unit});
}

static void add_verdict(Report *report, const FedEntry *entry) {
    Arena *arena = report->arena;
    if (entry->is_undone)
        report_verdict(report, SEVERITY_NOTE, "Taken back, from %s: %s",
                       entry->is_recount ? "counts.csv" : "fed.csv", entry->removed);
    else if (entry->is_recount)
        report_verdict(report, SEVERITY_NOTE, "Counted on %s: %s left of %s.",
                       day_words(arena, entry->date),
                       strtod(entry->number, NULL) > 0.0 ? amount_words(arena, entry)
                                                         : "nothing",
                       entry->stack);
    else
        report_verdict(report, SEVERITY_NOTE, "Fed on %s: %s of %s to %s.",
                       day_words(arena, entry->date), amount_words(arena, entry), entry->stack,
                       entry->group);
}

static void add_left(Report *report, const Farm *farm, Units units, int stack) {
    Arena *arena = report->arena;
    const Day day = last_day_of(farm, stack);
    const StackBook book =
        stack_book(&farm->inventory, &farm->record, stack, day, BOOK_IN_THE_EVENING);
    const Stack *of = &farm->inventory.stacks.stacks[stack];
    const char *bales =
        book.bale_kg > 0.0 ? arena_print(arena, "%.1f bales, ", book.left_bales) : "";
    report_paragraph(report,
                     "Left on the evening of %s, by the record: %s%s of the %s there were.",
                     day_words(arena, day), bales,
                     measure_words(arena, units, MEASURE_TONNAGE, book.left_kg),
                     measure_words(arena, units, MEASURE_TONNAGE, book.started_kg));
    RecountMeaning meaning;
    if (recount_meaning(&farm->inventory, &farm->record, stack, day, &meaning))
        report_paragraph(report,
                         "The last count found %s %s than the record said: `winterstack stock` "
                         "says what that may mean.",
                         measure_words(arena, units, MEASURE_TONNAGE, fabs(meaning.off_kg)),
                         meaning.off_kg > 0.0 ? "less" : "more");
    Figure *figures = figure_child(report->figures, "stack");
    figure_text(figures, "stack", of->name);
    figure_text(figures, "on", day_iso(arena, day));
    figure_number(figures, "started_kg", book.started_kg);
    figure_number(figures, "fed_kg", book.fed_kg);
    figure_number(figures, "storage_loss_kg", book.loss_kg);
    figure_number(figures, "missing_kg", book.missing_kg);
    figure_number(figures, "left_kg", book.left_kg);
    figure_number(figures, "left_bales", book.bale_kg > 0.0 ? book.left_bales : (double)NAN);
}

/* What was fed is fed; but somebody should know what it was. */
static void add_permission(Report *report, const Farm *farm, const FedEntry *entry, int stack) {
    const PlanQuestion question = plan_question(report->arena, farm);
    for (int b = 0; b < question.block_count; b++) {
        const PlanBlock *block = &question.blocks[b];
        const int at = b * question.feed_count + stack;
        if (!text_same_letters(farm->herd.names[block->group], entry->group) ||
            calendar_days_between(block->from, entry->date) < 0 ||
            calendar_days_between(entry->date, block->to) < 0)
            continue;
        if (question.permission[at] == OVER_A_LIMIT)
            report_remark(report, SEVERITY_DANGER, "kept",
                          arena_print(report->arena,
                                      "%s is kept from %s for their safety: %s. Look at the "
                                      "cattle now, keep the feed from them, and phone your "
                                      "veterinarian if any is off its feed, breathes fast or "
                                      "staggers.",
                                      entry->stack, entry->group,
                                      question.barred_by[at]->label),
                          source_key(question.barred_by[at]->source));
        else if (question.permission[at] == NOT_FOR_THAT_GROUP)
            report_remark(report, SEVERITY_CAUTION, "kept",
                          arena_print(report->arena, "stacks.csv keeps %s for other groups.",
                                      entry->stack),
                          "");
        return;
    }
}

Report *fed_report(Arena *arena, const Farm *farm, Units units, const FedEntry *entry) {
    Report *report = report_new(arena, entry->is_undone ? "Taken back" : "Written down");
    add_verdict(report, entry);
    report_section(report, "left", "What is left of it");
    figure_text(report->figures, "file", entry->is_recount ? "counts.csv" : "fed.csv");
    figure_truth(report->figures, "undone", entry->is_undone);
    figure_text(report->figures, "row", entry->is_undone ? entry->removed : NULL);
    const Stacks *stacks = &farm->inventory.stacks;
    for (int i = 0; i < stacks->count; i++) {
        if (!text_same_letters(stacks->names[i], entry->stack))
            continue;
        add_left(report, farm, units, i);
        if (!entry->is_undone && !entry->is_recount)
            add_permission(report, farm, entry, i);
        return report;
    }
    report_paragraph(
        report,
        "%s is for sale and not a stack of the yard: what is fed of it is "
        "kept in the record, and no stack gets less; `winterstack stock` says how much "
        "that was. What was delivered and lies in the yard is a row of stacks.csv.",
        entry->stack);
    return report;
}
