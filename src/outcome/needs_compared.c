#include "outcome/needs_compared.h"
#include "outcome/day_words.h"
#include <math.h>

typedef struct {
    double equations, table;
} Pair;

static Pair energy_of(const PlanBlock *block) {
    return (Pair){block->by_table.equations_nem.mcal_per_day, block->by_table.nem.mcal_per_day};
}

static Pair protein_of(const PlanBlock *block) {
    return (Pair){requirement_protein(&block->by_equations).g_per_day,
                  block->by_table.protein.g_per_day};
}

static Pair calcium_of(const PlanBlock *block) {
    return (Pair){block->by_equations.calcium.g_per_day, block->by_table.calcium.g_per_day};
}

static Pair phosphorus_of(const PlanBlock *block) {
    return (Pair){block->by_equations.phosphorus.g_per_day,
                  block->by_table.phosphorus.g_per_day};
}

static double difference_pct(Pair pair) {
    return pair.equations > 0.0 ? (pair.table / pair.equations - 1.0) * 100.0 : (double)NAN;
}

void needs_compared_table(Report *report, const PlanQuestion *question, Units units, int first,
                          int count) {
    if (!question->blocks[first].by_table.is_printed)
        return;
    const char *energy = measure_unit(units, MEASURE_ENERGY);
    const char *protein = measure_unit(units, MEASURE_PROTEIN);
    const ReportColumn columns[] = {
        {"from", "From", "", 0},
        {"energy_equations", "NEm", energy, 1},
        {"energy_table", "by table", energy, 1},
        {"energy_difference", "differs", "%", 1},
        {"protein_equations", "Protein", protein, 1},
        {"protein_table", "by table", protein, 1},
        {"protein_difference", "differs", "%", 1},
    };
    ReportTable *table = report_table(
        report, "compared",
        "The equations beside the published table, a head and day; gain counted as NEm",
        columns, (int)(sizeof columns / sizeof columns[0]));
    for (int b = first; b < first + count; b++) {
        const PlanBlock *block = &question->blocks[b];
        const Pair of_energy = energy_of(block);
        const Pair of_protein = protein_of(block);
        report_row(table, (Cell[]){text_cell(day_short(report->arena, block->from)),
                                   measure_cell(units, MEASURE_ENERGY, of_energy.equations),
                                   measure_cell(units, MEASURE_ENERGY, of_energy.table),
                                   number_cell(difference_pct(of_energy), 0),
                                   measure_cell(units, MEASURE_PROTEIN, of_protein.equations),
                                   measure_cell(units, MEASURE_PROTEIN, of_protein.table),
                                   number_cell(difference_pct(of_protein), 0)});
    }
}

static void add_pair(Figure *list, const char *need, const char *unit, Pair pair) {
    Figure *of = figure_list_object(list);
    figure_text(of, "need", need);
    figure_text(of, "unit", unit);
    figure_number(of, "equations", pair.equations);
    figure_number(of, "table", pair.table);
    figure_number(of, "difference_pct", difference_pct(pair));
}

void needs_compared_figures(Figure *period, const PlanBlock *block) {
    Figure *list = figure_list(period, "compared");
    if (!block->by_table.is_printed)
        return;
    add_pair(list, "net_energy_as_maintenance", "Mcal", energy_of(block));
    add_pair(list, "metabolizable_protein", "g", protein_of(block));
    add_pair(list, "calcium", "g", calcium_of(block));
    add_pair(list, "phosphorus", "g", phosphorus_of(block));
}
