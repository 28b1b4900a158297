#include "outcome/worth_report.h"
#include "base/text.h"
#include <math.h>

static const PlanFeed *offer_feed(const FeedWorths *worths, int offer) {
    return &worths->plan->question->feeds[worths->plan->question->own_count + offer];
}

/* Dollars a kg of a unit as cents of the unit shown. */
static Cell cents(Units units, double dollars_per_kg) {
    return number_cell(100.0 * dollars_per_kg * (units == UNITS_IMPERIAL ? KG_PER_POUND : 1.0),
                       1);
}

static void add_costs(Report *report, const FeedWorths *worths, Units units) {
    const char *price = arena_print(report->arena, "$ %s", measure_unit(units, MEASURE_PRICE));
    const char *weight = units == UNITS_IMPERIAL ? "c/lb" : "c/kg";
    const ReportColumn columns[] = {
        {"feed", "Feed", "", 0},           {"gate", "At the gate", price, 1},
        {"freight", "Freight", price, 1},  {"landed", "Landed", price, 1},
        {"nem", "NEm", "c/Mcal", 1},       {"tdn", "TDN", weight, 1},
        {"protein", "Protein", weight, 1},
    };
    report_section(report, "costs", "What it costs");
    ReportTable *table = report_table(
        report, "costs", "Prices as fed; energy and protein as eaten, all in", columns, 7);
    for (int i = 0; i < worths->offer_count; i++) {
        const FeedWorth *of = &worths->offers[i];
        const Cell cells[] = {text_cell(offer_feed(worths, i)->name),
                              measure_cell(units, MEASURE_PRICE, of->gate_per_kg),
                              measure_cell(units, MEASURE_PRICE, of->freight_per_kg),
                              measure_cell(units, MEASURE_PRICE, of->landed_per_kg),
                              number_cell(100.0 * of->per_nem_mcal, 1),
                              cents(units, of->per_tdn_kg),
                              cents(units, of->per_protein_kg)};
        report_row(table, cells);
    }
    report_paragraph(
        report, "All in: shrink from the truck, hauling out and feeding waste are paid for "
                "too. Each column puts the whole price on one thing a feed brings, so a "
                "feed that brings two is cheaper than it looks in either.");
}

/* "At any price": an empty number would read as nothing. */
static Cell worth_cell(Units units, double per_kg) {
    return isinf(per_kg) ? text_cell("any") : measure_cell(units, MEASURE_PRICE, per_kg);
}

/* A few bags may be worth their price where the first tonne is not. */
static const char *advice(const FeedWorths *worths, int offer) {
    const FeedWorth *of = &worths->offers[offer];
    const PlanQuestion *question = worths->plan->question;
    if (plan_is_past_hauling(question, question->own_count + offer))
        return "too late to haul";
    const double gate = feed_worth_at_gate(of);
    if (isinf(of->first_per_kg))
        return "needed";
    if (isnan(of->first_per_kg))
        return "";
    if (of->first_per_kg <= 0.0)
        return "no use";
    if (of->gate_per_kg <= gate)
        return "pays";
    return of->bought_kg > WORTH_BUYING_KG ? "a little pays" : "too dear";
}

static void add_worth(Report *report, const FeedWorths *worths, Units units) {
    const char *price = arena_print(report->arena, "$ %s", measure_unit(units, MEASURE_PRICE));
    const ReportColumn columns[] = {
        {"feed", "Feed", "", 0},
        {"landed", "Landed", price, 1},
        {"first", "First tonne worth", price, 1},
        {"load", "A load worth", price, 1},
        {"pays_to", "Pays up to, at the gate", price, 1},
        {"bought", "Cheapest plan buys", measure_unit(units, MEASURE_TONNAGE), 1},
        {"advice", "So it", "", 0},
    };
    report_section(report, "worth", "What it is worth to this herd");
    ReportTable *table =
        report_table(report, "worth", "As fed, in this winter's plan", columns, 7);
    for (int i = 0; i < worths->offer_count; i++) {
        const FeedWorth *of = &worths->offers[i];
        const Cell cells[] = {text_cell(offer_feed(worths, i)->name),
                              measure_cell(units, MEASURE_PRICE, of->landed_per_kg),
                              worth_cell(units, of->first_per_kg),
                              worth_cell(units, of->load_per_kg),
                              worth_cell(units, feed_worth_at_gate(of)),
                              tonnage_cell(units, of->bought_kg),
                              text_cell(advice(worths, i))};
        report_row(table, cells);
    }
    report_paragraph(
        report,
        "Worth is what the plan saves where there is none of it otherwise: its first tonne "
        "(1,000 kg), or all the plan buys where that is less, and the mean of a whole load "
        "where for-sale.csv gives one. Above the price at the gate it is not worth hauling "
        "home. All else is as it is, and rations are not "
        "evened out, so that winterstack plan may buy other amounts; keeping behind the "
        "caution "
        "lines of safety counts, at what they weigh. Two feeds that would do the same are each "
        "worth something alone, and not "
        "both together. \"Any\": the herd cannot be fed without it. \"A little pays\": the "
        "tonnes of the cheapest plan pay, and a whole tonne or load does not.");
}

static void add_market(Report *report, const FeedWorths *worths, Units units) {
    Arena *arena = report->arena;
    const NutrientPrices *market = &worths->market;
    report_section(report, "market", "What market arithmetic says");
    if (worths->energy_offer < 0 || worths->protein_offer < 0) {
        report_paragraph(report, "It needs a grain and a protein meal for sale, to take their "
                                 "prices as right; one is missing.");
        return;
    }
    const char *energy = offer_feed(worths, worths->energy_offer)->name;
    const char *protein = offer_feed(worths, worths->protein_offer)->name;
    if (!market->is_solved) {
        report_paragraph(report,
                         "%s and %s are too alike to tell a price of energy from one of "
                         "protein.",
                         energy, protein);
        return;
    }
    const bool is_odd = market->per_tdn_kg < 0.0 || market->per_protein_kg < 0.0;
    const double pounds = units == UNITS_IMPERIAL ? KG_PER_POUND : 1.0;
    report_paragraph(
        report,
        "If the prices of %s and %s are right for what they bring, a %s of TDN is worth %s and "
        "a %s of protein %s.%s [PETERSEN_1932 NMSU_D206]",
        energy, protein, units == UNITS_IMPERIAL ? "lb" : "kg",
        money_words(arena, market->per_tdn_kg * pounds, 3),
        units == UNITS_IMPERIAL ? "lb" : "kg",
        money_words(arena, market->per_protein_kg * pounds, 3),
        is_odd ? arena_print(arena,
                             " One of them is below nothing: %s is priced out of line, or they "
                             "are the wrong pair.",
                             market->per_protein_kg < 0.0 ? protein : energy)
               : "");
    const char *price = arena_print(report->arena, "$ %s", measure_unit(units, MEASURE_PRICE));
    const ReportColumn columns[] = {
        {"feed", "Feed", "", 0},
        {"landed", "Landed", price, 1},
        {"market", "By the market", price, 1},
        {"first", "To this herd", price, 1},
    };
    ReportTable *table = report_table(report, "market", "", columns, 4);
    for (int i = 0; i < worths->offer_count; i++) {
        const FeedWorth *of = &worths->offers[i];
        if (isnan(of->market_per_kg))
            continue;
        const Cell cells[] = {text_cell(offer_feed(worths, i)->name),
                              measure_cell(units, MEASURE_PRICE, of->landed_per_kg),
                              measure_cell(units, MEASURE_PRICE, of->market_per_kg),
                              worth_cell(units, of->first_per_kg)};
        report_row(table, cells);
    }
    report_paragraph(
        report, "This arithmetic overvalues forage, straw most of all: it pays for protein "
                "that cattle do not need and takes nothing off for bulk. It is beside the "
                "herd's own worth for comparison, and no plan uses it.");
}

static void add_figures(Figure *root, const FeedWorths *worths) {
    figure_text(root, "verdict", worths->plan->verdict == PLAN_BALANCED ? "balanced" : "short");
    figure_text(root, "currency", worths->plan->question->farm->winter.currency);
    Figure *list = figure_list(root, "feeds");
    for (int i = 0; i < worths->offer_count; i++) {
        const FeedWorth *of = &worths->offers[i];
        Figure *feed = figure_list_object(list);
        figure_text(feed, "feed", offer_feed(worths, i)->name);
        figure_number(feed, "gate_per_kg", of->gate_per_kg);
        figure_number(feed, "freight_per_kg", of->freight_per_kg);
        figure_number(feed, "landed_per_kg", of->landed_per_kg);
        figure_number(feed, "eaten_per_dry_kg", of->eaten_per_dry_kg);
        figure_number(feed, "per_nem_mcal", of->per_nem_mcal);
        figure_number(feed, "per_tdn_kg", of->per_tdn_kg);
        figure_number(feed, "per_protein_kg", of->per_protein_kg);
        figure_number(feed, "bought_kg", of->bought_kg);
        figure_truth(feed, "is_needed", isinf(of->first_per_kg));
        figure_number(feed, "first_tonne_worth_per_kg", of->first_per_kg);
        figure_number(feed, "load_worth_per_kg", of->load_per_kg);
        figure_number(feed, "pays_to_at_gate_per_kg", feed_worth_at_gate(of));
        figure_number(feed, "market_per_kg", of->market_per_kg);
    }
}

Report *worth_report(Arena *arena, const FeedWorths *worths, Units units) {
    const Winter *winter = &worths->plan->question->farm->winter;
    Report *report =
        report_new(arena, arena_print(arena, "What feed for sale is worth%s%s",
                                      winter->farm[0] != '\0' ? ": " : "", winter->farm));
    if (worths->plan->verdict != PLAN_BALANCED)
        report_verdict(report, SEVERITY_DANGER,
                       "The winter falls short whatever is bought, so nothing has a worth in "
                       "it: see winterstack plan first.");
    add_costs(report, worths, units);
    if (worths->plan->verdict == PLAN_BALANCED)
        add_worth(report, worths, units);
    add_market(report, worths, units);
    report_paragraph(report,
                     "What a feed is safe for, and how much of it, is in the plan: talk "
                     "over a feed you have not fed before with your nutritionist and "
                     "your veterinarian.");
    add_figures(report->figures, worths);
    return report;
}
