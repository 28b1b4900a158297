/* What each future buys, a row a feed. */
#include "base/text.h"
#include "outcome/comparison.h"

const ReportColumn *comparison_columns(Arena *arena, const Comparison *comparison,
                                       const char *key, const char *label, const char *unit) {
    ReportColumn *columns = ARENA_ARRAY(arena, ReportColumn, comparison->count + 1);
    columns[0] = (ReportColumn){key, label, "", 0};
    for (int i = 0; i < comparison->count; i++)
        columns[i + 1] = (ReportColumn){arena_print(arena, "future_%d", i),
                                        comparison->futures[i].name, unit, 1};
    return columns;
}

static double bought_kg(const Future *future, const char *name) {
    const WinterPlan *plan = future->plan;
    for (int f = plan->question->own_count; f < plan->question->feed_count; f++) {
        if (text_same_letters(plan->question->feeds[f].name, name))
            return plan->bought_kg[f];
    }
    return 0.0;
}

static bool was_named_before(const Comparison *comparison, int place, const char *name) {
    for (int i = 0; i < place; i++) {
        if (bought_kg(&comparison->futures[i], name) > 0.0)
            return true;
    }
    return false;
}

static void add_purchase(ReportTable *table, const Comparison *comparison, const char *name) {
    Cell *cells = ARENA_ARRAY(table->arena, Cell, comparison->count + 1);
    cells[0] = text_cell(name);
    for (int i = 0; i < comparison->count; i++) {
        const double kg = bought_kg(&comparison->futures[i], name);
        cells[i + 1] = kg > 0.0 ? tonnage_cell(comparison->units, kg) : empty_cell();
    }
    report_row(table, cells);
}

void comparison_add_purchases(Report *report, const Comparison *comparison) {
    report_section(report, "purchases", "What to buy");
    ReportTable *table =
        report_table(report, "purchases", "",
                     comparison_columns(report->arena, comparison, "feed", "Feed",
                                        measure_unit(comparison->units, MEASURE_TONNAGE)),
                     comparison->count + 1);
    for (int i = 0; i < comparison->count; i++) {
        const WinterPlan *plan = comparison->futures[i].plan;
        for (int f = plan->question->own_count; f < plan->question->feed_count; f++) {
            const char *name = plan->question->feeds[f].name;
            if (plan->bought_kg[f] > 0.0 && !was_named_before(comparison, i, name))
                add_purchase(table, comparison, name);
        }
    }
    if (!table->first)
        report_paragraph(report, "None of them buys anything.");
}
