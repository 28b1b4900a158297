/* From what became of each winter to chances and days. */
#include "planner/hard_winter_model.h"
#include <assert.h>
#include <math.h>
#include <stdlib.h>

typedef struct {
    Arena *arena;
    const HardWinterModel *model;
    const double **records; /* of the winters that were done */
    double *sorted;         /* [count] room to sort in */
    int count;
} Told;

static double field(const Told *told, int winter, int at) { return told->records[winter][at]; }

static int by_size(const void *a, const void *b) {
    const double left = *(const double *)a;
    const double right = *(const double *)b;
    return (left > right) - (left < right);
}

static const double *sorted_field(const Told *told, int at) {
    for (int i = 0; i < told->count; i++)
        told->sorted[i] = field(told, i, at);
    qsort(told->sorted, (size_t)told->count, sizeof *told->sorted, by_size);
    return told->sorted;
}

/* The least value that this share of the winters does not pass. */
static double percentile(const double *sorted, int count, double share) {
    const int place = (int)ceil(share * count - 1e-9) - 1;
    return sorted[place < 0 ? 0 : place];
}

static double mean_field(const Told *told, int at) {
    double sum = 0.0;
    for (int i = 0; i < told->count; i++)
        sum += field(told, i, at);
    return sum / told->count;
}

static double share_without_day(const Told *told, int at) {
    int count = 0;
    for (int i = 0; i < told->count; i++)
        count += field(told, i, at) >= NO_DAY;
    return (double)count / told->count;
}

static Day day_at(const Told *told, double number) {
    return calendar_add(told->model->question->farm->winter.first_day, (int)number);
}

static RunoutDays runout_of(const Told *told, int at) {
    static const double SHARES[RUNOUT_SHARES] = {0.1, 0.5, 0.9};
    const double *sorted = sorted_field(told, at);
    RunoutDays days;
    for (int i = 0; i < RUNOUT_SHARES; i++) {
        const double number = percentile(sorted, told->count, SHARES[i]);
        days.lasts[i] = number >= NO_DAY;
        days.day[i] = day_at(told, days.lasts[i] ? 0.0 : number);
    }
    return days;
}

static double mean_of_worst_tenth(const Told *told, int at) {
    const double *sorted = sorted_field(told, at);
    const int worst = (told->count + 9) / 10;
    double sum = 0.0;
    for (int i = told->count - worst; i < told->count; i++)
        sum += sorted[i];
    return sum / worst;
}

static void tell_days(const Told *told, HardWinters *winters) {
    const int days = told->model->most_days;
    double *enough = ARENA_ARRAY(told->arena, double, days);
    const double *sorted = sorted_field(told, RECORD_SHORT_DAY);
    int is_short = 0;
    for (int day = 0; day < days; day++) {
        while (is_short < told->count && sorted[is_short] <= day)
            is_short++;
        enough[day] = (double)(told->count - is_short) / told->count;
    }
    winters->enough = enough;
    winters->day_count = days;
}

static void tell_groups(const Told *told, HardWinters *winters) {
    const int count = told->model->group_count;
    double *share = ARENA_ARRAY(told->arena, double, count);
    RunoutDays *is_short = ARENA_ARRAY(told->arena, RunoutDays, count);
    double *cold = ARENA_ARRAY(told->arena, double, count);
    for (int g = 0; g < count; g++) {
        share[g] = share_without_day(told, record_group(g, GROUP_SHORT_DAY));
        is_short[g] = runout_of(told, record_group(g, GROUP_SHORT_DAY));
        cold[g] = mean_field(told, record_group(g, GROUP_COLD));
    }
    winters->group_share = share;
    winters->group_short = is_short;
    winters->group_cold_share = cold;
}

static void tell_feeds(const Told *told, HardWinters *winters) {
    const HardWinterModel *model = told->model;
    RunoutDays *feeds = ARENA_ARRAY(told->arena, RunoutDays, model->feed_count);
    double *used_kg = ARENA_ARRAY(told->arena, double, model->feed_count);
    double *with_load = ARENA_ARRAY(told->arena, double, model->feed_count);
    for (int f = 0; f < model->feed_count; f++) {
        feeds[f] = runout_of(told, record_feed(model, f, FEED_END_DAY));
        used_kg[f] = mean_field(told, record_feed(model, f, FEED_TAKEN));
        with_load[f] = model->stocks[f].extra_kg > 0.0
                           ? mean_field(told, record_feed(model, f, FEED_WITH_LOAD))
                           : (double)NAN;
    }
    winters->feeds = feeds;
    winters->used_kg = used_kg;
    winters->share_with_load = with_load;
}

const HardWinters *hard_winters_told(Arena *arena, const HardWinterModel *model,
                                     const double *records, const bool *is_done, int asked) {
    HardWinters *winters = ARENA_NEW(arena, HardWinters);
    *winters = (HardWinters){.asked = asked, .seed = model->seed, .remark = ""};
    const size_t length = (size_t)hard_winter_record_length(model);
    Told told = {.arena = arena, .model = model};
    told.records = ARENA_ARRAY(arena, const double *, asked);
    told.sorted = ARENA_ARRAY(arena, double, asked);
    for (int i = 0; i < asked; i++) {
        if (is_done[i])
            told.records[told.count++] = records + (size_t)i * length;
    }
    winters->done = told.count;
    if (told.count == 0)
        return winters;
    winters->share = share_without_day(&told, RECORD_SHORT_DAY);
    winters->share_error = sqrt(winters->share * (1.0 - winters->share) / told.count);
    winters->herd = runout_of(&told, RECORD_SHORT_DAY);
    winters->worst_short_kg = mean_of_worst_tenth(&told, RECORD_SHORT_KG);
    const double *last = sorted_field(&told, RECORD_LAST_DAY);
    winters->turnout_first = day_at(&told, percentile(last, told.count, 0.1));
    winters->turnout_last = day_at(&told, percentile(last, told.count, 0.9));
    tell_days(&told, winters);
    tell_groups(&told, winters);
    tell_feeds(&told, winters);
    return winters;
}

const HardWinters *hard_winters(Arena *arena, const WinterPlan *plan, uint64_t seed,
                                int count) {
    const HardWinterModel *model = hard_winter_model(arena, plan, seed, USUAL_SPREAD);
    HardWinterWork *work = hard_winter_work(arena, model);
    const size_t length = (size_t)hard_winter_record_length(model);
    double *records = ARENA_ARRAY(arena, double, (size_t)count *length);
    bool *is_done = ARENA_ARRAY(arena, bool, count);
    for (int i = 0; i < count; i++) {
        hard_winter_run(model, (uint64_t)i, work, records + (size_t)i * length);
        is_done[i] = true;
    }
    return hard_winters_told(arena, model, records, is_done, count);
}
