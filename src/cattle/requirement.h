/* What one head of a group needs a day, as the mean over the days of a period and, within the
 * calving window, over the cows that have calved and those that have not. Pure: same group,
 * same weather, same days, same answer. docs/equations/ has a page for each part. */
#ifndef CATTLE_REQUIREMENT_H
#define CATTLE_REQUIREMENT_H

#include "cattle/dry_matter_intake.h"
#include "cattle/herd_group.h"
#include "cattle/mineral_need.h"
#include "cattle/stage.h"
#include "cattle/weather.h"

/* Diet NEm by cause, Mcal a day. Condition may be negative: reserves that may be drawn on.
 * `own` is what a figure of the user's differs from the rest, `table` what the published table
 * does. */
typedef struct {
    double maintenance, activity, cold, pregnancy, milk, condition, table, own;
} EnergyParts;

/* Metabolizable protein by cause, g a day. */
typedef struct {
    double maintenance, pregnancy, milk, gain, table, own;
} ProteinParts;

/* What a user's own figure may stand for (own_need.h). */
typedef enum {
    NEED_NEM,
    NEED_NEG,
    NEED_PROTEIN,
    NEED_CALCIUM,
    NEED_PHOSPHORUS,
    NEED_INTAKE_MOST,
    NEED_INTAKE_LEAST,
    NEED_NDF_MOST,
    NEED_CONCENTRATION /* of a mineral or vitamin */
} NeedKind;

/* Lines of the published table that may stand in the place of the equations
 * (requirement_table.h). */
typedef enum {
    TABLE_MID_PREGNANCY, /* and open cows */
    TABLE_LATE_PREGNANCY,
    TABLE_NURSING,
    TABLE_REPLACEMENT_HEIFER,
    TABLE_YEARLING_BULL,
    TABLE_ROW_COUNT
} TableRow;

#define NEED_BIT(kind) (1u << (unsigned)(kind))

typedef struct {
    Mass live_weight, shrunk, equivalent; /* means; equivalent only of growing cattle */
    StageSet stages;
    double calved_share; /* of the cow-days in the period */
    FeedRate milk, gain;
    double days_pregnant; /* mean over those not yet calved; 0 when none is bred */
    double condition;     /* mean 9-point score */
    EnergyParts energy;
    EnergyRate retained; /* NEg of the gain */
    ProteinParts protein;
    GramRate calcium, phosphorus;
    double mineral_least[NUTRIENT_COUNT]; /* concentration; 0 where none is set */
    double ndf_most_kg;
    IntakeLaw most, least;           /* what they can eat, and below which they are hungry */
    Temperature air, felt, critical; /* means */
    double cold_share;               /* added to the energy need */
    double cold_spell_energy;        /* Mcal a day more than this when the cold spell comes */
    double water_l;                  /* a day, as drunk and in the feed */
    double table_row_share[TABLE_ROW_COUNT];  /* of the cow-days; none for some classes */
    IntakeLaw table_row_law[TABLE_ROW_COUNT]; /* intake as published, times that share */
    bool follows_table;
    unsigned own_kinds; /* NEED_BIT of what is the user's own */
    bool mineral_is_own[NUTRIENT_COUNT];
} Requirement;

Requirement requirement_of(const HerdGroup *group, const Weather *weather,
                           const MineralNeeds *minerals, Day first_day, Day from, Day to);

/* Whether the published table has a line for such cattle. */
bool requirement_has_table_row(CattleClass cattle_class);

EnergyRate requirement_nem(const Requirement *requirement);   /* all parts of NEm, >= 0 */
GramRate requirement_protein(const Requirement *requirement); /* all parts of MP */

/* NDF a cow can hold a day, as a share of live weight. */
#define NDF_CAPACITY_DRY 0.012     /* [PRODUCER_CALVING_FEED] */
#define NDF_CAPACITY_NURSING 0.013 /* own choice inside 0.013 to 0.014 */
#define NDF_CAPACITY_GROWING 0.013 /* own choice */

/* Least crude protein of the diet is a row of the safety limits; growing cattle have none
 * there. */

#endif
