#include "base/heading.h"
#include "base/number_text.h"
#include "base/text.h"
#include "base/unit_family.h"
#include "entry/compare_parts.h"
#include "outcome/varied_report.h"
#include <math.h>
#include <string.h>

#define OPTION_NAME "--vary" /* where its faults are placed */

/* One future with the number put to one value after another; what was planned is kept. */
typedef struct {
    Arena *arena;
    const FarmRequest *request;
    const WhatIf *what_if;
    Change *changes; /* those of the what-if, and last the number */
    int count;
    bool is_day;
    const char *sloped; /* the feed whose price it is; NULL: no price */
    bool is_of_offer;
    double money_times; /* dollars a kg of one of the number */
    CostPoint *known;
    int known_count, known_room;
    bool is_gone; /* the number is not in this future */
} Asked;

static const char *as_written(Arena *arena, bool is_day, double at) {
    if (!is_day)
        return arena_print(arena, "%.10g", at);
    char text[CALENDAR_TEXT_BYTES];
    calendar_print((Day){(int)at}, text);
    return arena_print(arena, "%s", text);
}

static FeedUse use_of(double kg, double available_kg) {
    static const double NOTHING_KG = 1.0, ALL_SHARE = 0.999;
    if (kg < NOTHING_KG)
        return USE_NONE;
    return kg >= ALL_SHARE * available_kg ? USE_ALL : USE_SOME;
}

static CostPoint point_of(const Asked *asked, double at, const WinterPlan *plan) {
    const PlanQuestion *question = plan->question;
    CostPoint point = {.at = at, .slope = (double)NAN};
    if (plan->verdict != PLAN_BALANCED)
        return point;
    point.is_balanced = true;
    point.feed_count = question->feed_count;
    point.cost = least_total(plan) + asked->what_if->own_cost;
    FeedUse *use = ARENA_ARRAY(asked->arena, FeedUse, point.feed_count);
    double *kg = ARENA_ARRAY(asked->arena, double, point.feed_count);
    bool *is_bought = ARENA_ARRAY(asked->arena, bool, point.feed_count);
    const char **name = ARENA_ARRAY(asked->arena, const char *, point.feed_count);
    for (int f = 0; f < point.feed_count; f++) {
        const PlanFeed *feed = &question->feeds[f];
        kg[f] = feed->is_own ? plan->taken_kg[f] : plan->bought_kg[f];
        use[f] = use_of(kg[f], feed->available_kg);
        is_bought[f] = !feed->is_own;
        name[f] = arena_copy(asked->arena, feed->name, strlen(feed->name));
        if (asked->sloped && feed->is_own != asked->is_of_offer &&
            text_same_letters(feed->name, asked->sloped))
            point.slope = kg[f] * asked->money_times;
    }
    point.use = use;
    point.taken_kg = kg;
    point.is_bought = is_bought;
    point.name = name;
    return point;
}

static CostPoint planned_at(const Asked *asked, double at) {
    Arena *scratch = arena_open();
    Faults aside = faults_new(scratch);
    Farm farm;
    CostPoint point = {.at = at, .slope = (double)NAN};
    asked->changes[asked->count - 1].value = as_written(scratch, asked->is_day, at);
    if (future_read(scratch, &aside, asked->request, asked->what_if->file, asked->changes,
                    asked->count - asked->is_gone, &farm)) {
        const PlanQuestion question = plan_question(scratch, &farm);
        const WinterPlan plan = plan_least_cost(scratch, &question);
        if (plan.verdict != PLAN_FAILED)
            point = point_of(asked, at, &plan);
    }
    arena_close(scratch);
    return point;
}

static CostPoint cost_at(void *context, double at) {
    Asked *asked = context;
    for (int i = 0; i < asked->known_count; i++) {
        if (asked->known[i].at == at)
            return asked->known[i];
    }
    if (asked->known_count == asked->known_room) {
        asked->known_room = asked->known_room > 0 ? 2 * asked->known_room : 64;
        CostPoint *more = ARENA_ARRAY(asked->arena, CostPoint, asked->known_room);
        if (asked->known_count > 0)
            memcpy(more, asked->known, (size_t)asked->known_count * sizeof *more);
        asked->known = more;
    }
    return asked->known[asked->known_count++] = planned_at(asked, at);
}

/* ---- what was asked for ---- */

static bool refuse(Faults *faults, const char *reason) {
    fault_add(faults, (Place){OPTION_NAME, 0, 0}, "%s", reason);
    return false;
}

static bool read_end(const char *text, bool *is_day, double *value) {
    Day day;
    *is_day = calendar_parse(text, &day);
    *value = *is_day ? day.number : 0.0;
    return *is_day || number_read(text, false, value);
}

static bool read_change(Arena *arena, Faults *faults, const FarmRequest *request,
                        Change *change) {
    const Place place = {OPTION_NAME, 0, 0};
    const char *const *vary = request->vary;
    *change = (Change){.kind = CHANGE_SET,
                       .row = vary[1],
                       .column = vary[2][0] ? vary[2] : "value", /* of winter.csv */
                       .value = vary[3],
                       .place = place,
                       .row_place = place,
                       .column_place = place,
                       .value_place = place};
    if (text_same_letters(vary[0], WHAT_IF_COST))
        return refuse(faults, "what a future costs besides is not varied: it adds to it dollar "
                              "for dollar, so two futures cost the same where it makes up for "
                              "the difference between them");
    if (what_if_find_file(vary[0], request->file[FARM_HERD].name, &change->file)) {
        if (change->file == FARM_FIELDS)
            return refuse(faults, FIELDS_ARE_OF_CUT);
        if (vary[2][0] || change->file == FARM_WINTER)
            return true;
        return refuse(faults,
                      "the third part is empty: write the heading of what is to change");
    }
    return refuse(faults, arena_print(arena, "no file of a farm is called '%s'%s", vary[0],
                                      what_if_file_cure(arena, vary[0])));
}

static bool read_range(Arena *arena, Faults *faults, const FarmRequest *request,
                       CurveRange *range, bool *is_day) {
    const char *from = request->vary[3], *to = request->vary[4];
    bool to_is_day;
    if (!read_end(from, is_day, &range->from) || !read_end(to, &to_is_day, &range->to) ||
        *is_day != to_is_day)
        return refuse(faults, arena_print(arena,
                                          "'%s' and '%s' are not two numbers, nor two days as "
                                          "2027-05-20",
                                          from, to));
    if (range->from > range->to) {
        const double larger = range->from;
        range->from = range->to;
        range->to = larger;
    }
    if (range->from == range->to)
        return refuse(faults, "both ends are the same; give two between which it is to change");
    range->is_whole = *is_day;
    return true;
}

/* Faults of the farm with the number at one value; those are the number's. Doubts are not told:
 * an end of the range is only passed through. */
static bool can_be(Arena *arena, Faults *faults, const FarmRequest *request, Change change,
                   bool is_day, double at) {
    Farm farm;
    Faults aside = faults_new(arena);
    change.value = as_written(arena, is_day, at);
    if (future_read(arena, &aside, request, OPTION_NAME, &change, 1, &farm))
        return true;
    return future_read(arena, faults, request, OPTION_NAME, &change, 1, &farm);
}

#define A_FRACTION 0.381966 /* of the range: no count of head and no month falls there */

static bool takes_whole_only(Arena *arena, const FarmRequest *request, const Change *change,
                             const CurveRange *range) {
    if (range->from != floor(range->from) || range->to != floor(range->to))
        return false;
    Faults aside = faults_new(arena);
    const double at = range->from + A_FRACTION * (range->to - range->from);
    return !can_be(arena, &aside, request, *change, false, at);
}

/* Of a price the slope of the cost is known: what is bought, or taken, of the feed. */
static void find_slope(Arena *arena, const Change *change, Asked *asked) {
    static const struct {
        FarmFile file;
        const char *stem;
    } PRICES[] = {{FARM_FOR_SALE, "price"}, {FARM_STACKS, "value"}};
    const char *plain = heading_plain(arena, change->column);
    int count;
    const UnitForm *forms = unit_forms(UNIT_PRICE, &count);
    for (size_t i = 0; i < sizeof PRICES / sizeof PRICES[0]; i++) {
        const size_t length = strlen(PRICES[i].stem);
        if (change->file != PRICES[i].file || strncmp(plain, PRICES[i].stem, length) != 0)
            continue;
        for (int form = 0; form < count; form++) {
            if (!text_same(plain + length, forms[form].suffix))
                continue;
            asked->sloped = change->row;
            asked->is_of_offer = change->file == FARM_FOR_SALE;
            asked->money_times = forms[form].times;
        }
    }
}

static Asked asked_of(Arena *arena, const FarmRequest *request, const WhatIf *what_if,
                      const Change *change, bool is_day) {
    Asked asked = {.arena = arena,
                   .request = request,
                   .what_if = what_if,
                   .changes = ARENA_ARRAY(arena, Change, what_if->count + 1),
                   .count = what_if->count + 1,
                   .is_day = is_day};
    for (int i = 0; i < what_if->count; i++)
        asked.changes[i] = what_if->changes[i];
    asked.changes[what_if->count] = *change;
    find_slope(arena, change, &asked);
    return asked;
}

/* A what-if may have taken the row away: then no value of the number changes anything, and the
 * future is planned without it. */
static bool leaves_out_what_is_gone(Asked *asked, double at) {
    Arena *scratch = arena_open();
    Faults aside = faults_new(scratch);
    Farm farm;
    asked->changes[asked->count - 1].value = as_written(scratch, asked->is_day, at);
    const bool is_there = future_read(scratch, &aside, asked->request, asked->what_if->file,
                                      asked->changes, asked->count, &farm);
    const bool is_gone =
        !is_there && future_read(scratch, &aside, asked->request, asked->what_if->file,
                                 asked->changes, asked->count - 1, &farm);
    arena_close(scratch);
    asked->is_gone = is_gone;
    return is_gone;
}

/* `places`: of the varied futures among those compared. */
static int add_pairs(VariedPair *pairs, Asked *asked, const VariedFuture *futures, int count,
                     CurveRange range, const Comparison *comparison, const int *places) {
    int pair_count = 0;
    for (int a = 0; a < count; a++) {
        for (int b = a + 1; b < count; b++) {
            VariedPair *pair = &pairs[pair_count++];
            const Future *of_a = &comparison->futures[places[a]];
            const Future *of_b = &comparison->futures[places[b]];
            *pair = (VariedPair){.a = a,
                                 .b = b,
                                 .open = ERRORS_OF_A_DIFFERENCE *
                                         comparison_difference(of_a, of_b).standard,
                                 .other_herd = !comparison_is_same_herd(comparison, of_a) ||
                                               !comparison_is_same_herd(comparison, of_b)};
            const PairPieces pieces = {futures[a].pieces, futures[b].pieces,
                                       futures[a].piece_count, futures[b].piece_count};
            pair->count = break_evens(cost_at, &asked[a], &asked[b], range, &pieces,
                                      pair->found, BREAK_EVENS_MOST);
        }
    }
    return pair_count;
}

bool compare_varied(Report *report, Faults *faults, const FarmRequest *request,
                    const Comparison *comparison, const WhatIf *what_ifs) {
    Arena *arena = report->arena;
    Change change;
    CurveRange range;
    bool is_day;
    if (!read_change(arena, faults, request, &change) ||
        !read_range(arena, faults, request, &range, &is_day) ||
        !can_be(arena, faults, request, change, is_day, range.from) ||
        !can_be(arena, faults, request, change, is_day, range.to))
        return false;
    range.is_whole |= takes_whole_only(arena, request, &change, &range);
    Asked *asked = ARENA_ARRAY(arena, Asked, comparison->count);
    VariedFuture *futures = ARENA_ARRAY(arena, VariedFuture, comparison->count);
    int *places = ARENA_ARRAY(arena, int, comparison->count);
    double grid[CURVE_GRID];
    const int grid_count = curve_grid(range, grid);
    int count = 0;
    for (int i = 0; i < comparison->count; i++) {
        if (!comparison->futures[i].plan)
            continue;
        places[count] = i;
        asked[count] = asked_of(arena, request, &what_ifs[i], &change, is_day);
        const bool is_gone = leaves_out_what_is_gone(&asked[count], range.from);
        double *cost = ARENA_ARRAY(arena, double, grid_count);
        for (int at = 0; at < grid_count; at++) {
            const CostPoint point = cost_at(&asked[count], grid[at]);
            cost[at] = point.is_balanced ? point.cost : (double)NAN;
        }
        futures[count] = (VariedFuture){
            .name = comparison->futures[i].name, .cost = cost, .lacks_it = is_gone};
        futures[count].piece_count =
            cost_pieces(arena, cost_at, &asked[count], range, &futures[count].pieces);
        count++;
    }
    VariedPair *pairs = ARENA_ARRAY(arena, VariedPair, count * count);
    const VariedCost varied = {
        .what = arena_print(arena, "%s, %s, %s", request->vary[0], change.row, change.column),
        .heading = change.column,
        .range = range,
        .is_day = is_day,
        .grid = grid,
        .grid_count = grid_count,
        .futures = futures,
        .future_count = count,
        .pairs = pairs,
        .pair_count = add_pairs(pairs, asked, futures, count, range, comparison, places),
    };
    varied_report_add(report, &varied, comparison->units);
    return true;
}
