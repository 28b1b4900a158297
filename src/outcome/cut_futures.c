/* The futures of next year's cut in words, and tables with a column for each. */
#include "outcome/cut_report.h"
#include "outcome/day_words.h"

const char *future_days_words(Arena *arena, const CutFindings *findings, FutureName name) {
    const CutFuture future = cut_future(&findings->wishes, name);
    switch (future.days) {
    case CUT_AS_PLANNED:
        return "Mixed";
    case CUT_EARLIEST:
        return "Early";
    case CUT_LATEST:
        return "Late";
    case CUT_ON_DAY:
        return day_short(arena, future.day);
    }
    return "";
}

const Offer *future_offer(const CutFindings *findings) {
    const int offer = findings->wishes.offer;
    return offer < 0 ? NULL : &findings->farm->inventory.for_sale.offers[offer];
}

const char *future_words(Arena *arena, const CutFindings *findings, FutureName name) {
    const CutFuture future = cut_future(&findings->wishes, name);
    const Offer *offer = future_offer(findings);
    const char *days = future.days == CUT_EARLIEST ? "All cut early"
                       : future.days == CUT_LATEST
                           ? "All cut late"
                           : arena_print(arena, "All cut %s", day_short(arena, future.day));
    if (name == FUTURE_PLANNED)
        return "Mixed, as costs least";
    if (!offer)
        return days;
    return arena_print(arena, "%s, %s %s", days, future.barred_offer < 0 ? "buy" : "without",
                       offer->name);
}

ReportTable *futures_table(Report *report, const CutFindings *findings, const char *key,
                           const char *caption, const char *label, const char *unit) {
    Arena *arena = report->arena;
    ReportColumn *columns = ARENA_ARRAY(arena, ReportColumn, FUTURE_COUNT + 1);
    int count = 0;
    columns[count++] = (ReportColumn){"what", label, "", 0};
    for (int name = 0; name < FUTURE_COUNT; name++) {
        if (!findings->is_there[name])
            continue;
        const char *days = future_days_words(arena, findings, (FutureName)name);
        const bool is_without = future_offer(findings) && name <= FUTURE_SECOND;
        columns[count] = (ReportColumn){
            arena_print(arena, "future_%d", count),
            arena_print(arena, "%d %s%s", count, days,
                        is_without                                          ? ""
                        : name == FUTURE_PLANNED || !future_offer(findings) ? ""
                                                                            : ", buy"),
            unit, 1};
        count++;
    }
    return report_table(report, key, caption, columns, count);
}
