/* Any bytes as stacks.csv, and again as for-sale.csv: what is let through can be fed. */
#include "fuzz/reader_laws.h"
#include <stdint.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static StockContext context_of(const FeedTests *tests) {
    const LawTables tables = law_tables();
    return (StockContext){tables.book,
                          tables.handling,
                          tests,
                          calendar_day(2026, 11, 1),
                          calendar_day(2027, 5, 15),
                          tables.densities};
}

static void try_stacks(Arena *arena, const char *bytes, size_t size) {
    const FeedTests none = {NULL, NULL, 0};
    const StockContext context = context_of(&none);
    Faults faults = faults_new(arena);
    const Stacks stacks = stacks_parse(arena, &faults, &context, "stacks.csv", bytes, size);
    assert(stacks.stacks || faults.wrong_count > 0);
    for (int i = 0; i < stacks.count && faults.wrong_count == 0; i++)
        assert_stack_is_whole(&stacks.stacks[i]);
    assert_faults_are_lines(&faults);
}

static void try_offers(Arena *arena, const char *bytes, size_t size) {
    const FeedTests none = {NULL, NULL, 0};
    const StockContext context = context_of(&none);
    Faults faults = faults_new(arena);
    const PriceList list =
        price_list_parse(arena, &faults, &context, "for-sale.csv", bytes, size);
    assert(list.offers || faults.wrong_count > 0);
    for (int i = 0; i < list.count && faults.wrong_count == 0; i++)
        assert_offer_is_whole(&list.offers[i]);
    assert_faults_are_lines(&faults);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    Arena *const arena = arena_open();
    const char *const bytes = size > 0 ? (const char *)data : "";
    try_stacks(arena, bytes, size);
    try_offers(arena, bytes, size);
    arena_close(arena);
    return 0;
}
