/* The futures of next year's cut in words, and tables with a column for each. */
#include "outcome/cut_report.h"
#include "outcome/day_words.h"
#include <math.h>

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

const char *future_label(Arena *arena, const CutFindings *findings, FutureName name) {
    int number = 1;
    for (int before = 0; before < (int)name; before++)
        number += findings->is_there[before];
    const bool is_bought =
        future_offer(findings) && name > FUTURE_SECOND && name != FUTURE_PLANNED;
    return arena_print(arena, "%d %s%s", number, future_days_words(arena, findings, name),
                       is_bought ? ", buy" : "");
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
        columns[count] =
            (ReportColumn){arena_print(arena, "future_%d", count),
                           future_label(arena, findings, (FutureName)name), unit, 1};
        count++;
    }
    return report_table(report, key, caption, columns, count);
}

bool futures_are_of_one_day(const CutFindings *findings) {
    const Fields *fields = &findings->farm->fields;
    const CutFuture first = cut_future(&findings->wishes, FUTURE_FIRST);
    const CutFuture second = cut_future(&findings->wishes, FUTURE_SECOND);
    for (int c = 0; c < fields->cut_count; c++) {
        if (cut_future_allows(fields, first, c) != cut_future_allows(fields, second, c))
            return false;
    }
    return true;
}

double future_hectares(const CutFindings *findings, FutureName name) {
    double sum = 0.0;
    for (int c = 0; c < findings->farm->fields.cut_count; c++)
        sum += findings->plans[name].hectares[c];
    return sum;
}

static double lack_share(const LimitOutcome *of) {
    const double bound = isfinite(of->least) ? of->least : of->most;
    return of->short_by / fmax(fabs(bound), 1e-9);
}

/* How much a shortage weighs: its share of the bound, as dearly as that need gives. */
static double lack_weight(const LimitOutcome *of) {
    const double gives = isfinite(of->least) ? of->limit->least_gives : of->limit->most_gives;
    return of->limit->is_inner ? 0.0 : gives * lack_share(of);
}

static const char *share_words(Arena *arena, double share) {
    const double percent = share * 100.0;
    return percent < 1.0 ? "less than 1" : number_words(arena, percent, 0);
}

/* The need whose shortage weighs most. */
const char *future_lack_words(Arena *arena, const CutPlan *plan) {
    double most = 0.0;
    const char *words = "the herd short";
    for (int b = 0; b < plan->question->block_count; b++) {
        const BlockOutcome *block = &plan->plan.blocks[b];
        for (int i = 0; i < block->limit_count; i++) {
            const LimitOutcome *of = &block->limits[i];
            if (lack_weight(of) <= most)
                continue;
            most = lack_weight(of);
            words = arena_print(
                arena, "%s short of %s, by %s %% of it and most from %s",
                plan->question->farm->herd.groups[plan->question->blocks[b].group].name,
                of->limit->label, share_words(arena, lack_share(of)),
                day_short(arena, plan->question->blocks[b].from));
        }
    }
    return words;
}
