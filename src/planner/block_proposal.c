/* What the parts of block_parts.c answer at given prices. */
#include "planner/block_parts.h"
#include <string.h>

void block_parts_price(BlockParts *parts, const Block *block, const double *price) {
    double *priced = parts->priced;
    const int columns = block->program.columns;
    memcpy(priced, block->cost, (size_t)columns * sizeof *priced);
    for (int k = 0; k < block->tie_start[columns]; k++)
        priced[block->tie_column[k]] -= block->tie_term[k] * price[block->tie[k]];
}

static LpStatus solve_block(BlockParts *parts, Block *block, const double *price) {
    block_parts_price(parts, block, price);
    const LpStatus status =
        small_solve(parts->work, &block->program, parts->priced, &block->basis);
    block->basis.keeps_bounds = status == LP_OPTIMAL;
    if (status == LP_OPTIMAL && !small_is_as_before(parts->work))
        memcpy(block->value, small_values(parts->work),
               (size_t)block->program.columns * sizeof(double));
    return status;
}

/* The same within the block's rule; its basis is that of the ration without it. */
static LpStatus choose_block(BlockParts *parts, Block *block, const double *price,
                             Proposal *proposal) {
    block_parts_price(parts, block, price);
    const SmallChoice choice = small_choose(parts->chooser, &block->program, parts->priced,
                                            &block->basis, block->rule);
    block->basis.keeps_bounds = false;
    proposal->over += choice.cost - choice.bound;
    if (choice.status == LP_OPTIMAL)
        memcpy(block->value, small_chosen(parts->chooser),
               (size_t)block->program.columns * sizeof(double));
    return choice.status;
}

/* ---- bases of several blocks in a row ---- */

/* The blocks of a family, of all families with -1: *first and how many. */
static int members(const BlockParts *parts, int family, int *first) {
    *first = family < 0 ? 0 : parts->family_start[family];
    const int end = family < 0 ? parts->shape.block_count : parts->family_start[family + 1];
    return end - *first;
}

int block_parts_columns(const BlockParts *parts, int family) {
    int columns = 0;
    for (int m = parts->family_start[family]; m < parts->family_start[family + 1]; m++)
        columns += parts->blocks[parts->member[m]].program.columns;
    return columns;
}

size_t block_parts_places(const BlockParts *parts, int family) {
    int first;
    const int count = members(parts, family, &first);
    size_t places = 0;
    for (int m = first; m < first + count; m++) {
        const SmallProgram *program = &parts->blocks[parts->member[m]].program;
        places += (size_t)program->rows + (size_t)program->columns;
    }
    return places;
}

void block_parts_read_places(const BlockParts *parts, int family, unsigned char *places) {
    int first;
    const int count = members(parts, family, &first);
    for (int m = first; m < first + count; m++) {
        const Block *block = &parts->blocks[parts->member[m]];
        memcpy(places, block->basis.row, (size_t)block->program.rows);
        places += block->program.rows;
        memcpy(places, block->basis.column, (size_t)block->program.columns);
        places += block->program.columns;
    }
}

void block_parts_set_places(BlockParts *parts, int family, const unsigned char *places) {
    int first;
    const int count = members(parts, family, &first);
    for (int m = first; m < first + count; m++) {
        Block *block = &parts->blocks[parts->member[m]];
        memcpy(block->basis.row, places, (size_t)block->program.rows);
        places += block->program.rows;
        memcpy(block->basis.column, places, (size_t)block->program.columns);
        places += block->program.columns;
        block->basis.keeps_bounds = false;
    }
}

/* ---- proposals ---- */

static void add_to_proposal(const Block *block, Proposal *proposal) {
    const double *value = block->value;
    for (int j = 0; j < block->program.columns; j++) {
        if (value[j] == 0.0)
            continue;
        proposal->cost += block->cost[j] * value[j];
        for (int k = block->tie_start[j]; k < block->tie_start[j + 1]; k++)
            proposal->use[block->tie[k]] += block->tie_term[k] * value[j];
    }
}

/* Steps from its own last basis beyond which a ration says that prices have gone far: the rest
 * of its family then begin at the basis of the one before, found at these prices. */
#define FAR_STEPS 1

static bool is_alike(const SmallProgram *a, const SmallProgram *b) {
    return a->rows == b->rows && a->columns == b->columns && a->singles == b->singles &&
           memcmp(a->single_row, b->single_row, (size_t)a->singles * sizeof *a->single_row) ==
               0;
}

static void begin_at(Block *block, const Block *before) {
    const size_t rows = (size_t)block->program.rows;
    const size_t columns = (size_t)block->program.columns;
    if (!is_alike(&block->program, &before->program) ||
        (memcmp(block->basis.row, before->basis.row, rows) == 0 &&
         memcmp(block->basis.column, before->basis.column, columns) == 0))
        return;
    memcpy(block->basis.row, before->basis.row, rows);
    memcpy(block->basis.column, before->basis.column, columns);
    block->basis.keeps_bounds = false;
}

LpStatus block_parts_propose(BlockParts *parts, int family, Proposal *proposal) {
    const int first = parts->family_start[family];
    bool is_far = false;
    proposal->cost = proposal->over = 0.0;
    double *kept = proposal->value;
    memset(proposal->use, 0, (size_t)parts->tie_count * sizeof(double));
    for (int m = first; m < parts->family_start[family + 1]; m++) {
        Block *block = &parts->blocks[parts->member[m]];
        if (is_far)
            begin_at(block, &parts->blocks[parts->member[m - 1]]);
        const long steps_before = small_steps(parts->work);
        const LpStatus status = block->rule
                                    ? choose_block(parts, block, proposal->price, proposal)
                                    : solve_block(parts, block, proposal->price);
        if (status != LP_OPTIMAL)
            return status;
        is_far = is_far || small_steps(parts->work) - steps_before > FAR_STEPS;
        add_to_proposal(block, proposal);
        if (!kept)
            continue;
        memcpy(kept, block->value, (size_t)block->program.columns * sizeof(double));
        kept += block->program.columns;
    }
    block_parts_read_places(parts, family, proposal->places);
    return LP_OPTIMAL;
}

bool block_parts_add_values(BlockParts *parts, int family, const Proposal *proposal,
                            double share, double *value) {
    unsigned char *places = proposal->places;
    const double *kept = proposal->value;
    for (int m = parts->family_start[family]; m < parts->family_start[family + 1]; m++) {
        const Block *block = &parts->blocks[parts->member[m]];
        if (kept) {
            for (int j = 0; j < block->program.columns; j++)
                value[block->column[j]] += share * kept[j] * block->column_scale[j];
            kept += block->program.columns;
            continue;
        }
        const SmallBasis basis = {places, places + block->program.rows, false, NULL};
        places += block->program.rows + block->program.columns;
        if (!small_stand_at(parts->work, &block->program, &basis))
            return false;
        for (int j = 0; j < block->program.columns; j++)
            value[block->column[j]] +=
                share * small_values(parts->work)[j] * block->column_scale[j];
    }
    return true;
}

LpStatus block_parts_duals(BlockParts *parts, int number, const double *price,
                           double *reduced_cost, double *shadow_price, LpBasis *basis) {
    Block *block = &parts->blocks[number];
    const LpStatus status = solve_block(parts, block, price);
    if (status != LP_OPTIMAL)
        return status;
    for (int j = 0; j < block->program.columns; j++) {
        reduced_cost[block->column[j]] =
            small_reduced_costs(parts->work)[j] / block->column_scale[j];
        basis->column[block->column[j]] = block->basis.column[j];
    }
    for (int i = 0; i < block->program.rows; i++) {
        shadow_price[block->row[i]] = small_row_prices(parts->work)[i] * block->row_scale[i];
        basis->row[block->row[i]] = block->basis.row[i];
    }
    return LP_OPTIMAL;
}
