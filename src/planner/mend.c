#include "feedstuff/feed_sampling.h"
#include "planner/head_worth.h"
#include "planner/mend_search.h"
#include "planner/mend_test.h"
#include <math.h>

/* Feeds that most farms can find, one of each kind: magnesium, of which the weeks around
 * calving ask more than hay holds, and a little of this is enough; roughage, energy, protein,
 * minerals.
 */
static const char *const BOOK_FEEDS[] = {"magnesium_oxide", "alfalfa_grass_hay", "barley_grain",
                                         "canola_meal", "mineral_2:1"};
#define BOOK_FEED_COUNT ((int)(sizeof(BOOK_FEEDS) / sizeof(BOOK_FEEDS[0])))

#define MOST_KG 1e8       /* no yard holds more */
#define LEAST_STEP_KG 1.0 /* amounts nearer than this are one */
#define GAIN_STEP_KG 0.01
#define MOST_PAIRS 10 /* of purchases that are tried together */
#define MOST_PAIR_RATIONS 400
/* Of two purchases the first is had with so much to spare, or it would take no end of the
 * other; own choice. */
#define FIRST_TO_SPARE 1.1

static Offer book_offer(const Farm *farm, const BookFeed *book) {
    const FeedTests none = {0};
    return (Offer){
        .name = book->label,
        .feed = feed_tests_completed(&none, book->label, book),
        .waste_share = BOOK_WASTE_SHARE,
        .protein_left = 1.0,
        .allowance = {.from = farm->winter.first_day, .until = farm->winter.last_day},
    };
}

static PlanQuestion with_more(Arena *arena, const PlanQuestion *question, int feed,
                              double more_kg) {
    PlanQuestion mended = *question;
    PlanFeed *feeds = ARENA_ARRAY(arena, PlanFeed, question->feed_count);
    for (int f = 0; f < question->feed_count; f++)
        feeds[f] = question->feeds[f];
    feeds[feed].available_kg += more_kg;
    mended.feeds = feeds;
    return mended;
}

static PlanQuestion with_book_feed(Arena *arena, const PlanQuestion *question, const char *name,
                                   double most_kg) {
    Offer offer = book_offer(question->farm, book_find(question->farm->book, name));
    offer.most_kg = most_kg;
    Offer *kept = ARENA_NEW(arena, Offer);
    *kept = offer;
    return plan_question_with_offer(arena, question, kept);
}

static PlanQuestion with_less_gain(Arena *arena, const PlanQuestion *question, int group,
                                   double less_kg) {
    Farm *farm = ARENA_NEW(arena, Farm);
    *farm = *question->farm;
    HerdGroup *groups = ARENA_ARRAY(arena, HerdGroup, farm->herd.count);
    for (int g = 0; g < farm->herd.count; g++)
        groups[g] = farm->herd.groups[g];
    groups[group].gain.kg_per_day = fmax(groups[group].gain.kg_per_day - less_kg, 0.0);
    farm->herd.groups = groups;
    return plan_question(arena, farm);
}

static PlanQuestion with_less_kept(Arena *arena, const PlanQuestion *question, double less_kg) {
    PlanQuestion mended = *question;
    Farm *farm = ARENA_NEW(arena, Farm);
    *farm = *question->farm;
    farm->winter.carry_over_kg = fmax(farm->winter.carry_over_kg - less_kg, 0.0);
    mended.farm = farm;
    return mended;
}

static PlanQuestion with_purchase(Arena *arena, const PlanQuestion *question, int place,
                                  const char *book, double kg) {
    return book ? with_book_feed(arena, question, book, kg)
                : with_more(arena, question, place, kg);
}

PlanQuestion mended_question(Arena *arena, const PlanQuestion *question, const Mend *mend,
                             double amount) {
    PlanQuestion *base = ARENA_NEW(arena, PlanQuestion);
    *base = mend->beside.name ? with_purchase(arena, question, mend->beside.place,
                                              mend->beside.book, mend->beside.kg)
                              : *question;
    switch (mend->kind) {
    case MEND_TEST:
        return plan_question_as_tested(arena, base, mend, amount);
    case MEND_MORE_FOR_SALE:
    case MEND_BOOK_FEED:
        return with_purchase(arena, base, mend->place, mend->book, amount);
    case MEND_FEWER_HEAD:
        return plan_question_with_head(arena, base, mend->place,
                                       question->farm->winter.first_day, -amount);
    case MEND_LESS_GAIN:
        return with_less_gain(arena, base, mend->place, amount);
    case MEND_LESS_CARRY_OVER:
        return with_less_kept(arena, base, amount);
    case MEND_FEWER_DAYS:
        break;
    }
    return plan_question_until(arena, base,
                               calendar_add(question->farm->winter.last_day, -(int)amount));
}

bool mend_is_whole(MendKind kind) { return kind == MEND_FEWER_HEAD || kind == MEND_FEWER_DAYS; }

double mend_step(const Mend *mend, double amount) {
    if (mend->kind == MEND_TEST)
        return test_step(mend->test.nutrient);
    if (mend->kind == MEND_LESS_GAIN)
        return GAIN_STEP_KG;
    return mend_is_whole(mend->kind) ? 1.0 : fmax(LEAST_STEP_KG, MEND_CLOSE * amount);
}

static double price_of(const PlanQuestion *question, int place, double kg) {
    if (place < 0)
        return (double)NAN;
    const PlanFeed *feed = &question->feeds[place];
    return kg * (feed->price_per_kg + (1.0 - feed->shrink_share) * feed->haul_per_kg);
}

static double cost_of(const PlanQuestion *question, const Mend *mend) {
    if (mend->kind != MEND_MORE_FOR_SALE)
        return (double)NAN;
    return price_of(question, mend->place, mend->enough) +
           (mend->beside.name ? price_of(question, mend->beside.place, mend->beside.kg) : 0.0);
}

typedef struct {
    Arena *arena;
    const PlanQuestion *question;
    PlanStart start;
    ShortageProof asked;
    int short_alone; /* the group that lacks most, where it does with the whole yard; -1 */
    Mend *list;
    int count;
} Mends;

/* Finds it in the search; false when no amount mends. One feed more, and other needs, are
 * another shape: they start from nothing and what they leave is of no use to the next. */
static bool is_found(Mends *mends, MendSearch *search, double most) {
    const Mend *mend = &search->mend;
    const bool is_other = mend->kind == MEND_BOOK_FEED || mend->kind == MEND_LESS_GAIN ||
                          mend->beside.name != NULL;
    PlanStart of_its_own = {0};
    Arena *scratch = arena_open();
    search->question = mends->question;
    search->asked = &mends->asked;
    search->arena = is_other ? scratch : mends->arena;
    search->start = is_other ? &of_its_own : &mends->start;
    search->short_alone = is_other || mend->kind == MEND_TEST ? mends->short_alone : -1;
    const bool found = mend_search(search, most);
    arena_close(scratch);
    return found;
}

static void try_mend(Mends *mends, Mend mend, double most) {
    MendSearch search = {.mend = mend};
    if (most <= 0.0 || !is_found(mends, &search, most))
        return;
    search.mend.cost = cost_of(mends->question, &search.mend);
    int at = mends->count++;
    while (at > 0 && search.mend.cost < mends->list[at - 1].cost) {
        mends->list[at] = mends->list[at - 1];
        at--;
    }
    mends->list[at] = search.mend;
}

static void try_tests(Mends *mends, bool together) {
    const Mend *list;
    const int count = tests_to_try(mends->arena, mends->question, together, &list);
    for (int i = 0; i < count; i++)
        try_mend(mends, list[i], list[i].test.reckoned - list[i].test.likely);
}

/* If all of this without end does not mend it, no one of it does, and none needs be tried. */
static void try_for_sale(Mends *mends) {
    const PlanQuestion *question = mends->question;
    PlanQuestion all = *question;
    for (int f = question->own_count; f < question->feed_count; f++) {
        if (isfinite(question->feeds[f].available_kg))
            all = with_more(mends->arena, &all, f, MOST_KG);
    }
    if (all.feeds == question->feeds ||
        !plan_can_be_balanced(mends->arena, &all, &mends->start, NULL))
        return;
    for (int f = question->own_count; f < question->feed_count; f++) {
        if (isfinite(question->feeds[f].available_kg))
            try_mend(
                mends,
                (Mend){.kind = MEND_MORE_FOR_SALE, .place = f, .name = question->feeds[f].name},
                MOST_KG);
    }
}

/* From nothing, and the group that is short alone first. */
static bool can_be_mended(const Mends *mends, const PlanQuestion *mended) {
    if (mends->short_alone >= 0 && group_is_short_alone(mended, mends->short_alone))
        return false;
    PlanStart start = {0};
    Arena *scratch = arena_open();
    const bool can = plan_can_be_balanced(scratch, mended, &start, NULL);
    arena_close(scratch);
    return can;
}

static void try_book_feeds(Mends *mends) {
    const BookValues *book = mends->question->farm->book;
    PlanQuestion all = *mends->question;
    for (int i = 0; book && i < BOOK_FEED_COUNT; i++)
        all = with_book_feed(mends->arena, &all, BOOK_FEEDS[i], MOST_KG);
    if (!book || !can_be_mended(mends, &all))
        return;
    for (int i = 0; i < BOOK_FEED_COUNT; i++)
        try_mend(mends,
                 (Mend){.kind = MEND_BOOK_FEED,
                        .place = -1,
                        .name = book_find(book, BOOK_FEEDS[i])->label,
                        .book = BOOK_FEEDS[i]},
                 MOST_KG);
}

/* On the day there are fewest of them. */
static double least_head(const PlanQuestion *question, int group) {
    double least = NO_LIMIT;
    for (int b = 0; b < question->block_count; b++) {
        if (question->blocks[b].group == group)
            least = fmin(least, question->blocks[b].head);
    }
    return least;
}

/* ---- two purchases together ---- */

/* The least of the first with the other without end, a little to spare, and then the least of
 * the other. */
static void try_pair(Mends *mends, Mend first, Mend second) {
    MendSearch search = {.mend = first};
    search.mend.beside = (MendBeside){second.place, second.name, second.book, MOST_KG};
    if (!is_found(mends, &search, MOST_KG))
        return;
    second.beside =
        (MendBeside){first.place, first.name, first.book, search.mend.enough * FIRST_TO_SPARE};
    try_mend(mends, second, MOST_KG);
}

static void try_pairs(Mends *mends, const Mend *purchases, int count) {
    int pairs = 0;
    for (int a = 0; a < count; a++) {
        for (int b = a + 1; b < count && pairs < MOST_PAIRS; b++, pairs++)
            try_pair(mends, purchases[a], purchases[b]);
    }
}

/* Of what is for sale but not without end, or else of the book. */
static int purchases_to_try(const PlanQuestion *question, bool of_book, Mend *purchases) {
    const BookValues *book = question->farm->book;
    int count = 0;
    for (int f = question->own_count; !of_book && f < question->feed_count; f++) {
        if (isfinite(question->feeds[f].available_kg))
            purchases[count++] =
                (Mend){.kind = MEND_MORE_FOR_SALE, .place = f, .name = question->feeds[f].name};
    }
    for (int i = 0; of_book && book && i < BOOK_FEED_COUNT; i++)
        purchases[count++] = (Mend){.kind = MEND_BOOK_FEED,
                                    .place = -1,
                                    .name = book_find(book, BOOK_FEEDS[i])->label,
                                    .book = BOOK_FEEDS[i]};
    return count;
}

/* Where all of them without end do not mend it, no two do. */
static void try_purchases_together(Mends *mends, bool of_book) {
    const PlanQuestion *question = mends->question;
    Mend *purchases = ARENA_ARRAY(mends->arena, Mend, question->feed_count + BOOK_FEED_COUNT);
    const int count = purchases_to_try(question, of_book, purchases);
    PlanQuestion all = *question;
    for (int i = 0; i < count; i++)
        all = with_purchase(mends->arena, &all, purchases[i].place, purchases[i].book, MOST_KG);
    if (count < 2 || question->block_count > MOST_PAIR_RATIONS || !can_be_mended(mends, &all))
        return;
    try_pairs(mends, purchases, count);
}

/* ---- all of it ---- */

int mends_of(Arena *arena, const WinterPlan *plan, const Mend **mends) {
    const PlanQuestion *question = plan->question;
    const Herd *herd = &question->farm->herd;
    Mends found = {
        .arena = arena,
        .question = question,
        .list =
            ARENA_ARRAY(arena, Mend,
                        question->feed_count + BOOK_FEED_COUNT + MOST_PAIRS + 2 * herd->count +
                            2 + question->own_count * ANALYSES_HOLDING_BACK + MOST_TEST_PAIRS),
    };
    *mends = found.list;
    if (plan->verdict != PLAN_SHORT)
        return 0;
    Arena *scratch = arena_open();
    BlockRoom room = {.arena = scratch};
    found.start.room = &room;
    FirstShortage first;
    plan_can_be_balanced(arena, question, &found.start, &first);
    found.short_alone =
        first.group >= 0 && group_is_short_alone(question, first.group) ? first.group : -1;
    found.asked = shortage_proof_copied(arena, &found.start.proof, question);
    try_tests(&found, false);
    if (found.count == 0)
        try_tests(&found, true);
    const int tests = found.count;
    try_for_sale(&found);
    if (found.count == tests)
        try_book_feeds(&found);
    if (found.count == tests)
        try_purchases_together(&found, false);
    if (found.count == tests)
        try_purchases_together(&found, true);
    for (int g = 0; g < herd->count; g++)
        try_mend(&found, (Mend){.kind = MEND_FEWER_HEAD, .place = g, .name = herd->names[g]},
                 floor(least_head(question, g)) - (herd->count > 1 ? 0.0 : 1.0));
    for (int g = 0; g < herd->count; g++)
        try_mend(&found, (Mend){.kind = MEND_LESS_GAIN, .place = g, .name = herd->names[g]},
                 herd->groups[g].gain.kg_per_day);
    try_mend(&found, (Mend){.kind = MEND_LESS_CARRY_OVER, .place = -1, .name = ""},
             question->farm->winter.carry_over_kg);
    try_mend(&found, (Mend){.kind = MEND_FEWER_DAYS, .place = -1, .name = ""},
             winter_days(&question->farm->winter) - 1);
    arena_close(scratch);
    return found.count;
}
