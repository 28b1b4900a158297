#include "planner/yard_rule.h"
#include "base/choice.h"
#include "base/text.h"

static const struct {
    const char *key, *words;
} RULES[YARD_RULE_COUNT] = {
#define YARD_RULE(id, key, words) {key, words},
#include "planner/yard_rule.def"
#undef YARD_RULE
};

const char *yard_rule_key(YardRule rule) { return RULES[rule].key; }
const char *yard_rule_words(YardRule rule) { return RULES[rule].words; }

YardRules yard_rules_asked(const PlanQuestion *question) {
    const FeedingRules *rules = &question->farm->winter.rules;
    YardRules asked = {{false}};
    asked.is_on[YARD_RULE_MOST_FEEDS] = rules->most_feeds > 0;
    asked.is_on[YARD_RULE_LEAST_SHARE] = rules->least_share > 0.0;
    asked.is_on[YARD_RULE_LARGEST_CHANGE] = feeding_rules_change_is_held(rules);
    asked.is_on[YARD_RULE_WHOLE_LOADS] = rules->whole_loads;
    asked.is_on[YARD_RULE_WHOLE_BALES] = rules->whole_bales;
    asked.is_on[YARD_RULE_ONE_FACE] = rules->one_face_open;
    for (int f = 0; f < question->own_count; f++)
        asked.is_on[YARD_RULE_LEAST_FACE] |= question->feeds[f].least_face_kg_per_day > 0.0;
    return asked;
}

int yard_rules_count(const YardRules *rules) {
    int count = 0;
    for (int rule = 0; rule < YARD_RULE_COUNT; rule++)
        count += rules->is_on[rule];
    return count;
}

#define DAYS_A_WEEK 7
#define EATEN_SHARE 0.02 /* of live weight, dry matter a day: only to see how many bales */
#define MANY_BALES 10.0
#define SOME_BALES 5.0

static double bales_a_week_per_eaten(const PlanBlock *block, const PlanFeed *feed) {
    return DAYS_A_WEEK * block->head * plan_taken_per_eaten(feed) / feed->bale_kg;
}

int yard_bale_weeks(const PlanBlock *block, const PlanFeed *feed) {
    const double all =
        EATEN_SHARE * block->need.live_weight.kg * bales_a_week_per_eaten(block, feed);
    const int weeks = all >= MANY_BALES ? 1 : all >= SOME_BALES ? 2 : 4;
    const int there = block->days / DAYS_A_WEEK;
    return there < 1 ? 1 : there < weeks ? there : weeks;
}

double yard_bales_per_eaten(const PlanBlock *block, const PlanFeed *feed) {
    return yard_bale_weeks(block, feed) * bales_a_week_per_eaten(block, feed);
}

/* ---- doubts ---- */

static void doubt_loads(Faults *faults, const Farm *farm) {
    const PriceList *list = &farm->inventory.for_sale;
    for (int i = 0; i < list->count; i++) {
        const Offer *offer = &list->offers[i];
        if (offer->load_kg <= 0.0)
            doubt_add(faults, offer->place,
                      "whole_loads is asked for, but no load is given for '%s': any amount of "
                      "it can be bought",
                      text_excerpt(faults->arena, offer->name));
    }
    if (list->count == 0)
        doubt_add(faults, farm->winter.rules.whole_loads_place,
                  "whole_loads: nothing is for sale");
}

static void doubt_bales(Faults *faults, const Farm *farm) {
    for (int i = 0; i < farm->inventory.stacks.count; i++) {
        if (farm->inventory.stacks.stacks[i].bale_count > 0.0)
            return;
    }
    doubt_add(faults, farm->winter.rules.whole_bales_place,
              "whole_bales: no stack has its bales counted");
}

static void doubt_faces(Faults *faults, const Farm *farm) {
    int faces = 0;
    for (int i = 0; i < farm->inventory.stacks.count; i++)
        faces += stack_has_face(&farm->inventory.stacks.stacks[i]);
    if (faces < 2)
        doubt_add(faults, farm->winter.rules.one_face_place,
                  "one_face_open: there is %s pit, bag or bale tube",
                  faces == 1 ? "only one" : "no");
}

/* Groups of yards no stack lies in pay for every haul between yards: is a name misspelt? */
static void doubt_yards(Faults *faults, const Farm *farm) {
    const Stacks *stacks = &farm->inventory.stacks;
    const char **yards = ARENA_ARRAY(faults->arena, const char *, stacks->count + 1);
    bool is_dear = false;
    int count = 0;
    for (int i = 0; i < stacks->count; i++) {
        is_dear |= stacks->stacks[i].other_yard_per_kg > 0.0;
        if (stacks->stacks[i].yard[0] != '\0')
            yards[count++] = stacks->stacks[i].yard;
    }
    for (int g = 0; is_dear && g < farm->herd.count; g++) {
        const HerdGroup *group = &farm->herd.groups[g];
        bool is_known = false;
        for (int i = 0; i < count; i++)
            is_known |= text_same_letters(yards[i], group->yard);
        if (group->yard[0] == '\0') {
            doubt_add(
                faults, group->place,
                "yard: is empty for '%s', so no haul to another yard is reckoned for them",
                text_excerpt(faults->arena, group->name));
        } else if (!is_known) {
            const char *guess = choice_guess(faults->arena, group->yard, yards, count);
            doubt_add(faults, group->place,
                      "yard: no stack lies in '%s', so all of them are hauled from another%s%s",
                      text_excerpt(faults->arena, group->yard), guess ? "; " : "",
                      guess ? guess : "");
        }
    }
}

void yard_rules_doubt(Faults *faults, const Farm *farm) {
    const FeedingRules *rules = &farm->winter.rules;
    if (rules->whole_loads)
        doubt_loads(faults, farm);
    if (rules->whole_bales)
        doubt_bales(faults, farm);
    if (rules->one_face_open)
        doubt_faces(faults, farm);
    doubt_yards(faults, farm);
}
