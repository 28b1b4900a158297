/* Units are chosen so that coefficients stay near one: rations in kg of dry matter a head and
 * day, stacks and purchases in tonnes as fed, money in whole dollars. */
#include "planner/ration_program.h"
#include "planner/field_columns.h"
#include "planner/ration_caution.h"
#include "planner/ration_price.h"
#include "planner/ration_row.h"
#include "planner/ration_terms.h"
#include <math.h>

typedef struct {
    Arena *arena;   /* of the limits */
    Arena *of_rows; /* of all else */
    RationProgram *program;
    const PlanQuestion *question;
    const RationTable *table;
    RationTerms *terms;
    int *feed; /* [fed_count] what may be fed in the block at work */
    int fed_count;
    int *column;    /* [fed_count + 1] of these, and of microbial protein */
    int *no_shorts; /* of as many rows as a ration has at most: -1 */
} Builder;

static void add_stock(Builder *builder) {
    RationProgram *program = builder->program;
    const PlanQuestion *question = builder->question;
    const bool costs = program->aim == AIM_LEAST_COST;
    for (int f = 0; f < question->feed_count; f++) {
        const PlanFeed *feed = &question->feeds[f];
        program->bought[f] = -1;
        if (feed->is_own) {
            program->stock[f] =
                lp_add_row(program->lp, -NO_LIMIT, feed->available_kg / KG_PER_TONNE);
            continue;
        }
        program->stock[f] = lp_add_row(program->lp, -NO_LIMIT, 0.0);
        program->bought[f] =
            lp_add_column(program->lp, costs ? feed->price_per_kg * KG_PER_TONNE : 0.0, 0.0,
                          feed->available_kg / KG_PER_TONNE);
        lp_add_term(program->lp, program->stock[f], program->bought[f],
                    -(1.0 - feed->shrink_share));
    }
}

static void add_rations(Builder *builder) {
    RationProgram *program = builder->program;
    const PlanQuestion *question = builder->question;
    for (int b = 0; b < question->block_count; b++) {
        const PlanBlock *block = &question->blocks[b];
        for (int f = 0; f < question->feed_count; f++) {
            const PlanFeed *feed = &question->feeds[f];
            int *column = &program->eaten[b * question->feed_count + f];
            *column = -1;
            if (plan_permission(question, b, f) != MAY_BE_FED)
                continue;
            const double taken = ration_tonnes_taken(block, feed);
            *column = lp_add_column(
                program->lp,
                program->aim == AIM_LEAST_COST ? ration_price_of_eaten(question, b, f) : 0.0,
                0.0, NO_LIMIT);
            lp_add_term(program->lp, program->stock[f], *column, taken);
        }
        program->microbial[b] = lp_add_column(program->lp, 0.0, 0.0, NO_LIMIT);
    }
}

/* The row of one side of a limit. */
static int add_side(Builder *builder, const RationLimit *limit, double bound, bool is_least) {
    RationProgram *program = builder->program;
    const double side = limit->base ? (bound - limit->added) * limit->base_constant : bound;
    const int row =
        lp_add_row(program->lp, is_least ? side : -NO_LIMIT, is_least ? NO_LIMIT : side);
    lp_add_row_terms(program->lp, row, builder->fed_count + 1, builder->column,
                     ration_terms_of(builder->terms, limit, bound));
    return row;
}

/* The most that a feed which fills has of what a ratio is of; of a mineral where none has any.
 */
static double richest(const PlanQuestion *question, const double *base) {
    double filling = 0.0, any = 0.0;
    for (int f = 0; f < question->feed_count; f++) {
        any = fmax(any, base[f]);
        filling = fmax(filling, ration_feed_fills(&question->feeds[f]) ? base[f] : 0.0);
    }
    return filling > 0.0 ? filling : any;
}

/* The amount that counts as being short of all of it: the bound, or for a ratio the bound at a
 * full intake. */
static double whole_of(const Builder *builder, int b, const RationLimit *limit, double bound) {
    if (!limit->base)
        return fmax(fabs(bound), 1e-6);
    const Requirement *need = &builder->question->blocks[b].need;
    const double base = richest(builder->question, limit->base);
    const double whole =
        base * USUAL_INTAKE_SHARE * need->live_weight.kg + limit->base_constant;
    return fmax(fabs(bound) * whole, 1e-6);
}

/* What fills and warms cattle is dearest to lack when hardly any is left, by more than a need
 * grows through a winter: at one price for all beyond three tenths, whole weeks had next to
 * nothing, and those near calving, when most is needed. Of all else the rest is at one price,
 * so that the order of ration_row.h holds. */
static const double TIER_MOST[SHORT_TIERS] = {0.1, 0.2, 0.3, NO_LIMIT};
static const double TIER_PRICE[SHORT_TIERS] = {1.0, 3.0, 9.0, 24.0};
static const double TIER_PRICE_OF_ELSE[SHORT_TIERS] = {1.0, 3.0, 9.0, 9.0};

/* *first is the first of its columns, and stays where it has none. */
static void add_shortage(Builder *builder, int b, const RationLimit *limit, double bound,
                         bool is_least, int row, double gives, int *first) {
    RationProgram *program = builder->program;
    if (gives <= 0.0 || program->aim == AIM_LEAST_COST)
        return;
    const double whole = whole_of(builder, b, limit, bound);
    const double price =
        gives * plan_block_head_days(&builder->question->blocks[b]) / KG_PER_TONNE;
    const double *of_tier = gives >= GIVES_FILL ? TIER_PRICE : TIER_PRICE_OF_ELSE;
    *first = lp_column_count(program->lp);
    for (int tier = 0; tier < SHORT_TIERS; tier++) {
        const int column =
            lp_add_column(program->lp, price * of_tier[tier], 0.0, TIER_MOST[tier]);
        lp_add_term(program->lp, row, column, is_least ? whole : -whole);
    }
}

/* The row of the caution line, which a column of shares of the way beyond it lets give. */
static void add_caution(Builder *builder, int b, BlockLimits *of, int number) {
    RationProgram *program = builder->program;
    const PlanQuestion *question = builder->question;
    const RationLimit *limit = of->limits[number];
    if (program->aim == AIM_LEAST_SHORTAGE ||
        !caution_is_held(limit, builder->feed, builder->fed_count))
        return;
    const bool is_least = limit->safety->side == SIDE_LEAST;
    const double way = caution_way(limit, &question->blocks[b].need);
    const int row = add_side(builder, limit, limit->warn, is_least);
    const int column = lp_add_column(
        program->lp,
        program->aim == AIM_LEAST_COST ? ration_price_of_beyond(question, b, limit) : 0.0, 0.0,
        NO_LIMIT);
    lp_add_term(program->lp, row, column, is_least ? way : -way);
    of->warn_row[number] = row;
    of->beyond[number] = column;
}

double ration_program_short_share(int first_column, const double *value) {
    double share = 0.0;
    for (int tier = 0; first_column >= 0 && tier < SHORT_TIERS; tier++)
        share += value[first_column + tier];
    return share;
}

static void list_fed(Builder *builder, int b) {
    const int *eaten = &builder->program->eaten[b * builder->question->feed_count];
    builder->fed_count = 0;
    for (int f = 0; f < builder->question->feed_count; f++) {
        if (eaten[f] >= 0)
            builder->feed[builder->fed_count++] = f;
    }
    builder->column = ARENA_ARRAY(builder->of_rows, int, builder->fed_count + 1);
    for (int k = 0; k < builder->fed_count; k++)
        builder->column[k] = eaten[builder->feed[k]];
    builder->column[builder->fed_count] = builder->program->microbial[b];
    ration_terms_begin(builder->terms, builder->feed, builder->fed_count);
}

/* A need can; a line of the safety table only where some mix of what may be fed could. */
static bool can_be_broken(const Builder *builder, const RationLimit *limit) {
    if (!limit->safety)
        return true;
    const double line = limit->safety->side == SIDE_MOST ? limit->most : limit->least;
    return limit_can_be_passed(limit, line, builder->feed, builder->fed_count);
}

/* A line beside a law gives with it, by the same columns: they are shares of the bound. */
static void give_with_law(Builder *builder, int b, const BlockLimits *of, int line) {
    const RationLimit *limit = of->limits[line];
    const double whole = whole_of(builder, b, limit, limit->least);
    for (int i = 0; i < line; i++) {
        for (int tier = 0; tier < SHORT_TIERS; tier++) {
            if (of->limits[i]->law == limit->line_of && of->least_short[i] >= 0)
                lp_add_term(builder->program->lp, of->least_row[line],
                            of->least_short[i] + tier, whole);
        }
    }
}

static int *no_shorts(Arena *arena, int count) {
    int *none = ARENA_ARRAY(arena, int, count);
    for (int i = 0; i < count; i++)
        none[i] = -1;
    return none;
}

/* Where nothing gives all rations share the same. */
static int *shorts_of(const Builder *builder, int count) {
    return builder->program->aim == AIM_LEAST_COST ? builder->no_shorts
                                                   : no_shorts(builder->of_rows, count);
}

static void add_limits(Builder *builder, int b, const BlockState *state) {
    RationProgram *program = builder->program;
    list_fed(builder, b);
    BlockLimits *of = &program->blocks[b];
    of->limits = ration_limits_by(builder->arena, builder->table, b, *state, &of->count);
    of->least_row = ARENA_ARRAY(builder->of_rows, int, of->count);
    of->most_row = ARENA_ARRAY(builder->of_rows, int, of->count);
    of->least_short = shorts_of(builder, of->count);
    of->most_short = shorts_of(builder, of->count);
    of->warn_row = ARENA_ARRAY(builder->of_rows, int, of->count);
    of->beyond = ARENA_ARRAY(builder->of_rows, int, of->count);
    for (int i = 0; i < of->count; i++) {
        const RationLimit *limit = of->limits[i];
        of->least_row[i] = of->most_row[i] = -1;
        of->warn_row[i] = of->beyond[i] = -1;
        const bool can_break = can_be_broken(builder, limit);
        if (can_break && isfinite(limit->least)) {
            of->least_row[i] = add_side(builder, limit, limit->least, true);
            add_shortage(builder, b, limit, limit->least, true, of->least_row[i],
                         limit->least_gives, &of->least_short[i]);
            if (limit->line_of != LAW_NONE)
                give_with_law(builder, b, of, i);
        }
        if (can_break && isfinite(limit->most)) {
            of->most_row[i] = add_side(builder, limit, limit->most, false);
            add_shortage(builder, b, limit, limit->most, false, of->most_row[i],
                         limit->most_gives, &of->most_short[i]);
        }
        add_caution(builder, b, of, i);
    }
}

/* A stack that nobody may have is no feed for next winter either, until it is tested. */
bool ration_program_carries_over(const PlanQuestion *question, int feed) {
    return feed_class_kind(question->feeds[feed].feed->feed_class)->is_forage &&
           plan_may_be_fed(question, feed);
}

double ration_program_carry_over_most(const PlanQuestion *question) {
    double there = 0.0;
    for (int f = 0; f < question->own_count; f++) {
        const PlanFeed *feed = &question->feeds[f];
        if (ration_program_carries_over(question, f))
            there += feed->available_kg * feed->dry_share;
    }
    return (there - question->farm->winter.carry_over_kg) / KG_PER_TONNE;
}

/* Own forage left at the end: what is used, in dry matter, is at most what is there less the
 * wish. */
static void add_carry_over(Builder *builder) {
    RationProgram *program = builder->program;
    const PlanQuestion *question = builder->question;
    program->carry_over_row = program->carry_over_short = -1;
    if (question->farm->winter.carry_over_kg <= 0.0)
        return;
    program->carry_over_row =
        lp_add_row(program->lp, -NO_LIMIT, ration_program_carry_over_most(question));
    for (int f = 0; f < question->own_count; f++) {
        const PlanFeed *feed = &question->feeds[f];
        if (!ration_program_carries_over(question, f))
            continue;
        for (int b = 0; b < question->block_count; b++) {
            const int column = program->eaten[b * question->feed_count + f];
            if (column >= 0)
                lp_add_term(program->lp, program->carry_over_row, column,
                            ration_tonnes_taken(&question->blocks[b], feed) * feed->dry_share);
        }
    }
    if (program->aim != AIM_LEAST_COST) {
        program->carry_over_short = lp_add_column(program->lp, 1e-3, 0.0, NO_LIMIT);
        lp_add_term(program->lp, program->carry_over_row, program->carry_over_short, -1.0);
    }
}

static void mark_shorts(int *block_of_column, int first_column, int block) {
    for (int tier = 0; first_column >= 0 && tier < SHORT_TIERS; tier++)
        block_of_column[first_column + tier] = block;
}

static void mark_block(RationProgram *program, int b, int *block_of_column, int *block_of_row) {
    const int feeds = program->question->feed_count;
    for (int f = 0; f < feeds; f++) {
        if (program->eaten[b * feeds + f] >= 0)
            block_of_column[program->eaten[b * feeds + f]] = b;
    }
    block_of_column[program->microbial[b]] = b;
    const BlockLimits *of = &program->blocks[b];
    for (int i = 0; i < of->count; i++) {
        if (of->least_row[i] >= 0)
            block_of_row[of->least_row[i]] = b;
        if (of->most_row[i] >= 0)
            block_of_row[of->most_row[i]] = b;
        if (of->warn_row[i] >= 0) {
            block_of_row[of->warn_row[i]] = b;
            block_of_column[of->beyond[i]] = b;
        }
        mark_shorts(block_of_column, of->least_short[i], b);
        mark_shorts(block_of_column, of->most_short[i], b);
    }
}

/* Rations that propose together: prices settle in the fewest rounds at about so many. */
#define FAMILY_BLOCKS 8

/* Which rows and columns are of one ration alone; stacks, purchases and the carry-over tie. */
static void add_shape(Builder *builder) {
    RationProgram *program = builder->program;
    const PlanQuestion *question = builder->question;
    const int columns = lp_column_count(program->lp);
    const int rows = lp_row_count(program->lp);
    int *block_of_column = ARENA_ARRAY(builder->of_rows, int, columns);
    int *block_of_row = ARENA_ARRAY(builder->of_rows, int, rows);
    int *family_of_block = ARENA_ARRAY(builder->of_rows, int, question->block_count);
    for (int j = 0; j < columns; j++)
        block_of_column[j] = -1;
    for (int i = 0; i < rows; i++)
        block_of_row[i] = -1;
    int families = -1;
    int of_group = 0;
    for (int b = 0; b < question->block_count; b++) {
        mark_block(program, b, block_of_column, block_of_row);
        const bool is_new_group =
            b == 0 || question->blocks[b].group != question->blocks[b - 1].group;
        of_group = is_new_group ? 0 : of_group + 1;
        if (of_group % FAMILY_BLOCKS == 0)
            families++;
        family_of_block[b] = families;
    }
    program->shape = (BlockShape){rows,           columns,         question->block_count,
                                  families + 1,   block_of_column, block_of_row,
                                  family_of_block};
}

RationProgram ration_program(Arena *arena, const PlanQuestion *question,
                             const BlockState *states, ProgramAim aim) {
    Arena *of_rows = arena_open();
    arena_adopt(arena, of_rows);
    RationProgram program = {
        .question = question,
        .of_rows = of_rows,
        .lp = lp_new(of_rows),
        .aim = aim,
        .blocks = ARENA_ARRAY(of_rows, BlockLimits, question->block_count),
        .eaten = ARENA_ARRAY(of_rows, int, question->block_count * question->feed_count),
        .microbial = ARENA_ARRAY(of_rows, int, question->block_count),
        .bought = ARENA_ARRAY(of_rows, int, question->feed_count),
        .stock = ARENA_ARRAY(of_rows, int, question->feed_count),
    };
    Builder builder = {
        .arena = arena,
        .of_rows = of_rows,
        .program = &program,
        .question = question,
        .table = ration_table(arena, question),
        .terms = ration_terms(of_rows, question->feed_count),
        .feed = ARENA_ARRAY(of_rows, int, question->feed_count),
        .no_shorts = no_shorts(of_rows, MOST_RATION_ROWS),
    };
    add_stock(&builder);
    add_rations(&builder);
    for (int b = 0; b < question->block_count; b++)
        add_limits(&builder, b, &states[b]);
    add_carry_over(&builder);
    field_columns_add(of_rows, &program);
    add_shape(&builder);
    return program;
}

void ration_program_let_go(RationProgram *program) {
    arena_close(program->of_rows);
    *program = (RationProgram){0};
}

LpSolution ration_program_solve_in(Arena *arena, const RationProgram *program,
                                   const BlockStart *start, double content_share,
                                   BlockProgram **blocks) {
    if (*blocks) {
        if (start)
            block_program_start_from(*blocks, start);
        if (content_share > 0.0)
            block_program_be_content_with(*blocks, content_share);
        const LpSolution solution = block_program_solve(*blocks, arena);
        if (solution.status != LP_FAILED)
            return solution;
    }
    *blocks = NULL;
    return lp_solve(program->lp, arena, START_COLD, NULL, 0);
}

LpSolution ration_program_solve(Arena *arena, const RationProgram *program,
                                const BlockStart *start, double content_share,
                                BlockProgram **blocks) {
    *blocks = block_program(arena, program->lp, &program->shape);
    return ration_program_solve_in(arena, program, start, content_share, blocks);
}
