/* A yard of three stacks worked by hand, and a record of it: for tests of what is left.
 *
 * Hay is 100 bales of 500 kg at 86 % dry matter by the book; Loft is 100 bales like it; Pit is
 * 200 t. Nothing is lost in storage where storage_loss_pct is 0. */
#ifndef SUPPORT_RECORD_YARD_H
#define SUPPORT_RECORD_YARD_H

#include "entry/farm_reading.h"
#include "support/unit.h"
#include <string.h>

#define RECORD_HERD                                                                            \
    "group,class,head,weight_kg,mature_weight_kg,calving_start,calving_end,gain_kg_per_day,"   \
    "delivery\n"                                                                               \
    "Cows,cow,50,600,,2027-04-01,2027-05-15,,mixed\n"                                          \
    "Steers,steer,20,250,600,,,0.5,mixed\n"

#define RECORD_STACKS                                                                          \
    "stack,kind,feed,cut_date,counted_date,count,bale_weight_kg,total_tonnes,storage,"         \
    "storage_loss_pct,feeding,feeding_waste_pct,value_per_tonne\n"                             \
    "Hay,round bales,grass hay average,2026-07-01,2026-11-01,100,500,,twine rows,0,"           \
    "processed,20,100\n"                                                                       \
    "Loft,round bales,grass hay average,2026-07-01,2026-11-01,100,500,,twine rows,,"           \
    "processed,20,100\n"                                                                       \
    "Pit,pit,cover-crop silage early,2026-08-01,2026-11-01,,,200,covered pit,0,bunk,0,50\n"

#define RECORD_SALE                                                                            \
    "feed_for_sale,feed,price_per_tonne,feeding\n"                                             \
    "Barley,barley grain,250,bunk\nMineral,mineral 2:1,2000,bunk\n"                            \
    "Bought hay,alfalfa grass hay average,160,bunk\nMeal,canola meal,385,bunk\n"               \
    "Limestone,limestone,380,bunk\nSalt,trace-mineral salt,800,bunk\n"

#define RECORD_WINTER                                                                          \
    "setting,value\nfirst_day,2026-11-01\nlast_day,2027-05-20\nwater_sulfate_mg_per_l,100\n"

#define FED_HEADING "date,group,stack,amount,unit,note,entry\n"
#define COUNTS_HEADING "date,stack,amount,unit,note,entry\n"

enum { HAY, LOFT, PIT };

static inline FileBytes record_file(const char *name, const char *bytes) {
    return (FileBytes){name, bytes, bytes ? strlen(bytes) : 0};
}

/* fed, counts, heads: whole files, or NULL. */
static inline FarmRequest record_request(const char *fed, const char *counts,
                                         const char *heads) {
    FarmRequest request = {.units = UNITS_METRIC};
    request.file[FARM_HERD] = record_file("herd.csv", RECORD_HERD);
    request.file[FARM_STACKS] = record_file("stacks.csv", RECORD_STACKS);
    request.file[FARM_FOR_SALE] = record_file("for-sale.csv", RECORD_SALE);
    request.file[FARM_WINTER] = record_file("winter.csv", RECORD_WINTER);
    request.file[FARM_FED] = record_file("fed.csv", fed);
    request.file[FARM_COUNTS] = record_file("counts.csv", counts);
    request.file[FARM_HEAD_CHANGES] = record_file("head-changes.csv", heads);
    return request;
}

static inline Farm *record_farm(Arena *arena, const char *fed, const char *counts,
                                const char *heads) {
    const FarmRequest request = record_request(fed, counts, heads);
    Farm *farm = ARENA_NEW(arena, Farm);
    Faults faults = faults_new(arena);
    if (!farm_read(arena, &faults, &request, farm))
        fail_msg("%s", unit_faults(&faults, arena));
    return farm;
}

#endif
