/* Around a break-even two futures differ by little: how far from it the difference is still
 * within what tests and weights leave open. */
#include "outcome/varied_report.h"
#include <math.h>

/* What b costs more than a: as planned at a value of the grid, by the pieces between. */
static double more_at(const VariedCost *varied, const VariedPair *pair, double at) {
    const VariedFuture *a = &varied->futures[pair->a], *b = &varied->futures[pair->b];
    for (int i = 0; i < varied->grid_count; i++) {
        if (varied->grid[i] == at)
            return b->cost[i] - a->cost[i];
    }
    return cost_by_pieces(b->pieces, b->piece_count, at) -
           cost_by_pieces(a->pieces, a->piece_count, at);
}

static double nearer(double next, double value, double at, bool upward) {
    const bool is_beyond = upward ? value > at : value < at;
    const bool is_nearer = isnan(next) || (upward ? value < next : value > next);
    return is_beyond && is_nearer ? value : next;
}

/* The next value at which something was planned; NAN where the range ends. */
static double next_value(const VariedCost *varied, const VariedPair *pair, double at,
                         bool upward) {
    double next = (double)NAN;
    for (int i = 0; i < varied->grid_count; i++)
        next = nearer(next, varied->grid[i], at, upward);
    const int both[] = {pair->a, pair->b};
    for (int k = 0; k < 2; k++) {
        const VariedFuture *future = &varied->futures[both[k]];
        for (int p = 0; p < future->piece_count; p++) {
            next = nearer(next, future->pieces[p].from, at, upward);
            next = nearer(next, future->pieces[p].to, at, upward);
        }
    }
    return next;
}

static double end_of_open(const VariedCost *varied, const VariedPair *pair, double from,
                          bool upward) {
    double at = from, more = 0.0;
    for (;;) {
        const double next = next_value(varied, pair, at, upward);
        const double then = isnan(next) ? next : more_at(varied, pair, next);
        if (isnan(then))
            return at;
        if (fabs(then) > pair->open) {
            const double level = then > 0.0 ? pair->open : -pair->open;
            return at + (next - at) * (level - more) / (then - more);
        }
        at = next;
        more = then;
    }
}

CurveRange varied_open(const VariedCost *varied, const VariedPair *pair,
                       const BreakEven *even) {
    CurveRange open = {end_of_open(varied, pair, even->at, false),
                       end_of_open(varied, pair, even->at, true), varied->range.is_whole};
    if (open.is_whole) {
        open.from = fmin(ceil(open.from), even->before);
        open.to = fmax(floor(open.to), even->behind);
    }
    return open;
}

bool varied_is_open_everywhere(const VariedCost *varied, const VariedPair *pair) {
    for (int i = 0; i < varied->grid_count; i++) {
        if (fabs(more_at(varied, pair, varied->grid[i])) > pair->open)
            return false;
    }
    return isfinite(pair->open);
}
