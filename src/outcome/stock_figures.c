#include "outcome/day_words.h"
#include "outcome/plan_report.h"
#include "outcome/record_gap.h"
#include "outcome/stock_report.h"
#include "stock/recount_meaning.h"
#include <math.h>

static const char *basis_name(RunoutBasis basis) {
    switch (basis) {
    case RUNOUT_BY_RECENT:
        return "recent";
    case RUNOUT_BY_PLAN:
        return "plan";
    case RUNOUT_EMPTY:
        return "empty";
    case RUNOUT_NONE:
        break;
    }
    return NULL;
}

static void add_recount(Figure *stack, const StockFindings *findings, const StockStack *of) {
    const Farm *farm = findings->farm;
    RecountMeaning meaning;
    if (!of->book.recount) {
        figure_nothing(stack, "recount");
        return;
    }
    Figure *recount = figure_child(stack, "recount");
    figure_text(recount, "on", day_iso(stack->arena, of->book.recount->date));
    figure_number(recount, "by_record_kg", of->book.before_recount_kg);
    figure_number(recount, "counted_kg", of->book.at_recount_kg);
    const bool disagrees =
        recount_meaning(&farm->inventory, &farm->record, of->stack, findings->day, &meaning);
    figure_truth(recount, "disagrees", disagrees);
    figure_number(recount, "weight_times", disagrees ? meaning.weight_times : (double)NAN);
    figure_number(recount, "new_written", disagrees ? meaning.new_written : (double)NAN);
    figure_number(recount, "bales_off", disagrees ? meaning.bales_off : (double)NAN);
    figure_number(recount, "waste_share", disagrees ? meaning.waste_share : (double)NAN);
}

static void add_stack(Figure *list, const StockFindings *findings, const StockStack *of) {
    const Stack *stack = &findings->farm->inventory.stacks.stacks[of->stack];
    const StackBook *book = &of->book;
    const bool has_day = of->basis == RUNOUT_BY_RECENT || of->basis == RUNOUT_BY_PLAN;
    Figure *figure = figure_list_object(list);
    figure_text(figure, "stack", stack->name);
    figure_text(figure, "runs_out", has_day ? day_iso(list->arena, of->last_fed) : NULL);
    figure_text(figure, "runs_out_by", basis_name(of->basis));
    figure_number(figure, "started_kg", book->started_kg);
    figure_number(figure, "fed_kg", book->fed_kg);
    figure_number(figure, "feeding_waste_kg", stock_wasted_kg(findings, of));
    figure_number(figure, "storage_loss_kg", book->loss_kg);
    figure_number(figure, "missing_kg", book->missing_kg);
    figure_number(figure, "left_kg", book->left_kg);
    figure_number(figure, "dry_matter_pct", stack->feed.analysis.dry_matter.value);
    figure_number(figure, "left_dry_matter_kg",
                  book->left_kg * stack->feed.analysis.dry_matter.value / 100.0);
    figure_number(figure, "left_bales", book->bale_kg > 0.0 ? book->left_bales : (double)NAN);
    figure_number(figure, "recent_kg_per_day",
                  book->was_fed_recently ? book->recent_kg_per_day : (double)NAN);
    figure_truth(figure, "marked_empty", book->is_marked_empty);
    add_recount(figure, findings, of);
}

static void add_days(Figure *root, const StockFindings *findings) {
    if (!findings->rest) {
        figure_nothing(root, "days_on_hand");
        return;
    }
    const DaysOnHand *days = &findings->days;
    const Farm *rest = findings->rest->question->farm;
    Figure *of = figure_child(root, "days_on_hand");
    figure_text(of, "from", day_iso(root->arena, rest->winter.first_day));
    figure_number(of, "gross", days->gross_days);
    figure_number(of, "balanced", days->balanced_days);
    figure_text(of, "until",
                days->balanced_days > 0 ? day_iso(root->arena, days->balanced_until) : NULL);
    figure_truth(of, "all_winter", days->lasts_all_winter);
    figure_text(of, "stopped_by", days->stopped_by.limit ? days->stopped_by.limit->key : NULL);
    figure_text(of, "stopped_group",
                days->stopped_by.limit ? rest->herd.names[days->stopped_by.group] : NULL);
    figure_number(of, "dry_matter_kg", days->dry_matter_kg);
    figure_number(of, "eaten_per_day_kg", days->eaten_per_day_kg);
    figure_number(of, "needed_kg", findings->needed_kg);
    figure_number(of, "carry_over_kg", rest->winter.carry_over_kg);
    Figure *groups = figure_list(of, "groups");
    for (int g = 0; g < rest->herd.count; g++) {
        Figure *group = figure_list_object(groups);
        figure_text(group, "group", rest->herd.names[g]);
        figure_number(group, "head", rest->herd.groups[g].head);
        const DaysOnHand *alone = &findings->group_days[g];
        figure_number(group, "balanced_alone", alone->balanced_days);
        figure_text(group, "stopped_by",
                    alone->stopped_by.limit ? alone->stopped_by.limit->key : NULL);
        figure_number(group, "eaten_per_day_kg", group_eaten_per_day(findings->rest, g));
    }
}

void stock_figures(Figure *root, const StockFindings *findings) {
    figure_text(root, "on", day_iso(root->arena, findings->day));
    figure_text(root, "verdict",
                !findings->rest            ? NULL
                : stock_is_short(findings) ? "short"
                                           : "balanced");
    figure_number(root, "days_not_written", record_gap_days(findings->farm, findings->day));
    Figure *list = figure_list(root, "stacks");
    for (int i = 0; i < findings->stack_count; i++)
        add_stack(list, findings, &findings->stacks[i]);
    stock_bought_figures(root, findings);
    add_days(root, findings);
    if (findings->rest)
        plan_winters_figures(root, findings->rest);
    else
        figure_nothing(root, "winters");
}
