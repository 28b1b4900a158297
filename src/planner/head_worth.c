#include "planner/head_worth.h"
#include "planner/can_balance.h"
#include "planner/least_cost.h"
#include <math.h>

/* Days of a block on or after a day. */
static int days_from(const PlanBlock *block, Day from) {
    if (calendar_days_between(from, block->from) >= 0)
        return block->days;
    const int days = calendar_days_between(from, block->to) + 1;
    return days > 0 ? days : 0;
}

PlanQuestion plan_question_with_head(Arena *arena, const PlanQuestion *question, int group,
                                     Day from, double more) {
    PlanQuestion changed = *question;
    PlanBlock *blocks = ARENA_ARRAY(arena, PlanBlock, question->block_count);
    for (int b = 0; b < question->block_count; b++) {
        blocks[b] = question->blocks[b];
        if (blocks[b].group == group && blocks[b].days > 0)
            blocks[b].head += more * days_from(&blocks[b], from) / blocks[b].days;
    }
    changed.blocks = blocks;
    return changed;
}

/* Head in the first period of the group that lasts to the day, and the fewest there are from
 * then on: more cannot be shipped. */
static double head_from(const PlanQuestion *question, int group, Day from, double *fewest) {
    double head = 0.0;
    *fewest = 0.0;
    for (int b = 0; b < question->block_count; b++) {
        const PlanBlock *block = &question->blocks[b];
        if (block->group != group || days_from(block, from) == 0)
            continue;
        *fewest = head > 0.0 ? fmin(*fewest, block->head) : block->head;
        head = head > 0.0 ? head : block->head;
    }
    return head;
}

/* Without yardage. */
static double least_cost(const PlanQuestion *question) {
    Arena *scratch = arena_open();
    const WinterPlan plan = plan_least_cost(scratch, question);
    const double cost = least_total(&plan) - plan.cost.yardage;
    arena_close(scratch);
    return cost;
}

static double cost_with(const PlanQuestion *question, int group, Day from, double more) {
    Arena *scratch = arena_open();
    const PlanQuestion changed = plan_question_with_head(scratch, question, group, from, more);
    const double cost = least_cost(&changed);
    arena_close(scratch);
    return cost;
}

typedef struct {
    Arena *arena;
    const PlanQuestion *own_feed; /* only minerals and supplements for sale */
    int group;
    Day from;
    PlanStart start;
} Shipping;

static bool is_enough(Shipping *shipping, int shipped) {
    Arena *scratch = arena_open();
    const PlanQuestion question = plan_question_with_head(
        scratch, shipping->own_feed, shipping->group, shipping->from, -shipped);
    const bool can = plan_can_be_balanced(shipping->arena, &question, &shipping->start, NULL);
    arena_close(scratch);
    return can;
}

/* Where so many shipped are enough, so are more: halved between too few and enough. */
static int enough_shipped(const PlanQuestion *question, int group, Day from, double fewest) {
    Arena *arena = arena_open();
    const Farm *farm = question->farm;
    const PlanQuestion own_feed =
        plan_question_own_feed_until(arena, question, farm->winter.last_day);
    BlockRoom room = {.arena = arena};
    Shipping shipping = {.arena = arena,
                         .own_feed = &own_feed,
                         .group = group,
                         .from = from,
                         .start = {.room = &room}};
    int enough = (int)floor(fewest) - (farm->herd.count > 1 ? 0 : 1);
    int too_few = -1;
    if (!is_enough(&shipping, enough))
        enough = -1;
    while (enough - too_few > 1) {
        const int middle = too_few < 0 ? 0 : (too_few + enough) / 2;
        if (is_enough(&shipping, middle))
            enough = middle;
        else
            too_few = middle;
    }
    arena_close(arena);
    return enough;
}

HeadWorth head_worth(const PlanQuestion *question, int group, Day from) {
    const double as_it_is = least_cost(question);
    double fewest;
    const double head = head_from(question, group, from, &fewest);
    HeadWorth worth = {
        .head = head,
        .saved_by_fewer = as_it_is - cost_with(question, group, from, -1.0),
        .cost_of_more = cost_with(question, group, from, 1.0) - as_it_is,
        .enough_shipped = enough_shipped(question, group, from, fewest),
    };
    for (int b = 0; b < question->block_count; b++) {
        if (question->blocks[b].group == group)
            worth.yardage += days_from(&question->blocks[b], from) *
                             question->farm->winter.yardage_per_head_day;
    }
    return worth;
}
