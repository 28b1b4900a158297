#include "planner/yard_program.h"
#include <math.h>
#include <string.h>

#define MOST_EATEN_SHARE 0.035 /* of live weight, dry matter a day; own choice */

typedef struct {
    Arena *arena;
    YardProgram *yard;
    const PlanQuestion *question;
    const FeedingRules *rules;
} Builder;

static int at(const Builder *builder, int block, int feed) {
    return block * builder->question->feed_count + feed;
}

static int eaten(const Builder *builder, int block, int feed) {
    return builder->yard->base->eaten[at(builder, block, feed)];
}

/* Minerals and urea are in most rations and count as no feed. */
static bool counts(const Builder *builder, int block, int feed) {
    return eaten(builder, block, feed) >= 0 &&
           ration_feed_fills(&builder->question->feeds[feed]);
}

static double most_dry_matter(const PlanBlock *block) {
    return MOST_EATEN_SHARE * block->need.live_weight.kg;
}

double yard_most_eaten(const PlanQuestion *question, int block, int feed) {
    const PlanBlock *of = &question->blocks[block];
    const PlanFeed *plan_feed = &question->feeds[feed];
    const double fed_kg = plan_feed->available_kg * (1.0 - plan_feed->shrink_share);
    const double taken = plan_taken_per_eaten(plan_feed) * of->head * of->days;
    return taken > 0.0 ? fmin(most_dry_matter(of), fed_kg / taken) : most_dry_matter(of);
}

static int whole_column(Builder *builder, double most) {
    const int column = lp_add_column(builder->yard->lp, 0.0, 0.0, most);
    lp_set_whole(builder->yard->lp, column, true);
    return column;
}

static int most_row(Builder *builder, double most) {
    return lp_add_row(builder->yard->lp, -NO_LIMIT, most);
}

static void term(Builder *builder, int row, int column, double coefficient) {
    if (column >= 0)
        lp_add_term(builder->yard->lp, row, column, coefficient);
}

/* ---- which feeds are in a ration ---- */

/* x <= U z, and with a least share s: x >= s (sum of x) - s D (1 - z). */
static void add_used(Builder *builder, int b, int f, bool has_least_share) {
    const PlanQuestion *question = builder->question;
    const int z = whole_column(builder, 1.0);
    builder->yard->used[at(builder, b, f)] = z;
    const int row = most_row(builder, 0.0);
    term(builder, row, eaten(builder, b, f), 1.0);
    term(builder, row, z, -yard_most_eaten(question, b, f));
    if (!has_least_share)
        return;
    const double share = builder->rules->least_share;
    const double room = share * most_dry_matter(&question->blocks[b]);
    const int least = most_row(builder, room);
    for (int g = 0; g < question->feed_count; g++) {
        if (counts(builder, b, g))
            term(builder, least, eaten(builder, b, g), share - (g == f ? 1.0 : 0.0));
    }
    term(builder, least, z, room);
}

static void add_sets(Builder *builder, int b, const YardRules *on) {
    for (int f = 0; f < builder->question->feed_count; f++) {
        if (counts(builder, b, f))
            add_used(builder, b, f, on->is_on[YARD_RULE_LEAST_SHARE]);
    }
    if (!on->is_on[YARD_RULE_MOST_FEEDS])
        return;
    const int row = most_row(builder, builder->rules->most_feeds);
    for (int f = 0; f < builder->question->feed_count; f++)
        term(builder, row, builder->yard->used[at(builder, b, f)], 1.0);
}

/* ---- from period to period ---- */

/* One feed up, or down, by at most a share of what is eaten in the later period. */
static void add_change_share(Builder *builder, int b, int f, double sign) {
    const double share = builder->rules->largest_change_share;
    const int row = most_row(builder, 0.0);
    term(builder, row, eaten(builder, b, f), sign);
    term(builder, row, eaten(builder, b - 1, f), -sign);
    for (int g = 0; g < builder->question->feed_count; g++) {
        if (counts(builder, b, g))
            term(builder, row, eaten(builder, b, g), -share);
    }
}

static void add_changes(Builder *builder, int b) {
    const PlanQuestion *question = builder->question;
    const FeedingRules *rules = builder->rules;
    for (int f = 0; f < question->feed_count; f++) {
        if (!counts(builder, b, f) && !counts(builder, b - 1, f))
            continue;
        builder->yard->change[at(builder, b, f)] = lp_row_count(builder->yard->lp);
        if (rules->largest_change_share > 0.0) {
            add_change_share(builder, b, f, 1.0);
            add_change_share(builder, b, f, -1.0);
        }
        if (rules->largest_change_kg <= 0.0)
            continue;
        const double taken = plan_taken_per_eaten(&question->feeds[f]);
        const int row =
            lp_add_row(builder->yard->lp, -rules->largest_change_kg, rules->largest_change_kg);
        term(builder, row, eaten(builder, b, f), taken);
        term(builder, row, eaten(builder, b - 1, f), -taken);
    }
}

/* They come last, so that a program may do without those that nothing breaks. */
static void add_all_changes(Builder *builder, bool is_on) {
    const PlanQuestion *question = builder->question;
    YardProgram *yard = builder->yard;
    yard->first_change = lp_row_count(yard->lp);
    for (int b = 1; is_on && b < question->block_count; b++) {
        if (question->blocks[b].group == question->blocks[b - 1].group)
            add_changes(builder, b);
    }
    yard->is_idle = ARENA_ARRAY(builder->arena, bool, lp_row_count(yard->lp));
    for (int i = yard->first_change; i < lp_row_count(yard->lp); i++)
        yard->is_idle[i] = true;
}

/* ---- loads and bales ---- */

#define WHOLE_TO 1e-9 /* 70 t are ten loads of 7 t, whatever the last bit says */

/* Minerals and urea come by the bag and the pallet: whole loads of them would be fed only to be
 * rid of them. */
static void add_loads(Builder *builder, int f) {
    const PlanFeed *feed = &builder->question->feeds[f];
    const int bought = builder->yard->base->bought[f];
    if (bought < 0 || feed->load_kg <= 0.0 || !ration_feed_fills(feed))
        return;
    const double most = floor(feed->available_kg / feed->load_kg + WHOLE_TO);
    const int loads = whole_column(builder, most);
    const int row = lp_add_row(builder->yard->lp, 0.0, 0.0);
    term(builder, row, bought, 1.0);
    term(builder, row, loads, -feed->load_kg / KG_PER_TONNE);
    builder->yard->loads[f] = loads;
}

static void add_bales(Builder *builder, int b, int f) {
    const PlanFeed *feed = &builder->question->feeds[f];
    const PlanBlock *block = &builder->question->blocks[b];
    if (eaten(builder, b, f) < 0 || feed->bale_kg <= 0.0)
        return;
    const double per_eaten = yard_bales_per_eaten(block, feed);
    const double most = ceil(per_eaten * yard_most_eaten(builder->question, b, f));
    const int bales = whole_column(builder, most);
    const int row = lp_add_row(builder->yard->lp, 0.0, 0.0);
    term(builder, row, eaten(builder, b, f), per_eaten);
    term(builder, row, bales, -1.0);
    builder->yard->bales[at(builder, b, f)] = bales;
}

/* ---- faces ---- */

static bool is_first_day(const PlanQuestion *question, Day day) {
    for (int b = 0; b < question->block_count; b++) {
        if (question->blocks[b].from.number == day.number)
            return true;
    }
    return false;
}

static void list_slices(Builder *builder) {
    const Winter *winter = &builder->question->farm->winter;
    YardSlice *slices = ARENA_ARRAY(builder->arena, YardSlice, winter_days(winter));
    int count = 0;
    for (int day = 0; day < winter_days(winter); day++) {
        const Day date = calendar_add(winter->first_day, day);
        if (count == 0 || is_first_day(builder->question, date))
            slices[count++] = (YardSlice){date, 0};
        slices[count - 1].days++;
    }
    builder->yard->slices = slices;
    builder->yard->slice_count = count;
}

/* Tonnes a day of a feed, all groups that then have it. */
static void add_taken(Builder *builder, int row, int slice, int f) {
    const Day day = builder->yard->slices[slice].from;
    for (int b = 0; b < builder->question->block_count; b++) {
        const PlanBlock *block = &builder->question->blocks[b];
        if (calendar_days_between(block->from, day) < 0 ||
            calendar_days_between(day, block->to) < 0)
            continue;
        const double taken =
            plan_taken_per_eaten(&builder->question->feeds[f]) * block->head / KG_PER_TONNE;
        term(builder, row, eaten(builder, b, f), taken);
    }
}

static double most_taken(const Builder *builder, int slice, int f) {
    const Day day = builder->yard->slices[slice].from;
    double most = 0.0;
    for (int b = 0; b < builder->question->block_count; b++) {
        const PlanBlock *block = &builder->question->blocks[b];
        if (eaten(builder, b, f) >= 0 && calendar_days_between(block->from, day) >= 0 &&
            calendar_days_between(day, block->to) >= 0)
            most += yard_most_eaten(builder->question, b, f) * block->head *
                    plan_taken_per_eaten(&builder->question->feeds[f]) / KG_PER_TONNE;
    }
    return most;
}

/* Open once: the rises of `open` add up to one at most. */
static void add_opened_once(Builder *builder, int f) {
    const YardProgram *yard = builder->yard;
    const int feeds = builder->question->feed_count;
    const int once = most_row(builder, 1.0);
    for (int t = 0; t < yard->slice_count; t++) {
        const int rise = lp_add_column(yard->lp, 0.0, 0.0, 1.0);
        const int row = most_row(builder, 0.0);
        term(builder, row, yard->open[t * feeds + f], 1.0);
        if (t > 0)
            term(builder, row, yard->open[(t - 1) * feeds + f], -1.0);
        term(builder, row, rise, -1.0);
        term(builder, once, rise, 1.0);
    }
}

/* What is open is fed from, or it would count as open once though it lay idle in between. */
#define LEAST_FACE_SHARE 1e-3 /* of it, a day, where no least face is given; own choice */

static double least_face(const PlanFeed *feed, bool is_least_on) {
    return is_least_on && feed->least_face_kg_per_day > 0.0
               ? feed->least_face_kg_per_day
               : LEAST_FACE_SHARE * feed->available_kg;
}

static void add_face(Builder *builder, int f, bool is_least_on) {
    YardProgram *yard = builder->yard;
    const int feeds = builder->question->feed_count;
    const double least = least_face(&builder->question->feeds[f], is_least_on) / KG_PER_TONNE;
    for (int t = 0; t < yard->slice_count; t++) {
        const int open = whole_column(builder, 1.0);
        yard->open[t * feeds + f] = open;
        const int shut = most_row(builder, 0.0);
        yard->shut[t * feeds + f] = shut;
        add_taken(builder, shut, t, f);
        term(builder, shut, open, -most_taken(builder, t, f));
        const int face = lp_add_row(yard->lp, 0.0, NO_LIMIT);
        add_taken(builder, face, t, f);
        term(builder, face, open, -least);
    }
    add_opened_once(builder, f);
}

static void add_one_face(Builder *builder) {
    const YardProgram *yard = builder->yard;
    for (int t = 0; t < yard->slice_count; t++) {
        const int row = most_row(builder, 1.0);
        for (int f = 0; f < builder->question->own_count; f++)
            term(builder, row, yard->open[t * builder->question->feed_count + f], 1.0);
    }
}

static void add_faces(Builder *builder, const YardRules *on) {
    const PlanQuestion *question = builder->question;
    const bool is_one = on->is_on[YARD_RULE_ONE_FACE];
    const bool is_least = on->is_on[YARD_RULE_LEAST_FACE];
    for (int f = 0; f < question->own_count; f++) {
        const PlanFeed *feed = &question->feeds[f];
        if ((is_one && feed->has_face) || (is_least && feed->least_face_kg_per_day > 0.0))
            add_face(builder, f, is_least);
    }
    if (is_one)
        add_one_face(builder);
}

/* ---- all of it ---- */

static int *no_columns(Arena *arena, int count) {
    int *columns = ARENA_ARRAY(arena, int, count);
    for (int i = 0; i < count; i++)
        columns[i] = -1;
    return columns;
}

YardProgram yard_program(Arena *arena, const RationProgram *base, const YardRules *rules) {
    const PlanQuestion *question = base->question;
    const int cells = question->block_count * question->feed_count;
    YardProgram yard = {
        .base = base,
        .lp = lp_copy(base->lp, arena),
        .base_rows = lp_row_count(base->lp),
        .base_columns = lp_column_count(base->lp),
        .used = no_columns(arena, cells),
        .bales = no_columns(arena, cells),
        .loads = no_columns(arena, question->feed_count),
        .change = no_columns(arena, cells),
    };
    Builder builder = {arena, &yard, question, &question->farm->winter.rules};
    list_slices(&builder);
    yard.open = no_columns(arena, yard.slice_count * question->feed_count);
    yard.shut = no_columns(arena, yard.slice_count * question->feed_count);
    add_faces(&builder, rules);
    for (int b = 0; b < question->block_count; b++) {
        if (rules->is_on[YARD_RULE_MOST_FEEDS] || rules->is_on[YARD_RULE_LEAST_SHARE])
            add_sets(&builder, b, rules);
        for (int f = 0; rules->is_on[YARD_RULE_WHOLE_BALES] && f < question->own_count; f++)
            add_bales(&builder, b, f);
    }
    for (int f = 0; rules->is_on[YARD_RULE_WHOLE_LOADS] && f < question->feed_count; f++)
        add_loads(&builder, f);
    add_all_changes(&builder, rules->is_on[YARD_RULE_LARGEST_CHANGE]);
    return yard;
}

LpBasis yard_basis(Arena *arena, const YardProgram *yard, const LpBasis *of_base) {
    LpBasis basis = {lp_row_count(yard->lp), lp_column_count(yard->lp), NULL, NULL};
    basis.row = ARENA_ARRAY(arena, unsigned char, basis.row_count);
    basis.column = ARENA_ARRAY(arena, unsigned char, basis.column_count);
    memset(basis.row, BASIC, (size_t)basis.row_count);
    memset(basis.column, AT_LEAST, (size_t)basis.column_count);
    memcpy(basis.row, of_base->row, (size_t)yard->base_rows);
    memcpy(basis.column, of_base->column, (size_t)of_base->column_count);
    return basis;
}
