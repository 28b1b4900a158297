#include "planner/ration_limit.h"
#include "base/text.h"
#include "cattle/protein_requirement.h"
#include "planner/law_line.h"
#include "planner/ration_row.h"
#include "planner/ration_safety.h"
#include <math.h>

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
 * goes to gain, by the line at the last mix. */
static void add_energy(RationRows *rows, BlockState state) {
    const Requirement *need = &rows->block->need;
    const bool grows = need->retained.mcal_per_day > 0.0;
    RationLimit *limit = ration_row_add(
        rows,
        ration_row(grows ? "net_energy" : "net_energy_maintenance",
                   grows ? "Net energy, upkeep and gain" : "Net energy (NEm)", "Mcal", 2));
    if (grows) {
        law_line_of_gain(rows, state.gain_per_upkeep, limit);
        limit->law = LAW_GAIN;
    } else {
        limit->per_kg = rows->table->nem;
        limit->least = requirement_nem(need).mcal_per_day;
    }
    limit->least_gives = GIVES_ENERGY;
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

/* What holds microbial protein, and what microbes could use of the energy, they need as
 * degradable protein. */
static const RationLimit *microbe_rows(Arena *arena, const RationTable *table,
                                       SourceKey of_form) {
    RationLimit *rows = ARENA_ARRAY(arena, RationLimit, MICROBE_ROWS);
    RationLimit *limit = &rows[0];
    *limit = ration_row("microbial_from_energy", "Microbial protein from energy", "g", 0);
    limit->per_kg = table->microbial;
    limit->microbial_factor = -GRAMS_PER_KG;
    limit->least = 0.0 - table->microbial_constant;
    limit->is_inner = true;
    limit->source = of_form;

    limit = &rows[1];
    *limit = ration_row("microbial_from_protein", "Microbial protein from degradable", "g", 0);
    limit->per_kg = table->degraded;
    limit->microbial_factor = -GRAMS_PER_KG;
    limit->least = 0.0;
    limit->is_inner = true;
    limit->source = SOURCE_NRC_EQUATIONS_2000;

    limit = &rows[2];
    *limit = ration_row("degradable_protein", "Degradable protein for the rumen", "x need", 2);
    limit->per_kg = table->degraded;
    limit->base = table->microbial;
    limit->base_constant = table->microbial_constant;
    limit->least = 1.0;
    limit->least_gives = GIVES_DEGRADABLE;
    limit->source = of_form;
    return rows;
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
    table->microbes = microbe_rows(arena, table, source_of_form(form));
}

/* Microbial protein is held by the energy of the diet and by its degradable protein; what it
 * and the undegraded protein bring must cover the need. */
static void add_protein(RationRows *rows) {
    const RationTable *table = rows->table;
    RationLimit *limit = ration_row_add(
        rows, ration_row("metabolizable_protein", "Metabolizable protein", "g", 0));
    limit->per_kg = table->undegraded;
    limit->microbial_factor = MP_PER_MICROBIAL_PROTEIN * GRAMS_PER_KG;
    limit->least = requirement_protein(&rows->block->need).g_per_day;
    limit->least_gives = GIVES_PROTEIN;
    limit->source =
        source_of(rows, NEED_PROTEIN, TABLE_CRUDE_PROTEIN, SOURCE_NRC_EQUATIONS_2000);

    for (int i = 0; i < MICROBE_ROWS; i++)
        ration_row_list(rows, &table->microbes[i]);
}

/* Minerals take room, but they neither still hunger nor thin the energy that hunger follows. */
static void add_intake(RationRows *rows, BlockState state) {
    const Requirement *need = &rows->block->need;
    RationLimit *limit = ration_row_add(rows, ration_row("dry_matter", "Dry matter", "kg", 1));
    limit->most = law_line_of_intake(rows, need->most, state.diet_nem, true, limit);
    limit->law = LAW_INTAKE_MOST;
    limit->source = own_or(need, NEED_INTAKE_MOST, SOURCE_NRC_EQUATIONS_2000);

    limit = ration_row_add(
        rows, ration_row("dry_matter_fill", "Dry matter, enough to be full", "kg", 1));
    limit->least = law_line_of_intake(rows, need->least, state.diet_nem, false, limit);
    limit->least_gives = GIVES_FILL;
    limit->law = LAW_INTAKE_LEAST;
    limit->source = own_or(need, NEED_INTAKE_LEAST, SOURCE_NRC_EQUATIONS_2000);

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

/* One that another block has already; NULL. */
static const RationLimit *shared_limit(const SharedLimits *shared, double least,
                                       SourceKey source) {
    for (int i = 0; i < shared->count; i++) {
        if (shared->limit[i]->least == least && shared->limit[i]->source == source)
            return shared->limit[i];
    }
    return NULL;
}

static void add_mineral(RationRows *rows, int nutrient, double least, SourceKey source) {
    SharedLimits *shared = &rows->table->mineral_limits[nutrient];
    const RationLimit *made = shared_limit(shared, least, source);
    if (made) {
        ration_row_list(rows, made);
        return;
    }
    const NutrientKind *kind = nutrient_kind((Nutrient)nutrient);
    RationLimit *limit = ARENA_NEW(rows->table->arena, RationLimit);
    *limit = ration_row(kind->stem, kind->label, kind->unit, kind->decimals);
    limit->per_kg = rows->table->mineral[nutrient];
    limit->base = rows->table->ones;
    limit->least = least;
    limit->least_gives = GIVES_MINERAL;
    limit->source = source;
    ration_row_list(rows, limit);
    if (shared->count < MOST_SHARED_LEASTS)
        shared->limit[shared->count++] = limit;
}

static void add_minerals(RationRows *rows) {
    const Requirement *need = &rows->block->need;
    for (int i = 0; i < NUTRIENT_COUNT; i++) {
        if (need->mineral_least[i] > 0.0 && rows->table->mineral[i])
            add_mineral(rows, i, need->mineral_least[i],
                        need->mineral_is_own[i] ? SOURCE_FARM_FIGURE
                                                : rows->question->farm->minerals->source[i]);
    }
}

const RationTable *ration_table(Arena *arena, const PlanQuestion *question) {
    RationTable *table = ARENA_NEW(arena, RationTable);
    *table = (RationTable){
        .arena = arena,
        .question = question,
        .ones = ration_row_ones(arena, question),
        .nem = ration_row_eaten(arena, question, NUTRIENT_NEM, 1.0),
        .ndf = ration_row_eaten(arena, question, NUTRIENT_NDF, 0.01),
        .calcium =
            ration_row_eaten(arena, question, NUTRIENT_CALCIUM, GRAMS_PER_KG_PER_PERCENT),
        .phosphorus =
            ration_row_eaten(arena, question, NUTRIENT_PHOSPHORUS, GRAMS_PER_KG_PER_PERCENT),
        .mineral_limits = ARENA_ARRAY(arena, SharedLimits, NUTRIENT_COUNT),
        .line_values = ARENA_NEW(arena, const LineValues *),
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
    law_lines_add(&rows, state);
    const RationLimit **kept = ARENA_ARRAY(arena, const RationLimit *, rows.count);
    for (int i = 0; i < rows.count; i++)
        kept[i] = rows.limits[i];
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

BlockState ration_state(const PlanQuestion *question, const double *eaten, BlockState old) {
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
    return (BlockState){nem / filling, neg / nem};
}
