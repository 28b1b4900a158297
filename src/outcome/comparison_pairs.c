/* Each two futures that feed the same herd: which is cheaper, by how much, and how sure that
 * is. */
#include "outcome/comparison.h"
#include <math.h>

static const char *sure_words(const CostDifference *of) {
    switch (of->is) {
    case DIFFERENCE_NONE:
        return "the same";
    case DIFFERENCE_WITHIN_ERROR:
        return "not sure";
    case DIFFERENCE_BEYOND_ERROR:
        break;
    }
    return "sure";
}

static void add_pair(ReportTable *table, const Future *a, const Future *b) {
    const CostDifference of = comparison_difference(a, b);
    const Future *cheaper = of.more < 0.0 ? b : a;
    report_row(table,
               (Cell[]){text_cell(cheaper->name), text_cell(cheaper == a ? b->name : a->name),
                        number_cell(fabs(of.more), 0), number_cell(of.standard, 0),
                        text_cell(sure_words(&of))});
}

static bool can_be_paired(const Comparison *comparison, int place) {
    const Future *future = &comparison->futures[place];
    return comparison_is_ranked(comparison, future) && !isnan(future_cost(future));
}

void comparison_add_pairs(Report *report, const Comparison *comparison) {
    static const ReportColumn COLUMNS[] = {
        {"cheaper", "Cheaper", "", 0},
        {"than", "than", "", 0},
        {"by", "by", "$", 1},
        {"left_open", "left open", "$", 1},
        {"sure", "By tests and weights", "", 0},
    };
    report_section(report, "pairs", "How sure the differences are");
    ReportTable *table = report_table(report, "pairs", "", COLUMNS, 5);
    for (int a = 0; a < comparison->count; a++) {
        for (int b = a + 1; b < comparison->count; b++) {
            if (can_be_paired(comparison, a) && can_be_paired(comparison, b))
                add_pair(table, &comparison->futures[a], &comparison->futures[b]);
        }
    }
    report_paragraph(
        report,
        "Left open is the standard error of the difference, two times in three: each stack's "
        "weight, energy and protein moved by how far it may be off, and the plans solved "
        "again. "
        "Sure is a difference of more than twice that. Prices, the weather, losses, and the "
        "analysis of grain and bought feed are not in it.");
}
