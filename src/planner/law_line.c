#include "planner/law_line.h"
#include <math.h>

/* Where the lines stand: gain energy to upkeep energy of the mix, and its Mcal NEm a kg. Own
 * choice: half way between two of intake a ration misses at most 0.1 % of the law. */
static const double GAIN_PER_UPKEEP[] = {0.45, 0.53, 0.6, 0.66};
static const double DIET_NEM[] = {1.0, 1.15, 1.3};

#define COUNT_OF(list) ((int)(sizeof(list) / sizeof *(list)))

#define LEAST_GAIN_PER_UPKEEP 0.05 /* below, a line is steep beyond use */
#define KINK_NEM 0.95              /* of the divisor of the intake law, Mcal/kg */

void law_line_of_gain(const RationRows *rows, double gain_per_upkeep, RationLimit *limit) {
    const Requirement *need = &rows->block->need;
    const double r = fmax(gain_per_upkeep, LEAST_GAIN_PER_UPKEEP);
    const double retained = need->retained.mcal_per_day;
    const double upkeep = requirement_nem(need).mcal_per_day;
    const double share = r * upkeep / (r * upkeep + retained);
    double *values = ration_row_numbers(rows->arena, rows->question);
    for (int feed = 0; feed < rows->question->feed_count; feed++) {
        const double *eaten = rows->question->feeds[feed].eaten;
        values[feed] = r * share * ration_known_or_none(eaten[NUTRIENT_NEM]) +
                       (1.0 - share) * ration_known_or_none(eaten[NUTRIENT_NEG]);
    }
    limit->per_kg = values;
    limit->least = retained + r * upkeep;
}

static double intake_of(const Requirement *need, IntakeLaw law, double nem) {
    return intake_at(law, need->shrunk, (EnergyDensity){nem}).kg_per_day;
}

double law_line_of_intake(const RationRows *rows, IntakeLaw law, double diet_nem,
                          bool minerals_count, RationLimit *limit) {
    const double step = 1e-4;
    const Requirement *need = &rows->block->need;
    const double at = intake_of(need, law, diet_nem);
    const double above = intake_of(need, law, diet_nem + step);
    const double below = intake_of(need, law, diet_nem - step);
    const double slope = (above - below) / (2.0 * step) / fmax(at, 0.1);
    double *values = ration_row_numbers(rows->arena, rows->question);
    for (int feed = 0; feed < rows->question->feed_count; feed++) {
        const PlanFeed *of = &rows->question->feeds[feed];
        values[feed] = minerals_count ? 1.0 : 0.0;
        if (ration_feed_fills(of))
            values[feed] =
                1.0 + slope * (diet_nem - ration_known_or_none(of->eaten[NUTRIENT_NEM]));
    }
    limit->per_kg = values;
    return at;
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
    line->is_inner = true;
    return line;
}

void law_lines_add(RationRows *rows, BlockState state) {
    const Requirement *need = &rows->block->need;
    for (int i = 0; need->retained.mcal_per_day > 0.0 && i < COUNT_OF(GAIN_PER_UPKEEP); i++)
        law_line_of_gain(rows, GAIN_PER_UPKEEP[i], line_of(rows, LAW_GAIN));
    for (int i = 0; i < COUNT_OF(DIET_NEM); i++) {
        if (!bends_away(need, DIET_NEM[i]))
            continue;
        /* Below the kink all stand where the moving line does: programs keep their shape. */
        const double nem = state.diet_nem >= KINK_NEM ? DIET_NEM[i] : state.diet_nem;
        RationLimit *line = line_of(rows, LAW_INTAKE_LEAST);
        line->least = law_line_of_intake(rows, need->least, nem, false, line);
    }
}
