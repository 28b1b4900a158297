/* What to change in a cold spell of the other periods, those alike as one, and what ten such
 * days take of the stacks. */
#include "outcome/day_words.h"
#include "outcome/plan_report.h"
#include <math.h>

#define MONTHS 12

/* Changes nearer than this are one to who feeds; own choice. */
#define ALIKE_KG 0.5   /* as fed a head and day, of any feed */
#define ALIKE_MCAL 0.5 /* of what is added, and of what is still lacking */

/* Whether what the spell changes can be changed in the block: what is added may be fed there,
 * and there is as much of what is taken away. */
static bool can_be_done(const PlanFindings *findings, int block, const ColdSpell *spell) {
    const PlanQuestion *question = findings->plan->question;
    for (int f = 0; f < question->feed_count; f++) {
        const double kg = cold_change_kg(findings, spell, f);
        if (kg >= WORTH_WEIGHING_KG && plan_permission(question, block, f) != MAY_BE_FED)
            return false;
        if (kg <= -WORTH_WEIGHING_KG &&
            put_out_kg(findings->plan, block, f) + kg <= -WORTH_WEIGHING_KG)
            return false;
    }
    return true;
}

static bool is_alike(const PlanFindings *findings, const ColdSpell *a, const ColdSpell *b) {
    if (a->block < 0 || b->block < 0)
        return false; /* nothing is told of a period in which nothing is fed, or without cold */
    if (fabs(a->added_mcal - b->added_mcal) >= ALIKE_MCAL ||
        fabs(a->lack_mcal - b->lack_mcal) >= ALIKE_MCAL)
        return false;
    if (!can_be_done(findings, a->block, b) || !can_be_done(findings, b->block, a))
        return false;
    for (int f = 0; f < findings->plan->question->feed_count; f++) {
        if (fabs(cold_change_kg(findings, a, f) - cold_change_kg(findings, b, f)) >= ALIKE_KG)
            return false;
    }
    return true;
}

/* The last of the group's periods from `first` on in which the spell changes what it does
 * there;
 * `*worst` is the one of them that it adds most to. */
static int run_end(const PlanFindings *findings, int first, int *worst) {
    const PlanQuestion *question = findings->plan->question;
    const ColdSpell *spells = findings->period_spells;
    int end = first;
    *worst = first;
    while (end + 1 < question->block_count &&
           question->blocks[end + 1].group == question->blocks[first].group &&
           spells[end + 1].block >= 0 && is_alike(findings, &spells[first], &spells[end + 1])) {
        end++;
        if (spells[end].added_mcal > spells[*worst].added_mcal)
            *worst = end;
    }
    return end;
}

/* A group's runs of periods in which the spell asks for another change than told for it. */
typedef struct {
    int first, last;
    const ColdSpell *spell;
} Run;

static int runs_of(Arena *arena, const PlanFindings *findings, int group, Run **runs) {
    int begin;
    const int count = group_blocks(findings->plan->question, group, &begin);
    *runs = ARENA_ARRAY(arena, Run, count);
    int found = 0;
    for (int first = begin; first < begin + count;) {
        int worst;
        const int last = run_end(findings, first, &worst);
        const ColdSpell *spell = &findings->period_spells[worst];
        if (spell->block >= 0 && !is_alike(findings, spell, &findings->spells[group]))
            (*runs)[found++] = (Run){first, last, spell};
        first = last + 1;
    }
    return found;
}

enum { FIXED_COLUMNS = 4 };

/* The feeds that change in any run; how many. */
static int changed_feeds(Arena *arena, const PlanFindings *findings, const Run *runs, int count,
                         int **feeds) {
    const int feed_count = findings->plan->question->feed_count;
    *feeds = ARENA_ARRAY(arena, int, feed_count);
    int found = 0;
    for (int f = 0; f < feed_count; f++) {
        bool is_one = false;
        for (int r = 0; r < count; r++)
            is_one |= fabs(cold_change_kg(findings, runs[r].spell, f)) >= WORTH_WEIGHING_KG;
        if (is_one)
            (*feeds)[found++] = f;
    }
    return found;
}

static ReportTable *new_table(Report *report, const PlanFindings *findings, int group,
                              const int *feeds, int feed_count) {
    const Units units = findings->units;
    const PlanQuestion *question = findings->plan->question;
    ReportColumn *columns =
        ARENA_ARRAY(report->arena, ReportColumn, FIXED_COLUMNS + feed_count);
    columns[0] = (ReportColumn){"period", "Other periods", "", 0};
    columns[1] = (ReportColumn){"air", "At", measure_unit(units, MEASURE_TEMPERATURE), 1};
    columns[2] = (ReportColumn){"added", "Adds", "Mcal", 1};
    columns[3] = (ReportColumn){"lack", "Lacks still", "Mcal", 1};
    for (int i = 0; i < feed_count; i++)
        columns[FIXED_COLUMNS + i] = (ReportColumn){
            arena_print(report->arena, "feed_%d", i + 1), question->feeds[feeds[i]].name,
            measure_unit(units, MEASURE_FEED), 1};
    report_part(
        report, "cold_periods",
        arena_print(report->arena, "%s: other periods", question->farm->herd.names[group]));
    return report_table(report, "cold_periods", "More (less) as put out, a head and day",
                        columns, FIXED_COLUMNS + feed_count);
}

/* A mean of halves lies a hair beside the half that rounding parts: to every reader the half.
 */
static Cell air_cell(Units units, Temperature air) {
    return number_cell(round(measure_shown(units, MEASURE_TEMPERATURE, air.celsius) * 1e6) /
                           1e6,
                       measure_decimals(units, MEASURE_TEMPERATURE));
}

static bool add_group(Report *report, const PlanFindings *findings, int group) {
    Arena *arena = report->arena;
    const PlanQuestion *question = findings->plan->question;
    Run *runs;
    const int count = runs_of(arena, findings, group, &runs);
    if (count == 0)
        return false;
    int *feeds;
    const int feed_count = changed_feeds(arena, findings, runs, count, &feeds);
    ReportTable *table = new_table(report, findings, group, feeds, feed_count);
    for (int r = 0; r < count; r++) {
        const ColdSpell *spell = runs[r].spell;
        Cell *cells = ARENA_ARRAY(arena, Cell, FIXED_COLUMNS + feed_count);
        cells[0] = text_cell(day_span(arena, question->blocks[runs[r].first].from,
                                      question->blocks[runs[r].last].to));
        cells[1] = air_cell(findings->units, spell->air);
        cells[2] = number_cell(spell->added_mcal, 1);
        cells[3] = number_cell(spell->lack_mcal, 1);
        for (int i = 0; i < feed_count; i++)
            cells[FIXED_COLUMNS + i] = measure_cell(findings->units, MEASURE_FEED,
                                                    cold_change_kg(findings, spell, feeds[i]));
        report_row(table, cells);
    }
    return true;
}

/* ---- ten such days in each month ---- */

#define MIDDLE_OF_MONTH 15

/* The day a month stands for: its 15th, or the nearest that is fed. */
static Day day_of(const Winter *winter, Day in_month) {
    const Day middle =
        calendar_day(calendar_year(in_month), calendar_month(in_month), MIDDLE_OF_MONTH);
    if (calendar_days_between(winter->first_day, middle) < 0)
        return winter->first_day;
    return calendar_days_between(middle, winter->last_day) < 0 ? winter->last_day : middle;
}

static int month_days(const Winter *winter, Day *days) {
    int count = 0;
    for (Day day = winter->first_day; calendar_days_between(day, winter->last_day) >= 0;
         day = calendar_add(day, 1)) {
        if (count == 0 || calendar_month(day) != calendar_month(days[count - 1]))
            days[count++] = day_of(winter, day);
        if (count == MONTHS)
            break;
    }
    return count;
}

static double month_takes_kg(const PlanFindings *findings, Day day, int feed) {
    const PlanQuestion *question = findings->plan->question;
    double kg = 0.0;
    for (int b = 0; b < question->block_count; b++) {
        const ColdSpell *spell = &findings->period_spells[b];
        const PlanBlock *block = &question->blocks[b];
        if (spell->block >= 0 && calendar_days_between(block->from, day) >= 0 &&
            calendar_days_between(day, block->to) >= 0)
            kg += cold_spell_takes_kg(findings->plan, spell, feed);
    }
    return kg;
}

static void add_stacks(Report *report, const PlanFindings *findings) {
    const PlanQuestion *question = findings->plan->question;
    const char *tons = measure_unit(findings->units, MEASURE_TONNAGE);
    Day days[MONTHS];
    const int months = month_days(&question->farm->winter, days);
    ReportColumn *columns = ARENA_ARRAY(report->arena, ReportColumn, months + 1);
    columns[0] = (ReportColumn){"feed", "Ten such days take, all groups", "", 0};
    for (int m = 0; m < months; m++)
        columns[m + 1] =
            (ReportColumn){arena_print(report->arena, "month_%02d", calendar_month(days[m])),
                           calendar_month_name(calendar_month(days[m])), tons, 1};
    ReportTable *table = report_table(report, "cold_months", "", columns, months + 1);
    for (int f = 0; f < question->feed_count; f++) {
        Cell *cells = ARENA_ARRAY(report->arena, Cell, months + 1);
        bool is_touched = false;
        cells[0] = text_cell(question->feeds[f].name);
        for (int m = 0; m < months; m++) {
            const double kg = month_takes_kg(findings, days[m], f);
            is_touched |= fabs(kg) >= 1.0;
            cells[m + 1] = measure_cell(findings->units, MEASURE_TONNAGE, kg);
        }
        if (is_touched)
            report_row(table, cells);
    }
}

void plan_report_cold_periods(Report *report, const PlanFindings *findings) {
    bool any = false;
    for (int g = 0; findings->period_spells && g < findings->plan->question->farm->herd.count;
         g++)
        any |= add_group(report, findings, g);
    if (!any)
        return;
    report_paragraph(report,
                     "Numbers below zero are taken away. Periods that are not here are as told "
                     "above for the "
                     "group, within %s, or cold adds nothing.",
                     measure_words(report->arena, findings->units, MEASURE_FEED, ALIKE_KG));
    report_part(report, "cold_months", "Ten such days, month by month");
    add_stacks(report, findings);
    report_paragraph(report, "Of each month the rations of its 15th count, or of the nearest "
                             "day that is fed.");
}
