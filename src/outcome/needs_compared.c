#include "outcome/needs_compared.h"
#include "outcome/day_words.h"
#include <math.h>

typedef struct {
    double equations, table;
    bool is_printed; /* false: the equations stand in for the table */
} Pair;

static Pair energy_of(const PlanBlock *block) {
    return (Pair){block->by_table.equations_nem.mcal_per_day, block->by_table.nem.mcal_per_day,
                  true};
}

static Pair protein_of(const PlanBlock *block) {
    return (Pair){requirement_protein(&block->by_equations).g_per_day,
                  block->by_table.protein.g_per_day, true};
}

static Pair calcium_of(const PlanBlock *block) {
    return (Pair){block->by_equations.calcium.g_per_day, block->by_table.calcium.g_per_day,
                  block->by_table.calcium_share > 0.0};
}

static Pair phosphorus_of(const PlanBlock *block) {
    return (Pair){block->by_equations.phosphorus.g_per_day,
                  block->by_table.phosphorus.g_per_day, block->by_table.phosphorus_share > 0.0};
}

static double difference_pct(Pair pair) {
    return pair.equations > 0.0 ? (pair.table / pair.equations - 1.0) * 100.0 : (double)NAN;
}

/* ---- why they differ, as docs/equations/disagreements.md tells it ---- */

static const char *margin(Arena *arena, const PlanBlock *block, Pair pair) {
    (void)arena;
    (void)block;
    return pair.table > pair.equations ? ", whose shares of the diet hold a margin for winter"
                                       : "";
}

static const char *margin_of_the_dry(Arena *arena, const PlanBlock *block, Pair pair) {
    const bool has_nursing = block->by_equations.stages & STAGE_BIT(STAGE_NURSING);
    return has_nursing ? "" : margin(arena, block, pair);
}

/* What the equations hold for cold and for flesh to be put on, where that is most of it. */
static const char *energy_why(Arena *arena, const PlanBlock *block, Pair pair) {
    if (pair.table > pair.equations)
        return margin(arena, block, pair);
    const double flesh = fmax(block->by_equations.energy.condition, 0.0);
    const double added = block->by_equations.energy.cold + flesh;
    return added > 0.5 * (pair.equations - pair.table)
               ? arena_print(arena,
                             ": the equations add %.1f Mcal for cold%s, and the table nothing",
                             added, flesh > 0.0 ? " and condition" : "")
               : "";
}

/* ---- the needs ---- */

typedef struct {
    const char *key, *key_unit; /* of the JSON */
    const char *word, *column;
    Measure measure;
    int decimals; /* -1: the measure's own */
    Pair (*pair)(const PlanBlock *block);
    const char *(*why)(Arena *arena, const PlanBlock *block, Pair pair); /* of cows */
} Compared;

static const Compared COMPARED[] = {
    {"net_energy_as_maintenance", "Mcal", "NEm", "NEm", MEASURE_ENERGY, -1, energy_of,
     energy_why},
    {"metabolizable_protein", "g", "protein", "Protein", MEASURE_PROTEIN, -1, protein_of,
     margin},
    {"calcium", "g", "calcium", "Ca", MEASURE_MINERAL, 0, calcium_of, margin_of_the_dry},
    {"phosphorus", "g", "phosphorus", "P", MEASURE_MINERAL, 0, phosphorus_of, margin},
};
enum { COMPARED_COUNT = sizeof COMPARED / sizeof COMPARED[0] };

enum { CELLS_OF_ONE = 3, CELL_COUNT = 1 + CELLS_OF_ONE * COMPARED_COUNT };

static const ReportColumn *columns_of(Arena *arena, Units units) {
    ReportColumn *columns = ARENA_ARRAY(arena, ReportColumn, CELL_COUNT);
    columns[0] = (ReportColumn){"from", "From", "", 0};
    for (int i = 0; i < COMPARED_COUNT; i++) {
        const Compared *of = &COMPARED[i];
        const char *unit = measure_unit(units, of->measure);
        ReportColumn *three = &columns[1 + CELLS_OF_ONE * i];
        three[0] =
            (ReportColumn){arena_print(arena, "%s_equations", of->key), of->column, unit, 1};
        three[1] = (ReportColumn){arena_print(arena, "%s_table", of->key), "table", unit, 1};
        three[2] = (ReportColumn){arena_print(arena, "%s_difference", of->key), "+/-", "%", 1};
    }
    return columns;
}

static Cell amount_cell(const Compared *of, Units units, double amount) {
    const int decimals =
        of->decimals >= 0 ? of->decimals : measure_decimals(units, of->measure);
    return number_cell(measure_shown(units, of->measure, amount), decimals);
}

static void add_row(ReportTable *table, Units units, const PlanBlock *block) {
    Cell cells[CELL_COUNT] = {text_cell(day_short(table->arena, block->from))};
    for (int i = 0; i < COMPARED_COUNT; i++) {
        const Pair pair = COMPARED[i].pair(block);
        Cell *three = &cells[1 + CELLS_OF_ONE * i];
        three[0] = amount_cell(&COMPARED[i], units, pair.equations);
        three[1] =
            pair.is_printed ? amount_cell(&COMPARED[i], units, pair.table) : empty_cell();
        three[2] = pair.is_printed ? number_cell(difference_pct(pair), 0) : empty_cell();
    }
    report_row(table, cells);
}

static void say_what_is_not_printed(Report *report, const PlanBlock *blocks, int count) {
    bool is_whole = true;
    for (int b = 0; b < count; b++) {
        const double least =
            fmin(blocks[b].by_table.calcium_share, blocks[b].by_table.phosphorus_share);
        is_whole = is_whole && least > 1.0 - 1e-9;
    }
    if (!is_whole)
        report_paragraph(report,
                         "For days of which the table prints no calcium or phosphorus the "
                         "equations stand; a dash where those are all of the days.");
}

/* What is known of cows holds of bred heifers, who share their line; but it has no gain in it.
 * "" when no reason is known. */
static const char *why_of(Arena *arena, const Compared *need, const PlanBlock *block) {
    static const char NO_GAIN[] = ", which is printed for no one weight or gain";
    const Requirement *said = &block->by_equations;
    if (said->gain.kg_per_day > 0.0 && said->days_pregnant <= 0.0 && said->calved_share <= 0.0)
        return NO_GAIN;
    const Pair pair = need->pair(block);
    const char *why = need->why(arena, block, pair);
    const bool is_less = pair.table < pair.equations;
    return why[0] == '\0' && is_less && said->gain.kg_per_day > 0.0 ? NO_GAIN : why;
}

static void say_what_differs_most(Report *report, const PlanBlock *blocks, int count) {
    const Compared *most = NULL;
    const PlanBlock *when = NULL;
    double apart = 0.0;
    for (int b = 0; b < count; b++) {
        for (int i = 0; i < COMPARED_COUNT; i++) {
            const Pair pair = COMPARED[i].pair(&blocks[b]);
            if (!pair.is_printed || !(fabs(difference_pct(pair)) > fabs(apart)))
                continue;
            apart = difference_pct(pair);
            most = &COMPARED[i];
            when = &blocks[b];
        }
    }
    if (!most)
        return;
    report_paragraph(report, "Furthest apart: %s from %s, %.0f %% %s by the table%s.",
                     most->word, day_short(report->arena, when->from), fabs(apart),
                     apart > 0.0 ? "more" : "less", why_of(report->arena, most, when));
}

void needs_compared_add(Report *report, const PlanQuestion *question, Units units, int first,
                        int count) {
    const PlanBlock *blocks = &question->blocks[first];
    const HerdGroup *group = &question->farm->herd.groups[blocks->group];
    if (!blocks->by_table.is_printed) {
        report_paragraph(report,
                         "The published table has no line for a %s: nothing stands beside the "
                         "equations, which are followed whichever way is chosen.",
                         cattle_class_kind(group->cattle_class)->name);
        return;
    }
    ReportTable *table = report_table(
        report, "compared",
        "The equations beside the published table (+/-), a head and day; gain as NEm",
        columns_of(report->arena, units), CELL_COUNT);
    for (int b = 0; b < count; b++)
        add_row(table, units, &blocks[b]);
    say_what_is_not_printed(report, blocks, count);
    say_what_differs_most(report, blocks, count);
}

void needs_compared_figures(Figure *period, const PlanBlock *block) {
    Figure *list = figure_list(period, "compared");
    for (int i = 0; block->by_table.is_printed && i < COMPARED_COUNT; i++) {
        const Pair pair = COMPARED[i].pair(block);
        Figure *of = figure_list_object(list);
        figure_text(of, "need", COMPARED[i].key);
        figure_text(of, "unit", COMPARED[i].key_unit);
        figure_number(of, "equations", pair.equations);
        figure_number(of, "table", pair.table);
        figure_number(of, "difference_pct", difference_pct(pair));
    }
}
