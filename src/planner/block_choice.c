#include "planner/block_choice.h"
#include "base/quantity.h"
#include "planner/block_master.h"

static int place_in(const Block *block, int column) {
    for (int j = 0; j < block->program.columns; j++) {
        if (block->column[j] == column)
            return j;
    }
    return -1;
}

/* The rule in the small program's scale. */
static SmallRule *scaled(Arena *arena, const Block *block, const BlockRule *rule) {
    SmallRule *small = ARENA_NEW(arena, SmallRule);
    int *column = ARENA_ARRAY(arena, int, rule->count);
    double *kg = ARENA_ARRAY(arena, double, rule->count);
    double *bale = ARENA_ARRAY(arena, double, rule->count);
    for (int i = 0; i < rule->count; i++) {
        column[i] = place_in(block, rule->column[i]);
        kg[i] = block->column_scale[column[i]];
        bale[i] = rule->bale[i] / kg[i];
    }
    *small = (SmallRule){rule->count,       column,          kg, bale, rule->most,
                         rule->least_share, rule->most_nodes};
    return small;
}

static void make_chooser(BlockProgram *program) {
    int rows = 1;
    int columns = 1;
    for (int b = 0; b < program->parts->shape.block_count; b++) {
        const SmallProgram *of = &program->parts->blocks[b].program;
        rows = of->rows > rows ? of->rows : rows;
        columns = of->columns > columns ? of->columns : columns;
    }
    if (!program->parts->chooser)
        program->parts->chooser = small_chooser(program->arena, rows, columns);
}

void block_choice_rules(BlockProgram *program, const BlockRule *rules, double gap,
                        int most_rounds) {
    make_chooser(program);
    program->gap = gap;
    program->most_rounds = most_rounds;
    program->count = program->made = 0; /* what was proposed without rules holds no longer */
    program->has_master = false;
    program->basis.row_count = program->basis.column_count = 0;
    program->asked = block_master_proposal(program->arena, program->parts);
    for (int b = 0; b < program->parts->shape.block_count; b++) {
        Block *block = &program->parts->blocks[b];
        block->rule = rules[b].count > 0 ? scaled(program->arena, block, &rules[b]) : NULL;
    }
}

/* ---- parts of the answer ---- */

#define IN_USE 1e-9 /* share of a proposal, weight of a part */

typedef struct {
    BlockPart *parts;
    double *cost;
    double **use;
    int count;
} PartList;

/* What one block does in a proposal: its values there, in the block's own scale. */
static void add_part(const BlockProgram *program, Arena *arena, int number, const double *value,
                     PartList *list) {
    const BlockParts *of = program->parts;
    const Block *block = &of->blocks[number];
    int *column = ARENA_ARRAY(arena, int, block->program.columns);
    double *amount = ARENA_ARRAY(arena, double, block->program.columns);
    double *use = ARENA_ARRAY(arena, double, of->tie_count);
    double cost = 0.0;
    int count = 0;
    for (int j = 0; j < block->program.columns; j++) {
        if (value[j] == 0.0)
            continue;
        column[count] = block->column[j];
        amount[count++] = value[j] * block->column_scale[j];
        cost += block->cost[j] * value[j];
        for (int k = block->tie_start[j]; k < block->tie_start[j + 1]; k++)
            use[block->tie[k]] += block->tie_term[k] * value[j];
    }
    list->parts[list->count] = (BlockPart){number, count, column, amount, 0.0};
    list->cost[list->count] = cost;
    list->use[list->count++] = use;
}

static PartList parts_in_use(const BlockProgram *program, Arena *arena) {
    const BlockParts *of = program->parts;
    int most = 0;
    for (int p = 0; p < program->count; p++)
        most += program->share[p] > IN_USE ? of->shape.block_count : 0;
    PartList list = {ARENA_ARRAY(arena, BlockPart, most), ARENA_ARRAY(arena, double, most),
                     ARENA_ARRAY(arena, double *, most), 0};
    for (int p = 0; p < program->count; p++) {
        if (program->share[p] <= IN_USE)
            continue;
        const int family = program->family[p];
        const double *value = program->proposals[p].value;
        for (int m = of->family_start[family]; m < of->family_start[family + 1]; m++) {
            add_part(program, arena, of->member[m], value, &list);
            value += of->blocks[of->member[m]].program.columns;
        }
    }
    return list;
}

/* The master over parts of blocks instead of families: tying rows, then a row a block; columns
 * of no block, two that overstep a tying row, then the parts. */
static LinearProgram *part_program(const BlockProgram *program, Arena *arena,
                                   const PartList *list) {
    const BlockParts *of = program->parts;
    LinearProgram *lp = lp_new(arena);
    for (int t = 0; t < of->tie_count; t++)
        lp_add_row(lp, lp_row_least(of->lp, of->tie_row[t]),
                   lp_row_most(of->lp, of->tie_row[t]));
    for (int b = 0; b < of->shape.block_count; b++)
        lp_add_row(lp, 1.0, 1.0);
    for (int c = 0; c < of->own_count; c++) {
        const int own = of->own_column[c];
        const int column = lp_add_column(lp, lp_cost(of->lp, own), lp_column_least(of->lp, own),
                                         lp_column_most(of->lp, own));
        for (int k = of->terms.start[own]; k < of->terms.start[own + 1]; k++)
            lp_add_term(lp, of->tie_of_row[of->terms.row[k]], column, of->terms.coefficient[k]);
    }
    for (int t = 0; t < of->tie_count; t++) {
        for (int side = 0; side < 2; side++)
            lp_add_term(lp, t, lp_add_column(lp, program->penalty, 0.0, NO_LIMIT),
                        side == 0 ? -1.0 : 1.0);
    }
    for (int p = 0; p < list->count; p++) {
        const int column = lp_add_column(lp, list->cost[p], 0.0, NO_LIMIT);
        for (int t = 0; t < of->tie_count; t++)
            lp_add_term(lp, t, column, list->use[p][t]);
        lp_add_term(lp, of->tie_count + list->parts[p].block, column, 1.0);
    }
    return lp;
}

const BlockPart *block_choice_parts(BlockProgram *program, Arena *arena, int *count) {
    const BlockParts *of = program->parts;
    const PartList list = parts_in_use(program, arena);
    const LpSolution solution =
        lp_solve(part_program(program, arena, &list), arena, START_COLD, NULL, 0);
    *count = list.count;
    if (solution.status != LP_OPTIMAL)
        return NULL;
    for (int p = 0; p < list.count; p++)
        list.parts[p].weight = solution.value[of->own_count + 2 * of->tie_count + p];
    return list.parts;
}

double block_choice_bound(const BlockProgram *program) { return program->best_bound; }

static void lean_costs(BlockParts *parts, const SmallRule *rule, const BlockLean *lean) {
    for (int i = 0; i < rule->count; i++)
        parts->priced[rule->column[i]] += lean->added_cost[i] * rule->kg[i];
}

/* Swaps the bounds of the rule's columns with those in least and most. */
static void swap_bounds(Block *block, const SmallRule *rule, double *least, double *most) {
    for (int i = 0; i < rule->count; i++) {
        double *low = &block->program.least[rule->column[i]];
        double *high = &block->program.most[rule->column[i]];
        const double low_before = *low;
        const double high_before = *high;
        *low = least[i];
        *high = most[i];
        least[i] = low_before;
        most[i] = high_before;
    }
}

LpStatus block_choice_of(BlockProgram *program, int number, const BlockRule *rule,
                         const double *row_price, const BlockLean *lean, double *value) {
    BlockParts *parts = program->parts;
    Block *block = &parts->blocks[number];
    Arena *scratch = arena_open();
    make_chooser(program);
    const SmallRule *small = scaled(scratch, block, rule);
    double *price = ARENA_ARRAY(scratch, double, parts->tie_count);
    double *least = ARENA_ARRAY(scratch, double, rule->count);
    double *most = ARENA_ARRAY(scratch, double, rule->count);
    for (int t = 0; t < parts->tie_count; t++)
        price[t] = row_price[parts->tie_row[t]];
    for (int i = 0; i < rule->count; i++) {
        least[i] = lean->least[i] / small->kg[i];
        most[i] = lean->most[i] / small->kg[i];
    }
    block_parts_price(parts, block, price);
    lean_costs(parts, small, lean);
    swap_bounds(block, small, least, most);
    const SmallChoice choice =
        small_choose(parts->chooser, &block->program, parts->priced, &block->basis, small);
    swap_bounds(block, small, least, most);
    block->basis.keeps_bounds = false;
    for (int i = 0; choice.status == LP_OPTIMAL && i < rule->count; i++)
        value[i] = small_chosen(parts->chooser)[small->column[i]] * small->kg[i];
    arena_close(scratch);
    return choice.status;
}
