/* What changes in each group's ration, in a line: the winter's mean of what is put out. */
#include "base/text.h"
#include "outcome/comparison.h"
#include <math.h>

#define MOST_NAMED 3      /* feeds in a line */
#define WORTH_NAMING 0.05 /* kg a head and day */

typedef struct {
    const char *name;
    double more_kg;
} Shift;

double comparison_mean_kg(const WinterPlan *plan, int group, const char *feed) {
    double kg = 0.0, days = 0.0;
    for (int b = 0; b < plan->question->block_count; b++) {
        const PlanBlock *block = &plan->question->blocks[b];
        if (block->group != group)
            continue;
        days += block->days;
        for (int f = 0; f < plan->question->feed_count; f++) {
            if (text_same_letters(plan->question->feeds[f].name, feed))
                kg += put_out_kg(plan, b, f) * block->days;
        }
    }
    return days > 0.0 ? kg / days : 0.0;
}

static int group_named(const WinterPlan *plan, const char *name) {
    const Herd *herd = &plan->question->farm->herd;
    for (int g = 0; g < herd->count; g++) {
        if (text_same_letters(herd->names[g], name))
            return g;
    }
    return -1;
}

static void insert(Shift *shifts, int *count, Shift shift) {
    int at = (*count)++;
    while (at > 0 && fabs(shifts[at - 1].more_kg) < fabs(shift.more_kg)) {
        shifts[at] = shifts[at - 1];
        at--;
    }
    shifts[at] = shift;
}

static bool is_in(const WinterPlan *plan, const char *feed) {
    for (int f = 0; f < plan->question->feed_count; f++) {
        if (text_same_letters(plan->question->feeds[f].name, feed))
            return true;
    }
    return false;
}

/* Largest first; minerals, which are given by the handful, fall below what is worth naming. */
static int find_shifts(Arena *arena, const WinterPlan *before, int group_before,
                       const WinterPlan *after, int group_after, Shift **shifts) {
    const int most = before->question->feed_count + after->question->feed_count;
    int count = 0;
    *shifts = ARENA_ARRAY(arena, Shift, most);
    for (int i = 0; i < most; i++) {
        const bool is_before = i < before->question->feed_count;
        const char *name = is_before
                               ? before->question->feeds[i].name
                               : after->question->feeds[i - before->question->feed_count].name;
        if (!is_before && is_in(before, name))
            continue;
        const double more = comparison_mean_kg(after, group_after, name) -
                            comparison_mean_kg(before, group_before, name);
        if (fabs(more) >= WORTH_NAMING)
            insert(*shifts, &count, (Shift){name, more});
    }
    return count;
}

static const char *shift_words(Arena *arena, const Comparison *comparison, const Future *future,
                               int group) {
    const WinterPlan *before = comparison->futures[0].plan;
    const char *name = future->plan->question->farm->herd.names[group];
    const int group_before = group_named(before, name);
    if (group_before < 0)
        return "a new group";
    Shift *shifts;
    const int count = find_shifts(arena, before, group_before, future->plan, group, &shifts);
    Text text = text_new(arena);
    for (int i = 0; i < count && i < MOST_NAMED; i++)
        text_print(
            &text, "%s%s%s %s", i > 0 ? "; " : "", shifts[i].more_kg > 0.0 ? "+" : "-",
            measure_words(arena, comparison->units, MEASURE_FEED, fabs(shifts[i].more_kg)),
            shifts[i].name);
    if (count > MOST_NAMED)
        text_print(&text, "; and %d more", count - MOST_NAMED);
    return count > 0 ? text.bytes : "as it is";
}

void comparison_add_rations(Report *report, const Comparison *comparison) {
    static const ReportColumn COLUMNS[] = {
        {"group", "Group", "", 0},
        {"change", "Put out, as fed, a head and day, the winter's mean", "", 0},
    };
    report_section(report, "rations", "What changes in the rations");
    report_paragraph(report,
                     "Which own stack goes to whom costs nearly nothing, so groups may swap "
                     "stacks where little else changes.");
    for (int i = 1; i < comparison->count; i++) {
        const Future *future = &comparison->futures[i];
        ReportTable *table = report_table(report, "ration_changes", future->name, COLUMNS, 2);
        const Herd *herd = &future->plan->question->farm->herd;
        for (int g = 0; g < herd->count; g++)
            report_row(table,
                       (Cell[]){text_cell(herd->names[g]),
                                text_cell(shift_words(report->arena, comparison, future, g))});
    }
}
