/* A small linear program a group: columns for what is added and taken away of each feed, and
 * for the energy still lacking; the aim is the least change, and lacking costs more than any
 * change. Needs that cold does not raise, as amounts, and all safety limits hold as far as the
 * ration being fed keeps them. Least concentrations of minerals and the rumen's balance of
 * protein are let go for such days: cold raises the need for energy alone [KSU_COLD]. */
#include "planner/cold_spell.h"
#include "cattle/body_reserve.h"
#include "planner/plan_outcome.h"
#include <math.h>

#define PRICE_OF_NEW 2.0   /* of a kg of a feed not fed now; own choice */
#define PRICE_OF_LACK 10.0 /* of a Mcal: worth a kg exchanged for 0.2 to 0.3; own choice */
#define ROUNDS 6           /* the curved laws are followed as in the winter's program */
#define NO_LACK 0.05       /* Mcal: below what is shown */

/* The winter, of which one block after the other has the need of a cold day. */
typedef struct {
    const WinterPlan *plan;
    PlanQuestion question;
    PlanBlock *blocks; /* the question's */
    const RationTable *table;
} ColdWinter;

typedef struct {
    const WinterPlan *plan;
    const PlanQuestion *question; /* with the need of the cold day */
    const RationTable *table;     /* of it */
    int block;
    const double *now; /* [feed_count] the ration being fed */
    BlockState state;
    LinearProgram *lp;
    int *up, *down; /* [feed_count] columns; -1 */
    int microbial, lack, step_row, away_row;
} Search;

static int worst_block(const PlanQuestion *question, int group) {
    int worst = -1;
    double most = COLD_WORTH_A_CHANGE;
    for (int b = 0; b < question->block_count; b++) {
        const PlanBlock *block = &question->blocks[b];
        if (block->group != group || block->need.cold_spell_energy <= most)
            continue;
        most = block->need.cold_spell_energy;
        worst = b;
    }
    return worst;
}

static Temperature spell_air(const PlanQuestion *question, const PlanBlock *block) {
    const Weather *weather = &question->farm->weather;
    const Temperature first = weather->month[calendar_month(block->from)].cold_spell;
    const Temperature last = weather->month[calendar_month(block->to)].cold_spell;
    return first.celsius < last.celsius ? first : last;
}

static bool overlaps(const PlanBlock *a, const PlanBlock *b) {
    return calendar_days_between(a->from, b->to) >= 0 &&
           calendar_days_between(b->from, a->to) >= 0;
}

static double left_kg(const WinterPlan *plan, int feed) {
    return fmax(plan->question->feeds[feed].available_kg - plan->taken_kg[feed], 0.0);
}

/* In the yard at that time: fed to some group then, or an own stack that the plan does not
 * finish. */
static bool is_there(const Search *search, int feed) {
    const PlanQuestion *question = search->question;
    if (question->feeds[feed].is_own && left_kg(search->plan, feed) > 1.0)
        return true;
    for (int b = 0; b < question->block_count; b++) {
        if (overlaps(&question->blocks[b], &question->blocks[search->block]) &&
            search->plan->blocks[b].eaten[feed] > 0.0)
            return true;
    }
    return false;
}

static bool is_concentrate(const PlanFeed *feed) {
    return ration_feed_fills(feed) && !feed_class_kind(feed->feed->feed_class)->is_forage;
}

static bool may_rise(const Search *search, int feed) {
    const PlanFeed *of = &search->question->feeds[feed];
    return ration_feed_fills(of) &&
           plan_permission(search->question, search->block, feed) == MAY_BE_FED &&
           !(of->eaten[NUTRIENT_NITRATE] > NITRATE_OF_NO_RISE) && is_there(search, feed);
}

static double a_quarter(const Search *search) {
    return RISE_SHARE * search->plan->blocks[search->block].dry_matter_kg;
}

/* A stack that this group is not fed now gives no more than the plan leaves of it. */
static double most_up(const Search *search, int feed) {
    const PlanFeed *of = &search->question->feeds[feed];
    if (search->now[feed] > 0.0 || !of->is_own)
        return a_quarter(search);
    const double a_kg = search->question->blocks[search->block].head * COLD_SPELL_DAYS *
                        plan_taken_per_eaten(of);
    return a_kg > 0.0 ? fmin(left_kg(search->plan, feed) / a_kg, a_quarter(search)) : 0.0;
}

/* Of changes alike, those of cheaper feed. */
static double price_of_up(const Search *search, int feed) {
    return (search->now[feed] > 0.0 ? 1.0 : PRICE_OF_NEW) +
           0.01 * plan_cost_per_eaten(search->question, search->block, feed);
}

static void add_columns(Search *search) {
    search->step_row = lp_add_row(search->lp, -NO_LIMIT, CONCENTRATE_STEP_KG);
    search->away_row = lp_add_row(search->lp, -NO_LIMIT, a_quarter(search));
    for (int f = 0; f < search->question->feed_count; f++) {
        const PlanFeed *of = &search->question->feeds[f];
        search->up[f] = search->down[f] = -1;
        if (may_rise(search, f)) {
            search->up[f] =
                lp_add_column(search->lp, price_of_up(search, f), 0.0, most_up(search, f));
            if (is_concentrate(of))
                lp_add_term(search->lp, search->step_row, search->up[f],
                            plan_taken_per_eaten(of));
        }
        if (search->now[f] > 0.0 && ration_feed_fills(of)) {
            search->down[f] = lp_add_column(search->lp, 1.0, 0.0, search->now[f]);
            lp_add_term(search->lp, search->away_row, search->down[f], 1.0);
        }
    }
    search->microbial = lp_add_column(search->lp, 0.0, 0.0, NO_LIMIT);
    search->lack = lp_add_column(search->lp, PRICE_OF_LACK, 0.0, NO_LIMIT);
}

/* sum a (now + up - down) + factor m on the side of the bound, with a = per_kg, and of a ratio
 * per_kg + (added - bound) base. */
static void add_side(Search *search, const RationLimit *limit, double bound, bool is_least,
                     bool may_lack) {
    double fixed = 0.0;
    const int row = lp_add_row(search->lp, -NO_LIMIT, NO_LIMIT);
    for (int f = 0; f < search->question->feed_count; f++) {
        const double a =
            limit->per_kg[f] + (limit->base ? (limit->added - bound) * limit->base[f] : 0.0);
        fixed += a * search->now[f];
        if (search->up[f] >= 0)
            lp_add_term(search->lp, row, search->up[f], a);
        if (search->down[f] >= 0)
            lp_add_term(search->lp, row, search->down[f], -a);
    }
    lp_add_term(search->lp, row, search->microbial, limit->microbial_factor);
    if (may_lack)
        lp_add_term(search->lp, row, search->lack, 1.0);
    const double side = (limit->base ? 0.0 : bound) - fixed;
    lp_set_row_bounds(search->lp, row, is_least ? side : -NO_LIMIT, is_least ? NO_LIMIT : side);
}

/* Held where the ration being fed holds it, and elsewhere no worse than that. */
static void add_limit(Search *search, const RationLimit *limit) {
    const double now = ration_supply(limit, search->question->feed_count, search->now,
                                     ration_microbial_kg(search->question, search->now));
    if (ration_limit_is_energy(limit)) {
        add_side(search, limit, limit->least, true, true);
        return;
    }
    if ((limit->base && !limit->safety) || limit->line_of != LAW_NONE || isnan(now))
        return;
    if (isfinite(limit->least))
        add_side(search, limit, fmin(limit->least, now), true, false);
    if (isfinite(limit->most))
        add_side(search, limit, fmax(limit->most, now), false, false);
}

static LpSolution solve_once(Arena *arena, Search *search) {
    search->lp = lp_new(arena);
    add_columns(search);
    int count;
    const RationLimit *const *limits =
        ration_limits_by(arena, search->table, search->block, search->state, &count);
    for (int i = 0; i < count; i++)
        add_limit(search, limits[i]);
    return lp_solve(search->lp, arena, START_COLD, NULL, 0);
}

static void read_eaten(const Search *search, const LpSolution *solution, double *eaten) {
    for (int f = 0; f < search->question->feed_count; f++) {
        const double up = search->up[f] >= 0 ? solution->value[search->up[f]] : 0.0;
        const double down = search->down[f] >= 0 ? solution->value[search->down[f]] : 0.0;
        const double change = fabs(up - down) > 1e-6 ? up - down : 0.0;
        eaten[f] = fmax(search->now[f] + change, 0.0);
    }
}

static void read_energy(const Search *search, ColdSpell *spell) {
    const PlanQuestion *question = search->question;
    const PlanBlock *block = &question->blocks[search->block];
    const HerdGroup *group = &question->farm->herd.groups[block->group];
    BlockOutcome outcome = {.eaten = spell->eaten, .state = search->state};
    outcome_run_forward(question, search->block, &outcome);
    const double need = requirement_nem(&block->need).mcal_per_day;
    const double lack = need - outcome.filling_kg * outcome.diet_nem;
    spell->lack_mcal = lack > NO_LACK ? lack : 0.0;
    if (block->need.retained.mcal_per_day > 0.0) {
        spell->gain_kg = outcome.gain_kg;
    } else if (!cattle_class_kind(group->cattle_class)->grows && spell->lack_mcal > 0.0) {
        const double score = fmin(fmax(block->need.condition, 1.0), 9.0);
        spell->condition_change =
            condition_after(block->need.live_weight, score,
                            (Energy){-COLD_SPELL_DAYS * spell->lack_mcal}) -
            score;
    }
}

static void search_ration(Arena *arena, Search *search, ColdSpell *spell) {
    double *eaten = ARENA_ARRAY(arena, double, search->question->feed_count);
    spell->eaten = search->now;
    for (int round = 0; round < ROUNDS; round++) {
        const LpSolution solution = solve_once(arena, search);
        if (solution.status != LP_OPTIMAL)
            break;
        read_eaten(search, &solution, eaten);
        spell->eaten = eaten;
        spell->is_held_by_step = solution.value[search->lack] > NO_LACK &&
                                 solution.shadow_price[search->step_row] < -1e-6;
        const BlockState before = search->state;
        search->state = ration_state(search->question, eaten, before);
        if (fabs(search->state.diet_nem / before.diet_nem - 1.0) < 1e-4 &&
            fabs(search->state.gain_per_upkeep - before.gain_per_upkeep) < 1e-4)
            break;
    }
    read_energy(search, spell);
}

static ColdWinter *cold_winter(Arena *arena, const WinterPlan *plan) {
    const PlanQuestion *question = plan->question;
    ColdWinter *winter = ARENA_NEW(arena, ColdWinter);
    *winter = (ColdWinter){.plan = plan, .question = *question};
    winter->blocks = ARENA_ARRAY(arena, PlanBlock, question->block_count);
    for (int b = 0; b < question->block_count; b++)
        winter->blocks[b] = question->blocks[b];
    winter->question.blocks = winter->blocks;
    winter->table = ration_table(arena, &winter->question);
    return winter;
}

/* Its ration is the arena's or the plan's. */
static ColdSpell spell_of(Arena *arena, ColdWinter *winter, int in_block) {
    const WinterPlan *plan = winter->plan;
    const PlanQuestion *question = plan->question;
    ColdSpell spell = {.block = -1};
    if (in_block < 0 || plan->blocks[in_block].filling_kg <= 0.0 ||
        question->blocks[in_block].need.cold_spell_energy <= COLD_WORTH_A_CHANGE)
        return spell;
    spell.block = in_block;
    const PlanBlock *block = &question->blocks[in_block];
    spell.air = spell_air(question, block);
    spell.added_mcal = block->need.cold_spell_energy;
    winter->blocks[in_block].need.energy.cold += spell.added_mcal;
    Search search = {
        .plan = plan,
        .question = &winter->question,
        .table = winter->table,
        .block = spell.block,
        .now = plan->blocks[spell.block].eaten,
        .up = ARENA_ARRAY(arena, int, question->feed_count),
        .down = ARENA_ARRAY(arena, int, question->feed_count),
    };
    search.state = ration_state(search.question, search.now, plan->blocks[spell.block].state);
    search_ration(arena, &search, &spell);
    winter->blocks[in_block] = *block;
    return spell;
}

/* The same; nothing else of it is left in the arena: each makes its programs. */
static ColdSpell spell_alone(Arena *arena, ColdWinter *winter, int in_block) {
    const int feeds = winter->question.feed_count;
    Arena *scratch = arena_open();
    ColdSpell spell = spell_of(scratch, winter, in_block);
    if (spell.block >= 0) {
        double *eaten = ARENA_ARRAY(arena, double, feeds);
        for (int f = 0; f < feeds; f++)
            eaten[f] = spell.eaten[f];
        spell.eaten = eaten;
    }
    arena_close(scratch);
    return spell;
}

ColdSpell cold_spell_in(Arena *arena, const WinterPlan *plan, int in_block) {
    Arena *scratch = arena_open();
    const ColdSpell spell = spell_alone(arena, cold_winter(scratch, plan), in_block);
    arena_close(scratch);
    return spell;
}

const ColdSpell *cold_spells(Arena *arena, const WinterPlan *plan) {
    const int groups = plan->question->farm->herd.count;
    ColdSpell *spells = ARENA_ARRAY(arena, ColdSpell, groups);
    Arena *scratch = arena_open();
    ColdWinter *winter = cold_winter(scratch, plan);
    for (int g = 0; g < groups; g++)
        spells[g] = spell_alone(arena, winter, worst_block(plan->question, g));
    arena_close(scratch);
    return spells;
}

const ColdSpell *cold_spells_by_period(Arena *arena, const WinterPlan *plan) {
    const PlanQuestion *question = plan->question;
    if (question->block_count > MOST_COLD_PERIODS)
        return NULL;
    ColdSpell *spells = ARENA_ARRAY(arena, ColdSpell, question->block_count);
    Arena *scratch = arena_open();
    ColdWinter *winter = cold_winter(scratch, plan);
    for (int b = 0; b < question->block_count; b++)
        spells[b] = spell_alone(arena, winter, b);
    arena_close(scratch);
    return spells;
}

double cold_spell_takes_kg(const WinterPlan *plan, const ColdSpell *spell, int feed) {
    const double change = spell->eaten[feed] - plan->blocks[spell->block].eaten[feed];
    return change * plan_taken_per_eaten(&plan->question->feeds[feed]) *
           plan->question->blocks[spell->block].head * COLD_SPELL_DAYS;
}
