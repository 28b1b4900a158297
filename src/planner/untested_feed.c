#include "planner/untested_feed.h"
#include "cattle/limit_feeds.h"
#include "feedstuff/book_value.h"
#include "feedstuff/feed_worth_testing.h"
#include <math.h>

/* The least that is worth hoping for, all our own choice: nitrate as perennial hay often has
 * it, of dicoumarol what well made hay has, and of ergot what clean grain has. Of sulfur it is
 * the book's figure. */
#define LIKELY_NITRATE_PCT 0.10
#define LIKELY_DICOUMAROL_PPM 1.0
#define LIKELY_ERGOT_PPB 50.0

/* Above any line: sweet clover and grain that nobody tested are held by their share and not by
 * a figure. */
#define UNTESTED_DICOUMAROL_PPM 100.0
#define UNTESTED_ERGOT_PPB 10000.0

static double likely_sulfur(const PlanQuestion *question, const Feedstuff *feed) {
    const BookFeed *book =
        question->farm->book ? book_find(question->farm->book, feed->book_feed) : NULL;
    return book ? reading_or(book->analysis.of[NUTRIENT_SULFUR], (double)NAN) : (double)NAN;
}

static int add_if_held(const UntestedFeed *of, bool is_untested, UntestedFeed *list,
                       int count) {
    if (!is_untested || !(of->likely < of->reckoned))
        return count;
    list[count] = *of;
    return count + 1;
}

int untested_feeds(Arena *arena, const PlanQuestion *question, const UntestedFeed **list) {
    UntestedFeed *found =
        ARENA_ARRAY(arena, UntestedFeed, question->own_count * ANALYSES_HOLDING_BACK + 1);
    int count = 0;
    for (int f = 0; f < question->own_count; f++) {
        const Feedstuff *feed = question->feeds[f].feed;
        count = add_if_held(&(UntestedFeed){f, NUTRIENT_NITRATE, feed->nitrate_for_safety,
                                            LIKELY_NITRATE_PCT * NITRATE_SINGLE_SAMPLE_MARGIN},
                            feed_is_held_by_nitrate(feed), found, count);
        count = add_if_held(&(UntestedFeed){f, NUTRIENT_SULFUR,
                                            question->feeds[f].eaten[NUTRIENT_SULFUR],
                                            likely_sulfur(question, feed)},
                            feed->sulfur_is_assumed, found, count);
        count = add_if_held(&(UntestedFeed){f, NUTRIENT_DICOUMAROL, UNTESTED_DICOUMAROL_PPM,
                                            LIKELY_DICOUMAROL_PPM},
                            limit_feeds_hold("untested_sweet_clover", feed), found, count);
        count = add_if_held(
            &(UntestedFeed){f, NUTRIENT_ERGOT, UNTESTED_ERGOT_PPB, LIKELY_ERGOT_PPB},
            limit_feeds_hold("untested_ergot", feed), found, count);
    }
    *list = found;
    return count;
}

PlanQuestion plan_question_with_test(Arena *arena, const PlanQuestion *whole, int feed,
                                     Nutrient nutrient, double reckoned) {
    Feedstuff *stuff = ARENA_NEW(arena, Feedstuff);
    *stuff = *whole->feeds[feed].feed;
    stuff->analysis.of[nutrient] =
        (Reading){reported_by_one_sample(nutrient, reckoned), FROM_LABORATORY, SOURCE_NONE};
    if (nutrient == NUTRIENT_NITRATE) {
        stuff->nitrate_for_safety = reckoned;
        stuff->nitrate_is_assumed = false;
    }
    if (nutrient == NUTRIENT_SULFUR)
        stuff->sulfur_is_assumed = false;
    PlanFeed tested = whole->feeds[feed];
    tested.feed = stuff;
    tested.eaten[nutrient] = reckoned;
    return plan_question_with_feed(arena, whole, feed, &tested);
}

double reported_by_one_sample(Nutrient nutrient, double reckoned) {
    return nutrient == NUTRIENT_NITRATE ? reckoned / NITRATE_SINGLE_SAMPLE_MARGIN : reckoned;
}

double test_step(Nutrient nutrient) {
    if (nutrient == NUTRIENT_ERGOT)
        return 10.0;
    return nutrient == NUTRIENT_DICOUMAROL ? 0.5 : 0.01;
}
