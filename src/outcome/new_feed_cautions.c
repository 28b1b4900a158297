#include "outcome/new_feed_cautions.h"
#include "cattle/limit_feeds.h"
#include "outcome/day_words.h"
#include "planner/step_up.h"
#include <math.h>

#define MUCH_NEW 0.50 /* of a ration, forage they had less of until then; own choice */

/* Share of a block's ration that is forage above what the block before it gave, if it is much;
 * else 0. */
static double new_forage(const WinterPlan *plan, int block) {
    const PlanQuestion *question = plan->question;
    double more = 0.0;
    for (int f = 0; f < question->feed_count; f++) {
        if (feed_class_kind(question->feeds[f].feed->feed_class)->is_forage)
            more += fmax(plan->blocks[block].eaten[f] - plan->blocks[block - 1].eaten[f], 0.0);
    }
    const double share = more / fmax(plan->blocks[block].filling_kg, 1e-9);
    return share > MUCH_NEW ? share : 0.0;
}

/* kg as fed a head of grain that takes the place of other grain, if it is more than may come at
 * once and no steps are shown for it, which is where there is no more grain in all; else 0. */
static double new_grain(const WinterPlan *plan, int block) {
    const PlanQuestion *question = plan->question;
    double more = 0.0, less = 0.0;
    for (int f = 0; f < question->feed_count; f++) {
        const PlanFeed *feed = &question->feeds[f];
        const double rise = (plan->blocks[block].eaten[f] - plan->blocks[block - 1].eaten[f]) *
                            plan_taken_per_eaten(feed);
        if (!limit_feeds_hold("grain", feed->feed))
            continue;
        more += fmax(rise, 0.0);
        less += fmax(-rise, 0.0);
    }
    const double replaced = fmin(more, less);
    return replaced > GRAIN_AT_ONCE_KG && more - less <= GRAIN_AT_ONCE_KG ? replaced : 0.0;
}

typedef double (*NewFeed)(const WinterPlan *plan, int block);
typedef const char *(*HowMuch)(const Cautions *cautions, double much);

static const char *in_per_cent(const Cautions *cautions, double share) {
    return arena_print(cautions->arena, "%.0f %%", share * 100.0);
}

static const char *in_weight(const Cautions *cautions, double kg) {
    return arena_print(cautions->arena, "%s a head",
                       measure_words(cautions->arena, cautions->units, MEASURE_FEED, kg));
}

/* "1 Feb (72 %) and 21 Feb (76 %)": the days on which a group's feed changes at once; "". */
static const char *days_of(const Cautions *cautions, int group, NewFeed much, HowMuch words) {
    const PlanQuestion *question = cautions->plan->question;
    Text days = text_new(cautions->arena);
    int first;
    const int count = group_blocks(question, group, &first);
    const char *held = NULL; /* the last of them, until it is known to be the last */
    for (int b = first + 1; b < first + count; b++) {
        const double found = plan_goes_on(question, b) ? much(cautions->plan, b) : 0.0;
        if (found <= 0.0)
            continue; /* or other cattle, which come to it as they are */
        if (held)
            text_print(&days, "%s%s", days.length > 0 ? ", " : "", held);
        held = arena_print(cautions->arena, "%s (%s)",
                           day_short(cautions->arena, question->blocks[b].from),
                           words(cautions, found));
    }
    if (held)
        text_print(&days, "%s%s", days.length > 0 ? " and " : "", held);
    return days.bytes;
}

static void add_new(Cautions *cautions, CautionTopic topic, const char *what, NewFeed much,
                    HowMuch words) {
    const PlanQuestion *question = cautions->plan->question;
    Text text = text_new(cautions->arena);
    for (int g = 0; g < question->farm->herd.count; g++) {
        const char *days = days_of(cautions, g, much, words);
        if (days[0] != '\0')
            text_print(&text, "%s%s on %s", text.length > 0 ? "; " : "",
                       question->farm->herd.names[g], days);
    }
    if (text.length > 0)
        caution_add(cautions, topic, SEVERITY_CAUTION,
                    arena_print(cautions->arena, "%s: %s", what, text.bytes), SOURCE_NONE);
}

void new_feed_cautions(Cautions *cautions) {
    add_new(cautions, CAUTION_NEW_FORAGE,
            "More than half of a ration is other forage than the day before", new_forage,
            in_per_cent);
    add_new(cautions, CAUTION_NEW_GRAIN, "Grain takes the place of other grain", new_grain,
            in_weight);
}
