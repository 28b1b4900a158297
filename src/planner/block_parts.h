/* A linear program cut into blocks that only a few rows tie together: rations of one group in
 * one period, tied by the stacks they share. Each block stands here as a small program, scaled,
 * with the basis it was last solved from. For block_program.c alone. */
#ifndef PLANNER_BLOCK_PARTS_H
#define PLANNER_BLOCK_PARTS_H

#include "planner/block_program.h"
#include "planner/shared_rows.h"
#include "planner/small_choice.h"

typedef struct {
    SmallProgram program;
    const double **term; /* what its program has of it */
    SmallBasis basis;
    int *column, *row; /* their numbers in the whole program */
    double *column_scale,
        *row_scale;        /* whole value = scale * small value; of a row's price too */
    double *cost;          /* [columns] scaled */
    double *value;         /* [columns] scaled, of the last solve */
    int *tie_start;        /* [columns + 1] into the next two */
    int *tie;              /* numbers of tying rows, 0 .. tie_count - 1 */
    int *tie_column;       /* the column of each */
    double *tie_term;      /* scaled */
    const SmallRule *rule; /* what its proposals keep to besides; NULL: nothing */
} Block;

typedef struct {
    const LinearProgram *lp;
    BlockShape shape;
    LpTerms terms; /* of the columns of no block */
    int tie_count, own_count;
    int *tie_row;    /* [tie_count] rows of no block */
    int *own_column; /* [own_count] columns of no block */
    int *tie_of_row; /* [rows] -1: of a block */
    Block *blocks;
    int *place_of_row, *place_of_column; /* of the program, in their blocks */
    int *family_start;                   /* [families + 1] into the next */
    int *member;                         /* numbers of the blocks of each family */
    size_t most_places;                  /* of the bases of a family, bytes */
    int most_family_columns;
    SharedRows *rows; /* of all blocks */
    SmallWork *work;
    SmallChooser *chooser; /* NULL: no block has a rule */
    double *priced;        /* costs of one block at the prices asked for */
} BlockParts;

/* NULL when it does not fall apart so: a column of one block in a row of another, or one with
 * no finite least. */
BlockParts *block_parts(Arena *arena, const LinearProgram *lp, const BlockShape *shape);

/* Fills parts with the numbers of another program: places and scales stay. False, and then of
 * no use but to be filled again, when it is not of the same shape, or a term stands where there
 * was none. */
bool block_parts_refill(BlockParts *parts, const LinearProgram *lp, const BlockShape *shape);

/* What blocks are filled with, one after the other: terms as they were added, brought together
 * in rows. Where rows are made of the same coefficients as in the last block, their terms stand
 * there already, and often they are its own scaled ones too. */
typedef struct {
    const LinearProgram *lp;
    const struct LpEntry **entry;         /* those of block b from start[b] to start[b + 1] */
    int *start;                           /* [block_count + 1] */
    double *term;                         /* of one block, [rows] of [dense columns] */
    double *scaled;                       /* [dense columns] of one row */
    double *largest;                      /* [rows or columns] */
    double *dense_largest, *dense_least;  /* [rows] sizes of dense terms, but for 0 */
    const double **source, **last_source; /* [rows] of this block and of the last */
    int *stretches;                       /* [rows] */
    bool *is_shared;                      /* [rows] the last block has it too */
    LpStretch over;                       /* one of the columns of the layout */
    int *layout, *last_layout;            /* places of these */
    int last_layout_count;
    const Block *last; /* NULL: none yet */
} BlockFilling;

/* Of the program that the shape is of, with room for any of the blocks of the parts. */
BlockFilling block_filling(Arena *arena, const BlockParts *parts, const LinearProgram *lp,
                           const BlockShape *shape);

/* The terms of a block become those of its filling, scaled as it stands or, where it has none
 * yet, anew; what rounding left of terms that should cancel is dropped, as in lp_terms. False
 * when a term is of a column that is not its own, or stands where a column of one term has it
 * not. */
bool block_fill(BlockParts *parts, int number, BlockFilling *filling, bool has_scales);
/* Bounds and costs, scaled. */
void block_scale_bounds(Block *block, const LinearProgram *lp);

/* What the blocks of a family would do at given prices of the tying rows. Their values follow
 * from the bases and are not kept, but where blocks have rules. */
typedef struct {
    double cost;           /* its own, without the prices */
    double over;           /* at most so far from the best there is at these prices */
    double *use, *price;   /* [tie_count] */
    unsigned char *places; /* [block_parts_places] */
    double *value;         /* [block_parts_columns] scaled; NULL: as the bases say */
} Proposal;

/* Columns of the blocks of a family, in the order of its members. */
int block_parts_columns(const BlockParts *parts, int family);

/* Bytes of the bases of a family; of all blocks with -1. */
size_t block_parts_places(const BlockParts *parts, int family);
void block_parts_read_places(const BlockParts *parts, int family, unsigned char *places);
void block_parts_set_places(BlockParts *parts, int family, const unsigned char *places);

/* Solves every block of a family at the proposal's prices and fills in the rest. */
LpStatus block_parts_propose(BlockParts *parts, int family, Proposal *proposal);

/* Adds a share of the values of a proposal to those of the whole program. False when they
 * cannot be told. */
bool block_parts_add_values(BlockParts *parts, int family, const Proposal *proposal,
                            double share, double *value);

/* The costs of a block at the prices, into parts->priced. */
void block_parts_price(BlockParts *parts, const Block *block, const double *price);

/* Reduced costs and row prices of the block of that number at the prices, into arrays of the
 * whole program, with its basis. Solves the block, without its rule. */
LpStatus block_parts_duals(BlockParts *parts, int number, const double *price,
                           double *reduced_cost, double *shadow_price, LpBasis *basis);

#endif
