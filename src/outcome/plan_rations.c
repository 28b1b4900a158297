/* Rations as they are read in a yard: a row a feed, a column a period, in what is put out,
 * waste included, because that is what the scale shows. */
#include "base/text.h"
#include "outcome/day_words.h"
#include "outcome/plan_gain.h"
#include "outcome/plan_report.h"
#include "outcome/plan_yard.h"
#include <math.h>

typedef struct {
    Report *report;
    const PlanFindings *findings;
    int group, first, count; /* blocks of the group */
} Group;

/* Given by the handful. */
static bool is_small(const PlanFeed *feed) { return !ration_feed_fills(feed); }

#define HANDFUL_LOAD_KG 0.5 /* what the scale of a mixer shows badly; own choice */

Measure load_measure(const PlanFeed *feed, double largest_kg) {
    return is_small(feed) && largest_kg < HANDFUL_LOAD_KG ? MEASURE_SMALL_FEED : MEASURE_WEIGHT;
}

const char *load_name(Arena *arena, Units units, const PlanFeed *feed, Measure measure) {
    if (measure != MEASURE_SMALL_FEED)
        return feed->name;
    return arena_print(arena, "%s (%s)", feed->name, measure_unit(units, measure));
}

static bool is_fed(const Group *group, int feed) {
    for (int b = group->first; b < group->first + group->count; b++) {
        if (group->findings->plan->blocks[b].eaten[feed] > 0.0)
            return true;
    }
    return false;
}

static const ReportColumn *period_columns(const Group *group, const char *unit) {
    Arena *arena = group->report->arena;
    ReportColumn *columns = ARENA_ARRAY(arena, ReportColumn, group->count + 1);
    columns[0] = (ReportColumn){"feed", "From", "", 0};
    for (int p = 0; p < group->count; p++) {
        const Day from = group->findings->plan->question->blocks[group->first + p].from;
        columns[p + 1] =
            (ReportColumn){arena_print(arena, "from_%04d_%02d_%02d", calendar_year(from),
                                       calendar_month(from), calendar_day_of_month(from)),
                           day_short(arena, from), unit, 1};
    }
    return columns;
}

/* With more decimals below `least`, so that a little is not shown as none; what is still
 * nothing then is not fed. */
static Cell small_cell(Units units, Measure measure, double own, double least) {
    const double shown = measure_shown(units, measure, own);
    const int decimals = measure_decimals(units, measure) + (shown < least ? 1 : 0);
    return shown * pow(10.0, decimals) < 0.5 ? empty_cell() : number_cell(shown, decimals);
}

static void ration_row(const Group *group, ReportTable *table, int feed) {
    const PlanFindings *findings = group->findings;
    const PlanFeed *of = &findings->plan->question->feeds[feed];
    const Measure measure = is_small(of) ? MEASURE_SMALL_FEED : MEASURE_FEED;
    Arena *arena = group->report->arena;
    Cell *cells = ARENA_ARRAY(arena, Cell, group->count + 1);
    cells[0] = text_cell(load_name(arena, findings->units, of, measure));
    for (int p = 0; p < group->count; p++) {
        const double kg = put_out_kg(findings->plan, group->first + p, feed);
        cells[p + 1] = small_cell(findings->units, measure, kg, 0.1);
    }
    report_row(table, cells);
}

static void value_row(const Group *group, ReportTable *table, const char *label,
                      Cell (*cell_of)(const Group *group, int block), bool is_total) {
    Cell *cells = ARENA_ARRAY(group->report->arena, Cell, group->count + 1);
    cells[0] = text_cell(label);
    for (int p = 0; p < group->count; p++)
        cells[p + 1] = cell_of(group, group->first + p);
    if (is_total)
        report_total_row(table, cells);
    else
        report_row(table, cells);
}

static Cell put_out_cell(const Group *group, int block) {
    const PlanFindings *findings = group->findings;
    double kg = 0.0;
    for (int f = 0; f < findings->plan->question->feed_count; f++)
        kg += put_out_kg(findings->plan, block, f);
    return measure_cell(findings->units, MEASURE_FEED, kg);
}

static Cell dry_matter_cell(const Group *group, int block) {
    return measure_cell(group->findings->units, MEASURE_FEED,
                        group->findings->plan->blocks[block].dry_matter_kg);
}

static Cell cost_cell(const Group *group, int block) {
    return number_cell(group->findings->plan->blocks[block].cost_per_head_day, 2);
}

static void add_ration(const Group *group) {
    const PlanFindings *findings = group->findings;
    const char *unit = measure_unit(findings->units, MEASURE_FEED);
    ReportTable *table =
        report_table(group->report, "ration", "What to put out, as fed, a head and day",
                     period_columns(group, unit), group->count + 1);
    for (int f = 0; f < findings->plan->question->feed_count; f++) {
        if (is_fed(group, f))
            ration_row(group, table, f);
    }
    value_row(group, table, "All feed as fed", put_out_cell, true);
    value_row(group, table, "Dry matter eaten", dry_matter_cell, false);
    value_row(group, table, "Feed and haul, $", cost_cell, false);
}

#define DAYS_A_WEEK 7.0
#define WHOLE_TO 1e-4

#define LITTLE_OF_A_BALE 0.01

/* A day; where bales are to be whole, a week, with decimals where they are not: whole in two or
 * four weeks, or not at all. */
static Cell bales_cell(double a_day, bool by_the_week) {
    if (a_day <= 0.0)
        return empty_cell();
    if (!by_the_week)
        return number_cell(a_day, a_day < LITTLE_OF_A_BALE ? 3 : a_day < 0.1 ? 2 : 1);
    const double a_week = a_day * DAYS_A_WEEK;
    return number_cell(a_week, fabs(a_week - round(a_week)) < WHOLE_TO ? 0 : 2);
}

static double group_load_kg(const Group *group, int block, int feed) {
    return put_out_kg(group->findings->plan, block, feed) *
           group->findings->plan->question->blocks[block].head;
}

static Measure row_measure(const Group *group, int feed) {
    double largest_kg = 0.0;
    for (int b = group->first; b < group->first + group->count; b++)
        largest_kg = fmax(largest_kg, group_load_kg(group, b, feed));
    return load_measure(&group->findings->plan->question->feeds[feed], largest_kg);
}

static void load_row(const Group *group, ReportTable *table, int feed) {
    const PlanFindings *findings = group->findings;
    const PlanQuestion *question = findings->plan->question;
    Arena *arena = group->report->arena;
    const double bale = question->feeds[feed].bale_kg;
    Cell *loads = ARENA_ARRAY(arena, Cell, group->count + 1);
    Cell *bales = ARENA_ARRAY(arena, Cell, group->count + 1);
    const Measure measure = row_measure(group, feed);
    loads[0] = text_cell(load_name(arena, findings->units, &question->feeds[feed], measure));
    const bool is_whole = yard_keeps_whole_bales(findings->plan);
    bales[0] = text_cell(is_whole ? "  bales a week" : "  in bales");
    for (int p = 0; p < group->count; p++) {
        const double kg = group_load_kg(group, group->first + p, feed);
        loads[p + 1] =
            small_cell(findings->units, measure, kg, measure == MEASURE_WEIGHT ? 10.0 : 0.1);
        bales[p + 1] = bale > 0.0 ? bales_cell(kg / bale, is_whole) : empty_cell();
    }
    report_row(table, loads);
    if (bale > 0.0)
        report_row(table, bales);
}

static bool changes_head(const Group *group) {
    const PlanBlock *blocks = group->findings->plan->question->blocks;
    for (int b = group->first; b < group->first + group->count; b++) {
        if (blocks[b].head != blocks[group->first].head)
            return true;
    }
    return false;
}

/* "150 head", "150 head, 142 from 1 Feb, none from 1 May". */
static const char *head_words(const Group *group) {
    const PlanQuestion *question = group->findings->plan->question;
    const PlanBlock *blocks = question->blocks;
    Text words = text_new(group->report->arena);
    const Day first = question->farm->winter.first_day;
    for (int b = group->first; b < group->first + group->count; b++) {
        const bool is_first = b == group->first;
        const Day due = is_first ? first : calendar_add(blocks[b - 1].to, 1);
        const bool was_away = calendar_days_between(due, blocks[b].from) > 0;
        if (was_away && !is_first)
            text_print(&words, ", none from %s", day_short(words.arena, due));
        if (is_first)
            text_print(&words, "%.0f head", blocks[b].head);
        else if (was_away || blocks[b].head != blocks[b - 1].head)
            text_print(&words, ", %.0f", blocks[b].head);
        if (was_away || (!is_first && blocks[b].head != blocks[b - 1].head))
            text_print(&words, " from %s", day_short(words.arena, blocks[b].from));
    }
    const Day last = blocks[group->first + group->count - 1].to;
    if (calendar_days_between(last, question->farm->winter.last_day) > 0)
        text_print(&words, ", none from %s", day_short(words.arena, calendar_add(last, 1)));
    return words.bytes;
}

static void add_loads(const Group *group) {
    const PlanFindings *findings = group->findings;
    const char *unit = measure_unit(findings->units, MEASURE_WEIGHT);
    const double head = findings->plan->question->blocks[group->first].head;
    Arena *arena = group->report->arena;
    ReportTable *table =
        report_table(group->report, "loads",
                     changes_head(group)
                         ? "What to load for all there are then, as fed, a day"
                         : arena_print(arena, "What to load for all %.0f, as fed, a day", head),
                     period_columns(group, unit), group->count + 1);
    for (int f = 0; f < findings->plan->question->feed_count; f++) {
        if (is_fed(group, f))
            load_row(group, table, f);
    }
}

/* A share of the need, per cent; a figure below 100 is a shortage. */
static Cell share_cell(const BlockOutcome *block, const char *key) {
    const LimitOutcome *of = block_limit(block, key);
    if (!of || !isfinite(of->least) || of->least <= 0.0)
        return empty_cell();
    return number_cell(100.0 * of->supplied / of->least, 0);
}

static Cell energy_cell(const Group *group, int block) {
    const BlockOutcome *of = &group->findings->plan->blocks[block];
    const Cell growing = share_cell(of, "net_energy");
    return growing.kind == CELL_EMPTY ? share_cell(of, "net_energy_maintenance") : growing;
}
static Cell protein_cell(const Group *group, int block) {
    return share_cell(&group->findings->plan->blocks[block], "metabolizable_protein");
}
static Cell degradable_cell(const Group *group, int block) {
    return share_cell(&group->findings->plan->blocks[block], "degradable_protein");
}
static Cell calcium_cell(const Group *group, int block) {
    return share_cell(&group->findings->plan->blocks[block], "calcium");
}
static Cell phosphorus_cell(const Group *group, int block) {
    return share_cell(&group->findings->plan->blocks[block], "phosphorus");
}
static Cell magnesium_cell(const Group *group, int block) {
    return share_cell(&group->findings->plan->blocks[block], "magnesium");
}
static Cell sodium_cell(const Group *group, int block) {
    return share_cell(&group->findings->plan->blocks[block], "sodium");
}
static Cell vitamin_cell(const Group *group, int block) {
    return share_cell(&group->findings->plan->blocks[block], "vitamin_a");
}
static Cell capacity_cell(const Group *group, int block) {
    const BlockOutcome *of = &group->findings->plan->blocks[block];
    return number_cell(100.0 * of->dry_matter_kg / of->intake_most, 0);
}
static Cell gain_cell(const Group *group, int block) {
    const BlockOutcome *of = &group->findings->plan->blocks[block];
    const bool grows =
        group->findings->plan->question->blocks[block].need.retained.mcal_per_day > 0.0;
    return grows ? number_cell(measure_shown(group->findings->units, MEASURE_FEED, of->gain_kg),
                               2)
                 : empty_cell();
}

/* The water's share is in it, so that this is what the rumen meets. */
static Cell nitrate_cell(const Group *group, int block) {
    const PlanQuestion *question = group->findings->plan->question;
    const BlockOutcome *of = &group->findings->plan->blocks[block];
    double nitrate = 0.0;
    for (int f = 0; f < question->feed_count; f++)
        nitrate += of->eaten[f] * question->feeds[f].eaten[NUTRIENT_NITRATE];
    const Winter *winter = &question->farm->winter;
    return number_cell(of->dry_matter_kg > 0.0
                           ? nitrate / of->dry_matter_kg +
                                 water_adds(NUTRIENT_NITRATE, winter->water_sulfate_mg_per_l,
                                            winter->water_nitrate_mg_per_l)
                           : (double)NAN,
                       2);
}

static Cell wanted_cell(const Group *group, int block) {
    const double wanted = group->findings->plan->question->blocks[block].need.gain.kg_per_day;
    return wanted > 0.0
               ? number_cell(measure_shown(group->findings->units, MEASURE_FEED, wanted), 2)
               : empty_cell();
}

static Cell condition_asked_cell(const Group *group, int block) {
    return number_cell(group->findings->conditions[block].asked, 1);
}
static Cell condition_cell(const Group *group, int block) {
    return number_cell(group->findings->conditions[block].given, 1);
}

static bool group_grows(const Group *group) {
    for (int b = group->first; b < group->first + group->count; b++) {
        if (group->findings->plan->question->blocks[b].need.retained.mcal_per_day > 0.0)
            return true;
    }
    return false;
}

static void add_balance(const Group *group) {
    ReportTable *table = report_table(group->report, "balance", "Is it enough: % of the need",
                                      period_columns(group, "%"), group->count + 1);
    value_row(group, table, "Net energy", energy_cell, false);
    value_row(group, table, "Metabolizable protein", protein_cell, false);
    value_row(group, table, "Degradable protein", degradable_cell, false);
    value_row(group, table, "Calcium", calcium_cell, false);
    value_row(group, table, "Phosphorus", phosphorus_cell, false);
    value_row(group, table, "Magnesium", magnesium_cell, false);
    value_row(group, table, "Sodium", sodium_cell, false);
    value_row(group, table, "Vitamin A", vitamin_cell, false);
    value_row(group, table, "Dry matter, % of the most they can eat", capacity_cell, false);
    value_row(group, table, "Nitrate, % NO3 of the diet", nitrate_cell, false);
    if (isfinite(group->findings->conditions[group->first].given)) {
        value_row(group, table, "Condition asked (of 9)", condition_asked_cell, false);
        value_row(group, table, "Condition it gives (of 9)", condition_cell, false);
    }
    if (group_grows(group)) {
        const char *unit = measure_unit(group->findings->units, MEASURE_FEED);
        value_row(group, table,
                  arena_print(group->report->arena, "Gain wanted, %s a day", unit), wanted_cell,
                  false);
        value_row(group, table,
                  arena_print(group->report->arena, "Gain this ration gives, %s a day", unit),
                  gain_cell, false);
    }
}

static void add_more_gain(const Group *group) {
    const char *words = plan_gain_words(group->report->arena, group->findings->plan,
                                        group->first, group->count);
    if (words[0] != '\0')
        report_paragraph(group->report, "%s", words);
}

static void add_binding(const Group *group) {
    const char *words =
        binding_words(group->report->arena, group->findings, group->first, group->count);
    if (words[0] != '\0')
        report_paragraph(group->report, "%s", words);
}

static void add_explained(const Group *group) {
    add_loads(group);
    add_balance(group);
    plan_report_supply_chart(group->report, group->findings, group->group);
    add_more_gain(group);
    add_binding(group);
}

void plan_report_rations(Report *report, const PlanFindings *findings) {
    const PlanQuestion *question = findings->plan->question;
    report_section(report, "rations", "Rations");
    report_paragraph(
        report, "A column begins on its day and runs to the next. Amounts are what is put out, "
                "feeding waste included.");
    for (int g = 0; g < question->farm->herd.count; g++) {
        const HerdGroup *of = &question->farm->herd.groups[g];
        Group group = {.report = report, .findings = findings, .group = g};
        group.count = group_blocks(question, g, &group.first);
        report_part(report, "group",
                    arena_print(report->arena, "%s: %s, %s", of->name, head_words(&group),
                                of->delivery == DELIVERY_MIXED     ? "fed mixed"
                                : of->delivery == DELIVERY_LAYERED ? "fed in layers"
                                                                   : "free choice"));
        if (!findings->is_brief)
            plan_report_ration_chart(report, findings, g);
        add_ration(&group);
        if (!findings->is_brief)
            add_explained(&group);
    }
}
