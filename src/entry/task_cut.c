/* Next year's cut: the fields, the offer that is compared, and the report. */
#include "base/choice.h"
#include "base/text.h"
#include "entry/farm_reading.h"
#include "entry/task.h"
#include "outcome/cut_findings.h"
#include "outcome/cut_report.h"

/* The offer named, or else the first grain; -1: there is none. */
static int compared_offer(Faults *faults, const FarmRequest *request, const Farm *farm) {
    const PriceList *list = &farm->inventory.for_sale;
    for (int i = 0; i < list->count; i++) {
        if (request->buy ? text_same_letters(list->names[i], request->buy)
                         : list->offers[i].feed.feed_class == FEED_CLASS_GRAIN)
            return i;
    }
    if (request->buy) {
        const char *guess = choice_guess(faults->arena, request->buy, list->names, list->count);
        fault_add(faults, (Place){request->file[FARM_FOR_SALE].name, 0, 0},
                  "--buy: no feed for sale is named '%s'%s%s",
                  text_excerpt(faults->arena, request->buy), guess ? "; " : "",
                  guess ? guess : "");
    }
    return -1;
}

TaskResult task_cut(Arena *arena, Faults *faults, const FarmRequest *request) {
    static const TaskResult faulty = {.status = TASK_FAULTY};
    Farm farm;
    if (!farm_read(arena, faults, request, &farm))
        return faulty;
    if (farm.fields.cut_count == 0) {
        fault_add(faults, (Place){request->file[FARM_FIELDS].name, 0, 0},
                  "there are no fields of next year to plan; docs/file-formats.md tells the "
                  "columns");
        return faulty;
    }
    CutWishes wishes = {.offer = compared_offer(faults, request, &farm),
                        .date_count = request->date_count};
    if (faults->wrong_count > 0)
        return faulty;
    for (int i = 0; i < request->date_count; i++)
        wishes.dates[i] = request->dates[i];
    const CutFindings findings = cut_findings(arena, &farm, &wishes);
    if (findings.has_failed) {
        fault_add(faults, (Place){request->file[FARM_FIELDS].name, 0, 0},
                  "the cut could not be planned: %s; please report it with these files",
                  findings.remark);
        return faulty;
    }
    return (TaskResult){.status = findings.is_balanced ? TASK_DONE : TASK_SHORT,
                        .report = cut_report(arena, &findings, farm_units(request, &farm))};
}
