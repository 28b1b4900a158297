/* Any bytes as fields.csv: what is let through can be cut, put up and fed. */
#include "fuzz/reader_laws.h"
#include "stock/field.h"
#include <stdint.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static const EmbeddedFile *table(const char *name) {
    const EmbeddedFile *file = embedded_find(name);
    assert(file);
    return file;
}

static void assert_cut_is_whole(const FieldCut *cut, const Field *field, GrowingYear year) {
    const Stack stack = field_cut_stack(cut, field, year, calendar_day(2027, 2, 1));
    assert(stack.name[0] != '\0' && stack.storage && stack.feeding);
    assert_within(field->hectares, 0.01, 1e5);
    assert_within(stack.counted_kg, 0.0, 1e12);
    assert_within(stack.loss_share, 0.0, 0.95);
    assert_within(stack.waste_share, 0.0, 0.6);
    assert_within(stack.protein_left, 0.0, 2.0);
    assert_feed_is_whole(&stack.feed);
    assert(isfinite(field_cut_cost(cut, year)) && field_cut_grazing(cut) >= 0.0);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    Arena *const arena = arena_open();
    const char *const bytes = size > 0 ? (const char *)data : "";
    const LawTables tables = law_tables();
    const FeedTests none = {NULL, NULL, 0};
    Faults own = faults_new(arena);
    const EmbeddedFile *stages = table("growth-stages.csv");
    const EmbeddedFile *kinds = table("growth-kinds.csv");
    const EmbeddedFile *ways = table("harvest-ways.csv");
    const StockContext stock = {tables.book,
                                tables.handling,
                                &none,
                                calendar_day(2026, 11, 1),
                                calendar_day(2027, 5, 15),
                                NULL};
    const FieldContext context = {&stock,
                                  growth_curves_parse(arena, &own, stages->bytes,
                                                      stages->length, kinds->bytes,
                                                      kinds->length),
                                  harvest_ways_parse(arena, &own, ways->bytes, ways->length)};
    assert(own.wrong_count == 0);
    Faults faults = faults_new(arena);
    const Fields fields = fields_parse(arena, &faults, &context, "fields.csv", bytes, size);
    for (int c = 0; c < fields.cut_count && faults.wrong_count == 0; c++) {
        const FieldCut *cut = &fields.cuts[c];
        assert_cut_is_whole(cut, &fields.fields[cut->field], growing_year_expected());
        assert_cut_is_whole(cut, &fields.fields[cut->field], (GrowingYear){1.0, -1.0, -1.0});
    }
    assert_faults_are_lines(&faults);
    arena_close(arena);
    return 0;
}
