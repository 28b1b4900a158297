#include "planner/small_choice.h"
#include "base/quantity.h"
#include <math.h>
#include <string.h>

#define GIVEN_KG 1e-6
#define WHOLE_TO 1e-9  /* of a bale: as near as a bound is kept, for it becomes one */
#define EQUAL 1e-5     /* share of the cost within which one choice is as good as another */
#define MOST_DEPTH 160 /* branches below one another */

enum { FREE, IN, OUT };

/* What is decided on the way down to one node. */
typedef struct {
    double *least, *most; /* [count] of the rule's columns */
    unsigned char *mark;  /* [count] FREE, IN, OUT */
    SmallBasis basis;
} Level;

struct SmallChooser {
    SmallWork *work;
    SmallProgram
        program; /* a copy, with a row of its least share for each column of the rule */
    double **term;
    const SmallRule *rule;
    const double *cost;
    Level levels[MOST_DEPTH];
    int own_rows;
    double *best;
    double best_cost, bound, allowed;
    int nodes;
};

SmallChooser *small_chooser(Arena *arena, int most_rows, int most_columns) {
    SmallChooser *chooser = ARENA_NEW(arena, SmallChooser);
    const int rows = most_rows + most_columns;
    *chooser = (SmallChooser){
        .work = small_work(arena, rows, most_columns),
        .term = ARENA_ARRAY(arena, double *, rows),
        .program = {.row_least = ARENA_ARRAY(arena, double, rows),
                    .row_most = ARENA_ARRAY(arena, double, rows),
                    .least = ARENA_ARRAY(arena, double, most_columns),
                    .most = ARENA_ARRAY(arena, double, most_columns)},
        .best = ARENA_ARRAY(arena, double, most_columns),
    };
    for (int i = 0; i < rows; i++)
        chooser->term[i] = ARENA_ARRAY(arena, double, most_columns);
    chooser->program.term = (const double *const *)chooser->term;
    for (int depth = 0; depth < MOST_DEPTH; depth++)
        chooser->levels[depth] =
            (Level){ARENA_ARRAY(arena, double, most_columns),
                    ARENA_ARRAY(arena, double, most_columns),
                    ARENA_ARRAY(arena, unsigned char, most_columns),
                    {ARENA_ARRAY(arena, unsigned char, rows),
                     ARENA_ARRAY(arena, unsigned char, most_columns), false, NULL}};
    return chooser;
}

/* s times the sum less the column itself is at most 0: no row until the column is in. */
static void add_share_rows(SmallChooser *chooser) {
    const SmallRule *rule = chooser->rule;
    SmallProgram *program = &chooser->program;
    for (int i = 0; i < rule->count && rule->least_share > 0.0; i++) {
        double *terms = chooser->term[program->rows];
        memset(terms, 0, (size_t)program->columns * sizeof *terms);
        for (int k = 0; k < rule->count; k++)
            terms[rule->column[k]] =
                rule->kg[k] / rule->kg[i] * (rule->least_share - (k == i ? 1.0 : 0.0));
        program->row_least[program->rows] = -NO_LIMIT;
        program->row_most[program->rows++] = NO_LIMIT;
    }
}

/* Columns of one term too become dense: a row of a least share may speak of them. */
static void copy_terms(double **term, const SmallProgram *from) {
    const int dense = dense_columns(from);
    for (int i = 0; i < from->rows; i++) {
        memset(term[i], 0, (size_t)from->columns * sizeof **term);
        memcpy(term[i], from->term[i], (size_t)dense * sizeof **term);
    }
    for (int k = 0; k < from->singles; k++)
        term[from->single_row[k]][dense + k] = from->single_term[k];
}

static void copy_program(SmallChooser *chooser, const SmallProgram *from) {
    SmallProgram *program = &chooser->program;
    const size_t rows = (size_t)from->rows;
    const size_t columns = (size_t)from->columns;
    program->rows = from->rows;
    program->columns = from->columns;
    copy_terms(chooser->term, from);
    memcpy(program->row_least, from->row_least, rows * sizeof(double));
    memcpy(program->row_most, from->row_most, rows * sizeof(double));
    memcpy(program->least, from->least, columns * sizeof(double));
    memcpy(program->most, from->most, columns * sizeof(double));
    chooser->own_rows = from->rows;
    add_share_rows(chooser);
}

static void first_level(SmallChooser *chooser, const SmallBasis *basis) {
    const SmallRule *rule = chooser->rule;
    Level *level = &chooser->levels[0];
    for (int i = 0; i < rule->count; i++) {
        level->least[i] = chooser->program.least[rule->column[i]];
        level->most[i] = chooser->program.most[rule->column[i]];
        level->mark[i] = FREE;
    }
    memset(level->basis.row, BASIC, (size_t)chooser->program.rows);
    memcpy(level->basis.row, basis->row, (size_t)chooser->own_rows);
    memcpy(level->basis.column, basis->column, (size_t)chooser->program.columns);
}

static void copy_level(const SmallChooser *chooser, const Level *from, Level *to) {
    const size_t count = (size_t)chooser->rule->count;
    memcpy(to->least, from->least, count * sizeof(double));
    memcpy(to->most, from->most, count * sizeof(double));
    memcpy(to->mark, from->mark, count);
    memcpy(to->basis.row, from->basis.row, (size_t)chooser->program.rows);
    memcpy(to->basis.column, from->basis.column, (size_t)chooser->program.columns);
}

/* False when what was decided of a column contradicts itself: nothing is left of it. */
static bool apply(SmallChooser *chooser, const Level *level) {
    const SmallRule *rule = chooser->rule;
    for (int i = 0; i < rule->count; i++) {
        const double most = level->mark[i] == OUT ? 0.0 : level->most[i];
        if (level->least[i] > most)
            return false;
        chooser->program.least[rule->column[i]] = level->least[i];
        chooser->program.most[rule->column[i]] = most;
        if (rule->least_share > 0.0)
            chooser->program.row_most[chooser->own_rows + i] =
                level->mark[i] == IN ? 0.0 : NO_LIMIT;
    }
    return true;
}

/* ---- what an answer breaks ---- */

/* -1: nothing. is_whole: it is to be rounded, at `value`, and not to be kept in or left out.
 * is_first: that, or the lower, is tried first. */
typedef struct {
    int item;
    bool is_whole, is_first;
    double value;
} Broken;

/* The largest of what is in but not decided, where too many are. */
static Broken too_many(const SmallRule *rule, const Level *level, const double *value) {
    int given = 0;
    int largest = -1;
    for (int i = 0; i < rule->count; i++) {
        const double kg = value[rule->column[i]] * rule->kg[i];
        given += kg > GIVEN_KG;
        if (level->mark[i] == FREE && kg > GIVEN_KG &&
            (largest < 0 || kg > value[rule->column[largest]] * rule->kg[largest]))
            largest = i;
    }
    return (Broken){given > rule->most ? largest : -1, false, true, 0.0};
}

static Broken too_little(const SmallRule *rule, const Level *level, const double *value) {
    Broken broken = {-1, false, true, 0.0};
    double all = 0.0;
    for (int i = 0; i < rule->count; i++)
        all += value[rule->column[i]] * rule->kg[i];
    double worst = GIVEN_KG;
    for (int i = 0; i < rule->count; i++) {
        const double kg = value[rule->column[i]] * rule->kg[i];
        const double lacks = rule->least_share * all - kg;
        if (level->mark[i] != FREE || kg <= GIVEN_KG || lacks <= worst)
            continue;
        worst = lacks;
        broken = (Broken){i, false, 2.0 * kg > rule->least_share * all, 0.0};
    }
    return broken;
}

/* What is furthest from whole. */
static Broken not_whole(const SmallRule *rule, const double *value) {
    Broken broken = {-1, true, true, 0.0};
    double worst = WHOLE_TO;
    for (int i = 0; i < rule->count; i++) {
        if (rule->bale[i] <= 0.0)
            continue;
        const double bales = value[rule->column[i]] / rule->bale[i];
        const double off = fabs(bales - round(bales));
        if (off <= worst)
            continue;
        worst = off;
        broken = (Broken){i, true, bales - floor(bales) < 0.5, bales};
    }
    return broken;
}

static Broken broken_rule(const SmallRule *rule, const Level *level, const double *value) {
    Broken broken = {.item = -1};
    if (rule->most > 0)
        broken = too_many(rule, level, value);
    if (broken.item < 0 && rule->least_share > 0.0)
        broken = too_little(rule, level, value);
    return broken.item < 0 ? not_whole(rule, value) : broken;
}

/* ---- the tree ---- */

/* Kept in, or the lower bound raised; else left out, or the upper one lowered. */
static void decide(const SmallRule *rule, Level *level, Broken broken, bool is_up) {
    const int item = broken.item;
    if (broken.is_whole) {
        const double bale = rule->bale[item];
        if (is_up)
            level->least[item] = ceil(broken.value) * bale;
        else
            level->most[item] = floor(broken.value) * bale;
        return;
    }
    level->mark[item] = is_up ? IN : OUT;
    int in = 0;
    for (int i = 0; i < rule->count; i++)
        in += level->mark[i] == IN;
    for (int i = 0; rule->most > 0 && in >= rule->most && i < rule->count; i++)
        level->mark[i] = level->mark[i] == FREE ? OUT : level->mark[i];
}

/* Depth is bounded by MOST_DEPTH. */
static void search_from(SmallChooser *chooser, int depth, double above) {
    Level *level = &chooser->levels[depth];
    if (!apply(chooser, level))
        return;
    chooser->nodes++;
    const LpStatus status =
        small_solve(chooser->work, &chooser->program, chooser->cost, &level->basis);
    if (status == LP_INFEASIBLE)
        return;
    const double cost = status == LP_OPTIMAL ? small_cost(chooser->work) : above;
    if (depth == 0)
        chooser->allowed = EQUAL * fabs(cost);
    if (status != LP_OPTIMAL || cost >= chooser->best_cost - chooser->allowed) {
        chooser->bound = fmin(chooser->bound, cost);
        return;
    }
    const double *value = small_values(chooser->work);
    const Broken broken = broken_rule(chooser->rule, level, value);
    if (broken.item < 0) {
        chooser->best_cost = cost;
        memcpy(chooser->best, value, (size_t)chooser->program.columns * sizeof *value);
        return;
    }
    if (depth + 1 == MOST_DEPTH || chooser->nodes >= chooser->rule->most_nodes) {
        chooser->bound = fmin(chooser->bound, cost);
        return;
    }
    const bool is_up_first = broken.is_whole ? !broken.is_first : broken.is_first;
    for (int side = 0; side < 2; side++) {
        copy_level(chooser, level, &chooser->levels[depth + 1]);
        decide(chooser->rule, &chooser->levels[depth + 1], broken,
               side == 0 ? is_up_first : !is_up_first);
        search_from(chooser, depth + 1, cost);
    }
}

SmallChoice small_choose(SmallChooser *chooser, const SmallProgram *program, const double *cost,
                         SmallBasis *basis, const SmallRule *rule) {
    chooser->rule = rule;
    chooser->cost = cost;
    chooser->best_cost = NO_LIMIT;
    chooser->bound = NO_LIMIT;
    chooser->nodes = 0;
    copy_program(chooser, program);
    first_level(chooser, basis);
    search_from(chooser, 0, -NO_LIMIT);
    memcpy(basis->row, chooser->levels[0].basis.row, (size_t)chooser->own_rows);
    memcpy(basis->column, chooser->levels[0].basis.column, (size_t)program->columns);
    const LpStatus status = chooser->best_cost < NO_LIMIT ? LP_OPTIMAL
                            : chooser->bound < NO_LIMIT   ? LP_FAILED
                                                          : LP_INFEASIBLE;
    return (SmallChoice){status, chooser->best_cost, fmin(chooser->bound, chooser->best_cost)};
}

const double *small_chosen(const SmallChooser *chooser) { return chooser->best; }
