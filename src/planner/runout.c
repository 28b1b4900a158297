#include "planner/runout.h"
#include <math.h>

#define EMPTY_SHARE 1e-3
#define ROUNDING_SHARE 1e-9

const StackRunout *stack_runouts(Arena *arena, const WinterPlan *plan) {
    const PlanQuestion *question = plan->question;
    StackRunout *runouts = ARENA_ARRAY(arena, StackRunout, question->own_count);
    for (int f = 0; f < question->own_count; f++) {
        const PlanFeed *feed = &question->feeds[f];
        StackRunout *of = &runouts[f];
        const double left = feed->available_kg - plan->taken_kg[f];
        of->left_kg = left > ROUNDING_SHARE * feed->available_kg ? left : 0.0;
        for (int b = 0; b < question->block_count; b++) {
            const PlanBlock *block = &question->blocks[b];
            if (plan->blocks[b].eaten[f] <= 0.0)
                continue;
            if (!of->is_used || calendar_days_between(of->last_fed, block->to) > 0)
                of->last_fed = block->to;
            if (!of->is_used || calendar_days_between(block->from, of->first_fed) > 0)
                of->first_fed = block->from;
            of->is_used = true;
        }
        const Day last_day = question->farm->winter.last_day;
        of->runs_out = of->is_used && of->left_kg <= EMPTY_SHARE * feed->available_kg &&
                       calendar_days_between(of->last_fed, last_day) > 0;
    }
    return runouts;
}

/* The published intake on a middling forage, or a farm's own figure of the most below it. A
 * farm's own figure of the least is where hunger begins, not what they would eat. */
#define MIDDLING_NEM 1.25

static double would_eat(const PlanBlock *block) {
    const EnergyDensity middling = {MIDDLING_NEM};
    const Requirement *need = &block->need;
    const double published =
        intake_at(block->by_equations.least, need->shrunk, middling).kg_per_day / SATIETY_SHARE;
    return fmin(published, intake_at(need->most, need->shrunk, middling).kg_per_day);
}

double group_eaten_per_day(const WinterPlan *plan, int group) {
    double eaten = 0.0;
    for (int b = 0; b < plan->question->block_count; b++) {
        const PlanBlock *block = &plan->question->blocks[b];
        const double a_day =
            plan->verdict == PLAN_BALANCED ? plan->blocks[b].dry_matter_kg : would_eat(block);
        if (block->group == group)
            eaten += a_day * block->head * block->days;
    }
    return eaten / winter_days(&plan->question->farm->winter);
}

double eaten_per_day(const WinterPlan *plan) {
    double eaten = 0.0;
    for (int g = 0; g < plan->question->farm->herd.count; g++)
        eaten += group_eaten_per_day(plan, g);
    return eaten;
}

#define MOST_GUESSES 4 /* by prices alone */

typedef struct {
    Arena *arena;
    const PlanQuestion *question;
    PlanStart start;
} Days;

static PlanQuestion first_days(Arena *arena, const PlanQuestion *question, int days) {
    const Day first = question->farm->winter.first_day;
    return plan_question_own_feed_until(arena, question, calendar_add(first, days - 1));
}

static bool can_last(Days *days, int count) {
    Arena *scratch = arena_open();
    const PlanQuestion cut = first_days(scratch, days->question, count);
    const bool can = plan_can_be_balanced(days->arena, &cut, &days->start, NULL);
    arena_close(scratch);
    return can;
}

/* The most days, of those between, that the prices of the last shortage do not rule out: where
 * they rule some out, all the more are. */
static int not_ruled_out(const Days *days, int can, int cannot) {
    while (cannot - can > 1) {
        const int count = can + (cannot - can) / 2;
        Arena *scratch = arena_open();
        const PlanQuestion cut = first_days(scratch, days->question, count);
        const bool is_out = plan_must_be_short(&cut, &days->start);
        arena_close(scratch);
        if (is_out)
            cannot = count;
        else
            can = count;
    }
    return can;
}

/* The last day to which the herd can be balanced: if one day can, so can every earlier one. The
 * prices of a shortage say how many days would be without, by the laws as they stood there;
 * that many are tried, then one more, and where neither is the last the days between are
 * halved. */
static void find_balanced(Arena *arena, const PlanQuestion *question, DaysOnHand *of) {
    const Winter *winter = &question->farm->winter;
    Arena *scratch = arena_open();
    BlockRoom room = {.arena = scratch};
    Days days = {.arena = scratch, .question = question, .start = {.room = &room}};
    int can = 0;
    int cannot = winter_days(winter) + 1;
    int next = cannot - 1;
    int back = 0; /* days, where the laws say other than the prices */
    for (int tries = 1; cannot - can > 1; tries++) {
        if (can_last(&days, next)) {
            const bool was_one_more = next == can + 1;
            can = next;
            next = was_one_more ? (can + cannot) / 2 : can + 1;
            continue;
        }
        cannot = next;
        back = tries > MOST_GUESSES ? 2 * back + 1 : 0;
        next = not_ruled_out(&days, can, cannot) - back;
        next = next > can ? next : can + 1;
    }
    of->balanced_days = can;
    of->balanced_until = calendar_add(winter->first_day, can - 1);
    of->lasts_all_winter = can == winter_days(winter);
    if (!of->lasts_all_winter) {
        const PlanQuestion after = first_days(arena, question, can + 1);
        plan_can_be_balanced(arena, &after, &days.start, &of->stopped_by);
    }
    arena_close(scratch);
}

DaysOnHand days_by_weight(const WinterPlan *plan) {
    const PlanQuestion *question = plan->question;
    DaysOnHand days = {.stopped_by = {-1, NULL}};
    for (int f = 0; f < question->own_count; f++) {
        const PlanFeed *feed = &question->feeds[f];
        const double can_be_eaten =
            feed->available_kg * feed->dry_share * (1.0 - feed->waste_share);
        if (plan_may_be_fed(question, f))
            days.dry_matter_kg += can_be_eaten;
        else
            days.barred_kg += feed->available_kg;
    }
    days.eaten_per_day_kg = eaten_per_day(plan);
    days.gross_days =
        days.eaten_per_day_kg > 0.0 ? days.dry_matter_kg / days.eaten_per_day_kg : (double)NAN;
    return days;
}

DaysOnHand days_on_hand(Arena *arena, const WinterPlan *plan) {
    DaysOnHand days = days_by_weight(plan);
    find_balanced(arena, plan->question, &days);
    return days;
}

DaysOnHand group_days_on_hand(Arena *arena, const WinterPlan *plan, int group) {
    const PlanQuestion alone = question_of_group(plan->question, group);
    DaysOnHand days = {.stopped_by = {-1, NULL}};
    if (alone.block_count > 0)
        find_balanced(arena, &alone, &days);
    return days;
}
