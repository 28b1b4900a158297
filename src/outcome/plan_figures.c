/* The plan as figures, in kg, Mcal and dollars. The feeds stand beside the rations with their
 * analysis as eaten, so that a ration can be multiplied out by hand from the figures alone. */
#include "outcome/day_words.h"
#include "outcome/limit_cautions.h"
#include "outcome/plan_gain.h"
#include "outcome/plan_guides.h"
#include "outcome/plan_purchases.h"
#include "outcome/plan_report.h"
#include "outcome/plan_yard.h"
#include "planner/plan_turnover.h"
#include "planner/yard_plan.h"
#include <math.h>

static void add_cost(Figure *root, const PlanFindings *findings) {
    const PlanCost *cost = &findings->plan->cost;
    const PlanQuestion *question = findings->plan->question;
    double head_days = 0.0;
    for (int b = 0; b < question->block_count; b++)
        head_days += question->blocks[b].head * question->blocks[b].days;
    Figure *of = figure_child(root, "cost");
    figure_number(of, "total", cost->total);
    figure_number(of, "feed_bought", cost->bought);
    figure_number(of, "own_feed", cost->own_feed);
    figure_number(of, "hauling", cost->hauling);
    figure_number(of, "yardage", cost->yardage);
    figure_number(of, "per_head_day", cost->total / head_days);
    figure_number(of, "least_cost_of_feed_and_hauling", findings->plan->least_cost);
    figure_number(of, "cautions_weigh", cost->cautions);
    figure_number(of, "least_cautions_weigh", findings->plan->least_cautions);
    figure_number(of, "keeping_behind_caution_lines_costs", findings->caution_cost);
}

static void add_feed(Figure *list, const PlanFeed *feed) {
    Figure *of = figure_list_object(list);
    figure_text(of, "feed", feed->name);
    figure_truth(of, "own", feed->is_own);
    figure_text(of, "class", feed_class_kind(feed->feed->feed_class)->key);
    figure_truth(of, "forage", feed_class_kind(feed->feed->feed_class)->is_forage);
    figure_number(of, "dry_matter_pct", feed->dry_share * 100.0);
    figure_number(of, "waste_pct", feed->waste_share * 100.0);
    figure_number(of, "shrink_pct", feed->shrink_share * 100.0);
    figure_number(of, "price_per_kg", feed->price_per_kg);
    figure_number(of, "value_per_kg", feed->value_per_kg);
    figure_number(of, "haul_per_kg", feed->haul_per_kg);
    figure_number(of, "available_kg", feed->available_kg);
    figure_number(of, "load_kg", feed->load_kg > 0.0 ? feed->load_kg : (double)NAN);
    figure_number(of, "bale_kg", feed->bale_kg > 0.0 ? feed->bale_kg : (double)NAN);
    figure_truth(of, "has_face", feed->has_face);
    figure_number(of, "least_face_kg_per_day", feed->least_face_kg_per_day);
    figure_text(of, "yard", feed->yard);
    figure_number(of, "haul_to_other_yard_per_kg", feed->other_yard_per_kg);
    figure_number(of, "degradable_protein_g_per_kg", feed->degraded);
    figure_number(of, "undegradable_protein_g_per_kg", feed->undegraded);
    Figure *watch_for = figure_list(of, "watch_for");
    for (int watch = 0; watch < FEED_WATCH_COUNT; watch++) {
        if (feed->feed->watch & WATCH_BIT(watch))
            figure_list_text(watch_for, feed_watch_name((FeedWatch)watch));
    }
    Figure *eaten = figure_child(of, "as_eaten");
    for (int i = 0; i < NUTRIENT_COUNT; i++)
        figure_number(eaten, nutrient_kind((Nutrient)i)->stem, feed->eaten[i]);
}

static void add_ration(Figure *period, const PlanFindings *findings, int block) {
    const WinterPlan *plan = findings->plan;
    const PlanQuestion *question = plan->question;
    Figure *list = figure_list(period, "ration");
    const PlanBlock *as_block = &question->blocks[block];
    for (int f = 0; f < question->feed_count; f++) {
        const double eaten = plan->blocks[block].eaten[f];
        if (eaten <= 0.0)
            continue;
        const double put_out = put_out_kg(plan, block, f);
        Figure *of = figure_list_object(list);
        figure_text(of, "feed", question->feeds[f].name);
        figure_number(of, "dry_matter_kg", eaten);
        figure_number(of, "as_fed_kg", put_out);
        figure_number(of, "group_as_fed_kg", put_out * question->blocks[block].head);
        const double bale = question->feeds[f].bale_kg;
        figure_number(of, "group_bales",
                      bale > 0.0 ? put_out * question->blocks[block].head / bale : (double)NAN);
        figure_number(of, "whole_bale_weeks",
                      bale > 0.0 ? yard_bale_weeks(as_block, &question->feeds[f])
                                 : (double)NAN);
    }
}

static void add_nutrients(Figure *period, const BlockOutcome *outcome) {
    Figure *list = figure_list(period, "nutrients");
    for (int i = 0; i < outcome->limit_count; i++) {
        const LimitOutcome *of = &outcome->limits[i];
        if (of->limit->is_inner)
            continue;
        Figure *row = figure_list_object(list);
        figure_text(row, "nutrient", of->limit->key);
        figure_text(row, "label", of->limit->label);
        figure_text(row, "unit", of->limit->unit);
        figure_number(row, "supplied", of->supplied * of->limit->shown_times);
        figure_number(row, "least", of->least * of->limit->shown_times);
        figure_number(row, "most", of->most * of->limit->shown_times);
        figure_number(row, "caution_line", of->limit->warn * of->limit->shown_times);
        figure_number(row, "shadow_price", of->shadow_price / of->limit->shown_times);
        figure_number(row, "caution_shadow_price", of->caution_price / of->limit->shown_times);
        figure_number(row, "short_by", of->short_by * of->limit->shown_times);
        figure_text(row, "source", source_key(of->limit->source));
    }
}

/* Guides no ration is held to, and what its minerals bring of them. */
static void add_guides(Figure *period, const WinterPlan *plan, int block) {
    Figure *list = figure_list(period, "not_planned_for");
    for (int n = 0; n < NUTRIENT_COUNT; n++) {
        const double guide = plan->question->farm->minerals->guide[n];
        if (guide <= 0.0)
            continue;
        Figure *row = figure_list_object(list);
        figure_text(row, "nutrient", nutrient_kind((Nutrient)n)->stem);
        figure_text(row, "unit", nutrient_kind((Nutrient)n)->unit);
        figure_number(row, "guide", guide);
        figure_number(row, "minerals_bring", plan_minerals_bring(plan, block, (Nutrient)n));
    }
}

/* Limits whose caution line is passed in this period, by their names. */
static void add_period_cautions(Figure *period, const BlockOutcome *outcome) {
    Figure *list = figure_list(period, "cautions");
    for (int i = 0; i < outcome->limit_count; i++) {
        if (is_beyond_warn(&outcome->limits[i]))
            figure_list_text(list, outcome->limits[i].limit->key);
    }
}

/* What sets the ration where it brings more gain than was asked: a need by its key. */
static const char *gain_set_by(const WinterPlan *plan, int block) {
    const RationLimit *limit;
    switch (plan_gain_cause(plan, block, &limit)) {
    case GAIN_AS_ASKED:
        return NULL;
    case GAIN_BY_LIMIT:
        return limit->key;
    case GAIN_BY_EVENING:
        return "evening_out";
    }
    return NULL;
}

/* By the published table the energy of the gain is in the upkeep, and no gain can be told from
 * it. */
static double gain_told(const Requirement *need, const BlockOutcome *outcome) {
    const bool is_in_upkeep = need->follows_table && need->gain.kg_per_day > 0.0 &&
                              need->retained.mcal_per_day <= 0.0;
    return is_in_upkeep ? (double)NAN : outcome->gain_kg;
}

static void add_period(Figure *list, const PlanFindings *findings, int block) {
    const PlanBlock *of = &findings->plan->question->blocks[block];
    const BlockOutcome *outcome = &findings->plan->blocks[block];
    Arena *arena = list->arena;
    Figure *period = figure_list_object(list);
    figure_text(period, "from", day_iso(arena, of->from));
    figure_text(period, "to", day_iso(arena, of->to));
    figure_number(period, "days", of->days);
    figure_number(period, "head", of->head);
    figure_number(period, "live_weight_kg", of->need.live_weight.kg);
    figure_number(period, "dry_matter_intake", outcome->dry_matter_kg);
    figure_number(period, "intake_most", outcome->intake_most);
    figure_number(period, "intake_least", outcome->intake_least);
    figure_number(period, "diet_nem_mcal_per_kg", outcome->diet_nem);
    figure_number(period, "upkeep_nem_mcal", requirement_nem(&of->need).mcal_per_day);
    figure_number(period, "gain_neg_mcal", of->need.retained.mcal_per_day);
    figure_number(period, "microbial_protein_kg", outcome->microbial_kg);
    figure_number(period, "gain_wanted_kg", of->need.gain.kg_per_day);
    figure_number(period, "gain_recomputed_kg", gain_told(&of->need, outcome));
    figure_text(period, "gain_set_by", gain_set_by(findings->plan, block));
    figure_number(period, "energy_left_mcal", outcome->energy_left);
    figure_number(period, "condition_asked_9", findings->conditions[block].asked);
    figure_number(period, "condition_recomputed_9", findings->conditions[block].given);
    figure_number(period, "cost_per_head_day", outcome->cost_per_head_day);
    add_ration(period, findings, block);
    add_nutrients(period, outcome);
    add_guides(period, findings->plan, block);
    add_period_cautions(period, outcome);
}

static void add_groups(Figure *root, const PlanFindings *findings) {
    const PlanQuestion *question = findings->plan->question;
    Figure *list = figure_list(root, "groups");
    for (int g = 0; g < question->farm->herd.count; g++) {
        const HerdGroup *of = &question->farm->herd.groups[g];
        Figure *group = figure_list_object(list);
        figure_text(group, "group", of->name);
        figure_text(group, "class", cattle_class_kind(of->cattle_class)->name);
        figure_number(group, "head", of->head);
        figure_text(group, "yard", of->yard);
        figure_text(group, "delivery", delivery_name(of->delivery));
        Figure *periods = figure_list(group, "periods");
        int first;
        const int count = group_blocks(question, g, &first);
        for (int b = first; b < first + count; b++)
            add_period(periods, findings, b);
    }
}

static void add_stacks(Figure *root, const PlanFindings *findings) {
    const WinterPlan *plan = findings->plan;
    Figure *list = figure_list(root, "stacks");
    for (int f = 0; f < plan->question->own_count; f++) {
        const PlanFeed *feed = &plan->question->feeds[f];
        const StackRunout *runout = &findings->runouts[f];
        const double taken_dry = plan->taken_kg[f] * feed->dry_share;
        Figure *of = figure_list_object(list);
        figure_text(of, "stack", feed->name);
        figure_number(of, "weight_error_pct", 100.0 * feed->weight_error_share);
        figure_number(of, "dry_matter_kg", feed->available_kg * feed->dry_share);
        figure_number(of, "as_fed_kg", feed->available_kg);
        figure_number(of, "taken_as_fed_kg", plan->taken_kg[f]);
        figure_number(of, "fed_kg", taken_dry * (1.0 - feed->waste_share));
        figure_number(of, "waste_kg", taken_dry * feed->waste_share);
        figure_number(of, "left_kg", runout->left_kg * feed->dry_share);
        figure_text(of, "runs_out",
                    runout->runs_out ? day_iso(list->arena, runout->last_fed) : NULL);
        figure_number(of, "worth_more_per_tonne",
                      (feed->value_per_kg + findings->worth_more[f]) * KG_PER_TONNE);
        figure_number(of, "worth_less_per_tonne",
                      (feed->value_per_kg + findings->worth_less[f]) * KG_PER_TONNE);
    }
}

static void add_market(Figure *root, const PlanFindings *findings) {
    const WinterPlan *plan = findings->plan;
    Figure *bought = figure_list(root, "purchases");
    Figure *missed = figure_list(root, "near_misses");
    for (int f = plan->question->own_count; f < plan->question->feed_count; f++) {
        const PlanFeed *feed = &plan->question->feeds[f];
        Day day;
        if (plan->bought_kg[f] > 0.0) {
            Figure *of = figure_list_object(bought);
            figure_text(of, "feed", feed->name);
            figure_number(of, "as_fed_kg", plan->bought_kg[f]);
            figure_number(of, "cost", plan->bought_kg[f] * feed->price_per_kg);
            figure_number(of, "loads", yard_loads(plan, f));
            figure_number(of, "left_kg", plan->yard ? plan->yard->left_kg[f] : 0.0);
            figure_text(of, "by", bought_by(plan, f, &day) ? day_iso(root->arena, day) : NULL);
            const double after_kg = bought_for_after_hauling_kg(plan, f);
            figure_text(of, "all_by",
                        after_kg > 0.0 ? day_iso(root->arena, *feed->delivered_until) : NULL);
            figure_number(of, "fed_after_kg", after_kg);
            figure_number(of, "less_above", findings->prices[f].less_above * KG_PER_TONNE);
            figure_number(of, "none_above", findings->prices[f].leaves_above * KG_PER_TONNE);
            figure_truth(of, "needed_at_any_price",
                         findings->prices[f].leaves_above >= NO_LIMIT);
        } else if (isfinite(findings->prices[f].enters_below)) {
            Figure *of = figure_list_object(missed);
            figure_text(of, "feed", feed->name);
            figure_number(of, "price_now", feed->price_per_kg * KG_PER_TONNE);
            figure_number(of, "price_that_enters",
                          findings->prices[f].enters_below * KG_PER_TONNE);
        }
    }
}

static void add_days(Figure *root, const PlanFindings *findings) {
    const DaysOnHand *days = &findings->days;
    Figure *of = figure_child(root, "days_on_hand");
    figure_number(of, "gross", days->gross_days);
    if (findings->is_brief) {
        static const char *const UNASKED[] = {"balanced", "until", "all_winter", "stopped_by"};
        for (size_t i = 0; i < sizeof UNASKED / sizeof *UNASKED; i++)
            figure_nothing(of, UNASKED[i]);
        return;
    }
    figure_number(of, "balanced", days->balanced_days);
    figure_text(of, "until",
                days->balanced_days > 0 ? day_iso(root->arena, days->balanced_until) : NULL);
    figure_truth(of, "all_winter", days->lasts_all_winter);
    figure_text(of, "stopped_by", days->stopped_by.limit ? days->stopped_by.limit->key : NULL);
}

static const char *severity_name(Severity severity) {
    switch (severity) {
    case SEVERITY_NOTE:
        return "note";
    case SEVERITY_CAUTION:
        return "caution";
    case SEVERITY_DANGER:
        return "danger";
    }
    return "";
}

static void add_cautions(Figure *root, const PlanFindings *findings) {
    Figure *list = figure_list(root, "cautions");
    for (int i = 0; i < findings->caution_count; i++) {
        Figure *of = figure_list_object(list);
        figure_text(of, "severity", severity_name(findings->cautions[i].severity));
        figure_text(of, "topic", findings->cautions[i].topic);
        figure_text(of, "text",
                    arena_print(root->arena, "%s. %s", findings->cautions[i].fact,
                                findings->cautions[i].advice));
        figure_text(of, "source", findings->cautions[i].source);
    }
}

static void add_practices(Figure *root, const Winter *winter) {
    Figure *of = figure_child(root, "practices");
    figure_text(of, "nitrate", winter_follows(winter, PRACTICE_PRAIRIE) ? "prairie" : "strict");
    figure_text(of, "sulfur",
                winter_follows(winter, PRACTICE_SULFUR_FORAGE) ? "forage" : "usual");
}

static void add_sources(Figure *root, const PlanFindings *findings) {
    Figure *list = figure_list(root, "sources");
    for (int i = 0; i < findings->source_count; i++) {
        Figure *of = figure_list_object(list);
        figure_text(of, "key", source_key(findings->sources[i]));
        figure_text(of, "citation", source_citation(findings->sources[i]));
        figure_truth(of, "from_memory",
                     source_how_known(findings->sources[i]) == KNOWN_FROM_MEMORY);
    }
}

void plan_figures(Figure *root, const PlanFindings *findings) {
    if (findings->has_no_figures)
        return;
    const WinterPlan *plan = findings->plan;
    const Winter *winter = &plan->question->farm->winter;
    figure_text(root, "verdict", plan->verdict == PLAN_BALANCED ? "balanced" : "short");
    figure_truth(root, "in_brief", findings->is_brief);
    figure_truth(root, "as_found", findings->is_as_found);
    figure_text(root, "from", day_iso(root->arena, winter->first_day));
    figure_text(root, "to", day_iso(root->arena, winter->last_day));
    figure_text(root, "currency", winter->currency);
    figure_text(root, "requirements", needs_way_name(winter->needs_way));
    figure_text(root, "cold", cold_way_name(winter->cold_way));
    figure_text(root, "protein", microbial_form_name(winter->microbial_form));
    add_practices(root, winter);
    plan_change_figures(root, findings);
    add_cost(root, findings);
    add_groups(root, findings);
    plan_step_up_figures(root, findings);
    add_stacks(root, findings);
    add_market(root, findings);
    add_days(root, findings);
    plan_cold_spell_figures(root, findings);
    plan_mend_figures(root, findings);
    figure_number(root, "carry_over_short_kg", plan->carry_over_short_kg);
    Figure *feeds = figure_list(root, "feeds");
    for (int f = 0; f < plan->question->feed_count; f++)
        add_feed(feeds, &plan->question->feeds[f]);
    Figure *water = figure_child(root, "water");
    figure_number(water, "adds_nitrate_pct",
                  water_adds(NUTRIENT_NITRATE, winter->water_sulfate_mg_per_l,
                             winter->water_nitrate_mg_per_l));
    figure_number(water, "adds_salt_pct", water_adds_salt(winter->water_sodium_mg_per_l));
    figure_number(water, "adds_sulfur_pct",
                  water_adds(NUTRIENT_SULFUR, winter->water_sulfate_mg_per_l,
                             winter->water_nitrate_mg_per_l));
    plan_winters_figures(root, findings->plan);
    plan_yard_figures(root, findings);
    Figure *iteration = figure_child(root, "iteration");
    figure_number(iteration, "rounds", plan->rounds);
    figure_number(iteration, "residual", plan->residual);
    figure_truth(iteration, "settled", plan->has_settled);
    figure_truth(iteration, "steady", plan->is_steady);
    figure_number(iteration, "steady_cost_pct", winter->steady_cost_share * 100.0);
    figure_number(iteration, "turnover_pct", plan_turnover(plan) * 100.0);
    add_cautions(root, findings);
    add_sources(root, findings);
}
