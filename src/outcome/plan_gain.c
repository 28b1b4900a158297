#include "outcome/plan_gain.h"
#include "base/text.h"
#include "outcome/day_words.h"
#include <math.h>

/* The same hundredth within which the gain of a ration is held to what was asked, and the share
 * of a bound within which it counts as what holds a ration up. Own choice. */
#define MORE_GAIN_SHARE 0.01
#define TIGHT_SHARE 0.005

/* A need that minerals bring takes no feed, and so no energy. */
static bool is_brought_by_minerals(const WinterPlan *plan, const BlockOutcome *outcome,
                                   const RationLimit *limit) {
    double minerals = 0.0;
    double all = 0.0;
    for (int f = 0; f < plan->question->feed_count; f++) {
        const double brought = limit->per_kg[f] * outcome->eaten[f];
        all += brought;
        minerals += ration_feed_fills(&plan->question->feeds[f]) ? 0.0 : brought;
    }
    return minerals > 0.5 * all;
}

/* At its least, and paid for. */
static bool holds_up(const WinterPlan *plan, const BlockOutcome *outcome,
                     const LimitOutcome *of) {
    return of->limit->law != LAW_GAIN && !of->limit->is_inner && of->shadow_price > 0.0 &&
           of->least > 0.0 && of->supplied <= of->least * (1.0 + TIGHT_SHARE) &&
           !is_brought_by_minerals(plan, outcome, of->limit);
}

GainCause plan_gain_cause(const WinterPlan *plan, int block, const RationLimit **limit) {
    const Requirement *need = &plan->question->blocks[block].need;
    const BlockOutcome *outcome = &plan->blocks[block];
    *limit = NULL;
    if (plan->verdict != PLAN_BALANCED || need->retained.mcal_per_day <= 0.0 ||
        outcome->gain_kg <= need->gain.kg_per_day * (1.0 + MORE_GAIN_SHARE))
        return GAIN_AS_ASKED;
    double dearest = 0.0;
    for (int i = 0; i < outcome->limit_count; i++) {
        const LimitOutcome *of = &outcome->limits[i];
        const double dollars = of->shadow_price * of->least;
        if (!holds_up(plan, outcome, of) || dollars <= dearest)
            continue;
        dearest = dollars;
        *limit = of->limit;
    }
    return *limit ? GAIN_BY_LIMIT : GAIN_BY_EVENING;
}

typedef struct {
    GainCause cause;
    const RationLimit *limit;
} Cause;

static bool is_same(Cause a, Cause b) {
    return a.cause == b.cause &&
           (a.cause != GAIN_BY_LIMIT || text_same(a.limit->key, b.limit->key));
}

/* One cause with every period it holds for, told at the first of them. */
static void add_cause(Text *text, Arena *arena, const PlanBlock *blocks, const Cause *causes,
                      int at, int count) {
    for (int b = 0; b < at; b++) {
        if (is_same(causes[b], causes[at]))
            return;
    }
    text_add(text, text->length > 0 ? "; " : "More gain than asked: ");
    if (causes[at].cause == GAIN_BY_LIMIT)
        text_print(text, "\"%s\" sets the ration from ", causes[at].limit->label);
    else
        text_add(text, "evened out with the rations beside it from ");
    for (int b = at; b < count; b++) {
        if (is_same(causes[b], causes[at]))
            text_print(text, "%s%s", b > at ? ", " : "", day_short(arena, blocks[b].from));
    }
}

const char *plan_gain_words(Arena *arena, const WinterPlan *plan, int first, int count) {
    Cause *causes = ARENA_ARRAY(arena, Cause, count);
    for (int b = 0; b < count; b++)
        causes[b].cause = plan_gain_cause(plan, first + b, &causes[b].limit);
    Text text = text_new(arena);
    for (int b = 0; b < count; b++) {
        if (causes[b].cause != GAIN_AS_ASKED)
            add_cause(&text, arena, &plan->question->blocks[first], causes, b, count);
    }
    text_add(&text, text.length > 0 ? "." : "");
    return text.bytes;
}
