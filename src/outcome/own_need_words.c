#include "outcome/own_need_words.h"
#include "base/text.h"
#include "outcome/day_words.h"
#include <math.h>

static const struct {
    const char *words;
    Measure measure;
} NEEDS[NEED_CONCENTRATION] = {
    [NEED_NEM] = {"net energy for maintenance, cold and all,", MEASURE_ENERGY},
    [NEED_NEG] = {"net energy for gain", MEASURE_ENERGY},
    [NEED_PROTEIN] = {"metabolizable protein", MEASURE_PROTEIN},
    [NEED_CALCIUM] = {"calcium", MEASURE_MINERAL},
    [NEED_PHOSPHORUS] = {"phosphorus", MEASURE_MINERAL},
    [NEED_INTAKE_MOST] = {"dry matter at most", MEASURE_FEED},
    [NEED_INTAKE_LEAST] = {"dry matter at least", MEASURE_FEED},
    [NEED_NDF_MOST] = {"NDF at most", MEASURE_FEED},
};

/* As exact as it was given, within four digits. */
static void add_figure(Text *text, const OwnNeed *own, Units units) {
    if (own->kind == NEED_CONCENTRATION) {
        text_print(text, "%s of the diet at least %.4g %s", nutrient_kind(own->nutrient)->label,
                   own->value, own_need_unit(own));
        return;
    }
    const Measure measure = NEEDS[own->kind].measure;
    text_print(text, "%s %.4g %s", NEEDS[own->kind].words,
               measure_shown(units, measure, own->value), measure_unit(units, measure));
}

const char *own_need_words(Arena *arena, const Farm *farm, Units units, int group) {
    Text text = text_new(arena);
    for (int i = 0; i < farm->own_needs.count; i++) {
        const OwnNeed *own = &farm->own_needs.needs[i];
        if (own->group != group)
            continue;
        text_add(&text, text.length > 0 ? "; " : "");
        add_figure(&text, own, units);
        if (own->has_from)
            text_print(&text, " from %s", day_words(arena, own->from));
        if (own->has_until)
            text_print(&text, " to %s", day_words(arena, own->until));
    }
    return text.bytes;
}

#define ANOTHER_GAIN 0.05 /* of the gain asked for; own choice */

/* The block in which the ration's gain is farthest from what was asked; -1: none is far. */
static int farthest_gain(const WinterPlan *plan, int group) {
    int farthest = -1;
    double most = ANOTHER_GAIN;
    for (int b = 0; b < plan->question->block_count; b++) {
        const PlanBlock *block = &plan->question->blocks[b];
        const double asked = block->need.gain.kg_per_day;
        if (block->group != group || !(block->need.own_kinds & NEED_BIT(NEED_NEG)) ||
            asked <= 0.0)
            continue;
        const double off = fabs(plan->blocks[b].gain_kg / asked - 1.0);
        farthest = off > most ? b : farthest;
        most = fmax(off, most);
    }
    return farthest;
}

const char *own_gain_words(Arena *arena, const WinterPlan *plan, Units units, int group) {
    const int block = farthest_gain(plan, group);
    if (block < 0)
        return "";
    return arena_print(
        arena,
        " On the energy for gain they gain %.2f %s a day from %s, where the herd file asks for "
        "%.2f; their weights in later periods still follow the herd file.",
        measure_shown(units, MEASURE_FEED, plan->blocks[block].gain_kg),
        measure_unit(units, MEASURE_FEED), day_words(arena, plan->question->blocks[block].from),
        measure_shown(units, MEASURE_FEED, plan->question->blocks[block].need.gain.kg_per_day));
}
