#include "outcome/record_gap.h"
#include "outcome/day_words.h"

static Day later(Day a, Day b) { return calendar_days_between(a, b) > 0 ? b : a; }

/* The last day up to this evening that anything is written of; before the winter, its eve. */
static Day last_written(const Farm *farm, Day evening) {
    const FeedRecord *record = &farm->record;
    Day last = calendar_add(winter_weighing_day(&farm->winter), -1);
    for (int i = 0; i < record->feeding_count; i++) {
        if (calendar_days_between(record->feedings[i].date, evening) >= 0)
            last = later(last, record->feedings[i].date);
    }
    for (int i = 0; i < record->recount_count; i++) {
        if (calendar_days_between(record->recounts[i].date, evening) >= 0)
            last = later(last, record->recounts[i].date);
    }
    return last;
}

static Day last_fed_day(const Farm *farm, Day evening) {
    return calendar_days_between(farm->winter.last_day, evening) > 0 ? farm->winter.last_day
                                                                     : evening;
}

int record_gap_days(const Farm *farm, Day evening) {
    const int days =
        calendar_days_between(last_written(farm, evening), last_fed_day(farm, evening));
    return days > 0 ? days : 0;
}

bool record_has_gap(const Farm *farm, Day evening) {
    return record_gap_days(farm, evening) > RECORD_GAP_TOLD_DAYS;
}

void record_gap_remark(Report *report, const Farm *farm, Day evening) {
    Arena *arena = report->arena;
    if (!record_has_gap(farm, evening))
        return;
    report_remark(
        report, SEVERITY_CAUTION, "record_gap",
        arena_print(
            arena,
            "Nothing is written down for the %d feeding days from %s to %s. What was fed "
            "on them is counted as still lying there: less is left than this page says, "
            "and it ends sooner. Write it down with `winterstack fed --date`, or count "
            "the stacks.",
            record_gap_days(farm, evening),
            day_short(arena, calendar_add(last_written(farm, evening), 1)),
            day_words(arena, last_fed_day(farm, evening))),
        "");
}
