/* What holds of anything the readers let through, and of every fault: shared by the fuzz
 * targets of a farm's files. */
#ifndef FUZZ_READER_LAWS_H
#define FUZZ_READER_LAWS_H

#include "base/text.h"
#include "cattle/own_need.h"
#include "entry/embedded.h"
#include "stock/inventory.h"
#include <assert.h>
#include <math.h>
#include <string.h>

static inline void assert_faults_are_lines(const Faults *faults) {
    for (const Fault *fault = faults->first; fault; fault = fault->next) {
        assert(fault->text[0] != '\0');
        assert(text_first_bad_utf8(fault->text, strlen(fault->text)) == -1);
        assert(!strpbrk(fault->text, "\n\r\t\x1B"));
        assert(fault->place.line >= 0 && fault->place.column >= 0);
    }
}

static inline void assert_within(double value, double least, double most) {
    assert(isfinite(value) && value >= least && value <= most);
}

/* Whatever was let through, no number of it is impossible. */
static inline void assert_feed_is_whole(const Feedstuff *feed) {
    assert_within(feed->analysis.dry_matter.value, 5.0, 100.0);
    for (int i = 0; i < NUTRIENT_COUNT; i++) {
        const Reading reading = feed->analysis.of[i];
        if (reading_is_known(reading))
            assert_within(reading.value, 0.0, nutrient_kind((Nutrient)i)->most * 1.001);
    }
    assert_within(feed->analysis.of[NUTRIENT_NEM].value, 0.0, 4.0);
    assert_within(feed->nitrate_for_safety, 0.0,
                  nutrient_kind(NUTRIENT_NITRATE)->most * NITRATE_SINGLE_SAMPLE_MARGIN * 1.001);
}

static inline void assert_stack_is_whole(const Stack *stack) {
    assert(stack->name[0] != '\0' && stack->storage && stack->feeding);
    assert_within(stack->counted_kg, 0.0, 1e9);
    assert_within(stack->loss_share, 0.0, 0.95);
    assert_within(stack->waste_share, 0.0, 0.6);
    assert_within(stack->protein_left, 0.0, 2.0);
    assert(stack->value_per_kg > 0.0);
    assert_feed_is_whole(&stack->feed);
    assert_within(stack_dry_matter(stack).kg, 0.0, stack->counted_kg);
}

static inline void assert_offer_is_whole(const Offer *offer) {
    assert(offer->name[0] != '\0' && offer->feeding);
    assert(offer->price_per_kg > 0.0 && offer->most_kg >= 0.0 && offer->load_kg >= 0.0);
    assert_within(offer->shrink_share, 0.0, 0.4);
    assert_within(offer->waste_share, 0.0, 0.6);
    assert_feed_is_whole(&offer->feed);
}

static inline void assert_group_is_whole(const HerdGroup *group) {
    assert(group->name[0] != '\0' && !strpbrk(group->name, "|/+"));
    assert(group->head >= 1.0 && group->head == floor(group->head));
    assert_within(group->weight.kg, 100.0, 1300.0);
    assert_within(group->condition, 1.0, 9.0);
    if (group->has_target)
        assert_within(group->target_condition, 1.0, 9.0);
    if (cattle_class_kind(group->cattle_class)->grows)
        assert_within(group->mature_weight.kg, group->weight.kg, 1300.0);
    else
        assert(group->gain.kg_per_day == 0.0);
    assert_within(group->gain.kg_per_day, 0.0, 3.0);
    if (group->is_bred)
        assert_within(calendar_days_between(group->calving_start, group->calving_end), 0, 240);
}

/* A figure is of a group that is there, on days in their order, and no more than any animal
 * needs; the same need is never given twice for one day. */
static inline void assert_own_needs_are_whole(const OwnNeeds *own, const Herd *herd) {
    for (int i = 0; i < own->count; i++) {
        const OwnNeed *need = &own->needs[i];
        assert(need->group >= 0 && need->group < herd->count);
        assert(need->need[0] != '\0' && own_need_unit(need)[0] != '\0');
        assert(calendar_days_between(need->from, need->until) >= 0);
        assert_within(need->value, 0.0, 1e6);
        if (need->kind == NEED_NEG)
            assert(cattle_class_kind(herd->groups[need->group].cattle_class)->grows);
        for (int j = 0; j < i; j++) {
            const OwnNeed *other = &own->needs[j];
            assert(other->group != need->group || strcmp(other->need, need->need) != 0 ||
                   calendar_days_between(other->until, need->from) > 0 ||
                   calendar_days_between(need->until, other->from) > 0);
        }
    }
}

static inline void assert_need_is_whole(const Requirement *need) {
    assert_within(requirement_nem(need).mcal_per_day, 0.0, 200.0);
    assert_within(need->retained.mcal_per_day, 0.0, 60.0);
    assert_within(requirement_protein(need).g_per_day, 0.0, 20000.0);
    assert_within(need->calcium.g_per_day, 0.0, 1000.0);
    assert_within(need->phosphorus.g_per_day, 0.0, 1000.0);
    assert_within(need->ndf_most_kg, 0.0, 50.0);
    const EnergyDensity diet = {1.25};
    assert_within(intake_at(need->most, need->shrunk, diet).kg_per_day, 0.0, 100.0);
    assert_within(intake_at(need->least, need->shrunk, diet).kg_per_day, 0.0, 100.0);
}

/* The published tables are read once: they do not change with the input. */
typedef struct {
    const BookValues *book;
    const Handling *handling;
    const BookDensities *densities;
} LawTables;

static inline LawTables law_tables(void) {
    static LawTables tables;
    static Arena *arena;
    if (arena)
        return tables;
    arena = arena_open();
    Faults faults = faults_new(arena);
    const EmbeddedFile *book = embedded_find("book-feeds.csv");
    const EmbeddedFile *storage = embedded_find("storage-losses.csv");
    const EmbeddedFile *feeding = embedded_find("feeding-waste.csv");
    tables.book = book_parse(arena, &faults, book->name, book->bytes, book->length);
    tables.handling = handling_parse(arena, &faults, storage->bytes, storage->length,
                                     feeding->bytes, feeding->length);
    const EmbeddedFile *densities = embedded_find("book-densities.csv");
    tables.densities = book_densities_parse(arena, &faults, densities->name, densities->bytes,
                                            densities->length);
    assert(tables.book && tables.handling && tables.densities);
    return tables;
}

#endif
