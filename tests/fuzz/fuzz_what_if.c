/* Any bytes as a what-if of a small farm: what is let through is a farm as whole as any other,
 * and every fault is placed in the what-if. */
#include "entry/future.h"
#include "fuzz/reader_laws.h"
#include <stdint.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

#define NAME "what-if.csv"

static const char *const FILES[FARM_FILE_COUNT] = {
    [FARM_HERD] = "group,class,head,weight_kg,delivery\nCows,cow,40,620,mixed\n"
                  "Bulls,bull,2,900,mixed\n",
    [FARM_STACKS] = "stack,kind,feed,count,bale_weight_kg,storage,feeding,value_per_tonne\n"
                    "Hay,round bales,alfalfa grass hay average,300,600,net wrap "
                    "rows,unrolled,120\n",
    [FARM_FEED_TESTS] = "stack,sample,basis,moisture_pct,crude_protein_pct,adf_pct\n"
                        "Hay,T1,dry matter,12,13.5,35\nHay,T2,dry matter,13,14.0,34\n",
    [FARM_FOR_SALE] = "feed_for_sale,feed,price_per_tonne,feeding\n"
                      "Barley,barley grain,260,bunk\n",
    [FARM_WINTER] = "setting,value\nfirst_day,2026-11-01\nlast_day,2027-03-31\n",
    [FARM_NEEDS] = "group,need,value,unit\nBulls,calcium,20,g\n",
};

static FarmRequest a_farm(void) {
    FarmRequest request;
    memset(&request, 0, sizeof request);
    for (int file = 0; file < FARM_FILE_COUNT; file++)
        request.file[file] = (FileBytes){file == FARM_HERD ? "herd.csv" : FARM_FILE_NAME[file],
                                         FILES[file], FILES[file] ? strlen(FILES[file]) : 0};
    return request;
}

static void assert_farm_is_whole(const Farm *farm) {
    for (int i = 0; i < farm->herd.count; i++)
        assert_group_is_whole(&farm->herd.groups[i]);
    for (int i = 0; i < farm->inventory.stacks.count; i++)
        assert_stack_is_whole(&farm->inventory.stacks.stacks[i]);
    for (int i = 0; i < farm->inventory.for_sale.count; i++)
        assert_offer_is_whole(&farm->inventory.for_sale.offers[i]);
    assert_own_needs_are_whole(&farm->own_needs, &farm->herd);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    Arena *const arena = arena_open();
    Faults faults = faults_new(arena);
    const FarmRequest request = a_farm();
    const FileBytes file = {NAME, size > 0 ? (const char *)data : "", size};
    WhatIf what_if;
    Farm farm;
    const bool is_good = what_if_parse(arena, &faults, &file, "herd.csv", &what_if);
    assert(is_good == (faults.wrong_count == 0));
    if (!is_good) {
        future_check(arena, &faults, &request, NAME, what_if.changes, what_if.count);
    } else if (future_read(arena, &faults, &request, NAME, what_if.changes, what_if.count,
                           &farm)) {
        assert(faults.wrong_count == 0);
        assert_farm_is_whole(&farm);
    } else {
        assert(faults.wrong_count > 0);
    }
    for (int i = 0; i < what_if.count; i++)
        assert(change_words(arena, &request, &what_if.changes[i])[0] != '\0');
    for (const Fault *fault = faults.first; fault; fault = fault->next)
        assert(strcmp(fault->place.file, NAME) == 0);
    assert_faults_are_lines(&faults);
    arena_close(arena);
    return 0;
}
