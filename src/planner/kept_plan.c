#include "planner/kept_plan.h"
#include "base/csv_text.h"
#include "base/sheet.h"

enum {
    KEPT_FROM,
    KEPT_TO,
    KEPT_GROUP,
    KEPT_FEED,
    KEPT_PUT_OUT,
    KEPT_COST,
    KEPT_HEAD,
    KEPT_COLUMN_COUNT
};

static const SheetColumn COLUMNS[KEPT_COLUMN_COUNT] = {
    {"from", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"to", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"group", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"feed", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"put_out", UNIT_DAILY_MASS, COLUMN_REQUIRED, 0, 1.0e7},
    {"cost_per_day", UNIT_PLAIN, COLUMN_REQUIRED, 0, 1.0e8},
    {"head", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 1.0e6},
};

static bool read_row(const Sheet *sheet, int row, KeptRation *ration) {
    ration->group = sheet_text(sheet, row, KEPT_GROUP);
    ration->feed = sheet_text(sheet, row, KEPT_FEED);
    bool is_whole = sheet_require(sheet, row, KEPT_FROM) &&
                    sheet_date(sheet, row, KEPT_FROM, &ration->from);
    is_whole &=
        sheet_require(sheet, row, KEPT_TO) && sheet_date(sheet, row, KEPT_TO, &ration->to);
    is_whole &= sheet_require(sheet, row, KEPT_FEED) && sheet_require(sheet, row, KEPT_GROUP);
    is_whole &= sheet_require(sheet, row, KEPT_PUT_OUT) &&
                sheet_number(sheet, row, KEPT_PUT_OUT, &ration->kg_per_day);
    is_whole &= sheet_require(sheet, row, KEPT_COST) &&
                sheet_number(sheet, row, KEPT_COST, &ration->cost_per_day);
    sheet_number(sheet, row, KEPT_HEAD, &ration->head);
    if (!is_whole || calendar_days_between(ration->from, ration->to) >= 0)
        return is_whole;
    fault_add(
        sheet_faults(sheet), sheet_place(sheet, row, KEPT_TO),
        "to: it is before from; take the file away, and plan with --keep to write it anew");
    return false;
}

KeptPlan kept_plan_parse(Arena *arena, Faults *faults, const char *file, const char *bytes,
                         size_t length) {
    KeptPlan kept = {.count = 0};
    const Sheet *sheet =
        bytes ? sheet_parse(arena, faults, file, bytes, length, COLUMNS, KEPT_COLUMN_COUNT)
              : NULL;
    if (!sheet)
        return kept;
    kept.rations = ARENA_ARRAY(arena, KeptRation, sheet_row_count(sheet));
    for (int row = 0; row < sheet_row_count(sheet); row++) {
        KeptRation *ration = &kept.rations[kept.count];
        if (sheet_row_is_empty(sheet, row) || !read_row(sheet, row, ration))
            continue;
        if (kept.count == 0 || calendar_days_between(kept.first_day, ration->from) < 0)
            kept.first_day = ration->from;
        if (kept.count == 0 || calendar_days_between(kept.last_day, ration->to) > 0)
            kept.last_day = ration->to;
        kept.count++;
    }
    return kept;
}

static void add_ration(Text *out, const WinterPlan *plan, int block, int feed) {
    const PlanQuestion *question = plan->question;
    const PlanBlock *of = &question->blocks[block];
    const PlanFeed *plan_feed = &question->feeds[feed];
    const double eaten = plan->blocks[block].eaten[feed] * of->head;
    char from[CALENDAR_TEXT_BYTES];
    char to[CALENDAR_TEXT_BYTES];
    calendar_print(of->from, from);
    calendar_print(of->to, to);
    text_print(out, "%s,%s,", from, to);
    csv_cell_add(out, question->farm->herd.names[of->group], ',');
    text_add(out, ",");
    csv_cell_add(out, plan_feed->name, ',');
    text_print(out, ",%.3f,%.3f,%.10g\n", eaten * plan_taken_per_eaten(plan_feed),
               eaten * plan_cost_per_eaten(question, block, feed), of->head);
}

Text kept_plan_text(Arena *arena, const WinterPlan *plan) {
    Text out = text_new(arena);
    text_add(&out,
             "# Written by winterstack plan --keep: what was planned. The next plan is held "
             "against it; do not change it by hand.\n"
             "from,to,group,feed,put_out_kg_per_day,cost_per_day,head\n");
    for (int b = 0; b < plan->question->block_count; b++) {
        for (int f = 0; f < plan->question->feed_count; f++) {
            if (plan->blocks[b].eaten[f] > 0.0 && plan->question->blocks[b].days > 0)
                add_ration(&out, plan, b, f);
        }
    }
    return out;
}

static int days_of_both(const KeptRation *ration, Day from, Day to) {
    const Day first = calendar_days_between(ration->from, from) > 0 ? from : ration->from;
    const Day last = calendar_days_between(ration->to, to) > 0 ? ration->to : to;
    const int days = calendar_days_between(first, last) + 1;
    return days > 0 ? days : 0;
}

double kept_plan_kg(const KeptPlan *kept, const char *feed, Day from, Day to) {
    double sum = 0.0;
    for (int i = 0; i < kept->count; i++) {
        if (!feed || text_same_letters(kept->rations[i].feed, feed))
            sum += kept->rations[i].kg_per_day * days_of_both(&kept->rations[i], from, to);
    }
    return sum;
}

double kept_plan_cost(const KeptPlan *kept, Day from, Day to) {
    double sum = 0.0;
    for (int i = 0; i < kept->count; i++)
        sum += kept->rations[i].cost_per_day * days_of_both(&kept->rations[i], from, to);
    return sum;
}
