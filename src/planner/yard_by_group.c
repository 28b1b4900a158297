/* Rations one group after the other, each beside what the others take: first which feeds are
 * in them, all then held at once, and again while much is open and a round saves; then how many
 * bales, after each of which the others follow at new prices. */
#include "planner/yard_by_price_parts.h"
#include "planner/yard_fixing.h"
#include "planner/yard_group_program.h"
#include "planner/yard_held.h"
#include <math.h>
#include <string.h>

#define MOST_LET_GO 8     /* rations whose bales are let go, */
#define LET_GO_SHARE 0.05 /* or of a large farm this share of them */
#define ROUNDS 6          /* in which all groups are chosen once more, */
#define GAINED 1e-5       /* each of which is to save this share of the cost; */
#define MANY_ROWS 12000   /* of more rows each round takes long, */
#define ROUNDS_OF_MANY 3  /* and there are fewer */

/* What is decided of one group at one time. */
typedef struct {
    int first, count; /* blocks */
    YardRules rules;  /* those of rations that are not held yet */
} Turn;

/* ---- one group ---- */

static void set_bales(PriceSearch *search, int at, double bales, bool are_whole) {
    search->fixed[search->yard->bales[at]] = bales;
    search->not_whole[at] = !are_whole;
    lp_set_whole(search->yard->lp, search->yard->bales[at], are_whole);
}

static void take_choice(PriceSearch *search, const Turn *turn, const YardProgram *of,
                        const YardChoice *choice) {
    const int feeds = search->question->feed_count;
    for (int i = 0; i < turn->count * feeds; i++) {
        const int at = turn->first * feeds + i;
        const int used = search->yard->used[at];
        if (used >= 0 && yard_chooses_feeds(&turn->rules))
            search->fixed[used] = of->used[i] >= 0 ? choice->fixed[of->used[i]] : 0.0;
        if (search->yard->bales[at] < 0 || !turn->rules.is_on[YARD_RULE_WHOLE_BALES])
            continue;
        if (of->bales[i] < 0)
            set_bales(search, at, 0.0, true);
        else if (choice->not_whole[i])
            set_bales(search, at, (double)NAN, false);
        else
            set_bales(search, at, choice->fixed[of->bales[i]], true);
    }
}

static void free_group(PriceSearch *search, const Turn *turn) {
    const int feeds = search->question->feed_count;
    for (int at = turn->first * feeds; at < (turn->first + turn->count) * feeds; at++) {
        if (search->yard->used[at] >= 0 && yard_chooses_feeds(&turn->rules))
            search->fixed[search->yard->used[at]] = (double)NAN;
        if (search->yard->bales[at] >= 0)
            set_bales(search, at, (double)NAN, true);
    }
}

/* Without rows of changes: the group's program has its own. */
static RationProgram held_without_changes(Arena *arena, const PriceSearch *search) {
    YardProgram yard = *search->yard;
    yard.is_idle = ARENA_ARRAY(arena, bool, lp_row_count(yard.lp));
    for (int i = yard.first_change; i < lp_row_count(yard.lp); i++)
        yard.is_idle[i] = true;
    return yard_held_program(arena, &yard, search->fixed);
}

/* Into `value`, by column of the whole: what the group takes by its choice. */
static void put_in(const PriceSearch *search, const Turn *turn, const YardGroupProgram *group,
                   const double *chosen, double *value) {
    const BlockShape *shape = &search->yard->base->shape;
    for (int j = 0; j < search->yard->base_columns; j++) {
        const int block = shape->block_of_column[j];
        if (block >= turn->first && block < turn->first + turn->count)
            value[j] = group->column_of[j] >= 0 ? chosen[group->column_of[j]] : 0.0;
    }
}

/* Which feeds are in the rations of the group, where that is fixed; NULL: it is not. */
static const bool *known_sets(const PriceSearch *search, const Turn *turn, Arena *arena) {
    const int feeds = search->question->feed_count;
    bool *known = ARENA_ARRAY(arena, bool, turn->count *feeds);
    for (int i = 0; yard_chooses_feeds(&turn->rules) && i < turn->count * feeds; i++) {
        const int used = search->yard->used[turn->first * feeds + i];
        if (used >= 0 && isnan(search->fixed[used]))
            return NULL;
        known[i] = used >= 0 && search->fixed[used] > 0.5;
    }
    return yard_chooses_feeds(&turn->rules) ? known : NULL;
}

/* Beside what `value` says that the others take, where that of the group is put. */
static bool choose_beside(PriceSearch *search, const Turn *turn, bool may_trade,
                          YardBreadth breadth, double *value) {
    Arena *arena = arena_open();
    const bool *known = known_sets(search, turn, arena);
    free_group(search, turn);
    const RationProgram held = held_without_changes(arena, search);
    const YardGroupPart part = {.first = turn->first,
                                .count = turn->count,
                                .may_trade = may_trade,
                                .breadth = breadth,
                                .held = &held,
                                .value = value,
                                .price = search->solution.shadow_price,
                                .target = search->target,
                                .base_rows = search->yard->base_rows};
    const YardGroupProgram group = yard_group_program(arena, &part);
    BlockProgram *blocks;
    const LpSolution start = yard_held_solve(arena, &group.program, NULL, 0.0, &blocks);
    const YardProgram of = yard_program(arena, &group.program, &turn->rules);
    const double *target = search->target + turn->first * search->question->feed_count;
    YardChoice choice;
    const bool is_found =
        start.status == LP_OPTIMAL &&
        yard_fix(arena, &of, &start.basis, &turn->rules, target, known, &choice);
    if (is_found) {
        take_choice(search, turn, &of, &choice);
        put_in(search, turn, &group, choice.value, value);
    }
    arena_close(arena);
    return is_found;
}

static double *values_of(const PriceSearch *search) {
    const int columns = search->yard->base_columns;
    double *value = ARENA_ARRAY(search->arena, double, columns);
    memcpy(value, search->solution.value, (size_t)columns * sizeof *value);
    return value;
}

/* Trading with the others at about the prices, of feeds it has or of any; or of what they
 * leave. The others then follow. */
static bool choose_and_hold(PriceSearch *search, const Turn *turn) {
    const LpSolution near = search->solution;
    for (int try = 0; try < 4; try++) {
        free_group(search, turn);
        if (choose_beside(search, turn, try < 2, try % 2 == 0 ? FEEDS_OF_GROUP : FEEDS_ALL,
                          values_of(search)) &&
            yard_hold_chosen(search, &near))
            return true;
    }
    free_group(search, turn);
    return false;
}

/* ---- all groups ---- */

/* Rations in which bales were let go. */
static int rations_let_go(const PriceSearch *search) {
    const int feeds = search->question->feed_count;
    int rations = 0;
    for (int b = 0; b < search->question->block_count; b++) {
        bool any = false;
        for (int f = 0; f < feeds; f++)
            any = any || search->not_whole[b * feeds + f];
        rations += any;
    }
    return rations;
}

static bool one_after_another(PriceSearch *search, const YardRules *rules) {
    const PlanQuestion *question = search->question;
    const double most_let_go = fmax(MOST_LET_GO, LET_GO_SHARE * question->block_count);
    Turn turn = {.rules = *rules};
    for (int first = 0; first < question->block_count; first += turn.count) {
        turn.first = first;
        turn.count = plan_blocks_of_group(question, first);
        if (!choose_and_hold(search, &turn) || rations_let_go(search) > most_let_go)
            return false;
    }
    return true;
}

/* Each beside what those before it have chosen and the others have, and all of them then held:
 * to solve the whole between them would take longest. */
static bool all_at_once(PriceSearch *search, const YardRules *rules, bool may_trade,
                        YardBreadth breadth) {
    const PlanQuestion *question = search->question;
    const LpSolution near = search->solution;
    double *value = values_of(search);
    Turn turn = {.rules = *rules};
    for (int first = 0; first < question->block_count; first += turn.count) {
        turn.first = first;
        turn.count = plan_blocks_of_group(question, first);
        if (!choose_beside(search, &turn, may_trade, breadth, value))
            return false;
    }
    return yard_hold_chosen(search, &near);
}

/* ---- what is gone back to ---- */

typedef struct {
    double *fixed;
    RationProgram held;
    LpSolution solution;
    BlockProgram *blocks;
} Kept;

static Kept keep(const PriceSearch *search) {
    const int columns = lp_column_count(search->yard->lp);
    const Kept kept = {ARENA_ARRAY(search->arena, double, columns), search->held,
                       search->solution, search->blocks};
    memcpy(kept.fixed, search->fixed, (size_t)columns * sizeof *kept.fixed);
    return kept;
}

static void go_back_to(PriceSearch *search, const Kept *kept) {
    memcpy(search->fixed, kept->fixed,
           (size_t)lp_column_count(search->yard->lp) * sizeof *kept->fixed);
    search->held = kept->held;
    search->solution = kept->solution;
    search->blocks = kept->blocks;
}

static bool is_near(const PriceSearch *search, double bound) {
    return search->solution.cost - bound <= YARD_GAP / 2.0 * fabs(search->solution.cost);
}

/* All groups once more beside what the others have come to, from feeds of any and from their
 * own; of a large farm, where the former takes long, with trade and without. What is not
 * cheaper is dropped. */
static void improve(PriceSearch *search, const YardRules *rules, double bound) {
    const bool is_large = lp_row_count(search->yard->lp) > MANY_ROWS;
    int in_vain = 0;
    for (int round = 0;
         round < (is_large ? ROUNDS_OF_MANY : ROUNDS) && in_vain < 2 && !is_near(search, bound);
         round++) {
        const bool is_second = round % 2 == 1;
        const Kept kept = keep(search);
        const double enough = kept.solution.cost - GAINED * fabs(kept.solution.cost);
        const bool is_held = all_at_once(search, rules, !is_large || !is_second,
                                         is_large || is_second ? FEEDS_OF_GROUP : FEEDS_OF_ANY);
        in_vain = is_held && search->solution.cost < enough ? 0 : in_vain + 1;
        if (!is_held || search->solution.cost >= kept.solution.cost)
            go_back_to(search, &kept);
    }
}

/* ---- which feeds, and how many bales ---- */

/* The rules of the search that are among these, beside the change. */
static YardRules rules_among(const PriceSearch *search, YardRule one, YardRule other) {
    YardRules rules = {{false}};
    rules.is_on[one] = search->rules->is_on[one];
    rules.is_on[other] = search->rules->is_on[other];
    rules.is_on[YARD_RULE_LARGEST_CHANGE] = search->rules->is_on[YARD_RULE_LARGEST_CHANGE];
    return rules;
}

bool yard_sets_by_group(PriceSearch *search, double bound) {
    const YardRules rules = rules_among(search, YARD_RULE_MOST_FEEDS, YARD_RULE_LEAST_SHARE);
    const Kept kept = keep(search);
    if (!all_at_once(search, &rules, true, FEEDS_OF_GROUP)) {
        go_back_to(search, &kept);
        if (!one_after_another(search, &rules))
            return false;
    }
    improve(search, &rules, bound);
    return true;
}

bool yard_bales_by_group(PriceSearch *search) {
    const YardRules rules = rules_among(search, YARD_RULE_WHOLE_BALES, YARD_RULE_WHOLE_BALES);
    const Kept kept = keep(search);
    if (one_after_another(search, &rules))
        return true;
    go_back_to(search, &kept);
    return false;
}

void yard_let_go_all(PriceSearch *search) {
    search->is_without_bales = true;
    for (int i = 0; i < search->question->block_count * search->question->feed_count; i++) {
        if (search->yard->bales[i] >= 0)
            set_bales(search, i, (double)NAN, false);
    }
}
