/* What the search by price is made of, for yard_by_price.c, yard_ration_choice.c and
 * yard_dive.c alone. */
#ifndef PLANNER_YARD_BY_PRICE_PARTS_H
#define PLANNER_YARD_BY_PRICE_PARTS_H

#include "planner/block_choice.h"
#include "planner/yard_program.h"

#define GIVEN_KG 1e-6    /* dry matter a head and day */
#define BOUND_ROUNDS 150 /* of prices */

typedef struct {
    Arena *arena;
    const YardProgram *yard;
    const PlanQuestion *question;
    const YardRules *rules;
    const double *target;    /* [block_count * feed_count] rations that are wanted */
    BlockRule *rule;         /* [block_count] */
    BlockProgram *of_ration; /* to choose one ration by itself */
    BlockProgram *ruled;     /* the whole, each ration within its rules; NULL: not made */
    LinearProgram *open;     /* the base's with what faces and loads hold, no ration */
    double *fixed;           /* by column of the yard: so far; NAN: free */
    bool *not_whole;         /* [block_count * feed_count] bales that were let go */
    RationProgram held; /* by what is fixed so far, its solution, and by what it was solved */
    LpSolution solution;
    BlockProgram *blocks;
    bool is_narrow;        /* a ration has only feeds that are wanted in it */
    bool is_without_bales; /* of no ration have they to be whole */
    int solves;
} PriceSearch;

/* ---- yard_ration_choice.c ---- */

/* Sets the rules of all rations, with bales or without; their items are the feeds that fill, in
 * the order of feeds. */
void yard_make_rules(PriceSearch *search, bool with_bales, int most_nodes);

/* What draws a ration to what is wanted, by item of its rule: a feed looks the dearer the less
 * of it was wanted; bales, where is_near, stay near how many were. */
void yard_lean(const PriceSearch *search, int block, bool is_near, double *added, double *least,
               double *most);

/* Tells in which rations bales cannot be near what is wanted, and lets go those that cannot be
 * whole; false when a ration cannot keep the rules at all. */
bool yard_rations_can(PriceSearch *search, const double *row_price, bool *is_far);

/* The bales of an item need not be whole from here on; false when they need not be anyway. */
bool yard_let_go(PriceSearch *search, int block, int item);

/* Holds a ration to the feeds and bales of values by item; or opens it again. */
void yard_take(PriceSearch *search, int block, const double *value);
void yard_free_ration(PriceSearch *search, int block);

/* ---- yard_dive.c ---- */

/* Lessens what stacks and settled loads give by `reserve` times what rounding may need. */
void yard_keep_reserves(const PriceSearch *search, LinearProgram *lp, double reserve);

/* Solves the program with what is fixed so far; false, and the last stays, when it has no
 * answer.
 */
bool yard_hold_chosen(PriceSearch *search, const LpSolution *near);

/* Decides all rations by their rules, and holds them; false when that was not found. */
bool yard_decide_all(PriceSearch *search, const LpSolution *near, const bool *is_far);

/* Decides some anew, and then others, while the plan may be far from the bound; what is not
 * cheaper is dropped. */
void yard_improve(PriceSearch *search, const bool *is_far, double bound);

/* ---- yard_by_group.c ---- */

/* Chooses feeds for all rations, near to the bound if it can, and holds them; then bales beside
 * these, of which few may be let go. false when that was not found. `target` is what is wanted,
 * and `solution` what is held so far. */
bool yard_sets_by_group(PriceSearch *search, double bound);
bool yard_bales_by_group(PriceSearch *search);

/* No bales have to be whole from here on. */
void yard_let_go_all(PriceSearch *search);

#endif
