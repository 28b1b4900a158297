#include "planner/mend.h"
#include "feedstuff/feed_sampling.h"
#include "planner/head_worth.h"
#include <math.h>

/* Feeds that most farms can find, one of each kind: roughage, energy, protein, minerals. */
static const char *const BOOK_FEEDS[] = {"alfalfa_grass_hay", "barley_grain", "canola_meal",
                                         "mineral_2:1"};
#define BOOK_FEED_COUNT ((int)(sizeof(BOOK_FEEDS) / sizeof(BOOK_FEEDS[0])))
#define BOOK_WASTE_SHARE 0.1 /* of what is fed; own choice */

#define FIRST_KG 1000.0    /* the first amount tried */
#define MOST_KG 1e8        /* no yard holds more */
#define LEAST_STEP_KG 1.0  /* amounts nearer than this are one */
#define MOST_CORRECTIONS 8 /* steps by which planning may move what the search found */

typedef struct {
    const PlanQuestion *question;
    Arena *arena;     /* of the start */
    PlanStart *start; /* where the last question of this shape ended */
    Mend mend;
} Search;

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

PlanQuestion mended_question(Arena *arena, const PlanQuestion *question, const Mend *mend,
                             double amount) {
    switch (mend->kind) {
    case MEND_MORE_FOR_SALE:
        return with_more(arena, question, mend->place, amount);
    case MEND_BOOK_FEED:
        return with_book_feed(arena, question, mend->book, amount);
    case MEND_FEWER_HEAD:
        return plan_question_with_head(arena, question, mend->place,
                                       question->farm->winter.first_day, -amount);
    case MEND_FEWER_DAYS:
        break;
    }
    return plan_question_until(arena, question,
                               calendar_add(question->farm->winter.last_day, -(int)amount));
}

/* By the shortage program from where the last question ended: quick, and near enough to find
 * the place. */
static bool seems_enough(Search *search, double amount) {
    Arena *scratch = arena_open();
    const PlanQuestion question =
        mended_question(scratch, search->question, &search->mend, amount);
    const bool is_enough = plan_can_be_balanced(search->arena, &question, search->start, NULL);
    arena_close(scratch);
    return is_enough;
}

/* As the plan itself would judge. */
static bool is_enough(const Search *search, double amount) {
    Arena *scratch = arena_open();
    const PlanQuestion question =
        mended_question(scratch, search->question, &search->mend, amount);
    const bool is_enough = plan_verdict(&question) == PLAN_BALANCED;
    arena_close(scratch);
    return is_enough;
}

static bool is_whole(const Mend *mend) {
    return mend->kind == MEND_FEWER_HEAD || mend->kind == MEND_FEWER_DAYS;
}

static double step_at(const Mend *mend, double amount) {
    return is_whole(mend) ? 1.0 : fmax(LEAST_STEP_KG, MEND_CLOSE * amount);
}

/* What planning says of the two ends that the search found: each is moved until it agrees. */
static bool is_confirmed(Search *search, double most) {
    Mend *mend = &search->mend;
    int corrections = 0;
    while (!is_enough(search, mend->enough)) {
        if (++corrections > MOST_CORRECTIONS || mend->enough >= most)
            return false;
        mend->not_enough = mend->enough;
        mend->enough = fmin(mend->enough + step_at(mend, mend->enough), most);
    }
    if (corrections > 0)
        return true; /* the step before was not enough */
    while (mend->not_enough > 0.0 && is_enough(search, mend->not_enough)) {
        if (++corrections > MOST_CORRECTIONS)
            return false;
        mend->enough = mend->not_enough;
        mend->not_enough = fmax(mend->enough - step_at(mend, mend->enough), 0.0);
    }
    return true;
}

/* The least amount up to `most`, between the last that is too little and the first that is
 * enough. */
static bool find(Search *search, double most) {
    Mend *mend = &search->mend;
    if (!seems_enough(search, most))
        return false;
    mend->not_enough = 0.0;
    mend->enough = most;
    if (!is_whole(mend)) {
        mend->enough = FIRST_KG;
        while (mend->enough < most && !seems_enough(search, mend->enough)) {
            mend->not_enough = mend->enough;
            mend->enough = fmin(mend->enough * 4.0, most);
        }
    }
    while (mend->enough - mend->not_enough > step_at(mend, mend->enough)) {
        double middle = 0.5 * (mend->enough + mend->not_enough);
        middle = is_whole(mend) ? floor(middle) : middle;
        if (seems_enough(search, middle))
            mend->enough = middle;
        else
            mend->not_enough = middle;
    }
    return is_confirmed(search, most);
}

static double cost_of(const PlanQuestion *question, const Mend *mend) {
    if (mend->kind != MEND_MORE_FOR_SALE)
        return (double)NAN;
    const PlanFeed *feed = &question->feeds[mend->place];
    return mend->enough * (feed->price_per_kg + (1.0 - feed->shrink_share) * feed->haul_per_kg);
}

typedef struct {
    Arena *arena;
    const PlanQuestion *question;
    PlanStart start;
    Mend *list;
    int count;
} Mends;

static void try_mend(Mends *mends, Mend mend, double most) {
    PlanStart of_its_own = {0}; /* one feed more is another shape */
    Search search = {
        .question = mends->question,
        .arena = mends->arena,
        .start = mend.kind == MEND_BOOK_FEED ? &of_its_own : &mends->start,
        .mend = mend,
    };
    if (most <= 0.0 || !find(&search, most))
        return;
    search.mend.cost = cost_of(mends->question, &search.mend);
    int at = mends->count++;
    while (at > 0 && search.mend.cost < mends->list[at - 1].cost) {
        mends->list[at] = mends->list[at - 1];
        at--;
    }
    mends->list[at] = search.mend;
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

static void try_book_feeds(Mends *mends) {
    const BookValues *book = mends->question->farm->book;
    PlanQuestion all = *mends->question;
    for (int i = 0; book && i < BOOK_FEED_COUNT; i++)
        all = with_book_feed(mends->arena, &all, BOOK_FEEDS[i], MOST_KG);
    PlanStart start = {0};
    if (!book || !plan_can_be_balanced(mends->arena, &all, &start, NULL))
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

int mends_of(Arena *arena, const WinterPlan *plan, const Mend **mends) {
    const PlanQuestion *question = plan->question;
    const Herd *herd = &question->farm->herd;
    Mends found = {
        .arena = arena,
        .question = question,
        .list =
            ARENA_ARRAY(arena, Mend, question->feed_count + BOOK_FEED_COUNT + herd->count + 1),
    };
    *mends = found.list;
    if (plan->verdict != PLAN_SHORT)
        return 0;
    try_for_sale(&found);
    if (found.count == 0)
        try_book_feeds(&found);
    for (int g = 0; g < herd->count; g++)
        try_mend(&found, (Mend){.kind = MEND_FEWER_HEAD, .place = g, .name = herd->names[g]},
                 floor(least_head(question, g)) - (herd->count > 1 ? 0.0 : 1.0));
    try_mend(&found, (Mend){.kind = MEND_FEWER_DAYS, .place = -1, .name = ""},
             winter_days(&question->farm->winter) - 1);
    return found.count;
}
