#include "planner/ration_terms.h"
#include "planner/ration_row.h"
#include "planner/shared_rows.h"
#include <string.h>

#define SIDES 3 /* of a limit: least, most and its caution line */

/* What the coefficients were made of. */
typedef struct {
    const double *per_kg, *base;
    double added, bound, microbial_factor;
    const double *coefficient;
} Made;

typedef struct {
    int feed_count; /* listed */
    int *feed;
    Made *made;
    int count;
} Ration;

struct RationTerms {
    SharedRows *rows;    /* of all rations */
    double *coefficient; /* [feeds + 1] at work */
    Ration last, now;
    bool has_same_feeds;
    int next; /* of the last ration: likely the one asked for next */
};

static Ration ration(Arena *arena, int feed_count) {
    return (Ration){.feed = ARENA_ARRAY(arena, int, feed_count),
                    .made = ARENA_ARRAY(arena, Made, SIDES * MOST_RATION_ROWS)};
}

RationTerms *ration_terms(Arena *arena, int feed_count) {
    RationTerms *terms = ARENA_NEW(arena, RationTerms);
    *terms = (RationTerms){.rows = shared_rows(arena),
                           .coefficient = ARENA_ARRAY(arena, double, feed_count + 1),
                           .last = ration(arena, feed_count),
                           .now = ration(arena, feed_count)};
    return terms;
}

void ration_terms_begin(RationTerms *terms, const int *feed, int fed_count) {
    const Ration before = terms->last;
    terms->last = terms->now;
    terms->now = before;
    terms->now.count = 0;
    terms->now.feed_count = fed_count;
    memcpy(terms->now.feed, feed, (size_t)fed_count * sizeof *feed);
    terms->has_same_feeds =
        fed_count == terms->last.feed_count &&
        memcmp(feed, terms->last.feed, (size_t)fed_count * sizeof *feed) == 0;
    terms->next = 0;
}

static bool is_made_of(const Made *made, const RationLimit *limit, double bound) {
    if (made->per_kg != limit->per_kg || made->base != limit->base ||
        made->microbial_factor != limit->microbial_factor)
        return false;
    return !limit->base || (made->added == limit->added && made->bound == bound);
}

static const double *shared_with_last(RationTerms *terms, const RationLimit *limit,
                                      double bound) {
    const Ration *last = &terms->last;
    for (int tried = 0; terms->has_same_feeds && tried < last->count; tried++) {
        const int at = (terms->next + tried) % last->count;
        if (!is_made_of(&last->made[at], limit, bound))
            continue;
        terms->next = at + 1;
        return last->made[at].coefficient;
    }
    return NULL;
}

static const double *made_anew(const RationTerms *terms, const RationLimit *limit,
                               double bound) {
    const int count = terms->now.feed_count;
    double *coefficient = terms->coefficient;
    for (int k = 0; k < count; k++) {
        const int feed = terms->now.feed[k];
        const double base = limit->base ? (limit->added - bound) * limit->base[feed] : 0.0;
        coefficient[k] = limit->per_kg[feed] + base;
    }
    coefficient[count] = limit->microbial_factor;
    return shared_rows_keep(terms->rows, coefficient, count + 1);
}

const double *ration_terms_of(RationTerms *terms, const RationLimit *limit, double bound) {
    const double *coefficient = shared_with_last(terms, limit, bound);
    if (!coefficient)
        coefficient = made_anew(terms, limit, bound);
    terms->now.made[terms->now.count++] = (Made){
        limit->per_kg, limit->base, limit->added, bound, limit->microbial_factor, coefficient};
    return coefficient;
}
