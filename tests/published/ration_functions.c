/* Needs of a whole cow on a day, as the program puts them together, and rations that
 * publications work through with pencil and paper. */
#include "published/published.h"

#include "cattle/protein_requirement.h"
#include "cattle/requirement_table.h"
#include "entry/embedded.h"
#include "planner/ration_limit.h"

#include <stddef.h>

#define SHRUNK_SHARE 0.96
#define GRAMS_PER_POUND (KG_PER_POUND * GRAMS_PER_KG)

/* No cold: warm, dry and calm. */
static Weather warm_weather(void) {
    Weather weather = {.normals_station = ""};
    for (int month = 1; month <= 12; month++) {
        weather.month[month] = (MonthWeather){.mean = {20.0}, .cold_spell = {20.0}};
        weather.is_known[month] = true;
    }
    return weather;
}

/* in: shrunk weight kg, peak milk kg, calf kg, first and last day counted from calving (before
 * it negative). */
static Requirement needs_of(const double *in) {
    const Day calving = calendar_day(2027, 3, 1);
    const HerdGroup cow = {
        .name = "cow",
        .cattle_class = CATTLE_COW,
        .head = 1,
        .weight = {in[0] / SHRUNK_SHARE},
        .condition = 5.0,
        .is_bred = true,
        .calving_start = calving,
        .calving_end = calving,
        .peak_milk = {in[1]},
        .calf_birth_weight = {in[2]},
        .breed_factor = 1.0,
        .coat = COAT_HEAVY,
        .shelter = SHELTER_BARN,
    };
    static const MineralNeeds none;
    const Weather weather = warm_weather();
    const Day from = calendar_add(calving, (int)in[3]);
    return requirement_of(&cow, &weather, &none, from, from, calendar_add(calving, (int)in[4]));
}

static double call_herd_nem(const double *in) {
    const Requirement need = needs_of(in);
    return requirement_nem(&need).mcal_per_day;
}
static double call_herd_protein(const double *in) {
    const Requirement need = needs_of(in);
    return requirement_protein(&need).g_per_day;
}
static double call_herd_crude_protein_pounds(const double *in) {
    return call_herd_protein(in) / CP_TO_MP / GRAMS_PER_POUND;
}
static double call_herd_tdn_pounds(const double *in) {
    const double nem_per_kg_tdn = nem_from_tdn(in[5]).mcal_per_kg / (in[5] / 100.0);
    return call_herd_nem(in) / nem_per_kg_tdn / KG_PER_POUND;
}
/* in: shrunk weight, final shrunk weight, gain of shrunk weight, kg; as a herd file has them:
 * of what a scale shows */
static double call_herd_gain_energy(const double *in) {
    const HerdGroup steer = {
        .name = "steer",
        .cattle_class = CATTLE_STEER,
        .head = 1,
        .weight = {in[0] / SHRUNK_SHARE},
        .mature_weight = {in[1] / SHRUNK_SHARE},
        .gain = {in[2] / SHRUNK_SHARE},
        .condition = 5.0,
        .breed_factor = 1.0,
        .coat = COAT_HEAVY,
        .shelter = SHELTER_BARN,
    };
    static const MineralNeeds none;
    const Weather weather = warm_weather();
    const Day day = calendar_day(2027, 3, 1);
    return requirement_of(&steer, &weather, &none, day, day, day).retained.mcal_per_day;
}
static double call_herd_calcium(const double *in) { return needs_of(in).calcium.g_per_day; }
static double call_herd_phosphorus(const double *in) {
    return needs_of(in).phosphorus.g_per_day;
}

/* in: dry matter eaten, dry matter %, waste % */
static double call_as_fed_for_eaten(const double *in) {
    const PlanFeed feed = {.dry_share = in[1] / 100.0, .waste_share = in[2] / 100.0};
    return in[0] * plan_taken_per_eaten(&feed);
}

/* in: need, then amount and % of two feeds: what is still lacking */
static double call_still_lacking(const double *in) {
    const double per_kg[] = {in[2] / 100.0, in[4] / 100.0};
    const double eaten[] = {in[1], in[3]};
    const RationLimit limit = {.per_kg = per_kg, .least = in[0]};
    return limit.least - ration_supply(&limit, 2, eaten, 0.0);
}

/* in: line of the published table, and of it 0 TDN, 1 protein, 2 calcium, 3 phosphorus */
static double call_table_pct(const double *in) {
    Arena *arena = arena_open();
    Faults faults = faults_new(arena);
    const EmbeddedFile *file = embedded_find("requirement-table.csv");
    const RequirementTable *table =
        requirement_table_parse(arena, &faults, file->name, file->bytes, file->length);
    const double pct = table->pct[(int)in[0]][(int)in[1]];
    arena_close(arena);
    return pct;
}

const PublishedFunction RATION_FUNCTIONS[] = {
    {"herd_nem", 5, call_herd_nem},         /* kg, kg/day, kg, days -> Mcal/day */
    {"herd_protein", 5, call_herd_protein}, /* same -> g MP/day */
    {"herd_crude_protein_pounds", 5, call_herd_crude_protein_pounds}, /* same -> lb CP/day */
    {"herd_tdn_pounds", 6, call_herd_tdn_pounds},   /* same and TDN % of diet -> lb/day */
    {"herd_gain_energy", 3, call_herd_gain_energy}, /* kg, kg, kg/day -> Mcal/day */
    {"herd_calcium", 5, call_herd_calcium},         /* as herd_nem -> g/day */
    {"herd_phosphorus", 5, call_herd_phosphorus},   /* same -> g/day */
    {"as_fed_for_eaten", 3, call_as_fed_for_eaten}, /* any weight, DM %, waste % */
    {"table_pct", 2, call_table_pct},               /* -> % of dry matter */
    {"still_lacking", 5, call_still_lacking},       /* any weight, % */
    {NULL, 0, NULL},
};
