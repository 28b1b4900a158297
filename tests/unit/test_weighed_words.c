/* What caution lines weigh, said beside totals. */
#include "outcome/weighed_words.h"
#include "support/unit.h"
#include <string.h>

/* Of the one future that balances it was "$883 to $883". */
static void one_weight_is_not_told_as_a_range(void **state) {
    assert_non_null(strstr(weighed_words(*state, 883.0, 883.2),
                           "lines passed weigh, $883. That is no money"));
    assert_non_null(strstr(weighed_words(*state, 12.0, 883.0), "weigh, $12 to $883. That is"));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(one_weight_is_not_told_as_a_range),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
