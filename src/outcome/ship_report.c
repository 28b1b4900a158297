#include "outcome/ship_report.h"
#include "outcome/day_words.h"
#include <math.h>

static Cell enough_cell(int enough) {
    if (enough < 0)
        return text_cell("not alone");
    return number_cell(enough, 0);
}

/* What one head would have to bring at the end of winter for feeding it to pay as well as
 * selling it. */
static double worth_at_the_end(const HerdGroup *group, const HeadWorth *worth) {
    return group->price_per_head > 0.0 ? group->price_per_head + worth->saved_by_fewer
                                       : (double)NAN;
}

static void add_heads(Report *report, const Shipping *shipping) {
    static const ReportColumn COLUMNS[] = {
        {"group", "Group", "", 0},
        {"head", "Head", "", 1},
        {"saved_by_fewer", "One fewer saves", "$", 1},
        {"cost_of_more", "One more costs", "$", 1},
        {"price", "It fetches", "$", 1},
        {"worth", "Keep if worth then", "$", 1},
        {"enough", "Fewer, to buy nothing", "", 1},
    };
    ReportTable *table = report_table(report, "heads", "", COLUMNS, 7);
    for (int g = 0; g < shipping->herd->count; g++) {
        const HerdGroup *group = &shipping->herd->groups[g];
        const HeadWorth *worth = &shipping->worth[g];
        report_row(table,
                   (Cell[]){text_cell(group->name), number_cell(worth->head, 0),
                            number_cell(worth->saved_by_fewer, 0),
                            number_cell(worth->cost_of_more, 0),
                            group->price_per_head > 0.0 ? number_cell(group->price_per_head, 0)
                                                        : empty_cell(),
                            number_cell(worth_at_the_end(group, worth), 0),
                            enough_cell(worth->enough_shipped)});
    }
}

/* One head more or fewer of those that are there, or a week, of which no balanced plan is
 * known.
 */
static bool has_no_price(const Shipping *shipping) {
    for (int g = 0; g < shipping->herd->count; g++) {
        const HeadWorth *worth = &shipping->worth[g];
        if (worth->head > 0.0 &&
            (!isfinite(worth->saved_by_fewer) || !isfinite(worth->cost_of_more)))
            return true;
    }
    for (int i = 0; i < shipping->day_count; i++) {
        if (!isfinite(shipping->days[i].sooner) || !isfinite(shipping->days[i].later))
            return true;
    }
    return false;
}

static void add_days(Report *report, const Shipping *shipping) {
    static const ReportColumn COLUMNS[] = {
        {"what", "A week sooner or later", "", 0},
        {"day", "Day now", "", 0},
        {"sooner", "Sooner costs", "$", 1},
        {"later", "Later costs", "$", 1},
    };
    ReportTable *table = report_table(report, "days", "", COLUMNS, 4);
    for (int i = 0; i < shipping->day_count; i++) {
        const MovedDay *of = &shipping->days[i];
        report_row(table,
                   (Cell[]){text_cell(of->what), text_cell(day_words(report->arena, of->day)),
                            number_cell(of->sooner, 0), number_cell(of->later, 0)});
    }
}

static void add_figures(Figure *root, const Shipping *shipping) {
    Figure *of = figure_child(root, "shipping");
    figure_text(of, "from", day_iso(of->arena, shipping->from));
    Figure *groups = figure_list(of, "groups");
    for (int g = 0; g < shipping->herd->count; g++) {
        const HerdGroup *group = &shipping->herd->groups[g];
        const HeadWorth *worth = &shipping->worth[g];
        Figure *figure = figure_list_object(groups);
        figure_text(figure, "group", group->name);
        figure_number(figure, "head", worth->head);
        figure_number(figure, "saved_by_one_fewer", worth->saved_by_fewer);
        figure_number(figure, "cost_of_one_more", worth->cost_of_more);
        figure_number(figure, "yardage_of_one", worth->yardage);
        figure_number(figure, "price_per_head",
                      group->price_per_head > 0.0 ? group->price_per_head : (double)NAN);
        figure_number(figure, "worth_at_the_end", worth_at_the_end(group, worth));
        figure_number(figure, "fewer_to_buy_nothing",
                      worth->enough_shipped < 0 ? (double)NAN : worth->enough_shipped);
    }
    Figure *days = figure_list(of, "days");
    for (int i = 0; i < shipping->day_count; i++) {
        Figure *figure = figure_list_object(days);
        figure_text(figure, "what", shipping->days[i].what);
        figure_text(figure, "day", day_iso(of->arena, shipping->days[i].day));
        figure_number(figure, "a_week_sooner_costs", shipping->days[i].sooner);
        figure_number(figure, "a_week_later_costs", shipping->days[i].later);
    }
}

void ship_report_add(Report *report, const Shipping *shipping) {
    report_section(report, "shipping",
                   arena_print(report->arena, "Feed them or sell some, from %s",
                               day_words(report->arena, shipping->from)));
    add_heads(report, shipping);
    report_paragraph(
        report,
        "Saved and cost are feed and hauling to the last feeding day, planned anew with one "
        "head fewer and one more, at the least cost, what caution lines passed weigh with it, "
        "and without rules of the yard. The yardage "
        "of one, %s, is apart: little of it may be saved. What it fetches is price_per_head of "
        "the herd file. Keeping one pays, before interest, death loss and the work, if it is "
        "worth that price and the feed saved together when winter ends. The last column is how "
        "many fewer of that group alone would leave nothing to buy but minerals and "
        "supplements.",
        money_words(report->arena, shipping->worth[0].yardage, 0));
    add_days(report, shipping);
    report_paragraph(
        report, "Days are moved in the farm's files and the winter is planned anew, yardage "
                "with it; less than 0 is cheaper. What a calf weaned sooner weighs, or grass "
                "grazed a week sooner grows, is not in it.");
    if (has_no_price(shipping))
        report_paragraph(
            report, "A dash where dollars are told: of that head or day every group cannot be "
                    "fed in balance, and feed that is not there has no price. `winterstack "
                    "plan` says what is short, and how many fewer head, or which feed, would "
                    "mend it.");
    add_figures(report->figures, shipping);
}
