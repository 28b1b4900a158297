/* Invented farms for the laws that must hold for any farm. Same seed and size, same farm on
 * every machine: numbers come from a 64-bit counter and are rounded as they would be written by
 * hand.
 *
 * The ways its needs are reckoned by, and a nutritionist's own figures for them, are drawn
 * apart from all else (farm_options.c): a farm is otherwise the same as without them.
 *
 * A farm is first drafted, as plain values in metric units; a law may change the draft; then it
 * is written as the CSV files a farmer would save, so that the readers run too. */
#ifndef SUPPORT_FARM_MAKER_H
#define SUPPORT_FARM_MAKER_H

#include "base/arena.h"
#include "base/calendar.h"
#include "entry/task.h"

/* is_generous: the first six offers (give at least six) are hay, barley, canola meal, mineral,
 * limestone and salt without end, all winter and for every group, and nothing has to be left
 * over: about one winter in fifty still cannot be balanced. Otherwise more than half cannot. */
typedef struct {
    int groups, stacks, offers, days;
    bool is_generous;
} FarmSize;

void farm_made(Arena *arena, unsigned long long seed, FarmSize size, FarmRequest *request);

/* Farms to measure by, a year each: S of 4 groups, 12 feeds and about 26 periods a group, M of
 * 8 groups, 40 feeds and 26 periods, L of 40 groups, 60 feeds and 52 periods. All are generous.
 */
typedef enum { FARM_S, FARM_M, FARM_L } FarmPreset;
void farm_made_of_size(Arena *arena, unsigned long long seed, FarmPreset preset,
                       FarmRequest *request);

/* ---------------------------------------------------------------------------------------------
 * Drafts: metric, percent of dry matter, money per tonne. NAN: the cell stays empty. */

typedef struct {
    bool is_set;
    Day day;
} DraftDate;

typedef struct {
    const char *name, *cattle_class;
    int head;
    double weight_kg, mature_kg;
    double condition_9, target_9;
    DraftDate target_date, calving_start, calving_end, weaning;
    double milk_kg, birth_kg, gain_kg;
    const char *breed, *coat, *shelter, *delivery; /* "": empty */
} DraftGroup;

typedef struct {
    const char *name, *kind, *feed, *storage, *feeding;
    DraftDate cut, counted;
    double count, bale_kg; /* one of these three ways to weigh it */
    double total_tonnes;   /* is set */
    double diameter_m, width_m, length_m, height_m, density; /* kg/m3 as fed */
    double loss_pct, waste_pct, value, haul;
    DraftDate from, until;
    const char *groups; /* "A|B"; "": all */
} DraftStack;

#define DRAFT_TESTED_COUNT 9
extern const char
    *const DRAFT_TESTED[DRAFT_TESTED_COUNT]; /* headings: "crude_protein_pct", ... */

typedef struct {
    const char *stack;
    bool is_as_fed; /* the sheet is written so; values here are of dry matter */
    double moisture_pct, cores;
    double tested[DRAFT_TESTED_COUNT];
    double nitrate_no3_pct;
} DraftTest;

typedef struct {
    const char *name, *feed, *feeding;
    double price, most_tonnes, load_tonnes, waste_pct, shrink_pct, haul;
    bool is_supplement;
    DraftDate from, until;
    const char *groups;
} DraftOffer;

typedef struct {
    int month;
    double mean_c, cold_c, wind_km_per_h, wet_days;
} DraftMonth;

typedef enum { NITRATE_NO3_PCT, NITRATE_NO3_PPM, NITRATE_N_PPM, NITRATE_KNO3_PCT } NitrateForm;

/* A row of needs.csv: where that file is imperial it stands in the other unit, `times` the
 * first. */
typedef struct {
    const char *group, *need;
    DraftDate from, until;
    double value;
    const char *unit, *other_unit;
    double times;
} DraftNeed;

typedef struct {
    NeedsWay needs_way;
    ColdWay cold_way;
    MicrobialForm microbial_form;
    bool are_asked; /* the first two on the command line; else in winter.csv */
    double caution_weight;
} DraftWays;

typedef struct {
    DraftGroup *groups;
    DraftStack *stacks;
    DraftTest *tests;
    DraftOffer *offers;
    DraftMonth *months; /* none: the normals */
    DraftNeed *needs;
    int group_count, stack_count, test_count, offer_count, month_count, need_count;
    DraftWays ways;
    Day first_day, last_day;
    double yardage, sulfate_mg, nitrate_mg, carry_over_tonnes;
    NitrateForm nitrate_form;
    bool is_five_point; /* condition is written on the 5-point scale */
    unsigned imperial;  /* bit FARM_HERD: that file is written in lb, ft, F, tons ... */
} FarmDraft;

#define ALL_IMPERIAL ((1u << FARM_FILE_COUNT) - 1u)

FarmDraft *farm_drafted(Arena *arena, unsigned long long seed, FarmSize size);
void farm_written(Arena *arena, const FarmDraft *draft, FarmRequest *request);

/* ---------------------------------------------------------------------------------------------
 * The numbers themselves, for laws that need a choice. */

typedef struct {
    unsigned long long state;
} Draws;

Draws draws_new(unsigned long long seed);
double draw_share(Draws *draws);                   /* 0 <= share < 1 */
int draw_whole(Draws *draws, int least, int most); /* both may come */
bool draw_chance(Draws *draws, double share);
double draw_between(Draws *draws, double least, double most, int decimals);

#endif
