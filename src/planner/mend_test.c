#include "planner/mend_test.h"

static Mend mend_by(const PlanQuestion *question, const UntestedFeed *test) {
    return (Mend){.kind = MEND_TEST,
                  .place = test->feed,
                  .name = question->feeds[test->feed].name,
                  .test = *test};
}

int tests_to_try(Arena *arena, const PlanQuestion *question, bool together, const Mend **list) {
    const UntestedFeed *tests;
    const int test_count = untested_feeds(arena, question, &tests);
    const int room = test_count > MOST_TEST_PAIRS ? test_count : MOST_TEST_PAIRS;
    Mend *found = ARENA_ARRAY(arena, Mend, room);
    int count = 0;
    for (int a = 0; a < test_count; a++) {
        if (!together)
            found[count++] = mend_by(question, &tests[a]);
        for (int b = a + 1; together && b < test_count && count < MOST_TEST_PAIRS; b++) {
            found[count] = mend_by(question, &tests[a]);
            found[count++].other_test = tests[b];
        }
    }
    *list = found;
    return count;
}

static double of_other(const Mend *mend, double amount) {
    return amount * (mend->other_test.reckoned - mend->other_test.likely) /
           (mend->test.reckoned - mend->test.likely);
}

static double reported(const UntestedFeed *test, double amount) {
    return reported_by_one_sample(test->nutrient, test->reckoned - amount);
}

double mend_reported(const Mend *mend, double amount) { return reported(&mend->test, amount); }

double mend_other_reported(const Mend *mend, double amount) {
    return reported(&mend->other_test, of_other(mend, amount));
}

PlanQuestion plan_question_as_tested(Arena *arena, const PlanQuestion *question,
                                     const Mend *mend, double amount) {
    const UntestedFeed *test = &mend->test;
    const UntestedFeed *other = &mend->other_test;
    PlanQuestion *tested = ARENA_NEW(arena, PlanQuestion);
    *tested = plan_question_with_test(arena, question, test->feed, test->nutrient,
                                      test->reckoned - amount);
    return other->reckoned > 0.0
               ? plan_question_with_test(arena, tested, other->feed, other->nutrient,
                                         other->reckoned - of_other(mend, amount))
               : *tested;
}
