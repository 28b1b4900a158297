#include "planner/law_line.h"
#include <math.h>

/* Where the lines stand: gain energy to upkeep energy of the mix, and its Mcal NEm a kg. Own
 * choice: half way between two of intake a ration misses at most 0.1 % of the law. */
static const double GAIN_PER_UPKEEP[] = {0.45, 0.53, 0.6, 0.66};
static const double DIET_NEM[] = {1.0, 1.15, 1.3};

#define COUNT_OF(list) ((int)(sizeof(list) / sizeof *(list)))

#define LEAST_GAIN_PER_UPKEEP 0.05 /* below, a line is steep beyond use */
#define KINK_NEM 0.95              /* of the divisor of the intake law, Mcal/kg */

/* Lines of gain stand at the nearest of a few slopes to an octave, within 2.2 % of where they
 * should, so that animals of other weights and days share them. */
#define STEPS_AN_OCTAVE 8.0
#define SLOPE_STEP 1e-9 /* of lines of fill: less than matters */

/* Per kg of each feed: times_nem of its NEm and times_neg of its NEg. */
static const double *energy_values(Arena *arena, const PlanQuestion *question, double times_nem,
                                   double times_neg) {
    double *values = ration_row_numbers(arena, question);
    for (int feed = 0; feed < question->feed_count; feed++) {
        const double *eaten = question->feeds[feed].eaten;
        values[feed] = times_nem * ration_known_or_none(eaten[NUTRIENT_NEM]) +
                       times_neg * ration_known_or_none(eaten[NUTRIENT_NEG]);
    }
    return values;
}

void law_line_of_gain(const RationRows *rows, double gain_per_upkeep, RationLimit *limit) {
    const Requirement *need = &rows->block->need;
    const double r = fmax(gain_per_upkeep, LEAST_GAIN_PER_UPKEEP);
    const double retained = need->retained.mcal_per_day;
    const double upkeep = requirement_nem(need).mcal_per_day;
    const double share = r * upkeep / (r * upkeep + retained);
    limit->per_kg = energy_values(rows->arena, rows->question, r * share, 1.0 - share);
    limit->least = retained + r * upkeep;
}

static double intake_of(const Requirement *need, IntakeLaw law, double nem) {
    return intake_at(law, need->shrunk, (EnergyDensity){nem}).kg_per_day;
}

/* cap'(n) / cap(n). */
static double relative_slope(const Requirement *need, IntakeLaw law, double nem) {
    const double step = 1e-4;
    const double above = intake_of(need, law, nem + step);
    const double below = intake_of(need, law, nem - step);
    return (above - below) / (2.0 * step) / fmax(intake_of(need, law, nem), 0.1);
}

/* Per kg of each feed: 1 and what its density does to the rest, of one that fills. */
static const double *intake_values(Arena *arena, const PlanQuestion *question, double diet_nem,
                                   double slope, bool minerals_count) {
    double *values = ration_row_numbers(arena, question);
    for (int feed = 0; feed < question->feed_count; feed++) {
        const PlanFeed *of = &question->feeds[feed];
        values[feed] = minerals_count ? 1.0 : 0.0;
        if (ration_feed_fills(of))
            values[feed] =
                1.0 + slope * (diet_nem - ration_known_or_none(of->eaten[NUTRIENT_NEM]));
    }
    return values;
}

double law_line_of_intake(const RationRows *rows, IntakeLaw law, double diet_nem,
                          bool minerals_count, RationLimit *limit) {
    const Requirement *need = &rows->block->need;
    limit->per_kg = intake_values(rows->arena, rows->question, diet_nem,
                                  relative_slope(need, law, diet_nem), minerals_count);
    return intake_of(need, law, diet_nem);
}

/* ---- lines that stay, whose numbers by feed many rations share ---- */

static const LineValues *made_before(const RationTable *table, RationLaw law, double a,
                                     double b) {
    const LineValues *made = *table->line_values;
    while (made && !(made->law == law && made->a == a && made->b == b))
        made = made->next;
    return made;
}

static const double *kept_values(const RationTable *table, RationLaw law, double a, double b) {
    const LineValues *made = made_before(table, law, a, b);
    if (made)
        return made->per_kg;
    LineValues *values = ARENA_NEW(table->arena, LineValues);
    *values = (LineValues){law, a, b,
                           law == LAW_GAIN
                               ? energy_values(table->arena, table->question, a, b)
                               : intake_values(table->arena, table->question, a, b, false),
                           *table->line_values};
    *table->line_values = values;
    return values->per_kg;
}

static double rounded_to_step(double octaves) {
    return round(octaves * STEPS_AN_OCTAVE) / STEPS_AN_OCTAVE;
}

static void set_line_of_gain(const RationRows *rows, double near_gain_per_upkeep,
                             RationLimit *line) {
    const Requirement *need = &rows->block->need;
    const double retained = need->retained.mcal_per_day;
    const double upkeep = requirement_nem(need).mcal_per_day;
    const double near = near_gain_per_upkeep * near_gain_per_upkeep * upkeep / retained;
    const double times_nem = exp2(rounded_to_step(log2(near)));
    const double r = sqrt(times_nem * retained / upkeep);
    line->per_kg = kept_values(rows->table, LAW_GAIN, times_nem, 1.0);
    line->row_times = (retained + r * upkeep) / retained;
    line->least = line->row_times * (retained + r * upkeep);
}

/* The slope rounded to what other weights of the same law have. */
static void set_line_of_fill(const RationRows *rows, double diet_nem, RationLimit *line) {
    const Requirement *need = &rows->block->need;
    const double slope =
        round(relative_slope(need, need->least, diet_nem) / SLOPE_STEP) * SLOPE_STEP;
    line->per_kg = kept_values(rows->table, LAW_INTAKE_LEAST, diet_nem, slope);
    line->least = intake_of(need, need->least, diet_nem);
}

/* Whether 1 / cap(n) of the least that fills bends down there: by its second difference. */
static bool bends_away(const Requirement *need, double nem) {
    const double step = 1e-2;
    const double at = intake_of(need, need->least, nem);
    const double above = intake_of(need, need->least, nem + step);
    const double below = intake_of(need, need->least, nem - step);
    return below > 0.0 && above > 0.0 && 1.0 / above + 1.0 / below - 2.0 / at < -1e-6 / at;
}

static RationLimit *line_of(RationRows *rows, RationLaw law) {
    RationLimit *line = ration_row_add(rows, ration_row("law_line", "Line of a law", "", 0));
    line->line_of = law;
    line->row_times = 1.0;
    line->is_inner = true;
    return line;
}

void law_lines_add(RationRows *rows, BlockState state) {
    const Requirement *need = &rows->block->need;
    for (int i = 0; need->retained.mcal_per_day > 0.0 && i < COUNT_OF(GAIN_PER_UPKEEP); i++)
        set_line_of_gain(rows, GAIN_PER_UPKEEP[i], line_of(rows, LAW_GAIN));
    for (int i = 0; i < COUNT_OF(DIET_NEM); i++) {
        if (!bends_away(need, DIET_NEM[i]))
            continue;
        /* Below the kink all stand where the moving line does: programs keep their shape. */
        const double nem = state.diet_nem >= KINK_NEM ? DIET_NEM[i] : state.diet_nem;
        set_line_of_fill(rows, nem, line_of(rows, LAW_INTAKE_LEAST));
    }
}
