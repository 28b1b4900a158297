#include "planner/yard_group_program.h"
#include <math.h>

#define GIVEN_KG 1e-6 /* dry matter a head and day */

/* Of a stack, or of all that is bought: dearer to take from others, cheaper to leave to them.
 */
static const struct {
    double share, worse;
} TRADE[] = {{0.02, 0.02}, {0.05, 0.1}, {0.1, 0.3}, {1.0, 1.0}};
enum { TRADES = sizeof TRADE / sizeof *TRADE };

typedef struct {
    Arena *arena;
    const YardGroupPart *part;
    LpTerms terms;     /* of the whole */
    int *row_of;       /* of the whole in the program; -1: not there */
    double *by_others; /* by row of the whole */
    YardGroupProgram made;
} Maker;

static bool is_of_group(const YardGroupPart *part, int block) {
    return block >= part->first && block < part->first + part->count;
}

/* Whether the group has it at some time, or wants it; or any group. */
static bool has_feed(const YardGroupPart *part, int feed) {
    const int feeds = part->held->question->feed_count;
    const bool is_any = part->breadth == FEEDS_OF_ANY;
    const int from = is_any ? 0 : part->first;
    const int to = is_any ? part->held->question->block_count : part->first + part->count;
    for (int b = from; b < to; b++) {
        const int column = part->held->eaten[b * feeds + feed];
        if (column >= 0 &&
            (part->value[column] > GIVEN_KG || part->target[b * feeds + feed] > GIVEN_KG))
            return true;
    }
    return false;
}

/* Columns that may be left out: of feeds that the group does not have, or that are not in a
 * ration. */
static bool *columns_left_out(const Maker *maker) {
    const YardGroupPart *part = maker->part;
    const PlanQuestion *question = part->held->question;
    bool *is_out = ARENA_ARRAY(maker->arena, bool, lp_column_count(part->held->lp));
    for (int f = 0; f < question->feed_count; f++) {
        const bool is_needless = part->breadth != FEEDS_ALL &&
                                 ration_feed_fills(&question->feeds[f]) && !has_feed(part, f);
        for (int b = part->first; b < part->first + part->count; b++) {
            const int column = part->held->eaten[b * question->feed_count + f];
            if (column >= 0)
                is_out[column] = is_needless || lp_column_most(part->held->lp, column) <= 0.0;
        }
    }
    return is_out;
}

/* Columns of the group and of no ration. */
static void add_columns(Maker *maker, bool *is_tied) {
    const RationProgram *held = maker->part->held;
    const bool *is_out = columns_left_out(maker);
    for (int j = 0; j < lp_column_count(held->lp); j++) {
        const int block = held->shape.block_of_column[j];
        const bool is_own = is_of_group(maker->part, block);
        maker->made.column_of[j] = -1;
        if (block < 0 || (is_own && !is_out[j]))
            maker->made.column_of[j] =
                lp_add_column(maker->made.program.lp, lp_cost(held->lp, j),
                              lp_column_least(held->lp, j), lp_column_most(held->lp, j));
        for (int k = maker->terms.start[j]; k < maker->terms.start[j + 1]; k++) {
            is_tied[maker->terms.row[k]] |= is_own && maker->made.column_of[j] >= 0;
            if (block >= 0 && !is_own)
                maker->by_others[maker->terms.row[k]] +=
                    maker->terms.coefficient[k] * maker->part->value[j];
        }
    }
}

/* What others take may be had, and what is left to them is worth something: a little at about
 * the price, and the more the worse, since they too will have to do with other feed. */
static void add_trade(const Maker *maker, int row) {
    const double price = -maker->part->price[row];
    const double others = fmax(maker->by_others[row], 0.0);
    const double room = fmax(others, lp_row_most(maker->part->held->lp, row));
    const int own = maker->row_of[row];
    LinearProgram *lp = maker->made.program.lp;
    for (int i = 0; i < TRADES; i++) {
        const bool is_rest = i + 1 == TRADES;
        lp_add_term(lp, own,
                    lp_add_column(lp, price * (1.0 + TRADE[i].worse), 0.0,
                                  is_rest ? others : fmin(others, TRADE[i].share * room)),
                    -1.0);
        lp_add_term(lp, own,
                    lp_add_column(lp, -price * fmax(1.0 - TRADE[i].worse, 0.0), 0.0,
                                  is_rest ? NO_LIMIT : TRADE[i].share * room),
                    1.0);
    }
}

/* Rows of the group, and those that tie it to others: of these there is what the others leave.
 */
static void add_rows(Maker *maker, const bool *is_tied) {
    const RationProgram *held = maker->part->held;
    LinearProgram *lp = maker->made.program.lp;
    for (int i = 0; i < lp_row_count(held->lp); i++) {
        const int block = held->shape.block_of_row[i];
        maker->row_of[i] = -1;
        if (block < 0 ? is_tied[i] : is_of_group(maker->part, block))
            maker->row_of[i] = lp_add_row(lp, lp_row_least(held->lp, i) - maker->by_others[i],
                                          lp_row_most(held->lp, i) - maker->by_others[i]);
    }
    for (int j = 0; j < lp_column_count(held->lp); j++) {
        for (int k = maker->terms.start[j]; k < maker->terms.start[j + 1]; k++) {
            const int row = maker->row_of[maker->terms.row[k]];
            if (maker->made.column_of[j] >= 0 && row >= 0)
                lp_add_term(lp, row, maker->made.column_of[j], maker->terms.coefficient[k]);
        }
    }
    for (int i = 0; maker->part->may_trade && i < maker->part->base_rows; i++) {
        if (maker->row_of[i] >= 0 && held->shape.block_of_row[i] < 0 &&
            isfinite(lp_row_most(held->lp, i)) && maker->part->price[i] < 0.0)
            add_trade(maker, i);
    }
}

static int *mapped(const Maker *maker, const int *from, int count, const int *to) {
    int *numbers = ARENA_ARRAY(maker->arena, int, count);
    for (int i = 0; i < count; i++)
        numbers[i] = from[i] >= 0 ? to[from[i]] : -1;
    return numbers;
}

static BlockLimits mapped_limits(const Maker *maker, const BlockLimits *of) {
    const int *row_of = maker->row_of;
    const int *column_of = maker->made.column_of;
    BlockLimits limits = *of;
    limits.least_row = mapped(maker, of->least_row, of->count, row_of);
    limits.most_row = mapped(maker, of->most_row, of->count, row_of);
    limits.warn_row = mapped(maker, of->warn_row, of->count, row_of);
    limits.least_short = mapped(maker, of->least_short, of->count, column_of);
    limits.most_short = mapped(maker, of->most_short, of->count, column_of);
    limits.beyond = mapped(maker, of->beyond, of->count, column_of);
    return limits;
}

/* Columns of trade are of no ration. */
static void add_shape(Maker *maker) {
    const BlockShape *whole = &maker->part->held->shape;
    RationProgram *program = &maker->made.program;
    const int columns = lp_column_count(program->lp);
    const int rows = lp_row_count(program->lp);
    int *of_column = ARENA_ARRAY(maker->arena, int, columns);
    int *of_row = ARENA_ARRAY(maker->arena, int, rows);
    for (int j = 0; j < columns; j++)
        of_column[j] = -1;
    for (int j = 0; j < whole->column_count; j++) {
        if (maker->made.column_of[j] >= 0 && whole->block_of_column[j] >= 0)
            of_column[maker->made.column_of[j]] =
                whole->block_of_column[j] - maker->part->first;
    }
    for (int i = 0; i < whole->row_count; i++) {
        if (maker->row_of[i] >= 0)
            of_row[maker->row_of[i]] =
                whole->block_of_row[i] < 0 ? -1 : whole->block_of_row[i] - maker->part->first;
    }
    program->shape = (BlockShape){rows,
                                  columns,
                                  maker->part->count,
                                  1,
                                  of_column,
                                  of_row,
                                  ARENA_ARRAY(maker->arena, int, maker->part->count)};
}

YardGroupProgram yard_group_program(Arena *arena, const YardGroupPart *part) {
    const RationProgram *held = part->held;
    const int feeds = held->question->feed_count;
    const int rows = lp_row_count(held->lp);
    PlanQuestion *question = ARENA_NEW(arena, PlanQuestion);
    *question = *held->question;
    question->blocks += part->first;
    question->block_count = part->count;
    question->permission += part->first * feeds;
    question->barred_by += part->first * feeds;
    Maker maker = {
        .arena = arena,
        .part = part,
        .terms = lp_terms(held->lp, arena),
        .row_of = ARENA_ARRAY(arena, int, rows),
        .by_others = ARENA_ARRAY(arena, double, rows),
        .made = {.column_of = ARENA_ARRAY(arena, int, lp_column_count(held->lp)),
                 .program = {.question = question,
                             .lp = lp_new(arena),
                             .aim = held->aim,
                             .carry_over_row = -1,
                             .carry_over_short = -1}},
    };
    bool *is_tied = ARENA_ARRAY(arena, bool, rows);
    add_columns(&maker, is_tied);
    add_rows(&maker, is_tied);
    RationProgram *program = &maker.made.program;
    program->eaten = mapped(&maker, held->eaten + part->first * feeds, part->count * feeds,
                            maker.made.column_of);
    program->microbial =
        mapped(&maker, held->microbial + part->first, part->count, maker.made.column_of);
    program->bought = mapped(&maker, held->bought, feeds, maker.made.column_of);
    program->stock = mapped(&maker, held->stock, feeds, maker.row_of);
    program->blocks = ARENA_ARRAY(arena, BlockLimits, part->count);
    for (int b = 0; b < part->count; b++)
        program->blocks[b] = mapped_limits(&maker, &held->blocks[part->first + b]);
    add_shape(&maker);
    return maker.made;
}
