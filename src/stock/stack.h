/* A stack, pit, tube or bin on the yard: how much is in it, what will be lost in storage, what
 * will be wasted as it is fed, and what it is. stacks.csv, docs/file-formats.md */
#ifndef STOCK_STACK_H
#define STOCK_STACK_H

#include "feedstuff/book_value.h"
#include "feedstuff/feed_test.h"
#include "stock/book_density.h"
#include "stock/handling.h"

typedef enum {
#define STACK_KIND(id, name) STACK_##id,
#include "stock/stack_kind.def"
#undef STACK_KIND
    STACK_KIND_COUNT
} StackKind;

const char *stack_kind_name(StackKind kind);

/* What its weight was reckoned from. */
typedef enum { WAY_NONE, WAY_TOTAL, WAY_BALE, WAY_SIZE } WeightWay;

/* The one cell that its weight is in proportion to: where a better one would be written. */
typedef struct {
    WeightWay way;
    Place place;
    const char *heading; /* as written, "bale_weight_lb"; NULL where the book stands in */
    double written;      /* in the unit of the heading */
} WeightCell;

/* Who may have it and between which days. */
typedef struct {
    Day from, until;           /* inclusive */
    const char *const *groups; /* names; count 0: every group */
    int group_count;
    Place groups_place;
} Allowance;

typedef struct {
    const char *name;
    StackKind kind;
    Feedstuff feed;
    Day cut, counted;
    bool has_cut;
    Day put_up; /* when it lay there at the latest: the day of cutting, else of counting */
    double weight_error_share; /* standard error of the weight, as a share of it */
    bool density_is_books;     /* it was measured, and the book says how dense it lies */
    SourceKey density_source;
    WeightCell weight_cell;
    double bale_count;  /* 0 where it is not in bales */
    double counted_kg;  /* as it lay when counted */
    double age_months;  /* when counted */
    int wait_days;      /* from counting to mid-winter, not below 0 */
    double loss_share;  /* of its dry matter, from counting to mid-winter */
    bool loss_is_users; /* the user's own figure */
    double waste_share; /* of the dry matter offered */
    bool waste_is_users;
    double protein_left; /* protein of what is eaten per protein of what is offered */
    const StorageKind *storage;
    const FeedingKind *feeding;
    double value_per_kg, haul_per_kg; /* as it lies */
    const char *yard;                 /* where it lies; "" not said */
    double other_yard_per_kg;         /* more than that to a group of another yard */
    double least_face_kg_per_day;     /* as it lies, while it is open; 0 none */
    Allowance allowance;
    Place place;
} Stack;

/* Whether it is fed off an open face that spoils: a pit, a bag, a tube. */
bool stack_has_face(const Stack *stack);

/* Dry matter there when counted; what is left of it to feed; and its as-fed weight. */
Mass stack_counted_dry_matter(const Stack *stack);
Mass stack_dry_matter(const Stack *stack);
Mass stack_as_fed(const Stack *stack);

typedef struct {
    const BookValues *book;
    const Handling *handling;
    const FeedTests *tests;
    /* Of the winter: dates left empty, and the day losses are reckoned to. The last before the
     * first: the days are not known, and no date is judged by them. */
    Day first_day, last_day;
    const BookDensities *densities; /* NULL: what is measured has to have its own */
} StockContext;

bool stock_days_are_known(const StockContext *context);

typedef struct {
    const Stack *stacks;
    const char *const *names;
    int count;
} Stacks;

/* stacks NULL: the file could not be read, and a fault says why. */
Stacks stacks_parse(Arena *arena, Faults *faults, const StockContext *context, const char *file,
                    const char *bytes, size_t length);

/* Shared with the readers of other stock: use_from, use_until and groups of one row. */
Allowance allowance_read(const Sheet *sheet, int row, int from_column, int until_column,
                         int groups_column, const StockContext *context);

/* Whether a group of this name may have it, at its time. */
bool allowance_covers(const Allowance *allowance, const char *group);

#endif
