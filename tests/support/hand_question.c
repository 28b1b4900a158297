#include "support/hand_question.h"

HandQuestion *hand_question(Arena *arena, int days) {
    HandQuestion *hand = ARENA_NEW(arena, HandQuestion);
    Farm *farm = &hand->farm;
    farm->winter.first_day = calendar_day(2026, 11, 1);
    farm->winter.last_day = calendar_add(farm->winter.first_day, days - 1);
    farm->winter.is_readable = true;
    farm->minerals = &hand->minerals;
    farm->limits.limits = hand->limits;
    farm->herd.groups = hand->groups;
    farm->herd.names = hand->names;
    hand->always = (Allowance){.from = farm->winter.first_day, .until = farm->winter.last_day};
    hand->question = (PlanQuestion){
        .farm = farm,
        .feeds = hand->feeds,
        .blocks = hand->blocks,
        .permission = hand->permission,
        .barred_by = hand->barred_by,
    };
    return hand;
}

static PlanFeed *add_feed(HandQuestion *hand, const char *name) {
    const int place = hand->question.feed_count++;
    Feedstuff *stuff = &hand->stuffs[place];
    stuff->name = name;
    stuff->book_feed = "";
    stuff->feed_class = FEED_CLASS_GRASS;
    PlanFeed *feed = &hand->feeds[place];
    feed->name = name;
    feed->feed = stuff;
    feed->dry_share = 0.9;
    feed->waste_share = 0.1;
    feed->degraded = 80.0;
    feed->undegraded = 20.0;
    feed->available_kg = NO_LIMIT;
    feed->allowance = &hand->always;
    feed->eaten[NUTRIENT_NEM] = 1.2;
    feed->eaten[NUTRIENT_NEG] = 0.6;
    feed->eaten[NUTRIENT_TDN] = 55.0;
    feed->eaten[NUTRIENT_CRUDE_PROTEIN] = 10.0;
    feed->eaten[NUTRIENT_NDF] = 60.0;
    return feed;
}

PlanFeed *hand_own(HandQuestion *hand, const char *name, double value, double available_kg) {
    PlanFeed *feed = add_feed(hand, name);
    feed->place = hand->question.own_count++;
    feed->is_own = feed->is_supplement = true;
    feed->value_per_kg = value;
    feed->available_kg = available_kg;
    return feed;
}

PlanFeed *hand_offer(HandQuestion *hand, const char *name, double price) {
    PlanFeed *feed = add_feed(hand, name);
    feed->price_per_kg = price;
    feed->place = hand->question.feed_count - hand->question.own_count - 1;
    return feed;
}

/* Coefficients of nothing but the part that is added: the law is that many kg. */
static IntakeLaw always_eats(double kg) { return (IntakeLaw){.added = kg}; }

static PlanBlock *add_block(HandQuestion *hand, int group, Day from, double energy, int days) {
    PlanBlock *block = &hand->blocks[hand->question.block_count++];
    *block = (PlanBlock){
        .group = group,
        .from = from,
        .to = calendar_add(from, days - 1),
        .days = days,
        .head = hand->groups[group].head,
    };
    block->need.live_weight = (Mass){600.0};
    block->need.shrunk = (Mass){576.0};
    block->need.stages = STAGE_BIT(STAGE_OPEN);
    block->need.energy.maintenance = energy;
    block->need.ndf_most_kg = 7.5;
    block->need.least = always_eats(9.0);
    block->need.most = always_eats(12.0);
    block->by_equations = block->need;
    return block;
}

PlanBlock *hand_group(HandQuestion *hand, const char *name, double head, double energy_mcal,
                      int days) {
    const int group = hand->farm.herd.count++;
    hand->groups[group].name = hand->names[group] = name;
    hand->groups[group].head = head;
    hand->groups[group].weight = (Mass){600.0};
    hand->groups[group].condition = 5.0;
    hand->groups[group].breed_factor = 1.0;
    return add_block(hand, group, hand->farm.winter.first_day, energy_mcal, days);
}

PlanBlock *hand_period(HandQuestion *hand, double energy_mcal, int days) {
    const PlanBlock *last = &hand->blocks[hand->question.block_count - 1];
    return add_block(hand, last->group, calendar_add(last->to, 1), energy_mcal, days);
}

SafetyLimit *hand_limit(HandQuestion *hand, SafetyLimit limit) {
    SafetyLimit *place = &hand->limits[hand->farm.limits.count++];
    *place = limit;
    return place;
}

static SafetyLimit *add_most(HandQuestion *hand, const char *id, double warn, double hard) {
    return hand_limit(hand, (SafetyLimit){.id = id,
                                          .label = id,
                                          .stages = STAGE_ALL,
                                          .side = SIDE_MOST,
                                          .warn = warn,
                                          .hard = hard});
}

SafetyLimit *hand_nutrient_limit(HandQuestion *hand, const char *id, Nutrient nutrient,
                                 double warn, double hard) {
    SafetyLimit *limit = add_most(hand, id, warn, hard);
    limit->kind = LIMIT_CONCENTRATION;
    limit->subject = SUBJECT_NUTRIENT;
    limit->nutrient = nutrient;
    return limit;
}

SafetyLimit *hand_feeds_limit(HandQuestion *hand, const char *id, LimitKind kind,
                              const char *feeds, double warn, double hard) {
    SafetyLimit *limit = add_most(hand, id, warn, hard);
    limit->kind = kind;
    limit->subject = SUBJECT_FEEDS;
    limit->subject_text = feeds;
    return limit;
}

SafetyLimit *hand_nitrate_limit(HandQuestion *hand, double hard_pct) {
    SafetyLimit *limit =
        hand_nutrient_limit(hand, "nitrate_total", NUTRIENT_NITRATE, hard_pct * 0.6, hard_pct);
    limit->label = "Nitrate of the whole diet";
    return limit;
}

void hand_bar(HandQuestion *hand, int block, int feed, const SafetyLimit *limit) {
    const int at = block * hand->question.feed_count + feed;
    hand->permission[at] = OVER_A_LIMIT;
    hand->barred_by[at] = limit;
}

void hand_not_then(HandQuestion *hand, int block, int feed) {
    hand->permission[block * hand->question.feed_count + feed] = NOT_AT_THAT_TIME;
}
