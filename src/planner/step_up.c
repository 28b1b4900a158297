#include "planner/step_up.h"
#include "cattle/limit_feeds.h"
#include "planner/fed_before.h"
#include "planner/ration_limit.h"
#include <math.h>

#define SAME_KG 1e-6

/* Half of what a page shows: so little more is no step of its own. Own choice. */
#define NO_STEP_KG 0.05

typedef enum { POUND_PACE, QUARTERS_PACE } Pace;

static const struct {
    const char *key;
    Pace pace;
    SourceKey source;
} REASONS[STEP_REASON_COUNT] = {
#define STEP_UP_REASON(id, key, pace, source) {key, pace##_PACE, SOURCE_##source},
#include "planner/step_up_reason.def"
#undef STEP_UP_REASON
};

const char *step_up_reason_key(StepUpReason reason) { return REASONS[reason].key; }

SourceKey step_up_source(StepUpReason reason) { return REASONS[reason].source; }

double step_up_grain(double rise_kg, int day) {
    const int step = day / GRAIN_STEP_DAYS + 1;
    const double kg = GRAIN_STEP_KG * step;
    return kg > rise_kg - NO_STEP_KG ? rise_kg : kg;
}

/* Of a little, as of urea, half a quarter is no step of its own. */
double step_up_quarter(double from_kg, double to_kg, int day) {
    const double quarter_kg = to_kg / QUARTER_COUNT;
    const int step = day / QUARTER_DAYS + 1;
    const double kg = from_kg + quarter_kg * step;
    return kg > to_kg - fmin(NO_STEP_KG, 0.5 * quarter_kg) ? to_kg : kg;
}

/* What is kept while one group is followed through the winter. */
typedef struct {
    Arena *arena;
    const WinterPlan *plan;
    int block;
    FedBefore before; /* of the group */
    double *reached;  /* [feeds] kg as fed put out a head, on the last day before the block */
    double *target;   /* the same, of the block */
    StepUpReason *reason;           /* [feeds] STEP_REASON_COUNT: it needs no steps */
    bool *is_stepped;               /* [feeds] */
    double rise[STEP_REASON_COUNT]; /* kg as fed a head, of all feeds that go by the pound for
                                       this reason together */
    double pound_rise;              /* of those reasons that rise at all */
} Walk;

static const PlanFeed *feed_at(const Walk *walk, int feed) {
    return &walk->plan->question->feeds[feed];
}

/* The lowest caution line for nitrate of the whole diet that holds in the block. */
static double nitrate_line(const Walk *walk) {
    const PlanQuestion *question = walk->plan->question;
    const PlanBlock *block = &question->blocks[walk->block];
    const HerdGroup *group = &question->farm->herd.groups[block->group];
    double line = NO_LIMIT;
    for (int i = 0; i < question->farm->limits.count; i++) {
        const SafetyLimit *limit = &question->farm->limits.limits[i];
        if (limit->kind == LIMIT_CONCENTRATION && limit->subject == SUBJECT_NUTRIENT &&
            limit->nutrient == NUTRIENT_NITRATE &&
            limit_applies(limit, block->need.stages, group->delivery))
            line = fmin(line, limit->warn);
    }
    return line;
}

/* What it is for a feed of this kind to come in, or STEP_REASON_COUNT. */
static StepUpReason reason_for(const Walk *walk, int feed, double nitrate_line) {
    const PlanFeed *of = feed_at(walk, feed);
    if (of->eaten[NUTRIENT_NITRATE] > nitrate_line)
        return STEP_NITRATE;
    if (limit_feeds_hold("brassica", of->feed))
        return STEP_BRASSICA;
    if (limit_feeds_hold("urea", of->feed))
        return STEP_UREA;
    if (limit_feeds_hold("grain", of->feed) || limit_feeds_hold("screenings_pellets", of->feed))
        return STEP_GRAIN;
    return feed_class_kind(of->feed->feed_class)->is_concentrate && ration_feed_fills(of)
               ? STEP_MEAL
               : STEP_REASON_COUNT;
}

static bool is_by_pound(StepUpReason reason) {
    return reason != STEP_REASON_COUNT && REASONS[reason].pace == POUND_PACE;
}

static void find_rises(Walk *walk) {
    walk->pound_rise = 0.0;
    for (int reason = 0; reason < STEP_REASON_COUNT; reason++)
        walk->rise[reason] = 0.0;
    for (int f = 0; f < walk->plan->question->feed_count; f++) {
        if (is_by_pound(walk->reason[f]))
            walk->rise[walk->reason[f]] += walk->target[f] - walk->reached[f];
    }
    for (int reason = 0; reason < STEP_REASON_COUNT; reason++)
        walk->pound_rise += fmax(walk->rise[reason], 0.0);
}

/* Grain does not go up faster because a meal goes down, nor the other way about. */
static bool is_to_be_stepped(const Walk *walk, int feed) {
    const StepUpReason reason = walk->reason[feed];
    const double from = walk->reached[feed], to = walk->target[feed];
    if (reason == STEP_REASON_COUNT || fabs(to - from) <= SAME_KG)
        return false;
    if (is_by_pound(reason))
        return walk->rise[reason] > 0.0 && walk->pound_rise > GRAIN_AT_ONCE_KG;
    return step_up_quarter(from, to, 0) < to;
}

/* Which feeds of the block are stepped; how many. */
static int find_stepped(Walk *walk) {
    const int feeds = walk->plan->question->feed_count;
    const double line = nitrate_line(walk);
    int count = 0;
    for (int f = 0; f < feeds; f++)
        walk->reason[f] = reason_for(walk, f, line);
    find_rises(walk);
    for (int f = 0; f < feeds; f++) {
        walk->is_stepped[f] = is_to_be_stepped(walk, f);
        count += walk->is_stepped[f];
    }
    return count;
}

/* Of a change from one grain to another each goes the same part of its way, and so do grain and
 * meals that rise together, so that all of it together goes up by the step. */
static double on_day(const Walk *walk, int feed, int day) {
    const double from = walk->reached[feed], to = walk->target[feed];
    if (!is_by_pound(walk->reason[feed]))
        return step_up_quarter(from, to, day);
    return from + (to - from) * step_up_grain(walk->pound_rise, day) / walk->pound_rise;
}

/* Dry matter eaten of the stepped feeds that is still lacking on a day. */
static double lacking_kg(const Walk *walk, int day) {
    double lacking = 0.0;
    for (int f = 0; f < walk->plan->question->feed_count; f++) {
        if (walk->is_stepped[f])
            lacking += (walk->target[f] - on_day(walk, f, day)) /
                       plan_taken_per_eaten(feed_at(walk, f));
    }
    return lacking;
}

static bool is_all_in(const Walk *walk, int day) {
    for (int f = 0; f < walk->plan->question->feed_count; f++) {
        if (walk->is_stepped[f] && fabs(walk->target[f] - on_day(walk, f, day)) > SAME_KG)
            return false;
    }
    return true;
}

/* Of what was fed till now the rest lies in the stack, or can be bought. */
static bool has_enough(const Walk *walk, int feed, double dry_kg) {
    const PlanFeed *of = feed_at(walk, feed);
    const PlanBlock *block = &walk->plan->question->blocks[walk->block];
    return of->available_kg - walk->plan->taken_kg[feed] >=
           dry_kg * plan_taken_per_eaten(of) * block->head;
}

/* Forage low in nitrate that the cattle have now or had till now, best what gives way to the
 * new feed, else most of what stays; straw only where there is nothing else. */
static int find_in_place(const Walk *walk, double dry_kg) {
    const PlanQuestion *question = walk->plan->question;
    const double line = nitrate_line(walk);
    int best[4] = {-1, -1, -1, -1};
    double most[4] = {0.0, 0.0, 0.0, 0.0};
    for (int f = 0; f < question->feed_count; f++) {
        const PlanFeed *of = &question->feeds[f];
        if (walk->is_stepped[f] || !limit_feeds_hold("forage", of->feed) ||
            of->eaten[NUTRIENT_NITRATE] > line ||
            plan_permission(question, walk->block, f) != MAY_BE_FED)
            continue;
        const double given_up = walk->reached[f] - walk->target[f];
        const bool gives_way = given_up > SAME_KG && has_enough(walk, f, dry_kg);
        const double amount = gives_way ? given_up : walk->target[f];
        const int rank = (limit_feeds_hold("straw", of->feed) ? 2 : 0) + (gives_way ? 0 : 1);
        if (amount > most[rank] + SAME_KG) {
            most[rank] = amount;
            best[rank] = f;
        }
    }
    for (int rank = 0; rank < 4; rank++) {
        if (best[rank] >= 0)
            return best[rank];
    }
    return -1;
}

static void set_feeds(const Walk *walk, int count, StepUp *of) {
    StepUpFeed *feeds = ARENA_ARRAY(walk->arena, StepUpFeed, count);
    double *put_out = ARENA_ARRAY(walk->arena, double, of->days *count);
    of->feed_count = 0;
    for (int f = 0; f < walk->plan->question->feed_count; f++) {
        if (!walk->is_stepped[f])
            continue;
        for (int day = 0; day < of->days; day++)
            put_out[day * count + of->feed_count] = on_day(walk, f, day);
        feeds[of->feed_count++] =
            (StepUpFeed){f, walk->reason[f], walk->reached[f], walk->target[f]};
    }
    of->feeds = feeds;
    of->put_out_kg = put_out;
}

/* Dry matter of one feed that may stand in beside the others of the ration: of straw what they
 * digest by their weight, or what the ration has of it. */
static double most_in_place_kg(const Walk *walk, int feed) {
    const PlanQuestion *question = walk->plan->question;
    const PlanBlock *block = &question->blocks[walk->block];
    const double *eaten = walk->plan->blocks[walk->block].eaten;
    double most = NO_LIMIT;
    for (int i = 0; i < question->farm->limits.count; i++) {
        const SafetyLimit *limit = &question->farm->limits.limits[i];
        if (limit->kind != LIMIT_WEIGHT_SHARE || limit->side != SIDE_MOST ||
            !limit_covers(limit, feed_at(walk, feed)->feed) ||
            !limit_applies(limit, block->need.stages,
                           question->farm->herd.groups[block->group].delivery))
            continue;
        double others = 0.0;
        for (int f = 0; f < question->feed_count; f++)
            others += f != feed && limit_covers(limit, feed_at(walk, f)->feed) ? eaten[f] : 0.0;
        most = fmin(most, limit->hard * block->need.live_weight.kg - others);
    }
    return fmax(most, eaten[feed]);
}

static void set_in_place(const Walk *walk, StepUp *of) {
    double *in_place = ARENA_ARRAY(walk->arena, double, of->days);
    double dry_kg = 0.0;
    for (int day = 0; day < of->days; day++)
        dry_kg += lacking_kg(walk, day);
    of->in_place = find_in_place(walk, dry_kg);
    of->in_place_kg = in_place;
    if (of->in_place < 0)
        return;
    const double taken = plan_taken_per_eaten(feed_at(walk, of->in_place));
    const double most = most_in_place_kg(walk, of->in_place);
    const PlanBlock *block = &walk->plan->question->blocks[walk->block];
    for (int day = 0; day < of->days; day++) {
        const double wanted =
            fmax(walk->target[of->in_place] / taken + lacking_kg(walk, day), 0.0);
        of->missing_kg = fmax(of->missing_kg, wanted - most);
        in_place[day] = fmin(wanted, most) * taken;
        of->more_kg += (in_place[day] - walk->target[of->in_place]) * block->head;
    }
}

static StepUp step_up_of(const Walk *walk, int count, bool is_first) {
    const PlanBlock *block = &walk->plan->question->blocks[walk->block];
    StepUp of = {.group = block->group,
                 .block = walk->block,
                 .from = block->from,
                 .is_first = is_first,
                 .is_used_to_some = is_first && walk->before.is_known};
    while (of.days < block->days && (of.days == 0 || !is_all_in(walk, of.days - 1)))
        of.days++;
    set_feeds(walk, count, &of);
    set_in_place(walk, &of);
    return of;
}

static void read_target(Walk *walk) {
    for (int f = 0; f < walk->plan->question->feed_count; f++)
        walk->target[f] =
            walk->plan->blocks[walk->block].eaten[f] * plan_taken_per_eaten(feed_at(walk, f));
}

static void reach_end(Walk *walk) {
    const int last = walk->plan->question->blocks[walk->block].days - 1;
    for (int f = 0; f < walk->plan->question->feed_count; f++)
        walk->reached[f] = walk->is_stepped[f] ? on_day(walk, f, last) : walk->target[f];
}

static bool has_just_come(const Walk *walk) {
    const PlanBlock *of = &walk->plan->question->blocks[walk->block];
    return walk->block > 0 && of[-1].group == of->group;
}

/* Cattle that come where the group had gone are used to nothing. */
static void begin_cattle(Walk *walk) {
    const PlanQuestion *question = walk->plan->question;
    walk->before = fed_before(walk->arena, question, question->blocks[walk->block].group);
    walk->before.is_known = walk->before.is_known && !has_just_come(walk);
    for (int f = 0; f < question->feed_count; f++)
        walk->reached[f] = walk->before.is_known ? walk->before.kg[f] : 0.0;
}

int step_ups(Arena *arena, const WinterPlan *plan, const StepUp **list) {
    const PlanQuestion *question = plan->question;
    StepUp *found = ARENA_ARRAY(arena, StepUp, question->block_count);
    Walk walk = {
        .arena = arena,
        .plan = plan,
        .reached = ARENA_ARRAY(arena, double, question->feed_count),
        .target = ARENA_ARRAY(arena, double, question->feed_count),
        .reason = ARENA_ARRAY(arena, StepUpReason, question->feed_count),
        .is_stepped = ARENA_ARRAY(arena, bool, question->feed_count),
    };
    int count = 0;
    for (int b = 0; b < question->block_count; b++) {
        const bool is_first = !plan_goes_on(question, b);
        walk.block = b;
        if (is_first)
            begin_cattle(&walk);
        read_target(&walk);
        const int stepped = find_stepped(&walk);
        if (stepped > 0 && !is_all_in(&walk, 0))
            found[count++] = step_up_of(&walk, stepped, is_first);
        reach_end(&walk);
    }
    *list = found;
    return count;
}
