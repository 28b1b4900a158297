/* Groups of cattle fed alike: herds/NAME.csv, docs/file-formats.md */
#ifndef CATTLE_HERD_GROUP_H
#define CATTLE_HERD_GROUP_H

#include "base/quantity.h"
#include "base/sheet.h"
#include "cattle/cold_stress.h"

typedef enum {
#define CATTLE_CLASS(id, name, bred, grows, sex) CATTLE_##id,
#include "cattle/cattle_class.def"
#undef CATTLE_CLASS
    CATTLE_CLASS_COUNT
} CattleClass;

typedef struct {
    const char *name;
    bool can_be_bred, grows;
    double sex_factor;
} CattleClassKind;

const CattleClassKind *cattle_class_kind(CattleClass cattle_class);

typedef enum { SHELTER_OPEN, SHELTER_WINDBREAK, SHELTER_BUSH, SHELTER_BARN } Shelter;
/* Where they fetch their feed in winter: walking costs energy. */
typedef enum { GRAZING_NONE, GRAZING_BALES, GRAZING_SWATHS } Grazing;
typedef enum { DELIVERY_MIXED, DELIVERY_LAYERED, DELIVERY_FREE_CHOICE } Delivery;

typedef struct {
    const char *name;
    CattleClass cattle_class;
    double head;
    Mass weight;                        /* live, on the first feeding day */
    Mass mature_weight;                 /* 0 where it was not given and is not needed */
    double condition, target_condition; /* 9-point scale */
    Day target_date;
    bool has_target;
    bool is_bred;
    Day calving_start, calving_end, weaning;
    bool has_weaning;
    FeedRate peak_milk;
    Mass calf_birth_weight;
    FeedRate gain; /* of live weight, wanted; 0 for mature cattle */
    double breed_factor;
    Coat coat;
    Shelter shelter;
    Delivery delivery;
    Grazing grazing;
    const char *yard;      /* "" not said */
    double bunk_length_m;  /* 0 where nobody said */
    double price_per_head; /* dollars that one would fetch; 0 where nobody said */
    const char
        *stand_ins; /* "delivery: free choice; shelter: open": what empty cells were taken as */
    Place place;
} HerdGroup;

typedef struct {
    const HerdGroup *groups;
    const char *const *names;
    int count;
} Herd;

/* first_day and last_day are the winter's: weights are at the first; a target date left empty
 * is the start of calving or the last day. The last before the first: the days are not known,
 * and no date is judged by them. groups NULL: the file could not be read, and a fault says why.
 */
Herd herd_parse(Arena *arena, Faults *faults, Day first_day, Day last_day, const char *file,
                const char *bytes, size_t length);

const char *delivery_name(Delivery delivery);

/* Share of the wind that reaches the cattle. Own choice. */
double shelter_wind_share(Shelter shelter);

#endif
