#include "planner/ration_limit.h"
#include "base/text.h"
#include "cattle/protein_requirement.h"
#include "planner/ration_row.h"
#include "planner/ration_safety.h"
#include <math.h>
#include <string.h>

#define GRAMS_PER_KG_PER_PERCENT 10.0

/* Where a need is from: the equations, the published table, or a figure of the farm's own
 * [FARM_FIGURE]. */
static SourceKey own_or(const Requirement *need, NeedKind kind, SourceKey equations) {
    return need->own_kinds & NEED_BIT(kind) ? SOURCE_FARM_FIGURE : equations;
}

static SourceKey source_of(const RationRows *rows, NeedKind kind, TableColumn column,
                           SourceKey equations) {
    const Requirement *need = &rows->block->need;
    const SourceKey table =
        need->follows_table
            ? requirement_table_source(rows->question->farm->requirement_table, need, column)
            : SOURCE_NONE;
    return own_or(need, kind, table == SOURCE_NONE ? equations : table);
}

/* Mature cattle: NEm of the ration covers upkeep. Growing cattle: what is left after upkeep
 * goes to gain with NEg, G (1 - M / E) >= RE, straightened at the state's ration:
 *
 *     sum ((1 - s) NEg + s r NEm) x >= RE + r M */
static void add_energy(RationRows *rows, BlockState state) {
    const Requirement *need = &rows->block->need;
    const double retained = need->retained.mcal_per_day;
    const double upkeep = requirement_nem(need).mcal_per_day;
    const bool grows = retained > 0.0;
    RationLimit *limit = ration_row_add(
        rows,
        ration_row(grows ? "net_energy" : "net_energy_maintenance",
                   grows ? "Net energy, upkeep and gain" : "Net energy (NEm)", "Mcal", 2));
    const double upkeep_factor = grows ? state.maintenance_share * state.gain_per_upkeep : 1.0;
    const double gain_factor = grows ? 1.0 - state.maintenance_share : 0.0;
    double *values = ration_row_numbers(rows->arena, rows->question);
    for (int feed = 0; feed < rows->question->feed_count; feed++) {
        const double *eaten = rows->question->feeds[feed].eaten;
        values[feed] = upkeep_factor * ration_known_or_none(eaten[NUTRIENT_NEM]) +
                       gain_factor * ration_known_or_none(eaten[NUTRIENT_NEG]);
    }
    limit->per_kg = values;
    limit->least = grows ? retained + state.gain_per_upkeep * upkeep : upkeep;
    limit->least_gives = GIVES_ENERGY;
    limit->law = grows ? LAW_GAIN : LAW_NONE;
    limit->source =
        own_or(need, NEED_NEM, source_of(rows, NEED_NEG, TABLE_TDN, SOURCE_NRC_EQUATIONS_2000));
}

bool ration_limit_is_energy(const RationLimit *limit) {
    return text_same(limit->key, "net_energy") ||
           text_same(limit->key, "net_energy_maintenance");
}

bool ration_feed_fills(const PlanFeed *feed) {
    return feed->feed->feed_class != FEED_CLASS_MINERAL &&
           feed->feed->feed_class != FEED_CLASS_NPN;
}

static SourceKey source_of_form(MicrobialForm form) {
    switch (form) {
    case MICROBIAL_TEN_PERCENT:
        return SOURCE_GALYEAN_2024;
    case MICROBIAL_THIRTEEN_PERCENT:
        return SOURCE_NRC_2000;
    case MICROBIAL_2016:
        return SOURCE_NASEM_2016;
    }
    return SOURCE_GALYEAN_2024;
}

static void set_protein(Arena *arena, const PlanQuestion *question, RationTable *table) {
    const MicrobialForm form = question->farm->winter.microbial_form;
    double *undegraded = ration_row_numbers(arena, question);
    double *degraded = ration_row_numbers(arena, question);
    double *microbial = ration_row_numbers(arena, question);
    table->microbial_constant = microbial_protein(form, (FeedRate){0.0}).g_per_day;
    for (int feed = 0; feed < question->feed_count; feed++) {
        const PlanFeed *of = &question->feeds[feed];
        const FeedRate tdn = {ration_known_or_none(of->eaten[NUTRIENT_TDN]) / 100.0};
        microbial[feed] = microbial_protein(form, tdn).g_per_day - table->microbial_constant;
        undegraded[feed] = MP_PER_UNDEGRADED_PROTEIN * of->undegraded;
        degraded[feed] = of->degraded;
    }
    table->undegraded = undegraded;
    table->degraded = degraded;
    table->microbial = microbial;
}

/* Microbial protein is held by the energy of the diet and by its degradable protein; what it
 * and the undegraded protein bring must cover the need. */
static void add_protein(RationRows *rows) {
    const RationTable *table = rows->table;
    const MicrobialForm form = rows->question->farm->winter.microbial_form;
    RationLimit *limit = ration_row_add(
        rows, ration_row("metabolizable_protein", "Metabolizable protein", "g", 0));
    limit->per_kg = table->undegraded;
    limit->microbial_factor = MP_PER_MICROBIAL_PROTEIN * GRAMS_PER_KG;
    limit->least = requirement_protein(&rows->block->need).g_per_day;
    limit->least_gives = GIVES_PROTEIN;
    limit->source =
        source_of(rows, NEED_PROTEIN, TABLE_CRUDE_PROTEIN, SOURCE_NRC_EQUATIONS_2000);

    limit = ration_row_add(
        rows, ration_row("microbial_from_energy", "Microbial protein from energy", "g", 0));
    limit->per_kg = table->microbial;
    limit->microbial_factor = -GRAMS_PER_KG;
    limit->least = 0.0 - table->microbial_constant;
    limit->is_inner = true;
    limit->source = source_of_form(form);

    limit = ration_row_add(rows, ration_row("microbial_from_protein",
                                            "Microbial protein from degradable", "g", 0));
    limit->per_kg = table->degraded;
    limit->microbial_factor = -GRAMS_PER_KG;
    limit->least = 0.0;
    limit->is_inner = true;
    limit->source = SOURCE_NRC_EQUATIONS_2000;

    /* What the microbes could use of the energy, they need as degradable protein. */
    limit = ration_row_add(rows, ration_row("degradable_protein",
                                            "Degradable protein for the rumen", "x need", 2));
    limit->per_kg = table->degraded;
    limit->base = table->microbial;
    limit->base_constant = table->microbial_constant;
    limit->least = 1.0;
    limit->least_gives = GIVES_DEGRADABLE;
    limit->source = source_of_form(form);
}

/* One side of the intake law D <= cap(E / F), straightened at the state's ration, with F the
 * dry matter that fills and k = cap'(n) / F:
 *
 *     sum over feed of (1 + k (n - NEm)) x + sum over minerals of x <= cap(n)
 *
 * Minerals take room, but they neither still hunger nor thin the energy that hunger follows. */
static RationLimit *add_intake_side(RationRows *rows, BlockState state, IntakeLaw law,
                                    const char *key, bool minerals_count, double *bound) {
    const double step = 1e-4;
    const Requirement *need = &rows->block->need;
    const double at = intake_at(law, need->shrunk, (EnergyDensity){state.diet_nem}).kg_per_day;
    const double above =
        intake_at(law, need->shrunk, (EnergyDensity){state.diet_nem + step}).kg_per_day;
    const double below =
        intake_at(law, need->shrunk, (EnergyDensity){state.diet_nem - step}).kg_per_day;
    const double slope = (above - below) / (2.0 * step) / fmax(state.dry_matter_kg, 0.1);
    double *values = ration_row_numbers(rows->arena, rows->question);
    for (int feed = 0; feed < rows->question->feed_count; feed++) {
        const PlanFeed *of = &rows->question->feeds[feed];
        values[feed] = minerals_count ? 1.0 : 0.0;
        if (ration_feed_fills(of))
            values[feed] =
                1.0 + slope * (state.diet_nem - ration_known_or_none(of->eaten[NUTRIENT_NEM]));
    }
    RationLimit *limit = ration_row_add(rows, ration_row(key, "Dry matter", "kg", 1));
    limit->per_kg = values;
    limit->source = SOURCE_NRC_EQUATIONS_2000;
    *bound = at;
    return limit;
}

static void add_intake(RationRows *rows, BlockState state) {
    const Requirement *need = &rows->block->need;
    double bound;
    RationLimit *limit = add_intake_side(rows, state, need->most, "dry_matter", true, &bound);
    limit->most = bound;
    limit->law = LAW_INTAKE_MOST;
    limit->source = own_or(need, NEED_INTAKE_MOST, limit->source);
    limit = add_intake_side(rows, state, need->least, "dry_matter_fill", false, &bound);
    limit->label = "Dry matter, enough to be full";
    limit->least = bound;
    limit->least_gives = GIVES_FILL;
    limit->law = LAW_INTAKE_LEAST;
    limit->source = own_or(need, NEED_INTAKE_LEAST, limit->source);

    limit = ration_row_add(rows, ration_row("ndf", "NDF (fill)", "kg", 2));
    limit->per_kg = rows->table->ndf;
    limit->most = need->ndf_most_kg;
    limit->source = own_or(need, NEED_NDF_MOST, SOURCE_PRODUCER_CALVING_FEED);
}

static void add_macrominerals(RationRows *rows) {
    const Requirement *need = &rows->block->need;
    RationLimit *limit = ration_row_add(rows, ration_row("calcium", "Calcium", "g", 1));
    limit->per_kg = rows->table->calcium;
    limit->least = need->calcium.g_per_day;
    limit->least_gives = GIVES_MACROMINERAL;
    limit->source = source_of(rows, NEED_CALCIUM, TABLE_CALCIUM, SOURCE_NRC_2000);

    limit = ration_row_add(rows, ration_row("phosphorus", "Phosphorus", "g", 1));
    limit->per_kg = rows->table->phosphorus;
    limit->least = need->phosphorus.g_per_day;
    limit->least_gives = GIVES_MACROMINERAL;
    limit->source =
        source_of(rows, NEED_PHOSPHORUS, TABLE_PHOSPHORUS, SOURCE_NRC_EQUATIONS_2000);
}

/* A minimum is planned for when a mineral, own or for sale, brings it: what the other feeds
 * hold unknown is then taken as none. Without one no feed is bought to chase a trace; the
 * report says it. */
static bool can_be_judged(const PlanQuestion *question, Nutrient nutrient) {
    for (int feed = 0; feed < question->feed_count; feed++) {
        const PlanFeed *of = &question->feeds[feed];
        if (of->feed->feed_class == FEED_CLASS_MINERAL && of->eaten[nutrient] > 0.0)
            return true;
    }
    return false;
}

static bool is_in_mineral_table(const PlanQuestion *question, Nutrient nutrient) {
    for (int animal = 0; animal < ANIMAL_COUNT; animal++) {
        if (question->farm->minerals->least[nutrient][animal] > 0.0)
            return true;
    }
    return false;
}

int nutrients_not_judged(Arena *arena, const PlanQuestion *question,
                         const Nutrient **nutrients) {
    Nutrient *list = ARENA_ARRAY(arena, Nutrient, NUTRIENT_COUNT);
    int count = 0;
    for (int i = 0; i < NUTRIENT_COUNT; i++) {
        if (is_in_mineral_table(question, (Nutrient)i) && !can_be_judged(question, (Nutrient)i))
            list[count++] = (Nutrient)i;
    }
    *nutrients = list;
    return count;
}

static void add_minerals(RationRows *rows) {
    const PlanQuestion *question = rows->question;
    for (int i = 0; i < NUTRIENT_COUNT; i++) {
        const double least = rows->block->need.mineral_least[i];
        if (least <= 0.0 || !rows->table->mineral[i])
            continue;
        const NutrientKind *kind = nutrient_kind((Nutrient)i);
        RationLimit *limit = ration_row_add(
            rows, ration_row(kind->stem, kind->label, kind->unit, kind->decimals));
        limit->per_kg = rows->table->mineral[i];
        limit->base = rows->table->ones;
        limit->least = least;
        limit->least_gives = GIVES_MINERAL;
        limit->source = rows->block->need.mineral_is_own[i]
                            ? SOURCE_FARM_FIGURE
                            : question->farm->minerals->source[i];
    }
}

const RationTable *ration_table(Arena *arena, const PlanQuestion *question) {
    RationTable *table = ARENA_NEW(arena, RationTable);
    *table = (RationTable){
        .question = question,
        .ones = ration_row_ones(arena, question),
        .ndf = ration_row_eaten(arena, question, NUTRIENT_NDF, 0.01),
        .calcium =
            ration_row_eaten(arena, question, NUTRIENT_CALCIUM, GRAMS_PER_KG_PER_PERCENT),
        .phosphorus =
            ration_row_eaten(arena, question, NUTRIENT_PHOSPHORUS, GRAMS_PER_KG_PER_PERCENT),
        .safety = ration_safety_table(arena, question),
    };
    set_protein(arena, question, table);
    for (int i = 0; i < NUTRIENT_COUNT; i++) {
        if (can_be_judged(question, (Nutrient)i))
            table->mineral[i] = ration_row_eaten(arena, question, (Nutrient)i, 1.0);
    }
    return table;
}

const RationLimit *const *ration_limits_by(Arena *arena, const RationTable *table, int block,
                                           BlockState state, int *count) {
    const RationLimit *limits[MOST_RATION_ROWS];
    RationRows rows = {
        .arena = arena,
        .table = table,
        .question = table->question,
        .block = &table->question->blocks[block],
        .limits = limits,
    };
    add_energy(&rows, state);
    add_protein(&rows);
    add_intake(&rows, state);
    add_macrominerals(&rows);
    add_minerals(&rows);
    ration_safety_add(&rows);
    const RationLimit **kept = ARENA_ARRAY(arena, const RationLimit *, rows.count);
    memcpy(kept, rows.limits, (size_t)rows.count * sizeof *kept);
    *count = rows.count;
    return kept;
}

const RationLimit *const *ration_limits(Arena *arena, const PlanQuestion *question, int block,
                                        BlockState state, int *count) {
    return ration_limits_by(arena, ration_table(arena, question), block, state, count);
}

double ration_supply(const RationLimit *limit, int feed_count, const double *eaten,
                     double microbial_kg) {
    double above = limit->microbial_factor * microbial_kg;
    double below = limit->base_constant;
    for (int feed = 0; feed < feed_count; feed++) {
        above += limit->per_kg[feed] * eaten[feed];
        if (limit->base)
            below += limit->base[feed] * eaten[feed];
    }
    if (!limit->base)
        return above;
    return below > 0.0 ? above / below + limit->added : (double)NAN;
}

double ration_microbial_kg(const PlanQuestion *question, const double *eaten) {
    double tdn = 0.0;
    double degraded = 0.0;
    for (int feed = 0; feed < question->feed_count; feed++) {
        tdn += eaten[feed] * ration_known_or_none(question->feeds[feed].eaten[NUTRIENT_TDN]) /
               100.0;
        degraded += eaten[feed] * question->feeds[feed].degraded;
    }
    const MicrobialForm form = question->farm->winter.microbial_form;
    return fmin(microbial_protein(form, (FeedRate){tdn}).g_per_day, degraded) / GRAMS_PER_KG;
}

BlockState ration_state(const PlanQuestion *question, int block, const double *eaten,
                        BlockState old) {
    double filling = 0.0;
    double nem = 0.0;
    double neg = 0.0;
    for (int f = 0; f < question->feed_count; f++) {
        filling += ration_feed_fills(&question->feeds[f]) ? eaten[f] : 0.0;
        nem += eaten[f] * question->feeds[f].eaten[NUTRIENT_NEM];
        neg += eaten[f] * question->feeds[f].eaten[NUTRIENT_NEG];
    }
    if (filling <= 1e-6 || nem <= 1e-6)
        return old;
    const double need = requirement_nem(&question->blocks[block].need).mcal_per_day;
    return (BlockState){filling, nem / filling, fmin(need / nem, 0.999), neg / nem};
}
