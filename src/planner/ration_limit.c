#include "planner/ration_limit.h"
#include "cattle/protein_requirement.h"
#include <assert.h>
#include <math.h>

/* Prices of falling short by the whole of a need, per head and day: only their order matters.
 * Feed for warmth and calf comes first, then protein and a full stomach, then what keeps the
 * rumen going, then bones, and the other minerals. All twelve of those together, even at the
 * ninefold price of being wholly short, stay below the stomach: a concentration is short by
 * less in a smaller ration, and cattle must not be starved to mend a vitamin. Own choice. */
#define GIVES_SULFUR 30.0
#define GIVES_FORAGE 40.0
#define GIVES_ENERGY 30.0
#define GIVES_PROTEIN 20.0
#define GIVES_FILL 18.0
#define GIVES_BALANCE 12.0
#define GIVES_DEGRADABLE 10.0
#define GIVES_MACROMINERAL 6.0
#define GIVES_MINERAL 0.15
#define NEVER_GIVES 0.0

/* The part of the most sulfur from which the water is to blame: 0.10 % is water of 750 mg
 * sulfate a litre. Own choice. */
#define WATER_PART 0.25

#define MOST_LIMITS 128
#define GRAMS_PER_KG_PER_PERCENT 10.0

typedef struct {
    Arena *arena;
    const PlanQuestion *question;
    const PlanBlock *block;
    RationLimit *limits;
    int count;
} Builder;

static RationLimit *add(Builder *builder, const char *key, const char *label, const char *unit,
                        int decimals) {
    assert(builder->count < MOST_LIMITS);
    RationLimit *limit = &builder->limits[builder->count++];
    *limit = (RationLimit){
        .key = key,
        .label = label,
        .unit = unit,
        .decimals = decimals,
        .shown_times = 1.0,
        .least = -NO_LIMIT,
        .most = NO_LIMIT,
        .warn = (double)NAN,
    };
    return limit;
}

static double *numbers(const Builder *builder) {
    return ARENA_ARRAY(builder->arena, double, builder->question->feed_count);
}

static const double *ones(const Builder *builder) {
    double *base = numbers(builder);
    for (int feed = 0; feed < builder->question->feed_count; feed++)
        base[feed] = 1.0;
    return base;
}

/* An unknown counts as none toward a need; toward a ceiling too, and the report names it. */
static double known_or_none(double value) { return isnan(value) ? 0.0 : value; }

static const double *eaten_values(const Builder *builder, Nutrient nutrient, double times) {
    double *values = numbers(builder);
    for (int feed = 0; feed < builder->question->feed_count; feed++)
        values[feed] = times * known_or_none(builder->question->feeds[feed].eaten[nutrient]);
    return values;
}

/* Where a need is from: the equations, the published table, or a figure of the farm's own
 * [FARM_FIGURE]. */
static SourceKey own_or(const Requirement *need, NeedKind kind, SourceKey equations) {
    return need->own_kinds & NEED_BIT(kind) ? SOURCE_FARM_FIGURE : equations;
}

static SourceKey source_of(const Requirement *need, NeedKind kind, SourceKey equations) {
    return own_or(need, kind,
                  need->follows_table ? SOURCE_CANADIAN_CATTLEMEN_WINTER : equations);
}

/* Mature cattle: NEm of the ration covers upkeep. Growing cattle: what is left after upkeep
 * goes to gain with NEg, G (1 - M / E) >= RE, straightened at the state's ration:
 *
 *     sum ((1 - s) NEg + s r NEm) x >= RE + r M */
static void add_energy(Builder *builder, BlockState state) {
    const Requirement *need = &builder->block->need;
    const double retained = need->retained.mcal_per_day;
    const double upkeep = requirement_nem(need).mcal_per_day;
    const bool grows = retained > 0.0;
    RationLimit *limit =
        add(builder, grows ? "net_energy" : "net_energy_maintenance",
            grows ? "Net energy, upkeep and gain" : "Net energy (NEm)", "Mcal", 2);
    const double upkeep_factor = grows ? state.maintenance_share * state.gain_per_upkeep : 1.0;
    const double gain_factor = grows ? 1.0 - state.maintenance_share : 0.0;
    double *values = numbers(builder);
    for (int feed = 0; feed < builder->question->feed_count; feed++) {
        const double *eaten = builder->question->feeds[feed].eaten;
        values[feed] = upkeep_factor * known_or_none(eaten[NUTRIENT_NEM]) +
                       gain_factor * known_or_none(eaten[NUTRIENT_NEG]);
    }
    limit->per_kg = values;
    limit->least = grows ? retained + state.gain_per_upkeep * upkeep : upkeep;
    limit->least_gives = GIVES_ENERGY;
    limit->law = grows ? LAW_GAIN : LAW_NONE;
    limit->source =
        own_or(need, NEED_NEM, source_of(need, NEED_NEG, SOURCE_NRC_EQUATIONS_2000));
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

/* Microbial protein is held by the energy of the diet and by its degradable protein; what it
 * and the undegraded protein bring must cover the need. */
static void add_protein(Builder *builder, BlockState state) {
    const PlanQuestion *question = builder->question;
    const MicrobialForm form = question->farm->winter.microbial_form;
    /* What a form has beside the share of TDN is spread over the dry matter of the state's
     * ration where a ratio is asked for. */
    const double constant = microbial_protein(form, (FeedRate){0.0}).g_per_day;
    const double spread = constant / fmax(state.dry_matter_kg, 0.1);
    double *undegraded = numbers(builder);
    double *degraded = numbers(builder);
    double *microbial = numbers(builder);
    double *degraded_needed = numbers(builder);
    for (int feed = 0; feed < question->feed_count; feed++) {
        const PlanFeed *of = &question->feeds[feed];
        const FeedRate tdn = {known_or_none(of->eaten[NUTRIENT_TDN]) / 100.0};
        microbial[feed] = microbial_protein(form, tdn).g_per_day - constant;
        undegraded[feed] = MP_PER_UNDEGRADED_PROTEIN * of->undegraded;
        degraded[feed] = of->degraded;
        degraded_needed[feed] = microbial[feed] + (ration_feed_fills(of) ? spread : 0.0);
    }
    RationLimit *limit = add(builder, "metabolizable_protein", "Metabolizable protein", "g", 0);
    limit->per_kg = undegraded;
    limit->microbial_factor = MP_PER_MICROBIAL_PROTEIN * GRAMS_PER_KG;
    limit->least = requirement_protein(&builder->block->need).g_per_day;
    limit->least_gives = GIVES_PROTEIN;
    limit->source = source_of(&builder->block->need, NEED_PROTEIN, SOURCE_NRC_EQUATIONS_2000);

    limit = add(builder, "microbial_from_energy", "Microbial protein from energy", "g", 0);
    limit->per_kg = microbial;
    limit->microbial_factor = -GRAMS_PER_KG;
    limit->least = 0.0 - constant;
    limit->is_inner = true;
    limit->source = source_of_form(form);

    limit = add(builder, "microbial_from_protein", "Microbial protein from degradable", "g", 0);
    limit->per_kg = degraded;
    limit->microbial_factor = -GRAMS_PER_KG;
    limit->least = 0.0;
    limit->is_inner = true;
    limit->source = SOURCE_NRC_EQUATIONS_2000;

    /* What the microbes could use of the energy, they need as degradable protein. */
    limit = add(builder, "degradable_protein", "Degradable protein for the rumen", "x need", 2);
    limit->per_kg = degraded;
    limit->base = degraded_needed;
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
static RationLimit *add_intake_side(Builder *builder, BlockState state, IntakeLaw law,
                                    const char *key, bool minerals_count, double *bound) {
    const double step = 1e-4;
    const Requirement *need = &builder->block->need;
    const double at = intake_at(law, need->shrunk, (EnergyDensity){state.diet_nem}).kg_per_day;
    const double above =
        intake_at(law, need->shrunk, (EnergyDensity){state.diet_nem + step}).kg_per_day;
    const double below =
        intake_at(law, need->shrunk, (EnergyDensity){state.diet_nem - step}).kg_per_day;
    const double slope = (above - below) / (2.0 * step) / fmax(state.dry_matter_kg, 0.1);
    double *values = numbers(builder);
    for (int feed = 0; feed < builder->question->feed_count; feed++) {
        const PlanFeed *of = &builder->question->feeds[feed];
        values[feed] = minerals_count ? 1.0 : 0.0;
        if (ration_feed_fills(of))
            values[feed] =
                1.0 + slope * (state.diet_nem - known_or_none(of->eaten[NUTRIENT_NEM]));
    }
    RationLimit *limit = add(builder, key, "Dry matter", "kg", 1);
    limit->per_kg = values;
    limit->source = SOURCE_NRC_EQUATIONS_2000;
    *bound = at;
    return limit;
}

static void add_intake(Builder *builder, BlockState state) {
    const Requirement *need = &builder->block->need;
    double bound;
    RationLimit *limit =
        add_intake_side(builder, state, need->most, "dry_matter", true, &bound);
    limit->most = bound;
    limit->law = LAW_INTAKE_MOST;
    limit->source = own_or(need, NEED_INTAKE_MOST, limit->source);
    limit = add_intake_side(builder, state, need->least, "dry_matter_fill", false, &bound);
    limit->label = "Dry matter, enough to be full";
    limit->least = bound;
    limit->least_gives = GIVES_FILL;
    limit->law = LAW_INTAKE_LEAST;
    limit->source = own_or(need, NEED_INTAKE_LEAST, limit->source);

    limit = add(builder, "ndf", "NDF (fill)", "kg", 2);
    limit->per_kg = eaten_values(builder, NUTRIENT_NDF, 0.01);
    limit->most = need->ndf_most_kg;
    limit->source = own_or(need, NEED_NDF_MOST, SOURCE_PRODUCER_CALVING_FEED);
}

static void add_macrominerals(Builder *builder) {
    const Requirement *need = &builder->block->need;
    RationLimit *limit = add(builder, "calcium", "Calcium", "g", 1);
    limit->per_kg = eaten_values(builder, NUTRIENT_CALCIUM, GRAMS_PER_KG_PER_PERCENT);
    limit->least = need->calcium.g_per_day;
    limit->least_gives = GIVES_MACROMINERAL;
    limit->source = source_of(need, NEED_CALCIUM, SOURCE_NRC_2000);

    limit = add(builder, "phosphorus", "Phosphorus", "g", 1);
    limit->per_kg = eaten_values(builder, NUTRIENT_PHOSPHORUS, GRAMS_PER_KG_PER_PERCENT);
    limit->least = need->phosphorus.g_per_day;
    limit->least_gives = GIVES_MACROMINERAL;
    limit->source = source_of(need, NEED_PHOSPHORUS, SOURCE_NRC_EQUATIONS_2000);
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

static void add_minerals(Builder *builder) {
    const PlanQuestion *question = builder->question;
    for (int i = 0; i < NUTRIENT_COUNT; i++) {
        const double least = builder->block->need.mineral_least[i];
        if (least <= 0.0 || !can_be_judged(question, (Nutrient)i))
            continue;
        const NutrientKind *kind = nutrient_kind((Nutrient)i);
        RationLimit *limit = add(builder, kind->stem, kind->label, kind->unit, kind->decimals);
        limit->per_kg = eaten_values(builder, (Nutrient)i, 1.0);
        limit->base = ones(builder);
        limit->least = least;
        limit->least_gives = GIVES_MINERAL;
        limit->source = builder->block->need.mineral_is_own[i]
                            ? SOURCE_FARM_FIGURE
                            : question->farm->minerals->source[i];
    }
}

/* Shares are of the dry matter that fills: limestone must not thin out straw. */
static const double *filling(const Builder *builder) {
    double *base = numbers(builder);
    for (int feed = 0; feed < builder->question->feed_count; feed++)
        base[feed] = ration_feed_fills(&builder->question->feeds[feed]) ? 1.0 : 0.0;
    return base;
}

static const double *covered(const Builder *builder, const SafetyLimit *safety) {
    double *values = numbers(builder);
    for (int feed = 0; feed < builder->question->feed_count; feed++) {
        const PlanFeed *of = &builder->question->feeds[feed];
        const bool is_one = safety->kind == LIMIT_SHARE_ABOVE
                                ? known_or_none(of->eaten[safety->nutrient]) > safety->above
                                : limit_covers(safety, of->feed);
        values[feed] = is_one ? 1.0 : 0.0;
    }
    return values;
}

static const double *weighted_sum(const Builder *builder, const Nutrient *nutrients,
                                  const double *factors, int count) {
    double *values = numbers(builder);
    for (int feed = 0; feed < builder->question->feed_count; feed++) {
        for (int i = 0; i < count; i++)
            values[feed] +=
                factors[i] * known_or_none(builder->question->feeds[feed].eaten[nutrients[i]]);
    }
    return values;
}

static const double *npn_protein(const Builder *builder) {
    double *values = numbers(builder);
    for (int feed = 0; feed < builder->question->feed_count; feed++) {
        const PlanFeed *of = &builder->question->feeds[feed];
        values[feed] = of->feed->feed_class == FEED_CLASS_NPN
                           ? known_or_none(of->eaten[NUTRIENT_CRUDE_PROTEIN])
                           : 0.0;
    }
    return values;
}

static void set_ratio(Builder *builder, const SafetyLimit *safety, RationLimit *limit) {
    if (safety->subject == SUBJECT_CALCIUM_TO_PHOSPHORUS) {
        limit->per_kg = eaten_values(builder, NUTRIENT_CALCIUM, 1.0);
        limit->base = eaten_values(builder, NUTRIENT_PHOSPHORUS, 1.0);
        return;
    }
    if (safety->subject == SUBJECT_NPN_PROTEIN) {
        limit->per_kg = npn_protein(builder);
        limit->base = eaten_values(builder, NUTRIENT_CRUDE_PROTEIN, 1.0);
        return;
    }
    static const Nutrient CATIONS[] = {NUTRIENT_CALCIUM, NUTRIENT_MAGNESIUM};
    static const double MEQ[] = {MEQ_CALCIUM, MEQ_MAGNESIUM};
    limit->per_kg = eaten_values(builder, NUTRIENT_POTASSIUM, MEQ_POTASSIUM);
    limit->base = weighted_sum(builder, CATIONS, MEQ, 2);
}

static void set_terms(Builder *builder, const SafetyLimit *safety, RationLimit *limit) {
    const Winter *winter = &builder->question->farm->winter;
    switch (safety->kind) {
    case LIMIT_CONCENTRATION:
        limit->per_kg = safety->subject == SUBJECT_SALT
                            ? eaten_values(builder, NUTRIENT_SODIUM, SALT_PER_SODIUM)
                            : eaten_values(builder, safety->nutrient, 1.0);
        limit->base = ones(builder);
        if (safety->subject == SUBJECT_NUTRIENT)
            limit->added = water_adds(safety->nutrient, winter->water_sulfate_mg_per_l,
                                      winter->water_nitrate_mg_per_l);
        return;
    case LIMIT_SHARE:
    case LIMIT_SHARE_ABOVE:
        limit->per_kg = covered(builder, safety);
        limit->base = filling(builder);
        limit->shown_times = 100.0;
        return;
    case LIMIT_WEIGHT_SHARE:
        limit->per_kg = covered(builder, safety);
        return;
    case LIMIT_RATIO:
        set_ratio(builder, safety, limit);
        return;
    case LIMIT_EACH_FEED:
    case LIMIT_WATER:
    case LIMIT_FACILITY:
    case LIMIT_KIND_COUNT:
        break;
    }
}

static const char *shown_unit(const SafetyLimit *safety) {
    switch (safety->kind) {
    case LIMIT_CONCENTRATION:
        return safety->subject == SUBJECT_NUTRIENT ? nutrient_kind(safety->nutrient)->unit
                                                   : "%";
    case LIMIT_SHARE:
    case LIMIT_SHARE_ABOVE:
        return "% of DM";
    case LIMIT_WEIGHT_SHARE:
        return "kg";
    case LIMIT_RATIO:
        return "to 1";
    case LIMIT_EACH_FEED:
    case LIMIT_WATER:
    case LIMIT_FACILITY:
    case LIMIT_KIND_COUNT:
        break;
    }
    return "";
}

static int shown_decimals(const SafetyLimit *safety) {
    switch (safety->kind) {
    case LIMIT_CONCENTRATION:
        return safety->subject == SUBJECT_NUTRIENT ? nutrient_kind(safety->nutrient)->decimals
                                                   : 1;
    case LIMIT_SHARE:
    case LIMIT_SHARE_ABOVE:
        return 0;
    case LIMIT_WEIGHT_SHARE:
    case LIMIT_RATIO:
    case LIMIT_EACH_FEED:
    case LIMIT_WATER:
    case LIMIT_FACILITY:
    case LIMIT_KIND_COUNT:
        break;
    }
    return 1;
}

static bool has_any(const double *values, int count) {
    assert(values);
    for (int i = 0; i < count; i++) {
        if (values[i] != 0.0)
            return true;
    }
    return false;
}

/* Sulfur that comes with the water is drunk whatever is fed: starving cattle of feed does not
 * spare them it. Where tested water brings a good part of the limit, the limit gives, dearly,
 * and the report makes it a danger. What the feeds alone bring never gives. */
static double price_of_giving(const Winter *winter, const RationLimit *limit, bool is_balance) {
    const SafetyLimit *safety = limit->safety;
    const bool is_sulfur = safety->kind == LIMIT_CONCENTRATION &&
                           safety->subject == SUBJECT_NUTRIENT &&
                           safety->nutrient == NUTRIENT_SULFUR;
    if (is_sulfur && !winter->sulfate_is_assumed && limit->added > WATER_PART * limit->most)
        return GIVES_SULFUR;
    return is_balance ? GIVES_BALANCE : NEVER_GIVES;
}

/* Every line of the safety table that holds for these cattle and touches one of these feeds.
 * What can poison never gives; a floor, and a balance of minerals, may when the winter is
 * short. */
static void add_safety(Builder *builder) {
    const Farm *farm = builder->question->farm;
    const HerdGroup *group = &farm->herd.groups[builder->block->group];
    for (int i = 0; i < farm->limits.count; i++) {
        const SafetyLimit *safety = &farm->limits.limits[i];
        if (safety->kind == LIMIT_EACH_FEED ||
            !limit_applies(safety, builder->block->need.stages, group->delivery))
            continue;
        RationLimit *limit =
            add(builder, safety->id, safety->label, shown_unit(safety), shown_decimals(safety));
        set_terms(builder, safety, limit);
        if (!has_any(limit->per_kg, builder->question->feed_count) &&
            safety->side == SIDE_MOST) {
            builder->count--;
            continue;
        }
        const double scale =
            safety->kind == LIMIT_WEIGHT_SHARE ? builder->block->need.live_weight.kg : 1.0;
        const bool is_balance =
            safety->kind == LIMIT_RATIO && safety->subject != SUBJECT_NPN_PROTEIN;
        limit->safety = safety;
        limit->source = safety->source;
        limit->warn = safety->warn * scale;
        if (safety->side == SIDE_MOST) {
            limit->most = safety->hard * scale;
            limit->most_gives = price_of_giving(&farm->winter, limit, is_balance);
            continue;
        }
        limit->least = safety->hard * scale;
        limit->least_gives = safety->kind == LIMIT_WEIGHT_SHARE ? GIVES_FORAGE : GIVES_BALANCE;
    }
}

const RationLimit *ration_limits(Arena *arena, const PlanQuestion *question, int block,
                                 BlockState state, int *count) {
    Builder builder = {
        .arena = arena,
        .question = question,
        .block = &question->blocks[block],
        .limits = ARENA_ARRAY(arena, RationLimit, MOST_LIMITS),
    };
    add_energy(&builder, state);
    add_protein(&builder, state);
    add_intake(&builder, state);
    add_macrominerals(&builder);
    add_minerals(&builder);
    add_safety(&builder);
    *count = builder.count;
    return builder.limits;
}

double ration_supply(const RationLimit *limit, int feed_count, const double *eaten,
                     double microbial_kg) {
    double above = limit->microbial_factor * microbial_kg;
    double below = 0.0;
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
        tdn += eaten[feed] * known_or_none(question->feeds[feed].eaten[NUTRIENT_TDN]) / 100.0;
        degraded += eaten[feed] * question->feeds[feed].degraded;
    }
    const MicrobialForm form = question->farm->winter.microbial_form;
    return fmin(microbial_protein(form, (FeedRate){tdn}).g_per_day, degraded) / GRAMS_PER_KG;
}
