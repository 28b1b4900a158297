/* Each feed for sale beside what it brings: what it costs landed and eaten, and what it is
 * worth to this herd; and market arithmetic from two of them, which is shown beside that and
 * used for nothing. */
#ifndef PLANNER_FEED_WORTH_H
#define PLANNER_FEED_WORTH_H

#include "planner/winter_plan.h"
#include "stock/feed_price.h"

#define WORTH_BUYING_KG 1.0 /* by a plan; less is rounding; own choice */

/* Money; NAN: not known. */
typedef struct {
    double gate_per_kg, freight_per_kg, landed_per_kg; /* as fed */
    double eaten_per_dry_kg;                           /* all in, of dry matter eaten */
    double per_nem_mcal, per_tdn_kg, per_protein_kg;   /* of what is eaten */
    double bought_kg;                                  /* by the plan */
    double first_per_kg;  /* landed, what the first tonne is worth, or what the plan buys where
                             that  is less; NO_LIMIT at any price */
    double load_per_kg;   /* the same of a whole load; NAN where the load is not known */
    double market_per_kg; /* by two references, as landed; NAN without them */
} FeedWorth;

typedef struct {
    const WinterPlan *plan;
    const FeedWorth *offers; /* [offer_count] */
    int offer_count;
    int energy_offer, protein_offer; /* the references; -1: there is none */
    NutrientPrices market;
} FeedWorths;

/* The plan without rules of the yard; worths are NAN where it is not balanced. */
FeedWorths feed_worths(Arena *arena, const WinterPlan *plan);

/* What a seller may ask at his gate before it is not worth hauling home: of a load, where it is
 * known, else of the first tonne. */
double feed_worth_at_gate(const FeedWorth *worth);

#endif
