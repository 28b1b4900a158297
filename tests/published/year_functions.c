/* The tables to compare with books, cell by cell. */
#include "published/published.h"

#include "cattle/growing_day.h"
#include "cattle/protein_requirement.h"
#include "cattle/year_of_cow.h"

#include <stddef.h>

/* in: shrunk weight kg, peak milk kg/day, calf kg, month since calving */
static CowMonth month_of(const double *in) {
    const YearCow cow = {.shrunk = {in[0]}, .peak_milk = {in[1]}, .calf_birth_weight = {in[2]}};
    return cow_month(&cow, (int)in[3]);
}

static double call_days_pregnant(const double *in) { return month_of(in).days_pregnant; }
static double call_milk(const double *in) { return month_of(in).milk.kg_per_day; }
static double call_upkeep(const double *in) { return month_of(in).maintenance.mcal_per_day; }
static double call_for_milk(const double *in) { return month_of(in).lactation.mcal_per_day; }
static double call_for_calf(const double *in) { return month_of(in).pregnancy.mcal_per_day; }
static double call_nem(const double *in) {
    const CowMonth month = month_of(in);
    return cow_month_energy(&month).mcal_per_day;
}
static double call_protein(const double *in) { return month_of(in).protein.g_per_day; }
static double call_crude_protein(const double *in) { return call_protein(in) / CP_TO_MP; }
static double call_calcium(const double *in) { return month_of(in).calcium.g_per_day; }
static double call_phosphorus(const double *in) { return month_of(in).phosphorus.g_per_day; }

/* in: shrunk kg, final shrunk kg, gain kg/day */
static GrowingDay growing(const double *in) {
    return growing_day((Mass){in[0]}, (Mass){in[1]}, (FeedRate){in[2]});
}

static double call_growing_nem(const double *in) {
    return growing(in).maintenance.mcal_per_day;
}
static double call_growing_neg(const double *in) { return growing(in).gain.mcal_per_day; }
static double call_growing_protein_upkeep(const double *in) {
    return growing(in).protein_maintenance.g_per_day;
}
static double call_growing_protein_gain(const double *in) {
    return growing(in).protein_gain.g_per_day;
}
static double call_growing_calcium(const double *in) { return growing(in).calcium.g_per_day; }
static double call_growing_phosphorus(const double *in) {
    return growing(in).phosphorus.g_per_day;
}

const PublishedFunction YEAR_FUNCTIONS[] = {
    {"year_days_pregnant", 4, call_days_pregnant},
    {"year_milk", 4, call_milk},                                /* kg/day */
    {"year_upkeep", 4, call_upkeep},                            /* Mcal/day */
    {"year_for_milk", 4, call_for_milk},                        /* Mcal/day */
    {"year_for_calf", 4, call_for_calf},                        /* Mcal/day */
    {"year_nem", 4, call_nem},                                  /* Mcal/day */
    {"year_protein", 4, call_protein},                          /* g MP/day */
    {"year_crude_protein", 4, call_crude_protein},              /* g CP/day */
    {"year_calcium", 4, call_calcium},                          /* g/day */
    {"year_phosphorus", 4, call_phosphorus},                    /* g/day */
    {"growing_nem", 3, call_growing_nem},                       /* Mcal/day */
    {"growing_neg", 3, call_growing_neg},                       /* Mcal/day */
    {"growing_protein_upkeep", 3, call_growing_protein_upkeep}, /* g MP/day */
    {"growing_protein_gain", 3, call_growing_protein_gain},     /* g MP/day */
    {"growing_calcium", 3, call_growing_calcium},               /* g/day */
    {"growing_phosphorus", 3, call_growing_phosphorus},         /* g/day */
    {NULL, 0, NULL},
};
