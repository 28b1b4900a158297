/* What to change on a day of a cold spell: of each group the ration nearest to the one being
 * fed that covers what the cold takes, from feed that is in the yard, within what they can eat
 * and every safety limit. Nothing that harms when it is raised at once is raised far: all
 * grain, pellets and meals together by one step, any feed by a quarter of what is eaten, and no
 * feed high in nitrate, nor urea, at all. */
#ifndef PLANNER_COLD_SPELL_H
#define PLANNER_COLD_SPELL_H

#include "planner/winter_plan.h"

typedef struct {
    int block;           /* where the spell adds most; -1: it adds nothing to this group */
    Temperature air;     /* of the spell */
    double added_mcal;   /* NEm a head and day above the need the plan was made for */
    const double *eaten; /* [feed_count] kg DM a head and day on such a day */
    double lack_mcal;    /* NEm a head and day still short of upkeep and cold */
    double gain_kg;      /* growing cattle, that day */
    double
        condition_change; /* mature cattle, 9-point: what the lack of COLD_SPELL_DAYS takes */
    bool is_held_by_step; /* it is the step that keeps the rest from them */
} ColdSpell;

#define COLD_SPELL_DAYS 10 /* what is said of stacks and of condition; own choice */

/* As fed a head, all grain, pellets and meals together: one pound, a step that is taken every
 * second or third day [UNL_LIMIT_FEEDING]. */
#define CONCENTRATE_STEP_KG KG_PER_POUND

/* Any feed rises by no more than this share of all that is eaten, and no more than it is taken
 * away in all: the rumen takes a change in quarters. Own choice. */
#define RISE_SHARE 0.25

/* % NO3: a feed above it is brought in over two weeks and not on a cold day. What holds for a
 * whole diet before a caution is due; own choice. */
#define NITRATE_OF_NO_RISE 0.30

#define COLD_WORTH_A_CHANGE 0.05 /* Mcal; own choice */

/* [groups] of a plan that did not fail. */
const ColdSpell *cold_spells(Arena *arena, const WinterPlan *plan);

/* What to change on such a day of one block, whichever it is; its block is -1 where cold adds
 * nothing to speak of. */
ColdSpell cold_spell_in(Arena *arena, const WinterPlan *plan, int in_block);

/* [block_count] of every period; NULL for a farm of more than MOST_COLD_PERIODS rations, of
 * which nobody would read so many. */
const ColdSpell *cold_spells_by_period(Arena *arena, const WinterPlan *plan);
#define MOST_COLD_PERIODS 400

/* kg as fed that COLD_SPELL_DAYS take of a feed beyond the plan, for the group; may be below 0.
 */
double cold_spell_takes_kg(const WinterPlan *plan, const ColdSpell *spell, int feed);

#endif
