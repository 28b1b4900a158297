#include "outcome/comparison.h"
#include "outcome/plan_report.h"
#include <math.h>

static void add_purchases(Figure *of, const WinterPlan *plan) {
    Figure *list = figure_list(of, "purchases");
    for (int f = plan->question->own_count; f < plan->question->feed_count; f++) {
        if (plan->bought_kg[f] <= 0.0)
            continue;
        Figure *bought = figure_list_object(list);
        figure_text(bought, "feed", plan->question->feeds[f].name);
        figure_number(bought, "as_fed_kg", plan->bought_kg[f]);
        figure_number(bought, "cost",
                      plan->bought_kg[f] * plan->question->feeds[f].price_per_kg);
    }
}

static void add_cautions(Figure *of, const Future *future) {
    Figure *list = figure_list(of, "cautions");
    for (int i = 0; i < future->caution_count; i++) {
        Figure *caution = figure_list_object(list);
        figure_text(caution, "topic", future->cautions[i].topic);
        figure_truth(caution, "danger", future->cautions[i].severity == SEVERITY_DANGER);
        figure_text(caution, "fact", future->cautions[i].fact);
    }
}

static void add_groups(Figure *of, const WinterPlan *plan) {
    const Herd *herd = &plan->question->farm->herd;
    Figure *groups = figure_list(of, "groups");
    for (int g = 0; g < herd->count; g++) {
        Figure *group = figure_list_object(groups);
        figure_text(group, "group", herd->names[g]);
        figure_number(group, "head", herd->groups[g].head);
        Figure *feeds = figure_list(group, "mean_put_out");
        for (int f = 0; f < plan->question->feed_count; f++) {
            const char *name = plan->question->feeds[f].name;
            const double kg = comparison_mean_kg(plan, g, name);
            if (kg <= 0.0)
                continue;
            Figure *feed = figure_list_object(feeds);
            figure_text(feed, "feed", name);
            figure_number(feed, "as_fed_kg", kg);
        }
    }
}

static const char *verdict_word(const Future *future) {
    if (!future->plan)
        return "faulty";
    return future->plan->verdict == PLAN_BALANCED ? "balanced" : "short";
}

static void add_pair(Figure *list, const Future *a, const Future *b) {
    const CostDifference of = comparison_difference(a, b);
    Figure *pair = figure_list_object(list);
    figure_text(pair, "a", a->name);
    figure_text(pair, "b", b->name);
    figure_number(pair, "b_costs_more", of.more);
    figure_number(pair, "standard_error", of.standard);
    figure_truth(pair, "beyond_the_error", of.is == DIFFERENCE_BEYOND_ERROR);
}

static void add_future(Figure *list, const Comparison *comparison, const Future *future) {
    Figure *of = figure_list_object(list);
    figure_text(of, "name", future->name);
    figure_text(of, "verdict", verdict_word(future));
    Figure *changes = figure_list(of, "changes");
    for (int i = 0; i < future->word_count; i++)
        figure_list_text(changes, future->words[i]);
    figure_number(of, "costs_besides", future->own_cost);
    if (!future->plan)
        return;
    const CostDifference difference = comparison_difference(&comparison->futures[0], future);
    const WinterPlan *plan = future->plan;
    const bool is_balanced = plan->verdict == PLAN_BALANCED;
    if (!is_balanced) {
        const PlanFindings findings = {.plan = plan, .units = comparison->units};
        figure_text(of, "shortfall", shortfall_words(of->arena, &findings));
    }
    figure_number(of, "total", future_cost(future));
    figure_number(of, "feed_and_hauling", is_balanced ? future->least.money : (double)NAN);
    figure_number(of, "cautions_weigh", is_balanced ? future->least.cautions : (double)NAN);
    figure_number(of, "yardage", plan->cost.yardage);
    figure_number(of, "per_head_day", future_cost(future) / future->head_days);
    figure_number(of, "feed_bought", plan->cost.bought);
    figure_number(of, "more_than_as_it_is", difference.more);
    figure_number(of, "standard_error_of_that", difference.standard);
    figure_truth(of, "beyond_the_error", difference.is == DIFFERENCE_BEYOND_ERROR);
    figure_number(of, "own_feed_on_hand_value", future->on_hand_value);
    figure_number(of, "own_feed_left_kg", future->left_kg);
    figure_number(of, "balanced_days", future->days.balanced_days);
    figure_number(of, "chance_of_turnout", future->chance_of_turnout);
    add_purchases(of, plan);
    add_groups(of, plan);
    add_cautions(of, future);
}

void comparison_figures(Figure *root, const Comparison *comparison) {
    const int cheapest = comparison_cheapest(comparison, 0);
    figure_text(root, "cheapest", cheapest < 0 ? NULL : comparison->futures[cheapest].name);
    Figure *list = figure_list(root, "futures");
    for (int i = 0; i < comparison->count; i++)
        add_future(list, comparison, &comparison->futures[i]);
    Figure *pairs = figure_list(root, "pairs");
    for (int a = 0; a < comparison->count; a++) {
        for (int b = a + 1; b < comparison->count; b++) {
            if (comparison->futures[a].plan && comparison->futures[b].plan)
                add_pair(pairs, &comparison->futures[a], &comparison->futures[b]);
        }
    }
}
