/* Bought feed that was fed by the record: it left no stack, so it stands beside the books. */
#include "outcome/stock_report.h"

void stock_report_bought(Report *report, const StockFindings *findings, Units units) {
    const Farm *farm = findings->farm;
    const PriceList *list = &farm->inventory.for_sale;
    ReportColumn *columns = ARENA_ARRAY(report->arena, ReportColumn, 2);
    columns[0] = (ReportColumn){"feed", "Feed", "", 0};
    columns[1] = (ReportColumn){"fed", "Fed", measure_unit(units, MEASURE_TONNAGE), 1};
    ReportTable *table = NULL;
    for (int i = 0; i < list->count; i++) {
        const double kg = bought_feedings_kg(&farm->record, i, findings->day);
        if (kg <= 0.0)
            continue;
        if (!table)
            table = report_table(report, "bought", "Bought feed that was fed, of no stack",
                                 columns, 2);
        report_row(table, (Cell[]){text_cell(list->names[i]),
                                   number_cell(measure_shown(units, MEASURE_TONNAGE, kg), 2)});
    }
    if (table)
        report_paragraph(
            report,
            "It is in none of the lines above. What was delivered and still lies in the yard "
            "is counted nowhere on this page until it has a row of its own in stacks.csv, "
            "with its weight and the day it came as counted_date; feed it by the name of that "
            "row.");
}

void stock_bought_figures(Figure *root, const StockFindings *findings) {
    const Farm *farm = findings->farm;
    const PriceList *list = &farm->inventory.for_sale;
    Figure *bought = figure_list(root, "bought");
    for (int i = 0; i < list->count; i++) {
        Figure *feed = figure_list_object(bought);
        figure_text(feed, "feed", list->names[i]);
        figure_number(feed, "fed_kg", bought_feedings_kg(&farm->record, i, findings->day));
    }
}
