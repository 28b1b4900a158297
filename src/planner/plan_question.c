#include "planner/plan_question.h"
#include "base/text.h"
#include "planner/feed_permission.h"
#include <math.h>

/* What is wasted is richer in leaf than what is eaten, so protein is thinned by the feeding's
 * factor; everything else is taken as even. */
static void set_eaten(PlanFeed *plan_feed, double protein_left) {
    const Feedstuff *feed = plan_feed->feed;
    for (int i = 0; i < NUTRIENT_COUNT; i++)
        plan_feed->eaten[i] = reading_or(feed->analysis.of[i], (double)NAN);
    plan_feed->eaten[NUTRIENT_NITRATE] = feed->nitrate_for_safety;
    plan_feed->eaten[NUTRIENT_CRUDE_PROTEIN] *= protein_left;
    const double crude_g =
        10.0 * reading_or(feed->analysis.of[NUTRIENT_CRUDE_PROTEIN], 0.0) * protein_left;
    /* Protein of which nobody knows how much the rumen degrades feeds neither microbes nor cow.
     */
    const Reading split = feed->analysis.of[NUTRIENT_DEGRADABLE_SHARE];
    if (!reading_is_known(split))
        return;
    plan_feed->degraded = crude_g * split.value / 100.0;
    plan_feed->undegraded = crude_g - plan_feed->degraded;
}

static PlanFeed own_feed(const Stack *stack, int place) {
    PlanFeed feed = {
        .name = stack->name,
        .is_own = true,
        .place = place,
        .feed = &stack->feed,
        .dry_share = stack->feed.analysis.dry_matter.value / 100.0,
        .waste_share = stack->waste_share,
        .value_per_kg = stack->value_per_kg,
        .haul_per_kg = stack->haul_per_kg,
        .yard = stack->yard,
        .other_yard_per_kg = stack->other_yard_per_kg,
        .put_up = stack->put_up,
        .put_up_is_told = stack->has_cut,
        .available_kg = stack_as_fed(stack).kg,
        .weight_error_share = stack->weight_error_share,
        .bale_kg = stack->bale_count > 0.0 ? stack_as_fed(stack).kg / stack->bale_count : 0.0,
        .has_face = stack_has_face(stack),
        .least_face_kg_per_day = stack->least_face_kg_per_day,
        .allowance = &stack->allowance,
        .is_supplement = true,
    };
    set_eaten(&feed, stack->protein_left);
    return feed;
}

static PlanFeed bought_feed(const Offer *offer, int place) {
    PlanFeed feed = {
        .name = offer->name,
        .place = place,
        .feed = &offer->feed,
        .dry_share = offer->feed.analysis.dry_matter.value / 100.0,
        .waste_share = offer->waste_share,
        .shrink_share = offer->shrink_share,
        .price_per_kg = offer->price_per_kg,
        .haul_per_kg = offer->haul_per_kg,
        .put_up = offer->allowance.from,
        .available_kg = offer->most_kg,
        .load_kg = offer->load_kg,
        .allowance = &offer->allowance,
        .delivered_until = offer->has_delivered_until ? &offer->delivered_until : NULL,
        .is_supplement = offer->is_supplement || offer->feed.feed_class == FEED_CLASS_MINERAL,
    };
    set_eaten(&feed, offer->protein_left);
    return feed;
}

double plan_taken_per_eaten(const PlanFeed *feed) {
    return 1.0 / ((1.0 - feed->waste_share) * feed->dry_share);
}

/* Where either yard is not said, nothing is known of the way between them. */
double plan_haul_per_kg(const PlanQuestion *question, int block, int feed) {
    const PlanFeed *of = &question->feeds[feed];
    if (of->other_yard_per_kg <= 0.0)
        return of->haul_per_kg;
    const char *yard = question->farm->herd.groups[question->blocks[block].group].yard;
    const bool is_other =
        yard[0] != '\0' && of->yard[0] != '\0' && !text_same_letters(yard, of->yard);
    return of->haul_per_kg + (is_other ? of->other_yard_per_kg : 0.0);
}

double plan_cost_per_eaten(const PlanQuestion *question, int block, int feed) {
    const PlanFeed *of = &question->feeds[feed];
    const double paid = of->price_per_kg / (1.0 - of->shrink_share);
    return (paid + of->value_per_kg + plan_haul_per_kg(question, block, feed)) *
           plan_taken_per_eaten(of);
}

static const PlanFeed *list_feeds(Arena *arena, const Farm *farm, int *count) {
    const Inventory *inventory = &farm->inventory;
    *count = inventory->stacks.count + inventory->for_sale.count;
    PlanFeed *feeds = ARENA_ARRAY(arena, PlanFeed, *count);
    for (int i = 0; i < inventory->stacks.count; i++)
        feeds[i] = own_feed(&inventory->stacks.stacks[i], i);
    for (int i = 0; i < inventory->for_sale.count; i++)
        feeds[inventory->stacks.count + i] = bought_feed(&inventory->for_sale.offers[i], i);
    return feeds;
}

typedef struct {
    const FeedingPeriod *periods;
    int count;
} GroupPeriods;

/* Of each group; `all` is how many there are. */
static GroupPeriods *list_periods(Arena *arena, const Farm *farm, int *all) {
    GroupPeriods *of_groups = ARENA_ARRAY(arena, GroupPeriods, farm->herd.count);
    *all = 0;
    for (int group = 0; group < farm->herd.count; group++) {
        GroupPeriods *of = &of_groups[group];
        of->count = feeding_periods(arena, farm, &farm->herd.groups[group], &of->periods);
        *all += of->count;
    }
    return of_groups;
}

static PlanBlock block_of(const Farm *farm, int group, FeedingPeriod period, double head) {
    PlanBlock block = {
        .group = group,
        .from = period.from,
        .to = period.to,
        .days = calendar_days_between(period.from, period.to) + 1,
        .head = head,
        .need = requirement_of(&farm->herd.groups[group], &farm->weather, farm->minerals,
                               winter_weighing_day(&farm->winter), period.from, period.to),
    };
    block.by_equations = block.need;
    block.by_table = requirement_by_table(farm->requirement_table, &block.need);
    if (farm->winter.needs_way == NEEDS_BY_TABLE)
        requirement_follow_table(&block.by_table, &block.need);
    own_needs_apply(&farm->own_needs, group, block.from, block.to, &block.need);
    return block;
}

static const PlanBlock *list_blocks(Arena *arena, const Farm *farm, int *count) {
    Arena *scratch = arena_open();
    int all;
    const GroupPeriods *of_groups = list_periods(scratch, farm, &all);
    PlanBlock *blocks = ARENA_ARRAY(arena, PlanBlock, all);
    *count = 0;
    for (int group = 0; group < farm->herd.count; group++) {
        for (int p = 0; p < of_groups[group].count; p++) {
            const FeedingPeriod period = of_groups[group].periods[p];
            const double head = head_on(&farm->head_changes, &farm->herd, group, period.from);
            if (head > 0.0) /* or gone, or not come yet */
                blocks[(*count)++] = block_of(farm, group, period, head);
        }
    }
    arena_close(scratch);
    return blocks;
}

/* Of the feeds that hang on others, when the permissions of these stand. */
static void set_hanging(const PlanQuestion *question, Permission *permission,
                        const SafetyLimit **barred_by) {
    const int cells = question->block_count * question->feed_count;
    for (int cell = 0; cell < cells; cell++) {
        const int feed = cell % question->feed_count;
        if (feed_hangs_on_others(&question->feeds[feed]))
            permission[cell] =
                feed_permission(question, cell / question->feed_count, feed, &barred_by[cell]);
    }
}

static void set_permissions(Arena *arena, PlanQuestion *question) {
    const size_t count = (size_t)question->block_count * (size_t)question->feed_count;
    Permission *permission = ARENA_ARRAY(arena, Permission, count);
    const SafetyLimit **barred_by = ARENA_ARRAY(arena, const SafetyLimit *, count);
    question->permission = permission;
    question->barred_by = barred_by;
    for (int cell = 0; cell < (int)count; cell++) {
        const int feed = cell % question->feed_count;
        if (!feed_hangs_on_others(&question->feeds[feed]))
            permission[cell] =
                feed_permission(question, cell / question->feed_count, feed, &barred_by[cell]);
    }
    set_hanging(question, permission, barred_by);
}

/* As they stand in a question of the same feeds, or of one less, but for `feed` and what
 * hangs on it. */
static void set_permissions_like(Arena *arena, const PlanQuestion *whole,
                                 PlanQuestion *question, int feed) {
    const int count = question->feed_count;
    const size_t cells = (size_t)question->block_count * (size_t)count;
    Permission *permission = ARENA_ARRAY(arena, Permission, cells);
    const SafetyLimit **barred_by = ARENA_ARRAY(arena, const SafetyLimit *, cells);
    question->permission = permission;
    question->barred_by = barred_by;
    for (int b = 0; b < question->block_count; b++) {
        for (int f = 0; f < whole->feed_count; f++) {
            permission[b * count + f] = whole->permission[b * whole->feed_count + f];
            barred_by[b * count + f] = whole->barred_by[b * whole->feed_count + f];
        }
        permission[b * count + feed] =
            feed_permission(question, b, feed, &barred_by[b * count + feed]);
    }
    set_hanging(question, permission, barred_by);
}

PlanQuestion plan_question(Arena *arena, const Farm *farm) {
    PlanQuestion question = {.farm = farm, .own_count = farm->inventory.stacks.count};
    question.feeds = list_feeds(arena, farm, &question.feed_count);
    question.blocks = list_blocks(arena, farm, &question.block_count);
    set_permissions(arena, &question);
    return question;
}

PlanQuestion plan_question_until(Arena *arena, const PlanQuestion *whole, Day last_day) {
    PlanQuestion cut = *whole;
    PlanBlock *blocks = ARENA_ARRAY(arena, PlanBlock, whole->block_count);
    for (int block = 0; block < whole->block_count; block++) {
        blocks[block] = whole->blocks[block];
        if (calendar_days_between(last_day, blocks[block].to) <= 0)
            continue;
        const int days = calendar_days_between(blocks[block].from, last_day) + 1;
        blocks[block].days = days > 0 ? days : 0;
        if (days > 0)
            blocks[block].to = last_day;
    }
    cut.blocks = blocks;
    return cut;
}

PlanQuestion plan_question_own_feed_until(Arena *arena, const PlanQuestion *whole,
                                          Day last_day) {
    PlanQuestion cut = plan_question_until(arena, whole, last_day);
    PlanFeed *feeds = ARENA_ARRAY(arena, PlanFeed, whole->feed_count);
    for (int feed = 0; feed < whole->feed_count; feed++) {
        feeds[feed] = whole->feeds[feed];
        if (!feeds[feed].is_supplement)
            feeds[feed].available_kg = 0.0;
    }
    cut.feeds = feeds;
    return cut;
}

PlanQuestion plan_question_with_offer(Arena *arena, const PlanQuestion *whole,
                                      const Offer *offer) {
    PlanQuestion more = *whole;
    const int count = more.feed_count = whole->feed_count + 1;
    PlanFeed *feeds = ARENA_ARRAY(arena, PlanFeed, count);
    for (int f = 0; f < whole->feed_count; f++)
        feeds[f] = whole->feeds[f];
    feeds[count - 1] = bought_feed(offer, whole->feed_count - whole->own_count);
    more.feeds = feeds;
    set_permissions_like(arena, whole, &more, count - 1);
    return more;
}

PlanQuestion plan_question_with_feed(Arena *arena, const PlanQuestion *whole, int feed,
                                     const PlanFeed *as_told) {
    PlanQuestion other = *whole;
    const int count = whole->feed_count;
    PlanFeed *feeds = ARENA_ARRAY(arena, PlanFeed, count);
    for (int f = 0; f < count; f++)
        feeds[f] = f == feed ? *as_told : whole->feeds[f];
    other.feeds = feeds;
    set_permissions_like(arena, whole, &other, feed);
    return other;
}

PlanQuestion plan_question_without_cautions(Arena *arena, const PlanQuestion *whole) {
    PlanQuestion lighter = *whole;
    Farm *farm = ARENA_NEW(arena, Farm);
    *farm = *whole->farm;
    farm->winter.caution_weight = 0.0;
    lighter.farm = farm;
    return lighter;
}

int plan_blocks_of_group(const PlanQuestion *question, int first) {
    int count = 1;
    while (first + count < question->block_count &&
           question->blocks[first + count].group == question->blocks[first].group)
        count++;
    return count;
}

bool plan_goes_on(const PlanQuestion *question, int block) {
    const PlanBlock *of = &question->blocks[block];
    return block > 0 && of[-1].group == of->group &&
           calendar_days_between(of[-1].to, of->from) == 1;
}

Permission plan_permission(const PlanQuestion *question, int block, int feed) {
    return question->permission[block * question->feed_count + feed];
}

const SafetyLimit *plan_limit_against(const PlanQuestion *question, int block, int feed) {
    return limit_that_bars(question, block, feed);
}

bool plan_suits_group(const PlanQuestion *question, int block, int feed) {
    const HerdGroup *group = &question->farm->herd.groups[question->blocks[block].group];
    return allowance_covers(question->feeds[feed].allowance, group->name) &&
           !plan_limit_against(question, block, feed);
}

bool plan_is_past_hauling(const PlanQuestion *question, int feed) {
    const Day *until = question->feeds[feed].delivered_until;
    return until && calendar_days_between(*until, question->farm->winter.first_day) > 0;
}

bool plan_may_be_fed(const PlanQuestion *question, int feed) {
    for (int b = 0; b < question->block_count; b++) {
        if (plan_permission(question, b, feed) == MAY_BE_FED)
            return true;
    }
    return false;
}
