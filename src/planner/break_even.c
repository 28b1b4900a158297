/* The difference of two costs is followed by false position (the Illinois way: the end that
 * stays counts half), which on straight pieces needs few plans. */
#include "planner/break_even.h"
#include <math.h>

#define MOST_STEPS 40
#define CLOSE_SHARE 1e-7 /* of the range, and of the cost */

typedef struct {
    CostAt *cost_at;
    void *a, *b;
    CurveRange range;
} Pair;

typedef struct {
    double at;
    bool is_known;
    double more; /* what b costs more than a */
    double cost; /* of a */
} Difference;

static Difference difference_at(const Pair *pair, double at) {
    const CostPoint a = pair->cost_at(pair->a, at);
    const CostPoint b = pair->cost_at(pair->b, at);
    const bool is_known = a.is_balanced && b.is_balanced;
    return (Difference){at, is_known, is_known ? b.cost - a.cost : (double)NAN, a.cost};
}

static bool is_none(const Difference *of) {
    return fabs(of->more) <= SAME_COST_SHARE * fabs(of->cost);
}

static double between(const Pair *pair, const Difference *low, const Difference *high,
                      double low_weight, double high_weight) {
    const double width = high->at - low->at;
    if (pair->range.is_whole)
        return floor(0.5 * (low->at + high->at));
    const double l = low->more * low_weight, h = high->more * high_weight;
    return low->at + width * l / (l - h);
}

static bool is_close(const Pair *pair, const Difference *low, const Difference *high) {
    const double width = high->at - low->at;
    if (pair->range.is_whole)
        return width <= 1.0;
    return width <= CLOSE_SHARE * (pair->range.to - pair->range.from);
}

/* Between two values at which different futures are the cheaper. */
static bool narrowed(const Pair *pair, Difference low, Difference high, BreakEven *found) {
    double low_weight = 1.0, high_weight = 1.0;
    const bool a_is_cheaper_below = low.more > 0.0;
    double at = 0.5 * (low.at + high.at);
    double cost = low.cost;
    for (int step = 0; step < MOST_STEPS && !is_close(pair, &low, &high); step++) {
        at = between(pair, &low, &high, low_weight, high_weight);
        const Difference middle = difference_at(pair, at);
        if (!middle.is_known)
            return false;
        cost = middle.cost;
        if (!pair->range.is_whole && fabs(middle.more) <= CLOSE_SHARE * fabs(middle.cost))
            break;
        if ((middle.more > 0.0) == a_is_cheaper_below) {
            low = middle;
            low_weight = 1.0;
            high_weight *= 0.5;
        } else {
            high = middle;
            high_weight = 1.0;
            low_weight *= 0.5;
        }
    }
    *found = (BreakEven){
        .at = pair->range.is_whole ? 0.5 * (low.at + high.at) : at,
        .before = low.at,
        .behind = high.at,
        .a_is_cheaper_below = a_is_cheaper_below,
        .cost = cost,
    };
    return true;
}

/* What b costs more than a by the pieces, as a sign; 0 where it is not known or nothing. */
static int sign_by_pieces(const PairPieces *pieces, double at) {
    const double cost = cost_by_pieces(pieces->a, pieces->a_count, at);
    const double more = cost_by_pieces(pieces->b, pieces->b_count, at) - cost;
    return more > SAME_COST_SHARE * cost ? 1 : more < -SAME_COST_SHARE * cost ? -1 : 0;
}

#define MOST_VALUES 256

static void add_value(double *values, int *count, double value) {
    int at = *count;
    if (*count == MOST_VALUES)
        return;
    for (; at > 0 && values[at - 1] >= value; at--) {
        if (values[at - 1] == value)
            return;
    }
    for (int i = *count; i > at; i--)
        values[i] = values[i - 1];
    values[at] = value;
    (*count)++;
}

/* Corners between two values of the grid at which another is the cheaper than at both. */
static void add_corners(double *values, int *count, const PairPieces *pieces,
                        const CostPiece *of, int of_count, const double *grid, int points) {
    for (int p = 1; p < of_count; p++) {
        const double corner = of[p].from;
        for (int i = 1; i < points; i++) {
            if (corner <= grid[i - 1] || corner >= grid[i])
                continue;
            const int sign = sign_by_pieces(pieces, corner);
            if (sign != 0 && sign != sign_by_pieces(pieces, grid[i - 1]) &&
                sign != sign_by_pieces(pieces, grid[i]))
                add_value(values, count, corner);
        }
    }
}

int break_evens(CostAt *cost_at, void *a, void *b, CurveRange range, const PairPieces *pieces,
                BreakEven *found, int most) {
    const Pair pair = {cost_at, a, b, range};
    double grid[CURVE_GRID], values[MOST_VALUES];
    const int points = curve_grid(range, grid);
    int value_count = 0;
    for (int i = 0; i < points; i++)
        add_value(values, &value_count, grid[i]);
    if (pieces) {
        add_corners(values, &value_count, pieces, pieces->a, pieces->a_count, grid, points);
        add_corners(values, &value_count, pieces, pieces->b, pieces->b_count, grid, points);
    }
    Difference last = {.is_known = false};
    int count = 0;
    for (int i = 0; i < value_count; i++) {
        const Difference here = difference_at(&pair, values[i]);
        if (here.is_known && is_none(&here))
            continue;
        if (here.is_known && last.is_known && (here.more > 0.0) != (last.more > 0.0) &&
            count < most)
            count += narrowed(&pair, last, here, &found[count]);
        last = here;
    }
    return count;
}
