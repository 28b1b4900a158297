#include "outcome/reference_table.h"

#include "base/quantity.h"
#include "cattle/growing_day.h"
#include "cattle/maintenance.h"
#include "cattle/pregnancy.h"
#include "cattle/protein_requirement.h"
#include "cattle/year_of_cow.h"

#define SOURCES                                                                                \
    "NRC_EQUATIONS_2000 NRC_2000 LOFGREEN_1968 GARRETT_1980 JENKINS_1984 WILKERSON_1993"

/* The cows and the growing cattle the tables are for. Peak milk [RASBY_COWS]; the final weight
 * that of [NRC_EQUATIONS_2000 Table 9-1]. */
static const double COW_POUNDS[] = {1300.0, 1500.0};
static const double PEAK_MILK_POUNDS = 20.0;
static const double GROWING_KG[] = {200.0, 250.0, 300.0, 350.0, 400.0, 450.0};
static const double GAIN_KG[] = {0.5, 1.0, 1.5, 2.0, 2.5};
static const double FINAL_KG = 533.0;

#define COUNT_OF(list) ((int)(sizeof(list) / sizeof *(list)))

static YearCow cow_of(double live_pounds) {
    return (YearCow){.shrunk = shrunk_weight((Mass){live_pounds * KG_PER_POUND}),
                     .calf_birth_weight = {DEFAULT_CALF_BIRTH_WEIGHT_KG},
                     .peak_milk = {PEAK_MILK_POUNDS * KG_PER_POUND}};
}

static double crude_protein(GramRate metabolizable) {
    return metabolizable.g_per_day / CP_TO_MP;
}

/* A column of numbers: what it is, in which measure, and to how many places. */
typedef struct {
    const char *key, *label;
    Measure measure;
    int decimals; /* -1: the measure's own */
} TableColumn;

static ReportTable *table_of(Report *report, Units units, const char *key, const char *caption,
                             const ReportColumn *first, const TableColumn *columns, int count) {
    ReportColumn *all = ARENA_ARRAY(report->arena, ReportColumn, count + 1);
    all[0] = *first;
    for (int i = 0; i < count; i++)
        all[i + 1] = (ReportColumn){columns[i].key, columns[i].label,
                                    measure_unit(units, columns[i].measure), 1};
    return report_table(report, key, caption, all, count + 1);
}

static void add_row(Report *report, ReportTable *table, Units units, Cell first,
                    const TableColumn *columns, const double *values, int count) {
    Cell *cells = ARENA_ARRAY(report->arena, Cell, count + 1);
    cells[0] = first;
    for (int i = 0; i < count; i++) {
        const Measure measure = columns[i].measure;
        const int decimals =
            columns[i].decimals >= 0 ? columns[i].decimals : measure_decimals(units, measure);
        cells[i + 1] = number_cell(measure_shown(units, measure, values[i]), decimals);
    }
    report_row(table, cells);
}

/* ---- cows ---- */

static const TableColumn COW_COLUMNS[] = {
    {"milk", "Milk", MEASURE_FEED, 2},
    {"upkeep", "Upkeep", MEASURE_ENERGY, 2},
    {"for_milk", "for milk", MEASURE_ENERGY, 2},
    {"for_calf", "for calf", MEASURE_ENERGY, 2},
    {"nem", "NEm in all", MEASURE_ENERGY, 2},
    {"metabolizable_protein", "MP", MEASURE_PROTEIN, -1},
    {"crude_protein", "CP about", MEASURE_PROTEIN, -1},
    {"calcium", "Ca", MEASURE_MINERAL, 1},
    {"phosphorus", "P", MEASURE_MINERAL, 1},
};
enum { COW_COLUMN_COUNT = sizeof COW_COLUMNS / sizeof *COW_COLUMNS };

static void add_month_figures(Figure *list, int month, const CowMonth *of) {
    Figure *figures = figure_list_object(list);
    figure_number(figures, "month", month);
    figure_number(figures, "days_in_milk", of->days_in_milk);
    figure_number(figures, "days_pregnant", of->days_pregnant);
    figure_number(figures, "milk_kg", of->milk.kg_per_day);
    figure_number(figures, "nem_upkeep_mcal", of->maintenance.mcal_per_day);
    figure_number(figures, "nem_milk_mcal", of->lactation.mcal_per_day);
    figure_number(figures, "nem_calf_mcal", of->pregnancy.mcal_per_day);
    figure_number(figures, "nem_mcal", cow_month_energy(of).mcal_per_day);
    figure_number(figures, "metabolizable_protein_g", of->protein.g_per_day);
    figure_number(figures, "crude_protein_about_g", crude_protein(of->protein));
    figure_number(figures, "calcium_g", of->calcium.g_per_day);
    figure_number(figures, "phosphorus_g", of->phosphorus.g_per_day);
}

static void add_cow(Report *report, Units units, double live_pounds, Figure *list) {
    static const ReportColumn FIRST = {"month", "Month", "", 1};
    const YearCow cow = cow_of(live_pounds);
    const double live_kg = live_pounds * KG_PER_POUND;
    ReportTable *table =
        table_of(report, units, "year_of_cow",
                 arena_print(report->arena, "Cow of %s, a day",
                             measure_words(report->arena, units, MEASURE_WEIGHT, live_kg)),
                 &FIRST, COW_COLUMNS, COW_COLUMN_COUNT);
    Figure *figures = figure_list_object(list);
    figure_number(figures, "live_weight_kg", live_kg);
    figure_number(figures, "shrunk_weight_kg", cow.shrunk.kg);
    figure_number(figures, "peak_milk_kg", cow.peak_milk.kg_per_day);
    figure_number(figures, "calf_birth_weight_kg", cow.calf_birth_weight.kg);
    Figure *months = figure_list(figures, "months");
    for (int month = 1; month <= MONTHS_OF_YEAR; month++) {
        const CowMonth of = cow_month(&cow, month);
        const double values[COW_COLUMN_COUNT] = {
            of.milk.kg_per_day,
            of.maintenance.mcal_per_day,
            of.lactation.mcal_per_day,
            of.pregnancy.mcal_per_day,
            cow_month_energy(&of).mcal_per_day,
            of.protein.g_per_day,
            crude_protein(of.protein),
            of.calcium.g_per_day,
            of.phosphorus.g_per_day,
        };
        add_row(report, table, units, number_cell(month, 0), COW_COLUMNS, values,
                COW_COLUMN_COUNT);
        add_month_figures(months, month, &of);
    }
}

static void add_cows(Report *report, Units units, Figure *tables) {
    report_part(report, "year_of_cow", "A mature cow, month by month since calving");
    report_paragraph(
        report,
        "At the end of each month: day 30.4 of milk for every month past, day 85 less of "
        "pregnancy. Peak milk %s a day in week 8.5, calf of %s at birth, weaned after month 6. "
        "Upkeep is a fifth more while she milks. No cold, no change of condition. Energy is "
        "NEm; MP is metabolizable protein, and CP about what that is as crude protein.",
        measure_words(report->arena, units, MEASURE_FEED, PEAK_MILK_POUNDS * KG_PER_POUND),
        measure_words(report->arena, units, MEASURE_FEED, DEFAULT_CALF_BIRTH_WEIGHT_KG));
    Figure *list = figure_list(tables, "cows");
    for (int i = 0; i < COUNT_OF(COW_POUNDS); i++)
        add_cow(report, units, COW_POUNDS[i], list);
}

/* ---- growing cattle ---- */

static const TableColumn GROWING_COLUMNS[] = {
    {"gain", "Gain", MEASURE_FEED, 1},
    {"nem", "NEm", MEASURE_ENERGY, 2},
    {"neg", "NEg", MEASURE_ENERGY, 2},
    {"protein_upkeep", "MP upkeep", MEASURE_PROTEIN, -1},
    {"protein_gain", "MP gain", MEASURE_PROTEIN, -1},
    {"calcium", "Ca", MEASURE_MINERAL, 1},
    {"phosphorus", "P", MEASURE_MINERAL, 1},
};
enum { GROWING_COLUMN_COUNT = sizeof GROWING_COLUMNS / sizeof *GROWING_COLUMNS };

static void add_growing_figures(Figure *list, double weight_kg, double gain_kg,
                                const GrowingDay *of) {
    Figure *figures = figure_list_object(list);
    figure_number(figures, "shrunk_weight_kg", weight_kg);
    figure_number(figures, "gain_kg", gain_kg);
    figure_number(figures, "nem_mcal", of->maintenance.mcal_per_day);
    figure_number(figures, "neg_mcal", of->gain.mcal_per_day);
    figure_number(figures, "metabolizable_protein_upkeep_g", of->protein_maintenance.g_per_day);
    figure_number(figures, "metabolizable_protein_gain_g", of->protein_gain.g_per_day);
    figure_number(figures, "calcium_g", of->calcium.g_per_day);
    figure_number(figures, "phosphorus_g", of->phosphorus.g_per_day);
}

static void add_growing_rows(Report *report, ReportTable *table, Units units, double weight_kg,
                             Figure *list) {
    for (int g = 0; g < COUNT_OF(GAIN_KG); g++) {
        const GrowingDay of =
            growing_day((Mass){weight_kg}, (Mass){FINAL_KG}, (FeedRate){GAIN_KG[g]});
        const double values[GROWING_COLUMN_COUNT] = {
            GAIN_KG[g],
            of.maintenance.mcal_per_day,
            of.gain.mcal_per_day,
            of.protein_maintenance.g_per_day,
            of.protein_gain.g_per_day,
            of.calcium.g_per_day,
            of.phosphorus.g_per_day,
        };
        add_row(report, table, units, measure_cell(units, MEASURE_WEIGHT, weight_kg),
                GROWING_COLUMNS, values, GROWING_COLUMN_COUNT);
        add_growing_figures(list, weight_kg, GAIN_KG[g], &of);
    }
}

static void add_growing(Report *report, Units units, Figure *tables) {
    report_part(report, "growing", "Growing cattle, by weight and gain");
    report_paragraph(
        report,
        "Weight is shrunk, 96 %% of what the scale shows; so is gain. Finished at %s shrunk "
        "(a heifer: grown). NEm is for upkeep, NEg for the gain. No cold.",
        measure_words(report->arena, units, MEASURE_WEIGHT, FINAL_KG));
    const ReportColumn first = {"weight", "Weight", measure_unit(units, MEASURE_WEIGHT), 1};
    ReportTable *table = table_of(report, units, "growing", "A head and day", &first,
                                  GROWING_COLUMNS, GROWING_COLUMN_COUNT);
    Figure *growing = figure_child(tables, "growing");
    figure_number(growing, "final_shrunk_weight_kg", FINAL_KG);
    Figure *list = figure_list(growing, "rows");
    for (int w = 0; w < COUNT_OF(GROWING_KG); w++)
        add_growing_rows(report, table, units, GROWING_KG[w], list);
}

void reference_tables_add(Report *report, Units units) {
    report_section(report, "reference_tables", "Tables to compare with books");
    report_paragraph(report,
                     "The same equations as above, for cattle that stand in books and not for "
                     "this herd: to be held against a printed table.");
    Figure *tables = figure_child(report->figures, "reference_tables");
    figure_text(tables, "sources", SOURCES);
    add_cows(report, units, tables);
    add_growing(report, units, tables);
    report_remark(report, SEVERITY_NOTE, "source",
                  "Upkeep, calf, milk and gain: the factorial equations.", SOURCES);
}
