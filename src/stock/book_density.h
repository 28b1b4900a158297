/* The density of feed that was measured and not weighed, and how far a weight found so may be
 * off (models/coefficients/book-densities.csv). docs/equations/inventory.md */
#ifndef STOCK_BOOK_DENSITY_H
#define STOCK_BOOK_DENSITY_H

#include "base/sheet.h"
#include "base/source.h"
#include "feedstuff/feedstuff.h"

typedef struct {
    const char *kind; /* of a stack, as written */
    const char *feed; /* of the book, or "straw" or "forage" */
    double kg_per_m3;
    bool is_dry; /* of dry matter, not as it lies */
    double weight_error_share;
    SourceKey source;
} BookDensity;

typedef struct {
    const BookDensity *rows;
    int count;
} BookDensities;

/* NULL when faults were added. */
const BookDensities *book_densities_parse(Arena *arena, Faults *faults, const char *file,
                                          const char *bytes, size_t length);

/* The first row of the kind that fits the feed; NULL: none does. `densities` may be NULL. */
const BookDensity *book_density_of(const BookDensities *densities, const char *kind,
                                   const Feedstuff *feed);

#endif
