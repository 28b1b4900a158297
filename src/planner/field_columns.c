#include "planner/field_columns.h"

/* What is made and not eaten is forage left over too. */
static void add_to_carry_over(RationProgram *program, int cut, int column) {
    const struct FieldChoices *choices = program->question->choices;
    if (program->carry_over_row < 0 || !ration_program_carries_over(program->question, cut))
        return;
    const double dry_share = program->question->feeds[cut].dry_share;
    lp_add_term(program->lp, program->carry_over_row, column,
                -choices->tonnes_per_hectare[cut] * dry_share);
}

void field_columns_add(Arena *arena, RationProgram *program) {
    const struct FieldChoices *choices = program->question->choices;
    LinearProgram *lp = program->lp;
    if (!choices)
        return;
    int *rows = ARENA_ARRAY(arena, int, choices->field_count);
    program->hectares = ARENA_ARRAY(arena, int, choices->count);
    for (int i = 0; i < choices->field_count; i++)
        rows[i] = lp_add_row(lp, choices->field_least[i], choices->field_most[i]);
    if (program->carry_over_row >= 0)
        lp_set_row_bounds(lp, program->carry_over_row, -NO_LIMIT,
                          -program->question->farm->winter.carry_over_kg / KG_PER_TONNE);
    for (int c = 0; c < choices->count; c++) {
        const int column = lp_add_column(lp, 0.0, choices->least[c], choices->most[c]);
        program->hectares[c] = column;
        lp_set_row_bounds(lp, program->stock[c], -NO_LIMIT, 0.0);
        lp_add_term(lp, program->stock[c], column, -choices->tonnes_per_hectare[c]);
        lp_add_term(lp, rows[choices->field[c]], column, 1.0);
        add_to_carry_over(program, c, column);
    }
    if (program->aim == AIM_LEAST_COST)
        field_columns_price(program);
}

void field_columns_price(RationProgram *program) {
    const struct FieldChoices *choices = program->question->choices;
    for (int c = 0; choices && c < choices->count; c++)
        lp_set_cost(program->lp, program->hectares[c], choices->cost_per_hectare[c]);
}
