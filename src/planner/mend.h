/* What would mend a winter that is short, each thing alone: an own stack held back as untested
 * that a laboratory finds low; more of a feed for sale, a feed of
 * the book bought besides, fewer head of a group, less gain asked of one, less kept for spring,
 * or a winter that ends sooner; where no one test does, two together, and where no one purchase
 * does, two of these. Found by asking
 * again, and both ends of every answer are planned: with `enough` the winter is balanced, with
 * `not_enough` it is not. Of curved laws the turn may come more than once; then it is one of
 * them. */
#ifndef PLANNER_MEND_H
#define PLANNER_MEND_H

#include "planner/can_balance.h"
#include "planner/untested_feed.h"

typedef enum {
    MEND_TEST,
    MEND_MORE_FOR_SALE,
    MEND_BOOK_FEED,
    MEND_FEWER_HEAD,
    MEND_LESS_GAIN,
    MEND_LESS_CARRY_OVER,
    MEND_FEWER_DAYS
} MendKind;

/* A purchase that goes with another, its amount settled. */
typedef struct {
    int place;        /* the feed of the question; -1: of the book */
    const char *name; /* NULL: none goes with it */
    const char *book;
    double kg; /* as fed, paid for */
} MendBeside;

typedef struct {
    MendKind kind;
    int place;               /* the feed of the question, or the group; -1 */
    const char *name;        /* of the feed or group; "" */
    const char *book;        /* MEND_BOOK_FEED: its name in the book */
    UntestedFeed test;       /* MEND_TEST */
    UntestedFeed other_test; /* of two tests together the other; reckoned 0: there is none */
    MendBeside beside;       /* of two purchases together the other */
    double enough;     /* kg as fed paid for; head; kg of gain a day; kg of dry matter; days;
                          of a test, how far below what is reckoned with now */
    double not_enough; /* less by at most mend_step: MEND_CLOSE of it or 1 kg; one head ... */
    double cost;       /* dollars, price and hauling, of both; NAN where no price is known */
} Mend;

#define MEND_CLOSE 0.005

#define BOOK_WASTE_SHARE 0.1 /* of a feed of the book, as it is fed; own choice */

/* Head and days are. */
bool mend_is_whole(MendKind kind);

/* Amounts of a mend nearer than this are one. */
double mend_step(const Mend *mend, double amount);

/* Of MEND_TEST: the most that a report of one sample may say for so much of the mend; and of
 * the other of two, which comes down by the same part of what it may. */
double mend_reported(const Mend *mend, double amount);
double mend_other_reported(const Mend *mend, double amount);

/* Tests, whose price nobody asks, before all else; the cheapest first, then those without a
 * price in the order of their kinds; returns how many. None for a plan that is not short. */
int mends_of(Arena *arena, const WinterPlan *plan, const Mend **mends);

/* The question with so much of the mend done. */
PlanQuestion mended_question(Arena *arena, const PlanQuestion *question, const Mend *mend,
                             double amount);

#endif
