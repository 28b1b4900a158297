/* Futures that are not to be measured against the farm as it is by what they cost alone. */
#include "outcome/comparison.h"
#include <math.h>

static void add_other_herd(Report *report, const Comparison *comparison, const Future *future) {
    const double as_it_is = comparison->futures[0].head_days;
    report_remark(
        report, SEVERITY_CAUTION, "other herd",
        arena_print(report->arena,
                    "'%s' feeds %.1f %% %s days of cattle than the farm as it is, and is not "
                    "ranked with it: go by a head and day, and by what the cattle bring.",
                    future->name, 100.0 * fabs(future->head_days / as_it_is - 1.0),
                    future->head_days > as_it_is ? "more" : "fewer"),
        "");
}

static void add_other_weight(Report *report, const Future *future) {
    report_remark(report, SEVERITY_CAUTION, "other weight",
                  arena_print(report->arena,
                              "'%s' weighs the caution lines of safety otherwise than "
                              "the farm as it is (caution_weight in winter.csv), and is "
                              "not ranked with it: what it saves, it saves by passing "
                              "more of them, or fewer.",
                              future->name),
                  "");
}

static double steady_share(const Future *future) {
    return future->plan->question->farm->winter.steady_cost_share;
}

/* The totals are of least costs, and do not show it. */
static void add_other_steadiness(Report *report, const Future *as_it_is, const Future *future) {
    report_remark(report, SEVERITY_CAUTION, "other steadiness",
                  arena_print(report->arena,
                              "'%s' may spend up to %.3g %% of feed and hauling on steadier "
                              "rations, the farm as it is up to %.3g %% (steady_cost_pct in "
                              "winter.csv). That is not in the totals here: plan each by "
                              "itself to see what its rations cost.",
                              future->name, 100.0 * steady_share(future),
                              100.0 * steady_share(as_it_is)),
                  "");
}

void comparison_add_remarks(Report *report, const Comparison *comparison) {
    const Future *as_it_is = &comparison->futures[0];
    for (int i = 1; i < comparison->count; i++) {
        const Future *future = &comparison->futures[i];
        if (!comparison_is_same_herd(comparison, future))
            add_other_herd(report, comparison, future);
        else if (!comparison_is_ranked(comparison, future))
            add_other_weight(report, future);
        if (future->plan && as_it_is->plan && steady_share(future) != steady_share(as_it_is))
            add_other_steadiness(report, as_it_is, future);
    }
}
