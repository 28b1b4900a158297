#include "outcome/needs_explained.h"
#include "base/text.h"
#include "cattle/growth.h"
#include "outcome/day_words.h"
#include <math.h>

/* ---- minerals and vitamins ---- */

/* Not of the poisons and the fat, which are no minerals. */
static bool is_mineral_limit(const SafetyLimit *limit) {
    return limit->kind == LIMIT_CONCENTRATION && limit->subject == SUBJECT_NUTRIENT &&
           limit->side == SIDE_MOST && !nutrient_is_hazard(limit->nutrient) &&
           limit->nutrient != NUTRIENT_NITRATE && limit->nutrient != NUTRIENT_CRUDE_FAT;
}

const SafetyLimit *needs_most_of(const PlanQuestion *question, int block, Nutrient nutrient) {
    const SafetyLimits *limits = &question->farm->limits;
    const PlanBlock *of = &question->blocks[block];
    const Delivery delivery = question->farm->herd.groups[of->group].delivery;
    const SafetyLimit *strictest = NULL;
    for (int i = 0; i < limits->count; i++) {
        const SafetyLimit *limit = &limits->limits[i];
        if (limit->nutrient == nutrient && is_mineral_limit(limit) &&
            limit_applies(limit, of->need.stages, delivery) &&
            (!strictest || limit->hard < strictest->hard))
            strictest = limit;
    }
    return strictest;
}

static void add_amount(Text *text, Nutrient nutrient, double amount) {
    const NutrientKind *kind = nutrient_kind(nutrient);
    text_print(text, "%s%s %.*f %s", text->length > 0 ? ", " : "", kind->label, kind->decimals,
               amount, kind->unit);
}

static void add_minerals(Report *report, const PlanQuestion *question, int block) {
    const MineralNeeds *minerals = question->farm->minerals;
    const Requirement *need = &question->blocks[block].need;
    Text least = text_new(report->arena);
    Text most = text_new(report->arena);
    Text told = text_new(report->arena);
    for (int i = 0; i < NUTRIENT_COUNT; i++) {
        const SafetyLimit *limit = needs_most_of(question, block, (Nutrient)i);
        const double beside = fmax(minerals->guide[i], minerals->told[i]);
        if (need->mineral_least[i] > 0.0)
            add_amount(&least, (Nutrient)i, need->mineral_least[i]);
        if (limit)
            add_amount(&most, (Nutrient)i, limit->hard);
        if (beside > 0.0)
            add_amount(&told, (Nutrient)i, beside);
    }
    report_paragraph(report, "Least in the dry matter of the whole diet, first period: %s.",
                     least.bytes);
    if (most.length > 0)
        report_paragraph(report, "Most in it, with what the water brings: %s.", most.bytes);
    if (told.length > 0)
        report_paragraph(report, "Wanted in it too, but no ration is held to them: %s.",
                         told.bytes);
}

/* ---- what would change the needs ---- */

typedef struct {
    HerdGroup group;
    Weather weather;
} Case;

#define COLDER_C 5.0
#define WETTER_SHARE 0.10
#define HEAVIER_SHARE 0.10
#define EARLIER_DAYS 21
#define MORE_MILK_KG 2.0
#define MORE_GAIN_KG 0.2

static void colder(Case *of) {
    for (int month = 1; month <= 12; month++) {
        of->weather.month[month].mean.celsius -= COLDER_C;
        of->weather.month[month].cold_spell.celsius -= COLDER_C;
    }
}
static void wetter(Case *of) {
    for (int month = 1; month <= 12; month++) {
        MonthWeather *weather = &of->weather.month[month];
        weather->wet_share = fmin(weather->wet_share + WETTER_SHARE, 1.0);
    }
}
static void in_the_open(Case *of) { of->group.shelter = SHELTER_OPEN; }
static void behind_bush(Case *of) { of->group.shelter = SHELTER_BUSH; }
static void heavier(Case *of) {
    of->group.weight.kg *= 1.0 + HEAVIER_SHARE;
    of->group.mature_weight.kg *= 1.0 + HEAVIER_SHARE;
}
static void thinner(Case *of) { of->group.condition = fmax(of->group.condition - 1.0, 1.0); }
static void earlier(Case *of) {
    of->group.calving_start = calendar_add(of->group.calving_start, -EARLIER_DAYS);
    of->group.calving_end = calendar_add(of->group.calving_end, -EARLIER_DAYS);
}
static void milkier(Case *of) { of->group.peak_milk.kg_per_day += MORE_MILK_KG; }
static void faster(Case *of) { of->group.gain.kg_per_day += MORE_GAIN_KG; }

static bool always(const HerdGroup *of) { return of->head > 0.0; }
static bool is_windier_than_bush(const HerdGroup *of) {
    return shelter_wind_share(of->shelter) > shelter_wind_share(SHELTER_BUSH);
}
static bool is_sheltered(const HerdGroup *of) { return of->shelter != SHELTER_OPEN; }
static bool is_bred(const HerdGroup *of) { return of->is_bred; }
static bool grows(const HerdGroup *of) { return cattle_class_kind(of->cattle_class)->grows; }

typedef struct {
    const char *key;
    const char *metric, *imperial;
    bool (*is_asked)(const HerdGroup *of);
    void (*change)(Case *of);
} Change;

static const Change CHANGES[] = {
    {"colder", "5 C colder", "9 F colder", always, colder},
    {"wet_coat", "coat wet one day in ten more", "coat wet one day in ten more", always,
     wetter},
    {"open", "in the open wind", "in the open wind", is_sheltered, in_the_open},
    {"bush", "behind bush", "behind bush", is_windier_than_bush, behind_bush},
    {"thinner", "a score of condition thinner", "a score of condition thinner", always,
     thinner},
    {"heavier", "a tenth heavier", "a tenth heavier", always, heavier},
    {"earlier", "calving 3 weeks earlier", "calving 3 weeks earlier", is_bred, earlier},
    {"milk", "peak milk 2 kg more", "peak milk 4.4 lb more", is_bred, milkier},
    {"gain", "gain 0.2 kg a day more", "gain 0.44 lb a day more", grows, faster},
};

static double energy_of(const PlanBlock *block) {
    return requirement_nem(&block->by_equations).mcal_per_day +
           block->by_equations.retained.mcal_per_day;
}

static int dearest(const PlanQuestion *question, int first, int count) {
    int place = first;
    for (int b = first; b < first + count; b++) {
        if (energy_of(&question->blocks[b]) > energy_of(&question->blocks[place]))
            place = b;
    }
    return place;
}

static Requirement need_of(const PlanQuestion *question, const Case *of,
                           const PlanBlock *block) {
    return requirement_of(&of->group, &of->weather, question->farm->minerals,
                          winter_weighing_day(&question->farm->winter), block->from, block->to);
}

/* Below these nothing has changed that a reader would see. */
#define SEEN_MCAL 0.05
#define SEEN_GRAMS 1.0

static void add_changes(Report *report, Figure *figures, const PlanQuestion *question,
                        Units units, const PlanBlock *block) {
    Arena *arena = report->arena;
    const Case now = {question->farm->herd.groups[block->group], question->farm->weather};
    const Requirement before = need_of(question, &now, block);
    ReportColumn *columns = ARENA_ARRAY(arena, ReportColumn, 4);
    columns[0] = (ReportColumn){"change", "Change", "", 0};
    columns[1] = (ReportColumn){"nem", "NEm", measure_unit(units, MEASURE_ENERGY), 1};
    columns[2] = (ReportColumn){"neg", "NEg for gain", measure_unit(units, MEASURE_ENERGY), 1};
    columns[3] = (ReportColumn){"protein", "MP", measure_unit(units, MEASURE_PROTEIN), 1};
    ReportTable *table =
        report_table(report, "changes",
                     arena_print(arena,
                                 "What would change it: more, or less with a minus, in the "
                                 "period from %s, by the equations",
                                 day_short(arena, block->from)),
                     columns, 4);
    figure_text(figures, "changes_from", day_iso(arena, block->from));
    Figure *list = figure_list(figures, "changes");
    for (size_t i = 0; i < sizeof CHANGES / sizeof CHANGES[0]; i++) {
        Case then = now;
        if (!CHANGES[i].is_asked(&now.group))
            continue;
        CHANGES[i].change(&then);
        const Requirement after = need_of(question, &then, block);
        const double nem =
            requirement_nem(&after).mcal_per_day - requirement_nem(&before).mcal_per_day;
        const double neg = after.retained.mcal_per_day - before.retained.mcal_per_day;
        const double protein =
            requirement_protein(&after).g_per_day - requirement_protein(&before).g_per_day;
        Figure *of = figure_list_object(list);
        figure_text(of, "change", CHANGES[i].key);
        figure_number(of, "net_energy_maintenance_mcal", nem);
        figure_number(of, "net_energy_gain_mcal", neg);
        figure_number(of, "metabolizable_protein_g", protein);
        if (fabs(nem) < SEEN_MCAL && fabs(neg) < SEEN_MCAL && fabs(protein) < SEEN_GRAMS)
            continue;
        report_row(table, (Cell[]){text_cell(units == UNITS_METRIC ? CHANGES[i].metric
                                                                   : CHANGES[i].imperial),
                                   measure_cell(units, MEASURE_ENERGY, nem),
                                   measure_cell(units, MEASURE_ENERGY, neg),
                                   measure_cell(units, MEASURE_PROTEIN, protein)});
    }
}

/* ---- heifers ---- */

static void add_heifer_weight(Report *report, Figure *figures, const Winter *winter,
                              Units units, const HerdGroup *of) {
    const bool is_bred_heifer = of->cattle_class == CATTLE_BRED_HEIFER;
    if ((!is_bred_heifer && of->cattle_class != CATTLE_REPLACEMENT_HEIFER) ||
        of->mature_weight.kg <= 0.0)
        return;
    const Day day = is_bred_heifer ? of->calving_start : winter->last_day;
    const int days = calendar_days_between(winter_weighing_day(winter), day);
    const double then = of->weight.kg + of->gain.kg_per_day * fmax(days, 0.0);
    const double wanted = is_bred_heifer ? SHARE_AT_FIRST_CALVING : SHARE_AT_BREEDING;
    Figure *figure = figure_child(figures, "heifer_weight");
    figure_text(figure, "day", day_iso(report->arena, day));
    figure_number(figure, "weight_kg", then);
    figure_number(figure, "share_of_mature", then / of->mature_weight.kg);
    figure_number(figure, "share_wanted", wanted);
    report_paragraph(report,
                     "At this gain they weigh %.0f %s on %s, %.0f %% of what they weigh grown; "
                     "%.0f %% (%.0f "
                     "%s) is wanted at %s [NRC_EQUATIONS_2000].",
                     measure_shown(units, MEASURE_WEIGHT, then),
                     measure_unit(units, MEASURE_WEIGHT), day_words(report->arena, day),
                     100.0 * then / of->mature_weight.kg, 100.0 * wanted,
                     measure_shown(units, MEASURE_WEIGHT, wanted * of->mature_weight.kg),
                     measure_unit(units, MEASURE_WEIGHT),
                     is_bred_heifer ? "first calving" : "first breeding, at 14 to 15 months");
}

void needs_explained_add(Report *report, Figure *figures, const PlanQuestion *question,
                         Units units, int first, int count) {
    const PlanBlock *dear = &question->blocks[dearest(question, first, count)];
    const HerdGroup *of = &question->farm->herd.groups[dear->group];
    add_minerals(report, question, first);
    add_heifer_weight(report, figures, &question->farm->winter, units, of);
    add_changes(report, figures, question, units, dear);
}
