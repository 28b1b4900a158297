/* Any bytes as a herd: what is let through has needs, and they are numbers. */
#include "cattle/requirement.h"
#include "fuzz/reader_laws.h"
#include <stdint.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

enum { MOST_GROUPS_TRIED = 3, DAYS_TRIED = 5 };

static const Weather *some_weather(Arena *arena) {
    Faults faults = faults_new(arena);
    const EmbeddedFile *normals = embedded_find("climate-normals.csv");
    Weather *weather = ARENA_NEW(arena, Weather);
    *weather = weather_parse(arena, &faults, normals->bytes, normals->length, "", NULL, 0);
    return weather;
}

static const MineralNeeds *some_minerals(Arena *arena) {
    Faults faults = faults_new(arena);
    const EmbeddedFile *file = embedded_find("mineral-needs.csv");
    return mineral_needs_parse(arena, &faults, file->name, file->bytes, file->length);
}

static void try_needs(Arena *arena, const HerdGroup *group, Day first_day, Day last_day) {
    static const int FROM[] = {0, 140, 190};
    const Weather *weather = some_weather(arena);
    const MineralNeeds *minerals = some_minerals(arena);
    for (size_t i = 0; i < sizeof FROM / sizeof FROM[0]; i++) {
        const Day from = calendar_add(first_day, FROM[i]);
        const Day to = calendar_add(from, DAYS_TRIED);
        assert(calendar_days_between(to, last_day) >= 0);
        const Requirement need = requirement_of(group, weather, minerals, first_day, from, to);
        assert_within(requirement_nem(&need).mcal_per_day, 0.0, 200.0);
        assert_within(requirement_protein(&need).g_per_day, 0.0, 10000.0);
        assert_within(need.live_weight.kg, 50.0, 3000.0);
        assert_within(need.calcium.g_per_day, 0.0, 1000.0);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    Arena *const arena = arena_open();
    Faults faults = faults_new(arena);
    const Day first_day = calendar_day(2026, 11, 1), last_day = calendar_day(2027, 5, 20);
    const Herd herd = herd_parse(arena, &faults, first_day, last_day, "herd.csv",
                                 size > 0 ? (const char *)data : "", size);
    assert(herd.count > 0 || faults.wrong_count > 0);
    for (int i = 0; i < herd.count && faults.wrong_count == 0; i++) {
        assert_group_is_whole(&herd.groups[i]);
        if (i < MOST_GROUPS_TRIED)
            try_needs(arena, &herd.groups[i], first_day, last_day);
    }
    assert_faults_are_lines(&faults);
    arena_close(arena);
    return 0;
}
