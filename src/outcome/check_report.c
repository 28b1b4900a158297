#include "outcome/check_report.h"
#include "base/text.h"

static void add_faults(Report *report, const Faults *faults) {
    const Fault **sorted = faults_sorted(faults, report->arena);
    Figure *list = figure_list(report->figures, "faults");
    for (int i = 0; i < faults->wrong_count + faults->doubt_count; i++) {
        Figure *of = figure_list_object(list);
        figure_text(of, "kind", sorted[i]->kind == FAULT_WRONG ? "fault" : "doubt");
        figure_text(of, "file", sorted[i]->place.file);
        figure_number(of, "line", sorted[i]->place.line);
        figure_number(of, "column", sorted[i]->place.column);
        figure_text(of, "text", sorted[i]->text);
    }
}

static int untested_count(const Farm *farm) {
    int count = 0;
    for (int i = 0; i < farm->inventory.stacks.count; i++)
        count += farm->inventory.stacks.stacks[i].feed.sample_count == 0;
    return count;
}

Report *check_report(Arena *arena, const Faults *faults, const Farm *farm) {
    Report *report = report_new(arena, "What was read");
    if (faults->wrong_count > 0)
        report_verdict(
            report, SEVERITY_DANGER, "%d %s to be mended before anything can be planned.",
            faults->wrong_count, faults->wrong_count == 1 ? "fault is" : "faults are");
    else if (faults->doubt_count > 0)
        report_verdict(
            report, SEVERITY_CAUTION, "Everything could be read; %d %s worth a second look.",
            faults->doubt_count, faults->doubt_count == 1 ? "value is" : "values are");
    else
        report_verdict(report, SEVERITY_NOTE,
                       "Everything could be read and nothing looks odd.");
    report_section(report, "read", "What is there");
    report_paragraph(
        report,
        "%d groups of cattle, %d stacks (%d without a test), %d laboratory samples, %d "
        "feeds for sale.",
        farm->herd.count, farm->inventory.stacks.count, untested_count(farm),
        farm->inventory.tests.count, farm->inventory.for_sale.count);
    if (farm->fields.cut_count > 0)
        report_paragraph(report, "Next year: %d fields, in %d ways to cut them.",
                         farm->fields.field_count, farm->fields.cut_count);
    figure_truth(report->figures, "usable", faults->wrong_count == 0);
    figure_number(report->figures, "groups", farm->herd.count);
    figure_number(report->figures, "stacks", farm->inventory.stacks.count);
    figure_number(report->figures, "samples", farm->inventory.tests.count);
    figure_number(report->figures, "for_sale", farm->inventory.for_sale.count);
    figure_number(report->figures, "fields", farm->fields.field_count);
    add_faults(report, faults);
    return report;
}
