#include "support/animal_maker.h"

#include <math.h>

static Weather drawn_weather(Draws *draws) {
    Weather weather = {.normals_station = ""};
    for (int month = 1; month <= 12; month++) {
        const double mean = draw_between(draws, -35, 20, 1);
        weather.month[month] = (MonthWeather){
            .mean = {mean},
            .cold_spell = {mean - draw_between(draws, 0, 20, 1)},
            .wind = {draw_between(draws, 0, 45, 1)},
            .wet_share = draw_chance(draws, 0.5) ? draw_share(draws) : 0.0,
        };
        weather.is_known[month] = true;
    }
    return weather;
}

void animal_calving_drawn(Draws *draws, HerdGroup *group, Day first_day) {
    group->is_bred = draw_chance(draws, 0.8);
    group->calving_start = calendar_add(first_day, draw_whole(draws, -60, 250));
    group->calving_end = calendar_add(group->calving_start, draw_whole(draws, 0, 60));
    group->has_weaning = draw_chance(draws, 0.5);
    group->weaning = calendar_add(first_day, draw_whole(draws, -20, 300));
    group->peak_milk.kg_per_day = draw_between(draws, 4, 14, 1);
    group->calf_birth_weight.kg = draw_between(draws, 30, 48, 1);
}

static void draw_growth(Draws *draws, HerdGroup *group) {
    group->mature_weight.kg = draw_between(draws, 520, 850, 0);
    group->weight.kg = group->mature_weight.kg * draw_between(draws, 0.3, 0.75, 2);
    group->gain.kg_per_day = draw_between(draws, 0.1, 1.2, 2);
}

static HerdGroup drawn_group(Draws *draws, Day first_day) {
    HerdGroup group = {
        .name = "cattle",
        .cattle_class = (CattleClass)draw_whole(draws, 0, CATTLE_CLASS_COUNT - 1),
        .head = draw_whole(draws, 1, 300),
        .weight = {draw_between(draws, 420, 900, 0)},
        .condition = draw_between(draws, 2, 8, 1),
        .breed_factor = draw_between(draws, 0.9, 1.2, 2),
        .coat = (Coat)draw_whole(draws, 0, COAT_COUNT - 1),
        .shelter = (Shelter)draw_whole(draws, SHELTER_OPEN, SHELTER_BARN),
    };
    const CattleClassKind *kind = cattle_class_kind(group.cattle_class);
    if (kind->can_be_bred)
        animal_calving_drawn(draws, &group, first_day);
    if (kind->grows)
        draw_growth(draws, &group);
    group.has_target = !kind->grows && draw_chance(draws, 0.5);
    group.target_condition = group.has_target ? draw_between(draws, 3, 7, 1) : group.condition;
    group.target_date = calendar_add(first_day, draw_whole(draws, 60, 180));
    return group;
}

Animal animal_made(int seed) {
    Animal animal = {.draws = draws_new((unsigned long long)seed),
                     .from = calendar_day(2026, 11, 1)};
    animal.weather = drawn_weather(&animal.draws);
    animal.group = drawn_group(&animal.draws, animal.from);
    animal.days = draw_whole(&animal.draws, 1, 8);
    return animal;
}
