/* The winter: its days, its water, what a day costs. winter.csv, docs/file-formats.md */
#ifndef CATTLE_WINTER_H
#define CATTLE_WINTER_H

#include "base/sheet.h"
#include "cattle/cold_stress.h"
#include "cattle/feeding_rule.h"
#include "cattle/practice.h"
#include "cattle/protein_requirement.h"

/* Where needs come from. */
typedef enum { NEEDS_BY_EQUATIONS, NEEDS_BY_TABLE } NeedsWay;

typedef struct {
    const char *farm, *currency;
    Day first_day, last_day; /* both are fed */
    int days_since_weighed;  /* from the day the herd's weights are of to first_day */
    double yardage_per_head_day;
    double water_sulfate_mg_per_l; /* assumed when not tested */
    bool sulfate_is_assumed;
    double water_nitrate_mg_per_l; /* as NO3 */
    bool nitrate_is_assumed;
    double water_solids_mg_per_l; /* dissolved; meaningless where not tested */
    bool solids_are_known;
    double water_sodium_mg_per_l; /* 0 where not tested */
    bool sodium_is_known;
    int practice[PRACTICE_CHOICE_COUNT]; /* the place of practice_at; 0 the cautious one */
    const char *practice_note[PRACTICE_CHOICE_COUNT]; /* with whom another was talked over */
    double turnout_spread_days;                       /* the farm's own, where it is set */
    bool turnout_spread_is_set;
    double carry_over_kg;  /* dry matter of own forage wanted at the end */
    double caution_weight; /* times the prices of caution lines; 1 unless the farm says more */
    double steady_cost_share; /* of the least cost: what steadier rations may cost more */
    ColdWay cold_way;
    NeedsWay needs_way;
    MicrobialForm microbial_form;
    FeedingRules rules; /* of the yard; off where not set */
    bool is_imperial;   /* the farm's own units */
    bool is_mixed;      /* pounds for what is fed, tonnes for what lies in the yard */
    bool is_readable;   /* false: the days could not be read */
} Winter;

/* Plans within this share of the least cost are equal; among them the steadiest, with the
 * fewest crumbs of feed, is taken. Own choice, where the farm makes none: a dollar in a
 * thousand for a ration one can feed. */
#define USUAL_STEADY_COST_SHARE 1e-3

/* What an untested water is taken for: the livestock guideline for sulfate; no nitrate, with a
 * caution. Own choice. */
#define ASSUMED_WATER_SULFATE 1000.0

/* Water at or above these is refused: no ration makes it safe. Sulfate: own choice below the
 * 7,000 that kill [SRC_WATER]; nitrate: toxic in [SDSU_NITRATE_WATER]. mg/L. */
#define REFUSED_WATER_SULFATE 3000.0
#define REFUSED_WATER_NITRATE 1300.0

/* Sodium that by itself brings the most salt a diet may have, 3 % [MINERAL_TOLERANCES], at 4 L
 * a kg of dry matter: 3 x 10,000 / (4 x 2.542). */
#define REFUSED_WATER_SODIUM 2950.0

/* As winter.csv writes them: "table", "model", "2016" ... */
const char *needs_way_name(NeedsWay way);
const char *cold_way_name(ColdWay way);
const char *microbial_form_name(MicrobialForm form);

Winter winter_parse(Arena *arena, Faults *faults, const char *file, const char *bytes,
                    size_t length);

int winter_days(const Winter *winter);

/* The day the weights and conditions of the herd file are of: the first feeding day, also where
 * only the rest of the winter is planned. */
Day winter_weighing_day(const Winter *winter);

/* Whether lines of the safety table that name this practice hold. */
bool winter_follows(const Winter *winter, Practice practice);

#endif
