#include "planner/cost_curve.h"
#include <math.h>

#define MOST_CORNERS 40
#define MOST_ASKED 160   /* values, all in all */
#define ON_THE_LINE 2e-5 /* of the cost: a corner that lies on both lines */
#define SAME_SLOPE 0.01  /* of the steepest end: pieces that differ by less are one */
#define LEAST_PART 2e-3  /* of the range: corners nearer than this are one */

/* A corner lies between the last value before it and the first behind it. */
typedef struct {
    double before, behind;
} Corner;

typedef struct {
    Arena *arena;
    CostAt *cost_at;
    void *asked;
    CurveRange range;
    double steepest; /* slope of the ends */
    Corner corners[MOST_CORNERS];
    int corner_count, asked_count;
} Search;

static CostPoint ask(Search *search, double at) {
    search->asked_count++;
    return search->cost_at(search->asked, at);
}

static bool may_ask(const Search *search) {
    return search->asked_count < MOST_ASKED && search->corner_count < MOST_CORNERS;
}

static void add_corner(Search *search, double before, double behind) {
    if (search->corner_count < MOST_CORNERS)
        search->corners[search->corner_count++] = (Corner){before, behind};
}

int curve_grid(CurveRange range, double grid[CURVE_GRID]) {
    const double step = (range.to - range.from) / (CURVE_GRID - 1);
    double last = -HUGE_VAL;
    int count = 0;
    for (int i = 0; i < CURVE_GRID; i++) {
        const double exact = i == CURVE_GRID - 1 ? range.to : range.from + step * i;
        const double at = range.is_whole ? round(exact) : exact;
        if (at > last)
            grid[count++] = last = at;
    }
    return count;
}

static double least_part(const Search *search) {
    const CurveRange *range = &search->range;
    return range->is_whole ? 1.0 : LEAST_PART * (range->to - range->from);
}

/* ---- slopes known ---- */

static void find_corners(Search *search, const CostPoint *a, const CostPoint *b) {
    const double turn = a->slope - b->slope;
    const double width = b->at - a->at;
    if (!may_ask(search) || turn <= SAME_SLOPE * search->steepest ||
        width <= least_part(search))
        return;
    const double along = (b->cost - a->cost - b->slope * width) / turn;
    if (along <= 0.0 || along >= width)
        return;
    const CostPoint middle = ask(search, a->at + along);
    if (!middle.is_balanced)
        return;
    const double above = a->cost + a->slope * along - middle.cost;
    if (above <= ON_THE_LINE * fabs(middle.cost)) {
        add_corner(search, middle.at, middle.at);
        return;
    }
    find_corners(search, a, &middle);
    find_corners(search, &middle, b);
}

/* ---- by what is used ---- */

static bool is_same_use(const CostPoint *a, const CostPoint *b) {
    if (!a->is_balanced || !b->is_balanced)
        return a->is_balanced == b->is_balanced;
    for (int f = 0; f < a->feed_count && f < b->feed_count; f++) {
        if (a->use[f] != b->use[f])
            return false;
    }
    return a->feed_count == b->feed_count;
}

static void find_changes(Search *search, const CostPoint *a, const CostPoint *b) {
    if (is_same_use(a, b))
        return;
    const double width = b->at - a->at;
    if (width <= least_part(search) || !may_ask(search)) {
        const double between = 0.5 * (a->at + b->at);
        add_corner(search, search->range.is_whole ? a->at : between,
                   search->range.is_whole ? b->at : between);
        return;
    }
    const double at = a->at + 0.5 * width;
    const CostPoint middle = ask(search, search->range.is_whole ? floor(at) : at);
    find_changes(search, a, &middle);
    find_changes(search, &middle, b);
}

/* ---- pieces ---- */

static CostPiece piece_of(Search *search, double from, double to) {
    double middle = 0.5 * (from + to);
    middle = search->range.is_whole ? floor(middle) : middle;
    const CostPoint first = ask(search, from);
    const CostPoint last = ask(search, to);
    return (CostPiece){
        .from = from,
        .to = to,
        .cost_from = first.is_balanced ? first.cost : (double)NAN,
        .cost_to = last.is_balanced ? last.cost : (double)NAN,
        .within = ask(search, middle),
    };
}

static double on_line(double from, double cost_from, double to, double cost_to, double at) {
    return to > from ? cost_from + (cost_to - cost_from) * (at - from) / (to - from)
                     : cost_from;
}

double cost_by_pieces(const CostPiece *pieces, int count, double at) {
    for (int i = 0; i < count; i++) {
        const CostPiece *piece = &pieces[i];
        if (at <= piece->to && at >= piece->from)
            return on_line(piece->from, piece->cost_from, piece->to, piece->cost_to, at);
        if (i > 0 && at < piece->from && at > pieces[i - 1].to)
            return on_line(pieces[i - 1].to, pieces[i - 1].cost_to, piece->from,
                           piece->cost_from, at);
    }
    return (double)NAN;
}

int cost_pieces(Arena *arena, CostAt *cost_at, void *asked, CurveRange range,
                const CostPiece **pieces) {
    Search *search = ARENA_NEW(arena, Search);
    *search = (Search){.arena = arena, .cost_at = cost_at, .asked = asked, .range = range};
    double grid[CURVE_GRID];
    const int count = curve_grid(range, grid);
    CostPoint before = ask(search, grid[0]);
    search->steepest = fmax(fabs(before.slope), fabs(ask(search, range.to).slope));
    for (int i = 1; i < count; i++) {
        const CostPoint point = ask(search, grid[i]);
        const bool has_slopes = before.is_balanced && point.is_balanced &&
                                isfinite(before.slope) && isfinite(point.slope);
        if (has_slopes)
            find_corners(search, &before, &point);
        else
            find_changes(search, &before, &point);
        before = point;
    }
    CostPiece *list = ARENA_ARRAY(arena, CostPiece, search->corner_count + 1);
    double from = range.from;
    int piece_count = 0;
    for (int i = 0; i < search->corner_count; i++) {
        const Corner *corner = &search->corners[i];
        if (!range.is_whole && corner->before - from < least_part(search))
            continue;
        list[piece_count++] = piece_of(search, from, corner->before);
        from = corner->behind;
    }
    list[piece_count++] = piece_of(search, from, range.to);
    *pieces = list;
    return piece_count;
}
