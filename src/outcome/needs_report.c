#include "outcome/needs_report.h"
#include "base/text.h"
#include "cattle/protein_requirement.h"
#include "outcome/day_words.h"
#include "outcome/needs_compared.h"
#include "outcome/needs_explained.h"
#include "outcome/own_need_words.h"
#include "outcome/plan_findings.h"
#include "planner/ration_limit.h"
#include <math.h>

typedef struct {
    Report *report;
    const PlanQuestion *question;
    Units units;
    int first, count;
} Group;

/* Intake is shown at this diet: a middling forage. The plan uses each ration's own. Own choice.
 */
#define SHOWN_DIET_NEM 1.25

static const ReportColumn *columns_of(const Group *group) {
    Arena *arena = group->report->arena;
    ReportColumn *columns = ARENA_ARRAY(arena, ReportColumn, group->count + 1);
    columns[0] = (ReportColumn){"need", "From", "", 0};
    for (int p = 0; p < group->count; p++) {
        const Day from = group->question->blocks[group->first + p].from;
        columns[p + 1] =
            (ReportColumn){arena_print(arena, "from_%04d_%02d_%02d", calendar_year(from),
                                       calendar_month(from), calendar_day_of_month(from)),
                           day_short(arena, from), "", 1};
    }
    return columns;
}

typedef struct {
    const char *label;
    Measure measure;
    int decimals; /* -1: the measure's own */
    double (*value)(const Requirement *need);
    bool is_total, shows_zero;
    bool is_of_coat_table; /* the heat balance reckons with the wind itself */
} NeedRow;

static double weight(const Requirement *n) { return n->live_weight.kg; }
static double condition(const Requirement *n) { return n->condition; }
static double calved(const Requirement *n) { return n->calved_share * 100.0; }
static double air(const Requirement *n) { return n->air.celsius; }
static double felt(const Requirement *n) { return n->felt.celsius; }
static double critical(const Requirement *n) { return n->critical.celsius; }
static double upkeep(const Requirement *n) { return n->energy.maintenance; }
static double cold(const Requirement *n) { return n->energy.cold; }
static double activity(const Requirement *n) { return n->energy.activity; }
static double by_table(const Requirement *n) { return n->energy.table; }
static double own_energy(const Requirement *n) { return n->energy.own; }
static double water(const Requirement *n) { return n->water_l; }
static double calf(const Requirement *n) { return n->energy.pregnancy; }
static double milk(const Requirement *n) { return n->energy.milk; }
static double flesh(const Requirement *n) { return n->energy.condition; }
static double nem(const Requirement *n) { return requirement_nem(n).mcal_per_day; }
static double gain_energy(const Requirement *n) { return n->retained.mcal_per_day; }
static double spell(const Requirement *n) { return n->cold_spell_energy; }
static double protein(const Requirement *n) { return requirement_protein(n).g_per_day; }
static double crude(const Requirement *n) {
    return requirement_protein(n).g_per_day / CP_TO_MP;
}
static double calcium(const Requirement *n) { return n->calcium.g_per_day; }
static double phosphorus(const Requirement *n) { return n->phosphorus.g_per_day; }
static double fibre(const Requirement *n) { return n->ndf_most_kg; }
static double most(const Requirement *n) {
    return intake_at(n->most, n->shrunk, (EnergyDensity){SHOWN_DIET_NEM}).kg_per_day;
}
static double least(const Requirement *n) {
    return intake_at(n->least, n->shrunk, (EnergyDensity){SHOWN_DIET_NEM}).kg_per_day;
}

static const NeedRow ROWS[] = {
    {"Live weight", MEASURE_WEIGHT, -1, weight, false, false, false},
    {"Condition (9-point)", MEASURE_PERCENT, 1, condition, false, false, false},
    {"Calved, %", MEASURE_PERCENT, 0, calved, false, false, false},
    {"Air", MEASURE_TEMPERATURE, -1, air, false, true, false},
    {"Felt, with wind", MEASURE_TEMPERATURE, -1, felt, false, true, true},
    {"Cold begins below", MEASURE_TEMPERATURE, -1, critical, false, true, false},
    {"NEm: upkeep", MEASURE_ENERGY, -1, upkeep, false, false, false},
    {"NEm: walking, mud", MEASURE_ENERGY, -1, activity, false, false, false},
    {"NEm: cold", MEASURE_ENERGY, -1, cold, false, false, false},
    {"NEm: calf inside", MEASURE_ENERGY, -1, calf, false, false, false},
    {"NEm: milk", MEASURE_ENERGY, -1, milk, false, false, false},
    {"NEm: condition", MEASURE_ENERGY, -1, flesh, false, false, false},
    {"NEm: to the published table", MEASURE_ENERGY, -1, by_table, false, false, false},
    {"NEm: to your own figure", MEASURE_ENERGY, -1, own_energy, false, false, false},
    {"NEm needed", MEASURE_ENERGY, -1, nem, true, false, false},
    {"NEg for gain", MEASURE_ENERGY, -1, gain_energy, false, false, false},
    {"A cold spell adds", MEASURE_ENERGY, -1, spell, false, false, false},
    {"Metabolizable protein", MEASURE_PROTEIN, -1, protein, false, false, false},
    {"about as crude protein", MEASURE_PROTEIN, -1, crude, false, false, false},
    {"Calcium", MEASURE_MINERAL, 0, calcium, false, false, false},
    {"Phosphorus", MEASURE_MINERAL, 0, phosphorus, false, false, false},
    {"Can eat, dry matter", MEASURE_FEED, -1, most, false, false, false},
    {"Can hold, NDF", MEASURE_FEED, -1, fibre, false, false, false},
    {"Water, drunk and in feed", MEASURE_WATER, -1, water, false, false, false},
};

static const char *row_label(const Group *group, const NeedRow *row) {
    if (row->measure == MEASURE_PERCENT)
        return row->label;
    return arena_print(group->report->arena, "%s, %s", row->label,
                       measure_unit(group->units, row->measure));
}

static bool is_left_out(const Group *group, const NeedRow *row) {
    if (row->is_of_coat_table && group->question->farm->weather.cold_way == COLD_BY_MODEL)
        return true;
    for (int b = group->first; b < group->first + group->count; b++) {
        if (fabs(row->value(&group->question->blocks[b].need)) > 1e-9)
            return false;
    }
    return !row->shows_zero;
}

static void add_row(const Group *group, ReportTable *table, const NeedRow *row) {
    if (is_left_out(group, row))
        return;
    Cell *cells = ARENA_ARRAY(group->report->arena, Cell, group->count + 1);
    cells[0] = text_cell(row_label(group, row));
    for (int p = 0; p < group->count; p++) {
        const double value = row->value(&group->question->blocks[group->first + p].need);
        const int decimals =
            row->decimals >= 0 ? row->decimals : measure_decimals(group->units, row->measure);
        cells[p + 1] = number_cell(measure_shown(group->units, row->measure, value), decimals);
    }
    if (row->is_total)
        report_total_row(table, cells);
    else
        report_row(table, cells);
}

/* ---- figures ---- */

static Figure *add_need(Figure *list, const char *nutrient, const char *unit,
                        double least_value, double most_value, SourceKey source) {
    Figure *of = figure_list_object(list);
    figure_text(of, "nutrient", nutrient);
    figure_text(of, "unit", unit);
    figure_number(of, "least", least_value);
    figure_number(of, "most", most_value);
    figure_text(of, "source", source_key(source));
    return of;
}

static SourceKey own_or(const Requirement *need, NeedKind kind, SourceKey equations) {
    return need->own_kinds & NEED_BIT(kind) ? SOURCE_FARM_FIGURE : equations;
}

static SourceKey source_of(const Requirement *need, NeedKind kind, SourceKey equations) {
    return own_or(need, kind,
                  need->follows_table ? SOURCE_CANADIAN_CATTLEMEN_WINTER : equations);
}

/* Those no ration is held to, and those with a most alone, have no least. */
static void add_minerals(Figure *list, const PlanQuestion *question, int block) {
    const Requirement *need = &question->blocks[block].need;
    const MineralNeeds *minerals = question->farm->minerals;
    for (int i = 0; i < NUTRIENT_COUNT; i++) {
        const NutrientKind *kind = nutrient_kind((Nutrient)i);
        const SafetyLimit *most_of = needs_most_of(question, block, (Nutrient)i);
        const double beside = fmax(minerals->guide[i], minerals->told[i]);
        if (need->mineral_least[i] <= 0.0 && beside <= 0.0 && !most_of)
            continue;
        const bool is_needed = need->mineral_least[i] > 0.0;
        Figure *of = add_need(
            list, kind->stem, kind->unit, is_needed ? need->mineral_least[i] : (double)NAN,
            most_of ? most_of->hard : (double)NAN,
            need->mineral_is_own[i] ? SOURCE_FARM_FIGURE : minerals->source[i]);
        figure_number(of, "wanted_but_not_held", beside > 0.0 ? beside : (double)NAN);
        figure_text(of, "most_source", most_of ? source_key(most_of->source) : "");
    }
}

static void add_needs(Figure *period, const PlanQuestion *question, int block) {
    const Requirement *need = &question->blocks[block].need;
    Figure *list = figure_list(period, "needs");
    add_need(list, "net_energy_maintenance", "Mcal", nem(need), (double)NAN,
             source_of(need, NEED_NEM, SOURCE_NRC_EQUATIONS_2000));
    add_need(list, "net_energy_gain", "Mcal", need->retained.mcal_per_day, (double)NAN,
             source_of(need, NEED_NEG, SOURCE_NRC_EQUATIONS_2000));
    add_need(list, "metabolizable_protein", "g", protein(need), (double)NAN,
             source_of(need, NEED_PROTEIN, SOURCE_NRC_EQUATIONS_2000));
    add_need(list, "calcium", "g", need->calcium.g_per_day, (double)NAN,
             source_of(need, NEED_CALCIUM, SOURCE_NRC_2000));
    add_need(list, "phosphorus", "g", need->phosphorus.g_per_day, (double)NAN,
             source_of(need, NEED_PHOSPHORUS, SOURCE_NRC_EQUATIONS_2000));
    add_need(list, "ndf", "kg", (double)NAN, need->ndf_most_kg,
             own_or(need, NEED_NDF_MOST, SOURCE_PRODUCER_CALVING_FEED));
    add_need(list, "dry_matter", "kg", least(need), most(need),
             own_or(need, NEED_INTAKE_MOST,
                    own_or(need, NEED_INTAKE_LEAST, SOURCE_NRC_EQUATIONS_2000)));
    add_minerals(list, question, block);
}

static void add_period(Figure *list, const PlanQuestion *question, int block) {
    const PlanBlock *of = &question->blocks[block];
    const Requirement *need = &of->need;
    Figure *period = figure_list_object(list);
    figure_text(period, "from", day_iso(list->arena, of->from));
    figure_text(period, "to", day_iso(list->arena, of->to));
    figure_number(period, "weight_kg", need->live_weight.kg);
    figure_number(period, "shrunk_weight_kg", need->shrunk.kg);
    figure_number(period, "condition_9", need->condition);
    figure_number(period, "intake_kg", most(need));
    figure_number(period, "intake_at_nem_mcal_per_kg", SHOWN_DIET_NEM);
    figure_number(period, "calved_share", need->calved_share);
    figure_number(period, "days_pregnant", need->days_pregnant);
    figure_number(period, "milk_kg", need->milk.kg_per_day);
    figure_number(period, "gain_kg", need->gain.kg_per_day);
    figure_number(period, "air_c", need->air.celsius);
    figure_number(period, "felt_c", need->felt.celsius);
    figure_number(period, "critical_c", need->critical.celsius);
    figure_number(period, "cold_spell_adds_mcal", need->cold_spell_energy);
    figure_number(period, "water_l", need->water_l);
    Figure *parts = figure_child(period, "parts");
    figure_number(parts, "maintenance", need->energy.maintenance);
    figure_number(parts, "activity", need->energy.activity);
    figure_number(parts, "cold", need->energy.cold);
    figure_number(parts, "pregnancy", need->energy.pregnancy);
    figure_number(parts, "milk", need->energy.milk);
    figure_number(parts, "gain", need->retained.mcal_per_day);
    figure_number(parts, "condition", need->energy.condition);
    figure_number(parts, "table", need->energy.table);
    figure_number(parts, "own", need->energy.own);
    Figure *proteins = figure_child(period, "protein_parts");
    figure_number(proteins, "maintenance", need->protein.maintenance);
    figure_number(proteins, "pregnancy", need->protein.pregnancy);
    figure_number(proteins, "milk", need->protein.milk);
    figure_number(proteins, "gain", need->protein.gain);
    figure_number(proteins, "table", need->protein.table);
    figure_number(proteins, "own", need->protein.own);
    add_needs(period, question, block);
    needs_compared_figures(period, of);
}

static void add_group(const Group *group, const HerdGroup *of, Figure *list) {
    report_part(group->report, "group",
                arena_print(group->report->arena, "%s: %.0f head, %s", of->name, of->head,
                            cattle_class_kind(of->cattle_class)->name));
    ReportTable *table = report_table(group->report, "needs", "A head and day",
                                      columns_of(group), group->count + 1);
    for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++)
        add_row(group, table, &ROWS[i]);
    Figure *figures = figure_list_object(list);
    figure_text(figures, "group", of->name);
    figure_number(figures, "head", of->head);
    needs_explained_add(group->report, figures, group->question, group->units, group->first,
                        group->count);
    needs_compared_add(group->report, group->question, group->units, group->first,
                       group->count);
    const int at = (int)(of - group->question->farm->herd.groups);
    const char *own =
        own_need_words(group->report->arena, group->question->farm, group->units, at);
    if (own[0] != '\0')
        report_paragraph(group->report, "Your own figures, from needs.csv: %s.", own);
    Figure *periods = figure_list(figures, "periods");
    for (int b = group->first; b < group->first + group->count; b++)
        add_period(periods, group->question, b);
}

// The publications behind the needs, by the ways that were chosen.
static void add_sources(Report *report, ColdWay cold) {
    report_section(report, "sources", "Where the numbers come from");
    report_remark(
        report, SEVERITY_NOTE, "source",
        "Energy, protein, calcium, phosphorus and intake: the factorial equations of the "
        "seventh revised beef requirements.",
        "NRC_EQUATIONS_2000 NRC_2000");
    if (cold == COLD_BY_MODEL)
        report_remark(report, SEVERITY_NOTE, "source",
                      "Cold: the heat balance, metabolizable energy burnt to keep warm.",
                      "NRC_2000 NRC_EQUATIONS_2000");
    else
        report_remark(report, SEVERITY_NOTE, "source",
                      "Cold: one per cent of the energy need for each degree F that the felt "
                      "temperature is below the coat's critical one, two when wet.",
                      "UNL_COLD");
    report_remark(
        report, SEVERITY_NOTE, "source",
        "Published table of the diet's energy, protein, calcium and phosphorus, taken "
        "times the intake that its energy allows.",
        "CANADIAN_CATTLEMEN_WINTER MB_STRETCHING");
    report_remark(report, SEVERITY_NOTE, "source",
                  "Water: by class and the mean of the month, as at 40 F where it is colder.",
                  "MSU_WATER WINCHESTER_1956");
    report_remark(report, SEVERITY_NOTE, "source",
                  "Other minerals and vitamin A: least concentrations of the whole diet.",
                  "UADA_MP391 MERCK_MINERALS MSD_VITAMINS");
}

Report *needs_report(Arena *arena, const PlanQuestion *question, Units units) {
    const Winter *winter = &question->farm->winter;
    Report *report = report_new(arena, arena_print(arena, "What the cattle need, %s to %s",
                                                   day_words(arena, winter->first_day),
                                                   day_words(arena, winter->last_day)));
    report_section(report, "needs", "Needs by group and period");
    report_paragraph(
        report,
        "Means over each period; while cows calve, over those that have and have not. "
        "What they can eat is shown for a diet of %.2f %s of NEm; the plan reckons "
        "it for each ration. A cold spell is the month's cold-spell temperature with "
        "the same wind.",
        measure_shown(units, MEASURE_ENERGY_DENSITY, SHOWN_DIET_NEM),
        measure_unit(units, MEASURE_ENERGY_DENSITY));
    report_paragraph(
        report,
        "Upkeep is 0.077 Mcal for each kg of shrunk weight (live less 4 %%) to the power "
        "0.75, times 1.15 for bulls and 1.2 while milking. Cold is added to upkeep, "
        "calf and milk: %s docs/equations has a page for each part.",
        question->farm->weather.cold_way == COLD_BY_MODEL
            ? "by the heat balance of the animal, from its weight, flesh, coat, hide and the "
              "wind, in the air of the month; the coat table is not used."
            : "1 % for each degree F that the cold is felt below where it begins for that "
              "coat, 2 % when wet.");
    report_paragraph(report, "The plan follows %s; the other stands beside it for comparison.",
                     winter->needs_way == NEEDS_BY_TABLE
                         ? "the published table where it has a line for the cattle, and the "
                           "equations where it has none"
                         : "the equations");
    figure_text(report->figures, "requirements", needs_way_name(winter->needs_way));
    figure_text(report->figures, "cold", cold_way_name(winter->cold_way));
    Figure *list = figure_list(report->figures, "groups");
    for (int g = 0; g < question->farm->herd.count; g++) {
        Group group = {.report = report, .question = question, .units = units};
        group.count = group_blocks(question, g, &group.first);
        add_group(&group, &question->farm->herd.groups[g], list);
    }
    add_sources(report, question->farm->weather.cold_way);
    return report;
}
