#include "stock/recount_meaning.h"
#include "stock/stack_keeping.h"
#include <math.h>

/* Between these times of what was written a mistaken weight is worth offering. Own choice. */
#define LEAST_TIMES 0.5
#define MOST_TIMES 1.6
#define MOST_WASTE 0.6 /* what stacks.csv takes as feeding_waste_pct */

/* The record since the last count is a straight line in what one bale (or all of the pile)
 * weighs: what was written in bales goes by it, what was written as a weight does not. Both as
 * on the day of the recount, kg at the weight of stacks.csv. */
typedef struct {
    double by_weight_of_stack; /* counted, less the bales fed */
    double written_as_weight;  /* fed */
    double bales_at_first, bales_fed;
    bool is_all_bales;
} Line;

static Line line_of(const Inventory *inventory, const FeedRecord *record, int place,
                    const Recount *last) {
    const Stack *stack = &inventory->stacks.stacks[place];
    const double bale = stack->bale_count > 0.0 ? stack->counted_kg / stack->bale_count : 0.0;
    const double keeps = stack_keeps(stack, stack->counted, last->date);
    Line line = {.by_weight_of_stack = stack->counted_kg * keeps,
                 .bales_at_first = stack->bale_count,
                 .is_all_bales = stack->bale_count > 0.0 &&
                                 (last->left.unit == AMOUNT_BALES || last->left.number == 0.0)};
    for (int i = 0; i < record->feeding_count; i++) {
        const Feeding *feeding = &record->feedings[i];
        if (feeding->stack != place ||
            calendar_days_between(stack->counted, feeding->date) < 0 ||
            calendar_days_between(feeding->date, last->date) < 0)
            continue;
        const double since = stack_keeps(stack, feeding->date, last->date);
        if (feeding->amount.unit == AMOUNT_BALES) {
            line.by_weight_of_stack -= feeding->amount.number * bale * keeps;
            line.bales_fed += feeding->amount.number;
        } else {
            line.written_as_weight += feed_amount_kg(feeding->amount, 0.0) * since;
            line.is_all_bales = false;
        }
    }
    return line;
}

/* The first recount of the stack: later ones start from it, and say nothing of stacks.csv. */
static bool is_first_recount(const FeedRecord *record, const Recount *recount) {
    for (int i = 0; i < record->recount_count; i++) {
        if (record->recounts[i].stack == recount->stack)
            return &record->recounts[i] == recount;
    }
    return false;
}

static void set_weight(const Inventory *inventory, const FeedRecord *record, int place,
                       const StackBook *book, RecountMeaning *meaning) {
    const Stack *stack = &inventory->stacks.stacks[place];
    const Recount *last = book->recount;
    const Line line = line_of(inventory, record, place, last);
    if (line.is_all_bales) {
        meaning->bales_off = line.bales_at_first - line.bales_fed - last->left.number;
        return;
    }
    const bool left_in_bales = last->left.unit == AMOUNT_BALES;
    const double by_stack =
        line.by_weight_of_stack - (left_in_bales ? book->at_recount_kg : 0.0);
    const double as_weight =
        line.written_as_weight + (left_in_bales ? 0.0 : book->at_recount_kg);
    const double times = by_stack > 0.0 ? as_weight / by_stack : (double)NAN;
    if (!(times >= LEAST_TIMES && times <= MOST_TIMES))
        return;
    meaning->weight_times = times;
    meaning->new_written = stack->weight_cell.written * times;
}

/* What left was fed out, and cattle ate no more than the record meant. */
static void set_waste(const Stack *stack, const StackBook *book, RecountMeaning *meaning) {
    const double eaten = book->fed_kg * (1.0 - stack->waste_share);
    const double out = book->fed_kg + meaning->off_kg;
    const double waste = out > 0.0 ? 1.0 - eaten / out : (double)NAN;
    if (meaning->off_kg > 0.0 && book->fed_kg > 0.0 && waste <= MOST_WASTE)
        meaning->waste_share = waste;
}

bool recount_meaning(const Inventory *inventory, const FeedRecord *record, int place, Day day,
                     RecountMeaning *meaning) {
    const Stack *stack = &inventory->stacks.stacks[place];
    const StackBook now = stack_book(inventory, record, place, day, BOOK_IN_THE_EVENING);
    if (!now.recount)
        return false;
    const StackBook then =
        stack_book(inventory, record, place, now.recount->date, BOOK_IN_THE_EVENING);
    *meaning = (RecountMeaning){.off_kg = then.before_recount_kg - then.at_recount_kg,
                                .is_unfed = then.fed_kg <= 0.0,
                                .weight_times = (double)NAN,
                                .new_written = (double)NAN,
                                .bales_off = (double)NAN,
                                .waste_share = (double)NAN};
    if (fabs(meaning->off_kg) <= RECOUNT_AGREES_SHARE * stack->counted_kg)
        return false;
    if (is_first_recount(record, then.recount)) {
        set_weight(inventory, record, place, &then, meaning);
        set_waste(stack, &then, meaning);
    }
    return true;
}

bool measured_alike(const Inventory *inventory, const FeedRecord *record, int a, int b) {
    const Stack *one = &inventory->stacks.stacks[a];
    const Stack *other = &inventory->stacks.stacks[b];
    if (a == b || one->kind != other->kind || one->weight_cell.way != other->weight_cell.way ||
        one->weight_cell.way == WAY_TOTAL)
        return false;
    for (int i = 0; i < record->recount_count; i++) {
        if (record->recounts[i].stack == b)
            return false;
    }
    return true;
}
