/* What the page of next year's cut says first: which is cheapest and by how much; and the price
 * at which that turns. */
#include "base/text.h"
#include "outcome/cut_report.h"
#include "outcome/weighed_words.h"
#include <math.h>

static const char *price_words(Arena *arena, Units units, double per_kg) {
    return arena_print(arena, "%s a %s",
                       money_words(arena,
                                   per_kg / (units == UNITS_IMPERIAL ? 1.0 / KG_PER_SHORT_TON
                                                                     : 1.0 / KG_PER_TONNE),
                                   0),
                       units == UNITS_IMPERIAL ? "ton" : "tonne");
}

static void add_worth(Report *report, const CutFindings *findings, Units units) {
    const double worth = findings->offer_worth_per_kg;
    if (isinf(worth))
        report_paragraph(report, "In the mixed plan %s is needed at any price.",
                         future_offer(findings)->name);
    else if (worth > 0.0)
        report_paragraph(report,
                         "In the mixed plan the first tonne (1,000 kg) of it is worth %s: "
                         "below that price some is bought, above it that much is not.",
                         price_words(report->arena, units, worth));
}

/* "Below $240 a tonne ... early is cheaper; above it, late." */
void cut_report_turn(Report *report, const CutFindings *findings, Units units) {
    Arena *arena = report->arena;
    const CutTurn *turn = &findings->turn;
    const Offer *offer = future_offer(findings);
    if (!offer || !findings->has_turn)
        return;
    const char *first = future_words(arena, findings, FUTURE_FIRST_BUY);
    const char *second = future_words(arena, findings, FUTURE_SECOND_BUY);
    report_section(report, "turn", "The price at which the answer turns");
    if (isnan(turn->price_per_kg)) {
        const CutPlan *a = &findings->plans[FUTURE_FIRST_BUY];
        const CutPlan *b = &findings->plans[FUTURE_SECOND_BUY];
        report_paragraph(
            report,
            "\"%s\" is the cheaper of the two at any price of %s that was looked at, "
            "from %s to %s.",
            a->cost.total < b->cost.total ? first : second, offer->name,
            price_words(arena, units, turn->low_per_kg),
            price_words(arena, units, turn->high_per_kg));
        add_worth(report, findings, units);
        return;
    }
    const bool first_is_below = turn->first_low < turn->second_low;
    report_paragraph(report,
                     "At %s for %s the two cost the same. Below it, \"%s\" is cheaper; "
                     "above it, \"%s\". Today it is %s. Both were planned anew on "
                     "either side:",
                     price_words(arena, units, turn->price_per_kg), offer->name,
                     first_is_below ? first : second, first_is_below ? second : first,
                     price_words(arena, units, offer->price_per_kg));
    const ReportColumn columns[] = {
        {"price", "Price", arena_print(arena, "$ %s", measure_unit(units, MEASURE_PRICE)), 1},
        {"first", first, "$", 1},
        {"second", second, "$", 1},
    };
    ReportTable *table = report_table(report, "turn", "", columns, 3);
    const Cell low[] = {measure_cell(units, MEASURE_PRICE, turn->low_per_kg),
                        number_cell(turn->first_low, 0), number_cell(turn->second_low, 0)};
    const Cell high[] = {measure_cell(units, MEASURE_PRICE, turn->high_per_kg),
                         number_cell(turn->first_high, 0), number_cell(turn->second_high, 0)};
    report_row(table, low);
    report_row(table, high);
    add_worth(report, findings, units);
}

/* Of the futures with one rule for all fields: the cheapest, and by how much it beats the other
 * day. */
static void add_cheapest(Text *text, const CutFindings *findings) {
    Arena *arena = text->arena;
    const FutureName best = findings->cheapest;
    if (best == FUTURE_COUNT)
        return;
    const double cost = findings->plans[best].cost.total;
    FutureName next = FUTURE_COUNT;
    for (int name = 1 - (int)best % 2; name < FUTURE_PLANNED; name += 2) {
        const CutPlan *plan = &findings->plans[name];
        if (findings->is_there[name] && plan->verdict == PLAN_BALANCED &&
            (next == FUTURE_COUNT || plan->cost.total < findings->plans[next].cost.total))
            next = (FutureName)name;
    }
    text_print(text, " With one rule for all fields, \"%s\" is cheapest, for %s more",
               future_words(arena, findings, best),
               money_words(arena, cost - findings->plans[FUTURE_PLANNED].cost.total, 0));
    if (futures_are_of_one_day(findings))
        text_add(text, "; both days of cutting come to the same cuts, so they cost the same");
    else if (next != FUTURE_COUNT)
        text_print(text, " and %s less than \"%s\"",
                   money_words(arena, findings->plans[next].cost.total - cost, 0),
                   future_words(arena, findings, next));
    text_add(text, ".");
}

void cut_report_verdict(Report *report, const CutFindings *findings, Units units) {
    Arena *arena = report->arena;
    const CutPlan *planned = &findings->plans[FUTURE_PLANNED];
    if (!findings->is_balanced) {
        report_verdict(
            report, SEVERITY_DANGER,
            "Next winter falls short with each field cut as it feeds best and all that "
            "is for sale: it leaves %s. More acres, another feed for sale or fewer "
            "cattle would mend it.",
            future_lack_words(arena, planned));
        return;
    }
    Text text = text_new(arena);
    text_print(
        &text, "Cheapest is to cut %s acres, each field on its own day: the winter costs %s%s.",
        number_words(arena, future_hectares(findings, FUTURE_PLANNED) / HECTARES_PER_ACRE, 0),
        money_words(arena, planned->cost.total, 0),
        weighed_part_words(arena, planned->cost.cautions));
    add_cheapest(&text, findings);
    const Offer *offer = future_offer(findings);
    if (offer && findings->has_turn && !isnan(findings->turn.price_per_kg))
        text_print(&text,
                   " Between the two days the answer turns at %s for %s; today it is "
                   "%s.",
                   price_words(arena, units, findings->turn.price_per_kg), offer->name,
                   price_words(arena, units, offer->price_per_kg));
    text_print(&text, " It is a plan on expected yields and tests: see what it rests on.");
    report_verdict(report, SEVERITY_NOTE, "%s", text.bytes);
}
