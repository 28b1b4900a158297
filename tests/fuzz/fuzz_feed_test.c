/* Any bytes as feed-tests.csv: whatever is let through makes a whole feed of every book feed.
 */
#include "fuzz/reader_laws.h"
#include <stdint.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void complete_each(const FeedTests *tests, Faults *faults) {
    const BookValues *book = law_tables().book;
    for (int i = 0; i < tests->count && i < 20; i++) {
        const char *name = tests->tests[i].stack;
        const BookFeed *of = &book->feeds[(i * 7 + (int)strlen(name)) % book->count];
        const Tested tested = feed_tests_combined(tests, name);
        const Feedstuff feed = feedstuff_complete(name, &tested, of);
        feed_tests_check_class(faults, tests, name, of, (Keeping)(i % (KEPT_AS_DRY_GRAIN + 1)));
        const Day cut = calendar_day(2026, 7, 20);
        feed_tests_check_dates(faults, tests, name, &cut, &cut, NULL);
        assert(tested.sample_count >= 1);
        if (faults->wrong_count == 0)
            assert_feed_is_whole(&feed);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    Arena *const arena = arena_open();
    Faults faults = faults_new(arena);
    const FeedTests tests =
        feed_tests_parse(arena, &faults, "feed-tests.csv", (const char *)data, size);
    assert(tests.tests || faults.wrong_count > 0);
    complete_each(&tests, &faults);
    assert_faults_are_lines(&faults);
    arena_close(arena);
    return 0;
}
