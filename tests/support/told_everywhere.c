#include "support/told_everywhere.h"

enum { SERIES = 5, POINTS = 3 };

static void add_chart(Report *report, ChartKind kind, const char *words) {
    const bool is_bars = kind == CHART_LIMIT_BARS || kind == CHART_STACKED_BARS;
    ReportChart *chart =
        chart_new(report->arena, kind, words, words,
                  (ChartAxis){is_bars ? AXIS_CATEGORIES : AXIS_DAYS, words, words, 0},
                  (ChartAxis){AXIS_NUMBERS, words, words, 1});
    chart_alternative(chart, "%s", words);
    for (int s = 0; s < (kind == CHART_CURVE ? 2 : SERIES); s++) {
        ChartSeries *series = chart_series(chart, words);
        for (int x = 0; x < POINTS; x++)
            chart_point(series, is_bars ? x : 20000 + 40 * x, 10.0 * (s + 1) - x);
        chart_mark_of(chart, series, words, is_bars ? 0 : 20040, 5.0);
    }
    for (int c = 0; is_bars && c < POINTS; c++) {
        ChartCategory *category = chart_category(chart, words);
        category->least = 8.0;
        category->value_words = c == 0 ? words : "";
    }
    chart_limit(chart, words, 9.0);
    chart_mark(chart, words, is_bars ? 1 : 20060, 7.0);
    report_chart(report, chart);
}

const Report *told_everywhere(Arena *arena, const char *words) {
    const ReportColumn columns[] = {{words, words, words, 0}, {words, words, words, 1}};
    Report *report = report_new(arena, words);
    report_headline(report, "%s", words);
    report_verdict(report, SEVERITY_DANGER, "%s", words);
    report_foremost(report, SEVERITY_DANGER, words);
    report_fact(report, words, words, text_cell(words), words, words);
    report_fact(report, words, words, number_cell(12.5, 1), words, words);
    report_section(report, words, words);
    report_paragraph(report, "%s", words);
    report_remark(report, SEVERITY_CAUTION, words, words, words);
    report_remark(report, SEVERITY_NOTE, "source", words, words);
    report_part(report, words, words);
    ReportTable *table = report_table(report, words, words, columns, 2);
    report_row(table, (Cell[]){text_cell(words), number_cell(-1.5, 1)});
    report_row(table, (Cell[]){text_cell(words), text_cell(words)});
    report_total_row(table, (Cell[]){text_cell(words), empty_cell()});
    for (int kind = CHART_LINES; kind <= CHART_CURVE; kind++)
        add_chart(report, (ChartKind)kind, words);
    report_table_of_chart(report, words, "", columns, 2);
    return report;
}
