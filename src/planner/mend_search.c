#include "planner/mend_search.h"
#include <math.h>

#define FIRST_KG 1000.0    /* the first amount tried */
#define MOST_CORRECTIONS 8 /* steps by which planning may move what the search found */

/* A mend after which the prices of the shortage still prove so much of it is not tried: the
 * curved laws do not bend so far. Own choice. */
#define PLAINLY_SHORT_SHARE 0.05

/* Whether a winter without the group would still be short. */
static bool is_hopeless_without(const MendSearch *search, int group) {
    return shortage_proven(search->asked, search->question, group) >
           PLAINLY_SHORT_SHARE * search->asked->proven;
}

/* Whether the prices of the shortage prove that so much of it is too little, of mends whose
 * rations are those of the question. A group that gains less still eats. */
static bool is_ruled_out(const MendSearch *search, double amount) {
    const Mend *mend = &search->mend;
    if (mend->beside.name || mend->kind == MEND_TEST || mend->kind == MEND_BOOK_FEED)
        return false;
    if (mend->kind == MEND_LESS_GAIN)
        return is_hopeless_without(search, mend->place);
    Arena *scratch = arena_open();
    const PlanQuestion question = mended_question(scratch, search->question, mend, amount);
    const double proven = shortage_proven(search->asked, &question, -1);
    arena_close(scratch);
    return proven > PLAINLY_SHORT_SHARE * search->asked->proven;
}

/* Whether the group that was short alone is so still: then nothing else needs be asked. */
static bool is_short_alone(const MendSearch *search, double amount) {
    if (search->short_alone < 0)
        return false;
    Arena *scratch = arena_open();
    const PlanQuestion question =
        mended_question(scratch, search->question, &search->mend, amount);
    const bool is_short = group_is_short_alone(&question, search->short_alone);
    arena_close(scratch);
    return is_short;
}

/* By the shortage program from where the last question ended: quick, and near enough to find
 * the place. */
static bool seems_enough(MendSearch *search, double amount) {
    const bool is_test = search->mend.kind == MEND_TEST;
    if (is_ruled_out(search, amount) || (is_test && is_short_alone(search, amount)))
        return false;
    Arena *scratch = arena_open();
    PlanStart anew = {
        0}; /* a test makes limits come and go, and so the program another shape */
    const PlanQuestion question =
        mended_question(scratch, search->question, &search->mend, amount);
    const bool is_enough = plan_can_be_balanced(is_test ? scratch : search->arena, &question,
                                                is_test ? &anew : search->start, NULL);
    arena_close(scratch);
    return is_enough;
}

/* As the plan itself would judge. */
static bool is_enough(const MendSearch *search, double amount) {
    Arena *scratch = arena_open();
    const PlanQuestion question =
        mended_question(scratch, search->question, &search->mend, amount);
    const bool is_enough = plan_verdict(&question) == PLAN_BALANCED;
    arena_close(scratch);
    return is_enough;
}

/* What planning says of the two ends that the search found: each is moved until it agrees. */
static bool is_confirmed(MendSearch *search, double most) {
    Mend *mend = &search->mend;
    int corrections = 0;
    while (!is_enough(search, mend->enough)) {
        if (++corrections > MOST_CORRECTIONS || mend->enough >= most)
            return false;
        mend->not_enough = mend->enough;
        mend->enough = fmin(mend->enough + mend_step(mend, mend->enough), most);
    }
    if (corrections > 0)
        return true; /* the step before was not enough */
    while (mend->not_enough > 0.0 && is_enough(search, mend->not_enough)) {
        if (++corrections > MOST_CORRECTIONS)
            return false;
        mend->enough = mend->not_enough;
        mend->not_enough = fmax(mend->enough - mend_step(mend, mend->enough), 0.0);
    }
    return true;
}

/* Whether the prices of the last amount that was too little prove this one too little. */
static bool is_ruled_out_by_last(const MendSearch *search, double amount) {
    Arena *scratch = arena_open();
    const PlanQuestion question =
        mended_question(scratch, search->question, &search->mend, amount);
    const bool is_out = plan_must_be_short(&question, search->start);
    arena_close(scratch);
    return is_out;
}

static double half_way(const Mend *mend) {
    const double middle = 0.5 * (mend->enough + mend->not_enough);
    return mend_is_whole(mend->kind) ? floor(middle) : middle;
}

/* Whether the questions of other amounts are of one shape, whose prices tell of one another. */
static bool has_prices(const MendSearch *search) {
    return search->mend.kind != MEND_TEST && search->mend.kind != MEND_LESS_GAIN &&
           search->start->proof.owed != NULL;
}

/* The least amount that those prices leave open, between the two that are known. */
static double least_left_open(const MendSearch *search) {
    Mend between = search->mend;
    while (between.enough - between.not_enough > mend_step(&between, between.enough)) {
        const double middle = half_way(&between);
        if (is_ruled_out_by_last(search, middle))
            between.not_enough = middle;
        else
            between.enough = middle;
    }
    return between.enough;
}

/* Upward from a little where the most is without end. */
static double without_prices(const Mend *mend) {
    const bool is_feed = mend->kind == MEND_MORE_FOR_SALE || mend->kind == MEND_BOOK_FEED;
    const double next = fmax(4.0 * mend->not_enough, FIRST_KG);
    return is_feed && 4.0 * next < mend->enough ? next : half_way(mend);
}

#define MOST_BY_PRICES 8 /* amounts that prices lead to */
#define JUST_BELOW 0.999 /* of a step: two ends so near are near enough */

static double step_below(const Mend *mend, double amount) {
    return amount - (mend_is_whole(mend->kind) ? 1.0 : JUST_BELOW * mend_step(mend, amount));
}

static bool try_amount(MendSearch *search, double amount) {
    const bool is_enough = seems_enough(search, amount);
    *(is_enough ? &search->mend.enough : &search->mend.not_enough) = amount;
    return is_enough;
}

/* Where the prices of the last amount point, or just below what is known to be enough. */
static double where_prices_point(const MendSearch *search) {
    const Mend *mend = &search->mend;
    const double amount =
        fmax(least_left_open(search), mend->not_enough + mend_step(mend, mend->not_enough));
    return amount < mend->enough ? amount : step_below(mend, mend->enough);
}

#define MOST_PLANNED_RATIONS 400 /* each amount is a winter planned from nothing */

/* Where the shortage program is further off than that: between the amounts of which planning
 * itself has said that the one is too little and the other enough. */
static bool is_found_by_planning(MendSearch *search, double most) {
    Mend *mend = &search->mend;
    if (search->question->block_count > MOST_PLANNED_RATIONS)
        return false;
    const bool is_too_little = !is_enough(search, mend->enough);
    if (is_too_little && !is_enough(search, most))
        return false;
    mend->not_enough = is_too_little ? mend->enough : 0.0;
    mend->enough = is_too_little ? most : mend->enough;
    while (mend->enough - mend->not_enough > mend_step(mend, mend->enough)) {
        const double amount = without_prices(mend);
        *(is_enough(search, amount) ? &mend->enough : &mend->not_enough) = amount;
    }
    return true;
}

/* With the caution lines that the page is planned with, a step or two more. */
static bool is_as_printed(MendSearch *search, double most) {
    Mend *mend = &search->mend;
    for (int steps = 0; steps <= MOST_CORRECTIONS && mend->enough <= most; steps++) {
        Arena *scratch = arena_open();
        const PlanQuestion question =
            mended_question(scratch, search->question, mend, mend->enough);
        const bool is_balanced = plan_verdict_as_planned(&question) == PLAN_BALANCED;
        arena_close(scratch);
        if (is_balanced)
            return true;
        mend->not_enough = mend->enough;
        mend->enough += mend_step(mend, mend->enough);
    }
    return false;
}

/* The least amount up to `most`, between the last that is too little and the first that is
 * enough. Where prices point, the first amount that they leave open is often the answer; the
 * one a step below is then tried, and where the curved laws say other than the prices, halves.
 * Only of the most is a group asked alone: of less the herd's prices are wanted too. */
bool mend_search(MendSearch *search, double most) {
    Mend *mend = &search->mend;
    if (is_short_alone(search, most) || !seems_enough(search, most))
        return false;
    mend->not_enough = 0.0;
    mend->enough = most;
    int by_prices = 0;
    while (mend->enough - mend->not_enough > mend_step(mend, mend->enough)) {
        if (by_prices++ >= MOST_BY_PRICES || !has_prices(search)) {
            try_amount(search, without_prices(mend));
            continue;
        }
        if (!try_amount(search, where_prices_point(search)))
            continue;
        by_prices = MOST_BY_PRICES;
        if (step_below(mend, mend->enough) > mend->not_enough)
            try_amount(search, step_below(mend, mend->enough));
    }
    if (!is_confirmed(search, most) && !is_found_by_planning(search, most))
        return false;
    return is_as_printed(search, most);
}
