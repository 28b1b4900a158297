/* The same as a tree of figures: kg, hectares and money. */
#include "outcome/cut_report.h"
#include "outcome/day_words.h"
#include <math.h>

static const char *const FUTURE_KEYS[FUTURE_COUNT] = {"first", "second", "first_and_buy",
                                                      "second_and_buy", "mixed"};
static const char *const YEAR_KEYS[YEAR_COUNT] = {
    "expected", "no_rain", "rain_on_all", "yields_lower", "yields_higher", "tests_poorer"};

/* A winter that is short has no cost to compare: the parts are those of the least shortage. */
static void add_cost(Figure *future, const CutPlan *plan) {
    const CutCost *cost = &plan->cost;
    Figure *of = figure_child(future, "cost");
    figure_number(of, "growing", cost->growing);
    figure_number(of, "grazing", cost->grazing);
    figure_number(of, "surplus", cost->surplus);
    figure_number(of, "feed_bought", cost->bought);
    figure_number(of, "hauling", cost->hauling);
    figure_number(of, "yardage", cost->yardage);
    figure_number(of, "cautions_weigh", cost->cautions);
    figure_number(of, "total", plan->verdict == PLAN_BALANCED ? cost->total : (double)NAN);
}

static void add_cuts_of(Figure *future, const CutFindings *findings, FutureName name) {
    const Fields *fields = &findings->farm->fields;
    const CutPlan *plan = &findings->plans[name];
    Figure *list = figure_list(future, "cuts");
    for (int c = 0; c < fields->cut_count; c++) {
        if (plan->hectares[c] <= 0.0)
            continue;
        Figure *cut = figure_list_object(list);
        figure_text(cut, "cut", fields->cuts[c].name);
        figure_number(cut, "hectares", plan->hectares[c]);
        figure_number(cut, "as_fed_kg", plan->made_kg[c]);
        figure_number(cut, "fed_kg", plan->plan.taken_kg[c]);
    }
}

static void add_purchases(Figure *future, const CutPlan *plan) {
    Figure *list = figure_list(future, "purchases");
    for (int f = plan->question->own_count; f < plan->question->feed_count; f++) {
        if (plan->plan.bought_kg[f] <= 0.0)
            continue;
        Figure *bought = figure_list_object(list);
        figure_text(bought, "feed", plan->question->feeds[f].name);
        figure_number(bought, "as_fed_kg", plan->plan.bought_kg[f]);
        figure_number(bought, "cost",
                      plan->plan.bought_kg[f] * plan->question->feeds[f].price_per_kg);
    }
}

static void add_groups(Figure *future, const CutPlan *plan) {
    const PlanQuestion *question = plan->question;
    Figure *list = figure_list(future, "groups");
    for (int g = 0; g < question->farm->herd.count; g++) {
        const double *eaten = cut_mean_ration(future->arena, plan, g);
        Figure *group = figure_list_object(list);
        figure_text(group, "group", question->farm->herd.groups[g].name);
        Figure *ration = figure_list(group, "ration");
        for (int f = 0; f < question->feed_count; f++) {
            if (eaten[f] <= 0.0)
                continue;
            Figure *feed = figure_list_object(ration);
            figure_text(feed, "feed", question->feeds[f].name);
            figure_number(feed, "dry_matter_kg", eaten[f]);
        }
    }
}

static void add_futures(Figure *root, const CutFindings *findings) {
    Figure *list = figure_list(root, "futures");
    for (int name = 0; name < FUTURE_COUNT; name++) {
        if (!findings->is_there[name])
            continue;
        const CutPlan *plan = &findings->plans[name];
        Figure *future = figure_list_object(list);
        figure_text(future, "key", FUTURE_KEYS[name]);
        figure_text(future, "name", future_words(root->arena, findings, (FutureName)name));
        figure_text(future, "verdict", plan->verdict == PLAN_BALANCED ? "balanced" : "short");
        if (plan->verdict != PLAN_BALANCED)
            figure_text(future, "lack", future_lack_words(root->arena, plan));
        add_cost(future, plan);
        add_cuts_of(future, findings, (FutureName)name);
        add_purchases(future, plan);
        add_groups(future, plan);
        Figure *years = figure_child(future, "cost_by_year");
        for (int y = 0; y < YEAR_COUNT; y++)
            figure_number(years, YEAR_KEYS[y], findings->year_cost[y][name]);
    }
}

static void add_basis(Figure *root, const CutFindings *findings) {
    const Fields *fields = &findings->farm->fields;
    Figure *list = figure_list(root, "cuts");
    for (int c = 0; c < fields->cut_count; c++) {
        const FieldCut *of = &fields->cuts[c];
        const Feedstuff *feed = findings->question.question.feeds[c].feed;
        Figure *cut = figure_list_object(list);
        figure_text(cut, "cut", of->name);
        figure_text(cut, "field", fields->fields[of->field].name);
        figure_text(cut, "date", day_iso(root->arena, of->cut));
        figure_text(cut, "way", of->way->name);
        figure_number(cut, "field_hectares", fields->fields[of->field].hectares);
        figure_number(cut, "yield_kg_per_hectare", of->yield_kg_per_hectare);
        figure_text(cut, "yield_origin", of->yield_origin == GROWN_OWN ? "own" : "curve");
        figure_number(cut, "crude_protein_pct",
                      reading_or(feed->analysis.of[NUTRIENT_CRUDE_PROTEIN], (double)NAN));
        figure_number(cut, "tdn_pct", reading_or(feed->analysis.of[NUTRIENT_TDN], (double)NAN));
        figure_truth(cut, "tdn_is_by_curve", of->test_by_curve[GROWN_TDN]);
        figure_number(cut, "dry_matter_share", of->dry_share);
        figure_number(cut, "field_loss_share", of->field_loss_share);
        figure_number(cut, "rain_chance", of->rain_chance);
        figure_number(cut, "rain_loss_share", of->rain_loss_share);
        figure_number(cut, "storage_loss_share",
                      findings->question.farm->inventory.stacks.stacks[c].loss_share);
        figure_number(cut, "area_cost_per_hectare", of->cost_per_hectare);
        figure_number(cut, "put_up_cost_per_kg", of->cost_per_kg);
        figure_number(cut, "regrowth_kg_per_hectare", of->regrowth_kg_per_hectare);
        figure_number(cut, "regrowth_use_share", of->regrowth_use_share);
        figure_number(cut, "grazing_value_per_kg", of->grazing_value_per_kg);
        figure_number(cut, "left_over_value_per_kg", of->value_per_kg);
        figure_number(cut, "cost_per_hectare",
                      field_cut_cost(of, growing_year_expected()) + field_cut_grazing(of));
        figure_number(cut, "grazing_per_hectare", field_cut_grazing(of));
    }
}

static void add_turn(Figure *root, const CutFindings *findings) {
    const CutTurn *turn = &findings->turn;
    if (!findings->has_turn) {
        figure_nothing(root, "turn");
        return;
    }
    Figure *of = figure_child(root, "turn");
    figure_text(of, "feed", findings->farm->inventory.for_sale.names[findings->wishes.offer]);
    figure_number(of, "price_per_kg", turn->price_per_kg);
    figure_number(of, "low_per_kg", turn->low_per_kg);
    figure_number(of, "high_per_kg", turn->high_per_kg);
    if (isnan(turn->price_per_kg))
        return;
    figure_number(of, "first_low", turn->first_low);
    figure_number(of, "second_low", turn->second_low);
    figure_number(of, "first_high", turn->first_high);
    figure_number(of, "second_high", turn->second_high);
}

void cut_report_figures(Report *report, const CutFindings *findings) {
    Figure *root = report->figures;
    figure_text(root, "verdict", findings->is_balanced ? "balanced" : "short");
    figure_text(root, "currency", findings->farm->winter.currency);
    add_futures(root, findings);
    add_turn(root, findings);
    figure_number(root, "first_tonne_worth_per_kg", findings->offer_worth_per_kg);
    add_basis(root, findings);
}
