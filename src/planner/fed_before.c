#include "planner/fed_before.h"
#include "base/text.h"
#include <math.h>

static bool is_in(const KeptRation *ration, Day day) {
    return calendar_days_between(ration->from, day) >= 0 &&
           calendar_days_between(day, ration->to) >= 0;
}

/* kg a head on one day by the last plan; `*head` is 0 where it does not feed the group. */
static double kept_kg(const KeptPlan *kept, const char *group, const char *feed, Day day,
                      double *head) {
    double kg = 0.0;
    *head = 0.0;
    for (int i = 0; i < kept->count; i++) {
        const KeptRation *ration = &kept->rations[i];
        if (!is_in(ration, day) || !text_same_letters(ration->group, group))
            continue;
        *head = ration->head;
        if (text_same_letters(ration->feed, feed))
            kg += ration->kg_per_day;
    }
    return *head > 0.0 ? kg / *head : 0.0;
}

/* The least that it gave on any of the last days. */
static double least_kept_kg(const KeptPlan *kept, const char *group, const char *feed,
                            Day before) {
    double least = NO_LIMIT;
    for (int back = 0; back < USED_TO_DAYS; back++) {
        double head;
        least = fmin(least, kept_kg(kept, group, feed, calendar_add(before, -back), &head));
    }
    return least;
}

static bool has_records(const FeedRecord *record, const char *group, Day from, Day to) {
    for (int i = 0; i < record->feeding_count; i++) {
        const Feeding *of = &record->feedings[i];
        if (text_same_letters(of->group, group) && calendar_days_between(from, of->date) >= 0 &&
            calendar_days_between(of->date, to) >= 0)
            return true;
    }
    return false;
}

#define WEEK 7

/* kg a head and day that were written down of an own stack in the week to a day. */
static double week_kg(const Farm *farm, const char *group, const char *feed, double head,
                      Day to) {
    const Day from = calendar_add(to, 1 - WEEK);
    const Stacks *stacks = &farm->as_counted.stacks;
    double kg = 0.0;
    for (int s = 0; s < stacks->count; s++) {
        if (text_same_letters(stacks->names[s], feed))
            kg += feedings_kg(&farm->as_counted, &farm->record, s, group, from, to);
    }
    return kg / (WEEK * head);
}

static double recorded_kg(const Farm *farm, const char *group, const char *feed, double head,
                          Day before) {
    double least = NO_LIMIT;
    for (int week = 0; week < RECORD_WEEKS; week++)
        least =
            fmin(least, week_kg(farm, group, feed, head, calendar_add(before, -week * WEEK)));
    return least;
}

FedBefore fed_before(Arena *arena, const PlanQuestion *question, int group) {
    const Farm *farm = question->farm;
    const KeptPlan *kept = &farm->kept;
    const char *name = farm->herd.names[group];
    const Day before = calendar_add(farm->winter.first_day, -1);
    const Day since = calendar_add(before, 1 - RECORD_WEEKS * WEEK);
    double head = 0.0;
    if (!farm->is_rest_of_winter || kept->count == 0 ||
        calendar_days_between(kept->first_day, before) < USED_TO_DAYS - 1)
        return (FedBefore){.is_known = false};
    kept_kg(kept, name, "", before, &head);
    if (head <= 0.0)
        return (FedBefore){.is_known = false};
    const bool is_recorded = has_records(&farm->record, name, since, before);
    double *kg = ARENA_ARRAY(arena, double, question->feed_count);
    for (int f = 0; f < question->feed_count; f++) {
        const PlanFeed *of = &question->feeds[f];
        kg[f] = least_kept_kg(kept, name, of->name, before);
        if (is_recorded && of->is_own)
            kg[f] = fmin(kg[f], recorded_kg(farm, name, of->name, head, before));
    }
    return (FedBefore){true, kg};
}
